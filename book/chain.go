package book

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
)

// A Hash is a SHA-256 sum. Its text form is 64 lower-case hexadecimal digits.
type Hash [sha256.Size]byte

// String returns the hexadecimal form.
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// MarshalText returns the hexadecimal form.
func (h Hash) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// UnmarshalText reads the hexadecimal form. What is not 64 hexadecimal digits is an error.
func (h *Hash) UnmarshalText(text []byte) error {
	if len(text) != hex.EncodedLen(len(h)) {
		return errors.New("a hash has 64 hexadecimal digits")
	}
	_, err := hex.Decode(h[:], text)
	return err
}

// framing stands before every entry's fields in what is hashed, so that no other kind of record can pass for one.
const framing = "wetside entry, framing 1\n"

// HashOf returns the SHA-256 of an entry over this framing: the line "wetside entry, framing 1\n", then the twelve
// fields in the order of Entry, each as its length in bytes (8 bytes, big-endian) and its bytes. Texts are their UTF-8
// bytes as stored, the body among them; position, version and the two instants (microseconds since 1970 UTC) are 8
// bytes big-endian in two's complement; prev_hash is its 32 bytes. Because each field carries its length, no two
// different entries have the same framing.
func HashOf(e Entry) Hash {
	size := len(framing) + 12*8 + len(e.ID) + len(e.Darkroom) + len(e.Kind) + len(e.By) + len(e.Device) +
		len(e.TakesBack) + len(e.Body) + 4*8 + len(e.PrevHash)
	b := make([]byte, 0, size)
	b = append(b, framing...)
	b = frameText(b, e.ID)
	b = frameInt(b, e.Position)
	b = frameText(b, e.Darkroom)
	b = frameText(b, string(e.Kind))
	b = frameInt(b, int64(e.Version))
	b = frameInt(b, e.HappenedAt.UnixMicro())
	b = frameInt(b, e.RecordedAt.UnixMicro())
	b = frameText(b, e.By)
	b = frameText(b, e.Device)
	b = frameText(b, e.TakesBack)
	b = frameText(b, e.Body)
	b = frameText(b, string(e.PrevHash[:]))
	return sha256.Sum256(b)
}

func frameText(b []byte, s string) []byte {
	return append(binary.BigEndian.AppendUint64(b, uint64(len(s))), s...)
}

func frameInt(b []byte, n int64) []byte {
	return binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(b, 8), uint64(n))
}

// A Head is the end of a darkroom's book: where the next entry goes and what it must name as its predecessor.
type Head struct {
	Darkroom string `json:"darkroom"`
	Position int64  `json:"position"` // of the last entry; 0: none yet
	Hash     Hash   `json:"hash"`     // of the last entry; all zero: none yet
}

// Place returns e as the next entry after h, with darkroom, position and prev_hash set, and the head after it.
func (h Head) Place(e Entry) (Entry, Head) {
	e.Darkroom, e.Position, e.PrevHash = h.Darkroom, h.Position+1, h.Hash
	return e, Head{Darkroom: h.Darkroom, Position: e.Position, Hash: HashOf(e)}
}

// Verify follows entries from h, each against the one before it, and returns the head after the last. The error
// is a *ChainError at the first entry that does not follow.
func (h Head) Verify(entries []Entry) (Head, error) {
	for _, e := range entries {
		switch {
		case e.Darkroom != h.Darkroom:
			return h, &ChainError{Position: h.Position + 1, Why: OtherDarkroom}
		case e.Position != h.Position+1:
			return h, &ChainError{Position: h.Position + 1, Why: GapInChain}
		case e.PrevHash != h.Hash:
			return h, &ChainError{Position: e.Position, Why: HashDiffers}
		}
		h = Head{Darkroom: h.Darkroom, Position: e.Position, Hash: HashOf(e)}
	}
	return h, nil
}

// ChainFault is how a chain is broken.
type ChainFault string

// The ways a chain breaks.
const (
	OtherDarkroom ChainFault = "other_darkroom" // an entry of another darkroom stands in the book
	GapInChain    ChainFault = "gap"            // a position is missing, double or out of order
	HashDiffers   ChainFault = "hash_differs"   // the entry before it is not the one that was there when it was written
	HeadDiffers   ChainFault = "head_differs"   // the last entry is not the one that was written last
)

// A ChainError says where a book was tampered with or damaged.
type ChainError struct {
	Position int64
	Why      ChainFault
}

// Error says it for the log.
func (e *ChainError) Error() string {
	return fmt.Sprintf("chain broken at position %d: %s", e.Position, e.Why)
}

// ErrorKind makes it Damaged.
func (e *ChainError) ErrorKind() ErrorKind { return Damaged }

// ErrorKey returns the key of its sentence.
func (e *ChainError) ErrorKey() string { return "chain_" + string(e.Why) }
