package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// A product of which nobody told how much stands there is asked about, without alarm, until it is told.
func TestWhatStandsThereIsAsked(t *testing.T) {
	h := guided(t)
	for _, x := range actions(h.get("/shelf").Text) {
		if strings.HasSuffix(x, "/discarded") {
			h.post(x, nil)
		}
	}
	const ask, tell = "How much Fixer stands there?", `href="/shelf/lot/new?product=Fixer"`
	for _, path := range []string{"/", "/plan", "/mix"} {
		if a := h.get(path); !strings.Contains(a.Text, ask) || !strings.Contains(a.Text, tell) || strings.Contains(a.Text, "<b>Missing</b>") {
			t.Errorf("GET %s: it is not asked, or it is an alarm", path)
		}
	}
	h.post("/shelf/lot/new", url.Values{"product": {"Fixer"}, "holds": {"1 L"}})
	for _, path := range []string{"/", "/plan", "/mix"} {
		if a := h.get(path); strings.Contains(a.Text, ask) {
			t.Errorf("GET %s: it was told, and is asked again", path)
		}
	}
}

// A stop bath is taken for an acid where nobody says otherwise; a file's own silence is asked about before anything is poured.
func TestAStopBathIsAnAcid(t *testing.T) {
	for said, want := range map[string]string{"": "acid: yes", "yes": "acid: yes", "no": "acid: no"} {
		h := empty(t)
		h.post("/begin", nil)
		form := url.Values{"name": {"sharp"}, "role": {"stop bath"}, "dilutions.RC paper": {"1+31"}, "acid": {said}}
		if a := h.post("/shelf/product/new", form); a.Header.Get("Location") != "/shelf" {
			t.Fatalf("%d\n%s", a.StatusCode, problemsOf(a.Text))
		}
		if file := h.get("/darkroom.yaml").Text; !strings.Contains(file, want) {
			t.Errorf("said %q: want %s in\n%s", said, want, file)
		}
	}
	h := guided(t)
	file := strings.Replace(h.get("/darkroom.yaml").Text, "      acid: no\n", "", 1)
	other := empty(t)
	if a := other.post("/file", url.Values{"text": {file}}); a.Header.Get("Location") != "/" {
		t.Fatalf("%d\n%s", a.StatusCode, problemsOf(a.Text))
	}
	for _, path := range []string{"/mix/stop/1", "/mix"} {
		text := other.get(path).Text
		if _, after, _ := strings.Cut(path, "/mix"); after == "" {
			_, text, _ = strings.Cut(text, `id="stop"`)
		}
		ask, pour := strings.Index(text, "is it an acid?"), strings.Index(text, "mark of")
		if ask < 0 || pour >= 0 && pour < ask {
			t.Errorf("GET %s: asked at %d, poured at %d", path, ask, pour)
		}
	}
}

// A size without a unit is read as inches where it is a usual sheet's, and said so; else the unit is asked for.
func TestASizeWithoutAUnit(t *testing.T) {
	for size, want := range map[string]string{"8x10": "/plan?read=inches", "14 x 11": "/plan?read=inches", "24x30": "", "8x10 in": "/plan"} {
		h := guided(t)
		a := h.post("/plan/load/new", url.Values{"material": {"RC paper"}, "size": {size}, "sheets": {"3"}})
		if a.Header.Get("Location") != want || (want == "") != (a.StatusCode == http.StatusUnprocessableEntity) {
			t.Errorf("%s: %d to %q, want %q", size, a.StatusCode, a.Header.Get("Location"), want)
		}
	}
}

// Scales of which nobody said which marks carry a number get them by the step.
func TestMarksGetNumbers(t *testing.T) {
	for _, tt := range []struct{ from, to, step, want string }{
		{"100", "500", "50", "numbered: 50"},
		{"50", "1000", "50", "numbered: 100"},
		{"25", "500", "25", "numbered: 100"},
		{"1", "60", "1", "numbered: 5"},
		{"0.2", "10", "0.2", "numbered: 1"},
		{"30", "90", "20", ""},
	} {
		h := empty(t)
		h.post("/begin", nil)
		a := h.post("/bench/vessel/new", url.Values{
			"name": {"jug"}, "kind": {"jug"}, "scales[0].unit": {"mL"}, "scales[0].from": {tt.from}, "scales[0].to": {tt.to}, "scales[0].step": {tt.step},
		})
		file := h.get("/darkroom.yaml").Text
		if a.Header.Get("Location") != "/bench" || !strings.Contains(file, tt.want+"}") || (tt.want == "") == strings.Contains(file, "numbered") {
			t.Errorf("%s to %s by %s: %d, want %q in\n%s", tt.from, tt.to, tt.step, a.StatusCode, tt.want, file)
		}
	}
}

// A mix that comes only just near enough says so, and offers a nearer way where the bench has one.
func TestANearerWayIsOffered(t *testing.T) {
	h := guided(t)
	h.post("/begin/jugs", url.Values{"kind": {"syringe"}, "holds": {"60"}, "every": {"1"}})
	_, text, _ := strings.Cut(h.get("/mix").Text, `id="developer"`)
	text, _, _ = strings.Cut(text, `id="stop"`)
	if !strings.Contains(text, "only just within") || !strings.Contains(text, "More exactly:") || !strings.Contains(strings.Join(strings.Fields(text), " "), "60 mL syringe") {
		t.Errorf("the developer's bath says\n%s", text)
	}
}

// A mix sheet with nothing on it leads to where that is told.
func TestAnEmptyMixSheetLeadsOn(t *testing.T) {
	h := empty(t)
	h.post("/begin", nil)
	if a := h.get("/mix"); !strings.Contains(a.Text, `href="/plan/load/new"`) {
		t.Error("no way from the empty mix sheet")
	}
}
