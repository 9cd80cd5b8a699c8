package web_test

import (
	"net/http"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// left are the marks of a page that was not finished: a key without words, a value that is none, a template's own error.
var left = regexp.MustCompile(`\[[a-z]+\.[a-z_.]+\]|&lt;no value&gt;|<no value>|%!|ZgotmplZ`)

// Every page that links lead to is there, whole, and says all it has to say. That is: every template has been executed.
func TestEveryPage(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	seen := h.walk("/", fixer, "/begin", "/begin/jugs", "/begin/trays", "/begin/bottles", "/begin/prints", "/mix/ready", "/file", "/red", "/red/white", "/parts", "/jug?label=1%2B9&volume=1+L", "/jug?label=1%2B999&volume=5+mL", "/nowhere", h.share(), "/evening/close", "/sign-in")
	if len(seen) < 55 {
		t.Errorf("only %d pages were reached", len(seen))
	}
	want := map[string]int{"/nowhere": http.StatusNotFound}
	marks := map[string]string{ // what only this template makes
		"begin": `value="example"`, "jugs": `name="vessel"`, "trays": `class="key set"`, "bottles": `name="dilution0"`,
		"prints": `name="sheets"`, "ready": `baths are ready`, "bench": `class="things"`, "error": `There is nothing`, "file": `<textarea`, "form": `name="position"`,
		"jug": `class="answer"`, "mix": `class="sink0"`, "parts": `id="wrong"`, "plan": `/plan/when`, "shelf": `/opened"`,
		"step": `class="step"`, "today": `/mix/before/1`, "baths": `class="far"`, "bath": `class="halves"`, "wash": `name="aid"`,
		"wall": `class="baths wallpage"`, "handover": `class="handover"`, "list": `class="todo"`, "join": `action="/join/`,
		"close": `Close the evening?`, "names": `/people/`, "sink": `action="/sink/move"`, "stands": `action="/baths/stands"`,
		"red": `action="/red/screen"`, "white": `value="white"`, "labels": `action="/labels"`, "safety": `id="never"`, "wrong": `class="signs"`, "cause": `class="card cause"`, "waste": `class="canrow"`,
		"keys": `This is a home`, "keyholder": `action="/keyholders"`, "signin": `asks nobody for a name`, "notes": `name="sensitised"`,
	}
	for path, a := range seen {
		status := http.StatusOK
		if a.Header.Get("Location") != "" {
			status = http.StatusSeeOther
		}
		if s, ok := want[path]; ok {
			status = s
		}
		if a.StatusCode != status {
			t.Errorf("GET %s: %d, want %d", path, a.StatusCode, status)
		}
		if m := left.FindString(a.Text); m != "" && strings.HasPrefix(a.Header.Get("Content-Type"), "text/html") {
			t.Errorf("GET %s: %q is left on the page", path, m)
		}
		for name, mark := range marks {
			if strings.Contains(a.Text, mark) {
				delete(marks, name)
			}
		}
	}
	for name := range marks {
		t.Errorf("template %s was not executed", name)
	}
	files, err := os.ReadDir("templates")
	if err != nil || len(files) != 39+8 { // again.html, prove.html and sure.html answer forms alone; key.html, passphrase.html and second.html are of a shared room
		t.Errorf("%d templates, and 39 pages are told here with layout, pieces, again, sure, prove, key, passphrase and second (%v): add the new one's mark", len(files), err)
	}
}

func TestAnEmptyHouseBegins(t *testing.T) {
	h := empty(t)
	for _, path := range []string{"/", "/plan", "/mix"} {
		a := h.get(path)
		if a.StatusCode != http.StatusSeeOther || a.Header.Get("Location") != "/begin" {
			t.Errorf("GET %s: %d to %q, want a way to /begin", path, a.StatusCode, a.Header.Get("Location"))
		}
	}
	for path, a := range h.walk("/begin", "/jug", "/jug?label=1%2B9&volume=1+L", "/bench", "/shelf", "/room", "/plan/when", "/plan/load/new", "/file") {
		if a.StatusCode >= 400 {
			t.Errorf("GET %s: %d", path, a.StatusCode)
		}
		if m := left.FindString(a.Text); m != "" {
			t.Errorf("GET %s: %q is left on the page", path, m)
		}
	}
}

// Drawings and what is said of them must not be doubled: an id stands once on a page.
func TestIDsStandOnce(t *testing.T) {
	h := withExample(t)
	id := regexp.MustCompile(` id="([^"]*)"`)
	for path, a := range h.walk("/", "/parts") {
		var all []string
		for _, m := range id.FindAllStringSubmatch(a.Text, -1) {
			if slices.Contains(all, m[1]) {
				t.Errorf("GET %s: id %q stands twice", path, m[1])
			}
			all = append(all, m[1])
		}
	}
}

// What isn't there: 404 with a page that says so, never 500.
func TestUnknown(t *testing.T) {
	h := withExample(t)
	for _, path := range []string{
		"/mix/developer/0", "/mix/developer/99", "/mix/developer/x", "/mix/tea/1", "/plan/load/99", "/plan/load/-1", "/plan/load/x",
		"/bench/vessel/nobody", "/bench/spoon/new", "/bench/load/new", "/bench/load/0", "/bench/product/new", "/shelf/vessel/new",
		"/shelf/lot/nobody", "/assets/wetside.css", "/parts/x", "/%00",
	} {
		if a := h.get(path); a.StatusCode != http.StatusNotFound {
			t.Errorf("GET %s: %d, want 404", path, a.StatusCode)
		}
	}
	before := h.position()
	for _, path := range []string{
		"/mix/tea/poured", "/bench/vessel/nobody", "/bench/vessel/nobody/away", "/bench/vessel/new/away", "/bench/spoon/new",
		"/plan/load/99", "/plan/load/99/away", "/plan/load/new/away", "/shelf/lot/nobody/opened", "/shelf/lot/nobody/left",
		"/shelf/lot/nobody/discarded", "/undo/nobody", "/nowhere",
	} {
		if a := h.post(path, nil); a.StatusCode != http.StatusNotFound {
			t.Errorf("POST %s: %d, want 404\n%s", path, a.StatusCode, a.Text)
		}
	}
	if now := h.position(); now != before {
		t.Errorf("%d entries were written", now-before)
	}
	if h.log.Len() > 0 {
		t.Errorf("the log has errors:\n%s", h.log)
	}
}
