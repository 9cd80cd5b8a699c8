package steady_test

import (
	"testing"
	"time"

	"wetside/internal/steady"
)

// A machine has a clock that can be set, and time that passes.
type machine struct {
	shows  time.Time
	passed time.Duration
}

func (m *machine) wall() time.Time        { return m.shows }
func (m *machine) elapsed() time.Duration { return m.passed }

// pass lets time go by.
func (m *machine) pass(d time.Duration) {
	m.shows = m.shows.Add(d)
	m.passed += d
}

var evening = time.Date(2026, time.November, 25, 18, 0, 0, 0, time.UTC)

// TestSet sets a machine's clock while a print lies in the fixer: the time that passed is the time that passed.
func TestSet(t *testing.T) {
	for name, set := range map[string]time.Duration{
		"back an hour": -time.Hour, "forward an hour": time.Hour, "to 1970": evening.Sub(evening.AddDate(56, 0, 0)), "a little": 40 * time.Millisecond,
	} {
		m := &machine{shows: evening, passed: 77 * time.Hour}
		c := steady.New(m.wall, m.elapsed)
		ends := c.Now().Add(5 * time.Minute)
		m.pass(2 * time.Minute)
		m.shows = m.shows.Add(set)
		m.pass(time.Minute)
		if left := ends.Sub(c.Now()); left != 2*time.Minute {
			t.Errorf("%s: %v left, want 2 min", name, left)
		}
		if c.Off() != set {
			t.Errorf("%s: the machine's clock is off by %v", name, c.Off())
		}
	}
}

// TestSummerTime washes prints through both changes: instants and what lies between them stay, the hands show the room's
// hours (Directive 2000/84/EC: the last Sundays of March and October, 1:00 UTC).
func TestSummerTime(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		begin       time.Time
		shows, ends string
	}{
		{time.Date(2026, time.March, 29, 0, 30, 0, 0, time.UTC), "01:30 +0100", "03:30 +0200"},
		{time.Date(2026, time.October, 25, 0, 30, 0, 0, time.UTC), "02:30 +0200", "02:30 +0100"},
	} {
		m := &machine{shows: tt.begin.In(berlin)}
		c := steady.New(m.wall, m.elapsed)
		began := c.Now()
		if got := began.Format("15:04 -0700"); got != tt.shows {
			t.Errorf("it shows %s, want %s", got, tt.shows)
		}
		for range 60 {
			m.pass(time.Minute)
		}
		if got := c.Now(); got.Sub(began) != time.Hour || got.Format("15:04 -0700") != tt.ends || c.Off() != 0 {
			t.Errorf("an hour after %v it shows %v, off by %v", began, got, c.Off())
		}
	}
}

// TestNeverBeforeTheBook starts a machine whose clock was lost, as small boards have none that runs without power.
func TestNeverBeforeTheBook(t *testing.T) {
	for name, tt := range map[string]struct{ last, want time.Duration }{
		"the clock is right":          {-time.Minute, 0},
		"just now":                    {0, 0},
		"an hour behind":              {time.Hour, time.Hour},
		"as old as the last shutdown": {90 * 24 * time.Hour, 90 * 24 * time.Hour},
	} {
		m := &machine{shows: evening}
		c := steady.New(m.wall, m.elapsed)
		if got := c.NotBefore(evening.Add(tt.last)); got != tt.want {
			t.Errorf("%s: behind by %v, want %v", name, got, tt.want)
		}
		if c.Off() != -tt.want {
			t.Errorf("%s: off by %v", name, c.Off())
		}
		m.pass(time.Minute)
		if got := c.Now(); !got.Equal(evening.Add(tt.want + time.Minute)) {
			t.Errorf("%s: a minute later it is %v", name, got)
		}
		if again := c.NotBefore(evening); again != 0 {
			t.Errorf("%s: moved again by %v", name, again)
		}
	}
}

// TestElapsed holds this machine's own count against its monotonic clock.
func TestElapsed(t *testing.T) {
	elapsed := steady.Elapsed(time.Now)
	c := steady.New(time.Now, elapsed)
	from, began, shown := elapsed(), time.Now(), c.Now()
	time.Sleep(60 * time.Millisecond)
	passed, took, went := elapsed()-from, time.Since(began), c.Now().Sub(shown)
	for name, d := range map[string]time.Duration{"counted": passed - took, "shown": went - took} {
		if d < -20*time.Millisecond || d > 20*time.Millisecond {
			t.Errorf("%s: %v more than the %v that passed", name, d, took)
		}
	}
	if off := c.Off(); off < -time.Second || off > time.Second {
		t.Errorf("off by %v", off)
	}
}
