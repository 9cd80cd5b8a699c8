package quantity_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"wetside/trade/quantity"
)

// seeds are what the fuzzers start from: good and bad texts of every reader.
func seeds() []string {
	return []string{
		"", " ", "0", "10", "½", "4½", "1/2", "1 1/2", "1-1/2", "0,5", ".5", "1,000", "1 000", "-1", "1/0", "9223372036854775807",
		"100 mL", "1/2 fl oz", "1 US qt", "32 imp. fl. oz.", "1 gal", "5 oz av", "1e3 mL", "1_000 mL", "0x10 mL", "10 litter",
		"900 mL to 1 L", "900-1000 mL", "900–1000 mL", "1.4 to 1.6 L", "32 to 36 fl oz",
		"52.5 g", "1 kg", "10 gr", "1 lb", "1.10 g/mL", "1.1 kg/L", "60 C", "60 °C", "140 F", "-5 °C", "20°",
		"8x10 in", `8×10"`, "24x30 cm", "38 x 30 cm", "15 mm", "1 m2", "80 sq in",
		"90 s", "1 min 30 s", "1:30", "1:30:00", "9 min 45 s", "24 months", "4 weeks", "1½ years", "24 h",
		"2 %", "±15 %", "1 to 2 %", "NaN", "Inf mL", "1\xff", "\u00a07\u2009mL",
		strings.Repeat("9", 60), strings.Repeat("1 ", 120),
	}
}

func TestFuzzersHaveSeeds(t *testing.T) {
	if n := len(seeds()); n < 50 {
		t.Errorf("%d seeds", n)
	}
}

// fixed holds a reader to its contract: an error means the zero value and tells a place in a short text; success
// writes a text that reads back to the same.
func fixed[T comparable](t *testing.T, text string, read func(string) (T, error), write func(T) string) {
	t.Helper()
	v, err := read(text)
	if err != nil {
		var zero T
		if v != zero {
			t.Fatalf("%q: %v beside the error %v", text, v, err)
		}
		re, ok := err.(*quantity.ReadError) //nolint:errorlint // the contract is the type itself.
		if !ok || re.Why == "" || re.Want == "" || re.At < 0 || re.At > len(re.Text) || len([]rune(re.Text)) > 80 {
			t.Fatalf("%q: not a whole error: %#v", text, err)
		}
		return
	}
	if len(text) > quantity.MaxText {
		t.Fatalf("%d bytes were read", len(text))
	}
	written := write(v)
	again, err := read(written)
	if err != nil || again != v {
		t.Fatalf("%q is %v, written %q, read back as %v, %v", text, v, written, again, err)
	}
	if twice := write(again); twice != written {
		t.Fatalf("%q is written %q, then %q", text, written, twice)
	}
}

func seed(f *testing.F) {
	f.Helper()
	for _, s := range seeds() {
		f.Add(s)
	}
}

func FuzzReadRatio(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		fixed(t, text, quantity.ReadRatio, quantity.Ratio.String)
	})
}

func FuzzReadVolume(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		for _, o := range []quantity.Ounce{quantity.NoOunce, quantity.OunceUS, quantity.OunceImperial} {
			fixed(t, text, func(s string) (quantity.Volume, error) { return quantity.ReadVolume(s, o) }, quantity.Volume.String)
			fixed(t, text, func(s string) (quantity.VolumeUnit, error) { return quantity.ReadVolumeUnit(s, o) },
				quantity.VolumeUnit.String)
		}
		if v, err := quantity.ReadVolume(text, quantity.OunceUS); err == nil && (v < 0 || v > quantity.MaxVolume) {
			t.Fatalf("%q is %d", text, v)
		}
	})
}

func FuzzReadWindow(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		read := func(s string) (quantity.Window, error) { return quantity.ReadWindow(s, quantity.OunceImperial) }
		fixed(t, text, read, quantity.Window.String)
		w, err := read(text)
		if err == nil && (w.Min <= 0 || w.Want < w.Min || w.Max < w.Want || w.Max > quantity.MaxVolume) {
			t.Fatalf("%q is %v", text, w)
		}
	})
}

func FuzzReadMassDensity(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		fixed(t, text, quantity.ReadMass, quantity.Mass.String)
		fixed(t, text, quantity.ReadDensity, quantity.Density.String)
	})
}

func FuzzReadCelsius(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		fixed(t, text, quantity.ReadCelsius, quantity.Celsius.String)
		fixed(t, text, quantity.ReadCelsiusDifference, quantity.Celsius.String)
	})
}

func FuzzReadLengthAreaSize(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		fixed(t, text, quantity.ReadLength, quantity.Length.String)
		fixed(t, text, quantity.ReadArea, quantity.Area.String)
		fixed(t, text, func(s string) ([2]quantity.Length, error) {
			w, h, err := quantity.ReadSize(s)
			return [2]quantity.Length{w, h}, err
		}, func(l [2]quantity.Length) string { return quantity.Size(l[0], l[1]) })
	})
}

func FuzzReadDurationPeriod(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		fixed(t, text, quantity.ReadDuration, quantity.Duration)
		fixed(t, text, quantity.ReadPeriod, quantity.Period.String)
		if p, err := quantity.ReadPeriod(text); err == nil && !p.From(time.Unix(0, 0)).After(time.Unix(0, 0)) {
			t.Fatalf("%q does not pass", text)
		}
	})
}

func FuzzReadShare(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		fixed(t, text, quantity.ReadShare, quantity.Share)
		fixed(t, text, func(s string) ([2]float64, error) {
			from, to, err := quantity.ReadShares(s)
			return [2]float64{from, to}, err
		}, func(ends [2]float64) string {
			return fmt.Sprintf("%s to %s", quantity.Share(ends[0]), quantity.Share(ends[1]))
		})
	})
}
