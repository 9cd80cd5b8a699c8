package upkeep_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"wetside/book"
	"wetside/cli"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/internal/upkeep"
	"wetside/store"
	"wetside/trade/quantity"
	"wetside/words"
)

func parsed(t *testing.T) darkroom.File {
	t.Helper()
	f, err := example.File(evening)
	must(t, err)
	f.Darkroom.Name = "Another name"
	return f
}

// TestAsFarAsWhole changes each entry of an export in turn, and cuts it at each line: what stands before the change is taken,
// nothing of what was changed.
func TestAsFarAsWhole(t *testing.T) {
	text := read(t, "../../store/testdata/backups/schema-1.jsonl")
	lines := bytes.SplitAfter(text, []byte("\n"))
	lines = lines[:len(lines)-1]
	k := upkeep.Keeper{Now: now}
	for _, n := range []int{1, 2, 20, len(lines) - 2, len(lines) - 1} {
		for name, c := range map[string]struct {
			spoil func(lines [][]byte) [][]byte
			want  int64
		}{
			"changed": {func(l [][]byte) [][]byte {
				l[n] = bytes.Replace(l[n], []byte(`"device":"`), []byte(`"device":"x`), 1)
				return l
			}, int64(n) - 1},
			"cut": {func(l [][]byte) [][]byte { return l[:n] }, int64(n) - 1},
			"cut within": {func(l [][]byte) [][]byte {
				return append(l[:n:n], l[n][:len(l[n])/2])
			}, int64(n) - 1},
		} {
			at := cli.Where{Dir: filepath.Join(t.TempDir(), "data")}
			spoiled := bytes.Join(c.spoil(append([][]byte{}, lines...)), nil)
			if _, err := k.TakeOver(t.Context(), at, bytes.NewReader(spoiled), false); book.KindOf(err) != book.BadInput {
				t.Fatalf("%s at %d: taken whole: %v", name, n, err)
			}
			took, err := k.TakeOver(t.Context(), at, bytes.NewReader(spoiled), true)
			if err != nil || took.Written != c.want || took.Stopped == nil {
				t.Errorf("%s at %d: took %+v, %v, want %d entries", name, n, took, err, c.want)
			}
		}
	}
}

// TestNotesStayHere finds no note of a person in an export, with names or without.
func TestNotesStayHere(t *testing.T) {
	k, at := upkeep.Keeper{Now: now}, cli.Where{Dir: filepath.Join(t.TempDir(), "data"), Darkroom: "darkroom"}
	s, err := store.Open(t.Context(), store.Config{Path: filepath.Join(at.Dir, "wetside.db"), Now: now})
	must(t, err)
	must(t, s.Create(t.Context(), at.Darkroom))
	must(t, s.PutPerson(t.Context(), at.Darkroom, book.Person{ID: "p1", Name: "Ines Quillfeather", Notes: []string{"sensitised to metol-marker"}}))
	must(t, s.PutNote(t.Context(), at.Darkroom, "n1", "the drip-marker drips"))
	must(t, s.Write(t.Context(), func(tx *store.Tx) error {
		return errors.Join(tx.PutInvitation(t.Context(), at.Darkroom, "evening-1", "code-marker"),
			tx.PutGuest(t.Context(), at.Darkroom, "token-marker", store.Guest{Session: "evening-1", Person: "p1"}))
	}))
	must(t, s.Close())
	for _, names := range []bool{false, true} {
		var out bytes.Buffer
		_, err := k.WriteOut(t.Context(), at, &out, names)
		must(t, err)
		if strings.Contains(out.String(), "marker") || strings.Contains(out.String(), "Quillfeather") != names {
			t.Errorf("with names %v: %s", names, out.String())
		}
	}
}

// TestEveryTroubleIsSaid looks for every key of trouble in the store and the export's reader: each has its sentence.
func TestEveryTroubleIsSaid(t *testing.T) {
	v, err := words.New("en", quantity.Metric, quantity.OunceUS)
	must(t, err)
	files, err := filepath.Glob("../../store/*.go")
	must(t, err)
	warning := map[string]bool{"store_on_network": true, "store_unsynced": true} // said by whoever opens the store
	n := 0
	want := func(key string) {
		n++
		if !v.Tells("trouble." + key) {
			t.Errorf("trouble.%s has no sentence", key)
		}
	}
	for _, file := range append(files, "../../book/journal/journal.go") {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		must(t, err)
		for _, m := range regexp.MustCompile(`"((store|backup|restore)_[a-z_]+)"`).FindAllStringSubmatch(string(text), -1) {
			if m[1] != "store_cancelled" && m[1] != "store_closed" && !warning[m[1]] {
				want(m[1])
			}
		}
		if strings.HasSuffix(file, "journal.go") {
			for _, m := range regexp.MustCompile(`Why = "(\w+)"`).FindAllStringSubmatch(string(text), -1) {
				want("journal_" + m[1])
			}
		}
	}
	if n < 25 {
		t.Errorf("only %d keys were found", n)
	}
}
