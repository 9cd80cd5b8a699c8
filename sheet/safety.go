package sheet

import (
	"slices"

	"wetside/darkroom/hazards"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/hazard/meet"
	"wetside/words"
)

// sheetSign is a pictogram's side on the safety sheet, mm: the least that the standard knows.
const sheetSign = 10.0

// safety sets the sheet for the person in charge: each product in use as bought and as it works, what must never meet, and
// what the sheet does not know; before all that, what to do when it has happened.
func (c *cards) safety() error {
	report, err := hazards.Of(c.file)
	if err != nil {
		return err
	}
	c.page()
	c.head(c.v.Label("cards_safety"))
	c.flow(c.v.Tell("card.safety"), stepPoints)
	c.y += 2
	var aid []words.Phrase
	for _, x := range plan.AidCautions(c.file.Darkroom) {
		aid = append(aid, c.v.Caution(x))
	}
	c.sayAll(c.v.Label("cards_aid"), aid)
	for _, name := range c.plan.Products() {
		c.product(name, report.Items)
	}
	c.sayAll(c.v.Label("cards_never"), c.never(report.NeverAmong(c.plan.Products())))
	return nil
}

// product sets one product in its states.
func (c *cards) product(name string, items []hazards.Item) {
	role := ""
	if p, ok := c.file.Shelf.Product(name); ok {
		role = c.v.Role(p.Role)
	}
	c.room(lead(titlePoints) + draw.PictogramWide(sheetSign) + 4)
	c.ends(heavy(name), role, titlePoints)
	c.y += 0.6
	c.pen(scene.Hair, 0.3)
	c.doc.Line(margin, c.y, c.width-margin, c.y)
	c.y += 1.2
	for _, i := range items {
		if i.Product == name {
			c.state(c.v.Judged(i))
		}
	}
	c.y += 2
}

// state sets one judgement: its pictograms at the left, its words beside them.
func (c *cards) state(j words.Judged) {
	head := heavy(capital(j.Title))
	if j.Signal != "" {
		head = heavy(c.v.Titled(capital(j.Title), j.Signal))
	}
	all := []words.Phrase{head}
	for _, h := range j.H {
		all = append(all, plain(h))
	}
	for _, p := range [][]words.Phrase{j.NotJudged, {j.None, j.Gloves}} {
		all = append(all, slices.DeleteFunc(slices.Clone(p), func(p words.Phrase) bool { return len(p) == 0 })...)
	}
	if j.Extreme {
		all = append(all, j.PH)
	}
	wide := draw.PictogramWide(sheetSign)
	indent := 0.0
	if n := len(j.Pictograms); n > 0 {
		indent = float64(n)*(wide+1) + 2
	}
	high := 0.0
	for _, p := range all {
		high += c.blockHeight(p, plainPoints, c.inner()-indent)
	}
	if indent > 0 {
		high = max(high, wide)
	}
	c.room(high + 1)
	top := c.y
	for i, code := range j.Pictograms {
		if s, err := (draw.Pictogram{Code: code, Say: c.v.Pictogram(code)}).Scene(scene.Light); err == nil {
			s.PDF(c.doc, scene.Place{X: margin + float64(i)*(wide+1), Y: top, Width: wide}, family)
		}
	}
	for _, p := range all {
		c.block(p, plainPoints, margin+indent, c.inner()-indent)
	}
	c.y = top + high + 1.4
}

func (c *cards) never(pairs []meet.Pair) (all []words.Phrase) {
	for _, p := range pairs {
		all = append(all, c.v.MustNotMeet(p))
	}
	return all
}

// sayAll sets sentences under a head.
func (c *cards) sayAll(head string, all []words.Phrase) {
	if len(all) == 0 {
		return
	}
	c.room(lead(titlePoints) + 3*lead(stepPoints))
	c.block(heavy(head), titlePoints, margin, c.inner())
	c.y += 1
	for _, p := range all {
		c.room(c.blockHeight(p, stepPoints, c.inner()))
		c.block(p, stepPoints, margin, c.inner())
		c.y += 0.8
	}
	c.y += 2
}
