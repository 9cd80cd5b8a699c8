package web

import (
	"errors"
	"net/http"
	"slices"

	"wetside/access"
	"wetside/book"
)

type keyholderPage struct {
	frame
	First      bool // nobody keeps the darkroom yet
	Word       *field
	Name       field
	Passphrase secret
}

func (v *visit) keyholderPage(r *http.Request) (*keyholderPage, error) {
	kept, err := v.s.Doors.Kept(r.Context())
	p := &keyholderPage{frame: v.frame(r, "who_may"), First: !kept}
	p.White = true
	if !v.keeps() {
		p.Here = "begin" // nothing but the form
	}
	p.Title = v.say.Label("keyholder_another")
	if p.First {
		p.Title = v.say.Label("keyholder_new")
	}
	p.Name = field{Name: "name", Label: v.say.Label("keyholder_name"), Value: r.PostFormValue("name")}
	p.Passphrase = v.secret(r, "passphrase", "keyholder_passphrase", "new-password")
	p.Passphrase.Hint = v.say.Label("passphrase_hint")
	if p.First && !v.keeps() {
		p.Word = &field{Name: "word", Label: v.say.Label("keyholder_word"), Hint: v.say.Label("keyholder_word_hint"), Value: r.PostFormValue("word")}
	}
	return p, err
}

// askKeyholder asks who is to keep the darkroom.
func (s *server) askKeyholder(r *http.Request, v *visit) error {
	p, err := v.keyholderPage(r)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "keyholder", p)
}

// makeKeyholder makes a keyholder. The first is signed in at once: from then on names are asked.
func (s *server) makeKeyholder(r *http.Request, v *visit) error {
	p, err := v.keyholderPage(r)
	if err != nil {
		return err
	}
	if asked, _ := shows(r); asked {
		return v.show(http.StatusOK, "keyholder", p)
	}
	name, wrongName := readName(r.PostFormValue("name"))
	phrase, wrongPhrase := access.Passphrase(r.PostFormValue("passphrase"), name, v.file.Darkroom.Name)
	if wrongName != "" {
		p.Name.Problem = v.say.Label(nameOfKeyholder(wrongName))
	}
	if wrongPhrase != "" {
		p.Passphrase.Problem = v.say.Label(wrongPhrase)
	}
	if wrongName != "" || wrongPhrase != "" {
		return v.show(http.StatusUnprocessableEntity, "keyholder", p)
	}
	if !p.First {
		return v.another(r, p, name, phrase)
	}
	token, err := s.Doors.MakeFirst(r.Context(), r.PostFormValue("word"), name, phrase, access.Address(r))
	if errors.Is(err, access.ErrStolen) {
		return v.stolen(p, "keyholder", &p.Passphrase)
	}
	if said, code := v.notIn(err, "keyholder_word_wrong"); said != "" && p.Word != nil {
		p.Word.Problem = said
		return v.show(code, "keyholder", p)
	}
	switch {
	case errors.Is(err, access.ErrKept):
		return v.to(r, "/sign-in")
	case err != nil:
		return err
	}
	v.keepKey(r, token, access.SignInMost)
	return v.to(r, "/keys?did=first")
}

func nameOfKeyholder(wrong string) string {
	if wrong == "name_none" {
		return "keyholder_name_none"
	}
	return wrong
}

// stolen shows a page again whose new passphrase was stolen elsewhere.
func (v *visit) stolen(p page, name string, at *secret) error {
	at.Problem = v.say.Label("passphrase_stolen")
	return v.show(http.StatusUnprocessableEntity, name, p)
}

// another makes one more keyholder.
func (v *visit) another(r *http.Request, p *keyholderPage, name, phrase string) error {
	err := v.s.Doors.MakeKeyholder(r.Context(), name, phrase)
	if errors.Is(err, access.ErrStolen) {
		return v.stolen(p, "keyholder", &p.Passphrase)
	}
	if book.KindOf(err) == book.Conflict && book.KeyOf(err) == "keyholder_name_taken" {
		p.Name.Problem = v.say.Label("keyholder_name_taken")
		return v.show(http.StatusUnprocessableEntity, "keyholder", p)
	}
	if err != nil {
		return err
	}
	return v.to(r, "/keys?did=keyholder")
}

// withdrawKeyholder takes away who keeps the darkroom, once asked. The last stays.
func (s *server) withdrawKeyholder(r *http.Request, v *visit) error {
	id := r.PathValue("id")
	all, err := s.Doors.Keyholders(r.Context())
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(all, func(k access.KeyholderMade) bool { return k.Person == id }) {
		return errNotFound
	}
	if r.PostFormValue("sure") == "" {
		p := surePage{
			frame: v.frame(r, "who_may"), Say: v.say.Tell("sure_keyholder", "Name", v.called(id)), Action: r.URL.Path,
			Position: v.state.Position(), Back: "/keys", Yes: v.say.Label("key_withdraw"),
		}
		return v.show(http.StatusConflict, "sure", &p)
	}
	if err := s.Doors.WithdrawKeyholder(r.Context(), id, false); err != nil {
		return err
	}
	if id == v.who.Person {
		return v.leave(r)
	}
	return v.to(r, "/keys")
}

// isLast reports whether a person is the only keyholder: without them the darkroom would ask nobody who they are.
func (v *visit) isLast(r *http.Request, person string) (bool, error) {
	all, err := v.s.Doors.Keyholders(r.Context())
	return len(all) == 1 && all[0].Person == person, err
}
