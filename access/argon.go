package access

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"

	"golang.org/x/crypto/argon2"
)

// How dear a hash is: OWASP Password Storage Cheat Sheet, argon2id with 19 MiB of memory, two passes, one lane.
const (
	argonKiB, argonPasses, argonLanes = 19 * 1024, 2, 1
	argonSalt, argonSum               = 16, 32 // bytes
	mostWaiting                       = 16     // for their turn
)

// ErrBusy says that too many wait to be hashed.
var ErrBusy = errors.New("access: too many passphrases at once")

// A Hasher hashes passphrases one at a time: each takes 19 MiB, and a small board has few of those. The zero value is of
// no use.
type Hasher struct {
	turn, waiting chan struct{}
	decoy         string // what an unknown name is compared with
}

// NewHasher returns a hasher.
func NewHasher() *Hasher {
	h := &Hasher{turn: make(chan struct{}, 1), waiting: make(chan struct{}, mostWaiting)}
	h.decoy = written(rand.Text()[:argonSalt], strings.Repeat("\x00", argonSum))
	return h
}

// Hash returns the hash of a passphrase with its salt and what it was made with, in the form of the reference program
// (PHC string format). The error is ErrBusy or the context's.
func (h *Hasher) Hash(ctx context.Context, phrase string) (string, error) {
	salt := make([]byte, argonSalt)
	_, _ = rand.Read(salt) // it never fails: see its documentation
	sum, err := h.sum(ctx, phrase, salt, argonPasses, argonKiB, argonLanes, argonSum)
	if err != nil {
		return "", err
	}
	return written(string(salt), string(sum)), nil
}

// Fits reports whether a passphrase is the one of a hash. With an empty hash, of a name that nobody has, it takes as long
// and does not fit.
func (h *Hasher) Fits(ctx context.Context, phrase, hash string) (bool, error) {
	known := hash != ""
	if !known {
		hash = h.decoy
	}
	var version, kib, passes uint32
	var lanes uint8
	fields := strings.Split(hash, "$")
	if len(fields) != 6 || fields[1] != "argon2id" {
		return false, errHash
	}
	if _, err := fmt.Sscanf(fields[2]+" "+fields[3], "v=%d m=%d,t=%d,p=%d", &version, &kib, &passes, &lanes); err != nil || version != argon2.Version || passes < 1 || lanes < 1 {
		return false, errHash
	}
	salt, err := base64.RawStdEncoding.DecodeString(fields[4])
	if err != nil {
		return false, errHash
	}
	want, err := base64.RawStdEncoding.DecodeString(fields[5])
	if err != nil || len(want) < 16 {
		return false, errHash
	}
	got, err := h.sum(ctx, phrase, salt, passes, kib, lanes, uint32(len(want))) //nolint:gosec // a hash is short
	if err != nil {
		return false, err
	}
	return subtle.ConstantTimeCompare(got, want) == 1 && known, nil
}

var errHash = errors.New("access: a hash that can't be read")

func (h *Hasher) sum(ctx context.Context, phrase string, salt []byte, passes, kib uint32, lanes uint8, size uint32) ([]byte, error) {
	select {
	case h.waiting <- struct{}{}:
		defer func() { <-h.waiting }()
	default:
		return nil, ErrBusy
	}
	select {
	case h.turn <- struct{}{}:
		defer func() { <-h.turn }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	return argon2.IDKey([]byte(phrase), salt, passes, kib, lanes, size), nil
}

func written(salt, sum string) string {
	b := base64.RawStdEncoding
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, argonKiB, argonPasses, argonLanes,
		b.EncodeToString([]byte(salt)), b.EncodeToString([]byte(sum)))
}
