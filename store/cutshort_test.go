package store_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"wetside/book"
	"wetside/internal/outside"
	"wetside/store"
)

// upkeepChild does something with books beside whoever has them open, in the child.
func upkeepChild(ctx context.Context, c store.Config, do func(*store.Store) error) int {
	s, err := store.OpenBeside(ctx, c)
	if err == nil {
		err = errors.Join(do(s), s.Close())
	}
	return toldChild(err)
}

func toldChild(err error) int {
	if err != nil {
		fmt.Println("failed", book.KeyOf(err))
		return 1
	}
	fmt.Println("done")
	return 0
}

// injected are the ways in which a system call may end a job: killed at it, or told that the disk failed or is full.
func injected() []string {
	const calls = "pwrite64,write,fsync,fdatasync,linkat,link,renameat,rename,unlinkat,unlink,ftruncate,openat"
	return []string{
		"inject=" + calls + ":signal=KILL:when=",
		"inject=pwrite64,ftruncate,linkat,renameat:error=ENOSPC:when=",
		"inject=fsync,fdatasync,pwrite64,renameat,linkat,unlinkat:error=EIO:when=",
	}
}

// cutShort runs a job of the child again and again, cut short at another system call each time, until it gets through uncut. after
// looks at what it left; done says whether it ended well.
func cutShort(t *testing.T, job string, before func() (path, arg string), after func(t *testing.T, done bool)) {
	t.Helper()
	strace := outside.Program(t, "strace", "strace")
	first, step, last := 4, 9, 22
	if os.Getenv(torture) != "" {
		first, step, last = 1, 1, 400
	}
	cut := 0
	for _, inject := range injected() {
		for n := first; n < last; n += step {
			path, arg := before()
			log := filepath.Join(t.TempDir(), "strace")
			p := start(t, job, path, arg, 0, strace, "-f", "-qqq", "-o", log, "-e", inject+strconv.Itoa(n))
			line := p.next()
			for p.next() != "" {
			}
			_ = p.Wait()
			after(t, line == "done")
			if t.Failed() {
				t.Fatalf("%s %s%d", job, inject, n)
			}
			if line != "done" {
				cut++
			} else if !strings.Contains(string(bytesOf(t, log)), "INJECTED") {
				break // there are not so many such calls
			}
		}
	}
	if cut == 0 {
		t.Error("nothing was cut short")
	}
	t.Logf("%s was cut short at %d system calls", job, cut)
}

// TestBackupCutShort finds, wherever a backup is cut short, no file under the backup's name or a whole backup, and the books as they
// were.
func TestBackupCutShort(t *testing.T) {
	folder := t.TempDir()
	c := kept(t, filepath.Join(folder, "here", "x.db"), 40)
	n, out := 0, ""
	cutShort(t, "backup", func() (path, arg string) {
		n++
		out = filepath.Join(folder, fmt.Sprint("out", n, ".db"))
		return c.Path, out
	}, func(t *testing.T, done bool) {
		t.Helper()
		_, err := os.Stat(out)
		if done && err != nil {
			t.Errorf("it said done, and there is no backup: %v", err)
		}
		if err == nil {
			if h := headOf(t, store.Config{Path: out, Now: c.Now}); h.Position != 40 {
				t.Errorf("the backup ends at %d", h.Position)
			}
		}
		if h := headOf(t, c); h.Position != 40 {
			t.Errorf("the books end at %d", h.Position)
		}
	})
}

// TestRestoreCutShort finds, wherever a restore is cut short, either what was there or what was to be restored in its place, whole;
// and then what was there is kept aside.
func TestRestoreCutShort(t *testing.T) {
	folder := t.TempDir()
	made := kept(t, filepath.Join(folder, "made", "x.db"), 5)
	from := filepath.Join(folder, "backup.db")
	backUp(t, made, from)
	s := open(t, made)
	fillUp(t, s, "later", 7)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	was := bytesOf(t, made.Path)
	n, c := 0, store.Config{Now: clock(evening)}
	cutShort(t, "restore", func() (path, arg string) {
		n++
		c.Path = filepath.Join(folder, fmt.Sprint("there", n), "x.db")
		if err := os.Mkdir(filepath.Dir(c.Path), 0o700); err != nil {
			t.Fatal(err)
		}
		write(t, c.Path, was)
		return c.Path, from
	}, func(t *testing.T, done bool) {
		t.Helper()
		h := headOf(t, c)
		switch {
		case h.Position == 12 && !done:
			return
		case h.Position != 5:
			t.Errorf("done %v, and the books end at %d", done, h.Position)
		}
		aside, err := filepath.Glob(filepath.Join(filepath.Dir(c.Path), "x-before-restore-*.db"))
		if err != nil || len(aside) != 1 {
			t.Fatalf("kept aside: %v, %v", aside, err)
		}
		if h := headOf(t, store.Config{Path: aside[0], Now: c.Now}); h.Position != 12 {
			t.Errorf("what was kept aside ends at %d", h.Position)
		}
	})
}
