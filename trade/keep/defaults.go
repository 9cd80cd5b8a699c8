package keep

import (
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// The sources, keys of docs/sources.md.
const (
	rfPl     = "RF-pl"    // pl.rec.foto, 2005-11-21, quoting a maker's technical sheet on a rapid fixer
	filmIs   = "Film-is"  // rules of a shared darkroom: a developer once diluted is used within 24 h
	anchell3 = "Anchell3" // S. Anchell, The Darkroom Cookbook, 3rd ed., p. 108
)

// A life is a keeping time with its source; no source is from memory.
type life struct {
	period quantity.Period
	source string
}

func months(n int, source string) life { return life{quantity.Period{Months: n}, source} }
func days(n int, source string) life   { return life{quantity.Period{Days: n}, source} }
func aDay(source string) life          { return life{quantity.Period{Hours: 24}, source} }

const memory = ""

// Default returns how long a kind of product keeps in a state, where its label does not say, and the figure with its source. ok
// is false where no figure is known.
//
// Fixer: as bought 2 years unopened and 6 months opened, working in a bottle with some air 1 month, under a floating lid 2 months,
// in an open tray 7 days (a maker's sheet: RF-pl); in a full bottle 2 months (Anchell3; the sheet has 6). Developer
// once diluted: 24 h (Film-is). All else from memory.
func Default(r process.Role, f Form, s State) (quantity.Period, reckoning.Figure, bool) {
	var l life
	switch r {
	case process.Developer:
		l = developer(f, s)
	case process.StopBath:
		l = stopBath(f, s)
	case process.Fixer:
		l = fixer(f, s)
	case process.WashingAid:
		l = washingAid(f, s)
	case process.WettingAgent:
		l = wettingAgent(f, s)
	case process.Toner:
		l = asBought(f, s, 36, 36, 24)
	case process.Hardener:
		l = asBought(f, s, 24, 24, 0)
	case process.NoRole:
	}
	if l.period == (quantity.Period{}) {
		return quantity.Period{}, reckoning.Figure{}, false
	}
	return l.period, l.figure(), true
}

// figure is the keeping time in days, a month counted as a twelfth of 365.25.
func (l life) figure() reckoning.Figure {
	f := reckoning.Figure{Name: "keeps", Value: inDays(l.period), Unit: reckoning.D, Origin: reckoning.FromMemory}
	if l.source != memory {
		f.Origin, f.Source = reckoning.Standard, l.source
	}
	return f
}

func inDays(p quantity.Period) float64 {
	return float64(p.Months)*365.25/12 + float64(p.Days) + float64(p.Hours)/24
}

// asBought is of powders and concentrates: unopened powder, unopened and opened concentrate, months, from memory. An opened
// packet of powder has no figure: it is made up whole.
func asBought(f Form, s State, powder, unopened, opened int) life {
	switch {
	case f == Powder && s == Unopened:
		return months(powder, memory)
	case f == Concentrate && s == Unopened:
		return months(unopened, memory)
	case f == Concentrate && s == Opened:
		return months(opened, memory)
	}
	return life{}
}

func developer(f Form, s State) life {
	switch f {
	case Working:
		return aDay(filmIs)
	case Stock:
		switch s {
		case FullBottle:
			return months(6, memory)
		case PartBottle:
			return months(2, memory)
		case FloatingLid, Tank:
			return months(1, memory)
		case Tray:
			return aDay(memory)
		case Unopened, Opened, NoState:
		}
	case Powder, Concentrate, NoForm:
	}
	return asBought(f, s, 36, 24, 6)
}

func stopBath(f Form, s State) life {
	if f != Stock && f != Working {
		return asBought(f, s, 60, 60, 24)
	}
	if s == Tray {
		return days(3, memory)
	}
	return months(1, memory)
}

func fixer(f Form, s State) life {
	switch f {
	case Powder:
		return asBought(f, s, 36, 0, 0)
	case Concentrate:
		if s == Unopened {
			return months(24, rfPl)
		}
		return months(6, rfPl)
	case Stock, Working:
		return workedFixer(s)
	case NoForm:
	}
	return life{}
}

func workedFixer(s State) life {
	switch s {
	case FullBottle:
		return months(2, anchell3)
	case PartBottle:
		return months(1, rfPl)
	case FloatingLid:
		return months(2, rfPl)
	case Tray:
		return days(7, rfPl)
	case Tank:
		return months(1, memory)
	case Unopened, Opened, NoState:
	}
	return life{}
}

func washingAid(f Form, s State) life {
	if f != Stock && f != Working {
		return asBought(f, s, 36, 24, 12)
	}
	switch s {
	case FullBottle:
		return months(3, memory)
	case PartBottle:
		return months(1, memory)
	case Tray:
		return aDay(memory)
	case Unopened, Opened, FloatingLid, Tank, NoState:
	}
	return life{}
}

func wettingAgent(f Form, s State) life {
	if f != Stock && f != Working {
		return asBought(f, s, 36, 36, 24)
	}
	switch s {
	case FullBottle, PartBottle:
		return days(7, memory)
	case Tray, Tank:
		return aDay(memory)
	case Unopened, Opened, FloatingLid, NoState:
	}
	return life{}
}

// disagrees returns what other sources say of a default: the full bottle of working fixer alone.
func disagrees(r process.Role, f Form, s State) []reckoning.Figure {
	if r == process.Fixer && (f == Stock || f == Working) && s == FullBottle {
		return []reckoning.Figure{months(6, rfPl).figure()}
	}
	return nil
}

// FullFrom returns from which level a bottle counts as full, 0.9, and NearlyEmpty below which the air in it halves its time, a
// quarter. Both from memory.
func FullFrom() reckoning.Figure { return share("full_from", 0.9) }

// NearlyEmpty returns the level below which a bottle keeps half as long: a quarter, from memory.
func NearlyEmpty() reckoning.Figure { return share("nearly_empty", 0.25) }

// WarmFrom returns the temperature above which things keep less long: 24 °C, the 75 °F that US Navy training courses have for stores.
func WarmFrom() reckoning.Figure {
	return reckoning.Figure{Name: "warm_from", Value: 24, Unit: reckoning.C, Origin: reckoning.Standard, Source: "Navy-ph209168"}
}

// WarmQ10 returns by what keeping times are divided for every 10 K above WarmFrom: 2, the rule for reactions in
// general; that spoiling follows it is from memory. (Anchell3 says that a fixer keeps less above 29 °C, and not how much.)
func WarmQ10() reckoning.Figure {
	return reckoning.Figure{Name: "warm_q10", Value: 2, Origin: reckoning.FromMemory}
}

func share(name string, v float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: v, Unit: reckoning.Share, Origin: reckoning.FromMemory}
}

const day = 24 * time.Hour
