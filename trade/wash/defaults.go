package wash

import (
	"math"
	"time"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// The sources, keys of docs/sources.md.
const (
	torz2004  = "Torz2004"       // M. Torzynski, comments on the kinematics of a film washing procedure, 2004
	navy250   = "Navy-14209-250" // US Navy NAVEDTRA 14209, washing
	cdl1997   = "CDL1997"        // D. Nishimura, Conservation DistList, 21 Sep 1997, quoting ANSI IT9.1-1996
	ptp607    = "PTP-607"        // L. P. Clerc, Photography: Theory and Practice, §607
	army98x26 = "Army-98-26"     // US Army subcourse SS0509, washing
)

// Held returns the water that a square metre holds, mL. Film 107: 71 on the surfaces and 36 absorbed, 4 mL on a roll of
// 0.056 m² (M. Torzynski 2004: Torz2004). RC 35 and FB 155 from memory.
func Held(m material.Material) reckoning.Figure {
	f := reckoning.Figure{Name: "held", Of: m.String(), Unit: reckoning.MLPerM2, Origin: reckoning.FromMemory}
	switch m {
	case material.Film:
		f.Value, f.Origin, f.Source = 107, reckoning.Standard, torz2004
	case material.RC:
		f.Value = 35
	case material.FB:
		f.Value = 155
	case material.None:
	}
	return f
}

// SurfaceShare returns the share of what FB paper holds that is at its surface: a quarter, from memory.
func SurfaceShare() reckoning.Figure {
	return reckoning.Figure{Name: "surface_share", Value: 0.25, Unit: reckoning.Share, Origin: reckoning.FromMemory}
}

// TimeConstant returns the time constant at 20 °C of what leaves slowest, s. Film 86.6, a half-life of 1 min in running
// water (US Navy NAVEDTRA 14209: Navy-14209-250), 45 with a washing aid; RC 30; FB inside 480, 150 with a washing aid:
// all but the first from memory.
func TimeConstant(m material.Material, aid bool) reckoning.Figure {
	f := reckoning.Figure{Name: "time_constant", Of: m.String(), Unit: reckoning.S, Origin: reckoning.FromMemory}
	switch {
	case m == material.Film && aid:
		f.Value = 45
	case m == material.Film:
		f.Value, f.Origin, f.Source = 60/math.Ln2, reckoning.Standard, navy250
	case m == material.RC:
		f.Value = 30
	case m == material.FB && aid:
		f.Value = 150
	case m == material.FB:
		f.Value = 480
	}
	return f
}

// SurfaceTimeConstant returns the time constant of FB paper's surface at 20 °C: 30 s, from memory.
func SurfaceTimeConstant() reckoning.Figure {
	return reckoning.Figure{Name: "surface_time_constant", Value: 30, Unit: reckoning.S, Origin: reckoning.FromMemory}
}

// FreshFixer returns the thiosulfate of a fresh rapid fixer at 1+4, 158 g/L: 200 mL of ammonium thiosulfate of 60 % by
// weight and 1.32 g/mL (from memory) in a litre.
func FreshFixer() reckoning.Figure {
	return reckoning.Figure{Name: "start", Value: 158, Unit: reckoning.GPerL, Origin: reckoning.FromMemory}
}

// LimitFor returns how much thiosulfate may be left, g/m². Film 0.014 whatever the standard (ANSI IT9.1-1996 after D. Nishimura
// 1997: CDL1997). RC 0.02 whatever the standard, FB 0.1, 0.03 and 0.007 for work print, exhibition and archival: from memory.
// It is 0 where no standard is said.
func LimitFor(m material.Material, s process.Standard) reckoning.Figure {
	f := reckoning.Figure{Name: "limit", Of: m.String(), Unit: reckoning.GPerM2, Origin: reckoning.FromMemory}
	switch {
	case s == process.StandardUnsaid:
	case m == material.Film:
		f.Value, f.Origin, f.Source = 0.014, reckoning.Standard, cdl1997
	case m == material.RC:
		f.Value = 0.02
	case m == material.FB && s == process.WorkPrint:
		f.Value = 0.1
	case m == material.FB && s == process.Exhibition:
		f.Value = 0.03
	case m == material.FB:
		f.Value = 0.007
	}
	return f
}

// LeastContact returns how long a change must last at 20 °C to count as one. FB 5 min, since a faster renewal gains nothing
// (Clerc §607: PTP-607); film and RC 30 s, from memory.
func LeastContact(m material.Material) reckoning.Figure {
	f := seconds("least_contact", 30*time.Second, reckoning.FromMemory)
	f.Of = m.String()
	if m == material.FB {
		f.Value, f.Origin, f.Source = 300, reckoning.Standard, ptp607
	}
	return f
}

// LongestContact returns how long a change is left at most, at 20 °C, where water is to be saved: film 10 min, RC 2 min, FB 30
// min. From memory: what leaves slowest has then all but come to rest with the water.
func LongestContact(m material.Material) reckoning.Figure {
	f := seconds("longest_contact", 10*time.Minute, reckoning.FromMemory)
	f.Of = m.String()
	switch m {
	case material.RC:
		f.Value = 120
	case material.FB:
		f.Value = 1800
	case material.Film, material.None:
	}
	return f
}

// DumpEvery returns how often a standing tray with running water is dumped. Film every 3 min (US Army SS0509: Army-98-26), FB
// every 5 min (Clerc §607: PTP-607), RC every minute, from memory.
func DumpEvery(m material.Material) reckoning.Figure {
	f := seconds("beat", time.Minute, reckoning.FromMemory)
	f.Of = m.String()
	switch m {
	case material.FB:
		f.Value, f.Origin, f.Source = 300, reckoning.Standard, ptp607
	case material.Film:
		f.Value, f.Origin, f.Source = 180, reckoning.Standard, army98x26
	case material.RC, material.None:
	}
	return f
}

// LongestRC returns how long RC paper may lie in the wash: 10 min, from memory. Longer, water goes in at its cut edges, and
// they lift.
func LongestRC() reckoning.Figure {
	return seconds("longest_rc", 10*time.Minute, reckoning.FromMemory)
}

// Band returns by how much a time constant may be longer or shorter while no residual test was made here: 1.5 times, from memory.
func Band() reckoning.Figure {
	return reckoning.Figure{Name: "band", Value: 1.5, Origin: reckoning.FromMemory}
}

func seconds(name string, d time.Duration, o reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: d.Seconds(), Unit: reckoning.S, Origin: o}
}
