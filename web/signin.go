package web

import (
	"errors"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"time"

	"wetside/access"
)

// secret is a field for what is not shown on the glass, unless somebody wishes to see it.
type secret struct {
	field
	Shown bool
	Kind  string // for what a browser fills in: current-password, new-password
}

// shows reports whether a form asks to show, or to hide, what was typed, and whether it is shown by now.
func shows(r *http.Request) (asked, shown bool) {
	do := r.PostFormValue("do")
	return do == "show" || do == "hide", do == "show" || do != "hide" && r.PostFormValue("shown") != ""
}

func (v *visit) secret(r *http.Request, name, label, kind string) secret {
	_, shown := shows(r)
	s := secret{field: field{Name: name, Label: v.say.Label(label)}, Shown: shown, Kind: kind}
	if asked, _ := shows(r); asked || shown {
		s.Value = r.PostFormValue(name) // else it is typed again, rather than stand in a page unseen
	}
	return s
}

type signInPage struct {
	frame
	Name       field
	Passphrase secret
	Code       *field // of a second step; nil: nobody here has one
	Key        field  // what a device was given
	After      string
	Home       bool // there is no keyholder: nobody signs in
}

func (v *visit) signInPage(r *http.Request) (*signInPage, error) {
	p := &signInPage{frame: v.frame(r, "begin"), After: local(r.FormValue("after"))}
	p.Title, p.White = v.say.Label("sign_in"), true
	p.Name = field{Name: "name", Label: v.say.Label("signin_name"), Value: r.PostFormValue("name")}
	p.Passphrase = v.secret(r, "passphrase", "signin_passphrase", "current-password")
	p.Key = field{Name: "key", Label: v.say.Label("signin_key")}
	some, err := v.s.Doors.AnySecond(r.Context())
	if some {
		p.Code = &field{Name: "code", Label: v.say.Label("signin_code"), Hint: v.say.Label("signin_code_hint"), Value: r.PostFormValue("code")}
	}
	return p, err
}

// askSignIn is the door: a name and a passphrase, or the key that a device was given.
func (s *server) askSignIn(r *http.Request, v *visit) error {
	kept, err := s.Doors.Kept(r.Context())
	if err != nil {
		return err
	}
	p, err := v.signInPage(r)
	if err != nil {
		return err
	}
	p.Home = !kept
	return v.show(http.StatusOK, "signin", p)
}

// signIn lets a keyholder in. What was wrong is not told: a name that nobody has looks the same.
func (s *server) signIn(r *http.Request, v *visit) error {
	p, err := v.signInPage(r)
	if err != nil {
		return err
	}
	if asked, _ := shows(r); asked {
		return v.show(http.StatusOK, "signin", p)
	}
	wrong := "signin_wrong"
	if p.Code != nil {
		wrong = "signin_wrong_code"
	}
	token, err := s.Doors.SignIn(r.Context(), r.PostFormValue("name"), r.PostFormValue("passphrase"), r.PostFormValue("code"), access.Address(r), v.who.Key)
	if said, code := v.notIn(err, wrong); said != "" {
		p.Passphrase.Problem = said
		return v.show(code, "signin", p)
	}
	if err != nil {
		return err
	}
	v.keepKey(r, token, access.SignInMost)
	return v.to(r, p.After)
}

// notIn says why somebody does not get in; empty for what is another trouble or none.
func (v *visit) notIn(err error, wrong string) (said string, code int) {
	if limited, ok := errors.AsType[*access.LimitedError](err); ok {
		v.retryAfter(limited.Wait)
		return v.say.Tell("signin_limited", "Wait", v.waiting(limited.Wait)).Text(), http.StatusTooManyRequests
	}
	if errors.Is(err, access.ErrWrong) {
		return v.say.Label(wrong), http.StatusUnprocessableEntity
	}
	return "", 0
}

// retryAfter tells programs when it may be tried again (RFC 9110, 10.2.3).
func (v *visit) retryAfter(wait time.Duration) {
	v.w.Header().Set("Retry-After", strconv.Itoa(int(math.Ceil(wait.Seconds()))))
}

// waiting is a time to wait, in whole minutes, rather too long.
func (v *visit) waiting(d time.Duration) string {
	return v.say.Count("minutes", int(math.Ceil(d.Minutes())))
}

// deviceFor is how long a device keeps a key that has no end: as long as browsers keep anything (RFC 6265bis, 5.5: 400 days).
// It is given it anew when it is used.
const deviceFor = 400 * 24 * time.Hour

// keepKey keeps a key on the device: for its pages alone, for no script, and over https by a name that holds there alone.
func (v *visit) keepKey(r *http.Request, token string, lasts time.Duration) {
	http.SetCookie(v.w, keyCookie(r, token, lasts))
}

func keyCookie(r *http.Request, token string, lasts time.Duration) *http.Cookie {
	c := &http.Cookie{
		Name: access.KeyCookie(r), Value: token, Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode, Secure: access.Secure(r),
		MaxAge: int(lasts.Seconds()),
	}
	if token == "" {
		c.MaxAge = -1
	}
	return c
}

// renewKey gives a device of the room, or a member's, its key anew, so that no browser lets it go while the device is used. It goes with
// the stream, which each page of such a device begins.
func renewKey(w http.ResponseWriter, r *http.Request) {
	who, shown := access.From(r.Context()), access.Show(r)
	if who.Key == "" || shown.Bearer || who.Role == access.Keyholder {
		return // a sign-in ends by itself
	}
	http.SetCookie(w, keyCookie(r, shown.Token, deviceFor))
}

// useKey keeps a key that was typed in at a device.
func (s *server) useKey(r *http.Request, v *visit) error {
	p, err := v.signInPage(r)
	if err != nil {
		return err
	}
	role, ok, err := s.Doors.Take(r.Context(), r.PostFormValue("key"), access.Address(r))
	said, code := v.notIn(err, "")
	switch {
	case said != "":
	case err != nil:
		return err
	case !ok:
		said, code = v.say.Label("signin_key_wrong"), http.StatusUnprocessableEntity
	default:
		v.keepKey(r, r.PostFormValue("key"), deviceFor)
		return v.to(r, placeOf(role))
	}
	p.Key.Problem, p.Key.Value = said, r.PostFormValue("key")
	return v.show(code, "signin", p)
}

// placeOf is the page that a device of a role is for.
func placeOf(role access.Role) string {
	switch role {
	case access.Wall:
		return "/wall"
	case access.Sink:
		return "/sink"
	case access.Stranger, access.Joined, access.Member, access.Keyholder:
	}
	return "/"
}

// askSignOut asks before the device is signed out.
func (s *server) askSignOut(r *http.Request, v *visit) error {
	p := surePage{
		frame: v.frame(r, "sign_out"), Say: v.say.Tell("sure_sign_out"), Action: "/sign-out", Position: v.state.Position(), Back: cameFrom(r),
		Yes: v.say.Label("sign_out"),
	}
	p.Here, p.Leaves = "begin", "" // nothing but the question
	switch v.who.Role {
	case access.Joined:
		p.Why = v.say.Tell("sign_out_joined")
	case access.Member:
		p.Why = v.say.Tell("sign_out_member")
	case access.Stranger, access.Wall, access.Sink, access.Keyholder:
	}
	return v.show(http.StatusOK, "sure", &p)
}

// signOut ends what the device is signed in with. A key of the room's is taken off it as well.
func (s *server) signOut(r *http.Request, v *visit) error {
	if err := s.Doors.SignOut(r.Context(), v.who); err != nil {
		return err
	}
	return v.leave(r)
}

// signOutAll ends all sign-ins of whoever asks, who proves once more that it is they.
func (s *server) signOutAll(r *http.Request, v *visit) error {
	if asked, err := v.proves(r, v.say.Label("sign_out_all")); asked || err != nil {
		return err
	}
	if err := s.Doors.SignOutAll(r.Context(), v.who); err != nil {
		return err
	}
	return v.leave(r)
}

// leave lets the device forget who used it.
func (v *visit) leave(r *http.Request) error {
	v.keepKey(r, "", 0)
	if v.who.Role == access.Joined || v.who.Role == access.Member {
		v.keepJoined(r, "")
	}
	v.w.Header().Set("Clear-Site-Data", `"cache"`) // not what is still to be sent
	return v.to(r, "/sign-in")
}

// provePage asks for a passphrase before what only its owner is to do.
type provePage struct {
	frame
	Action, Yes string
	Name        string // whose it is, for what fills it in
	Passphrase  secret
}

// proves asks a keyholder for their passphrase once more, and reports whether it was asked and nothing is to be done.
func (v *visit) proves(r *http.Request, yes string) (asked bool, err error) {
	if v.red {
		return true, v.to(r, "/red/white?"+url.Values{"back": {"/keys"}, "for": {forTyping}}.Encode())
	}
	p := provePage{frame: v.frame(r, "who_may"), Action: r.URL.Path, Yes: yes, Name: v.called(v.who.Person)}
	p.Title, p.White = yes, true
	p.Passphrase = v.secret(r, "passphrase", "signin_passphrase", "current-password")
	_, given := r.PostForm["passphrase"]
	if asked, _ := shows(r); asked || !given {
		return true, v.show(http.StatusOK, "prove", &p)
	}
	err = v.s.Doors.Prove(r.Context(), v.who, r.PostFormValue("passphrase"), access.Address(r))
	said, code := v.notIn(err, "prove_wrong")
	if said == "" {
		return false, err
	}
	p.Passphrase.Problem = said
	return true, v.show(code, "prove", &p)
}

type passphrasePage struct {
	frame
	Name       string
	Old, Fresh secret
	Mine       bool // a keyholder is signed in here
}

func (v *visit) passphrasePage(r *http.Request) *passphrasePage {
	p := &passphrasePage{frame: v.frame(r, "who_may"), Name: v.people[v.who.Person].Name}
	p.Title, p.White = v.say.Label("passphrase_change"), true
	p.Old = v.secret(r, "old", "passphrase_old", "current-password")
	p.Fresh = v.secret(r, "fresh", "passphrase_new", "new-password")
	p.Fresh.Hint = v.say.Label("passphrase_hint")
	return p
}

// askPassphrase asks for the old passphrase and a new one.
func (s *server) askPassphrase(r *http.Request, v *visit) error {
	if v.who.Person == "" {
		return errNotFound
	}
	return v.show(http.StatusOK, "passphrase", v.passphrasePage(r))
}

// changePassphrase takes a new one; all other sign-ins end.
func (s *server) changePassphrase(r *http.Request, v *visit) error {
	if v.who.Person == "" {
		return errNotFound
	}
	p := v.passphrasePage(r)
	if asked, _ := shows(r); asked {
		return v.show(http.StatusOK, "passphrase", p)
	}
	phrase, wrong := access.Passphrase(r.PostFormValue("fresh"), p.Name, v.file.Darkroom.Name)
	if wrong != "" {
		p.Fresh.Problem = v.say.Label(wrong)
		return v.show(http.StatusUnprocessableEntity, "passphrase", p)
	}
	token, err := s.Doors.ChangePassphrase(r.Context(), v.who, r.PostFormValue("old"), phrase, access.Address(r))
	if errors.Is(err, access.ErrStolen) {
		return v.stolen(p, "passphrase", &p.Fresh)
	}
	if said, code := v.notIn(err, "passphrase_old_wrong"); said != "" {
		p.Old.Problem = said
		return v.show(code, "passphrase", p)
	}
	if err != nil {
		return err
	}
	v.keepKey(r, token, access.SignInMost)
	return v.to(r, "/keys?did=passphrase")
}

// doorRoutes are the ways in, and who may do what.
func (s *server) doorRoutes() map[string]handler {
	return map[string]handler{
		"GET /sign-in":               typedInWhite(s.askSignIn),
		"POST /sign-in":              typedInWhite(s.signIn),
		"POST /sign-in/key":          typedInWhite(s.useKey),
		"GET /sign-out":              s.askSignOut,
		"POST /sign-out":             s.signOut,
		"POST /sign-out/all":         s.signOutAll,
		"GET /passphrase":            typedInWhite(s.askPassphrase),
		"POST /passphrase":           typedInWhite(s.changePassphrase),
		"GET /second":                typedInWhite(s.askSecond),
		"POST /second":               typedInWhite(s.keepSecond),
		"GET /keyholders/new":        typedInWhite(s.askKeyholder),
		"POST /keyholders":           typedInWhite(s.makeKeyholder),
		"POST /keyholders/{id}/away": s.withdrawKeyholder,
		"GET /keys":                  s.keys,
		"POST /keys":                 s.makeKey,
		"POST /keys/here":            s.becomeDevice,
		"POST /keys/{id}/away":       s.withdrawKey,
	}
}
