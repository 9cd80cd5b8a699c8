package web_test

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// tags are what stands between words on a page.
var tags = regexp.MustCompile(`<[^>]*>`)

// read is a page's words alone, on one line.
func read(page string) string {
	return html.UnescapeString(strings.Join(strings.Fields(tags.ReplaceAllString(page, " ")), " "))
}

// The safety sheet tells of each product what it does, as bought and thinned, in the standard's words; never that something is harmless.
func TestSafetySheet(t *testing.T) {
	h := withExample(t)
	page := h.get("/safety").Text
	text := read(page)
	for _, want := range []string{
		"An estimate; the supplier's safety data sheet rules.", "H317 May cause an allergic skin reaction.", "Danger", "EUH208 Contains hydroquinone.",
		"see the supplier's sheet.", "Not judged: read the label. Nothing is declared of it.", "Aquatic Chronic 2", "H412 Harmful to aquatic life",
		"citric stop bath and rapid fixer as bought: sulfur dioxide", "chlorine bleach (the household kind)", "12 changes of the room's air an hour", "5 an hour",
		"In an eye : rinse", "Write your poison centre's number here", "art.fsu.edu",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on it", want)
		}
	}
	if n := strings.Count(page, "<svg"); n < 8 {
		t.Errorf("%d pictograms", n)
	}
	if open := read(h.get("/safety?how=p1").Text); !strings.Contains(open, "hydroquinone") || strings.Contains(page, "<dl") || len(open) < len(text)+500 {
		t.Errorf("a reckoning is not opened by itself: %d and %d letters", len(text), len(open))
	}
	if strings.Contains(strings.ReplaceAll(text, "does not make it harmless", ""), "harmless") {
		t.Error("something is called harmless")
	}
	for _, from := range []string{"/shelf", "/mix", "/mix/before/1"} {
		if !slices.Contains(hrefs(h.get(from).Text), "/safety") {
			t.Errorf("%s does not lead there", from)
		}
	}
	for _, from := range []string{"/shelf", "/mix", "/plan", "/mix/before/1"} {
		if !strings.Contains(read(h.get(from).Text), "Never pour together : chlorine bleach with citric stop bath (chlorine gas)") {
			t.Errorf("%s does not say what must never be poured together", from)
		}
		if from != "/shelf" && strings.Contains(read(h.get(from).Text), "sulfur dioxide") {
			t.Errorf("%s warns of developer and stop bath side by side, which is normal practice", from)
		}
	}
}

// A room's own line takes the blank one's place, wherever it stands.
func TestPoisonCentre(t *testing.T) {
	h := withExample(t)
	const number = "the one on the door"
	form := h.formOf("/room")
	form.Set("poison_centre", number)
	if a := h.post("/room", form); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("keeping it: %d, %s", a.StatusCode, problemsOf(a.Text))
	}
	for _, from := range []string{"/safety", "/mix", "/mix/before/1"} {
		if text := read(h.get(from).Text); !strings.Contains(text, "Poison centre: "+number) || strings.Contains(text, "Write your poison centre") {
			t.Errorf("%s: %s", from, text)
		}
	}
}

// What somebody tells of themselves raises the caution where they work, for them and for the keyholder, and stands nowhere else.
func TestNotesAreForTheirPersonAndTheKeyholder(t *testing.T) {
	h := withExample(t)
	code := h.share()
	lena, other := &device{house: h}, h.joined(code, "Omar")
	a := lena.do(http.MethodPost, code, url.Values{"name": {"Lena"}, "note": {"asthma", "under 18", "wine"}, "sensitised": {"hydroquinone,  "}})
	if a.StatusCode != http.StatusSeeOther {
		t.Fatalf("joining: %d\n%s", a.StatusCode, a.Text)
	}
	const allergic, young = "Sensitised to hydroquinone: does not work with this.", "Under 18: with tongs only."
	for _, path := range []string{"/sink", "/safety"} {
		mine := read(lena.do(http.MethodGet, path, nil).Text)
		if !strings.Contains(mine, "paper developer . "+allergic) || !strings.Contains(mine, young) {
			t.Errorf("%s does not raise her caution: %s", path, mine)
		}
		if strings.Contains(mine, "Sensitised to metol") {
			t.Errorf("%s shows her somebody else's note", path)
		}
	}
	if keeper := read(h.get("/safety").Text); !strings.Contains(keeper, "Lena") || !strings.Contains(keeper, allergic) || !strings.Contains(keeper, "Sensitised to metol") {
		t.Errorf("the keyholder is not told: %s", keeper)
	}
	if step := read(h.get("/mix/film-developer/1").Text); !strings.Contains(step, "Tobi") || !strings.Contains(step, "Sensitised to metol") {
		t.Errorf("where Tobi mixes: %s", step)
	}
	for _, path := range []string{"/safety", "/sink", "/mix", "/mix/film-developer/1", "/wall", "/handover"} {
		if got := read(other.do(http.MethodGet, path, nil).Text); strings.Contains(got, "Sensitised") || strings.Contains(got, "Under 18") {
			t.Errorf("%s shows Omar somebody's note", path)
		}
	}
	for _, path := range []string{"/wall", "/handover", "/mix", "/darkroom.yaml", "/file", "/sink", "/sink/setup.json", "/today", "/"} {
		if got := strings.ToLower(h.get(path).Text); strings.Contains(got, "sensitised") || strings.Contains(got, "asthma") {
			t.Errorf("%s shows a note", path)
		}
	}
}

// In a school whoever joins is a pupil: working solutions alone, with tongs.
func TestPupils(t *testing.T) {
	h := withExample(t)
	form := h.formOf("/room")
	form.Set("place", "school")
	h.post("/room", form)
	d := h.joined(h.share(), "Kim")
	if text := read(d.do(http.MethodGet, "/sink", nil).Text); !strings.Contains(text, "Under 18: with tongs only.") {
		t.Errorf("at the sink: %s", text)
	}
	if text := read(h.get("/mix").Text); !strings.Contains(text, "Pupils: working solutions only, and with tongs.") {
		t.Error("the mix sheet says nothing of pupils")
	}
}

var (
	inputs  = regexp.MustCompile(`<input[^>]* name="([^"]*)" value="([^"]*)"`)
	selects = regexp.MustCompile(`(?s)<select[^>]* name="([^"]*)".*?</select>`)
	chosen  = regexp.MustCompile(`<option value="([^"]*)" selected`)
)

// formOf is a page's form as it stands there.
func (h *house) formOf(path string) url.Values {
	h.t.Helper()
	page, form := h.get(path).Text, url.Values{}
	for _, m := range inputs.FindAllStringSubmatch(page, -1) {
		form.Set(m[1], html.UnescapeString(m[2]))
	}
	for _, m := range selects.FindAllStringSubmatch(page, -1) {
		if c := chosen.FindStringSubmatch(m[0]); c != nil {
			form.Set(m[1], html.UnescapeString(c[1]))
		}
	}
	form.Del("back") // of the light's own form
	if form.Get("position") == "" {
		h.t.Fatalf("no form on %s", path)
	}
	return form
}

// A caution stands on the screen where it is wanted, before what is done there: scalding water at the tap, the bottle's where it is first
// poured from, the silver's when the fixer stands in its tray. The head alone names what nobody can judge for somebody.
func TestCautionsStandWhereTheyAreWanted(t *testing.T) {
	h := withExample(t)
	for _, tt := range []struct{ path, caution, before string }{
		{"/mix/developer/1", "This water scalds", "Hot water to the"},
		{"/mix/developer/2", "Paper developer from the bottle damages eyes", "to the mark"},
		{"/mix/film-developer/1", "Tobi : film developer powder . Sensitised to metol: does not work with this.", "Hot water to the"},
		{"/mix/stop/3", "acid into water", "to the mark"},
		{"/mix/fixer/4", "Used fixer holds silver", "Pour it into the"},
		{"/mix/before/1", "Tobi : wetting agent . Not all of it can be judged", "Never pour together"},
	} {
		text := read(h.get(tt.path).Text)
		if said, done := strings.Index(text, tt.caution), strings.Index(text, tt.before); said < 0 || done < said {
			t.Errorf("%s: %q at %d, %q at %d: %s", tt.path, tt.caution, said, tt.before, done, text)
		}
	}
	for path, wrong := range map[string]string{
		"/mix/developer/1": "from the bottle damages", "/mix/fixer/1": "can be judged", "/mix/film-wetting-agent/1": "can be judged",
		"/mix/before/1": "rapid fixer . Not all",
	} {
		if text := read(h.get(path).Text); strings.Contains(text, wrong) {
			t.Errorf("%s says %q", path, wrong)
		}
	}
}
