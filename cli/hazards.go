package cli

import (
	"strings"

	"wetside/darkroom/hazards"
	"wetside/words/facts"
)

type hazardsCmd struct {
	File string `arg:"" help:"A darkroom file; - is standard input." predictor:"file"`
	languageFlag
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run judges what a darkroom file has on its shelf.
func (c *hazardsCmd) Run(s *session) error {
	f, err := s.readFile(c.File, c.JSON)
	if err != nil {
		return err
	}
	if err := c.speak(s, &f, c.JSON); err != nil {
		return err
	}
	v, err := voiceFor(s, f, f.Darkroom.Ounce)
	if err != nil {
		return err
	}
	r, err := hazards.Of(f)
	if err != nil {
		product, _, _ := strings.Cut(err.Error(), ": ")
		return bad(c.JSON, "%s: %s", product, unmixed(v, err))
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.OfHazards(r))
		return nil
	}
	hazardTeller{newPrinter(s.io.Out), v, map[string]bool{}}.shelf(r)
	return nil
}

// shelf prints a shelf's judgement: each product as bought and thinned, and what must never meet.
func (t hazardTeller) shelf(r hazards.Report) {
	if len(r.Items) == 0 {
		t.p.wrap(t.v.Tell("hazard.empty_shelf").Text())
		return
	}
	t.once(t.v.Tell("hazard.estimate").Text())
	for _, i := range r.Items {
		title := i.Product + ", " + t.v.HazardState(i.Result.State)
		if i.Dilution != "" {
			title += " " + i.Dilution
		}
		t.p.head(title)
		t.judgement(i.Result)
	}
	if len(r.Never) == 0 {
		return
	}
	t.p.head(t.v.Tell("meets.head").Text())
	for _, n := range r.Never {
		t.p.caution(t.v.MustNotMeet(n).Text())
	}
	if r.Reducer {
		t.p.item(t.v.Tell("meets.reducer").Text())
	}
}
