package access_test

import (
	"context"
	"errors"
	"strings"
	"sync"
	"testing"

	"wetside/access"
)

// The reference program's own test of argon2id (phc-winner-argon2, src/test.c: t = 2, m = 2^16, p = 1, "password", "somesalt").
const reference = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"

func TestArgonIsTheReferences(t *testing.T) {
	h := access.NewHasher()
	for phrase, want := range map[string]bool{"password": true, "passwore": false, "": false} {
		if got, err := h.Fits(t.Context(), phrase, reference); got != want || err != nil {
			t.Errorf("%q: %v, %v", phrase, got, err)
		}
	}
}

// A hash says what it was made with: OWASP Password Storage Cheat Sheet, argon2id with m = 19456 (19 MiB), t = 2, p = 1. Its
// salt is new each time.
func TestArgonAsDearAsOWASPSays(t *testing.T) {
	h := access.NewHasher()
	one, err := h.Hash(t.Context(), "seven grey gloves on a line")
	if err != nil {
		t.Fatal(err)
	}
	two, _ := h.Hash(t.Context(), "seven grey gloves on a line")
	if !strings.HasPrefix(one, "$argon2id$v=19$m=19456,t=2,p=1$") || one == two {
		t.Errorf("%s, %s", one, two)
	}
	if fits, err := h.Fits(t.Context(), "seven grey gloves on a line", one); !fits || err != nil {
		t.Errorf("%v, %v", fits, err)
	}
}

// What is no hash of ours fits nothing, and the name that nobody has fits nothing.
func TestArgonBadHashes(t *testing.T) {
	h := access.NewHasher()
	for _, bad := range []string{"x", "$argon2id$v=19$m=1,t=0,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y", "$argon2i$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFh", strings.TrimSuffix(reference, "CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc")} {
		if fits, err := h.Fits(t.Context(), "password", bad); fits || err == nil {
			t.Errorf("%q: %v, %v", bad, fits, err)
		}
	}
	for _, phrase := range []string{"", "password", "\x00"} {
		if fits, err := h.Fits(t.Context(), phrase, ""); fits || err != nil {
			t.Errorf("nobody: %v, %v", fits, err)
		}
	}
}

// One at a time, few in the line, and whoever goes away leaves it.
func TestArgonOneAtATime(t *testing.T) {
	h := access.NewHasher()
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	var busy, done, left int
	var mu sync.Mutex
	var all sync.WaitGroup
	for i := range 60 {
		all.Go(func() {
			ctx := t.Context()
			if i%10 == 0 {
				ctx = gone
			}
			_, err := h.Hash(ctx, "seven grey gloves on a line")
			mu.Lock()
			defer mu.Unlock()
			switch {
			case errors.Is(err, access.ErrBusy):
				busy++
			case errors.Is(err, context.Canceled):
				left++
			case err == nil:
				done++
			}
		})
	}
	all.Wait()
	if busy == 0 || done == 0 || busy+done+left != 60 {
		t.Errorf("%d turned away, %d hashed, %d left", busy, done, left)
	}
}
