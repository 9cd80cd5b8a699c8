package book_test

import (
	"os"
	"regexp"
	"slices"
	"testing"

	"wetside/book"
)

// All kinds of the source are in the list, once.
func TestKinds(t *testing.T) {
	source, err := os.ReadFile("kind.go")
	if err != nil {
		t.Fatal(err)
	}
	var want []book.Kind
	for _, m := range regexp.MustCompile(`(?m)^\t[A-Za-z]+ +Kind += "([a-z_.]+)"`).FindAllStringSubmatch(string(source), -1) {
		want = append(want, book.Kind(m[1]))
	}
	if got := book.Kinds(); !slices.Equal(got, want) || len(want) < 40 {
		t.Errorf("%q, want %q", got, want)
	}
}
