package ahead

import (
	"slices"
	"time"

	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// chains finds the way of each material through the baths that stand there, the asked one first.
func (t *taker) chains(asked material.Material) {
	var order []material.Material
	add := func(m material.Material) {
		if m != material.None && !slices.Contains(order, m) {
			order = append(order, m)
		}
	}
	add(asked)
	for _, l := range t.file.Session.ToMake {
		add(l.Material)
	}
	for _, e := range slices.Backward(t.scene.Events) {
		if e.Pass != nil {
			add(e.Pass.Material)
		}
	}
	for _, m := range material.All() {
		if _, said := t.file.Darkroom.Standards[m]; said {
			add(m)
		}
	}
	add(material.RC)
	add(material.Film)
	for _, m := range order {
		if way := t.way(m); len(way) > 0 {
			t.scene.Chains = append(t.scene.Chains, t.chain(m, way))
		}
	}
	t.others()
}

// others asks for the baths that stand beside one that is rather used, each in that one's place.
func (t *taker) others() {
	chains := t.scene.Chains
	for i := range t.scene.Baths {
		b := &t.scene.Baths[i]
		if b.Gone || !told(b.Role) || slices.ContainsFunc(chains, func(c Chain) bool { return slices.Contains(c.Baths, i) }) {
			continue
		}
		for _, c := range chains {
			at := slices.IndexFunc(c.Baths, func(x int) bool {
				return t.scene.Baths[x].Role == b.Role && t.scene.Baths[x].Place == b.Place
			})
			if at < 0 || b.Film != (c.Material == material.Film) || !serves(b, c.Material) {
				continue
			}
			c.Baths = slices.Clone(c.Baths)
			c.Baths[at] = i
			t.scene.Chains = append(t.scene.Chains, c)
			break
		}
	}
}

// way returns the baths that a material goes through: of each role the one that stands in its tray, the youngest first
// among several.
func (t *taker) way(m material.Material) []int {
	var way []int
	add := func(role process.Role, place ...bath.Place) {
		best := -1
		for i := range t.scene.Baths {
			b := &t.scene.Baths[i]
			if b.Gone || b.Role != role || b.Film != (m == material.Film) ||
				len(place) > 0 && !slices.Contains(place, b.Place) || !serves(b, m) {
				continue
			}
			if best < 0 || t.before(b, &t.scene.Baths[best]) {
				best = i
			}
		}
		if best >= 0 {
			way = append(way, best)
		}
	}
	add(process.Developer)
	add(process.StopBath)
	add(process.Fixer, bath.Alone, bath.First)
	if f := t.file.Darkroom.Standards[m].Fixing; f != process.OneBath {
		add(process.Fixer, bath.Second)
	}
	if m != material.RC {
		add(process.WashingAid)
	}
	return way
}

// serves reports whether a bath's label is for a material; a label that names none is for all.
func serves(b *Bath, m material.Material) bool {
	return b.Product == nil || len(b.Product.For) == 0 || slices.Contains(b.Product.For, m)
}

// before reports whether a is rather used than b: the room's before what is somebody's own, what stands in a tray before bottles, the
// younger before the older.
func (t *taker) before(a, b *Bath) bool {
	if (a.Whose == "") != (b.Whose == "") {
		return a.Whose == ""
	}
	if (a.Container == darkroom.InTray) != (b.Container == darkroom.InTray) {
		return a.Container == darkroom.InTray
	}
	return a.Made.After(b.Made)
}

func (t *taker) chain(m material.Material, way []int) Chain {
	w := t.file.Darkroom.Standards[m]
	for _, l := range t.file.Session.ToMake {
		if l.Material == m && l.Wanted.Standard != process.StandardUnsaid {
			w.Standard = l.Wanted.Standard
		}
		if l.Material == m && l.Wanted.Fixing != process.FixingUnsaid {
			w.Fixing = l.Wanted.Fixing
		}
	}
	c := Chain{Material: m, Standard: w.Standard, Fixing: process.OneBath, WashAid: w.WashingAid.Value, Baths: way}
	if slices.ContainsFunc(way, func(i int) bool { return t.scene.Baths[i].Place == bath.Second }) {
		c.Fixing = process.TwoBaths
	}
	if c.Standard == process.StandardUnsaid && m.Paper() {
		c.Standard, c.Assumed = process.Exhibition, true
	}
	return c
}

// tonight takes what the session still wants: today's, less what went through since it began.
func (t *taker) tonight() {
	ses := &t.file.Session
	now := t.scene.Now
	starts, said := ses.Start(now.Location())
	if !said {
		return
	}
	lasts := ses.Lasts.Or(usualEvening)
	if now.Before(starts.Add(-12*time.Hour)) || now.After(starts.Add(lasts+2*time.Hour)) {
		return
	}
	t.scene.Ends = starts.Add(lasts)
	for _, l := range ses.ToMake {
		one, _ := l.Size.Value.Area()
		strip := t.file.Darkroom.Strip.Value.Float()
		if !t.file.Darkroom.Strip.Given() {
			strip = process.StripPart().Value
		}
		p := Pass{Material: l.Material, Area: float64(one), Sheets: float64(l.Sheets+l.Rolls) + strip*float64(l.Strips)}
		for i := range t.scene.Events {
			if e := &t.scene.Events[i]; e.Pass != nil && e.Pass.Material == l.Material && !e.At.Before(starts.Add(-time.Hour)) && one > 0 {
				p.Sheets -= e.Pass.Area * e.Pass.Sheets / float64(one)
			}
		}
		if p.Sheets > 0 && p.Area > 0 {
			p.Baths = pouredOut(t.scene.Baths, l.Material, t.way(l.Material))
			t.scene.Tonight = append(t.scene.Tonight, p)
		}
	}
}

const usualEvening = 3 * time.Hour
