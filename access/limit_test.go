package access_test

import (
	"fmt"
	"testing"
	"time"

	"wetside/access"
)

func TestLimit(t *testing.T) {
	now := time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC)
	l := access.NewLimit(func() time.Time { return now }, 3, time.Minute, 100)
	for i := range 3 {
		if wait := l.Take("a"); wait != 0 {
			t.Fatalf("try %d waits %v", i, wait)
		}
	}
	if wait := l.Take("a"); wait != time.Minute {
		t.Errorf("the fourth waits %v, want a minute", wait)
	}
	if l.Take("b") != 0 {
		t.Error("another waits")
	}
	now = now.Add(time.Minute)
	if l.Take("a") != 0 || l.Take("a") == 0 {
		t.Error("after a minute there is not one try")
	}
	l.Give("a")
	if l.Take("a") != 0 {
		t.Error("a good try was not given back")
	}
	now = now.Add(time.Hour)
	for range 3 {
		if l.Take("a") != 0 {
			t.Error("after an hour not all are back")
		}
	}
	if l.Take("a") == 0 {
		t.Error("after an hour there are more than before")
	}
}

// However many names are tried, no more are remembered, and those beyond share one count; whoever was limited stays so.
func TestLimitOfMemory(t *testing.T) {
	now := time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC)
	l := access.NewLimit(func() time.Time { return now }, 2, time.Minute, 50)
	l.Take("victim")
	l.Take("victim")
	passed := 0
	for i := range 5000 {
		if l.Take(fmt.Sprint("name ", i)) == 0 {
			passed++
		}
	}
	if passed > 60 || l.Take("victim") == 0 {
		t.Errorf("%d names were tried at once; the victim's limit holds: %v", passed, l.Take("victim") != 0)
	}
}
