package web

import (
	"bytes"
	"context"
	"net/http"
	"sync"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/darkroom"
	"wetside/words"
)

// A handler answers one request: it sets what the visit sends, or returns an error.
type handler func(r *http.Request, v *visit) error

// A visit is one request with what every page needs: the darkroom as it is now, and a voice that speaks its language.
type visit struct {
	s      *server
	id     string // of the request
	w      http.ResponseWriter
	state  *book.State
	file   darkroom.File
	ids    book.IDs
	say    *words.Voice
	red    bool        // the page's form for the dark is wanted
	people book.People // names, which can be erased
	who    access.Who  // asks
	// forRoom says that a member asks for the room's plan and not for their own.
	forRoom bool
	joined  func() []book.Joining // who came in tonight, in order
	woken   bool                  // the state is this page's own: what is reckoned of it is not shown again
	again   func(page []byte)     // keeps a page for whoever asks for it next; nil: it is made anew each time
	made    func()                // whoever waits for the page goes on; nil: nobody waits
	given   int                   // cookies that are given to whoever asks, whatever the page: it is the same without them
}

// patience is how long a page may think where the configuration does not say. What takes longer is told as such.
const patience = 15 * time.Second

// handle opens the book for a request and turns its error into a page.
func (s *server) handle(h handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		v := &visit{s: s, id: s.NewID(), w: w}
		r.Body = http.MaxBytesReader(w, r.Body, maxForm)
		v.red, v.forRoom = isRed(r), isForRoom(r)
		ctx, cancel := context.WithTimeout(r.Context(), s.Patience)
		defer cancel()
		ctx = withAsking(ctx, r, v.id)
		r = r.WithContext(ctx)
		v.asWho(r)
		err := v.look(ctx)
		if within := shared(r.Pattern); err == nil && within > 0 {
			shown := v.shownAgain(r, within)
			if v.made != nil {
				defer v.made()
			}
			if shown {
				return
			}
		}
		if err == nil {
			err = v.wake(ctx, func(s *book.State) book.Waking { return s.NeedsBaths(r.PathValue("id"), r.URL.Query().Get("bath")) })
		}
		if err == nil {
			err = v.open()
		}
		if err == nil {
			err = h(r, v)
		}
		if err != nil {
			v.fail(r, err)
		}
	})
}

// look looks at the book.
func (v *visit) look(ctx context.Context) error {
	voice, err := v.s.words.Voice("", 0, 0, words.Zone(v.s.Now().Location()))
	if err != nil {
		return err
	}
	v.say = voice
	if v.state, err = v.s.Book.State(ctx); err != nil {
		return err
	}
	v.joined = sync.OnceValue(func() []book.Joining {
		evening, _ := v.state.Running()
		return evening.Joined
	})
	v.people, err = v.s.Book.People(ctx)
	return err
}

// wake wakes what a page wants to see of what is long finished.
func (v *visit) wake(ctx context.Context, needs func(*book.State) book.Waking) (err error) {
	if w := needs(v.state); !w.None() {
		v.woken = true
		v.state, err = v.s.Book.Awake(ctx, needs)
	}
	return err
}

// open makes the darkroom of what the book says, and the voice that speaks its language.
func (v *visit) open() (err error) {
	v.file, v.ids = v.state.File(v.people)
	v.say, err = v.voice()
	return err
}

// begun reports whether the darkroom has a name, which is the first thing that is said of it.
func (v *visit) begun() bool { return v.file.Darkroom.Name != "" }

// show renders a page and sends it whole.
func (v *visit) show(status int, name string, p page) error {
	var b bytes.Buffer
	if err := v.s.pages.render(&b, name, v, p); err != nil {
		return err
	}
	if v.again != nil && status == http.StatusOK && v.cookies() == v.given {
		v.again(bytes.Clone(b.Bytes()))
	}
	v.send(status, b.Bytes())
	return nil
}

func (v *visit) send(status int, page []byte) {
	v.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	v.w.Header().Set("Cache-Control", "no-store")
	v.w.WriteHeader(status)
	if _, err := v.w.Write(page); err != nil {
		v.s.Log.Debug("page not taken", "request", v.id, "error", err)
	}
}

// to sends the browser on, so that a reload does not send a form again.
func (v *visit) to(r *http.Request, path string) error {
	http.Redirect(v.w, r, path, http.StatusSeeOther)
	return nil
}
