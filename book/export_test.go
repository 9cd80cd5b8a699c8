package book

import (
	"encoding/binary"
	"hash/crc32"
	"slices"
	"time"
)

// RestKeeping is Rest that keeps little awake, so that books of a few entries go to rest.
func RestKeeping(s *State, before time.Time, recent int64, latest int) int {
	return s.rest(before, keeping{recent, latest, latest, latest, latest, latest})
}

// Summed is a snapshot with the sum that its bytes have.
func Summed(snapshot []byte) []byte {
	if len(snapshot) < 4 {
		return snapshot
	}
	n := len(snapshot) - 4
	return binary.BigEndian.AppendUint32(slices.Clone(snapshot[:n]), crc32.Checksum(snapshot[:n], castagnoli))
}
