package cli

import (
	"strconv"
	"strings"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/bath"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

// whatIf tells an evening as it is and as it would be.
func (c *planCmd) whatIf(s *session, f darkroom.File) error {
	change, ok := readChange(c.If, f.Darkroom.Ounce)
	if !ok {
		return bad(c.JSON, "--what-if %q: write one of: archival; two baths; FB paper; 12 more; fixer 1+9; 3 L trays", c.If)
	}
	w, err := plan.If(s.ctx, plan.Request{File: f, Now: s.parts.Now(), Whose: c.Whose}, change)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.OfWhatIf(w))
		return nil
	}
	v, err := voiceFor(s, f, f.Darkroom.Ounce)
	if err != nil {
		return err
	}
	p := newPrinter(s.io.Out)
	p.head(v.Tell("if.head", "Change", c.If).Text())
	same := true
	for _, b := range w.Baths {
		if !b.Same() {
			p.item(compared(v, b))
			same = false
		}
	}
	p.gap()
	if same {
		p.wrap(v.Tell("if.same").Text())
	} else {
		p.wrap(v.Tell("if.others").Text())
	}
	p.wrap(v.Tell("if.cost", "Now", v.Money(w.Now.Cost.Total, w.Now.Cost.Currency), "Then", v.Money(w.Then.Cost.Total, w.Then.Cost.Currency)).Text())
	return nil
}

// compared says one bath in both evenings.
func compared(v *words.Voice, b plan.Compared) string {
	side := func(makings int, volume quantity.Volume, left *bath.Counts) string {
		if makings == 0 {
			return v.Tell("if.none").Text()
		}
		count := ""
		if left != nil {
			count = strconv.Itoa(left.P10)
		}
		return v.Tell("if.side", "Volume", v.Volume(volume), "Times", v.Times(makings), "Left", count, "Units", v.OfUnits(b.Of)).Text()
	}
	return v.Tell("if.bath", "Bath", strings.ReplaceAll(b.ID, "-", " "),
		"Now", side(b.MakingsNow, b.VolumeNow, b.LeftNow), "Then", side(b.MakingsThen, b.VolumeThen, b.LeftThen)).Text()
}

// readChange reads what would be otherwise: a standard, a way of fixing, a material, "12 more", a role with a dilution, or
// a volume of the trays.
func readChange(text string, o quantity.Ounce) (c plan.Change, ok bool) {
	text = strings.Join(strings.Fields(text), " ")
	if st, err := process.ReadStandard(text); err == nil {
		return plan.Change{Standard: st}, true
	}
	if fx, err := process.ReadFixing(text); err == nil {
		return plan.Change{Fixing: fx}, true
	}
	if m, err := material.Read(text); err == nil && m.Paper() {
		return plan.Change{Material: m}, true
	}
	if n, found := strings.CutSuffix(text, " more"); found {
		if more, err := strconv.Atoi(n); err == nil && more > 0 {
			return plan.Change{More: more}, true
		}
	}
	if volume, found := strings.CutSuffix(text, " trays"); found {
		if v, err := quantity.ReadVolume(volume, o); err == nil && v > 0 {
			return plan.Change{Trays: darkroom.As[quantity.Volume]{Value: v, Text: volume}}, true
		}
	}
	for _, role := range process.Roles() {
		words, found := strings.CutPrefix(text, role.String()+" ")
		if !found || role == process.NoRole {
			continue
		}
		if d, err := dilution.Read(words, dilution.Options{Ounce: o}); err == nil {
			return plan.Change{Role: role, Dilution: darkroom.As[dilution.Dilution]{Value: d, Text: words}}, true
		}
	}
	return c, false
}
