package access

import (
	"crypto/sha256"
	_ "embed" // the set is built in
	"encoding/binary"
	"sort"
)

//go:generate go test -run=TestCommonest$ -update

// commonest is the set of the passwords of 15 characters or more that two free lists of commonest ones have (docs/sources.md:
// password-lists): of each, bared, the first 4 bytes of its SHA-256, big-endian, in order. Somebody's own that is in no list is refused
// by mistake three times in a million.
//
//go:embed commonest.bin
var commonest string

const hashOfListed = 4 // bytes

// listed reports whether what bared made of a passphrase is in the set.
func listed(bare string) bool {
	sum := sha256.Sum256([]byte(bare))
	want := binary.BigEndian.Uint32(sum[:hashOfListed])
	at := func(i int) uint32 {
		return binary.BigEndian.Uint32([]byte(commonest[i*hashOfListed : (i+1)*hashOfListed]))
	}
	n := len(commonest) / hashOfListed
	i := sort.Search(n, func(i int) bool { return at(i) >= want })
	return i < n && at(i) == want
}
