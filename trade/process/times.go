package process

import (
	"time"

	"wetside/trade/material"
	"wetside/trade/reckoning"
)

// said is a time and who said it.
type said struct {
	t      time.Duration
	origin reckoning.Origin
	source string
}

// times are the usual time of a step and how far printed and remembered ones lie apart.
type times struct{ usual, least, most said }

func memory(t time.Duration) said { return said{t, reckoning.FromMemory, ""} }

func practice(t time.Duration) said { return said{t, reckoning.CommonPractice, ""} }

func book(t time.Duration, source string) said { return said{t, reckoning.Standard, source} }

const (
	sec    = time.Second
	minute = time.Minute
)

// timesOf returns the default times of a step. Sources, by their keys:
//
//	DR-TD           darkrooms.thoughtdreams.org, developing the image
//	Army-SS0509-45  US Army subcourse SS0509 (1988), page SS05090045; Army-98-21, -24, -30 further pages of it
//	Navy-14209-291  US Navy NAVEDTRA 14209, page 291; -250 page 250
//	Anchell3        The Darkroom Cookbook, 3rd ed., p. 107
//	Buffaloe        Archival Processing of Prints
//	OPS-paper       openphotographicsociety.org, B&W printing papers; WP-fixer an encyclopaedia, photographic fixer
//	PTP-607         Clerc, Photography: Theory and Practice, §607
//	apug-75985      a forum post with washing times after a washing aid
func timesOf(m material.Material, s Step, w Wants) times {
	switch m {
	case material.RC:
		return rcTimes(s, w)
	case material.FB:
		return fbTimes(s, w)
	case material.Film:
		return filmTimes(s, w)
	case material.None:
	}
	return times{}
}

func rcTimes(s Step, w Wants) times {
	switch s {
	case Develop:
		return times{memory(60 * sec), book(30*sec, "DR-TD"), book(2*minute, "DR-TD")}
	case Stop:
		return times{memory(15 * sec), book(10*sec, "DR-TD"), book(30*sec, "DR-TD")}
	case Fix:
		if w.Fixing == TwoBaths {
			return times{memory(30 * sec), memory(30 * sec), memory(45 * sec)}
		}
		return times{memory(60 * sec), memory(30 * sec), memory(60 * sec)}
	case SecondFix:
		return times{memory(30 * sec), memory(30 * sec), memory(45 * sec)}
	case Hold:
		return times{most: memory(10 * minute)}
	case Wash:
		return times{book(4*minute, "OPS-paper"), book(2*minute, "WP-fixer"), memory(5 * minute)}
	default:
		return paperTimes(s)
	}
}

func fbTimes(s Step, w Wants) times {
	switch s {
	case Develop:
		return times{book(2*minute, "Army-SS0509-45"), book(90*sec, "Army-SS0509-45"), memory(3 * minute)}
	case Stop:
		return times{practice(30 * sec), book(5*sec, "Navy-14209-291"), book(60*sec, "Army-SS0509-45")}
	case Fix:
		if w.Fixing == TwoBaths {
			return times{book(45*sec, "Buffaloe"), book(30*sec, "Buffaloe"), book(45*sec, "Buffaloe")}
		}
		return times{book(60*sec, "Anchell3"), book(60*sec, "Anchell3"), memory(2 * minute)}
	case SecondFix:
		return times{book(45*sec, "Buffaloe"), book(30*sec, "Buffaloe"), book(45*sec, "Buffaloe")}
	case Hold:
		return times{most: memory(60 * minute)}
	case WashAid:
		return times{book(3*minute, "apug-75985"), book(2*minute, "apug-75985"), memory(5 * minute)}
	case Wash:
		if w.WashingAid {
			return times{book(20*minute, "apug-75985"), book(10*minute, "apug-75985"), memory(30 * minute)}
		}
		return times{practice(60 * minute), book(30*minute, "PTP-607"), book(90*minute, "PTP-607")}
	default:
		return paperTimes(s)
	}
}

// paperTimes are those that RC and FB have alike; all from memory.
func paperTimes(s Step) times {
	switch s {
	case StopRinse:
		return times{memory(30 * sec), memory(15 * sec), memory(60 * sec)}
	case Rinse:
		return times{memory(30 * sec), memory(30 * sec), memory(60 * sec)}
	case Tone:
		return times{memory(3 * minute), memory(1 * minute), memory(10 * minute)}
	default:
		return times{}
	}
}

func filmTimes(s Step, w Wants) times {
	switch s {
	case PreWash:
		return times{memory(1 * minute), memory(30 * sec), memory(2 * minute)}
	case Stop:
		return times{book(30*sec, "Army-98-30"), book(30*sec, "Army-98-30"), book(60*sec, "Army-98-30")}
	case StopRinse:
		return times{memory(60 * sec), memory(30 * sec), memory(60 * sec)}
	case Fix:
		return times{book(5*minute, "Army-98-21"), memory(2 * minute), memory(5 * minute)}
	case SecondFix:
		return times{memory(3 * minute), memory(2 * minute), memory(5 * minute)}
	case Rinse:
		return times{book(30*sec, "Army-98-24"), book(30*sec, "Army-98-24"), memory(60 * sec)}
	case WashAid:
		return times{book(2*minute, "Army-98-24"), book(2*minute, "Army-98-24"), memory(3 * minute)}
	case Wash:
		if w.WashingAid {
			return times{book(5*minute, "Army-98-24"), book(5*minute, "Army-98-24"), memory(10 * minute)}
		}
		return times{book(30*minute, "Army-98-30"), book(20*minute, "Navy-14209-250"), book(30*minute, "Army-98-30")}
	case Wet:
		return times{memory(30 * sec), memory(30 * sec), memory(60 * sec)}
	default:
		return times{}
	}
}
