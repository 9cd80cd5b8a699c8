package words

import (
	"time"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/wash"
)

// WashWay names a way of washing: running water, still changes.
func (v *Voice) WashWay(w wash.Way) string { return v.Label("way_" + w.String()) }

// WashTime prints a time of washing, rounded up to whole minutes, a short one to ten seconds.
func (v *Voice) WashTime(d time.Duration) string { return v.Time(WashRounded(d)) }

// WashRounded is the time that WashTime prints.
func WashRounded(d time.Duration) time.Duration {
	step := time.Minute
	if d < 10*time.Minute {
		step = 10 * time.Second
	}
	return (d + step - 1).Truncate(step)
}

// WashWater prints the water of a wash, rounded up to whole litres.
func (v *Voice) WashWater(w quantity.Volume) string {
	return v.Volume((w + quantity.Litre - 1) / quantity.Litre * quantity.Litre)
}

// WashLeft prints what a way of washing leaves.
func (v *Voice) WashLeft(w wash.Result) string {
	return v.Figure(reckoning.Figure{Name: "left", Value: w.Left, Unit: reckoning.GPerM2})
}

// WashBest names the fastest way and the cheapest in water, by the time that is safe.
func (v *Voice) WashBest(a wash.Answer) Phrase {
	if a.Fastest < 0 {
		return v.Tell("wash.none")
	}
	fast, cheap := a.Ways[a.Fastest], a.Ways[a.Cheapest]
	key := "tell.wash.best"
	if a.Fastest == a.Cheapest {
		key = "tell.wash.best_both"
	}
	return phrase(sentence(v.say(key, args{
		"Fastest": v.WashWay(fast.Way), "Time": v.WashTime(fast.SafeTime()),
		"Cheapest": v.WashWay(cheap.Way), "Litres": v.WashWater(cheap.Water),
	})))
}

// WashNote says what is to be said of a wash or of one way.
func (v *Voice) WashNote(f wash.Finding) Phrase {
	return v.Tell("wash."+string(f.Kind), "Got", v.Figure(f.Got), "Limit", v.Figure(f.Limit))
}

// WashLimit says how much may be left, and where that is from.
func (v *Voice) WashLimit(a wash.Answer) Phrase {
	return v.Tell("wash.limit", "Limit", v.Figure(a.Limit), "From", v.Origin(a.Limit))
}
