package web

import (
	"log/slog"
	"net/http"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"wetside/access"
	"wetside/book"
	"wetside/words"
)

// mostName is how many characters a name has at most.
const mostName = 200

// How often one address may guess a code, and join: guessing is no way in, and no evening has a thousand guests. A class that comes
// through one proxy is below it. The figures are ours.
const (
	wrongCodes, wrongCodesEvery = 20, time.Minute
	manyJoins, manyJoinsEvery   = 60, 10 * time.Second
	guestsRemembered            = 5000
)

// guestLimits are what is counted of guests.
type guestLimits struct{ codes, joins *access.Limit }

func newGuestLimits(now func() time.Time) guestLimits {
	return guestLimits{
		codes: access.NewLimit(now, wrongCodes, wrongCodesEvery, guestsRemembered),
		joins: access.NewLimit(now, manyJoins, manyJoinsEvery, guestsRemembered),
	}
}

type joinPage struct {
	frame
	Action string
	Name   field
	Notes  []pick       // what raises the caution for them
	To     field        // what they are sensitised to
	Who    string       // whose device this is already; empty: nobody joined with it
	Mine   string       // where what is noted of them is changed
	Says   words.Phrase // why nobody can join; empty: they can
}

// invited finds the evening that a code is for.
func (v *visit) invited(r *http.Request) (e book.Evening, found bool, err error) {
	session, err := v.s.Book.Invited(r.Context(), plainCode(r.PathValue("code")))
	if book.KindOf(err) == book.NotFound {
		return e, false, nil
	}
	if err != nil {
		return e, false, err
	}
	e, found = v.state.Evening(session)
	return e, found, nil
}

// plainCode reads a code as it is typed off a wall: small letters, and letters that are taken for digits.
func plainCode(typed string) string {
	code := strings.NewReplacer("O", "0", "I", "1", "L", "1").Replace(strings.ToUpper(strings.TrimSpace(typed)))
	if !book.ValidID(code) {
		return "-" // no code
	}
	return code
}

// join asks for a name.
func (s *server) join(r *http.Request, v *visit) error {
	_, status, p, err := v.joinPage(r)
	if err != nil {
		return err
	}
	return v.show(status, "join", p)
}

func (v *visit) joinPage(r *http.Request) (e book.Evening, status int, p *joinPage, err error) {
	p = &joinPage{frame: v.frame(r, "begin"), Action: r.URL.Path}
	p.Title = v.say.Label("join_here")
	from := access.Address(r)
	if wait := v.s.guests.codes.Take(from); wait > 0 {
		return e, v.wait(p, wait), p, nil
	}
	e, found, err := v.invited(r)
	if found {
		v.s.guests.codes.Give(from)
		p.Room = v.file.Darkroom.Name // whoever has the code may know whose it is
	}
	switch {
	case err != nil:
		return e, 0, nil, err
	case !found:
		p.Says = v.say.Tell("join_wrong")
		return e, http.StatusNotFound, p, nil
	case e.Closed != nil:
		p.Says = v.say.Tell("join_over")
		return e, http.StatusGone, p, nil
	}
	if v.who.Session == e.ID || v.who.Role >= access.Member && v.who.Person != "" {
		p.Who, p.Mine = v.called(v.who.Person), "/people/"+v.who.Person
	}
	p.Name = field{Name: "name", Label: v.say.Label("join_name"), Value: r.PostFormValue("name")}
	p.To = field{Name: "sensitised", Label: v.say.Label("join_sensitised"), Value: r.PostFormValue("sensitised"), Example: "metol"}
	for _, n := range noteKeys() {
		p.Notes = append(p.Notes, pick{option{n.note, v.say.Label(n.label)}, slices.Contains(r.PostForm["note"], n.note)})
	}
	return e, http.StatusOK, p, nil
}

// wait makes a page of joining one that says when a code may be tried again, and returns its status.
func (v *visit) wait(p *joinPage, wait time.Duration) (status int) {
	v.retryAfter(wait)
	p.Says = v.say.Tell("signin_limited", "Wait", v.waiting(wait))
	return http.StatusTooManyRequests
}

// joinAs takes a name: a person, an entry, and a token on the device. Sent twice by one device, it is one person.
func (s *server) joinAs(r *http.Request, v *visit) error {
	e, status, p, err := v.joinPage(r)
	if err != nil {
		return err
	}
	if status != http.StatusOK {
		s.turnedAway(r, v.id, "no such evening, it is over, or tried too often")
		return v.show(status, "join", p)
	}
	if p.Who != "" {
		return v.to(r, r.URL.Path)
	}
	name, wrong := readName(r.PostFormValue("name"))
	if wrong != "" {
		p.Name.Problem = v.say.Label(wrong)
		return v.show(http.StatusUnprocessableEntity, "join", p)
	}
	if wait := s.guests.joins.Take(access.Address(r)); wait > 0 {
		s.turnedAway(r, v.id, "joined too often")
		v.retryAfter(wait)
		p.Name.Problem = v.say.Tell("signin_limited", "Wait", v.waiting(wait)).Text()
		return v.show(http.StatusTooManyRequests, "join", p)
	}
	who := Guest{Session: e.ID, Person: s.NewID()}
	a := v.author(r)
	a.By = who.Person
	entry, err := a.Write(&book.EveningJoined{Session: e.ID, Person: who.Person})
	if err != nil {
		return err
	}
	token := newToken()
	if err := s.Book.Join(r.Context(), token, who, book.Person{ID: who.Person, Name: name, Notes: notesOf(r)}, entry); err != nil {
		return err
	}
	joinedIn.tell(r.Context(), s.Log, slog.LevelInfo, slog.String("about", who.Person), slog.String("by", "evening's code"))
	v.keepJoined(r, token)
	return v.to(r, r.URL.Path)
}

// readName reads a first name in any script: whole, with single spaces; wrong is the key of what is wrong with it. What can't
// be seen or turns the direction of what stands beside it is no part of a name.
func readName(typed string) (name, wrong string) {
	if !utf8.ValidString(typed) {
		return "", "name_signs"
	}
	name = norm.NFC.String(strings.Join(strings.Fields(typed), " "))
	visible := false
	for _, c := range name {
		switch {
		case unicode.IsControl(c), unicode.Is(unicode.Bidi_Control, c), c == unicode.ReplacementChar:
			return "", "name_signs"
		case unicode.IsGraphic(c) && c != ' ' && !unicode.Is(unicode.Mn, c):
			visible = true
		}
	}
	switch {
	case !visible:
		return "", "name_none"
	case utf8.RuneCountInString(name) > mostName:
		return "", "name_long"
	}
	return name, ""
}
