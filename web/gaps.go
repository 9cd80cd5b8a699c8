package web

import (
	"net/url"

	"wetside/plan"
	"wetside/words"
)

// A gapView is something that nobody has told yet, and where it is told.
type gapView struct {
	Say words.Phrase
	At  string
}

// gaps parts what a plan lacks: what is missing, and what only nobody has told yet, as how much of a product stands there.
func (v *visit) gaps(p plan.Plan) (missing []plan.Missing, gaps []gapView) {
	for _, m := range p.Missing {
		if m.Kind != plan.NoLot {
			missing = append(missing, m)
			continue
		}
		gaps = append(gaps, gapView{
			v.say.Tell("how_much_there", "Product", m.Product), "/shelf/lot/new?" + url.Values{"product": {m.Product}}.Encode(),
		})
	}
	return missing, gaps
}
