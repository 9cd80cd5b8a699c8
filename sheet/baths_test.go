package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/draw"
	"wetside/plan"
	"wetside/sheet"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

// rooms are scenes that a wall has to show.
func rooms() map[string]func(*ahead.Scene) {
	return map[string]func(*ahead.Scene){
		"as it is": func(*ahead.Scene) {},
		"at work":  func(s *ahead.Scene) { work(s, 11.5, true); work(s, 5, false) },
		"spent":    func(s *ahead.Scene) { work(s, 90, false) },
		"far past": func(s *ahead.Scene) { work(s, 700, true) }, // so that other tapes' marks crowd at the left end
		"unknown age": func(s *ahead.Scene) {
			for i := range s.Baths {
				s.Baths[i].Known, s.Baths[i].Made = book.MadeUnknown, time.Time{}
			}
		},
		"four":   func(s *ahead.Scene) { work(s, 11, true); keep(s, 4) },
		"six":    func(s *ahead.Scene) { work(s, 11, true); keep(s, 6) },
		"no one": func(s *ahead.Scene) { s.Chains = nil; keep(s, 0) },
	}
}

// keep leaves so many baths that something is told of, those of the first chain before others.
func keep(s *ahead.Scene, n int) {
	s.Chains = s.Chains[:min(len(s.Chains), 1)]
	for i := range s.Baths {
		b := &s.Baths[i]
		if n == 0 {
			b.Gone = true
		} else if b.Role != process.NoRole {
			n--
		}
	}
	if len(s.Chains) > 0 {
		c := &s.Chains[0]
		c.Baths = slices.DeleteFunc(slices.Clone(c.Baths), func(i int) bool { return s.Baths[i].Gone })
	}
}

// work puts sheets of 8×10 through the first chain's baths.
func work(s *ahead.Scene, sheets float64, counted bool) {
	s.Events = append(s.Events, ahead.Event{At: s.Now, Pass: &ahead.Pass{
		Material: s.Chains[0].Material, Area: ahead.Area8x10, Sheets: sheets, Drained: 10 * time.Second,
		Baths: s.Chains[0].Baths, Estimated: !counted,
	}})
}

// look looks ahead in a room's evening that was changed.
func look(t *testing.T, f darkroom.File, m material.Material, change func(*ahead.Scene)) (ahead.Report, *words.Voice) {
	t.Helper()
	s, err := plan.Ahead(t.Context(), plan.Request{File: f, Now: day}, m)
	if err != nil {
		t.Fatal(err)
	}
	change(&s)
	s.Draws = 200
	r, err := ahead.Look(s)
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New("en", f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	return r, v
}

// hang draws the page for the wall.
func hang(t *testing.T, f darkroom.File, r ahead.Report, v *words.Voice) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := sheet.Baths(&b, v, r, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// wrap draws the strips.
func wrap(t *testing.T, f darkroom.File, r ahead.Report, v *words.Voice) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := sheet.Tapes(&b, v, r, f, func(id string) string { return id }); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// longNames are names that no label has room for.
func longNames() []string {
	return []string{
		"red tray", "Donaudampfschifffahrtsgesellschaftskapitaensmuetzenwaschtrayfortheveryfirststopbathoftheevening",
		"white tray", "white tray with the chipped left corner that stands under the window",
		"name: Lock House Darkroom", "name: The Community Darkroom of the Old Tannery by the Lower Lock and Evening Class",
	}
}

// Each room's baths hang on one page, and poppler reads back from it what is to be known of each.
func TestBathsOnOnePage(t *testing.T) {
	for name, change := range rooms() {
		for _, paper := range []string{"A4", "Letter"} {
			t.Run(name+" "+paper, func(t *testing.T) {
				f := exampleRoom(t, paper)
				r, v := look(t, f, material.FB, change)
				pdf := hang(t, f, r, v)
				if info := flat(poppler(t, pdf, "pdfinfo")); !strings.Contains(info, "Pages: 1 ") {
					t.Errorf("%s; want one page", info)
				}
				text := flat(poppler(t, pdf, "pdftotext", "-layout"))
				want, drains := []string{"Lock House Darkroom", "as of " + v.At(r.At), v.Together(r).Text()}, 0
				if len(r.Baths) > 0 {
					drains = 1
					want = append(want, "the test decides", "it is collected, not poured down the drain", "Ask the local authority")
				}
				for i := range r.Due {
					want = append(want, v.Due(r, r.Due[i]).Text())
				}
				raw := flat(poppler(t, pdf, "pdftotext", "-raw"))
				for _, w := range want {
					if !strings.Contains(text, flat(w)) && !strings.Contains(raw, flat(w)) {
						t.Errorf("%q is not on the page: %s", w, raw)
					}
				}
				if n := strings.Count(raw, "down the drain"); n != drains {
					t.Errorf("the drain is spoken of %d times, want %d", n, drains)
				}
			})
		}
	}
}

// The number that is left, the test and the day are on the page, and the number is read from 1.5 m: 5 mm high (common
// practice for signs, three thousandths of the distance, from memory).
func TestBathsSayWhatIsLeft(t *testing.T) {
	f := exampleRoom(t, "A4")
	r, v := look(t, f, material.FB, rooms()["at work"])
	pdf := hang(t, f, r, v)
	raw := flat(poppler(t, pdf, "pdftotext", "-raw"))
	least := 5.0 / 0.73 * 72 / 25.4
	var large []string
	for _, w := range placedWords(t, pdf).Pages[0].Words {
		if w.Bottom-w.Top >= least {
			large = append(large, w.Text)
		}
	}
	counted := 0
	for i := range r.Baths {
		o := &r.Baths[i]
		if o.Lead.Kind != ahead.UseFor {
			continue
		}
		counted++
		if left := fmt.Sprint(o.Left.P10); !slices.Contains(large, left) {
			t.Errorf("%s: %s is not large: %v", o.Bath.Name, left, large)
		}
		for _, want := range []string{
			flat(v.Lead(*o).Text()),
			fmt.Sprintf("Test at %d: %s", int(o.Done+1e-6)+o.TestAfter, v.TestName(o.Tests[0])),
			"Discard by " + flat(v.Date(o.End.Date)),
		} {
			if !strings.Contains(raw, want) {
				t.Errorf("%s: %q is not on the page: %s", o.Bath.Name, want, raw)
			}
		}
	}
	if counted < 3 {
		t.Errorf("only %d baths are counted", counted)
	}
}

// A strip says what is in the bottle, until when, and where to stop; a bath of unknown age has no end.
func TestTapesSayWhatIsInTheBottle(t *testing.T) {
	f := exampleRoom(t, "A4")
	r, v := look(t, f, material.FB, rooms()["at work"])
	r.Baths[0].Bath.MadeBy = "Ines"
	raw := flat(poppler(t, wrap(t, f, r, v), "pdftotext", "-raw"))
	if !strings.Contains(raw, "by Ines") {
		t.Errorf("who made it is not told: %s", raw)
	}
	for i := range r.Baths {
		o := &r.Baths[i]
		for _, want := range []string{o.Bath.Product.Name, o.Bath.Words, flat(v.DateTime(o.Bath.Made))} {
			if !strings.Contains(raw, want) {
				t.Errorf("%s: %q is not on its strip: %s", o.Bath.Name, want, raw)
			}
		}
		if tape, ok := draw.TapeOf(v, o); ok && o.Lead.Kind == ahead.UseFor {
			if want := fmt.Sprintf("%d safe", int(tape.Ends.Safe)); !strings.Contains(raw, want) {
				t.Errorf("%s: %q is not on its strip: %s", o.Bath.Name, want, raw)
			}
		}
	}
	r, v = look(t, f, material.FB, rooms()["unknown age"])
	raw = flat(poppler(t, wrap(t, f, r, v), "pdftotext", "-raw"))
	if strings.Contains(raw, "safe") || !strings.Contains(raw, "Nobody knows since when it stands") || !strings.Contains(raw, "end not known") {
		t.Errorf("baths of unknown age: %s", raw)
	}
}

// The example's wetting agent is ended by its day alone, which is told once, with its hour; and one whose day is over says which that was.
func TestDaysOnTheWall(t *testing.T) {
	e := exampleEvening(t)
	v, err := words.New("en", e.file.Darkroom.Units, e.file.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	over := slices.IndexFunc(e.ahead.Baths, func(o ahead.Outlook) bool { return o.Lead.Kind == ahead.UseUntil })
	if over < 0 {
		t.Fatal("no bath is ended by its day alone")
	}
	e.ahead.Baths = slices.Clone(e.ahead.Baths)
	e.ahead.Baths = append(e.ahead.Baths, e.ahead.Baths[over])
	e.ahead.Baths[len(e.ahead.Baths)-1].Lead = ahead.Finding{Kind: ahead.PastDate, Date: e.ahead.Baths[over].End.Date}
	var b bytes.Buffer
	if err := sheet.Baths(&b, v, e.ahead, e.file); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(poppler(t, b.Bytes(), "pdftotext")), " ")
	for _, wrong := range []string{"1 January", "Use it until"} {
		if strings.Contains(text, wrong) {
			t.Errorf("it says %q: %s", wrong, text)
		}
	}
	day := strings.Join(strings.Fields(v.Until(e.ahead.Baths[over])), " ")
	if !strings.Contains(text, "Discard by "+day) || !strings.Contains(text, "Its time was over on Friday 19 February.") {
		t.Errorf("%s is not there: %s", day, text)
	}
}

// The places on a strip come up to the safe end in fives: a small number in each place that is still empty, none beyond.
func TestPlacesComeUpToTheSafeEnd(t *testing.T) {
	f := exampleRoom(t, "A4")
	r, v := look(t, f, material.FB, rooms()["four"])
	var got, want []string
	for _, w := range placedWords(t, wrap(t, f, r, v)).Pages[0].Words {
		if w.Bottom-w.Top < 7 { // points; all other words are larger
			got = append(got, w.Text)
		}
	}
	for i := range r.Baths {
		tape, ok := draw.TapeOf(v, &r.Baths[i])
		if !ok || tape.Ends == nil {
			t.Fatalf("%s has no end", r.Baths[i].Bath.Name)
		}
		for n := 15; n <= int(tape.Ends.Safe); n += 5 { // eleven are done: the third place is begun
			want = append(want, fmt.Sprint(n))
		}
	}
	slices.Sort(got) // poppler reads in an order of its own
	slices.Sort(want)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// More baths than a page can hold go on to another; none is left out, and nothing is set over anything.
func TestManyBathsGoOn(t *testing.T) {
	f := exampleRoom(t, "Letter")
	r, v := look(t, f, material.FB, rooms()["at work"])
	for len(r.Baths) < 40 {
		r.Baths = append(r.Baths, r.Baths[len(r.Baths)%4])
	}
	for what, pdf := range map[string][]byte{"baths": hang(t, f, r, v), "tapes": wrap(t, f, r, v)} {
		all := placedWords(t, pdf)
		if len(all.Pages) < 2 {
			t.Errorf("%s: %d pages", what, len(all.Pages))
		}
		for i, page := range all.Pages {
			inside(t, fmt.Sprint(what, i+1), page.Width, page.Height, page.Words)
		}
		safe := 0
		for i := range r.Baths {
			if tape, ok := draw.TapeOf(v, &r.Baths[i]); ok && tape.Ends != nil {
				safe++
			}
		}
		if n := strings.Count(flat(poppler(t, pdf, "pdftotext", "-raw")), " safe"); n != safe {
			t.Errorf("%s: %d tapes, want %d", what, n, safe)
		}
	}
}

// The same baths give the same bytes.
func TestBathsAndTapesSameBytes(t *testing.T) {
	f := exampleRoom(t, "A4")
	r, v := look(t, f, material.FB, rooms()["at work"])
	for name, draws := range map[string]func(*testing.T, darkroom.File, ahead.Report, *words.Voice) []byte{"baths": hang, "tapes": wrap} {
		if !bytes.Equal(draws(t, f, r, v), draws(t, f, r, v)) {
			t.Errorf("%s: two renders differ", name)
		}
	}
}

// Nothing runs over an edge, and no word is set over another, however long the names are.
func TestBathsAndTapesStayApart(t *testing.T) {
	for name, change := range rooms() {
		for paper, edits := range map[string][]string{"A4": nil, "Letter": longNames()} {
			t.Run(name+" "+paper, func(t *testing.T) {
				f := exampleRoom(t, paper, edits...)
				r, v := look(t, f, material.FB, change)
				for what, pdf := range map[string][]byte{"baths": hang(t, f, r, v), "tapes": wrap(t, f, r, v)} {
					for i, page := range placedWords(t, pdf).Pages {
						inside(t, fmt.Sprint(what, i+1), page.Width, page.Height, page.Words)
					}
				}
			})
		}
	}
}

func inside(t *testing.T, name string, width, height float64, all []placed) {
	t.Helper()
	const edge = 12*72/25.4 - 1
	for i, a := range all {
		if a.Left < edge || a.Right > width-edge || a.Bottom > height-5*72/25.4 {
			t.Errorf("%s: %q at %.0f to %.0f, down to %.0f", name, a.Text, a.Left, a.Right, a.Bottom)
		}
		for _, b := range all[i+1:] {
			down, across := min(a.Bottom, b.Bottom)-max(a.Top, b.Top), min(a.Right, b.Right)-max(a.Left, b.Left)
			if across > 1 && down > min(a.Bottom-a.Top, b.Bottom-b.Top)*0.45 {
				t.Errorf("%s: %q over %q", name, a.Text, b.Text)
			}
		}
	}
}

// Every kind of sentence that leads has its two words: all that stand in the source under "What leads.".
func TestEveryLeadHasItsLargeWords(t *testing.T) {
	source, err := os.ReadFile("../ahead/report.go")
	if err != nil {
		t.Fatal(err)
	}
	_, block, _ := strings.Cut(string(source), "// What leads.\nconst (")
	block, _, _ = strings.Cut(block, "\n)")
	kinds := regexp.MustCompile(`FindingKind += "([a-z_]+)"`).FindAllStringSubmatch(block, -1)
	if len(kinds) < 13 {
		t.Fatalf("kinds found: %v", kinds)
	}
	f := exampleRoom(t, "A4")
	r, v := look(t, f, material.FB, rooms()["four"])
	for _, k := range kinds {
		r.Baths[0].Lead.Kind = ahead.FindingKind(k[1])
		if raw := poppler(t, hang(t, f, r, v), "pdftotext", "-raw"); strings.Contains(raw, "[tell") {
			t.Errorf("%s: %s", k[1], raw)
		}
	}
}
