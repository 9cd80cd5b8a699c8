package doors

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"net/http"
	"strings"
	"sync"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/store"
)

var _ access.Keys = (*Doors)(nil)

// Config says which darkroom's doors they are.
type Config struct {
	Store *store.Store
	Room  string // id of the darkroom
	Now   func() time.Time
	NewID func() string
	// Names are hosts beside the loopback ones by which a darkroom without a keyholder may be asked.
	Names []string
	// Outside says that other machines reach the server: without a keyholder it serves nothing but making the first.
	Outside bool
	// Stolen are passwords that were stolen elsewhere, none of which is a new passphrase; nil: nobody knows.
	Stolen *access.Stolen
	// Word is what makes the first keyholder from outside; empty: nobody does.
	Word string
}

// Doors are the ways into one darkroom. They are safe for use by several goroutines.
type Doors struct {
	Config
	hasher *access.Hasher
	limits limits

	mu   sync.Mutex
	word [sha256.Size]byte
	open bool // the word is still good
}

// New returns the doors of a darkroom.
func New(c Config) *Doors {
	d := &Doors{Config: c, hasher: access.NewHasher(), limits: newLimits(c.Now), word: plainWord(c.Word), open: c.Word != ""}
	d.Word = ""
	return d
}

// seenEvery is how exactly it is kept when a key was last used: a page is not worth a write to a card.
const seenEvery = 10 * time.Minute

// Who finds who asks. See access.Keys.
func (d *Doors) Who(r *http.Request) (access.Who, error) {
	shown := access.Show(r)
	var seen bool
	var key store.Key
	var guest store.Guest
	var kept, joined bool
	err := d.Store.Read(r.Context(), func(tx *store.Tx) (err error) {
		if kept, err = tx.Kept(r.Context(), d.Room); err != nil {
			return err
		}
		if shown.Token != "" {
			key, err = tx.Key(r.Context(), d.Room, shown.Token)
			if seen = err == nil; err != nil && book.KindOf(err) != book.NotFound {
				return err
			}
		}
		if shown.Joined != "" && !shown.Bearer {
			guest, err = tx.Guest(r.Context(), d.Room, shown.Joined)
			if joined = err == nil; err != nil && book.KindOf(err) != book.NotFound {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return access.Who{}, err
	}
	if !kept {
		if err := d.reached(r); err != nil {
			return access.Who{}, err
		}
	}
	if who, ok := d.holds(r.Context(), &key, seen, shown.Bearer); ok {
		if joined && who.Role == access.Member {
			who.Session = guest.Session
		}
		return who, nil
	}
	switch {
	case joined:
		return access.Who{Role: access.Joined, Person: guest.Person, Session: guest.Session}, nil
	case kept, shown.Bearer:
		return access.Who{}, nil
	}
	return access.Who{Role: access.Keyholder}, nil
}

// reached says why a darkroom without a keyholder is not served; nil where it is.
func (d *Doors) reached(r *http.Request) error {
	if d.Outside {
		return access.ErrNoKeyholder
	}
	if !access.AtHome(r, d.Names) {
		return access.ErrHomeOnly
	}
	return nil
}

// holds returns who shows a key, and notes that it was seen. A sign-in comes in a cookie alone, a script's key in a header
// alone; a device's in either.
func (d *Doors) holds(ctx context.Context, k *store.Key, found, bearer bool) (access.Who, bool) {
	now := d.Now()
	role, known := access.RoleOf(k.Role)
	if !found || !known || k.Over(now) || bearer && k.Sort == access.SignIn || !bearer && k.Sort == access.Script {
		return access.Who{}, false
	}
	if now.Sub(k.Seen) >= seenEvery {
		_ = d.Store.Write(ctx, func(tx *store.Tx) error { return tx.SeeKey(ctx, d.Room, k.ID, now) }) // on a full disk the key still holds
	}
	return access.Who{Role: role, Person: k.Person, Key: k.ID}, true
}

// Kept reports whether the darkroom has a keyholder.
func (d *Doors) Kept(ctx context.Context) (kept bool, err error) {
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		kept, err = tx.Kept(ctx, d.Room)
		return err
	})
	return kept, err
}

// plainWord is the hash of a word as it is typed off a screen: in any case, with or without its hyphens and spaces.
func plainWord(typed string) [sha256.Size]byte {
	plain := strings.NewReplacer("-", "", " ", "", "0", "O", "1", "I", "8", "B").Replace(strings.ToUpper(typed))
	return sha256.Sum256([]byte(plain))
}

// fits compares what was typed with the one-time word, in the same time whatever was typed.
func (d *Doors) fits(word string) bool {
	sum := plainWord(word)
	d.mu.Lock()
	defer d.mu.Unlock()
	return subtle.ConstantTimeCompare(sum[:], d.word[:]) == 1 && d.open
}

// spend ends the one-time word.
func (d *Doors) spend() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.open = false
}
