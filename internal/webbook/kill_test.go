//go:build unix

package webbook_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/webbook"
	"wetside/web"
)

// The test binary is also the server that is killed.
const (
	pathEnv = "WETSIDE_KILLED_PATH" // where its book is
	dieEnv  = "WETSIDE_KILLED_DIES" // it kills itself between the commit of a tap and its answer
)

func TestMain(m *testing.M) {
	if path := os.Getenv(pathEnv); path != "" {
		if err := killable(path, os.Getenv(dieEnv) != ""); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

func still() time.Time { return time.Date(2026, time.March, 12, 18, 0, 0, 0, time.UTC) }

// killable serves a book until its input ends, and says where.
func killable(path string, dies bool) error {
	b, _, err := webbook.Open(context.Background(), path, still, slog.New(slog.DiscardHandler))
	if err != nil {
		return err
	}
	defer func() { _ = b.Store.Close() }()
	c := b.Config(slog.New(slog.DiscardHandler))
	c.Book = dying{b, dies}
	pages, err := web.New(c)
	if err != nil {
		return err
	}
	server := httptest.NewServer(pages)
	defer server.Close()
	fmt.Println(server.URL)
	_, err = io.Copy(io.Discard, os.Stdin)
	return err
}

// A dying book ends its process once something is on disk.
type dying struct {
	web.Book
	dies bool
}

func (d dying) Each(ctx context.Context, entries []book.Entry) ([]web.Outcome, error) {
	out, err := d.Book.Each(ctx, entries)
	if d.dies {
		_ = syscall.Kill(os.Getpid(), syscall.SIGKILL)
		select {}
	}
	return out, err
}

// started starts a server and returns its address.
func started(t *testing.T, path string, dies bool) (url string, process *exec.Cmd) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	process = exec.Command(self)
	process.Env = append(os.Environ(), pathEnv+"="+path)
	if dies {
		process.Env = append(process.Env, dieEnv+"=yes")
	}
	process.Stderr = os.Stderr
	if _, err := process.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	out, err := process.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := process.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = process.Process.Kill(); _ = process.Wait() })
	lines := bufio.NewScanner(out)
	if !lines.Scan() || !strings.HasPrefix(lines.Text(), "http://") {
		t.Fatalf("the server says %q", lines.Text())
	}
	return lines.Text(), process
}

// TestKilledBeforeTheAnswer kills the server between the commit of three taps and the answer. Sent again to one that is
// started anew, they are counted once, at the positions that they had.
func TestKilledBeforeTheAnswer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	var taps []string
	for i := range 3 {
		taps = append(taps, fmt.Sprintf(`{"id":"tap-%d","kind":"bath.worked","at":"2026-03-12T17:5%d:00Z","body":{"baths":["dev1"],"material":"RC paper","size":"8x10 in","sheets":1}}`, i, i))
	}
	sent := func(url string) (*http.Response, error) {
		body := strings.NewReader(`{"device":"phone","taps":[` + strings.Join(taps, ",") + `]}`)
		r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, url+"/taps", body)
		if err != nil {
			return nil, err
		}
		return http.DefaultClient.Do(r)
	}
	for range 2 { // the second time, too, nothing is counted anew
		url, process := started(t, path, true)
		if resp, err := sent(url); err == nil {
			_ = resp.Body.Close()
			t.Fatalf("the server answered %s", resp.Status)
		}
		_ = process.Wait()
	}
	url, _ := started(t, path, false)
	for range 2 {
		resp, err := sent(url)
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Position int64
			Taken    []struct {
				ID       string
				Position int64
			}
		}
		err = json.NewDecoder(resp.Body).Decode(&got)
		_ = resp.Body.Close()
		if err != nil || got.Position != 3 || len(got.Taken) != 3 {
			t.Fatalf("%v %+v", err, got)
		}
		for i, x := range got.Taken {
			if x.ID != fmt.Sprint("tap-", i) || x.Position != int64(i+1) {
				t.Errorf("tap %d stands as %s at %d", i, x.ID, x.Position)
			}
		}
	}
}
