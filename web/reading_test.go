package web_test

import (
	"strings"
	"testing"

	"wetside/book"
)

// What a probe showed stands on the bath's page and at the sink, with its age and where it is from.
func TestProbeIsShown(t *testing.T) {
	h := withExample(t)
	baths := h.mixAll()
	h.say(&book.ProbeRead{Probe: "p1", Bath: strings.TrimPrefix(baths["Developer"], "/baths/"), Reads: "20.4 °C"})
	for _, path := range []string{baths["Developer"], "/sink"} {
		page := strings.ReplaceAll(h.get(path).Text, "\u00a0", " ")
		page = strings.NewReplacer("<b>", "", "</b>", "", "<strong>", "", "</strong>", "").Replace(page)
		if !strings.Contains(page, "20.4 °C, 1 min ago, at ") || !strings.Contains(page, ", from a probe.") {
			at := strings.Index(page, " ago, at")
			t.Errorf("%s does not show what the probe read, but %q", path, page[max(at-60, 0):max(at, 0)])
		}
	}
}
