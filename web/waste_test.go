package web_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wetside/book"
	"wetside/internal/browsertest"
)

// At home over a septic tank, from mixing to the emptied sink: nothing is sent down the drain, a spent fixer goes into its can,
// a good stop bath into a bottle, and the evening ends with the handover.
func TestHomeWithASepticTank(t *testing.T) {
	h := withExample(t)
	h.decide(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Bathroom","place":"home","drain":"septic","units":"metric","standards":{"RC paper":{"standard":"exhibition","fixing":"one bath"},"FB paper":{"standard":"exhibition","fixing":"two baths"}}}`)})
	h.post("/evening", nil)
	all := h.mixAll()
	if a := h.post(all["Fixer 1"]+"/tested", url.Values{"test": {"drop test"}, "result": {"failed"}}); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("testing %v: %d", all, a.StatusCode)
	}
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	p.Go("/lists/closing")
	p.See("Fixer 1 into the waste can, not down the drain")
	p.Audit()
	if text := h.get("/lists/closing").Text; strings.Contains(text, "Down the drain") {
		t.Error("something may go into a septic tank")
	}
	p.Click("button", "Into the grey can")
	p.See("into the grey can")
	p.Click("button", "Into a full bottle") // the stop bath, the first that is good
	p.See("back in its bottle")
	p.Go("/waste")
	p.See("2 L in it")
	p.See("Not into a septic tank, however thin")
	p.Audit()
	p.Go("/lists/closing")
	p.Click("button", "Close the evening")
	p.Reach("/handover")
	p.See("2 L in it")
	if h.running() != "" {
		t.Error("the evening still runs")
	}
	h.readBack(t)
}

// decide writes what the room is made of, on the book as it stands.
func (h *house) decide(body book.Body) {
	h.t.Helper()
	a, at := book.Author{Now: h.book.Now(), NewID: h.book.NewID}, h.position()
	e, err := a.Write(body)
	if err != nil {
		h.t.Fatal(err)
	}
	if err := h.book.Append(h.t.Context(), []book.Entry{e}, &at); err != nil {
		h.t.Fatal(err)
	}
}

// In a club: the can is fetched with its paper, the authority's answer is kept, and the year's sheet and table are there.
func TestAClubsWaste(t *testing.T) {
	h := withExample(t)
	h.post("/evening", nil)
	all := h.mixAll()
	h.post(all["Fixer 1"]+"/worked", url.Values{"load": {"40 8x10 in RC paper"}})
	h.post(all["Fixer 1"]+"/away", url.Values{"to": {"collected"}, "sure": {"yes"}, "position": {fmt.Sprint(h.position())}})
	page := plain(h.get("/waste?price=1").Text)
	for _, want := range []string{"<b>2 L</b> in it", "of silver", "a gram: about", "ask your local authority once", "/waste.pdf?year="} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not tell %q", want)
		}
	}
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Desk())
	p.Go("/waste")
	run(t, p, `[...document.querySelectorAll("summary")].find(s => s.textContent === "It was taken away").click()`)
	p.Fill("By whom", "the depot")
	p.Fill("Number of the paper that came with it", "N 17")
	p.Click("button", "Write it down")
	p.See("2 L taken away by the depot, document N 17")
	p.See("Empty.")
	h.post("/waste/answer", url.Values{"of": {"stop bath"}, "answer stop bath": {"if"}, "words stop bath": {"thinned"}, "office stop bath": {"the water company"}})
	if text := plain(h.get("/waste").Text); !strings.Contains(text, "The water company answered") || !strings.Contains(text, "“thinned”") {
		t.Error("the authority's answer is not kept")
	}
	if a := h.get("/waste.pdf"); a.Header.Get("Content-Type") != "application/pdf" || !strings.HasPrefix(a.Text, "%PDF") {
		t.Errorf("the year's sheet: %d, %s", a.StatusCode, a.Header.Get("Content-Type"))
	}
	if a := h.get("/waste.csv"); !strings.Contains(a.Text, "N 17") {
		t.Errorf("the year's table: %d", a.StatusCode)
	}
	if a := h.get("/waste.pdf?year=2999"); a.StatusCode != http.StatusNotFound {
		t.Errorf("a year to come: %d", a.StatusCode)
	}
	h.readBack(t)
}

// An acid toner is not sent into a can of sulfide toners without a word: hydrogen sulfide would come out of it.
func TestWhatMustNotMeetInACanIsTold(t *testing.T) {
	h := withExample(t)
	h.decide(&book.Set{Part: book.CanPart, ID: "brown", As: []byte(`{"name":"brown can","holds":"10 L","takes":"toner"}`)})
	h.decide(&book.Set{Part: book.ProductPart, ID: "sour", As: []byte(`{"name":"sour toner","role":"toner","form":"liquid","acid":true,"dilutions":{"RC paper":"1+9"},"keeps":{"tray":"4 h"}}`)})
	tray := strings.TrimPrefix(first(t, hrefs(h.get("/bench").Text), "/bench/tray/"), "/bench/tray/")
	h.say(&book.Mixed{Bath: "t", Product: "sour", Dilution: "1+9", Volume: "1 L", Tray: tray})
	h.post("/evening", nil)
	const told = "Brown can: It does not go in there"
	if text := plain(h.get("/lists/closing").Text); strings.Contains(text, told) || !strings.Contains(text, "Into the brown can") {
		t.Error("the can is empty, and the toner may go in")
	}
	h.say(&book.WasteIn{Can: "brown", What: "toner", Volume: "1 L"})
	if text := plain(h.get("/lists/closing").Text); !strings.Contains(text, told) {
		t.Errorf("nobody says what meets in the can:\n%s", text)
	}
}

// What can't be read is told at its field and writes nothing; an answer wants to know of which room it is.
func TestWasteFormsSayWhatIsWrong(t *testing.T) {
	h := withExample(t)
	id := first(t, hrefs(h.get("/waste").Text), "/bench/can/")
	id = strings.TrimPrefix(id, "/bench/can/")
	before := h.position()
	for name, form := range map[string]url.Values{
		"/waste/taken":  {"can": {id}, "day " + id: {"soon"}},
		"/waste/put":    {"can": {id}, "into " + id: {"two"}},
		"/waste/answer": {"of": {"developer"}},
	} {
		if a := h.post(name, form); a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, `class="problem"`) || h.position() != before {
			t.Errorf("%s: %d, %d entries", name, a.StatusCode, h.position()-before)
		}
	}
	for name, form := range map[string]url.Values{"/waste/taken": {"can": {"nobody's"}}, "/waste/put": {"can": {"x"}}, "/waste/answer": {"of": {"soup"}}} {
		if a := h.post(name, form); a.StatusCode != http.StatusNotFound {
			t.Errorf("%s: %d", name, a.StatusCode)
		}
	}
}
