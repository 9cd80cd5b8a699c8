package web_test

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// A form with a mistake comes back with what was typed, the mistake at its field, and nothing is written.
func TestBadInputStaysAtItsField(t *testing.T) {
	for _, tt := range []struct {
		name, path string
		form       url.Values
		field      string
		typed      string
	}{
		{"a vessel without a name", "/bench/vessel/new", url.Values{"kind": {"jug"}}, "name", ""},
		{"a jug without a scale", "/bench/vessel/new", url.Values{"name": {"bare jug"}, "kind": {"jug"}}, "scales[0].unit", ""},
		{"a name twice", "/bench/vessel/new", url.Values{
			"name": {"litre jug"}, "kind": {"jug"}, "scales[0].unit": {"mL"},
			"scales[0].from": {"100"}, "scales[0].to": {"1000"}, "scales[0].step": {"50"},
		}, "name", "litre jug"},
		{"a scale whose marks do not divide", "/bench/vessel/new", url.Values{
			"name": {"odd jug"}, "kind": {"jug"}, "scales[0].unit": {"mL"},
			"scales[0].from": {"100"}, "scales[0].to": {"1000"}, "scales[0].step": {"70"},
		}, "scales[0].step", "70"},
		{"an absurd jug", "/bench/vessel/new", url.Values{
			"name": {"vat"}, "kind": {"jug"}, "scales[0].unit": {"L"},
			"scales[0].from": {"100"}, "scales[0].to": {"900"}, "scales[0].step": {"100"},
		}, "scales[0].to", "900"},
		{"a tray without millimetres", "/bench/tray/new", url.Values{"name": {"green tray"}, "for": {"developer"}, "inside": {"wide"}}, "inside", "wide"},
		{"a dilution of nothing", "/shelf/product/new", url.Values{"name": {"dev"}, "role": {"developer"}, "dilutions.RC paper": {"1+0"}}, "dilutions.RC paper", "1+0"},
		{"a lot of nothing known", "/shelf/lot/new", url.Values{"product": {"mystery"}, "holds": {"1 L"}}, "product", "mystery"},
		{"a volume without a unit", "/shelf/lot/new", url.Values{"product": {"stop bath"}, "holds": {"500"}}, "holds", "500"},
		{"a day that does not exist", "/shelf/lot/new", url.Values{"product": {"stop bath"}, "holds": {"1 L"}, "opened": {"2026-02-30"}}, "opened", "2026-02-30"},
		{"fewer than no sheets", "/plan/load/new", url.Values{"material": {"RC paper"}, "size": {"8x10 in"}, "sheets": {"-3"}}, "sheets", "-3"},
		{"a size of no paper", "/plan/load/new", url.Values{"material": {"RC paper"}, "size": {"big"}, "sheets": {"3"}}, "size", "big"},
		{"no time of day", "/plan/when", url.Values{"starts": {"soon"}}, "starts", "soon"},
		{"hot of no temperature", "/room", url.Values{"name": {"Cellar"}, "water.hot": {"very"}}, "water.hot", "very"},
		{"markup", "/room", url.Values{"name": {"Cellar"}, "water.hot": {`"><script>alert(1)</script>`}}, "water.hot", `"><script>alert(1)</script>`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := withExample(t)
			before := h.position()
			a := h.post(tt.path, tt.form)
			if a.StatusCode != http.StatusUnprocessableEntity {
				t.Fatalf("%d, want 422\n%s", a.StatusCode, a.Text)
			}
			if now := h.position(); now != before {
				t.Errorf("%d entries were written", now-before)
			}
			input := inputOf(t, a.Text, tt.field)
			if !strings.Contains(input, `aria-invalid="true"`) || !strings.Contains(input, `aria-describedby="`+idOf(tt.field)+`-problem`) {
				t.Errorf("the field does not say that it is wrong: %s", input)
			}
			if !strings.Contains(a.Text, `id="`+idOf(tt.field)+`-problem"`) {
				t.Errorf("nothing is said of %s", tt.field)
			}
			if tt.typed != "" && !strings.Contains(html.UnescapeString(input), `value="`+tt.typed+`"`) {
				t.Errorf("%q is gone from its field: %s", tt.typed, input)
			}
			if strings.Contains(a.Text, "<script") {
				t.Error("markup came through")
			}
			for name, typed := range tt.form {
				if !strings.Contains(html.UnescapeString(a.Text), typed[0]) {
					t.Errorf("%s: %q is gone from the page", name, typed[0])
				}
			}
		})
	}
}

// idOf is the id of a field of this name.
func idOf(name string) string { return strings.ReplaceAll(name, " ", "-") }

// inputOf returns the tag of a field.
func inputOf(t *testing.T, page, name string) string {
	t.Helper()
	tag := regexp.MustCompile(`<(input|select) id="` + regexp.QuoteMeta(idOf(name)) + `"[^>]*>`).FindString(page)
	if tag == "" {
		t.Fatalf("no field %s on the page", name)
	}
	return tag
}

func TestJugReadsWordsAtTheirField(t *testing.T) {
	h := empty(t)
	for _, tt := range []struct{ label, volume, wrong string }{
		{"1+0", "1 L", "label"},
		{"tea", "1 L", "label"},
		{"1+9", "1", "volume"},
		{"1+9", "-1 L", "volume"},
		{"", "1 L", "label"},
		{"1+9", "", "volume"},
		{"1+9", "900000 L", "volume"},
		{strings.Repeat("1", 4000), "1 L", "label"},
	} {
		a := h.get("/jug?" + url.Values{"label": {tt.label}, "volume": {tt.volume}}.Encode())
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, tt.wrong), "aria-invalid") {
			t.Errorf("%.20q, %q: %d, and %s does not say it is wrong", tt.label, tt.volume, a.StatusCode, tt.wrong)
		}
	}
	for _, q := range []url.Values{
		{"label": {"1+9"}, "volume": {"1 L"}, "for": {"soup"}}, {"label": {"1+9"}, "volume": {"1 L"}, "material": {"canvas"}},
	} {
		if a := h.get("/jug?" + q.Encode()); a.StatusCode != http.StatusUnprocessableEntity {
			t.Errorf("%v: %d, want 422", q, a.StatusCode)
		}
	}
}

// A litre jug alone: 1+9 is 100 mL made up to 1000 mL, 1+31 is 1 fl oz made up to 32 (common practice).
func TestJugAnswers(t *testing.T) {
	h := empty(t)
	if a := h.post("/begin/jugs", url.Values{"vessel": {"litre_jug_both"}}); a.Header.Get("Location") != "/begin/trays" {
		t.Fatalf("begin: %d to %q", a.StatusCode, a.Header.Get("Location"))
	}
	for _, tt := range []struct{ label, volume, number, unit string }{
		{"1+9", "1 L", "100", "mL"}, {"1+31", "1 L", "1", "fl\u00a0oz"}, {"1+4", "1 L", "200", "mL"},
	} {
		a := h.get("/jug?" + url.Values{"label": {tt.label}, "volume": {tt.volume}}.Encode())
		lead := `<span class="number">` + tt.number + `</span><span class="unit">` + tt.unit + `</span>`
		if a.StatusCode != http.StatusOK || !strings.Contains(a.Text, lead) {
			t.Errorf("%s, %s: %d, and %s %s does not lead", tt.label, tt.volume, a.StatusCode, tt.number, tt.unit)
		}
	}
}

// A good form is written, shown, changed and taken away again.
func TestThings(t *testing.T) {
	for _, tt := range []struct {
		name, list, path string
		form             url.Values
		shows            string
	}{
		{"vessel", "/bench", "/bench/vessel/", url.Values{
			"name": {"chipped jug"}, "kind": {"jug"}, "scales[0].unit": {"mL"},
			"scales[0].from": {"100"}, "scales[0].to": {"900"}, "scales[0].step": {"100"},
		}, "chipped jug"},
		{"tray", "/bench", "/bench/tray/", url.Values{"name": {"green tray"}, "for": {"developer"}, "inside": {"300 x 400 mm"}}, "green tray"},
		{"tank", "/bench", "/bench/tank/", url.Values{"name": {"old tank"}, "covers.135": {"290 mL"}}, "old tank"},
		{"product", "/shelf", "/shelf/product/", url.Values{"name": {"spare fixer"}, "role": {"fixer"}, "form": {"liquid"}, "dilutions.RC paper": {"1+4"}}, "spare fixer"},
		{"load", "/plan", "/plan/load/", url.Values{"material": {"RC paper"}, "size": {"5x7 in"}, "sheets": {"11"}}, "5×7"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := withExample(t)
			had := hrefs(h.get(tt.list).Text)
			if a := h.post(tt.path+"new", tt.form); a.Header.Get("Location") != tt.list {
				t.Fatalf("%d to %q\n%s", a.StatusCode, a.Header.Get("Location"), problemsOf(a.Text))
			}
			page := h.get(tt.list).Text
			if !strings.Contains(page, tt.shows) {
				t.Fatalf("%q is not on %s", tt.shows, tt.list)
			}
			var at string
			for _, x := range hrefs(page) {
				if strings.HasPrefix(x, tt.path) && !strings.Contains(strings.Join(had, " ")+" ", x+" ") {
					at = x
				}
			}
			if at == "" {
				t.Fatal("no address of the new thing")
			}
			if a := h.get(at); a.StatusCode != http.StatusOK {
				t.Fatalf("GET %s: %d", at, a.StatusCode)
			}
			if a := h.post(at+"/away", nil); a.Header.Get("Location") != tt.list {
				t.Fatalf("away: %d\n%s", a.StatusCode, a.Text)
			}
			if strings.Contains(h.get(tt.list).Text, tt.shows) {
				t.Errorf("%q is still there", tt.shows)
			}
		})
	}
}

func problemsOf(page string) string {
	return strings.Join(regexp.MustCompile(`(class="problem"[^>]*>[^<]*|role="alert">.*)`).FindAllString(page, -1), "\n")
}

// Two people change the bench from the same page: the second is told, and what they typed is still there.
func TestTheSecondToChangeIsTold(t *testing.T) {
	h := withExample(t)
	old := url.Values{
		"name": {"chipped jug"}, "kind": {"jug"}, "scales[0].unit": {"mL"}, "scales[0].from": {"100"},
		"scales[0].to": {"900"}, "scales[0].step": {"100"},
	}
	position := regexp.MustCompile(`name="position" value="(\d+)"`).FindStringSubmatch(h.get("/bench/vessel/new").Text)
	if position == nil {
		t.Fatal("the form says no position")
	}
	old.Set("position", position[1])
	if a := h.post("/bench/vessel/new", old); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("the first: %d", a.StatusCode)
	}
	before := h.position()
	old.Set("name", "dented jug")
	a := h.post("/bench/vessel/new", old)
	if a.StatusCode != http.StatusConflict || !strings.Contains(a.Text, "dented jug") || !strings.Contains(a.Text, "Somebody changed this meanwhile") {
		t.Errorf("the second: %d\n%s", a.StatusCode, problemsOf(a.Text))
	}
	if now := h.position(); now != before {
		t.Errorf("%d entries were written", now-before)
	}
	if again := regexp.MustCompile(`name="position" value="(\d+)"`).FindStringSubmatch(a.Text); again == nil || again[1] == position[1] {
		t.Errorf("the form still stands on position %v", again)
	}
	away := first(t, hrefs(h.get("/bench").Text), "/bench/vessel/") + "/away"
	if a := h.post(away, url.Values{"position": {position[1]}}); a.StatusCode != http.StatusConflict || !strings.Contains(a.Text, "Somebody changed this meanwhile") {
		t.Errorf("taking away: %d", a.StatusCode)
	}
}

func TestImport(t *testing.T) {
	h := empty(t)
	bad := "darkroom:\n  name: Cellar\n  plaice: home\nbench:\n  vessels:\n    - name: jug\n      kind: jug\n      scales:\n        - {unit: mL, from: 100, to: 1000, step: 70}\n"
	a := h.post("/file", url.Values{"text": {bad}})
	if a.StatusCode != http.StatusUnprocessableEntity {
		t.Fatalf("%d, want 422", a.StatusCode)
	}
	for _, want := range []string{"line 3", "line 9", "place", html.EscapeString("plaice: home")} {
		if !strings.Contains(a.Text, want) {
			t.Errorf("%q is not on the page:\n%s", want, problemsOf(a.Text))
		}
	}
	for _, text := range []string{"", "\x00\x01\x02", "a: [", strings.Repeat("[", 3000), "a: &a [*a]", "- 1\n- 2"} {
		if a := h.post("/file", url.Values{"text": {text}}); a.StatusCode != http.StatusUnprocessableEntity {
			t.Errorf("%.10q: %d, want 422", text, a.StatusCode)
		}
	}
	if h.position() != 0 {
		t.Errorf("%d entries were written", h.position())
	}
	full := withExample(t).get("/darkroom.yaml")
	if a := h.post("/file", url.Values{"text": {full.Text}}); a.Header.Get("Location") != "/" {
		t.Fatalf("a good file: %d\n%s", a.StatusCode, problemsOf(a.Text))
	}
	if got := h.get("/darkroom.yaml").Text; got != full.Text {
		t.Errorf("the file came back different:\n%s", got)
	}
	at := h.position()
	if h.post("/file", url.Values{"text": {full.Text}}); h.position() != at {
		t.Errorf("the same file wrote %d entries", h.position()-at)
	}
}
