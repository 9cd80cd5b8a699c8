package web_test

import (
	"strings"
	"testing"
	"time"

	"wetside/internal/browsertest"
)

// What is tapped at a sink is on the wall within a second or so, without a reload; without a network the wall says that it is old.
func TestWallFollows(t *testing.T) {
	l := running(t)
	l.came("Ada")
	wall := browsertest.Open(t, &chromium, l.mapped(), browsertest.Look{Width: 1920, Height: 1080})
	wall.ExpectCuts()
	wall.Go("/wall")
	run(t, wall, "window.same = true")
	time.Sleep(1500 * time.Millisecond) // the line stands
	began := time.Now()
	l.begins("who0", "RC-paper-8x10-in", 0)
	wall.See("Ada")
	if took := time.Since(began); took > 3*time.Second {
		t.Errorf("it took %v", took)
	}
	if same, err := browsertest.Eval[bool](wall.Tab, "!!window.same"); err != nil || !same {
		t.Error("the page was loaded again")
	}
	if strings.Contains(wall.Text(), "No network") {
		t.Error("it says that there is no network")
	}
	mend := l.cut()
	wall.See("No network: this is how it was.")
	mend()
	wall.Until("the line is back", func() bool { return !strings.Contains(wall.Text(), "No network") })
}
