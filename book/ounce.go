package book

import (
	"maps"
	"regexp"
	"slices"

	"wetside/darkroom"
)

// ounceWord finds a number's unit that is of the ounce's kin; group 1 is the word, which a system's name may precede.
var ounceWord = regexp.MustCompile(
	`(?i)(?:\b(?:us|u\.?s\.?|imperial|imp\.?|uk|u\.?k\.?)\s*)?\b(fl\.?\s*ozs?|fluid\s+(?:ozs?|ounces?)|ozs?|ounces?|pts?|pints?|qts?|quarts?|gals?|gallons?)\b(?:\s*av)?`)

// under returns what was set, in words for a room whose ounce is o: as they stand where they were written under the
// same setting, else with the system said before each ounce that had none.
func under[T any](o Ounce, s *setting[T], say func(T, func(string) string) T) T {
	if s.ounce == o || s.ounce == NoOunce {
		return s.value
	}
	system := "US "
	if s.ounce == ImperialOunce {
		system = "imperial "
	}
	return say(s.value, func(text string) string { return sayOunce(text, system) })
}

// sayOunce puts the system's name before each ounce, pint, quart or gallon that stands without one. Ounces of mass (oz
// av) and ounces that have a system stay.
func sayOunce(text, system string) string {
	return ounceWord.ReplaceAllStringFunc(text, func(found string) string {
		m := ounceWord.FindStringSubmatch(found)
		if len(m[1]) != len(found) {
			return found
		}
		return system + found
	})
}

func presentUnder[T any](t *things[T], c *corrections, o Ounce, say func(T, func(string) string) T) (ids []string, values []T) {
	for i := range t.all {
		if s := t.all[i].now(c); s != nil {
			ids, values = append(ids, t.all[i].id), append(values, under(o, s, say))
		}
	}
	return ids, values
}

func clearText[T any](a darkroom.As[T], say func(string) string) darkroom.As[T] {
	a.Text = say(a.Text)
	return a
}

func clearTexts[K comparable, T any](m map[K]darkroom.As[T], say func(string) string) map[K]darkroom.As[T] {
	m = maps.Clone(m)
	for k, a := range m {
		m[k] = clearText(a, say)
	}
	return m
}

func clearBench(b darkroom.Bench, _ func(string) string) darkroom.Bench { return b }

func clearVessel(v darkroom.Vessel, say func(string) string) darkroom.Vessel {
	v.PermissibleError = clearText(v.PermissibleError, say)
	v.Scales = slices.Clone(v.Scales)
	for i, s := range v.Scales {
		v.Scales[i].Unit = clearText(s.Unit, say)
	}
	return v
}

func clearTray(t darkroom.Tray, say func(string) string) darkroom.Tray {
	t.Fill = clearText(t.Fill, say)
	return t
}

func clearTank(t darkroom.Tank, say func(string) string) darkroom.Tank {
	t.Covers = maps.Clone(t.Covers)
	for roll, volumes := range t.Covers {
		t.Covers[roll] = slices.Clone(volumes)
		for i, v := range volumes {
			t.Covers[roll][i] = clearText(v, say)
		}
	}
	return t
}

func clearCan(c darkroom.Can, say func(string) string) darkroom.Can {
	c.Holds = clearText(c.Holds, say)
	return c
}

func clearProduct(p darkroom.Product, say func(string) string) darkroom.Product {
	p.Dilutions = clearTexts(p.Dilutions, say)
	p.Capacity = clearTexts(p.Capacity, say)
	p.Makes = clearText(p.Makes, say)
	p.LeastPerRoll = clearText(p.LeastPerRoll, say)
	p.Reuse = say(p.Reuse)
	p.Packs = slices.Clone(p.Packs)
	for i, k := range p.Packs {
		p.Packs[i].Holds = clearText(k.Holds, say)
	}
	return p
}

func clearLot(l darkroom.Lot, say func(string) string) darkroom.Lot {
	l.Holds, l.Left = clearText(l.Holds, say), clearText(l.Left, say)
	return l
}

func clearSession(s darkroom.Session, say func(string) string) darkroom.Session {
	s.ToMake = slices.Clone(s.ToMake)
	for i, l := range s.ToMake {
		s.ToMake[i].Dilution = clearText(l.Dilution, say)
	}
	return s
}

func clearWords(words string, say func(string) string) string { return say(words) }
