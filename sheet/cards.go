package sheet

import (
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

// Cards writes what a class or a shared room hangs up as PDF: a card for each tray, two on a page; the room's rules with the
// lists for setting up and for the end; a safety sheet of all that is in use, for the person in charge. The paper is the room's
// own (Letter, else A4). The error is the writer's, the document's own, or that of package hazards for shares that can't be.
func Cards(w io.Writer, v *words.Voice, p plan.Plan, r ahead.Report, f darkroom.File) error {
	c := cards{setter: newSetter(f.Darkroom.PrintOn, title{p.Name, p.Starts}, v), plan: p, report: r, file: f}
	if err := c.trays(); err != nil {
		return err
	}
	c.rules()
	if err := c.safety(); err != nil {
		return err
	}
	return c.output(w, "cards")
}

type cards struct {
	*setter
	plan   plan.Plan
	report ahead.Report
	file   darkroom.File
}

// Sizes of text on a card in points: the name and the times are read from where one stands at the sink.
const (
	cardName  = 34.0
	cardTime  = 26.0
	cardText  = 18.0
	cardLeast = 9.0
	cardTray  = 40.0 // mm

	listPoints = 11.0 // of the rules and lists
)

// trays sets a card for each tray that is worked in, two on a page with a line to cut between them.
func (c *cards) trays() error {
	half := (c.height - footer - margin) / 2
	n := 0
	for i, b := range c.plan.Baths {
		if b.Tray == "" {
			continue
		}
		if n > 0 && n%2 == 0 {
			c.page()
		}
		c.y = margin + float64(n%2)*half
		if n%2 == 1 {
			c.pen(scene.Hair, 0.2)
			c.doc.SetDashPattern([]float64{2, 2}, 0)
			c.doc.Line(0, c.y-3, c.width, c.y-3)
			c.doc.SetDashPattern(nil, 0)
			c.y += 3
		}
		n++
		if err := c.card(n, i, half-8); err != nil {
			return err
		}
	}
	return nil
}

// card sets one card: what it is, how long, what it does, which tongs, what harms it and you. Its words are as large as they fit.
func (c *cards) card(n, i int, high float64) error {
	b := c.plan.Baths[i]
	top := c.y
	inner := c.inner() - cardTray - gutter
	if s, ok := c.tray(b); ok {
		s.PDF(c.doc, scene.Place{X: c.width - margin - cardTray, Y: top, Width: cardTray}, family)
		c.doc.SetDashPattern(nil, 0)
	}
	name := heavy(strconv.Itoa(n) + "  " + c.v.BathTitle(b))
	c.block(name, c.shrunk(name, cardName, inner), margin, inner)
	times := c.times(i)
	for _, t := range times {
		c.block(t, c.shrunk(t, cardTime, inner), margin, inner)
	}
	c.y = max(c.y, top+cardTray*0.75) + 2
	c.pen(scene.Mark, 0.5)
	c.doc.Line(margin, c.y, c.width-margin, c.y)
	c.y += 3
	lines, err := c.tells(b)
	if err != nil {
		return err
	}
	pt := cardText
	for pt > cardLeast && c.allHigh(lines, pt) > top+high-c.y {
		pt -= 0.5
	}
	for _, p := range lines {
		c.block(p, pt, margin, c.inner())
		c.y += 1.4
	}
	return nil
}

// shrunk is the size in which a phrase takes one line, never less than half.
func (c *cards) shrunk(p words.Phrase, pt, width float64) float64 {
	least := pt / 2
	for pt > least && len(c.lines(p, pt, width)) > 1 {
		pt--
	}
	return pt
}

func (c *cards) allHigh(all []words.Phrase, pt float64) float64 {
	h := 0.0
	for _, p := range all {
		h += c.blockHeight(p, pt, c.inner()) + 1.4
	}
	return h
}

func (c *cards) tray(b plan.Bath) (scene.Scene, bool) {
	t, place, ok := trayOf(c.file, b.Tray)
	if !ok {
		return scene.Scene{}, false
	}
	s, err := draw.Tray{
		Name: t.Name, Colour: t.Colour, Pattern: draw.PatternAt(place), Wide: t.Inside.Value.Width, High: t.Inside.Value.Height,
	}.Scene(scene.Light)
	return s, err == nil
}

// times says how long each material lies in a bath, then how long it drains.
func (c *cards) times(bath int) (all []words.Phrase) {
	var seen []string
	add := func(m material.Material, time, drain time.Duration) {
		pairs := []string{"Of", c.v.Material(m), "Time", c.v.Time(time), "Drain", ""}
		if drain > 0 {
			pairs[5] = c.v.Time(drain)
		}
		p := c.v.Tell("card.time", pairs...)
		if !slices.Contains(seen, p.Text()) {
			seen, all = append(seen, p.Text()), append(all, p)
		}
	}
	for _, l := range c.plan.Loads {
		for _, t := range l.Times {
			if t.Bath == bath && t.Time > 0 {
				add(l.Material, t.Time, t.Drain)
			}
		}
	}
	return all
}

// tells says what a bath does, with which tongs, what harms it, and what it does to you.
func (c *cards) tells(b plan.Bath) ([]words.Phrase, error) {
	key := cardKey(b)
	out := []words.Phrase{c.v.Tell("card.does_" + key)}
	if key != "wash" {
		out = append(out, c.v.Tell("card.tongs", "Tray", b.Tray))
	}
	if c.v.Tells("card.spoils_" + key) {
		out = append(out, c.v.Tell("card.spoils_"+key))
	}
	product, known := c.file.Shelf.Product(b.Product)
	if !known {
		return append(out, c.v.Tell("card.water")), nil
	}
	judged, err := hazards.OfBath(c.file, &product, b.Dilution)
	if err != nil {
		return nil, err
	}
	var harm strings.Builder
	for _, code := range judged.Codes {
		harm.WriteString(" " + c.v.Statement(code, judged.Elicits))
	}
	return append(out, c.v.Tell("card.harms", "Signal", c.v.Signal(judged.Signal), "Statements", harm.String()), c.v.Tell("card.skin")), nil
}

// cardKey is the key of a bath's sentences.
func cardKey(b plan.Bath) string {
	switch {
	case b.Step == process.SecondFix:
		return "second"
	case b.Role == process.Developer:
		return "developer"
	case b.Role == process.StopBath:
		return "stop"
	case b.Role == process.Fixer:
		return "fixer"
	case b.Role == process.WashingAid:
		return "aid"
	case b.Role == process.WettingAgent:
		return "wetting"
	case b.Step == process.Wash:
		return "wash"
	case b.Role == process.NoRole:
		return "rinse"
	}
	return "other"
}

// rules sets the room's rules, then what is done before the first sheet and at the end, each with a box to tick.
func (c *cards) rules() {
	c.page()
	c.head(c.v.Label("cards_rules"))
	for i := 1; c.v.Tells("rule.r" + strconv.Itoa(i)); i++ {
		c.numbered(i, c.v.Tell("rule.r"+strconv.Itoa(i)))
	}
	room := sink.Room{Report: c.report, Plan: c.plan, Place: c.file.Darkroom.Place}
	for _, list := range []struct {
		name  string
		items []sink.Item
	}{{c.v.Label("opening_list"), c.opening()}, {c.v.Label("closing_list"), room.Closing()}} {
		c.y += 4
		c.room(c.listHigh(list.items))
		c.head(list.name)
		for _, x := range list.items {
			c.boxed(c.v.ListItem(x))
		}
	}
}

// opening is what is done before the first sheet where nothing stands yet: every bath is mixed, each tray gets its tongs.
func (c *cards) opening() (all []sink.Item) {
	empty := sink.Room{Plan: c.plan, Place: c.file.Darkroom.Place}
	for _, x := range empty.Opening() {
		all = append(all, x)
		if x.Kind != sink.ItemAir {
			continue
		}
		for _, i := range c.plan.Order {
			if b := c.plan.Baths[i]; b.Product != "" {
				all = append(all, sink.Item{Kind: sink.ItemMix, Planned: &b})
			}
		}
		for _, b := range c.plan.Baths {
			if b.Tray != "" && b.Product != "" {
				all = append(all, sink.Item{Kind: sink.ItemTongs, Station: &sink.Station{Step: b.Step}, Tray: b.Tray})
			}
		}
	}
	return all
}

func (c *cards) head(text string) {
	c.block(heavy(text), namePoints, margin, c.inner())
	c.y += 2.4
	c.rule()
}

const boxSide = 3.6

// listHigh is how much room a list with its head asks for: all that it needs, so that it hangs on one page, else a few lines.
func (c *cards) listHigh(items []sink.Item) float64 {
	high := lead(namePoints) + 2.4 + lead(stepPoints)
	for _, x := range items {
		high += c.blockHeight(c.v.ListItem(x), listPoints, c.inner()-8) + 1.2
	}
	if high > c.height-footer-margin {
		return lead(titlePoints) + 4*lead(stepPoints)
	}
	return high
}

// numbered sets a rule with its number.
func (c *cards) numbered(n int, p words.Phrase) {
	c.room(c.blockHeight(p, listPoints, c.inner()-8))
	c.ink(scene.Soft)
	c.weigh(true, listPoints)
	c.doc.Text(margin, c.y+lead(listPoints)*0.76, strconv.Itoa(n))
	c.block(p, listPoints, margin+8, c.inner()-8)
	c.y += 1.2
}

// boxed sets a line with a box to tick.
func (c *cards) boxed(p words.Phrase) {
	c.room(c.blockHeight(p, listPoints, c.inner()-8))
	c.pen(scene.Mark, 0.3)
	c.doc.Rect(margin, c.y+0.6, boxSide, boxSide, "D")
	c.block(p, listPoints, margin+8, c.inner()-8)
	c.y += 1.2
}
