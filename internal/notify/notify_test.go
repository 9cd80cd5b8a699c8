package notify_test

import (
	"context"
	"errors"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"wetside/internal/notify"
)

// env is an environment.
func env(of map[string]string) func(string) string {
	return func(name string) string { return of[name] }
}

// listen stands in for systemd's end of the socket (sd_notify(3)).
func listen(t *testing.T) (*net.UnixConn, string) {
	t.Helper()
	at := filepath.Join(t.TempDir(), "n")
	c, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: at, Net: "unixgram"})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = c.Close() })
	return c, at
}

func heard(t *testing.T, c *net.UnixConn) string {
	t.Helper()
	if err := c.SetReadDeadline(time.Now().Add(5 * time.Second)); err != nil {
		t.Fatal(err)
	}
	b := make([]byte, 200)
	n, err := c.Read(b)
	if err != nil {
		t.Fatal(err)
	}
	return string(b[:n])
}

func TestSay(t *testing.T) {
	c, at := listen(t)
	m, err := notify.From(env(map[string]string{"NOTIFY_SOCKET": at}))
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Say("READY=1"); err != nil {
		t.Fatal(err)
	}
	if got := heard(t, c); got != "READY=1" {
		t.Errorf("heard %q", got)
	}
	nobody, err := notify.From(env(nil))
	if err != nil || nobody.Say("READY=1") != nil {
		t.Errorf("without a manager: %v", err)
	}
	gone, err := notify.From(env(map[string]string{"NOTIFY_SOCKET": at + "-gone"}))
	if err != nil || gone.Say("READY=1") == nil {
		t.Errorf("a socket that is not there: %v, and no error when it is told", err)
	}
}

// The watchdog hears of a program for as long as it lives, and no longer.
func TestLive(t *testing.T) {
	c, at := listen(t)
	asked := map[string]string{"NOTIFY_SOCKET": at, "WATCHDOG_USEC": "20000", "WATCHDOG_PID": strconv.Itoa(os.Getpid())}
	m, err := notify.From(env(asked))
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done, beats := make(chan bool), 0
	go func() {
		m.Live(ctx, func(context.Context) error {
			if beats++; beats > 3 {
				cancel()
				return errors.New("it hangs")
			}
			return nil
		})
		done <- true
	}()
	for range 3 {
		if got := heard(t, c); got != "WATCHDOG=1" {
			t.Errorf("heard %q", got)
		}
	}
	<-done
	if err := c.SetReadDeadline(time.Now()); err != nil {
		t.Fatal(err)
	}
	if n, _ := c.Read(make([]byte, 9)); n != 0 {
		t.Error("it was said to live when it did not")
	}
}

func TestFrom(t *testing.T) {
	for name, of := range map[string]map[string]string{
		"no number": {"NOTIFY_SOCKET": "/s", "WATCHDOG_USEC": "soon"},
		"nought":    {"NOTIFY_SOCKET": "/s", "WATCHDOG_USEC": "0"},
	} {
		if _, err := notify.From(env(of)); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	m, err := notify.From(env(map[string]string{"NOTIFY_SOCKET": "/s", "WATCHDOG_USEC": "9000000", "WATCHDOG_PID": "1"}))
	if err != nil {
		t.Fatal(err)
	}
	m.Live(t.Context(), func(context.Context) error { panic("meant for another") }) // comes back at once
}
