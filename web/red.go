package web

import (
	"html"
	"net/http"
	"net/url"
	"strings"
	"unicode"

	"wetside/access"
	"wetside/draw/scene"
	"wetside/words"
)

// redCookie says that pages are wanted in the form for the dark.
const redCookie = "form"

// aYear is how long a device keeps its form, in seconds. It must not end by itself: that would be a white page in the dark.
const aYear = 365 * 24 * 3600

// firstBytes is the ground of a red page, within the page itself: dark before any style sheet has come.
const firstBytes = "@media screen{html{background:#000;color:#ec0000;color-scheme:dark}}"

func isRed(r *http.Request) bool {
	c, err := r.Cookie(access.CookieName(r, redCookie))
	return err == nil && c.Value == "red"
}

// form is how pictures of a page are lit.
func (v *visit) form() scene.Form {
	if v.red {
		return scene.Red
	}
	return scene.Light
}

// keep keeps a value on this device; an empty one is forgotten. A link from outside (a code on a bottle) must find it too,
// so that the browser sends it with those.
func (v *visit) keep(r *http.Request, name, value string) {
	c := http.Cookie{
		Name: access.CookieName(r, name), Value: value, Path: "/", HttpOnly: true, Secure: access.Secure(r), SameSite: http.SameSiteLaxMode, MaxAge: aYear,
	}
	if value == "" {
		c.MaxAge = -1
	}
	http.SetCookie(v.w, &c)
}

// lightAs turns the pages red, or back. The first time on a device it leads by way of what must be known.
func (s *server) lightAs(r *http.Request, v *visit) error {
	back := local(r.PostFormValue("back"))
	if r.PostFormValue("form") != "red" {
		v.keep(r, redCookie, "")
		return v.to(r, back)
	}
	v.keep(r, redCookie, "red")
	if _, err := r.Cookie(access.CookieName(r, screenCookie)); err != nil {
		v.keep(r, screenCookie, screenTest{}.cookie())
		return v.to(r, "/red?"+url.Values{"back": {back}}.Encode())
	}
	return v.to(r, back)
}

// local returns an address of this house, or its front page.
func local(path string) string {
	if !strings.HasPrefix(path, "/") || strings.HasPrefix(path, "//") || strings.ContainsRune(path, '\\') || strings.ContainsFunc(path, unicode.IsControl) {
		return "/"
	}
	return path
}

// here is the address to come back to from the frame: the page itself, or the one whose form is shown again.
func here(r *http.Request) string {
	if r.URL.Path == "/red" || strings.HasPrefix(r.URL.Path, "/red/") {
		return local(r.FormValue("back")) // these are about the way, no places on it
	}
	if r.Method == http.MethodGet || r.Method == http.MethodHead {
		return local(r.URL.RequestURI())
	}
	return cameFrom(r)
}

// cameFrom is the page of this house that led here, or the front page.
func cameFrom(r *http.Request) string {
	from, err := url.Parse(r.Referer())
	if err != nil || from.Host != r.Host {
		return "/"
	}
	return local(from.RequestURI())
}

type whitePage struct {
	frame
	To, From string
	Why      words.Phrase
}

// askWhite asks before white light whether the paper is put away.
func (s *server) askWhite(r *http.Request, v *visit) error {
	p := whitePage{frame: v.frame(r, "white"), To: local(r.FormValue("back")), From: cameFrom(r), Why: v.say.Tell("red.white_why")}
	if r.FormValue("for") == forTyping {
		p.Why = v.say.Tell("red.white_typing")
	}
	p.Here = "begin" // nothing but the question
	return v.show(http.StatusOK, "white", &p)
}

// inWhite keeps what a browser shows in a look of its own (a PDF, a download) for white light.
func inWhite(h handler) handler {
	return func(r *http.Request, v *visit) error {
		if v.red {
			return v.to(r, "/red/white?"+url.Values{"back": {here(r)}}.Encode())
		}
		return h(r, v)
	}
}

// forTyping says why a page is white: something is typed there that nobody is to see.
const forTyping = "typing"

// typedInWhite keeps a page with a passphrase's field for white light: fields that hide what is typed, and what fills them in, have a look
// of the browser's own.
func typedInWhite(h handler) handler {
	return func(r *http.Request, v *visit) error {
		if v.red {
			return v.to(r, "/red/white?"+url.Values{"back": {here(r)}, "for": {forTyping}}.Encode())
		}
		return h(r, v)
	}
}

// bare sends one sentence where no page can be made; in the dark that is dark too.
func (v *visit) bare(code int, text string) {
	if !v.red {
		http.Error(v.w, text, code)
		return
	}
	v.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	v.w.WriteHeader(code)
	_, _ = v.w.Write([]byte(`<!doctype html><meta name="color-scheme" content="dark"><style>` + firstBytes +
		`</style><body bgcolor="#000000" text="#ec0000"><p>` + html.EscapeString(text))) //nolint:gosec // escaped
}

// Chosen is the value of the option that is taken: a list of radio buttons, unlike a select, takes none by itself.
func (f field) Chosen() string {
	for _, o := range f.Options {
		if o.Value == f.Value {
			return f.Value
		}
	}
	if len(f.Options) > 0 {
		return f.Options[0].Value
	}
	return ""
}
