package web_test

import (
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetside/internal/browsertest"
	"wetside/trade/fault"
)

// order returns the names of the causes on a page, as they stand.
func order(text string) (names []string) {
	for _, m := range regexp.MustCompile(`<span class="n">\d+</span> ([^<]+)</h3>`).FindAllStringSubmatch(text, -1) {
		names = append(names, m[1])
	}
	return names
}

// Every sign has its picture on the page, and a page of its own with all its causes, each with why, check and remedy.
func TestEverySignIsThere(t *testing.T) {
	h := withExample(t)
	page := h.get("/wrong")
	for _, s := range fault.Signs() {
		at := "/wrong?sign=" + string(s)
		if !strings.Contains(page.Text, `href="`+at+`"`) {
			t.Errorf("no way to %s", s)
		}
		a := h.get(at)
		if n := len(order(a.Text)); a.StatusCode != http.StatusOK || n != len(s.Links()) || strings.Count(a.Text, ">Check</h4>") != n || left.MatchString(a.Text) {
			t.Errorf("GET %s: %d, %d causes, want %d", at, a.StatusCode, n, len(s.Links()))
		}
		if light := strings.Contains(a.Text, "Rule out light first"); light != s.LightFirst() {
			t.Errorf("%s: light is ruled out first: %t", s, light)
		}
	}
	if n := strings.Count(page.Text, "<svg"); n != len(fault.Signs()) {
		t.Errorf("%d pictures", n)
	}
	for _, path := range []string{"/wrong?sign=nothing", "/wrong?sign=nothing&yes=x"} {
		if a := h.get(path); a.StatusCode != http.StatusNotFound {
			t.Errorf("GET %s: %d", path, a.StatusCode)
		}
	}
	developer := h.mixAll()["Developer"]
	for _, path := range []string{"/", "/sink", "/baths", developer} {
		if !slices.ContainsFunc(hrefs(h.get(path).Text), func(to string) bool { return strings.HasPrefix(to, "/wrong") }) {
			t.Errorf("no way from %s", path)
		}
	}
}

// Plain words lead to signs; none of them leads to all.
func TestWordsLeadToSigns(t *testing.T) {
	h := withExample(t)
	a := h.get("/wrong?q=" + url.QueryEscape("brown paches on the print"))
	_, first, _ := strings.Cut(a.Text, `class="signs"`)
	first, _, _ = strings.Cut(first, "</li>")
	if !strings.Contains(first, "sign=brown_patches") || !strings.Contains(a.Text, `value="brown paches on the print"`) {
		t.Errorf("the words lead to %s", first)
	}
	if a = h.get("/wrong?q=xyzzy"); !strings.Contains(a.Text, "None of the signs") || !strings.Contains(a.Text, "sign=film_thin") {
		t.Error("no words of a sign, and not all signs")
	}
}

// The book is asked first; a check that said no sends its cause away, one that said yes shows the remedy and lets it be kept.
func TestChecksAreAnswered(t *testing.T) {
	h := withExample(t)
	baths := h.mixAll()
	h.post(baths["Developer"]+"/tested", url.Values{"test": {"thermometer"}, "result": {"14 °C"}})
	const at = "/wrong?sign=flat_blacks"
	a := h.get(at)
	if got := order(a.Text); got[0] != "The developer is too cold" || !strings.Contains(a.Text, "was read at 14") {
		t.Fatalf("a cold tray: %v", got)
	}
	if strings.Contains(a.Text, `action="/wrong/flat_blacks"`) {
		t.Error("it can be kept before a check")
	}
	a = h.get(at + "&no=developer_cold")
	if got := order(a.Text); slices.Contains(got, "The developer is too cold") || !strings.Contains(a.Text, "Ruled out") || !strings.Contains(a.Text, `name="no" value="developer_cold"`) {
		t.Errorf("ruled out: %v", got)
	}
	all := at
	for _, l := range fault.FlatBlacks.Links() {
		all += "&no=" + string(l.Cause)
	}
	if a = h.get(all); !strings.Contains(a.Text, "All were ruled out") {
		t.Error("nothing is left, and it is not said")
	}
	a = h.get(at + "&yes=developer_weak")
	if got := order(a.Text); got[0] != "The developer was mixed too thin" || !strings.Contains(a.Text, `action="/wrong/flat_blacks"`) {
		t.Errorf("confirmed: %v", got)
	}
	if a = h.get(at + "&no=nonsense&yes=stray_light"); a.StatusCode != http.StatusOK || len(order(a.Text)) != len(fault.FlatBlacks.Links()) {
		t.Error("what is none of its causes changes something")
	}
}

// What was found is kept, stands at the bath and at the handover, and is taken back.
func TestWhatWasFoundIsKept(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	id := strings.TrimPrefix(fixer, "/baths/")
	a := h.post("/wrong/darkens_in_light", url.Values{"cause": {"fixer_spent"}, "done": {"later"}, "bath": {id}})
	to := a.Header.Get("Location")
	if a.StatusCode != http.StatusSeeOther || !strings.HasPrefix(to, "/wrong?") {
		t.Fatalf("%d to %q", a.StatusCode, to)
	}
	const said = "Darkens or yellows within days"
	page := h.get(to)
	if !strings.Contains(page.Text, "It stands at the handover") || !strings.Contains(page.Text, "still to be done") {
		t.Error("it is not said that it was kept")
	}
	for _, path := range []string{"/handover", fixer, "/wrong"} {
		if got := h.get(path); !strings.Contains(got.Text, said+": <b>The fixer is spent</b>") {
			t.Errorf("%s does not say it", path)
		}
	}
	undo := actions(page.Text)[slices.IndexFunc(actions(page.Text), func(x string) bool { return strings.HasPrefix(x, "/undo/") })]
	if b := h.post(undo, url.Values{"back": {"/wrong"}}); b.Header.Get("Location") != "/wrong" {
		t.Errorf("taken back: %d to %q", b.StatusCode, b.Header.Get("Location"))
	}
	for _, path := range []string{"/handover", fixer} {
		if strings.Contains(h.get(path).Text, said) {
			t.Errorf("%s still says it", path)
		}
	}
	before := h.position()
	for path, form := range map[string]url.Values{
		"/wrong/no_sign": {}, "/wrong/grey_veil": {"cause": {"fixer_spent"}},
	} {
		if b := h.post(path, form); b.StatusCode != http.StatusNotFound {
			t.Errorf("POST %s %v: %d", path, form, b.StatusCode)
		}
	}
	if b := h.post("/wrong/grey_veil", url.Values{"cause": {"stray_light"}, "done": {"nonsense"}}); b.StatusCode < 400 {
		t.Errorf("done otherwise: %d", b.StatusCode)
	}
	if h.position() != before {
		t.Error("something was written")
	}
	h.post("/wrong/grey_veil", nil)
	if !strings.Contains(h.get("/handover").Text, "looked at, no cause found") {
		t.Error("that nothing was found is not kept")
	}
}

// Whoever joined looks, notes and takes back their own.
func TestWhoJoinedMayNote(t *testing.T) {
	h := withExample(t)
	h.mixAll()
	h.post("/wrong/grey_veil", url.Values{"cause": {"stray_light"}})
	d := h.joined(h.share(), "Mo")
	a := d.do(http.MethodPost, "/wrong/flat_blacks", url.Values{"cause": {"pulled_early"}, "done": {"remedied"}})
	if a.StatusCode != http.StatusSeeOther {
		t.Fatalf("%d\n%s", a.StatusCode, a.Text)
	}
	page := d.do(http.MethodGet, "/wrong", nil)
	if n := strings.Count(page.Text, `action="/undo/`); n != 1 || !strings.Contains(page.Text, "Mo") {
		t.Errorf("%d can be taken back by who joined, want their own", n)
	}
}

// A beginner at the sink, in red: touches the picture, answers the checks, sees the remedy only then, and keeps what it was.
func TestSomethingLooksWrong(t *testing.T) {
	t.Parallel()
	h := withExample(t)
	h.mixAll()
	p := inRed(t, h.URL, browsertest.Phone())
	p.Go("/sink")
	p.Click("link", "Something looks wrong")
	p.Reach("/wrong")
	look(t, p, "the signs")
	p.Click("link", "Brown patches")
	p.See("The print was not fully under")
	p.Click("button", "No, not this")
	p.See("Ruled out")
	p.See("The stop bath is exhausted")
	p.Click("button", "Yes, it is this")
	p.See("Mix a new stop bath, acid into water")
	p.Audit()
	look(t, p, "the remedy")
	p.Click("button", "This was it")
	p.See("It stands at the handover")
	look(t, p, "kept")
	p.Go("/handover")
	p.See("The stop bath is exhausted")
}
