package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"time"

	"wetside/access"
	"wetside/book"
)

// Doors is who may come in: who asks, the keyholders and the keys.
type Doors interface {
	access.Keys
	// Kept reports whether the darkroom has a keyholder.
	Kept(ctx context.Context) (bool, error)
	// MakeFirst makes the first keyholder and signs them in; MakeKeyholder makes another.
	MakeFirst(ctx context.Context, word, name, phrase, address string) (token string, err error)
	MakeKeyholder(ctx context.Context, name, phrase string) error
	Keyholders(ctx context.Context) ([]access.KeyholderMade, error)
	WithdrawKeyholder(ctx context.Context, person string, last bool) error
	// SignIn lets a keyholder in, by a code where they have a second step; the key that the device had (was) ends.
	SignIn(ctx context.Context, name, passphrase, code, address, was string) (token string, err error)
	// AnySecond reports whether any keyholder has a second step, Second how many recovery words whoever asks has left of theirs.
	AnySecond(ctx context.Context) (bool, error)
	Second(ctx context.Context, who access.Who) (left int, ok bool, err error)
	// MakeSecond turns the second step of whoever asks on and returns its recovery words; DropSecond turns it off.
	MakeSecond(ctx context.Context, who access.Who, passphrase, secret, code, address string) (words []string, err error)
	DropSecond(ctx context.Context, who access.Who, passphrase, address string) error
	SignOut(ctx context.Context, who access.Who) error
	SignOutAll(ctx context.Context, who access.Who) error
	// Prove asks whoever is signed in for their passphrase once more; errors are those of SignIn.
	Prove(ctx context.Context, who access.Who, passphrase, address string) error
	ChangePassphrase(ctx context.Context, who access.Who, old, fresh, address string) (token string, err error)
	// MakeKey makes a key, Become one for the device that asks, Take finds what a typed one is for.
	MakeKey(ctx context.Context, who access.Who, role access.Role, name string, lasts time.Duration) (access.KeyMade, error)
	Become(ctx context.Context, who access.Who, role access.Role, name string) (token string, err error)
	Take(ctx context.Context, token, address string) (access.Role, bool, error)
	Keys(ctx context.Context) ([]access.Key, error)
	Withdraw(ctx context.Context, id string) error
}

// A circle is a set of roles.
type circle uint8

func of(roles ...access.Role) (c circle) {
	for _, r := range roles {
		c |= 1 << r
	}
	return c
}

func (c circle) has(r access.Role) bool { return c&(1<<r) != 0 }

// The circles for whom pages are open.
func everybody() circle { return of(access.Roles()...) }

func inside() circle {
	return of(access.Joined, access.Sink, access.Member, access.Keyholder)
}
func screens() circle { return inside() | of(access.Wall) }

// openTo says for whom a page or a form is open, by its pattern. It is the one table of it; docs/roles.md tells it. What is not here
// is for those who keep the darkroom alone, so that what is new is closed until somebody opens it. Forms write what access.Write
// allows, each entry of which is asked about once more where it is written, or nothing into the book.
func openTo(pattern string) circle {
	switch pattern {
	case "GET /sign-in", "POST /sign-in", "POST /sign-in/key", "GET /join/{code}", "POST /join/{code}", "GET /assets/{name}", "GET /worker.js",
		"GET /red", "POST /red", "GET /red/white", "POST /red/screen":
		return everybody()
	case "GET /wall", "GET /live", "GET /sign-out", "POST /sign-out":
		return screens()
	case "GET /{$}", "GET /plan", "GET /mix", "GET /mix/ready", "GET /mix/{bath}/{n}", "GET /mix.pdf", "GET /jug",
		"GET /wrong", "GET /baths", "GET /baths/{id}", "GET /wash", "GET /sink", "GET /sink/setup.json",
		"GET /bench", "GET /bench/{kind}/{id}", "GET /shelf", "GET /shelf/{kind}/{id}", "GET /safety", "GET /room", "GET /file", "GET /darkroom.yaml",
		"GET /plan/load/{i}", "GET /plan/when", "GET /begin", "GET /begin/jugs", "GET /begin/trays", "GET /begin/bottles", "GET /begin/prints",
		"GET /waste", "GET /waste.pdf", "GET /waste.csv", "GET /handover", "GET /lists/{list}",
		"GET /labels", "GET /labels.pdf", "GET /cards.pdf", "GET /calendar.ics",
		"POST /baths/{id}/worked", "POST /baths/{id}/tested", "POST /undo/{id}", "POST /sink/move", "POST /taps", "POST /wrong/{sign}":
		return inside()
	case "GET /people/{id}", "POST /people/{id}": // their own notes; the handler refuses another's
		return of(access.Joined, access.Member, access.Keyholder)
	case "POST /shelf/{kind}/{id}", "POST /shelf/{kind}/{id}/away", "POST /shelf/lot/{id}/opened", "POST /shelf/lot/{id}/left", "POST /shelf/lot/{id}/discarded",
		"POST /mix/{bath}/poured", "POST /baths/{id}/topped", "POST /baths/{id}/back", "POST /baths/{id}/out", "POST /baths/{id}/away", "POST /baths/{id}/forward":
		return of(access.Member, access.Keyholder) // what is theirs; the book refuses another's
	case "POST /lists/{list}", "POST /handover/note":
		return of(access.Sink, access.Keyholder)
	}
	return of(access.Keyholder)
}

// needsNobody are what is served without asking who: nothing of the darkroom is in it.
func needsNobody(pattern string) bool {
	return pattern == "GET /assets/{name}" || pattern == "GET /worker.js"
}

// door finds out who asks, for every page and stream, and lets through whom the page is open for.
func (s *server) door(mux *http.ServeMux) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_, pattern := mux.Handler(r)
		if needsNobody(pattern) {
			mux.ServeHTTP(w, r)
			return
		}
		who, err := s.Doors.Who(r)
		r = r.WithContext(access.With(r.Context(), who))
		switch {
		case errors.Is(err, access.ErrHomeOnly), errors.Is(err, access.ErrNoKeyholder):
			s.shut(err, r.Method, pattern, mux).ServeHTTP(w, r)
		case err != nil:
			s.handle(func(*http.Request, *visit) error { return err }).ServeHTTP(w, r)
		case openTo(pattern).has(who.Role):
			mux.ServeHTTP(w, r)
		default:
			s.refuse(pattern).ServeHTTP(w, r)
		}
	})
}

// shut is for a darkroom that has no keyholder and is asked from elsewhere: it says what to do, and where the server listens for other
// machines it makes the first keyholder.
func (s *server) shut(why error, method, pattern string, mux *http.ServeMux) http.Handler {
	making := errors.Is(why, access.ErrNoKeyholder)
	switch {
	case making && slices.Contains([]string{"GET /keyholders/new", "POST /keyholders", "GET /red/white", "POST /red"}, pattern):
		return mux
	case making && asksForPage(method) && !machines(pattern):
		return http.RedirectHandler("/keyholders/new", http.StatusSeeOther)
	}
	return s.handle(func(*http.Request, *visit) error { return why })
}

// refuse is for whoever a page is not open to: a stranger is led to the door, all others are told.
func (s *server) refuse(pattern string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		stranger := access.From(r.Context()).Role == access.Stranger
		switch {
		case machines(pattern):
			s.problem(w, r, errUnless(stranger))
		case stranger && asksForPage(r.Method):
			s.turnedAway(r, s.NewID(), "led to the door")
			http.Redirect(w, r, "/sign-in?"+url.Values{"after": {local(r.URL.RequestURI())}}.Encode(), http.StatusSeeOther)
		default:
			s.handle(func(*http.Request, *visit) error { return errUnless(stranger) }).ServeHTTP(w, r)
		}
	})
}

// errStranger is for whoever would have to sign in first.
var errStranger = &book.Error{Kind: book.Refused, Key: "stranger"}

func errUnless(stranger bool) error {
	if stranger {
		return errStranger
	}
	return errNotYours
}

// machines are asked by scripts, which can do nothing with a page.
func machines(pattern string) bool {
	return pattern == "GET /live" || pattern == "POST /taps" || pattern == "GET /sink/setup.json"
}

// asksForPage reports whether a request of a method shows something and writes nothing.
func asksForPage(method string) bool { return method == http.MethodGet || method == http.MethodHead }
