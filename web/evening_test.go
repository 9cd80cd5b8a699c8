package web_test

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// lastStep returns the last screen of a bath.
func lastStep(t *testing.T, h *house, bath string) answer {
	t.Helper()
	var last answer
	for n := 1; n < 40; n++ {
		a := h.get(fmt.Sprintf("/mix/%s/%d", bath, n))
		if a.StatusCode != http.StatusOK {
			break
		}
		last = a
	}
	if last.Response == nil {
		t.Fatalf("no screen of %s", bath)
	}
	return last
}

// The evening: from the plan through the steps; what is in the tray leaves the bottle, undo brings it back.
func TestEvening(t *testing.T) {
	h := withExample(t)
	shelf := lefts(h.get("/shelf").Text)
	step := first(t, hrefs(h.get("/").Text), "/mix/")
	seen := 0
	for ; !strings.Contains(step, "stop"); seen++ {
		a := h.get(step)
		if a.StatusCode != http.StatusOK || seen > 30 {
			t.Fatalf("GET %s: %d", step, a.StatusCode)
		}
		posts := slices.DeleteFunc(actions(a.Text), func(at string) bool { return !strings.HasPrefix(at, "/mix/") })
		if len(posts) > 0 {
			next := regexp.MustCompile(`name="next" value="([^"]*)"`).FindStringSubmatch(a.Text)
			to := h.post(posts[0], url.Values{"next": {next[1]}})
			step = to.Header.Get("Location")
			continue
		}
		_, keys, _ := strings.Cut(a.Text, `class="keys"`)
		step = hrefs(keys)[1]
	}
	if seen < 5 {
		t.Errorf("only %d screens before the stop bath", seen)
	}
	poured := lefts(h.get("/shelf").Text)
	if fmt.Sprint(poured) == fmt.Sprint(shelf) {
		t.Fatalf("nothing left the bottles: %v", poured)
	}
	before := h.position()
	today := h.get("/").Text
	if n := strings.Count(today, `action="/undo/`); n == 0 {
		t.Fatal("nothing can be undone")
	}
	for range 5 {
		all := regexp.MustCompile(`action="(/undo/[^"]*)"`).FindStringSubmatch(h.get("/").Text)
		if all == nil {
			break
		}
		if a := h.post(all[1], nil); a.Header.Get("Location") != "/" {
			t.Fatalf("undo: %d\n%s", a.StatusCode, a.Text)
		}
	}
	if back := lefts(h.get("/shelf").Text); fmt.Sprint(back) != fmt.Sprint(shelf) {
		t.Errorf("after undo the shelf holds\n%v, want\n%v", back, shelf)
	}
	if h.position() <= before {
		t.Error("undo wrote no entry: nothing is taken out of the book")
	}
}

// lefts are the amounts that the shelf shows.
func lefts(page string) (out []string) {
	for _, m := range regexp.MustCompile(`name="left" value="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		out = append(out, m[1])
	}
	return out
}

func TestLots(t *testing.T) {
	h := withExample(t)
	all := actions(h.get("/shelf").Text)
	left := first(t, all, "/shelf/lot/")
	before := h.position()
	for _, bad := range []string{"some", "3", "-1 L", ""} {
		if a := h.post(left, url.Values{"left": {bad}}); a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, `role="alert"`) {
			t.Errorf("left %q: %d, want 422 and words", bad, a.StatusCode)
		}
	}
	if h.position() != before {
		t.Error("a bad count was written")
	}
	if a := h.post(left, url.Values{"left": {"123 mL"}}); a.Header.Get("Location") != "/shelf" || !strings.Contains(h.get("/shelf").Text, `value="123 mL"`) {
		t.Errorf("left 123 mL: %d", a.StatusCode)
	}
	for _, a := range all {
		if strings.HasSuffix(a, "/opened") {
			if got := h.post(a, nil); got.Header.Get("Location") != "/shelf" || strings.Contains(h.get("/shelf").Text, `action="`+a+`"`) {
				t.Errorf("opened: %d, or it can be opened again", got.StatusCode)
			}
			break
		}
	}
	gone := strings.TrimSuffix(left, "/left") + "/discarded"
	if a := h.post(gone, nil); a.Header.Get("Location") != "/shelf" || strings.Contains(h.get("/shelf").Text, left) {
		t.Errorf("discarded: %d, or it still stands there", a.StatusCode)
	}
}

func TestBegin(t *testing.T) {
	h := empty(t)
	if a := h.post("/begin/jugs", nil); a.StatusCode != http.StatusUnprocessableEntity || h.position() != 0 || !strings.Contains(a.Text, `role="alert"`) {
		t.Errorf("with nothing ticked: %d, %d entries; want words on it", a.StatusCode, h.position())
	}
	for _, tt := range []struct {
		name, path string
		form       url.Values
		field      string
	}{
		{"a jug without marks", "/begin/jugs", url.Values{"vessel": {"litre_jug"}, "holds": {"500"}}, "every"},
		{"marks that do not divide", "/begin/jugs", url.Values{"vessel": {"litre_jug"}, "holds": {"500"}, "every": {"70"}}, "every"},
		{"ounces of no system", "/begin/jugs", url.Values{"vessel": {"litre_jug"}, "holds": {"16 fl oz"}, "every": {"1"}}, "holds"},
		{"trays of no size", "/begin/trays", url.Values{"trays": {"3"}, "sheet": {"large"}}, "sheet"},
		{"too many trays", "/begin/trays", url.Values{"trays": {"99"}, "sheet": {"8x10"}}, "trays"},
		{"a dilution of nothing", "/begin/bottles", url.Values{"role0": {"developer"}, "name0": {"dev"}, "dilution0": {"1+0"}}, "dilution0"},
		{"no sheets", "/begin/prints", url.Values{"material": {"RC paper"}, "size": {"8x10 in"}, "sheets": {"none"}}, "sheets"},
		{"another size that is none", "/begin/prints", url.Values{"material": {"RC paper"}, "other": {"big"}, "sheets": {"9"}}, "other"},
	} {
		a := h.post(tt.path, tt.form)
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, tt.field), `aria-invalid="true"`) || h.position() != 0 {
			t.Errorf("%s: %d, %d entries, want what is wrong at %s and nothing written", tt.name, a.StatusCode, h.position(), tt.field)
		}
		if tt.form.Has("vessel") && !strings.Contains(a.Text, `value="litre_jug" checked`) {
			t.Errorf("%s: the jug that was ticked is ticked no more", tt.name)
		}
	}
	if a := h.post("/begin", url.Values{"do": {"example"}}); a.Header.Get("Location") != "/" || h.get("/").StatusCode != http.StatusOK {
		t.Errorf("the example: %d", a.StatusCode)
	}
}
