package notify

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"strconv"
	"time"
)

// A Manager is who started the program.
type Manager struct {
	socket string
	every  time.Duration // how often it wants to hear; 0: it does not
}

// From reads who asked from the environment: NOTIFY_SOCKET, and for whom the watchdog is, WATCHDOG_USEC and WATCHDOG_PID.
// The error says which of them can't be read.
func From(getenv func(string) string) (Manager, error) {
	m := Manager{socket: getenv("NOTIFY_SOCKET")}
	usec := getenv("WATCHDOG_USEC")
	if m.socket == "" || usec == "" {
		return m, nil
	}
	if pid := getenv("WATCHDOG_PID"); pid != "" && pid != strconv.Itoa(os.Getpid()) {
		return m, nil // meant for another process
	}
	n, err := strconv.ParseInt(usec, 10, 64)
	if err != nil || n <= 0 {
		return m, fmt.Errorf("WATCHDOG_USEC: %q is no time in microseconds", usec)
	}
	m.every = time.Duration(n) * time.Microsecond
	return m, nil
}

// Say tells the manager a state, such as READY=1. The error is of the socket.
func (m Manager) Say(state string) error {
	if m.socket == "" {
		return nil
	}
	c, err := net.DialUnix("unixgram", nil, &net.UnixAddr{Name: m.socket, Net: "unixgram"})
	if err != nil {
		return fmt.Errorf("telling the service manager: %w", err)
	}
	_, err = c.Write([]byte(state))
	return errors.Join(err, c.Close())
}

// Live tells the manager that the program lives, twice as often as it asks, for as long as alive says so and until the
// context ends. A program that has stopped answering is thus started anew.
func (m Manager) Live(ctx context.Context, alive func(context.Context) error) {
	if m.every == 0 {
		return
	}
	tick := time.NewTicker(m.every / 2)
	defer tick.Stop()
	for {
		if alive(ctx) == nil {
			_ = m.Say("WATCHDOG=1")
		}
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
	}
}
