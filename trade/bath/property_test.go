package bath_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/bath"
	"wetside/trade/material"
)

// aPast draws a chain of baths in any order that somebody might set up, and what went through it.
func aPast(t *rapid.T) bath.Past {
	p := bath.Past{Prior: bath.DefaultPrior()}
	litres := rapid.Float64Range(0.3, 8)
	p.Baths = []bath.Bath{bath.NewDeveloper(litres.Draw(t, "developer"))}
	for range rapid.IntRange(1, 5).Draw(t, "more baths") {
		l := litres.Draw(t, "litres")
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			p.Baths = append(p.Baths, bath.NewWater(l))
		case 1:
			p.Baths = append(p.Baths, bath.NewStop(l, nil))
		default:
			p.Baths = append(p.Baths, bath.NewFixer(l, rapid.Float64Range(60, 200).Draw(t, "thiosulfate")))
		}
	}
	for range rapid.IntRange(1, 6).Draw(t, "steps") {
		p.Steps = append(p.Steps, aStep(t, &p))
	}
	return p
}

func aStep(t *rapid.T, p *bath.Past) bath.Step {
	baths := len(p.Baths)
	at := rapid.IntRange(0, baths-1)
	switch rapid.IntRange(0, 6).Draw(t, "what") {
	case 0:
		b := at.Draw(t, "top up")
		with := p.Baths[b].Made
		for a := range with {
			with[a] *= 0.1
		}
		return bath.ToppedUp{Bath: b, With: with}
	case 1:
		return bath.Taken{Bath: at.Draw(t, "take"), Litres: rapid.Float64Range(0, 0.2).Draw(t, "litres")}
	}
	var path []int
	for i := rapid.IntRange(0, 1).Draw(t, "from"); i < baths; i++ {
		if i == 0 || rapid.IntRange(0, 4).Draw(t, "skip") > 0 {
			path = append(path, i)
		}
	}
	sheet := bath.Sheet{
		Of:      rapid.SampledFrom(material.All()).Draw(t, "material"),
		Area:    rapid.Float64Range(0.005, 0.25).Draw(t, "area"),
		Drained: rapid.Float64Range(0, 40).Draw(t, "drained"),
	}
	sheets := float64(rapid.IntRange(0, 60).Draw(t, "sheets")) + rapid.SampledFrom([]float64{0, 0.25, 0.5}).Draw(t, "strips")
	return bath.Worked{Sheet: sheet, Sheets: sheets, Through: path}
}

// Nothing is lost and nothing comes from nowhere: what was put in is held or has left, to 1e-9.
func TestAmountsClose(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := aPast(t)
		b, err := p.Balance(p.Prior.Draw(rapid.IntRange(0, 999).Draw(t, "room"), 3))
		if err != nil {
			t.Fatal(err)
		}
		for a := range b.Put {
			if d := b.Put[a] - b.Held[a] - b.Left[a]; math.Abs(d) > 1e-9*math.Max(b.Put[a], 1e-6) {
				t.Errorf("amount %d: put %g, held %g, left %g", a, b.Put[a], b.Held[a], b.Left[a])
			}
		}
	})
}

// Sheets taken all at once leave what sheets taken one by one do.
func TestAtOnceIsOneByOne(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := aPast(t)
		one := p
		one.Prior = certain(p.Prior)
		rooms, err := one.Draw(1, 1)
		if err != nil {
			t.Fatal(err)
		}
		b, err := one.Balance(one.Prior.Median())
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Baths {
			for _, a := range []bath.Amount{bath.Developer, bath.Thiosulfate, bath.Silver} {
				want, got := b.Each[i].PerLitre(a), rooms.Now(i, a).P50
				if math.Abs(got-want) > 1e-9*math.Max(want, 1e-3) {
					t.Errorf("bath %d, amount %d: at once %g, one by one %g", i, a, got, want)
				}
			}
		}
	})
}

// certain returns a prior that is sure of its medians.
func certain(p bath.Prior) bath.Prior {
	for m := range p {
		p[m].Coating.Spread, p[m].Undeveloped.Spread, p[m].Carry.Spread = 0, 0, 0
	}
	return p
}

// The end that is found by doubling is the last sheet after which the limits hold, sheet by sheet.
func TestEndsAreTheLast(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := aPast(t)
		p.Prior = certain(p.Prior)
		rooms, err := p.Draw(1, 1)
		if err != nil {
			t.Fatal(err)
		}
		ask := bath.Ask{Sheet: bath.Sheet{Of: material.FB, Area: area8x10}}
		for i := range p.Baths {
			ask.Through = append(ask.Through, i)
			ask.Limits = append(ask.Limits, bath.Limits{
				Silver: rapid.Float64Range(0.1, 3).Draw(t, "silver"), FilmStrength: 158, Thiosulfate: 40,
			})
			if p.Baths[i].Kind != bath.Fixing {
				ask.Limits[i] = bath.Limits{}
			}
		}
		e, err := rooms.Ends(ask)
		if err != nil {
			t.Fatal(err)
		}
		for place := range ask.Through {
			holds(t, rooms, ask, place, e.Of(place).P50)
		}
	})
}

func holds(t *rapid.T, rooms *bath.Rooms, ask bath.Ask, place, count int) {
	if count > 3000 {
		return
	}
	within := func(n int) bool {
		after, err := rooms.After(bath.Worked{Sheet: ask.Sheet, Sheets: float64(n), Through: ask.Through})
		if err != nil {
			t.Fatal(err)
		}
		b, l := ask.Through[place], ask.Limits[place]
		silver, thiosulfate := after.Now(b, bath.Silver).P50, after.Now(b, bath.Thiosulfate).P50
		return silver*l.FilmStrength <= l.Silver*thiosulfate*(1+1e-9) && thiosulfate >= l.Thiosulfate*(1-1e-9)
	}
	if count > 0 && !within(count) {
		t.Errorf("place %d: limits do not hold after %d", place, count)
	}
	// The next sheet passes a limit, unless it lands on it.
	if within(count+1) && within(count+2) {
		t.Errorf("place %d: limits hold after %d, two more than counted", place, count+2)
	}
}

// A room is the same however many are drawn, and more silver, less fixer or a stricter limit never give more sheets.
func TestMonotone(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := bath.Past{Prior: bath.DefaultPrior()}
		l := rapid.Float64Range(0.5, 4).Draw(t, "litres")
		th := rapid.Float64Range(60, 160).Draw(t, "thiosulfate")
		p.Baths = []bath.Bath{bath.NewDeveloper(2), bath.NewStop(2, nil), bath.NewFixer(l, th), bath.NewFixer(l*1.1, th), bath.NewFixer(l, th*1.1)}
		silver := rapid.Float64Range(0.2, 2).Draw(t, "limit")
		count := func(fixer int, silver float64, area float64) int {
			rooms, err := p.Draw(200, 7)
			if err != nil {
				t.Fatal(err)
			}
			e, err := rooms.Ends(bath.Ask{
				Sheet: bath.Sheet{Of: material.FB, Area: area}, Through: []int{0, 1, fixer},
				Limits: []bath.Limits{{}, {}, {Silver: silver, FilmStrength: 158, Thiosulfate: 30}},
			})
			if err != nil {
				t.Fatal(err)
			}
			return e.Of(2).P10
		}
		base := count(2, silver, area8x10)
		if more := count(3, silver, area8x10); more < base {
			t.Errorf("a tenth more fixer does %d, less than %d", more, base)
		}
		if more := count(4, silver, area8x10); more < base {
			t.Errorf("a stronger fixer does %d, less than %d", more, base)
		}
		if less := count(2, silver*0.9, area8x10); less > base {
			t.Errorf("a stricter limit gives %d, more than %d", less, base)
		}
		if less := count(2, silver, 2*area8x10); less > base {
			t.Errorf("sheets twice as large: %d, more than %d", less, base)
		}
	})
}
