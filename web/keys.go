package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/words"
)

// keyView is a key, or a keyholder, with what is told of it.
type keyView struct {
	Name, Role string
	Told       []words.Phrase
	Away       string // how it is withdrawn; empty: it is not, here
	This       bool   // it is what this device shows
	SignIn     bool
}

type keysPage struct {
	frame
	Home       bool // there is no keyholder: whoever reaches it does everything
	Did        string
	Me         string // who is signed in here; empty: nobody
	Keyholders []keyView
	Devices    []keyView
	SignIns    []keyView
	Called     field        // what this device is to be called
	Name       field        // of the device or the member that a key is for
	For        field        // what a key is for
	Lasts      field        // how long a script's holds
	Ends       words.Phrase // when the one just made does
	Token      string       // just made, shown once
	Code       *scene.Scene
	Script     bool
}

// keys shows who keeps the darkroom and which devices have a key.
func (s *server) keys(r *http.Request, v *visit) error {
	p, err := v.keysPage(r)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "keys", p)
}

// keyRoles are what a key can be for, what is asked for most first.
func keyRoles() []access.Role {
	return []access.Role{access.Member, access.Wall, access.Sink, access.Keyholder}
}

func (v *visit) keysPage(r *http.Request) (*keysPage, error) {
	p := &keysPage{frame: v.frame(r, "who_may"), Did: r.URL.Query().Get("did"), Me: v.called(v.who.Person)}
	kept, err := v.s.Doors.Kept(r.Context())
	if err != nil {
		return nil, err
	}
	p.Home = !kept
	p.Called = field{Name: "called", Label: v.say.Label("keys_here_name"), Value: r.PostFormValue("called"), Example: v.say.Label("keys_here_example")}
	p.Name = field{Name: "name", Label: v.say.Label("key_name"), Value: r.PostFormValue("name")}
	p.For = field{Name: "role", Label: v.say.Label("key_for"), Value: r.PostFormValue("role")}
	for _, role := range keyRoles() {
		p.For.Options = append(p.For.Options, option{role.String(), v.say.Label("key_for_" + role.String())})
	}
	p.Lasts = field{Name: "lasts", Label: v.say.Label("key_lasts"), Value: r.PostFormValue("lasts")}
	for _, span := range []string{"year", "month", "always"} {
		p.Lasts.Options = append(p.Lasts.Options, option{span, v.say.Label("key_lasts_" + span)})
	}
	if err := p.keyholders(r, v); err != nil {
		return nil, err
	}
	all, err := v.s.Doors.Keys(r.Context())
	for i := range all {
		p.key(v, &all[i])
	}
	return p, err
}

func (p *keysPage) keyholders(r *http.Request, v *visit) error {
	all, err := v.s.Doors.Keyholders(r.Context())
	for _, k := range all {
		one := keyView{Name: v.called(k.Person), Told: []words.Phrase{v.say.Tell("key_made", "When", v.say.DateTime(k.Made))}}
		if len(all) > 1 {
			one.Away = "/keyholders/" + k.Person + "/away"
		}
		p.Keyholders = append(p.Keyholders, one)
	}
	return err
}

func (p *keysPage) key(v *visit, k *access.Key) {
	one := keyView{Name: k.Name, Role: v.say.Label("key_role_" + k.Role.String()), Away: "/keys/" + k.ID + "/away", This: k.ID == v.who.Key}
	switch k.Sort {
	case access.SignIn:
		if k.Person != v.who.Person {
			return // where others are signed in is theirs to know
		}
		one.Name, one.Role, one.SignIn = "", "", true
		one.Told = v.seen(k, v.say.Tell("key_signed_in", "When", v.say.DateTime(k.Made)))
		p.SignIns = append(p.SignIns, one)
		return
	case access.Device:
		if k.Person != "" {
			one.Name = v.called(k.Person)
		}
	}
	one.Told = v.seen(k, v.say.Tell("key_made", "When", v.say.DateTime(k.Made), "By", v.called(k.MadeBy)))
	p.Devices = append(p.Devices, one)
}

// seen tells how a key began, and when it was last seen.
func (v *visit) seen(k *access.Key, began words.Phrase) []words.Phrase {
	told := []words.Phrase{began, v.say.Tell("key_seen", "When", v.say.DateTime(k.Seen))}
	if k.Sort == access.Script && !k.Ends.IsZero() {
		told = append(told, v.say.Tell("key_ends", "When", v.say.DateYear(k.Ends)))
	}
	return told
}

// errNoDoor is for keys before there is a keyholder: a home has no doors.
var errNoDoor = &book.Error{Kind: book.BadInput, Key: "bad_form", Cause: errors.New("a key without a keyholder")}

// mayMakeKeys refuses keys in a home: nobody would be asked for them.
func (v *visit) mayMakeKeys(r *http.Request) error {
	kept, err := v.s.Doors.Kept(r.Context())
	if err == nil && !kept {
		err = errNoDoor
	}
	return err
}

// makeKey makes a key and shows its token once.
func (s *server) makeKey(r *http.Request, v *visit) error {
	if err := v.mayMakeKeys(r); err != nil {
		return err
	}
	role, known := access.RoleOf(r.PostFormValue("role"))
	name, wrong := readName(r.PostFormValue("name"))
	problem := func(at func(*keysPage) *field, label string) error {
		p, err := v.keysPage(r)
		if err != nil {
			return err
		}
		at(p).Problem = v.say.Label(label)
		return v.show(http.StatusUnprocessableEntity, "keys", p)
	}
	switch {
	case !known:
		return problem(func(p *keysPage) *field { return &p.For }, "key_for_what")
	case wrong == "name_none":
		return problem(func(p *keysPage) *field { return &p.Name }, "key_name_none")
	case wrong != "":
		return problem(func(p *keysPage) *field { return &p.Name }, wrong)
	}
	lasts := lastsOf(role, r.PostFormValue("lasts"))
	made, err := s.Doors.MakeKey(r.Context(), v.who, role, name, lasts)
	if err != nil {
		return err
	}
	p := &keysPage{frame: v.frame(r, "who_may"), Token: made.Token, Script: role == access.Keyholder}
	p.Title = v.say.Label("key_is_made")
	if lasts > 0 {
		p.Ends = v.say.Tell("key_ends_by_itself", "When", v.say.DateYear(s.Now().Add(lasts)))
	}
	if !p.Script {
		p.Code = drawn(draw.QR{Text: made.Token, Say: v.say.Label("key_is_made"), Size: draw.Phone}.Scene(v.form()))
	}
	return v.show(http.StatusOK, "key", p)
}

// lastsOf is how long a key of a role holds, as it was chosen; 0: until it is withdrawn, as those of devices and members do.
func lastsOf(role access.Role, chosen string) time.Duration {
	if role != access.Keyholder || chosen == "always" {
		return 0
	}
	if chosen == "month" {
		return 30 * 24 * time.Hour
	}
	return access.ScriptMost
}

// becomeDevice makes the device that asks a wall or a sink of the room; whoever is signed in there is signed out.
func (s *server) becomeDevice(r *http.Request, v *visit) error {
	if err := v.mayMakeKeys(r); err != nil {
		return err
	}
	role, _ := access.RoleOf(r.PostFormValue("role"))
	name := v.say.Label("key_role_" + role.String())
	if typed := strings.TrimSpace(r.PostFormValue("called")); typed != "" {
		read, wrong := readName(typed)
		if wrong != "" {
			p, err := v.keysPage(r)
			if err != nil {
				return err
			}
			p.Called.Problem = v.say.Label(wrong)
			return v.show(http.StatusUnprocessableEntity, "keys", p)
		}
		name = read
	}
	if role != access.Wall && role != access.Sink {
		return errNoDoor
	}
	token, err := s.Doors.Become(r.Context(), v.who, role, name)
	if err != nil {
		return err
	}
	v.keepKey(r, token, deviceFor)
	return v.to(r, placeOf(role))
}

// withdrawKey takes a key away; one of one's own sign-ins elsewhere once the passphrase was given again.
func (s *server) withdrawKey(r *http.Request, v *visit) error {
	all, err := s.Doors.Keys(r.Context())
	if err != nil {
		return err
	}
	id := r.PathValue("id")
	i := slices.IndexFunc(all, func(k access.Key) bool { return k.ID == id })
	if i < 0 || all[i].Sort == access.SignIn && all[i].Person != v.who.Person {
		return errNotFound
	}
	if all[i].Sort == access.SignIn && id != v.who.Key {
		if asked, err := v.proves(r, v.say.Label("sign_out")); asked || err != nil {
			return err
		}
	}
	if err := s.Doors.Withdraw(r.Context(), id); err != nil {
		return err
	}
	if id == v.who.Key {
		return v.leave(r)
	}
	return v.to(r, "/keys")
}
