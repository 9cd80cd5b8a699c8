package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"wetside/book"
	"wetside/book/journal"
	"wetside/store"
)

// takeOver takes an export into a store, as far as it is whole.
func takeOver(t *testing.T, s *store.Store, text io.Reader) (int64, error) {
	t.Helper()
	r, err := journal.NewReader(text)
	if err != nil {
		t.Fatal(err)
	}
	return s.TakeOver(t.Context(), r.Head().Darkroom, r.Next, func() (people []book.Person, err error) {
		for err == nil {
			var p book.Person
			if p, err = r.NextPerson(); err == nil {
				people = append(people, p)
			}
		}
		if errors.Is(err, io.EOF) {
			err = nil
		}
		return people, err
	})
}

// TestTakenOver takes every kept export into an empty book on every engine: half of it first, then all, then once more. The
// export of what came about has the same bytes.
func TestTakenOver(t *testing.T) {
	for _, e := range engines() {
		for _, from := range releases(t) {
			t.Run(e.name+" "+filepath.Base(from), func(t *testing.T) {
				c := e.fresh(t)
				s := open(t, c)
				text := bytesOf(t, strings.TrimSuffix(from, ".db")+".jsonl")
				_, err := takeOver(t, s, bytes.NewReader(text[:len(text)/2]))
				if broken, ok := errors.AsType[*journal.Error](err); !ok || broken.Why != journal.BadLine {
					t.Errorf("half an export: %v", err)
				}
				if all, err := s.Darkrooms(t.Context()); err != nil || len(all) != 0 {
					t.Errorf("half an export wrote %+v, %v", all, err)
				}
				n, err := takeOver(t, s, bytes.NewReader(text))
				if err != nil || n == 0 || n != int64(bytes.Count(text, []byte("\n"))-1) {
					t.Fatalf("written %d, %v", n, err)
				}
				if n, err := takeOver(t, s, bytes.NewReader(text)); err != nil || n != 0 {
					t.Errorf("taken over twice: %d, %v", n, err)
				}
				if got := writtenOut(t, s, darkroomOf); !bytes.Equal(got, text) {
					t.Error("the export of what was taken over has other bytes")
				}
				fillUpIn(t, s, darkroomOf)
				if n, err := takeOver(t, s, bytes.NewReader(text)); err != nil || n != 0 {
					t.Errorf("an older export: %d, %v", n, err)
				}
				if err := s.Verify(t.Context(), darkroomOf); err != nil {
					t.Error(err)
				}
			})
		}
	}
}

// TestTakenOverOnlyWhatFollows takes an export into a book that went another way: nothing is written.
func TestTakenOverOnlyWhatFollows(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			appendTo(t, s, drawn("a"), drawn("b"), drawn("c"))
			three := writtenOut(t, s, "room")
			other, _ := begun(t, e)
			for name, c := range map[string]struct {
				ids []string
				at  int64
			}{"at the end": {[]string{"a", "b", "x"}, 3}, "at the start": {[]string{"x"}, 1}, "shorter": {[]string{"a", "x"}, 2}} {
				o, _ := begun(t, e)
				for _, id := range c.ids {
					appendTo(t, o, drawn(id))
				}
				_, err := takeOver(t, o, bytes.NewReader(three))
				d, ok := errors.AsType[*store.DivergedError](err)
				// what was recorded at another moment differs from the first entry on
				if !ok || d.Position > c.at || book.KindOf(err) != book.Conflict {
					t.Errorf("%s: %v", name, err)
				}
				if h, err := o.Head(t.Context(), "room"); err != nil || h.Position != int64(len(c.ids)) {
					t.Errorf("%s: head is %+v, %v", name, h, err)
				}
			}
			if n, err := takeOver(t, other, bytes.NewReader(three)); err != nil || n != 3 {
				t.Fatalf("into an empty book: %d, %v", n, err)
			}
			appendTo(t, s, drawn("s"))
			appendTo(t, other, drawn("o"))
			_, err := takeOver(t, other, bytes.NewReader(writtenOut(t, s, "room")))
			if d, ok := errors.AsType[*store.DivergedError](err); !ok || d.Position != 4 || d.There.ID != "o" {
				t.Errorf("parted after the third: %v", err)
			}
			appendTo(t, s, drawn("s2"))
			if n, err := takeOver(t, s, bytes.NewReader(three)); err != nil || n != 0 {
				t.Errorf("an older export of itself: %d, %v", n, err)
			}
		})
	}
}

// TestManyInLittleMemory writes a long book out and takes it over again without ever holding much of it. The long form is 200 MB,
// of a million entries.
func TestManyInLittleMemory(t *testing.T) {
	entries := int64(5_000)
	if os.Getenv(torture) != "" {
		entries = 1_000_000
	}
	s := open(t, engines()[0].fresh(t))
	text, write := io.Pipe()
	go func() {
		w, err := journal.NewWriter(write, headAfter(entries), 0)
		for at := (book.Head{Darkroom: "room"}); err == nil && at.Position < entries; {
			var e book.Entry
			e, at = at.Place(many(at.Position + 1))
			err = w.Entry(e)
		}
		_ = write.CloseWithError(errors.Join(err, w.Close()))
	}()
	stop := watchMemory()
	if n, err := takeOver(t, s, text); err != nil || n != entries {
		t.Fatalf("written %d, %v", n, err)
	}
	r, err := s.Prove(t.Context(), "room", nil)
	if err != nil || !r.Whole() || r.Entries != entries {
		t.Fatalf("proved %+v, %v", r, err)
	}
	var out counting
	var w *journal.Writer
	err = s.WriteOut(t.Context(), "room", func(end book.Head, _ book.People) (err error) {
		w, err = journal.NewWriter(&out, end, 0)
		return err
	}, func(e book.Entry) error { return w.Entry(e) })
	if err = errors.Join(err, w.Close()); err != nil {
		t.Fatal(err)
	}
	top := stop()
	t.Logf("%d entries, %d MB of text, at most %d MB of memory more", entries, out>>20, top>>20)
	if top > 64<<20 {
		t.Errorf("%d MB of memory more were in use", top>>20)
	}
}

// counting counts bytes.
type counting int64

func (c *counting) Write(b []byte) (int, error) {
	*c += counting(len(b))
	return len(b), nil
}

// memory returns what this process has in memory, SQLite's part with it; where the system does not tell, what Go has in use.
func memory() uint64 {
	text, err := os.ReadFile("/proc/self/statm")
	var size, resident uint64
	if _, scan := fmt.Sscan(string(text), &size, &resident); err == nil && scan == nil {
		return resident * uint64(os.Getpagesize())
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapInuse + m.StackInuse
}

// watchMemory looks at the memory in use until it is stopped, and returns by how much it grew at most.
func watchMemory() (stop func() uint64) {
	done, most := make(chan struct{}), make(chan uint64)
	begun := memory()
	go func() {
		var top uint64
		for {
			if now := memory(); now > begun {
				top = max(top, now-begun)
			}
			select {
			case <-done:
				most <- top
				return
			case <-time.After(20 * time.Millisecond):
			}
		}
	}()
	return func() uint64 { close(done); return <-most }
}

func many(n int64) book.Entry {
	e := worked(fmt.Sprint("e", n))
	e.RecordedAt = evening
	return e
}

// headAfter returns the head of a book of so many of them.
func headAfter(entries int64) book.Head {
	at := book.Head{Darkroom: "room"}
	for at.Position < entries {
		_, at = at.Place(many(at.Position + 1))
	}
	return at
}
