package web_test

import (
	"net/url"
	"strings"
	"testing"
)

// A bath that nothing on the bench measures is not passed over: the end of mixing counts it, and says why it is not there.
func TestWhatCannotBeMixedIsNotReady(t *testing.T) {
	t.Parallel()
	h := empty(t)
	room := `darkroom: {name: Bath, ounce: us}
bench:
  vessels:
    - {name: my jug, kind: jug, scales: [{unit: mL, from: 100, to: 500, step: 50, numbered: 100}]}
  trays:
    - {name: Tray 1, for: developer, inside: 30 x 24 cm, fill: 1 L}
    - {name: Tray 2, for: stop bath, inside: 30 x 24 cm, fill: 1 L}
shelf:
  products:
    - {name: paper developer, role: developer, form: liquid, dilutions: {RC paper: 1+9}}
    - {name: print stop, role: stop bath, form: liquid, acid: yes, dilutions: {RC paper: 1+19}}
session: {to_make: [{material: RC paper, size: 8x10 in, sheets: 5}]}
`
	if a := h.post("/file", url.Values{"text": {room}}); a.Header.Get("Location") == "" {
		t.Fatalf("the room was not taken: %s", a.Text)
	}
	page := h.get("/mix/ready").Text
	if !strings.Contains(page, "0 of 2 baths are ready") || !strings.Contains(page, `class="lack"`) {
		t.Errorf("the stop bath is passed over: %s", page)
	}
}
