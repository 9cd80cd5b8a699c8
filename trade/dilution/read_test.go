package dilution_test

import (
	"errors"
	"strings"
	"testing"

	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

func TestReadNotations(t *testing.T) {
	n := 0
	for kind, list := range notations {
		for _, c := range list {
			n++
			got, err := dilution.Read(c.words, dilution.Options{})
			if err != nil {
				t.Errorf("%s: %q: %v", kind, c.words, err)
				continue
			}
			if got.String() != c.parts || got.Note != c.note {
				t.Errorf("%s: %q: got %s, note %q, want %s, note %q",
					kind, c.words, got, got.Note.Key(), c.parts, c.note.Key())
			}
		}
	}
	if n < 150 {
		t.Errorf("%d notations", n)
	}
	t.Logf("%d notations", n)
}

func TestReadRefuses(t *testing.T) {
	n := 0
	for kind, list := range refusals {
		for _, c := range list {
			n++
			got, err := dilution.Read(c.words, dilution.Options{})
			if len(got.Chemicals) != 0 || got.Water.Sign() != 0 {
				t.Errorf("%s: %q: got %v beside an error", kind, c.words, got)
			}
			why, text, at := explain(t, err)
			if why != c.why || at > len(text) || text[at:] != c.rest {
				t.Errorf("%s: %q: got %s at %d, want %s at %q", kind, c.words, why, at, c.why, c.rest)
			}
		}
	}
	t.Logf("%d refusals", n)
}

// explain returns the parts of an error of Read.
func explain(t *testing.T, err error) (why, text string, at int) {
	t.Helper()
	if e, ok := errors.AsType[*dilution.Error](err); ok {
		return string(e.Reason), e.Text, e.At
	}
	e, ok := errors.AsType[*quantity.ReadError](err)
	if !ok {
		t.Fatalf("got %v (%T)", err, err)
	}
	if e.Want != "dilution" {
		t.Errorf("%v: %q is wanted", err, e.Want)
	}
	return string(e.Why), e.Text, e.At
}

// With an ounce set, by which the parts differ.
func TestReadOunces(t *testing.T) {
	for _, c := range []struct {
		words   string
		us, imp string
	}{
		{"1/2 fl oz per quart", "1+63", "1+79"},
		{"1/2 oz to 1 quart of water", "1+64", "1+80"},
		{"1 oz per gallon", "1+127", "1+159"},
		{"one ounce per pint", "1+15", "1+19"},
		{"2 fluid ounces per gallon", "1+63", "1+79"},
		{"1 US oz per US gal", "1+127", "1+127"},
		{"1 oz made up to 32 oz", "1+31", "1+31"},
	} {
		for o, want := range map[quantity.Ounce]string{quantity.OunceUS: c.us, quantity.OunceImperial: c.imp} {
			got, err := dilution.Read(c.words, dilution.Options{Ounce: o})
			if err != nil || got.String() != want {
				t.Errorf("%q, ounce %d: got %v, %v, want %s", c.words, o, got, err, want)
			}
		}
	}
}

func TestReadErrorIsShort(t *testing.T) {
	_, err := dilution.Read("1+9 "+strings.Repeat("é", 90), dilution.Options{})
	if e, ok := errors.AsType[*dilution.Error](err); !ok || len([]rune(e.Text)) != 80 || e.At != 4 {
		t.Errorf("got %v", err)
	}
	_, err = dilution.Read(strings.Repeat("1", 300), dilution.Options{})
	if why, _, _ := explain(t, err); why != "too_long" {
		t.Errorf("300 bytes: %v", err)
	}
	if got, want := (&dilution.Error{Text: "1+", At: 1, Reason: dilution.Dangling}).Error(), "dilution 1+: dangling"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
