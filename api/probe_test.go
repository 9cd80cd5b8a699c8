package api_test

import (
	"fmt"
	"net/http"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/uuid"

	"wetside/access"
	"wetside/api"
	"wetside/book"
	"wetside/words/facts"
)

// A board that reads each second for an hour, in a bath that warms by a degree, leaves some entries and not thousands, and what
// stands in the book is never further off than a fifth of a degree or ten minutes.
func TestProbeIsThinned(t *testing.T) {
	h := serve(t)
	h.clock.step.Store(0)
	tray := trayOf(h, 0)
	h.pour("dev1", "paper developer", "1+9", tray)
	before, began := h.position(), h.clock.now()
	kept := 0
	for s := range 3600 / 5 { // each five seconds
		h.clock.pass(5 * time.Second)
		c := 20 + 0.02*float64(s%2) // it flickers
		if s > 360 {
			c += float64(s-360) / 360 // and warms by a degree in half an hour
		}
		a := h.post("/probes/board-1/temperature", fmt.Sprintf(`{"temperature":"%.2f °C","tray":%q}`, c, tray))
		var r api.Read
		a.into(&r)
		if want := map[bool]int{true: http.StatusCreated, false: http.StatusOK}[r.Kept]; a.Status != want || *r.Reading.Bath != "dev1" {
			t.Fatalf("%d %s", a.Status, a.Text)
		}
		if r.Kept {
			kept++
		}
		at, err := time.Parse(time.RFC3339Nano, r.Reading.ReadAt)
		if off := r.Reading.Celsius - c; err != nil || off > 0.2 || off < -0.2 || h.clock.now().Sub(at) >= 10*time.Minute {
			t.Fatalf("after %v it is %v °C, and the book has %v of %v", h.clock.now().Sub(began), c, r.Reading.Celsius, at)
		}
	}
	if n := int(h.position() - before); n != kept || n < 6 || n > 12 {
		t.Errorf("%d entries of 720 readings, %d said to be kept", n, kept)
	}
	var all facts.Readings
	h.get("/readings").into(&all)
	var b facts.BathLife
	h.get("/baths/dev1").into(&b)
	if len(all.Readings) != 1 || b.Reading == nil || *b.Reading != all.Readings[0] && cmp.Diff(*b.Reading, all.Readings[0]) != "" {
		t.Errorf("%+v, %+v", all, b.Reading)
	}
}

// The tenth of a degree that decides is reckoned in decimals, not in binary: 20.0 to 20.2 is a change of 0.2.
func TestProbeKeepsAFifth(t *testing.T) {
	h := serve(t)
	for i, c := range []struct {
		reads string
		kept  bool
	}{{"20.0 °C", true}, {"20.1 °C", false}, {"20.2 °C", true}, {"20.19 °C", false}, {"20.4 °C", true}, {"20.6 °C", true}, {"20.5 °C", false}, {"20.4 °C", true}, {"68.8 °F", false}, {"69 °F", false}, {"69.2 °F", true}} {
		var r api.Read
		h.post("/probes/p/temperature", `{"place":"room","temperature":"`+c.reads+`"}`).into(&r)
		if r.Kept != c.kept {
			t.Errorf("reading %d, %s: kept %v", i, c.reads, r.Kept)
		}
	}
	for _, more := range []string{`"place":"cold water"`, `"place":"hot water"`} { // it was hung elsewhere
		var r api.Read
		if h.post("/probes/p/temperature", `{`+more+`,"temperature":"20.7 °C"}`).into(&r); !r.Kept {
			t.Errorf("%s: not kept", more)
		}
	}
}

// A reading with an id is written once, however often it is sent; with other contents it is told.
func TestProbeSendsAgain(t *testing.T) {
	h := serve(t)
	body := fmt.Sprintf(`{"id":%q,"temperature":"20.4 °C","place":"room"}`, uuid.NewString())
	first := h.post("/probes/p/temperature", body)
	h.clock.pass(time.Hour)
	second := h.post("/probes/p/temperature", body)
	if first.Status != http.StatusCreated || second.Status != http.StatusOK || first.Text != second.Text || first.Header.Get("Location") == "" {
		t.Errorf("%d %s\n%d %s", first.Status, first.Text, second.Status, second.Text)
	}
	a := h.post("/probes/other/temperature", body)
	a.problem("other_contents")
	own := h.clock.now().Format(time.RFC3339Nano)
	body = fmt.Sprintf(`{"id":%q,"temperature":"22 °C","place":"room","read_at":%q}`, uuid.NewString(), own)
	if a := h.post("/probes/p/temperature", body); a.Status != http.StatusCreated {
		t.Error(a.Text)
	}
	if a := h.post("/probes/p/temperature", body); a.Status != http.StatusOK {
		t.Error(a.Text)
	}
}

// What a probe can't have read, where nothing stands, and a clock that is wrong or stands still are told at their places.
func TestProbeMistakes(t *testing.T) {
	h := serve(t)
	h.pour("dev1", "paper developer", "1+9", trayOf(h, 0))
	h.say(&book.Mixed{Bath: "gone", Use: book.Holding, Volume: "1 L"})
	h.say(&book.Disposed{Bath: "gone"})
	now := h.clock.now()
	at := func(d time.Duration) string { return now.Add(d).Format(time.RFC3339) }
	if a := h.post("/probes/stuck/temperature", `{"temperature":"20 °C","place":"room","read_at":"`+at(-time.Minute)+`"}`); a.Status != http.StatusCreated {
		t.Fatal(a.Text)
	}
	before := h.position()
	for body, want := range map[string]map[string]string{
		`{}`:                                      {"#": "nowhere", "#/temperature": "missing"},
		`{"temperature":20.4,"bath":"dev1"}`:      {"#/temperature": "not_text"},
		`{"temperature":"20.4","bath":"dev1"}`:    {"#/temperature": "no_temperature"},
		`{"temperature":"20.4 mL","bath":"dev1"}`: {"#/temperature": "no_temperature"},
		`{"temperature":"85","temperature":"85 °C","bath":"dev1"}`:                              {"#/temperature": "twice"},
		`{"temperature":"-127 °C","bath":"dev1"}`:                                               {"#/temperature": "no_temperature"},
		`{"temperature":"120 °C","bath":"dev1"}`:                                                {"#/temperature": "no_temperature"},
		`{"temperature":"20 °C","bath":"dev1","place":"room"}`:                                  {"#": "two_places"},
		`{"temperature":"20 °C","bath":"none"}`:                                                 {"#/bath": "no_bath"},
		`{"temperature":"20 °C","bath":"gone"}`:                                                 {"#/bath": "no_bath"},
		`{"temperature":"20 °C","tray":"` + trayOf(h, 1) + `"}`:                                 {"#/tray": "no_bath_in"},
		`{"temperature":"20 °C","place":"attic"}`:                                               {"#/place": "no_word"},
		`{"temperature":"20 °C","place":"room","celsius":20}`:                                   {"#/celsius": "unknown"},
		`{"temperature":"20 °C","place":"room","id":"1"}`:                                       {"#/id": "no_uuid"},
		`{"temperature":"20 °C","place":"room","read_at":"now"}`:                                {"#/read_at": "no_instant"},
		`{"temperature":"20 °C","place":"room","read_at":"1970-01-01T00:00:09Z"}`:               {"#/read_at": "clock_behind"},
		`{"temperature":"20 °C","place":"room","read_at":"` + at(time.Hour) + `"}`:              {"#/read_at": "clock_ahead"},
		`{"temperature":"25 °C","place":"room","read_at":"` + at(-time.Minute) + `"}`:           {"#/read_at": "clock_stuck"},
		`{"temperature":"25 °C","place":"cold water","read_at":"` + at(-time.Hour) + `"}`:       {"#/read_at": "clock_stuck"},
		`{"temperature":"25 °C","bath":"` + "dev1" + `","read_at":"` + at(-49*time.Hour) + `"}`: {"#/read_at": "clock_behind"},
	} {
		a := h.post("/probes/stuck/temperature", body)
		if diff := cmp.Diff(want, codes(a.problem("invalid"))); diff != "" || a.Status != http.StatusBadRequest {
			t.Errorf("%s (-want +got):\n%s%s", body, diff, a.Text)
		}
	}
	for _, name := range []string{"a%20b", "%C3%BC", fmt.Sprintf("%065d", 0)} {
		if got := codes(h.post("/probes/"+name+"/temperature", `{"temperature":"20 °C","place":"room"}`).problem("invalid")); got["probe"] != "no_id" {
			t.Errorf("%s: %v", name, got)
		}
	}
	if h.position() != before {
		t.Errorf("%d were written", h.position()-before)
	}
}

// A probe shows a key of a sink; a wall's writes nothing.
func TestProbeNeedsAKey(t *testing.T) {
	h := serve(t)
	h.keyholder()
	const body = `{"temperature":"20 °C","place":"room"}`
	if a := h.as(access.Sink, "").post("/probes/p/temperature", body); a.Status != http.StatusCreated {
		t.Error(a.Text)
	}
	if a := h.as(access.Wall, "").post("/probes/p/temperature", body); a.Status != http.StatusForbidden {
		t.Error(a.Text)
	}
}
