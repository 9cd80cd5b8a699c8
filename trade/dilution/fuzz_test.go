package dilution_test

import (
	"encoding/json"
	"testing"

	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

func seeds() []string {
	all := []string{"1/2 fl oz per quart", "1 oz to 31 oz", "1 US fl oz per litre", "⅐+⅑+1", "1/999+1/1000"}
	for _, list := range notations {
		for _, c := range list {
			all = append(all, c.words)
		}
	}
	for _, list := range refusals {
		for _, c := range list {
			all = append(all, c.words)
		}
	}
	return all
}

func TestFuzzerHasSeeds(t *testing.T) {
	if n := len(seeds()); n < 250 {
		t.Errorf("%d seeds", n)
	}
}

// Whatever the words: no panic; an error means nothing is returned; what is read is a dilution, and written it
// reads back to the same.
func FuzzRead(f *testing.F) {
	for _, s := range seeds() {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, words string) {
		for _, o := range []quantity.Ounce{quantity.NoOunce, quantity.OunceUS, quantity.OunceImperial} {
			d, err := dilution.Read(words, dilution.Options{Ounce: o})
			if err != nil {
				if d.Chemicals != nil || d.Water.Sign() != 0 || d.FromStock || d.Note != dilution.NoNote || d.Other.Sign() != 0 {
					t.Fatalf("%q: %v beside %v", words, d, err)
				}
				if why, text, at := explain(t, err); why == "" || at < 0 || at > len(text) || len([]rune(text)) > 80 {
					t.Fatalf("%q: not a whole error: %v at %d", words, err, at)
				}
				continue
			}
			if len(words) > quantity.MaxText {
				t.Fatalf("%d bytes were read", len(words))
			}
			whole(t, words, d)
		}
	})
}

// whole checks what Read promises of a dilution.
func whole(t *testing.T, words string, d dilution.Dilution) {
	t.Helper()
	if n := len(d.Chemicals); n < 1 || n > 2 || d.Water.Sign() < 0 || d.Water.Sign() == 0 && n > 1 {
		t.Fatalf("%q: %d chemicals, %v of water", words, n, d.Water)
	}
	for i, c := range d.Chemicals {
		s, err := d.Strength(i)
		if err != nil || c.Sign() <= 0 || s.Sign() <= 0 || s.Cmp(quantity.Int(1)) > 0 {
			t.Fatalf("%q: chemical %d is %v of the whole, %v", words, i, s, err)
		}
	}
	if (d.Note == dilution.ColonRead) != (d.Other.Sign() > 0) || (d.Note == dilution.ColonRead) != (d.Stronger().Sign() > 0) {
		t.Fatalf("%q: note %q, other %v, stronger by %v", words, d.Note.Key(), d.Other, d.Stronger())
	}
	again, err := dilution.Read(d.String(), dilution.Options{})
	if err != nil || !again.Same(d) || again.FromStock != d.FromStock || again.String() != d.String() {
		t.Fatalf("%q is written %q and read back as %v, %v", words, d.String(), again, err)
	}
	if _, err := json.Marshal(d); err != nil {
		t.Fatalf("%q: %v", words, err)
	}
}
