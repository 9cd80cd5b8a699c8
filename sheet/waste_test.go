package sheet_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/internal/outside"
	"wetside/sheet"
	"wetside/trade/quantity"
	"wetside/words"
)

// wasteBook is a club's year: five fixers into a can of 25 L, of which it was fetched once, a toner into another, and a fixer of
// the year before that nobody named a can of.
func wasteBook(t *testing.T) *book.State {
	t.Helper()
	n, head := 0, book.Head{Darkroom: "room"}
	a := book.Author{Device: "test", NewID: func() string { n++; return fmt.Sprintf("e%03d", n) }}
	var all []book.Entry
	at := func(month, day int, b book.Body) {
		t.Helper()
		a.Now = time.Date(2026, time.Month(month), day, 20, 0, 0, 0, time.UTC)
		e, err := a.Write(b)
		if err != nil {
			t.Fatal(err)
		}
		e.RecordedAt = e.HappenedAt
		e, head = head.Place(e)
		all = append(all, e)
	}
	at(-3, 1, &book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom","place":"community","drain":"sewer","law":"UK"}`)})
	at(-3, 1, &book.Set{Part: book.ProductPart, ID: "fix", As: []byte(`{"name":"rapid fixer","role":"fixer","form":"liquid"}`)})
	at(-3, 1, &book.Set{Part: book.ProductPart, ID: "dev", As: []byte(`{"name":"paper developer","role":"developer","form":"liquid"}`)})
	at(-3, 1, &book.Set{Part: book.ProductPart, ID: "stop", As: []byte(`{"name":"print stop","role":"stop bath","form":"liquid"}`)})
	at(-3, 1, &book.Set{Part: book.CanPart, ID: "grey", As: []byte(`{"name":"grey can","holds":"25 L","takes":"fixer","vented":"yes"}`)})
	at(-3, 1, &book.Set{Part: book.CanPart, ID: "small", As: []byte(`{"name":"small can","holds":"5 L","takes":"toner"}`)})
	for i, month := range []int{0, 1, 2, 4, 6, 9} {
		id := fmt.Sprint("f", i)
		at(month, 2, &book.Mixed{Bath: id, Product: "fix", Dilution: "1+4", Volume: "4 L"})
		at(month, 3, &book.Worked{Baths: []string{id}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 130 + i}})
		can := "grey"
		if i == 0 {
			can = ""
		}
		at(month, 4, &book.Disposed{Bath: id, Leaving: book.Leaving{To: book.ToCollected, Can: can, Why: []string{"", "spent", ""}[i%3]}})
	}
	at(2, 6, &book.WasteIn{Can: "grey", What: "fixer", Volume: "1.5 L", Why: "from a member's own bottle"})
	at(7, 1, &book.TakenAway{Can: "grey", By: "the county's depot", Document: "=HW 2026-114"})
	at(7, 2, &book.WasteIn{Can: "small", What: "toner", Volume: "800 mL"})
	at(5, 1, &book.Answered{Place: "community", Drain: "sewer", What: "stop bath", Answer: book.AuthorityIf, Words: "Thinned tenfold, 20 L a day.", Office: "The water company"})
	s, err := book.Fold("room", all)
	if err != nil || len(s.Unread()) > 0 {
		t.Fatal(err, s.Unread())
	}
	return s
}

func wasteYear(t *testing.T) (ahead.WasteYear, darkroom.File) {
	t.Helper()
	s := wasteBook(t)
	y, err := ahead.YearOfWaste(s, 2026, time.Date(2026, time.December, 31, 12, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	f, _ := s.File(nil)
	return y, f
}

func wastePDF(t *testing.T, paper string) []byte {
	t.Helper()
	y, f := wasteYear(t)
	f.Darkroom.PrintOn = paper
	v, err := words.New("en", quantity.Metric, quantity.NoOunce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.Waste(&b, v, y, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The year's sheet says all that a manager signs for, on one page, the same bytes each time.
func TestWasteSheet(t *testing.T) {
	one := wastePDF(t, "A4")
	if !bytes.Equal(one, wastePDF(t, "A4")) {
		t.Error("two renders differ")
	}
	outside.Program(t, "pdftotext", "poppler-utils")
	for _, paper := range []string{"A4", "Letter"} {
		file := filepath.Join(t.TempDir(), "waste.pdf")
		if err := os.WriteFile(file, wastePDF(t, paper), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.CommandContext(t.Context(), "pdftotext", "-layout", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(string(out), "\u00a0", " ")
		for _, want := range []string{
			"Waste cans, 2026", "Ropewalk Darkroom", "No can named", "grey can", "Used fixer, holds 25 L", "county's depot", "2026-114", "17.5 L",
			"small can", "800 mL", "A + in the column", "The water company", "Thinned tenfold", "Kept by", "Seen by", "of silver",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not on the sheet", paper, want)
			}
		}
		if pages := strings.Count(text, "\f"); pages != 1 {
			t.Errorf("%s: %d pages, want one", paper, pages)
		}
	}
}

func TestWasteCSV(t *testing.T) {
	y, _ := wasteYear(t)
	var b bytes.Buffer
	if err := sheet.WasteCSV(&b, y); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 9 {
		t.Fatalf("%d rows, want a head and 8 entries", len(rows))
	}
	var taken map[string]string
	for _, r := range rows[1:] {
		line := map[string]string{}
		for i, cell := range r {
			line[rows[0][i]] = cell
		}
		if line["taken_ml"] != "" {
			taken = line
		}
	}
	grams := []string{taken["silver_g_p10"], taken["silver_g_p50"], taken["silver_g_p90"]}
	for i, g := range grams {
		if g == "" {
			t.Errorf("no silver in place %d: %v", i, taken)
		}
		for _, k := range []string{"silver_g_p10", "silver_g_p50", "silver_g_p90"} {
			delete(taken, k)
		}
	}
	want := map[string]string{
		"date": "2026-07-01", "can": "grey can", "what": "fixer", "put_in_ml": "", "taken_ml": "17500", "in_can_ml": "0", "silver_unknown_ml": "1500",
		"taken_by": "the county's depot", "document": "'=HW 2026-114", "note": "", "entry": taken["entry"],
	}
	if d := cmp.Diff(want, taken); d != "" {
		t.Errorf("the fetching (-want +got):\n%s", d)
	}
}
