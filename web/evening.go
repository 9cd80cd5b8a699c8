package web

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"net/http"
	"strconv"
	"time"

	"wetside/access"
	"wetside/book"
)

// Evenings is what the pages ask of the record beside the book: notes, and who joined.
type Evenings interface {
	// Notes returns the words of the notes that stand, by id.
	Notes(ctx context.Context) (map[string]string, error)
	// LeaveNote keeps a note's words and writes the entry that names it.
	LeaveNote(ctx context.Context, id, words string, e book.Entry) error
	// EraseNote forgets a note's words for good.
	EraseNote(ctx context.Context, id string) error
	// Share keeps the code by which an evening is joined and writes the entry that says that it is shared.
	Share(ctx context.Context, session, code string, e book.Entry) error
	// Invitation returns the code of an evening, Invited the evening of a code; of kind NotFound where there is none.
	Invitation(ctx context.Context, session string) (string, error)
	Invited(ctx context.Context, code string) (string, error)
	// Join keeps who joined with a device, their name, and writes the entry that says so, all or nothing.
	Join(ctx context.Context, token string, g Guest, p book.Person, e book.Entry) error
	// Guest returns who joined with the device that keeps a token; an error of kind NotFound where nobody did.
	Guest(ctx context.Context, token string) (Guest, error)
	// NotePerson keeps notes of somebody in place of those before, which are gone for good; of kind NotFound where there is no such name.
	NotePerson(ctx context.Context, id string, notes []string) error
	// ErasePerson forgets a name for good.
	ErasePerson(ctx context.Context, id string) error
}

// A Guest is somebody who joined an evening with a device.
type Guest struct{ Session, Person string }

// joinedFor is how long a device stays one that joined: longer than any evening.
const joinedFor = 24 * time.Hour

// keepJoined keeps the token on the device; an empty one is forgotten. It comes with a link from outside, too, as a code on a wall is.
func (v *visit) keepJoined(r *http.Request, token string) {
	c := http.Cookie{
		Name: access.CookieName(r, access.JoinedCookie), Value: token, Path: "/", HttpOnly: true, Secure: access.Secure(r), SameSite: http.SameSiteLaxMode, MaxAge: int(joinedFor.Seconds()),
	}
	if token == "" {
		c.MaxAge = -1
	}
	http.SetCookie(v.w, &c)
}

// newToken is what nobody guesses: 128 bits and more.
func newToken() string { return rand.Text() }

// newCode is short enough to be typed, and one of 2^50: digits and capitals that are not taken for each other (Crockford's
// base 32).
func newCode() string {
	b := make([]byte, 7)
	_, _ = rand.Read(b) // it never fails: see its documentation
	return base32.NewEncoding("0123456789ABCDEFGHJKMNPQRSTVWXYZ").WithPadding(base32.NoPadding).EncodeToString(b)[:10]
}

// author writes entries in the name of whoever holds the device.
func (v *visit) author(r *http.Request) *book.Author {
	return &book.Author{By: v.person(r), Device: v.device(r), Now: v.s.Now(), NewID: v.s.NewID}
}

// person is who holds the device: who joined or signed in with it, else whom it was told; empty where nobody said, and on a
// device of the room.
func (v *visit) person(r *http.Request) string {
	if v.who.Person != "" || !v.keeps() {
		return v.who.Person
	}
	return me(r)
}

// called names a person: of two with one name who joined the same evening, the second carries a number. Whose name is
// unknown or erased is somebody; an empty id has no name.
func (v *visit) called(id string) string {
	if id == "" {
		return ""
	}
	name := v.people[id].Name
	if name == "" {
		return v.say.Label("somebody")
	}
	nth := 1
	for _, j := range v.joined() {
		if j.Person == id {
			break
		}
		if v.people[j.Person].Name == name {
			nth++
		}
	}
	if nth == 1 {
		return name
	}
	return name + " " + strconv.Itoa(nth)
}

// eveningRoutes are the pages of an evening in which several take part.
func (s *server) eveningRoutes() map[string]handler {
	return map[string]handler{
		"GET /wall":                     s.wall,
		"GET /handover":                 s.handover,
		"POST /handover/note":           s.leaveNote,
		"POST /handover/note/{id}/away": s.eraseNote,
		"POST /evening":                 s.openEvening,
		"GET /evening/close":            s.askClose,
		"POST /evening/close":           s.closeEvening,
		"GET /lists/{list}":             s.list,
		"POST /lists/{list}":            s.tick,
		"POST /lists/closing/bath/{id}": s.clearBath,
		"GET /join/{code}":              s.join,
		"POST /join/{code}":             s.joinAs,
		"GET /people":                   s.names,
		"GET /people/{id}":              s.notes,
		"POST /people/{id}":             s.keepNotes,
		"POST /people/{id}/away":        s.eraseName,
	}
}
