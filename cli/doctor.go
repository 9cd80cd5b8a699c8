package cli

import (
	"wetside/words"
	"wetside/words/facts"
)

type doctorCmd struct {
	Cert string `help:"The certificate that is served with (PEM), to look at, too." and:"https" env:"WETSIDE_CERT" type:"path" placeholder:"FILE"`
	Key  string `help:"Its key (PEM)." and:"https" env:"WETSIDE_KEY" type:"path" placeholder:"FILE"`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run looks at everything that may go wrong, changes nothing, and says what would mend it.
func (c *doctorCmd) Run(s *session) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	v, err := s.plain()
	if err != nil {
		return err
	}
	all, err := s.parts.Upkeep.Examine(s.ctx, w, Examination{Cert: c.Cert, Key: c.Key})
	if err != nil {
		return s.trouble(v, c.JSON, Broken, err)
	}
	out := facts.Examined{Well: true, Checks: []facts.Check{}}
	for i := range all {
		out.Checks = append(out.Checks, toldCheck(v, &all[i]))
		out.Well = out.Well && all[i].State == Good
	}
	if c.JSON {
		writeJSON(s.io.Out, out)
	} else {
		tellExamined(newPrinter(s.io.Out), v, &out)
	}
	if !out.Well {
		return no()
	}
	return nil
}

// toldCheck says one row.
func toldCheck(v *words.Voice, c *Check) facts.Check {
	var pairs []string
	for place, f := range c.Figures {
		pairs = append(pairs, place, figureText(v, f))
	}
	out := facts.Check{
		Name: c.Name, State: string(c.State), Kind: c.Kind, Message: v.Tell("doctor."+c.Kind, pairs...).Text(),
	}
	if c.State != Good {
		out.Mend = v.Tell("doctor."+c.Kind+"_mend", pairs...).Text()
	}
	return out
}

func figureText(v *words.Voice, f Figure) string {
	switch {
	case f.Text != "":
		return f.Text
	case f.Bytes != 0:
		return v.Bytes(f.Bytes)
	case !f.At.IsZero():
		return v.Instant(f.At)
	case f.For != 0:
		return v.Span(f.For)
	default:
		return number(f.Count)
	}
}

// tellExamined prints a row for each check; what is not good first in its line, with its mend below.
func tellExamined(p *printer, v *words.Voice, out *facts.Examined) {
	marks := map[string]string{string(Good): "ok    ", string(Warning): "look  ", string(Bad): "wrong "}
	for _, c := range out.Checks {
		p.put(marks[c.State], "      ", c.Message)
		if c.Mend != "" {
			p.put("      ", "      ", v.Tell("doctor.mend", "Mend", c.Mend).Text())
		}
	}
	if out.Well {
		p.gap()
		p.wrap(v.Tell("doctor.well").Text())
	}
}
