package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"sync"
	"time"

	"wetside/access"
	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom/hazards"
	"wetside/plan"
	"wetside/trade/material"
)

// freshFor is how long what was reckoned of a book that stands still is shown again. A bath's outlook moves by the hour.
const freshFor = 5 * time.Second

// recent keeps what was last reckoned of the book, as long as the book and its people stand still. Many screens look at one
// book, and most of what a page costs is the same for all of them.
type recent struct {
	mu     sync.Mutex
	state  *book.State
	people book.People
	known  map[string]*reckoned
	pages  map[string]sentPage
	bytes  int                      // of the pages
	making map[string]chan struct{} // pages that somebody makes; closed when it is made, or not
}

// reckoned is one thing that was reckoned. Whoever has its turn may look at it and change it.
type reckoned struct {
	turn  chan struct{}
	done  bool
	at    time.Time // when it was done
	value any
}

// of returns the place for a thing; a place of its own where the book has moved on since it was looked at.
func (k *recent) of(v *visit, what string) *reckoned {
	k.mu.Lock()
	defer k.mu.Unlock()
	fresh := &reckoned{turn: make(chan struct{}, 1)}
	fresh.turn <- struct{}{}
	if !k.moveOn(v) {
		return fresh
	}
	if k.known[what] == nil {
		k.known[what] = fresh
	}
	return k.known[what]
}

// moveOn forgets all where the book has moved on; it reports false to whoever has looked at an older one, or at one of his own.
func (k *recent) moveOn(v *visit) bool {
	if v.woken {
		return false
	}
	if k.state == v.state && maps.EqualFunc(k.people, v.people, samePerson) {
		return true
	}
	if k.state != nil && k.state.Position() > v.state.Position() {
		return false
	}
	k.state, k.people, k.known = v.state, v.people, map[string]*reckoned{}
	k.pages, k.bytes = map[string]sentPage{}, 0
	return true
}

func samePerson(a, b book.Person) bool {
	return a.ID == b.ID && a.Name == b.Name && slices.Equal(a.Notes, b.Notes)
}

// lately returns what was reckoned within the last seconds, or reckons it. Whoever asks meanwhile waits for it. What it returns
// is shared: it may be read only.
func lately[T any](ctx context.Context, v *visit, what string, reckon func() (T, error)) (T, error) {
	k, asked := v.s.recent.of(v, what), v.s.Now()
	select {
	case <-k.turn:
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
	defer func() { k.turn <- struct{}{} }()
	if age := asked.Sub(k.at); k.done && age < freshFor && age > -v.s.Patience { // below 0: done while this one waited
		return k.value.(T), nil //nolint:forcetypeassert // what names its type
	}
	value, err := reckon()
	if err == nil {
		k.done, k.at, k.value = true, v.s.Now(), value
	}
	return value, err
}

// plan plans the evening that the book wants.
func (v *visit) plan(ctx context.Context) (plan.Plan, error) {
	return lately(ctx, v, "plan for "+v.plansFor(), func() (plan.Plan, error) { return plan.Make(ctx, v.asked(0)) })
}

// An outlook is what stands in the room, and what is ahead of it.
type outlook struct {
	scene  ahead.Scene
	report ahead.Report
}

// A looking says how far ahead is looked.
type looking struct {
	asked material.Material // what is asked about besides what is in use
	few   bool              // in fewer rooms, for what is said in one sentence
	deep  bool              // with what would help, and the courses of the figures
}

// outlook looks ahead of the baths that stand.
func (v *visit) outlook(ctx context.Context, far looking) (ahead.Scene, ahead.Report, error) {
	o, err := lately(ctx, v, fmt.Sprintf("outlook %+v", far), func() (o outlook, err error) {
		o.scene = v.scene(far.asked)
		o.scene.Helps, o.scene.Courses = far.deep, far.deep
		if far.few {
			o.scene.Draws = fewDraws
		}
		o.report, err = ahead.Look(o.scene)
		return o, err
	})
	return o.scene, o.report, err
}

// judged says what harms in what stands on the shelf. An error wraps hazard.ErrMixture.
func (v *visit) judged(ctx context.Context) (hazards.Report, error) {
	return lately(ctx, v, "hazards", func() (hazards.Report, error) { return hazards.Of(v.file) })
}

// A page with the seconds of a print on it is shown again for one second.
const secondsFor = time.Second

// shared says how long a page is sent again to everybody who asks in the same way; 0: it is made anew each time.
func shared(pattern string) time.Duration {
	switch pattern {
	case "GET /{$}", "GET /baths", "GET /wall", "GET /shelf", "GET /plan", "GET /bench":
		return freshFor
	case "GET /sink":
		return secondsFor
	}
	return 0
}

// mostPages is how much of pages is kept, in bytes.
const mostPages = 4 << 20

// A sentPage is a page as it was sent.
type sentPage struct {
	at   time.Time
	body []byte
	// zipped is the same packed, the first time that somebody who unpacks it asks for it again.
	zipped func() []byte
}

func sent(at time.Time, body []byte) sentPage {
	return sentPage{at, body, sync.OnceValue(func() []byte {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		_, _ = z.Write(body) // a buffer takes everything
		_ = z.Close()
		return b.Bytes()
	})}
}

// shownAgain sends a page as it was sent so short a time ago, or sees to it that what is shown is kept.
func (v *visit) shownAgain(r *http.Request, within time.Duration) bool {
	if r.Pattern == "GET /sink" {
		v.device(r) // what is tapped there is this device's, whoever asked for the page before
		v.given = v.cookies()
	}
	screen, _ := r.Cookie(access.CookieName(r, screenCookie))
	key := fmt.Sprint(r.Host, access.Secure(r), r.URL.RequestURI(), v.red, screen, me(r), v.who)
	k := &v.s.recent
	for waited := false; ; waited = true {
		was, now := k.page(v, key), v.s.Now()
		if age := now.Sub(was.at); was.body != nil && age >= 0 && age < within {
			v.sendAgain(r, &was)
			return true
		}
		v.again = func(page []byte) { k.keepPage(v, key, sent(now, page)) }
		if waited {
			return false
		}
		made, done := k.make(key)
		if v.made = done; made == nil {
			return false
		}
		select {
		case <-made:
		case <-r.Context().Done():
			return false
		}
	}
}

// make says who makes a page: whoever gets done, which is called in the end, or somebody else, until made is closed.
func (k *recent) make(key string) (made <-chan struct{}, done func()) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if others := k.making[key]; others != nil {
		return others, nil
	}
	ours := make(chan struct{})
	if k.making == nil {
		k.making = map[string]chan struct{}{}
	}
	k.making[key] = ours
	return nil, func() {
		k.mu.Lock()
		defer k.mu.Unlock()
		delete(k.making, key)
		close(ours)
	}
}

// sendAgain sends a page packed where it can be unpacked: packing is half of what sending it again costs.
func (v *visit) sendAgain(r *http.Request, p *sentPage) {
	body := p.body
	if len(body) >= smallest && takesZip(r) {
		v.w.Header().Set("Content-Encoding", "gzip")
		body = p.zipped()
	}
	v.send(http.StatusOK, body)
}

// cookies is how many cookies the answer gives.
func (v *visit) cookies() int { return len(v.w.Header().Values("Set-Cookie")) }

func (k *recent) page(v *visit, key string) sentPage {
	k.mu.Lock()
	defer k.mu.Unlock()
	if !k.moveOn(v) {
		return sentPage{}
	}
	return k.pages[key]
}

func (k *recent) keepPage(v *visit, key string, page sentPage) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.state != v.state {
		return
	}
	if k.bytes += len(page.body) - len(k.pages[key].body); k.bytes > mostPages {
		k.pages, k.bytes = map[string]sentPage{}, len(page.body)
	}
	k.pages[key] = page
}
