package cli

import (
	"strings"

	"wetside/darkroom"
	"wetside/trade/chem"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

type phCmd struct {
	Amounts []string `arg:"" help:"What is dissolved, in mol per kg of water: \"acetic acid 0.05 mol/kg\"." name:"amount"`
	At      string   `help:"How warm it is, 10 to 40 °C." default:"20C" placeholder:"TEMP"`
	JSON    bool     `name:"json" help:"Answer as JSON."`
}

// Run solves the pH of a mixture.
func (c *phCmd) Run(s *session) error {
	v, err := voiceFor(s, darkroom.File{}, quantity.NoOunce)
	if err != nil {
		return err
	}
	at, err := quantity.ReadCelsius(c.At)
	if err != nil {
		return bad(c.JSON, "--at %s", explained(v, err))
	}
	amounts := make([]chem.Amount, 0, len(c.Amounts))
	for _, text := range c.Amounts {
		a, err := chem.ParseAmount(text)
		if err != nil {
			return bad(c.JSON, "%s", explained(v, err))
		}
		amounts = append(amounts, a)
	}
	m, err := chem.Mix(at, amounts...)
	if err != nil {
		return bad(c.JSON, "%s", explained(v, err))
	}
	res := m.Explain()
	if c.JSON {
		writeJSON(s.io.Out, facts.OfPH(res))
		return nil
	}
	c.tell(newPrinter(s.io.Out), v, res, at, amounts)
	return nil
}

func (c *phCmd) tell(p *printer, v *words.Voice, res chem.Result, at quantity.Celsius, amounts []chem.Amount) {
	ph, strength := v.FigureRows(res.Reckoning[0].Result)[0].Value, v.Figure(res.Reckoning[1].Result)
	p.wrap(v.Tell("ph.is", "PH", ph, "At", v.Temperature(at)).Text())
	said := make([]string, 0, len(amounts))
	for _, a := range amounts {
		said = append(said, a.String())
	}
	p.item(strings.Join(said, ", "))
	p.item(v.Tell("ph.strength", "Strength", strength).Text())
	for _, n := range res.Notes {
		p.put("  ╷ ", "    ", v.Tell("ph."+string(n)).Text())
	}
}
