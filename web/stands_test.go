package web_test

import (
	"html"
	"maps"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetside/book"
	"wetside/trade/quantity"
)

// stands writes down a bath that stands already and returns its page.
func (h *house) stands(form url.Values) answer {
	h.t.Helper()
	a := h.post("/baths/stands", form)
	to := a.Header.Get("Location")
	if a.StatusCode != http.StatusSeeOther || !strings.HasPrefix(to, "/baths/") {
		h.t.Fatalf("%v: %d to %q\n%s", form, a.StatusCode, to, problemsOf(a.Text))
	}
	return h.get(to)
}

// choice returns the value of the choice of this name on a page.
func choice(t *testing.T, page, name string) string {
	t.Helper()
	m := regexp.MustCompile(`<option value="([^"]*)"[^>]*>` + regexp.QuoteMeta(name) + `</option>`).FindStringSubmatch(page)
	if m == nil {
		t.Fatalf("no choice %q on the page", name)
	}
	return m[1]
}

// What a careful printer says of what they find: a developer of unknown age is poured out, only a fixer is worth a test
// (common practice); of a fixer that was made on a day and of which somebody guesses what it did, how many more.
func TestABathThatStandsAlready(t *testing.T) {
	for _, tt := range []struct {
		name string
		form url.Values
		says []string
		not  []string
	}{
		{"a fixer of unknown age", url.Values{
			"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"1 L"}, "where": {"part bottle"}, "made": {"unknown"}, "before": {"unknown"},
		}, []string{"Test it before a print goes in", "Nobody knows since when it stands", "Silver strip", "Made: 1+4, 1 L"}, []string{"Use it for"}},
		{"a developer of unknown age", url.Values{
			"product": {"role developer"}, "dilution": {"1+9"}, "volume": {"2 L"}, "made": {"unknown"}, "before": {"unknown"},
		}, []string{"Pour it out and make a new one"}, []string{"Use it"}},
		{"a developer of unknown age, of which somebody knows the sheets", url.Values{
			"product": {"role developer"}, "dilution": {"1+9"}, "volume": {"2 L"}, "made": {"unknown"}, "before": {"guess"}, "sheets": {"4"},
			"size": {"8x10"}, "of": {"RC paper"},
		}, []string{"Pour it out and make a new one"}, []string{"Use it"}},
		{"a fixer of a known day, of which nobody knows what it did", url.Values{
			"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"1 L"}, "made": {"day"}, "day": {"2026-03-10"}, "before": {"unknown"},
		}, []string{"Test it before a print goes in"}, []string{"Use it for"}},
		{"a fixer of a known day with a guess", url.Values{
			"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"2 L"}, "made": {"day"}, "day": {"2026-03-10"}, "before": {"guess"},
			"sheets": {"30"}, "size": {"8x10"}, "of": {"RC paper"}, "for": {"paper"},
		}, []string{"Use it for", "All 30 sheets that went through were guessed", "Made about Tue"}, []string{"Test it before"}},
		{"a number says more than what is ticked from the first", url.Values{
			"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"2 L"}, "made": {"unknown"}, "day": {"2026-03-10 09:30"}, "before": {"unknown"},
			"sheets": {"30"}, "size": {"8x10"}, "of": {"RC paper"},
		}, []string{"Use it for", "All 30 sheets"}, []string{"Test it before"}},
		{"a fixer that is fresh", url.Values{
			"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"2 L"}, "made": {"today"}, "day": {"09:30"}, "before": {"none"}, "for": {"paper"},
		}, []string{"Use it for 70 more", "Made about Thursday 12 March, 09:30"}, []string{"guessed"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := withExample(t)
			page := plain(html.UnescapeString(regexp.MustCompile(`</?b>`).ReplaceAllString(h.stands(tt.form).Text, "")))
			for _, want := range tt.says {
				if !strings.Contains(page, want) {
					t.Errorf("%q is not said", want)
				}
			}
			for _, bad := range tt.not {
				if strings.Contains(page, bad) {
					t.Errorf("%q is said", bad)
				}
			}
			if m := left.FindString(page); m != "" {
				t.Errorf("%q is left on the page", m)
			}
		})
	}
}

// The book keeps how well it is known, and the guess as one; undo takes the bath back, and leads to a page that is there.
func TestTheBookKeepsWhatStood(t *testing.T) {
	h := withExample(t)
	form := h.get("/baths/stands").Text
	page := h.stands(url.Values{
		"product": {choice(t, form, "rapid fixer")}, "volume": {"2 L"}, "where": {choice(t, form, "white tray")}, "made": {"day"},
		"day": {"2026-03-10"}, "before": {"guess"}, "sheets": {"30"}, "size": {"8x10"}, "of": {"FB paper"}, "for": {"paper"}, "place": {"first of two"},
	})
	s, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	all := s.Baths()
	if len(all) != 1 {
		t.Fatalf("%d baths, want one", len(all))
	}
	b := all[0]
	if b.Made != book.MadeEstimated || b.MixedAt.Format("2006-01-02") != "2026-03-10" || b.Mixed.Dilution != "1+4" ||
		b.Mixed.Tray == "" || b.Volume != 2*quantity.Litre || string(b.Place) != "first of two" || len(b.Mixed.From) != 0 {
		t.Errorf("the book has %+v", b.Mixed)
	}
	if len(b.Totals) != 1 || b.Totals[0].Estimated.Sheets != 30 || b.Totals[0].Counted.Sheets != 0 {
		t.Errorf("totals %+v, want 30 sheets, estimated", b.Totals)
	}
	undo := first(t, actions(page.Text), "/undo/")
	back := regexp.MustCompile(`name="back" value="([^"]*)"`).FindStringSubmatch(page.Text)
	if back == nil {
		t.Fatal("undo leads nowhere")
	}
	a := h.post(undo, url.Values{"back": {back[1]}})
	if to := a.Header.Get("Location"); to == "" || h.get(to).StatusCode != http.StatusOK {
		t.Errorf("undo: %d to %q", a.StatusCode, to)
	}
	if s, err = h.book.State(t.Context()); err != nil || len(s.Baths()) != 0 {
		t.Errorf("after undo %d baths, %v", len(s.Baths()), err)
	}
}

// The second of two that stand already finds the first.
func TestTwoFixersThatStandAlready(t *testing.T) {
	h := withExample(t)
	for _, place := range []string{"second of two", "first of two"} {
		h.stands(url.Values{"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"2 L"}, "made": {"today"}, "before": {"none"}, "place": {place}})
	}
	s, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	all := s.Baths()
	if len(all) != 2 || all[0].Pair == nil || all[0].Pair.First != all[1].ID || all[0].Pair.Second != all[0].ID {
		t.Fatalf("baths %+v are no pair", all)
	}
	if a, b := all[0].Mixed.Product, all[1].Mixed.Product; a == b {
		t.Error("two products that the shelf lacks became one")
	}
}

// A bath of unknown age is none of those that stand ready for the evening.
func TestWhatStoodIsNotReady(t *testing.T) {
	h := withExample(t)
	form := h.get("/baths/stands").Text
	for _, tt := range []struct {
		made string
		want bool
	}{{"unknown", false}, {"today", true}} {
		before := map[string]string{"unknown": "unknown", "today": "none"}[tt.made]
		h.stands(url.Values{
			"product": {choice(t, form, "paper developer")}, "volume": {"2 L"}, "where": {choice(t, form, "white tray")},
			"made": {tt.made}, "before": {before}, "for": {"paper"},
		})
		if got := strings.Contains(h.get("/mix/ready").Text, "1 of"); got != tt.want {
			t.Errorf("made %s: counted as ready %v, want %v", tt.made, got, tt.want)
		}
	}
}

// What is wrong is told at its field, what was typed stays, and nothing is written.
func TestStandsAtItsField(t *testing.T) {
	h := withExample(t)
	good := url.Values{
		"product": {"role fixer"}, "dilution": {"1+4"}, "volume": {"2 L"}, "made": {"day"}, "day": {"2026-03-10"}, "before": {"guess"},
		"sheets": {"30"}, "size": {"8x10"}, "of": {"RC paper"},
	}
	at := h.position()
	for _, tt := range []struct{ name, field, typed string }{
		{"no product", "product", ""},
		{"a product of nobody", "product", "product nobody"},
		{"no dilution", "dilution", ""},
		{"a dilution of tea", "dilution", "strong"},
		{"no volume", "volume", ""},
		{"a volume without a unit", "volume", "2"},
		{"900 L", "volume", "900 L"},
		{"nothing", "volume", "0 L"},
		{"nowhere", "where", "tray nobody"},
		{"no way to know", "made", "perhaps"},
		{"no day", "day", ""},
		{"a date in the future", "day", "2026-03-13"},
		{"a time in the future", "day", "23:59"},
		{"a date that does not exist", "day", "2026-02-30"},
		{"a date of another age", "day", "1026-03-10"},
		{"no date", "day", "last week"},
		{"a count below zero", "sheets", "-3"},
		{"no count", "sheets", ""},
		{"no number", "sheets", "thirty"},
		{"none", "sheets", "0"},
		{"more than any darkroom has", "sheets", "9000000"},
		{"no size", "size", "big"},
		{"a roll of paper", "size", "135-36"},
		{"no material", "of", "canvas"},
		{"no way to have worked", "before", "perhaps"},
		{"for nothing", "for", "soup"},
		{"third of two", "place", "third of two"},
		{"markup", "day", `"><script>alert(1)</script>`},
	} {
		form := maps.Clone(good)
		form.Set(tt.field, tt.typed)
		h.wrongAt(t, tt.name, form, tt.field)
	}
	for _, tt := range []struct {
		name, field string
		also        url.Values
	}{
		{"a stop bath of two", "place", url.Values{"product": {"role stop bath"}, "place": {"first of two"}}},
		{"today that is no today", "day", url.Values{"made": {"today"}}},
		{"thirty and none", "sheets", url.Values{"before": {"none"}}},
	} {
		form := maps.Clone(good)
		maps.Copy(form, tt.also)
		h.wrongAt(t, tt.name, form, tt.field)
	}
	if now := h.position(); now != at {
		t.Errorf("%d entries were written", now-at)
	}
}

// wrongAt sends a form that is wrong at one field.
func (h *house) wrongAt(t *testing.T, name string, form url.Values, field string) {
	t.Helper()
	a := h.post("/baths/stands", form)
	told := regexp.MustCompile(`id="([a-z]+)-problem"`).FindAllStringSubmatch(a.Text, -1)
	at := make([]string, 0, len(told))
	for _, m := range told {
		at = append(at, m[1])
	}
	if a.StatusCode != http.StatusUnprocessableEntity || !slices.Equal(at, []string{field}) {
		t.Errorf("%s: %d, and wrong at %v, want %s", name, a.StatusCode, at, field)
	}
	if strings.Contains(a.Text, "<script>alert") {
		t.Errorf("%s: markup came through", name)
	}
	if m := left.FindString(a.Text); m != "" {
		t.Errorf("%s: %q is left on the page", name, m)
	}
	for _, kept := range []string{"dilution", "volume", "day", "sheets", "size"} {
		if typed := form.Get(kept); typed != "" && !strings.Contains(html.UnescapeString(inputOf(t, a.Text, kept)), `value="`+typed+`"`) {
			t.Errorf("%s: %q is gone from %s", name, typed, kept)
		}
	}
}
