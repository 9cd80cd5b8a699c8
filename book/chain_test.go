package book_test

import (
	"encoding/json"
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/book"
)

func sample() book.Entry {
	return book.Entry{
		ID: "e1", Position: 7, Darkroom: "room", Kind: book.Drawn, Version: 2, HappenedAt: time.UnixMicro(-5).UTC(),
		RecordedAt: time.UnixMicro(1_796_236_200_000_001).UTC(), By: "p1", Device: "", TakesBack: "ü",
		Body: `{"lot": "lot1", "amount":"½ fl oz"}`, PrevHash: book.Hash{0: 1, 31: 0xff},
	}
}

// TestHashOf holds the documented framing against one made apart, with Python's hashlib and struct:
//
//	f = lambda b: struct.pack(">q", len(b)) + b
//	i = lambda n: f(struct.pack(">q", n))
//	hashlib.sha256(b"wetside entry, framing 1\n" + f(b"e1") + i(7) + f(b"room") + f(b"lot.drawn") + i(2) + i(-5)
//	  + i(1796236200000001) + f(b"p1") + f(b"") + f("ü".encode()) + f('{"lot": "lot1", "amount":"½ fl oz"}'.encode())
//	  + f(b"\1" + b"\0"*30 + b"\xff")).hexdigest()
func TestHashOf(t *testing.T) {
	const want = "3c908e46374b2efa1fd35e7ff5f1c135c7f5a6885dac72931648e5015fcfd1c0"
	if got := book.HashOf(sample()).String(); got != want {
		t.Errorf("HashOf = %s, want %s", got, want)
	}
}

// TestHashTellsApart changes one field after the other, and moves bytes from one field to its neighbour.
func TestHashTellsApart(t *testing.T) {
	changes := map[string]func(*book.Entry){
		"id": func(e *book.Entry) { e.ID = "e2" }, "position": func(e *book.Entry) { e.Position++ },
		"darkroom": func(e *book.Entry) { e.Darkroom = "" }, "kind": func(e *book.Entry) { e.Kind = book.Opened },
		"version": func(e *book.Entry) { e.Version = 1 }, "by": func(e *book.Entry) { e.By = "" },
		"happened_at": func(e *book.Entry) { e.HappenedAt = e.HappenedAt.Add(time.Microsecond) },
		"recorded_at": func(e *book.Entry) { e.RecordedAt = e.RecordedAt.Add(-time.Microsecond) },
		"device":      func(e *book.Entry) { e.Device = "d" }, "takes_back": func(e *book.Entry) { e.TakesBack = "" },
		"body": func(e *book.Entry) { e.Body += "\n" }, "prev_hash": func(e *book.Entry) { e.PrevHash[5]++ },
		"by to device":  func(e *book.Entry) { e.By, e.Device = "p", "1" },
		"device for by": func(e *book.Entry) { e.By, e.Device = "", "p1" },
		"id to body":    func(e *book.Entry) { e.ID, e.Body = "e", e.Body+"1" },
	}
	seen := map[book.Hash]string{book.HashOf(sample()): "nothing"}
	for name, change := range changes {
		e := sample()
		change(&e)
		h := book.HashOf(e)
		if other, twice := seen[h]; twice {
			t.Errorf("changing %s and changing %s have one hash", name, other)
		}
		seen[h] = name
	}
}

func TestVerify(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var entries []book.Entry
		for range rapid.IntRange(2, 9).Draw(t, "entries") {
			e := sample()
			e.ID, e.Body = rapid.String().Draw(t, "id"), rapid.String().Draw(t, "body")
			entries = append(entries, e)
		}
		entries = place(entries)
		from := book.Head{Darkroom: "room"}
		end, err := from.Verify(entries)
		if err != nil || end.Position != int64(len(entries)) || end.Hash != book.HashOf(entries[len(entries)-1]) {
			t.Fatalf("a whole chain: %+v, %v", end, err)
		}
		i := rapid.IntRange(0, len(entries)-2).Draw(t, "tampered")
		entries[i].Body += "x"
		_, err = from.Verify(entries)
		broken, ok := errors.AsType[*book.ChainError](err)
		if !ok || broken.Why != book.HashDiffers || broken.Position != int64(i)+2 || book.KindOf(err) != book.Damaged {
			t.Fatalf("tampered at %d: got %v", i+1, err)
		}
	})
}

func TestVerifyFindsHolesAndStrangers(t *testing.T) {
	entries := place([]book.Entry{sample(), sample(), sample()})
	from := book.Head{Darkroom: "room"}
	for name, c := range map[string]struct {
		entries []book.Entry
		why     book.ChainFault
	}{
		"a hole":        {[]book.Entry{entries[0], entries[2]}, book.GapInChain},
		"twice":         {[]book.Entry{entries[0], entries[0]}, book.GapInChain},
		"out of order":  {[]book.Entry{entries[1], entries[0]}, book.GapInChain},
		"no first":      {entries[1:], book.GapInChain},
		"a stranger":    {[]book.Entry{{Darkroom: "annex", Position: 1}}, book.OtherDarkroom},
		"a false start": {[]book.Entry{{Darkroom: "room", Position: 1, PrevHash: book.Hash{1}}}, book.HashDiffers},
	} {
		_, err := from.Verify(c.entries)
		if broken, ok := errors.AsType[*book.ChainError](err); !ok || broken.Why != c.why {
			t.Errorf("%s: got %v, want %s", name, err, c.why)
		}
	}
}

func TestEntryJSON(t *testing.T) {
	e := sample()
	text, err := json.Marshal(e)
	if err != nil {
		t.Fatal(err)
	}
	var got book.Entry
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if book.HashOf(got) != book.HashOf(e) {
		t.Errorf("an entry through JSON has another hash: %s", text)
	}
	for _, bad := range []string{"", "00", "zz" + e.PrevHash.String()[2:], e.PrevHash.String() + "0"} {
		if err := new(book.Hash).UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("hash %q was read", bad)
		}
	}
}
