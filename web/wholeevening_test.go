package web_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/browsertest"
)

// A door is a device's own way to the server, which can be shut.
type door struct {
	*httptest.Server
	shut atomic.Bool
}

// door opens one; its address is a name in the room's network or loopback.
func (l *line) door(t *testing.T) *door {
	t.Helper()
	d := &door{}
	d.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !d.shut.Load() {
			l.ServeHTTP(w, r)
		} else if c, _, err := http.NewResponseController(w).Hijack(); err == nil {
			_ = c.Close()
		}
	}))
	t.Cleanup(func() {
		d.shut.Store(true)
		d.CloseClientConnections()
		d.Close()
	})
	return d
}

func (d *door) mapped() string { return strings.Replace(d.URL, "127.0.0.1", browsertest.MappedHost, 1) }

// close lets nothing through any more, and tears what is open.
func (d *door) close() {
	d.shut.Store(true)
	d.CloseClientConnections()
}

// A worker is somebody at a sink, with what he or she means to do.
type worker struct {
	sinkTab
	name  string
	way   string
	ids   []string // of the prints that were begun, in order
	moves int
}

// begins starts a print and remembers its id.
func (w *worker) begins() {
	w.t.Helper()
	known := fmt.Sprintf("%q", strings.Join(w.ids, " "))
	w.press("start", w.way+" whole")
	const mine = `page.state().tags.map((t) => t.print).filter((p) => p.stays[0]?.entry.device === page.setup.device && !%s.includes(p.id))`
	w.holds(fmt.Sprintf(mine, known) + ".length === 1")
	w.ids = append(w.ids, ask[string](w.sinkTab, fmt.Sprintf(mine, known)+"[0].id"))
	w.wait()
}

// moves a print of one's own on by touching its tag; false where it is with its batch.
func (w *worker) on(id string) bool {
	w.t.Helper()
	if !ask[bool](w.sinkTab, `(k => { if (k) k.click(); return !!k })(document.querySelector('.tags button[name="on"][value^="`+id+` "]'))`) {
		return false
	}
	w.moves++
	w.wait()
	if w.moves > 20 {
		w.t.Fatalf("%s moves without an end: %s; %s", w.name, w.where(), ask[string](w.sinkTab, "JSON.stringify(page.state().tags)"))
	}
	return true
}

// A whole evening: three sinks, a wall and a desk. One sink is without a network for twenty minutes, in which it goes on
// working; the server is killed twice. In the end the book says exactly what was done, and all screens agree.
func TestWholeEvening(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("a whole evening in five browsers")
	}
	l := running(t)
	l.came("Ada", "Lu", "Mo")
	away := l.door(t)
	people := []*worker{
		{sinkTab: openSink(t, l.mapped(), browsertest.Phone()), name: "who0", way: "RC-paper-8x10-in"},
		{sinkTab: openSink(t, away.mapped(), browsertest.Phone()), name: "who1", way: "FB-paper-11x14-in"},
		{sinkTab: openSink(t, l.URL, browsertest.Look{Width: 820, Height: 1180}), name: "who2", way: "RC-paper-8x10-in"},
	}
	wall := browsertest.Open(t, &chromium, l.mapped(), browsertest.Look{Width: 1920, Height: 1080})
	wall.ExpectCuts()
	wall.Go("/wall")
	desk := browsertest.Open(t, &chromium, l.URL, browsertest.Desk())
	desk.ExpectCuts()
	desk.Go("/baths")
	for _, w := range people {
		ask[bool](w.sinkTab, `(document.querySelector("input[name=of][value=`+w.name+`]").checked = true)`)
	}
	for _, w := range people {
		w.begins()
		w.begins()
	}
	for _, w := range people {
		w.on(w.ids[0])
	}
	l.again() // killed in the middle of six timers

	away.close()
	lost := people[1]
	lost.holds("!page.up")
	l.leapt.Store(int64(20 * time.Minute)) // the evening goes on
	lost.later(20 * time.Minute)
	lost.begins()
	for lost.on(lost.ids[0]) {
		continue
	}
	lost.on(lost.ids[2])
	if n := ask[int](lost.sinkTab, "page.box.taps.length"); n < 5 {
		t.Errorf("%d taps wait at the sink without a network", n)
	}
	for _, w := range []*worker{people[0], people[2]} {
		for _, id := range w.ids {
			for w.on(id) {
				continue
			}
		}
		w.begins()
	}
	l.again()
	away.shut.Store(false)
	ask[bool](lost.sinkTab, `(dispatchEvent(new Event("online")), true)`)
	for _, w := range people {
		w.holds("page.box.taps.length === 0 && page.up")
	}
	for _, w := range people {
		for _, id := range w.ids {
			for w.on(id) {
				continue
			}
		}
	}
	for _, w := range people {
		w.holds("page.box.taps.length === 0 && page.state().tags.length === 0")
	}
	evening := exactly(t, l, people)
	for _, w := range people {
		if got := ask[int](w.sinkTab, "page.state().batches.reduce((n, b) => n + b.prints, 0)"); got != evening {
			t.Errorf("%s sees %d prints in holding and wash, want %d", w.name, got, evening)
		}
	}
	desk.Go("/baths")
	wall.Go("/wall")
	for name, page := range map[string]*browsertest.Page{"wall": wall, "desk": desk} {
		if !strings.Contains(page.Text(), "Fixer 1") {
			t.Errorf("the %s shows no fixer: %s", name, page.Text())
		}
	}
}

// exactly holds the book against what the people did, and returns how many prints that is.
func exactly(t *testing.T, l *line, people []*worker) int {
	t.Helper()
	all, err := l.book.Store.Since(t.Context(), l.book.Room, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	count := map[book.Kind]int{}
	for _, e := range all {
		count[e.Kind]++
	}
	begun, moves := 0, 0
	for _, w := range people {
		begun += len(w.ids)
		moves += w.moves
	}
	if count[book.PrintBegan] != begun || count[book.PrintPut] != moves {
		t.Errorf("the book has %d starts and %d moves, done were %d and %d", count[book.PrintBegan], count[book.PrintPut], begun, moves)
	}
	state := l.state()
	for _, w := range people {
		stations := w.stations()
		for _, id := range w.ids {
			p, ok := state.Print(id)
			if !ok || len(p.Odd) > 0 || p.Of != w.name || p.Session != "s1" {
				t.Errorf("%s of %s: %+v", id, w.name, p)
				continue
			}
			var steps []string
			for _, s := range p.Stays {
				steps = append(steps, s.Step.String())
				if s.Bath != stations[s.Step.String()] || s.Step.Role() != 0 && s.For == 0 {
					t.Errorf("%s in %v: bath %q for %v", id, s.Step, s.Bath, s.For)
				}
			}
			want := []string{"develop", "stop", "fix", "wash"}
			if strings.HasPrefix(w.way, "FB") {
				want = []string{"develop", "stop", "fix", "second_fix", "hold"}
			}
			if !slices.Equal(steps, want) {
				t.Errorf("%s of %s went %q, want %q", id, w.name, steps, want)
			}
		}
	}
	for _, step := range []string{"develop", "stop", "fix"} {
		if n := sheetsIn(t, state, step, people[0].stations()); n != begun {
			t.Errorf("%s: %d sheets, want %d", step, n, begun)
		}
	}
	if n := sheetsIn(t, state, "second_fix", people[0].stations()); n != len(people[1].ids) {
		t.Errorf("second fixer: %d sheets, want %d", n, len(people[1].ids))
	}
	if odd := state.Findings(); len(odd) > 0 {
		t.Errorf("odd: %+v", odd)
	}
	return begun
}

// Two sinks work for an hour without a network, each on its own and on prints that both know, and then come together, in
// either order: all that was done is there once, and both show the same.
func TestTwoSinksApart(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and without a race of its own: the whole run has it")
	}
	t.Parallel()
	for _, first := range []int{0, 1} {
		t.Run(fmt.Sprintf("%d first", first), func(t *testing.T) {
			l := running(t)
			l.came("Ada", "Lu")
			doors := []*door{l.door(t), l.door(t)}
			var both []*worker
			for i, d := range doors {
				w := &worker{sinkTab: openSink(t, d.mapped(), browsertest.Phone()), name: fmt.Sprint("who", i), way: "RC-paper-8x10-in"}
				ask[bool](w.sinkTab, `(document.querySelector("input[name=of][value=`+w.name+`]").checked = true)`)
				both = append(both, w)
			}
			both[0].begins()
			shared := both[0].ids[0]
			both[1].holds("page.state().tags.length === 1")
			for i, w := range both {
				doors[i].close()
				w.holds("!page.up")
			}
			l.leapt.Store(int64(time.Hour))
			for _, w := range both {
				w.later(time.Hour)
				w.on(shared) // both move it into the stop bath
				w.begins()
				w.on(w.ids[len(w.ids)-1])
			}
			both[1].on(shared) // one of them goes on with it
			for _, i := range []int{first, 1 - first} {
				doors[i].shut.Store(false)
				ask[bool](both[i].sinkTab, `(dispatchEvent(new Event("online")), true)`) // as a device that finds the network does
				both[i].holds("page.up && page.box.taps.length === 0")
			}
			want := ""
			for _, w := range both {
				w.holds("page.state().tags.length === 3")
				got := ask[string](w.sinkTab, `page.state().tags.map((t) => t.print.id + " " + page.setup.stations[t.station].key + " " + t.due).sort().join(", ")`)
				if want != "" && got != want {
					t.Errorf("%s shows\n%s, the other\n%s", w.name, got, want)
				}
				want = got
			}
			p, _ := l.state().Print(shared)
			var steps []string
			for _, s := range p.Stays {
				steps = append(steps, s.Step.String())
			}
			if !slices.Equal(steps, []string{"develop", "stop", "fix"}) {
				t.Errorf("the print that both moved went %q", steps)
			}
			if n := sheetsIn(t, l.state(), "develop", both[0].stations()); n != 3 {
				t.Errorf("%d sheets in the developer, want 3", n)
			}
		})
	}
}
