package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// The limits that the figures are held against, at p99.
const (
	ackLimit  = 25 * time.Millisecond
	showLimit = 300 * time.Millisecond
)

// load is what is to be done.
type load struct {
	program  string
	database string   // of a PostgreSQL; empty: a file
	urls     []string // of the processes
	sinks    int
	lasts    time.Duration
	book     int // entries before it begins
	now      func() time.Time
}

func main() {
	l := load{now: time.Now} //nolint:forbidigo // it measures
	flag.StringVar(&l.program, "program", "bin/wetside", "the program that serves")
	flag.StringVar(&l.database, "database", "", "an empty PostgreSQL database to serve by two processes, in place of a file by one")
	flag.IntVar(&l.sinks, "sinks", 200, "how many sinks tap, once a second each")
	flag.DurationVar(&l.lasts, "for", 30*time.Second, "how long")
	flag.IntVar(&l.book, "book", 0, "how many entries the book has before, in steps of 500")
	beside := flag.Bool("beside", false, "ask a bare Go server on SQLite and the program for pages and posts, in turn")
	file := flag.String("bare", "", "be the bare server over a new file")
	flag.Parse()
	run := l.run
	switch {
	case *file != "":
		run = func(ctx context.Context, out io.Writer) error {
			ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
			defer stop()
			return serveBare(ctx, *file, out)
		}
	case *beside:
		run = l.beside
	}
	if err := run(context.Background(), os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "load:", err)
		os.Exit(1) //nolint:forbidigo // this is main
	}
}

// run starts the server, lets the sinks tap and prints.
func (l *load) run(ctx context.Context, out io.Writer) (err error) {
	dir, err := os.MkdirTemp("", "wetside-load")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	bare, err := l.syncs(dir)
	if err != nil {
		return err
	}
	processes := 1
	if l.database != "" {
		processes = 2
	}
	f := &figures{sent: map[string]time.Time{}}
	var stops []func() (time.Duration, error)
	for range processes {
		stop, failed := l.serve(ctx, filepath.Join(dir, "data"))
		if err = failed; err != nil {
			break
		}
		stops = append(stops, stop)
	}
	if err == nil {
		if err = l.fillBook(ctx); err == nil {
			err = l.tapAll(ctx, f)
		}
	}
	var busy time.Duration
	for _, stop := range stops {
		took, stopped := stop()
		busy, err = busy+took, errors.Join(err, stopped)
	}
	if err != nil {
		return err
	}
	l.print(out, bare, f)
	_, _ = fmt.Fprintf(out, "the server's processor time, filling and stopping with it: %.2f of one processor\n", busy.Seconds()/(l.lasts+settling).Seconds())
	return nil
}

// syncs times synced writes of 4 KiB, the least that a commit does.
func (l *load) syncs(dir string) ([]time.Duration, error) {
	f, err := os.Create(filepath.Join(dir, "bare")) //nolint:gosec // in a folder of our own
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }()
	var all []time.Duration
	for range 200 {
		began := l.now()
		if _, err := f.Write(make([]byte, 4096)); err != nil {
			return nil, err
		}
		if err := f.Sync(); err != nil {
			return nil, err
		}
		all = append(all, l.now().Sub(began))
	}
	return all, nil
}

// serve starts the program and reads where it is.
func (l *load) serve(ctx context.Context, data string) (stop func() (busy time.Duration, err error), err error) {
	return l.start(ctx, l.program, "serve", "--addr", "127.0.0.1:0", "--data", data)
}

// start starts a server that prints where it is.
func (l *load) start(ctx context.Context, program string, args ...string) (stop func() (busy time.Duration, err error), err error) {
	cmd := exec.CommandContext(ctx, program, args...) //nolint:gosec // ours, or this program
	if l.database != "" {
		cmd.Env = append(os.Environ(), "WETSIDE_DATABASE="+l.database)
	}
	cmd.Stderr = os.Stderr
	lines, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	first := bufio.NewScanner(lines)
	first.Scan()
	url, ok := strings.CutPrefix(first.Text(), "wetside: ")
	if !ok {
		_ = cmd.Process.Kill()
		return nil, fmt.Errorf("the server says %q: %w", first.Text(), cmd.Wait())
	}
	l.urls = append(l.urls, strings.TrimSuffix(url, "/"))
	return func() (time.Duration, error) {
		err := errors.Join(cmd.Process.Signal(os.Interrupt), cmd.Wait())
		return cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), err
	}, nil
}

// fillBook writes what the book has before.
func (l *load) fillBook(ctx context.Context) error {
	for from := 0; from < l.book; from += 500 {
		var taps []string
		for i := range 500 {
			taps = append(taps, tap(fmt.Sprintf("before-%d", from+i), (from+i)/200, l.now()))
		}
		if err := send(ctx, http.DefaultClient, l.urls[0], "before", taps...); err != nil {
			return err
		}
	}
	return nil
}

// print prints what came out.
func (l *load) print(out io.Writer, bare []time.Duration, f *figures) {
	alone, alone99 := at(bare, 50), at(bare, 99)
	_, _ = fmt.Fprintf(out, "%d sinks, a tap a second each for %v, %d streams, %d entries before; %s\n",
		l.sinks, l.lasts, l.sinks, l.book, l.engine())
	_, _ = fmt.Fprintf(out, "one synced write alone: p50 %s, p99 %s\n", ms(alone), ms(alone99))
	for _, row := range []struct {
		what  string
		all   []time.Duration
		limit time.Duration
	}{{"acknowledged", f.acked, ackLimit}, {"shown on another sink", f.shown, showLimit}} {
		p99, verdict := at(row.all, 99), "within"
		if p99 > row.limit {
			verdict = "over"
		}
		_, _ = fmt.Fprintf(out, "%-22s %6d: p50 %s (%.1f of the write alone), p99 %s (%.1f), most %s; limit at p99 %s: %s\n", row.what,
			len(row.all), ms(at(row.all, 50)), ratio(at(row.all, 50), alone), ms(p99), ratio(p99, alone99), ms(at(row.all, 100)), ms(row.limit), verdict)
	}
	_, _ = fmt.Fprintf(out, "taps that failed: %d; shown to nobody: %d\n", f.failed, len(f.acked)-len(f.shown))
}

// engine says what was measured.
func (l *load) engine() string {
	if l.database == "" {
		return "one process, SQLite, synchronous=FULL"
	}
	return fmt.Sprintf("%d processes on one PostgreSQL, each tap shown by the other", len(l.urls))
}

// at returns a percentile.
func at(all []time.Duration, percent int) time.Duration {
	if len(all) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(all))
	return sorted[(len(sorted)-1)*percent/100]
}

func ratio(a, b time.Duration) float64 { return float64(a) / float64(max(b, 1)) }

func ms(d time.Duration) string { return fmt.Sprintf("%.1f ms", float64(d.Microseconds())/1000) }
