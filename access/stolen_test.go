package access_test

import (
	"bytes"
	"crypto/sha1" //nolint:gosec // as the lists are
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"testing"

	"wetside/access"
)

// A list of n hashes, of the passwords "password 0" on, as they are to be had: with counts or without, ends of lines of either kind.
func listOf(n int, form string) []byte {
	var all []string
	for i := range n {
		sum := sha1.Sum(fmt.Appendf(nil, "password %d", i)) //nolint:gosec // as the lists are
		all = append(all, strings.ToUpper(hex.EncodeToString(sum[:])))
	}
	slices.Sort(all)
	var b bytes.Buffer
	for i, hash := range all {
		b.WriteString(strings.NewReplacer("HASH", hash, "hash", strings.ToLower(hash), "N", fmt.Sprint(i*i)).Replace(form))
	}
	return b.Bytes()
}

// Each of a list is found and nothing else, in each form of it and however long (ASVS 5.0, 6.2.12).
func TestStolenAreFound(t *testing.T) {
	for _, form := range []string{"HASH\n", "hash\n", "HASH:N\r\n", "HASH:N\n"} {
		for _, n := range []int{1, 2, 3, 1000} {
			for _, cut := range []int{0, 1} { // the last line may have no end
				list := bytes.TrimRight(listOf(n, form), map[int]string{0: "", 1: "\r\n"}[cut])
				s, err := access.NewStolen(bytes.NewReader(list), int64(len(list)))
				if err != nil {
					t.Fatalf("%q, %d: %v", form, n, err)
				}
				for i := range n + 50 {
					if has, err := s.Has(fmt.Sprintf("password %d", i)); err != nil || has != (i < n) {
						t.Errorf("%q, %d lines, number %d: %v, %v", form, n, i, has, err)
					}
				}
			}
		}
	}
	// FIPS 180-4, its example "abc".
	abc := []byte("A9993E364706816ABA3E25717850C26C9CD0D89D:7\r\n")
	s, err := access.NewStolen(bytes.NewReader(abc), int64(len(abc)))
	if has, hasErr := s.Has("abc"); err != nil || hasErr != nil || !has {
		t.Errorf("the standard's own: %v, %v, %v", has, err, hasErr)
	}
	var none *access.Stolen
	if has, err := none.Has("abc"); err != nil || has {
		t.Errorf("no list: %v, %v", has, err)
	}
}

// What is no such list is told, with where.
func TestStolenOfAnotherForm(t *testing.T) {
	good := string(listOf(9, "HASH:N\n"))
	lines := strings.SplitAfter(good, "\n")
	for name, c := range map[string]struct{ list, want string }{
		"an empty file":         {"", "at byte"},
		"plain words":           {"password\nletmein\n", "the line at byte 0 is no SHA-1"},
		"another hash":          {strings.Repeat("ab", 32) + "\n", "the line at byte 0 is no SHA-1"},
		"a line without an end": {strings.Repeat("a", 1000), "the line at byte 0 is no SHA-1"},
		"cut off":               {good[:len(good)-30], "is no SHA-1"},
		"upside down":           {lines[8] + lines[4] + lines[0], "in the order"},
		"a title":               {"hashes of passwords\n" + good, "the line at byte 0 is no SHA-1"},
	} {
		if _, err := access.NewStolen(strings.NewReader(c.list), int64(len(c.list))); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
