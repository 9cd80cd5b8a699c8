package book_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
)

// FuzzAdmit offers an entry with any kind and body to a book that holds the contract's sample. Whatever is admitted is
// read, leaves a darkroom that its own file can describe, and can be taken back or says why not; nothing panics.
func FuzzAdmit(f *testing.F) {
	j, people := imported(f, contract(f))
	_, ids := j.state.File(people)
	seeds := 0
	for _, e := range j.entries {
		f.Add(string(e.Kind), e.Version, e.Body)
		seeds++
	}
	for _, b := range []book.Body{
		&book.LotDrawn{Draw: book.Draw{Lot: ids.Lots[1], Amount: "1 fl oz", Times: 2}, Ounce: book.USOunce},
		&book.LotCounted{Lot: ids.Lots[1], Left: "unknown"},
		&book.LotOpened{Lot: ids.Lots[1], Opened: "2026-12-03"},
		&book.Removed{Part: book.TrayPart, ID: ids.Trays[0]},
		&book.Mixed{Bath: "b", Product: ids.Products[0], Dilution: "1+9", Volume: "1 L", From: []book.Draw{{Amount: "all"}}},
		&book.Stock{Lot: "l", Product: ids.Products[3], As: []byte(`{"product":"-","state":"stock","holds":"1 gal"}`), Ounce: "us"},
	} {
		e, err := j.author.Write(b)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(e.Kind), e.Version, e.Body)
		seeds++
	}
	for _, b := range bathBodies() {
		e, err := j.author.Write(b)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(e.Kind), e.Version, e.Body)
		seeds++
	}
	if seeds < 30 {
		f.Fatalf("%d seeds, want the sample's entries", seeds)
	}
	f.Fuzz(func(t *testing.T, kind string, version int, body string) {
		e := book.Entry{ID: "fuzzed", Kind: book.Kind(kind), Version: version, HappenedAt: evening, Body: body}
		after, err := j.state.Admit([]book.Entry{e}, among(j.entries))
		if err != nil {
			if book.KindOf(err) == book.Internal {
				t.Fatalf("an error of no kind: %v", err)
			}
			return
		}
		if u := after.Unread(); len(u) > 0 && book.KindOf(u[0].Cause) != book.Newer {
			t.Fatalf("admitted and not read: %v", u[0].Cause)
		}
		lookAt(after, nil)
		file, _ := after.File(nil)
		if _, err := darkroom.Read(darkroom.Write(file)); err != nil {
			t.Fatalf("the file can't be read after %s: %v", body, err)
		}
		if err := after.CanTakeBack("fuzzed", among(append(j.entries, e))); err != nil && book.KindOf(err) != book.Refused {
			t.Fatalf("taking it back: %v", err)
		}
	})
}

// FuzzLoad holds the reader of plain loads against encoding/json.
func FuzzLoad(f *testing.F) {
	for _, body := range []string{
		`{"baths":["d","s","f1"],"material":"RC paper","size":"8x10 in","sheets":6,"strips":4,"strip":"1/4","drain":"20 s"}`,
		`{"baths":["d"],"material":"film","size":"135-36","rolls":2,"estimated":true,"how":"12 people, 3 h"}`,
		`{"baths":["d"],"estimated":false,"sheets":0}`, `{"sheets":1,"sheets":2,"baths":["a"],"baths":["b"]}`,
		`{}`, `{"baths":[]}`, `{"baths":null}`, `{"Sheets":3}`, `{"sheets":03}`, `{"sheets":1.5}`, `{"sheets":-1}`, `{"sheets":1234567890}`,
		`{"sheets":1,}`, `{,"sheets":1}`, `{"sheets":1}}`, `{"sheets":1} `, ` { "sheets" : 1 }`, `{"size":"a\"b"}`, `{"size":"ü"}`,
		`{"size":"a`, `{"baths":["a"`, `{"baths":["a",]}`, `{"estimated":tru}`, `{"other":1}`, `{"sheets":1"rolls":2}`, `{`, ``, `{"sheets":}`,
	} {
		f.Add(body)
	}
	f.Fuzz(func(t *testing.T, body string) {
		got, err := book.Upcasters().Read(book.Entry{Kind: book.BathWorked, Version: 1, Body: body})
		var want book.Worked
		if wrong := json.Unmarshal([]byte(body), &want); (wrong == nil) != (err == nil) {
			t.Fatalf("%q: read with %v, by encoding/json with %v", body, err, wrong)
		}
		if err != nil {
			return
		}
		if d := cmp.Diff(book.Body(&want), got); d != "" {
			t.Fatalf("%q (-encoding/json +read):\n%s", body, d)
		}
	})
}

// FuzzResume offers a snapshot that was changed to a program that begins with one. It is dropped, or gives a state that can be
// asked and woken; nothing panics, and no state comes of bytes that were changed without their sum.
func FuzzResume(f *testing.F) {
	z := &sleeper{t: f, state: book.New("room", book.Upcasters())}
	a := &book.Author{By: "p1", Device: "d1", NewID: counting("e")}
	write := func(days int, b book.Body) {
		a.Now = evening.AddDate(0, 0, days)
		e := written(a, b)
		e.Darkroom, e.Position = "room", int64(len(z.entries)+1)
		if err := z.state.Apply(e); err != nil {
			f.Fatal(err)
		}
		z.entries = append(z.entries, e)
	}
	prints := book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 2}
	for i, b := range []book.Body{
		&book.Mixed{Bath: "b", Product: "fix", Dilution: "1+4", Volume: "1 L"},
		&book.Worked{Baths: []string{"b", "c"}, Prints: prints},
		&book.PrintStarted{Print: "p", Session: "s", Prints: prints, At: book.At{Step: "fix", Bath: "b"}},
		&book.PrintLeft{Print: "p"},
		&book.ProbeRead{Probe: "q", Bath: "b", Reads: "20 °C"},
		&book.ProbeRead{Probe: "q", Place: book.InRoom, Reads: "20 °C"},
		&book.Held{Batch: "w", Prints: prints},
		&book.EveningOpened{Session: "s"},
		&book.EveningClosed{Session: "s"},
		&book.Disposed{Bath: "b", Leaving: book.Leaving{To: book.ToCollected, Why: "used up"}},
		&book.Mixed{Bath: "d", Product: "fix", Dilution: "1+4", Volume: "1 L"},
	} {
		write(i, b)
	}
	if n := book.RestKeeping(z.state, evening.AddDate(1, 0, 0), 1, 0); n < 5 {
		f.Fatalf("%d things rest: the seed says little", n)
	}
	whole := z.state.Snapshot()
	f.Add(whole, true)
	f.Add(whole[:len(whole)/2], true)
	f.Add([]byte{}, false)
	f.Fuzz(func(t *testing.T, snapshot []byte, summed bool) {
		if summed {
			snapshot = book.Summed(snapshot)
		} else if !bytes.Equal(snapshot, whole) {
			if _, err := book.Resume("room", book.Upcasters(), snapshot); err == nil && !bytes.Equal(snapshot, book.Summed(snapshot)) {
				t.Fatal("a snapshot with a wrong sum was taken")
			}
			return
		}
		r, err := book.Resume("room", book.Upcasters(), snapshot)
		if err != nil || r.Position() > int64(len(z.entries)) {
			return
		}
		if err := r.Ranges(func(from, to int64) error {
			for _, e := range z.entries[from-1 : to] {
				r.Tell(e)
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		s, err := r.End()
		if err != nil {
			return
		}
		ask(s)
		w := s.NeedsAll()
		var all []book.Entry
		for _, at := range w.Positions() {
			all = append(all, z.entries[at-1])
		}
		if err := s.Wake(w, all); err != nil {
			t.Fatal(err)
		}
		wholeOf(s)
	})
}
