package web

import (
	"errors"
	"net/http"
	"regexp"
	"strconv"
	"strings"

	"wetside/access"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/words"
)

// secondPage turns the second step of whoever is signed in on or off.
type secondPage struct {
	frame
	Name       string
	On         bool
	Left       words.Phrase // how many recovery words there are
	Secret     string       // of the app, while it is being turned on
	Picture    *scene.Scene
	Code       field
	Passphrase secret
	Words      []string // just made, shown once
}

func (v *visit) secondPage(r *http.Request) (*secondPage, error) {
	if v.who.Person == "" {
		return nil, errNotFound
	}
	p := &secondPage{frame: v.frame(r, "who_may"), Name: v.called(v.who.Person)}
	p.Title, p.White = v.say.Label("second"), true
	p.Code = field{Name: "code", Label: v.say.Label("second_code"), Hint: v.say.Label("second_code_hint"), Value: r.PostFormValue("code")}
	p.Passphrase = v.secret(r, "passphrase", "signin_passphrase", "current-password")
	left, on, err := v.s.Doors.Second(r.Context(), v.who)
	p.On, p.Left = on, v.say.Tell("second_left", "N", strconv.Itoa(left))
	return p, err
}

// tells puts a secret into the page, as words and as a picture.
func (p *secondPage) tells(v *visit, secret string) {
	p.Secret = secret
	p.Picture = drawn(draw.QR{Text: access.SecretAddress(secret, v.file.Darkroom.Name, p.Name), Say: v.say.Label("second_scan"), Size: draw.Phone}.Scene(v.form()))
}

// Grouped is the secret as it is typed off a screen. Apps leave the spaces out.
func (p *secondPage) Grouped() string {
	return strings.TrimSpace(regexp.MustCompile(`.{4}`).ReplaceAllString(p.Secret, "$0 "))
}

// askSecond tells whether there is a second step, and what it is.
func (s *server) askSecond(r *http.Request, v *visit) error {
	p, err := v.secondPage(r)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "second", p)
}

// keepSecond begins to turn the second step on, turns it on, or off.
func (s *server) keepSecond(r *http.Request, v *visit) error {
	p, err := v.secondPage(r)
	if err != nil {
		return err
	}
	secret := r.PostFormValue("secret")
	if r.PostFormValue("do") == "begin" || secret != "" && !access.ValidSecret(secret) {
		secret = access.NewSecret()
		p.Code.Value = ""
	}
	if secret != "" {
		p.tells(v, secret)
	}
	if asked, _ := shows(r); asked || r.PostFormValue("do") == "begin" {
		return v.show(http.StatusOK, "second", p)
	}
	if secret == "" {
		err = s.Doors.DropSecond(r.Context(), v.who, r.PostFormValue("passphrase"), access.Address(r))
	} else {
		p.Words, err = s.Doors.MakeSecond(r.Context(), v.who, r.PostFormValue("passphrase"), secret, r.PostFormValue("code"), access.Address(r))
	}
	return v.second(r, p, err)
}

// second shows what became of turning it on or off.
func (v *visit) second(r *http.Request, p *secondPage, err error) error {
	said, code := v.notIn(err, "prove_wrong")
	switch {
	case said != "":
		p.Passphrase.Problem = said
		return v.show(code, "second", p)
	case errors.Is(err, access.ErrCode):
		p.Code.Problem = v.say.Label("second_code_wrong")
		return v.show(http.StatusUnprocessableEntity, "second", p)
	case err != nil:
		return err
	}
	if p.Secret == "" {
		return v.to(r, "/keys?did=second")
	}
	return v.show(http.StatusOK, "second", p)
}
