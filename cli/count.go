package cli

import (
	"regexp"
	"strconv"
	"strings"

	"wetside/book"
)

// A count is a whole number, which may be below zero: then it is answered in words, not as a wrong flag.
type count int

// UnmarshalText reads a whole number.
func (c *count) UnmarshalText(text []byte) error {
	n, err := strconv.Atoi(strings.TrimSpace(string(text)))
	*c = count(n)
	return err
}

// belowOne is what is wrong with a count of nothing or less.
func belowOne(n int) error {
	e := &book.FieldError{Field: "sheets", Found: strconv.Itoa(n), Why: book.FieldBelowZero}
	if n == 0 {
		e.Why = book.FieldNothing
	}
	return e
}

// negatives sets a space before every argument that begins with a minus and a number, which no flag does, so that it is
// read as a value: "-3 8x10 RC".
func negatives(args []string) []string {
	number := regexp.MustCompile(`^-\.?[0-9]`)
	out := make([]string, 0, len(args))
	for _, a := range args {
		if number.MatchString(a) {
			a = " " + a
		}
		out = append(out, a)
	}
	return out
}
