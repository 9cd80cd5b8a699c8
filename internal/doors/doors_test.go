package doors_test

import (
	"encoding/base32"
	"errors"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/internal/doors"
	"wetside/store"
)

const grey = "seven grey gloves on a line"

// hung are the doors of a new darkroom, with a clock that is moved by hand.
func hung(t *testing.T, c doors.Config) (d *doors.Doors, now *time.Time) {
	t.Helper()
	at := time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC)
	c.Now, c.Room, c.NewID = func() time.Time { return at }, "room", uuid.NewString
	s, err := store.Open(t.Context(), store.Config{Path: filepath.Join(t.TempDir(), "book.db"), Now: c.Now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	if err := s.Create(t.Context(), c.Room); err != nil {
		t.Fatal(err)
	}
	c.Store = s
	return doors.New(c), &at
}

// codeOf is what an app shows that has a secret.
func codeOf(t *testing.T, secret string, at time.Time) string {
	t.Helper()
	b, err := base32.StdEncoding.DecodeString(secret)
	if err != nil {
		t.Fatal(err)
	}
	return access.CodeAt(b, access.CodeStep(at), 6)
}

func showing(t *testing.T, token string) *http.Request {
	t.Helper()
	r := httptest.NewRequestWithContext(t.Context(), http.MethodGet, "/", nil)
	r.Host, r.RemoteAddr = "localhost", "127.0.0.1:1"
	r.Header.Set("Authorization", "Bearer "+token)
	return r
}

// When a key was last seen is kept to ten minutes: a page is not worth a write each.
func TestSeenToTenMinutes(t *testing.T) {
	d, now := hung(t, doors.Config{})
	begun := *now
	if _, err := d.MakeFirst(t.Context(), "", "Ilka", grey, ""); err != nil {
		t.Fatal(err)
	}
	made, err := d.MakeKey(t.Context(), access.Who{Role: access.Keyholder}, access.Sink, "by the sink", 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ after, seen time.Duration }{{9 * time.Minute, 0}, {11 * time.Minute, 11 * time.Minute}, {20 * time.Minute, 11 * time.Minute}, {21 * time.Minute, 21 * time.Minute}} {
		*now = begun.Add(c.after)
		if who, err := d.Who(showing(t, made.Token)); err != nil || who.Role != access.Sink {
			t.Fatalf("after %v: %v, %v", c.after, who.Role, err)
		}
		all, err := d.Keys(t.Context())
		if err != nil || len(all) != 2 || !all[0].Seen.Equal(begun.Add(c.seen)) {
			t.Errorf("after %v: %+v, %v; want seen after %v", c.after, all, err, c.seen)
		}
	}
}

// The word of the first start is good once: it dies with its use, and where somebody was quicker it makes nobody.
func TestWordDiesWithUse(t *testing.T) {
	d, _ := hung(t, doors.Config{Outside: true, Word: "THEWORDOFTHEFIRSTSTART"})
	if _, err := d.Who(showing(t, "x")); !errors.Is(err, access.ErrNoKeyholder) {
		t.Errorf("before: %v", err)
	}
	for _, c := range []struct {
		word string
		want error
	}{{"", access.ErrWrong}, {"THEWORDOFTHEFIRSTSTAR", access.ErrWrong}, {"thew0rd-oftheF1RST start", nil}, {"THEWORDOFTHEFIRSTSTART", access.ErrWrong}} {
		if _, err := d.MakeFirst(t.Context(), c.word, "Ilka", grey, "192.0.2.7"); !errors.Is(err, c.want) {
			t.Errorf("by %q: %v, want %v", c.word, err, c.want)
		}
	}
	none, _ := hung(t, doors.Config{Outside: true})
	if _, err := none.MakeFirst(t.Context(), "", "Ilka", grey, ""); !errors.Is(err, access.ErrWrong) {
		t.Errorf("a server that gave no word takes an empty one: %v", err)
	}
}

// A new passphrase from the machine itself ends all that somebody is signed in with, and their second step; a name that nobody has is told as such there.
func TestNewPassphraseFromTheMachine(t *testing.T) {
	d, now := hung(t, doors.Config{})
	token, err := d.MakeFirst(t.Context(), "", "Ilka", grey, "")
	if err != nil {
		t.Fatal(err)
	}
	r := showing(t, "")
	r.Header.Del("Authorization")
	r.AddCookie(&http.Cookie{Name: "key", Value: token})
	if who, err := d.Who(r); err != nil || !who.Keeps() {
		t.Fatalf("%v, %v", who, err)
	}
	who, err := d.Who(r)
	if err != nil {
		t.Fatal(err)
	}
	secret := access.NewSecret()
	if _, err := d.MakeSecond(t.Context(), who, grey, secret, codeOf(t, secret, *now), ""); err != nil {
		t.Fatal(err)
	}
	if _, err := d.SignIn(t.Context(), "ilka", grey, "", "", ""); !errors.Is(err, access.ErrWrong) {
		t.Fatalf("without the code: %v", err)
	}
	if err := d.NewPassphrase(t.Context(), " ILKA", "a tap drips on the third tray"); err != nil {
		t.Fatal(err)
	}
	if who, err := d.Who(r); err != nil || who.Role != access.Stranger {
		t.Errorf("still %v, %v", who.Role, err)
	}
	if _, err := d.SignIn(t.Context(), "ilka", grey, "", "", ""); !errors.Is(err, access.ErrWrong) {
		t.Errorf("by the old one: %v", err)
	}
	if _, err := d.SignIn(t.Context(), "ilka", "a tap drips on the third tray", "", "", ""); err != nil {
		t.Errorf("by the new one: %v", err)
	}
	if err := d.NewPassphrase(t.Context(), "Mo", grey); err == nil {
		t.Error("nobody got a new passphrase")
	}
}
