package postgres

import (
	"context"
	"database/sql/driver"
	"errors"
	"fmt"
	"net"
	"sync"
	"sync/atomic"
	"time"

	"github.com/lib/pq"
)

// A ConnectError is why a host can't be used.
type ConnectError struct{ Err error }

// Error says it for the log.
func (e *ConnectError) Error() string { return "connecting: " + e.Err.Error() }

// Unwrap returns what hindered it.
func (e *ConnectError) Unwrap() error { return e.Err }

// OnlyReads is the SQLSTATE, read_only_sql_transaction, with which a host that only reads is refused.
const OnlyReads = "25006"

// Connect connects to the first host that will do.
func (c *Config) Connect(ctx context.Context) (driver.Conn, error) {
	var errs []error
	for _, host := range c.hosts {
		made, err := connect(ctx, host, !c.chosen)
		if err == nil {
			return made, nil
		}
		errs = append(errs, &ConnectError{err})
	}
	return nil, errors.Join(errs...)
}

// Driver returns the driver of the connections.
func (c *Config) Driver() driver.Driver { return &pq.Driver{} }

// connect connects to one host. The driver itself does not end the handshake when ctx ends, and leaves a
// connection open that a server without TLS did not take.
func connect(ctx context.Context, host pq.Config, writable bool) (driver.Conn, error) {
	w := &wires{}
	connector, err := pq.NewConnectorConfig(host)
	if err != nil {
		return nil, err
	}
	connector.Dialer(w)
	stop := context.AfterFunc(ctx, w.cut)
	inner, err := connector.Connect(ctx)
	stop()
	wire := w.last()
	if err != nil {
		if wire != nil {
			_ = wire.Close()
		}
		return nil, err
	}
	c := &conn{driverConn: inner.(driverConn), wire: wire} //nolint:forcetypeassert // the driver's own
	if err := c.prepare(ctx, writable); err != nil {
		_ = c.Close()
		return nil, err
	}
	return c, nil
}

// driverConn is what the driver's connections can do.
type driverConn interface {
	driver.Conn
	driver.ConnBeginTx
	driver.ConnPrepareContext
	driver.ExecerContext
	driver.QueryerContext
	driver.Pinger
	driver.SessionResetter
	driver.Validator
	driver.NamedValueChecker
}

// A conn is a connection on which nobody waits longer than his context, whatever becomes of the server: the driver
// asks the server to end the statement, and waits for its answer.
type conn struct {
	driverConn
	wire net.Conn
	cut  atomic.Bool // a context has ended; the connection is of no use any more
}

// prepare makes commits wait for the disk, where the server is set not to, and refuses a server that only reads.
func (c *conn) prepare(ctx context.Context, writable bool) error {
	const disk = `IF current_setting('synchronous_commit') = 'off' THEN PERFORM set_config('synchronous_commit', 'on', false); END IF;`
	const write = `IF current_setting('transaction_read_only') = 'on' THEN RAISE SQLSTATE '` + OnlyReads + `' USING MESSAGE = 'it only reads'; END IF;`
	block := disk
	if writable {
		block += write
	}
	_, err := c.ExecContext(ctx, "DO $$BEGIN "+block+" END$$", nil)
	return err
}

// within ends waiting on the connection when ctx ends, until the function that it returns is called.
func (c *conn) within(ctx context.Context) (stop func()) {
	if ctx.Done() == nil {
		return func() {}
	}
	cut := make(chan struct{})
	stopped := context.AfterFunc(ctx, func() {
		defer close(cut)
		c.cut.Store(true)
		_ = c.wire.SetDeadline(time.Unix(1, 0)) // which has passed
	})
	return sync.OnceFunc(func() {
		if !stopped() {
			<-cut // else whoever has the connection next would be cut off in its place
		}
	})
}

// ended puts the end of a context before what it brought about.
func ended(ctx context.Context, err error) error {
	if why := ctx.Err(); err != nil && why != nil {
		return fmt.Errorf("%w: %w", why, err)
	}
	return err
}

// BeginTx begins a transaction.
func (c *conn) BeginTx(ctx context.Context, o driver.TxOptions) (driver.Tx, error) {
	defer c.within(ctx)()
	tx, err := c.driverConn.BeginTx(ctx, o)
	return tx, ended(ctx, err)
}

// ExecContext runs a statement.
func (c *conn) ExecContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Result, error) {
	defer c.within(ctx)()
	result, err := c.driverConn.ExecContext(ctx, query, args)
	return result, ended(ctx, err)
}

// QueryContext runs a query, whose rows are waited for no longer than the context.
func (c *conn) QueryContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Rows, error) {
	stop := c.within(ctx)
	found, err := c.driverConn.QueryContext(ctx, query, args)
	if err != nil {
		stop()
		return nil, ended(ctx, err)
	}
	return &rows{Rows: found, stop: stop}, nil
}

// Ping asks whether the server is there.
func (c *conn) Ping(ctx context.Context) error {
	defer c.within(ctx)()
	return ended(ctx, c.driverConn.Ping(ctx))
}

// IsValid reports whether the connection can be used again.
func (c *conn) IsValid() bool { return !c.cut.Load() && c.driverConn.IsValid() }

// rows are rows under a context.
type rows struct {
	driver.Rows
	stop func()
}

// Close lets the rest of the rows go.
func (r *rows) Close() error {
	defer r.stop()
	return r.Rows.Close()
}

// wires connects, and knows what it has connected while one connection is made.
type wires struct {
	mu   sync.Mutex
	made []net.Conn
	done bool // the connection is made; what comes now are others
	gone bool // nobody waits for it any more
}

// DialContext connects. What is not answered is given up.
func (w *wires) DialContext(ctx context.Context, network, address string) (net.Conn, error) {
	d := net.Dialer{Timeout: connectWithin, Control: giveUp, KeepAliveConfig: net.KeepAliveConfig{
		Enable: true, Idle: deadAfter / 4, Interval: deadAfter / 4, Count: 3,
	}}
	conn, err := d.DialContext(ctx, network, address)
	w.mu.Lock()
	defer w.mu.Unlock()
	switch {
	case err != nil || w.done:
	case w.gone:
		_ = conn.Close()
	default:
		w.made = append(w.made, conn)
	}
	return conn, err
}

// Dial is DialContext for as long as it takes.
func (w *wires) Dial(network, address string) (net.Conn, error) {
	return w.DialContext(context.Background(), network, address)
}

// DialTimeout is DialContext with a bound.
func (w *wires) DialTimeout(network, address string, timeout time.Duration) (net.Conn, error) {
	ctx, cancel := context.WithTimeout(context.Background(), timeout)
	defer cancel()
	return w.DialContext(ctx, network, address)
}

// cut ends waiting on what is being made.
func (w *wires) cut() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.gone = true
	for _, conn := range w.made {
		_ = conn.Close()
	}
}

// last returns what was connected last, nil where nothing was, and lets go of what was tried before.
func (w *wires) last() net.Conn {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.done = true
	if len(w.made) == 0 {
		return nil
	}
	last := w.made[len(w.made)-1]
	for _, conn := range w.made[:len(w.made)-1] {
		_ = conn.Close()
	}
	w.made = nil
	return last
}
