package book_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
)

// FuzzPlain holds what is read of the bodies of which there are many against encoding/json, which reads all others.
func FuzzPlain(f *testing.F) {
	blank := map[book.Kind]func() book.Body{
		book.BathWorked:      func() book.Body { return &book.Worked{} },
		book.PrintBegan:      func() book.Body { return &book.PrintStarted{} },
		book.PrintPut:        func() book.Body { return &book.PrintMoved{} },
		book.PrintOut:        func() book.Body { return &book.PrintLeft{} },
		book.TemperatureRead: func() book.Body { return &book.ProbeRead{} },
		book.BatchHeld:       func() book.Body { return &book.Held{} },
	}
	prints := book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 2, Strips: 1, Strip: "1/4", Rolls: 3, Estimated: true, How: "12 people, 3 h"}
	at := book.At{Step: "fix", Bath: "b", Batch: "w", For: "90 s", Drain: "10 s"}
	for _, b := range []book.Body{
		&book.Worked{Baths: []string{"a", "b"}, Prints: prints, Drain: "20 s"},
		&book.PrintStarted{Print: "p", Of: "x", Session: "s", Prints: prints, At: at},
		&book.PrintMoved{Print: "p", At: at}, &book.PrintLeft{Print: "p", Abandoned: true},
		&book.ProbeRead{Probe: "q", Bath: "b", Place: book.InRoom, Reads: "20.4 °C"},
		&book.Held{Batch: "w", Bath: "b", Prints: prints},
	} {
		text, err := json.Marshal(b)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(b.Kind()), string(text))
	}
	f.Add(string(book.PrintOut), `{"print":"p","Print":"q"}`)
	f.Add(string(book.BatchHeld), `{"material":"film"}`)
	f.Add(string(book.PrintPut), `{"print":"p\u00e4","bath":7}`)
	f.Fuzz(func(t *testing.T, kind, text string) {
		if blank[book.Kind(kind)] == nil {
			return
		}
		want := blank[book.Kind(kind)]()
		wrong := json.Unmarshal([]byte(text), want)
		got, err := book.Upcasters().Read(book.Entry{Kind: book.Kind(kind), Version: 1, Body: text})
		if (err == nil) != (wrong == nil) {
			t.Fatalf("%s %s: %v, by encoding/json %v", kind, text, err, wrong)
		}
		if d := cmp.Diff(want, got); err == nil && d != "" {
			t.Fatalf("%s %s (-encoding/json +read):\n%s", kind, text, d)
		}
	})
}
