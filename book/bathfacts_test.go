package book_test

import (
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/darkroom"
)

// baths are ids that facts name; the last is of a bath that is never mixed.
var baths = []string{"bath1", "bath2", "bath3", "bath9"}

func anyMix(t *rapid.T, name string, draw book.Draw) *book.Mixed {
	m := &book.Mixed{
		Bath: rapid.SampledFrom(append(baths[:3:3], "bath"+name[:2])).Draw(t, "bath"), Product: "fix", Dilution: "1+4", Volume: "1 L",
		Ounce: book.USOunce, From: []book.Draw{draw, {Lot: "lot1", Amount: "10 mL"}, {Amount: "5 mL"}},
		Place: rapid.SampledFrom([]darkroom.Bath{"", darkroom.BathOne, darkroom.BathFirst, darkroom.BathSecond}).Draw(t, "place"),
		Made:  rapid.SampledFrom([]book.Made{"", book.MadeEstimated, book.MadeUnknown}).Draw(t, "made"),
		Pair:  rapid.SampledFrom([]string{"", "", "bath8"}).Draw(t, "pair"),
	}
	if m.Made == book.MadeUnknown && rapid.Bool().Draw(t, "guess") {
		m.From, m.Before = nil, []book.Prints{anyPrints(t)}
	}
	return m
}

func anyPrints(t *rapid.T) book.Prints {
	p := book.Prints{Estimated: rapid.Bool().Draw(t, "estimated")}
	if rapid.IntRange(0, 3).Draw(t, "film") == 0 {
		p.Material, p.Size, p.Rolls = "film", rapid.SampledFrom([]string{"135-36", "120"}).Draw(t, "roll"), rapid.IntRange(1, 4).Draw(t, "rolls")
		return p
	}
	p.Material = rapid.SampledFrom([]string{"RC paper", "FB paper", "film"}).Draw(t, "material")
	p.Size = rapid.SampledFrom([]string{"8x10 in", "24x30 cm", "11x14 in"}).Draw(t, "size")
	p.Sheets, p.Strips = rapid.IntRange(1, 9).Draw(t, "sheets"), rapid.IntRange(0, 3).Draw(t, "strips")
	p.Strip = rapid.SampledFrom([]string{"", "1/4"}).Draw(t, "strip")
	return p
}

// bathFact draws what can be done with baths and batches.
func bathFact(t *rapid.T, draw book.Draw) book.Body {
	id := rapid.SampledFrom(baths).Draw(t, "bath")
	batch := rapid.SampledFrom([]string{"batch1", "batch2"}).Draw(t, "batch")
	volume := rapid.SampledFrom([]string{"900 mL", "1 1/2 L", "30 fl oz"}).Draw(t, "volume")
	switch rapid.IntRange(0, 12).Draw(t, "bath fact") {
	case 0:
		return &book.Tested{Bath: id, Test: book.SilverStrip, Result: "1 g/L", Steps: []float64{0.5, 1, 2}}
	case 1:
		return &book.ToppedUp{Bath: id, With: book.WithFresh, Volume: volume, Ounce: book.USOunce, From: []book.Draw{draw}}
	case 2:
		return &book.PouredBack{Bath: id, Into: darkroom.PartBottle, Volume: volume, Ounce: book.USOunce}
	case 3:
		return &book.PouredOut{Bath: id, Tray: "grey"}
	case 4:
		return &book.Held{Batch: batch, Bath: id, Prints: anyPrints(t)}
	case 5:
		return &book.Washed{Batch: batch, Step: rapid.SampledFrom([]book.WashStep{
			book.WashStarted, book.WashMore, book.WashDone, book.WashStopped,
		}).Draw(t, "step"), Changes: rapid.IntRange(0, 3).Draw(t, "changes")}
	case 6:
		return &book.Tested{Batch: batch, Test: book.HypoDrop, Result: "under 0.01 g/m2", Material: "FB paper"}
	case 7:
		return wasteFact(t, volume)
	case 8:
		return &book.FaultFound{Sign: "grey_veil", Cause: "stray_light", Bath: rapid.SampledFrom([]string{"", id}).Draw(t, "about")}
	case 9:
		return &book.ProbeRead{Probe: rapid.SampledFrom([]string{"p1", "p2"}).Draw(t, "probe"), Bath: id, Reads: rapid.SampledFrom([]string{"19.8 °C", "68 °F"}).Draw(t, "reads")}
	default:
		through := rapid.SliceOfN(rapid.SampledFrom(baths), 1, 4).Draw(t, "through")
		return &book.Worked{Baths: through, Prints: anyPrints(t), Drain: rapid.SampledFrom([]string{"", "20 s"}).Draw(t, "drain")}
	}
}

// bathDecisions are decisions as an earlier or a later program let them in, whether they make sense or not.
func bathDecisions(t *rapid.T) []book.Entry {
	a := &book.Author{Device: "desk", Now: evening, NewID: counting("d")}
	var all []book.Entry
	for range rapid.IntRange(0, 3).Draw(t, "decisions") {
		a.Now = evening.Add(minutes(rapid.IntRange(0, 5).Draw(t, "minute")))
		pair := rapid.Permutation(baths).Draw(t, "pair")
		if rapid.Bool().Draw(t, "moved") {
			all = append(all, written(a, &book.Moved{First: pair[0], Second: pair[1]}))
			continue
		}
		all = append(all, written(a, &book.Disposed{Bath: pair[0], Leaving: book.Leaving{
			To: "collected", Volume: "700 mL", Can: rapid.SampledFrom([]string{"", "can1", "can2"}).Draw(t, "can"),
		}}))
	}
	return all
}
