package postgres

import (
	"context"
	"time"

	"github.com/lib/pq"
)

// listenAgain is how long the driver would wait before it connects anew; whoever listens does so before.
const listenAgain = time.Minute

// Listen hears what is said on a channel, on a connection of its own, until that or ctx ends. ready is called once, when nothing
// is missed any more.
func (c *Config) Listen(ctx context.Context, channel string, ready func(), heard func(said string)) error {
	ctx, end := context.WithCancelCause(ctx)
	defer end(nil)
	l := pq.NewDialListener(&wires{}, c.all, listenAgain, listenAgain, func(e pq.ListenerEventType, err error) {
		if e != pq.ListenerEventConnected {
			end(err)
		}
	})
	defer context.AfterFunc(ctx, func() { _ = l.Close() })()
	if err := l.Listen(channel); err != nil {
		return err
	}
	ready()
	for n := range l.Notify {
		if n != nil {
			heard(n.Extra)
		}
	}
	return context.Cause(ctx)
}
