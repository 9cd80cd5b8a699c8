package store_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"wetside/book"
	"wetside/store"
)

// The test binary is also the process that is killed: with childEnv set it runs one of the jobs below and no test.
const (
	childEnv = "WETSIDE_STORE_CHILD"
	pathEnv  = "WETSIDE_STORE_PATH"
	roundEnv = "WETSIDE_STORE_ROUND"
	limitEnv = "WETSIDE_STORE_LIMIT" // bytes that a file may grow to
	dieEnv   = "WETSIDE_STORE_DIE"   // the statement of a change of the schema after which the child kills itself
	torture  = "WETSIDE_TORTURE"     // set: the long form
)

func TestMain(m *testing.M) {
	if job := os.Getenv(childEnv); job != "" {
		os.Exit(child(job, os.Getenv(pathEnv), os.Getenv(roundEnv)))
	}
	status := m.Run()
	if err := private.stop(); err != nil {
		fmt.Println("stopping PostgreSQL:", err)
		status = 1
	}
	os.Exit(status)
}

// child does a job and returns its exit status. It says on stdout, a line at a time, what was acknowledged.
func child(job, path, round string) int {
	if err := limitFiles(os.Getenv(limitEnv)); err != nil {
		fmt.Println("broken", err)
		return 1
	}
	if job == "flows" {
		runtime.LockOSThread() // strace counts the calls of each thread by themselves
	}
	ctx := context.Background()
	c := store.Config{Path: path, Now: clock(evening)}
	if strings.HasPrefix(path, "postgres:") {
		c.Path, c.Database = "", path
	}
	switch job {
	case "backup":
		return upkeepChild(ctx, c, func(s *store.Store) error { _, err := s.Backup(ctx, round); return err })
	case "restore":
		_, err := store.Restore(ctx, c, round, store.RestoreOptions{})
		return toldChild(err)
	}
	c.Told = dieAt(os.Getenv(dieEnv))
	s, err := store.Open(ctx, c)
	if err != nil {
		fmt.Println("refused", book.KeyOf(err))
		return 1
	}
	defer func() { _ = s.Close() }()
	if job == "flows" {
		return tellFlows(ctx, s)
	}
	if err := s.Create(ctx, "room"); err != nil {
		fmt.Println("failed", book.KeyOf(err))
		return 1
	}
	fmt.Println("open")
	switch job {
	case "import", "export", "prove", "fold", "begin":
		n, err := strconv.Atoi(round)
		if err != nil {
			return 1
		}
		return bigChild(ctx, s, job, n)
	case "hold":
		_, _ = io.Copy(io.Discard, os.Stdin) // until the parent goes away
	case "write":
		writeAll(ctx, s, round, 8, -1)
	case "some":
		writeAll(ctx, s, round, 1, 60)
	case "few":
		writeAll(ctx, s, round, 8, 20)
	case "many":
		writeAll(ctx, s, round, 8, 60)
	}
	return 0
}

// writeAll lets several writers append batches until they are stopped or have had their number of tries. Every result
// is a line: "ack id position" for each entry, or "failed key".
func writeAll(ctx context.Context, s *store.Store, round string, writers, tries int) {
	var mu sync.Mutex
	var wait sync.WaitGroup
	for w := range writers {
		wait.Go(func() {
			for n := 0; tries < 0 || n < tries; n++ {
				var batch []book.Entry
				for k := range 1 + n%3 {
					batch = append(batch, drawnOrWorked(fmt.Sprintf("r%s-w%d-%d-%d", round, w, n, k), w+k))
				}
				stored, err := written(ctx, s, batch, w)
				var line strings.Builder
				for _, e := range stored {
					fmt.Fprintf(&line, "ack %s %d\n", e.ID, e.Position)
				}
				if err != nil {
					fmt.Fprintf(&line, "failed %s\n", book.KeyOf(err))
				}
				mu.Lock()
				_, _ = os.Stdout.WriteString(line.String())
				mu.Unlock()
			}
		})
	}
	wait.Wait()
}

// written writes a batch, for every other writer each entry of it by itself.
func written(ctx context.Context, s *store.Store, batch []book.Entry, writer int) ([]book.Entry, error) {
	if writer%2 == 0 {
		return s.Append(ctx, "room", batch, nil)
	}
	var stored []book.Entry
	out, err := s.Each(ctx, "room", batch)
	for _, o := range out {
		if o.Err != nil {
			return nil, o.Err
		}
		stored = append(stored, o.Entry)
	}
	return stored, err
}

// A process is a running child.
type process struct {
	*exec.Cmd
	lines *bufio.Scanner
	stdin io.WriteCloser
}

// start runs the test binary as a child, with words before it in the command where given, and waits until it has the
// store open.
func start(t *testing.T, job, path, round string, limit int, before ...string) *process {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	words := slices.Concat(before, []string{self})
	cmd := exec.Command(words[0], words[1:]...)
	cmd.Env = append(os.Environ(), childEnv+"="+job, pathEnv+"="+path, roundEnv+"="+round)
	if limit > 0 {
		cmd.Env = append(cmd.Env, limitEnv+"="+strconv.Itoa(limit))
	}
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	p := &process{Cmd: cmd, lines: bufio.NewScanner(out), stdin: in}
	t.Cleanup(func() { _ = p.Process.Kill(); _ = p.Wait() })
	return p
}

// next returns the child's next line, empty at the end.
func (p *process) next() string {
	if p.lines.Scan() {
		return p.lines.Text()
	}
	return ""
}

// heed takes in a line of writeAll.
func heed(t *testing.T, line string, acked map[string]int64, failed map[string]int) {
	t.Helper()
	words := strings.Fields(line)
	switch {
	case len(words) == 3 && words[0] == "ack":
		position, err := strconv.ParseInt(words[2], 10, 64)
		if err != nil {
			t.Errorf("line %q: %v", line, err)
		}
		acked[words[1]] = position
	case len(words) == 2 && (words[0] == "failed" || words[0] == "refused"):
		failed[words[1]]++
	default:
		t.Errorf("the child says %q", line)
	}
}
