package access

import (
	"bytes"
	"crypto/sha1" //nolint:gosec // the lists that are to be had are of it; it names what to look up, and protects nothing
	"encoding/hex"
	"fmt"
	"io"
	"strings"
)

// A Stolen is a file of the hashes of passwords that were stolen elsewhere, as such lists are to be had: text, a line for each, with the 40
// figures of its SHA-1 first and whatever else after a colon, in the order of the hashes. It is looked through where it lies and takes no memory. A
// nil Stolen has none. It is safe for use by several goroutines where its file is.
type Stolen struct {
	file io.ReaderAt
	size int64
}

const (
	hashSigns  = 2 * sha1.Size
	mostLine   = 128 // bytes of a line, with its end
	mostLooked = 2 * mostLine
)

// NewStolen returns the list in a file of so many bytes. The error says that its first lines, or its last, are no such list.
func NewStolen(file io.ReaderAt, size int64) (*Stolen, error) {
	s := &Stolen{file, size}
	last := ""
	for _, at := range []int64{0, size / 2, size - 1} {
		hash, _, _, err := s.line(at)
		if err != nil {
			return nil, err
		}
		if hash < last {
			return nil, fmt.Errorf("the line at byte %d comes before one above it: the list must be in the order of its hashes", at)
		}
		last = hash
	}
	return s, nil
}

// line returns the hash of the line in which a byte lies, where the line begins, and where the next one does.
func (s *Stolen) line(at int64) (hash string, begins, next int64, err error) {
	from := max(0, at-mostLine)
	b := make([]byte, mostLooked)
	n, err := s.file.ReadAt(b, from)
	if b = b[:n]; n == 0 || err != nil && err != io.EOF {
		return "", 0, 0, fmt.Errorf("the list of stolen passwords at byte %d: %w", at, err)
	}
	begins = from + int64(bytes.LastIndexByte(b[:at-from], '\n')) + 1
	line := b[begins-from:]
	next = from + int64(n)
	if end := bytes.IndexByte(line, '\n'); end >= 0 {
		next, line = begins+int64(end)+1, line[:end]
	} else if next < s.size {
		line = nil // too long
	}
	figures, _, _ := strings.Cut(strings.TrimRight(string(line), "\r"), ":")
	if raw, err := hex.DecodeString(figures); err != nil || len(raw) != sha1.Size {
		return "", 0, 0, fmt.Errorf("the list of stolen passwords: the line at byte %d is no SHA-1 of %d figures", begins, hashSigns)
	}
	return strings.ToUpper(figures), begins, next, nil
}

// Has reports whether a password is in the list. The error is of the file.
func (s *Stolen) Has(password string) (bool, error) {
	if s == nil {
		return false, nil
	}
	sum := sha1.Sum([]byte(password)) //nolint:gosec // see above
	want := strings.ToUpper(hex.EncodeToString(sum[:]))
	for from, to := int64(0), s.size; from < to; {
		hash, begins, next, err := s.line(from + (to-from)/2)
		switch {
		case err != nil:
			return false, err
		case hash == want:
			return true, nil
		case hash < want:
			from = next
		default:
			to = begins
		}
	}
	return false, nil
}
