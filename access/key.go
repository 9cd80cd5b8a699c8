package access

import (
	"crypto/rand"
	"encoding/base64"
	"time"

	"wetside/book"
)

// Why somebody does not get in, or a keyholder is not made or withdrawn.
var (
	// ErrWrong: the name, the passphrase or the one-time word does not fit; which of them is not told.
	ErrWrong = &book.Error{Kind: book.Refused, Key: "signin_wrong"}
	// ErrCode: the code that shall prove a new second step is not its code.
	ErrCode = &book.Error{Kind: book.Refused, Key: "second_code_wrong"}
	// ErrStolen: a new passphrase stands in the list of what was stolen elsewhere.
	ErrStolen = &book.Error{Kind: book.BadInput, Key: "passphrase_stolen"}
	// ErrKept: the darkroom has its first keyholder by now.
	ErrKept = &book.Error{Kind: book.Conflict, Key: "keyholder_kept"}
	// ErrLast: without its last keyholder the darkroom would ask nobody who they are.
	ErrLast = &book.Error{Kind: book.Conflict, Key: "keyholder_last"}
)

// A LimitedError says that it was tried too often.
type LimitedError struct{ Wait time.Duration } // until it may be tried again

// Error is for logs.
func (e *LimitedError) Error() string { return "tried too often: again in " + e.Wait.String() }

// A KeyholderMade is somebody who keeps the darkroom.
type KeyholderMade struct {
	Person, Name string // an id; a name, empty where it was erased
	Made         time.Time
}

// How long a sign-in lasts: unused, and in all. A keyholder's own phone is used every fortnight; who signs in at a device of
// the room leaves it as a wall or a sink, which ends the sign-in at once.
const (
	SignInIdle = 14 * 24 * time.Hour
	SignInMost = 90 * 24 * time.Hour
)

// The sorts of keys.
const (
	SignIn = "signin" // somebody signed in by their passphrase
	Device = "device" // a wall, a sink, a member's phone: in a cookie
	Script = "script" // in an Authorization header
)

// Token returns what nobody guesses: 256 random bits.
func Token() string {
	b := make([]byte, 32)
	_, _ = rand.Read(b) // it never fails: see its documentation
	return base64.RawURLEncoding.EncodeToString(b)
}

// RoleOf returns the role of a name; false for none that a key can have.
func RoleOf(name string) (Role, bool) {
	for _, r := range []Role{Wall, Sink, Member, Keyholder} {
		if r.String() == name {
			return r, true
		}
	}
	return Stranger, false
}

// A Key is one that was made, as it is shown to whoever keeps the darkroom.
type Key struct {
	ID, Sort string
	Role     Role
	Person   string // whose it is; empty for a device of the room
	Name     string // what the device is called
	MadeBy   string
	Made     time.Time
	Seen     time.Time // zero: never used
	Ends     time.Time // zero: never by itself
}

// A KeyMade is a key that was just made. Its token is not kept and can't be shown again.
type KeyMade struct{ ID, Token string }

// ScriptMost is how long the key of a script lasts where whoever makes it does not say otherwise. A choice of ours: scripts are forgotten.
const ScriptMost = 365 * 24 * time.Hour
