package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"strings"
	"syscall"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"wetside/book"
)

// kindOfPostgres tells the trouble by the server's code, or by what became of the connection.
func kindOfPostgres(err error) (book.ErrorKind, bool) {
	if e, ok := errors.AsType[*pgconn.PgError](err); ok {
		return kindOfState(e.Code), true
	}
	_, connecting := errors.AsType[*pgconn.ConnectError](err)
	_, network := errors.AsType[net.Error](err)
	switch {
	case connecting:
		return book.Away, true
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return book.Cancelled, true
	case network, pgconn.SafeToRetry(err), errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, net.ErrClosed),
		errors.Is(err, driver.ErrBadConn), errors.Is(err, sql.ErrConnDone), errors.Is(err, pgconn.ErrConnClosed):
		return book.Away, true
	default:
		return book.Internal, false
	}
}

// kindOfState tells the trouble by SQLSTATE (PostgreSQL's manual, appendix A).
func kindOfState(code string) book.ErrorKind {
	switch code {
	case "57P01", "57P02", "57P03", // it stops, has crashed, starts
		"25P03", "57P05", // it gave the connection up
		"53300",          // too many connections
		"40001", "40P01": // it broke one of two off that waited for each other
		return book.Away
	case "53100":
		return book.Full
	case "55P03", "53200":
		return book.Busy
	case "57014":
		return book.Cancelled
	case "42501", "25006", "3D000", "3F000":
		return book.NoAccess
	case "XX001", "XX002":
		return book.Damaged
	case "58030":
		return book.Failing
	}
	switch code[:min(2, len(code))] {
	case "08":
		return book.Away
	case "28":
		return book.NoAccess
	default:
		return book.Internal
	}
}

// advised puts before an error of a connection what somebody can do about it, all on one line.
func advised(err error, config *pgx.ConnConfig) error {
	kind, known := kindOfPostgres(err)
	if !known {
		return err
	}
	what := adviceOn(err)
	if what == "" {
		return err
	}
	if config != nil {
		what = fmt.Sprintf("%s (user %s, database %s at %s port %d)", what, config.User, config.Database, config.Host, config.Port)
	}
	last := err
	if e, ok := errors.AsType[*pgconn.PgError](err); ok {
		last = e
	} else if e, ok := errors.AsType[net.Error](err); ok {
		last = e
	}
	key := "database_refused"
	if kind == book.Away {
		key = "database_away"
	}
	return &book.Error{Kind: kind, Key: key, Cause: errors.New(what + ": " + strings.Join(strings.Fields(last.Error()), " "))}
}

// keyOfPostgres is keyOf where a server lets nobody in, in place of a file.
func keyOfPostgres(k book.ErrorKind) string {
	if k == book.NoAccess {
		return "database_refused"
	}
	return keyOf(k)
}

// adviceOn says what somebody can do, empty where nothing more is known than the error says.
func adviceOn(err error) string {
	if e, ok := errors.AsType[*pgconn.PgError](err); ok {
		return map[string]string{
			"28P01": "PostgreSQL does not take this user and password: look at the URL, or set it anew with  ALTER ROLE ... PASSWORD",
			"28000": "PostgreSQL does not let this user in from here: look at its pg_hba.conf and whether the role may log in",
			"3D000": "there is no such database: make it with  createdb --owner=USER DATABASE",
			"42501": "this user may not make tables there: make it the database's owner with  ALTER DATABASE ... OWNER TO ...",
			"3F000": "no schema to make tables in: look at search_path",
			"53300": "PostgreSQL takes no more connections: raise max_connections, or run fewer processes (each takes up to 8)",
			"57P03": "PostgreSQL is starting or stopping: try again in a moment",
		}[e.Code]
	}
	if _, ok := errors.AsType[*net.DNSError](err); ok {
		return "no machine of this name is known here: look at the host in the URL"
	}
	switch {
	case errors.Is(err, syscall.ECONNREFUSED), errors.Is(err, fs.ErrNotExist):
		return "nobody answers: is PostgreSQL running there, does it listen on that address (listen_addresses), is the port right?"
	case errors.Is(err, context.DeadlineExceeded), pgconn.Timeout(err), errors.Is(err, syscall.EHOSTUNREACH), errors.Is(err, syscall.ENETUNREACH):
		return "the machine does not answer: is it on, is it the right address, does a firewall stand between?"
	case errors.Is(err, pgconn.ErrReadOnlyConnection):
		return "this PostgreSQL only reads (a standby): name the one that is written to"
	default:
		return ""
	}
}
