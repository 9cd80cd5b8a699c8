package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"wetside/ahead"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/bath"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"
)

// ifLink is another way of working that one tap compares.
type ifLink struct {
	Text, At string
	Here     bool
}

// ifForm takes what a link can't say.
type ifForm struct{ Dilution, Volume, Sheets field }

// compared is how a bath is worked and another way, side by side.
type compared struct {
	Sides []side
}

type side struct {
	Title string
	Big   words.Phrase
	Lead  words.Phrase
	Tape  *scene.Scene
}

// another is another way of working: what it is called, and what it changes.
type another struct {
	key    string
	change func(s *ahead.Scene, index int)
}

// others are the other ways that a word says; those that are as it is already are left out.
func others(o *ahead.Outlook) []another {
	c, fixer := &o.Chain, o.Bath.Role == process.Fixer
	var out []another
	add := func(when bool, key string, change func(s *ahead.Scene, index int)) {
		if when {
			out = append(out, another{key, change})
		}
	}
	for _, x := range process.Standards() {
		add(fixer && c.Material.Paper() && c.Standard != x, key(x.String()), func(s *ahead.Scene, _ int) { s.Chains[0].Standard = x })
	}
	add(c.Material == material.FB, "rc_paper", func(s *ahead.Scene, _ int) { s.Chains[0].Material = material.RC })
	add(c.Material == material.RC, "fb_paper", func(s *ahead.Scene, _ int) { s.Chains[0].Material = material.FB })
	add(fixer && c.Material.Paper() && c.Fixing != process.TwoBaths, "two_baths", freshSecond)
	add(fixer && c.Fixing == process.TwoBaths && o.Bath.Place != bath.Second, "one_bath", secondAway)
	add(c.Material != material.None, "sheets_12", func(s *ahead.Scene, _ int) { throughNow(s, 12) })
	return out
}

// freshSecond puts a fresh second fixer, as strong and as much, behind the one that stands there.
func freshSecond(s *ahead.Scene, index int) {
	second := s.Baths[index]
	s.Baths[index].Place = bath.First
	second.ID, second.Place, second.Made, second.Since = "", bath.Second, s.Now, s.Now
	s.Baths = append(s.Baths, second)
	c := &s.Chains[0]
	c.Fixing = process.TwoBaths
	if at := slices.Index(c.Baths, index); at >= 0 {
		c.Baths = slices.Insert(c.Baths, at+1, len(s.Baths)-1)
	}
}

// secondAway takes the second fixer out of the way.
func secondAway(s *ahead.Scene, _ int) {
	c := &s.Chains[0]
	c.Fixing = process.OneBath
	c.Baths = slices.DeleteFunc(c.Baths, func(i int) bool { return s.Baths[i].Place == bath.Second })
}

// throughNow puts more sheets of 8×10 through the way.
func throughNow(s *ahead.Scene, sheets float64) {
	c := s.Chains[0]
	s.Events = append(slices.Clone(s.Events), ahead.Event{At: s.Now, Pass: &ahead.Pass{
		Material: c.Material, Area: ahead.Area8x10, Sheets: sheets, Baths: c.Baths,
	}})
}

// ifs are the links and the form of the other ways.
func (v *visit) ifs(o *ahead.Outlook, r *http.Request) ([]ifLink, ifForm) {
	q := r.URL.Query()
	var links []ifLink
	if o.Chain.Material != material.None {
		for _, x := range others(o) {
			links = append(links, ifLink{
				Text: v.say.Label("if_" + x.key), At: bathPath(o.Bath.ID) + "?if=" + x.key + "#if", Here: q.Get("if") == x.key,
			})
		}
	}
	return links, ifForm{
		Dilution: field{Name: "dilution", Label: v.say.Label("dilution"), Value: q.Get("dilution"), Example: o.Bath.Words},
		Volume:   field{Name: "volume", Label: v.say.Label("volume"), Value: q.Get("volume"), Example: v.litres(&o.Bath)},
		Sheets:   field{Name: "more", Label: v.say.Label("if_sheets"), Value: q.Get("more"), Mode: "numeric", Example: "12"},
	}
}

// asksIf returns the change that an address asks for, and what it is called; nil where it asks for none. The fields keep
// what was typed with what is wrong.
func (v *visit) asksIf(q url.Values, o *ahead.Outlook, f *ifForm) (title string, change func(s *ahead.Scene, index int)) {
	for _, x := range others(o) {
		if x.key == q.Get("if") {
			return v.say.Label("if_" + x.key), x.change
		}
	}
	var titles []string
	var changes []func(s *ahead.Scene, index int)
	add := func(title string, change func(s *ahead.Scene, index int)) {
		titles, changes = append(titles, title), append(changes, change)
	}
	if text := strings.TrimSpace(q.Get("dilution")); text != "" {
		d, err := dilution.Read(text, dilution.Options{Ounce: v.file.Darkroom.Ounce})
		if err != nil {
			f.Dilution.Problem = v.say.ReadError(err).Text()
			return "", nil
		}
		add(text, func(s *ahead.Scene, i int) { s.Baths[i].Dilution, s.Baths[i].Words = d, text })
	}
	if text := strings.TrimSpace(q.Get("volume")); text != "" {
		vol, err := quantity.ReadVolume(text, v.file.Darkroom.Ounce)
		if err == nil && vol <= 0 {
			err = quantity.NewReadError(text, 0, "volume", quantity.WhyNotPositive)
		}
		if err != nil {
			f.Volume.Problem = v.say.ReadError(err).Text()
			return "", nil
		}
		add(v.say.Volume(vol), func(s *ahead.Scene, i int) { s.Baths[i].Litres = vol.ML() / 1000 })
	}
	if text := strings.TrimSpace(q.Get("more")); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > mostSheets {
			f.Sheets.Problem = v.say.Label("if_sheets_wrong")
			return "", nil
		}
		add(v.say.Tell("if_more", "Sheets", v.say.Count("sheets", n)).Text(), func(s *ahead.Scene, _ int) { throughNow(s, float64(n)) })
	}
	if len(changes) == 0 {
		return "", nil
	}
	return joined(titles...), func(s *ahead.Scene, i int) {
		for _, c := range changes {
			c(s, i)
		}
	}
}

// mostSheets bounds what is asked about at once: more than a day prints.
const mostSheets = 2000

// compare looks ahead once more, another way, and sets both answers side by side.
func (p *bathPage) compare(v *visit, r *http.Request, s ahead.Scene, o *ahead.Outlook) error {
	title, change := v.asksIf(r.URL.Query(), o, &p.IfFields)
	if change == nil {
		return nil
	}
	s.Helps, s.Courses, s.Tonight = false, false, nil
	s.Baths, s.Chains = slices.Clone(s.Baths), []ahead.Chain{o.Chain}
	s.Chains[0].Baths = slices.Clone(o.Chain.Baths)
	change(&s, o.Index)
	report, err := ahead.Look(s)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(report.Baths, func(x ahead.Outlook) bool { return x.Index == o.Index })
	if i < 0 {
		return nil
	}
	then := report.Baths[i]
	scale := v.tapeScale([]ahead.Outlook{*o, then})
	p.Compared = &compared{Sides: []side{v.side(v.say.Label("as_it_is"), o, scale), v.side(capital(title), &then, scale)}}
	return nil
}

func (v *visit) side(title string, o *ahead.Outlook, scale float64) side {
	return side{Title: title, Big: v.say.Big(*o), Lead: v.say.Outlook(*o), Tape: v.tape(o, scale, draw.Wall)}
}
