package api_test

import (
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/uuid"

	"wetside/api"
)

// What can't be read as one JSON object is refused with the place, whatever it is, and nothing is written.
func TestNoJSON(t *testing.T) {
	h := serve(t)
	before := h.position()
	for name, c := range map[string]struct{ body, says string }{
		"nothing":         {"", "The body is empty"},
		"white space":     {" \n ", "The body is empty"},
		"words":           {"hello", "line 1, column 1."},
		"not closed":      {`{"id":1`, "stops being JSON at line 1, column 8."},
		"second line":     {"{\n  \"id\": x}", "stops being JSON at line 2, column 9."},
		"two values":      {`{} {}`, "Another value begins at line 1, column 4."},
		"two at once":     {`{}{}`, "Another value begins at line 1, column 3."},
		"trailing comma":  {`{"id":"a",}`, "line 1, column 11."},
		"single quotes":   {`{'id':'a'}`, "line 1, column 2."},
		"no UTF-8":        {"{\"id\":\"\xff\"}", "no UTF-8"},
		"a byte mark":     {"\ufeff{}", "line 1, column 1."},
		"infinity":        {`{"expect":Infinity}`, "line 1, column 11."},
		"nested too deep": {strings.Repeat("[", 200) + strings.Repeat("]", 200), "nested too deep"},
	} {
		a := h.post("/entries", c.body)
		if p := a.problem("not_json"); a.Status != http.StatusBadRequest || !strings.Contains(p.Detail, c.says) {
			t.Errorf("%s: %s, want %q", name, a.Text, c.says)
		}
	}
	if h.position() != before {
		t.Error("something was written")
	}
}

// A body of another type, or packed, or larger than a MiB is refused before it is read.
func TestContent(t *testing.T) {
	h := serve(t)
	for _, kind := range []string{"", "text/plain", "application/x-www-form-urlencoded", "application/json; charset=latin1", "application/json5", "nonsense/"} {
		a := h.post("/entries", worked(uuid.NewString(), "d"), "Content-Type", kind)
		a.problem("media_type")
		if a.Status != http.StatusUnsupportedMediaType || a.Header.Get("Accept-Post") != "application/json" {
			t.Errorf("%q: %d", kind, a.Status)
		}
	}
	if a := h.post("/entries", worked(uuid.NewString(), "d"), "Content-Encoding", "gzip"); a.Status != http.StatusUnsupportedMediaType {
		t.Errorf("packed: %d", a.Status)
	}
	for _, kind := range []string{"application/json", "Application/JSON; Charset=UTF-8"} {
		if a := h.post("/entries", worked(uuid.NewString(), "d"), "Content-Type", kind); a.Status != http.StatusCreated {
			t.Errorf("%q: %d %s", kind, a.Status, a.Text)
		}
	}
	large := h.post("/entries", `{"id":"`+strings.Repeat("x", 1<<20)+`"}`)
	large.problem("too_large")
	if large.Status != http.StatusRequestEntityTooLarge {
		t.Errorf("more than a MiB: %d", large.Status)
	}
	if a := h.post("/entries", `{"id":"`+strings.Repeat("x", 1<<20-9)+`"}`); a.Status != http.StatusBadRequest {
		t.Errorf("a MiB: %d", a.Status)
	}
	almost := h.post("/entries", fmt.Sprintf(`{"id":%q,"kind":"correction","takes_back":"x","body":{"why":%q}}`, uuid.NewString(), strings.Repeat("x", 300<<10)))
	if got := codes(almost.problem("invalid")); got["#/body"] != "unreadable" {
		t.Errorf("a body above what a book takes: %v", got)
	}
}

// Every mistake is told at its place, all of them at once.
func TestMistakes(t *testing.T) {
	h := serve(t)
	before := h.position()
	id := `"id":"` + uuid.NewString() + `",`
	for body, want := range map[string]map[string]string{
		`[]`:       {"#": "not_object"},
		`"worked"`: {"#": "not_object"},
		`{}`:       {"#/id": "no_uuid", "#/kind": "missing"},
		`{"id":7,"kind":null,"version":1.5,"expect":"1","body":[],"Kind":"worked","a/b~c":1}`: {
			"#/id": "not_text", "#/kind": "not_text", "#/version": "not_whole", "#/expect": "not_whole", "#/body": "not_object",
			"#/Kind": "unknown", "#/a~1b~0c": "unknown",
		},
		`{"id":"7C9E6679-7425-40DE-944B-E07FC1F90AE7","kind":"moved","happened_at":"yesterday","by":"a b","takes_back":"","expect":-1}`: {
			"#/id": "no_uuid", "#/kind": "no_kind", "#/happened_at": "no_instant", "#/by": "no_id", "#/takes_back": "no_id", "#/expect": "no_position",
		},
		`{` + id + `"kind":"note.left","body":{"note":"n"}}`:                {"#/kind": "with_page"},
		`{` + id + `"kind":"worked","version":9}`:                           {"#/version": "outside"},
		`{` + id + `"kind":"correction"}`:                                   {"#/takes_back": "missing"},
		`{` + id + `"kind":"worked","takes_back":"x","body":{"sheets":1}}`:  {"#/takes_back": "not_here"},
		`{` + id + `"id":"x","kind":"worked","kind":"tested"}`:              {"#/id": "twice", "#/kind": "twice"},
		`{` + id + `"kind":"worked","body":{"sheets":1,"sheets":2}}`:        {"#/body/sheets": "twice"},
		`{` + id + `"kind":"worked","body":{"Sheets":1,"sheet":1}}`:         {"#/body/Sheets": "unknown", "#/body/sheet": "unknown"},
		`{` + id + `"kind":"worked","body":{"baths":["d",3],"sheets":"1"}}`: {"#/body/baths/1": "not_text", "#/body/sheets": "not_whole"},
		`{` + id + `"kind":"mixed","body":{"bath":"b","volume":"1 L","before":[{"size":1,"estimated":"yes"}]}}`: {
			"#/body/before/0/size": "not_text", "#/body/before/0/estimated": "not_bool",
		},
		`{` + id + `"kind":"tested","body":{"steps":[1e999,"2"]}}`:                                                            {"#/body/steps/0": "not_number", "#/body/steps/1": "not_number"},
		`{` + id + `"kind":"vessel.set","expect":1,"body":{"as":{"name":"a","name":"b"}}}`:                                    {"#/body/as/name": "twice"},
		`{` + id + `"kind":"worked","body":{"baths":["d"],"material":"RC paper","size":"8x10 in"}}`:                           {"#/body/sheets": "nothing"},
		`{` + id + `"kind":"worked","body":{"baths":["a b"],"material":"RC paper","size":"8x10 in","sheets":1}}`:              {"#/body/baths/0": "no_id"},
		`{` + id + `"kind":"worked","body":{"baths":["d"],"material":"glass","size":"8x10 in","sheets":1}}`:                   {"#/body/material": "no_word"},
		`{` + id + `"kind":"worked","body":{"baths":["d"],"material":"RC paper","size":"8x10 quarts","sheets":1}}`:            {"#/body/size": "unreadable"},
		`{` + id + `"kind":"mixed","body":{"bath":"b","use":"holding","volume":"20 °C"}}`:                                     {"#/body/volume": "unreadable"},
		`{` + id + `"kind":"temperature.read","body":{"probe":"p","bath":"b","reads":"500 mL"}}`:                              {"#/body/reads": "unreadable"},
		`{` + id + `"kind":"tray.set","expect":EXPECT,"body":{"id":"t9","as":{"name":"grey","fill":"2 kg","colour":"grey"}}}`: {"#/body/as/fill": "wrong_unit"},
	} {
		body = strings.Replace(body, "EXPECT", fmt.Sprint(before), 1)
		a := h.post("/entries", body)
		p := a.problem("invalid")
		got := codes(p)
		if strings.Contains(body, "tray.set") {
			if len(got) == 0 || got["#/body/as/fill"] == "" {
				t.Errorf("%s\n%s", body, a.Text)
			}
			continue
		}
		if diff := cmp.Diff(want, got); diff != "" || a.Status != http.StatusBadRequest {
			t.Errorf("%s (-want +got):\n%s%s", body, diff, a.Text)
		}
		for _, m := range p.Errors {
			if m.Detail == "" {
				t.Errorf("%s: %s says nothing", body, m.Code)
			}
		}
	}
	if h.position() != before {
		t.Errorf("%d entries were written", h.position()-before)
	}
}

// For every word that names a kind, the handler knows the fields that the description tells, and no others; what the one
// refuses as unknown, the other does too.
func TestBodiesAreAsDescribed(t *testing.T) {
	h := serve(t)
	d := described()
	before := h.position()
	words := d.in(d.all, "components", "schemas", "Append", "properties", "kind", "enum").([]any)
	if len(words) < 60 {
		t.Fatalf("%d words for kinds", len(words))
	}
	samples := map[string]string{"string": `"x"`, "integer": `1`, "number": `1`, "boolean": `true`, "array": `[]`, "object": `{}`}
	for _, w := range words {
		kind := w.(string)
		props := d.bodyOf(t, kind)
		fields := []string{`"nope":1`}
		for name, s := range props {
			sort, _ := d.resolved(s).(object)["type"].(string)
			sample := samples[sort]
			if words, ok := d.resolved(s).(object)["enum"].([]any); ok {
				sample = string(mustJSON(words[0]))
			}
			if sample == "" {
				t.Fatalf("%s.%s: no sample of %s", kind, name, sort)
			}
			fields = append(fields, fmt.Sprintf("%q:%s", name, sample))
		}
		body := fmt.Sprintf(`{"id":%q,"kind":%q,"takes_back":"x","body":{%s}}`, uuid.NewString(), kind, strings.Join(fields, ","))
		got := codes(h.post("/entries", body).problem("invalid"))
		maps.DeleteFunc(got, func(_, code string) bool { return code == "not_here" })
		if diff := cmp.Diff(map[string]string{"#/body/nope": "unknown"}, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", kind, diff)
		}
		if err := d.holds("/components/schemas/Append", body); err == nil || !strings.Contains(err.Error(), "nope") {
			t.Errorf("%s: the description takes a field that is none: %v", kind, err)
		}
		if err := d.holds("/components/schemas/Append", strings.Replace(body, `"nope":1,`, ``, 1)); err != nil && strings.Contains(err.Error(), "additional") {
			t.Errorf("%s: the description does not know its own fields: %v", kind, err)
		}
	}
	if h.position() != before {
		t.Errorf("%d entries were written", h.position()-before)
	}
}

// bodyOf is what the description tells of a kind's body.
func (d *description) bodyOf(t *testing.T, kind string) object {
	t.Helper()
	for _, tie := range d.in(d.all, "components", "schemas", "Append", "allOf").([]any) {
		if slices.Contains(d.in(tie, "if", "properties", "kind", "enum").([]any), any(kind)) {
			return d.in(tie, "then", "properties", "body", "properties").(object)
		}
	}
	t.Fatalf("the body of %s is not told", kind)
	return nil
}

// A kind may be named by what stands behind its dot where no other ends so. The words are for good: a kind that comes later
// changes none.
func TestShortKinds(t *testing.T) {
	d := described()
	ends := map[string][]string{}
	var short []string
	for _, w := range d.in(d.all, "components", "schemas", "Append", "properties", "kind", "enum").([]any) {
		word := w.(string)
		if _, end, full := strings.Cut(word, "."); full {
			ends[end] = append(ends[end], word)
		} else if word != "correction" {
			short = append(short, word)
		}
	}
	for _, word := range short {
		if len(ends[word]) != 1 {
			t.Errorf("%s means %v", word, ends[word])
		}
	}
	for end, kinds := range ends {
		if len(kinds) == 1 && !slices.Contains(short, end) && end != "left" { // note.left is a page's
			t.Errorf("%s could be said for %s", end, kinds[0])
		}
	}
	// Held since this API is there.
	for word, kind := range map[string]string{"worked": "bath.worked", "tested": "bath.tested", "mixed": "bath.mixed", "started": "print.started", "read": "temperature.read", "closed": "session.closed"} {
		if names := api.NamesOf(kind); !slices.Equal(names, []string{kind, word}) {
			t.Errorf("%s is %v", kind, names)
		}
	}
}
