package cli

import (
	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

type mixCmd struct {
	Dilution  string `arg:"" help:"The label's words: 1+9, 1:9, 16 mL per litre, 3 %, 1+1 from stock."`
	Volume    string `arg:"" help:"What the tray or tank takes: 1 L, 900 mL to 1 L, 32 US fl oz."`
	For       string `help:"What it is: developer, stop bath, fixer, washing aid, wetting agent, toner, hardener." placeholder:"ROLE"`
	Material  string `help:"What goes through it: RC paper, FB paper, film." placeholder:"MATERIAL"`
	Tolerance string `help:"How far its strength may stray; else as usual for what it is." placeholder:"10%"`
	Ounce     string `help:"What an ounce is: us or imperial." enum:"us,imperial," default:""`
	File      string `short:"f" help:"A darkroom file, for its own jugs and products." type:"existingfile" predictor:"file"`
	Others    int    `help:"How many other ways to tell beside the best, up to 4." default:"2"`
	Picture   bool   `help:"Draw each jug with the mark to stop at." default:"true" negatable:""`
	JSON      bool   `name:"json" help:"Answer as JSON."`
}

// Run finds the readings of one bath.
func (c *mixCmd) Run(s *session) error {
	r, note, err := c.request(s)
	if err != nil {
		return err
	}
	one, err := plan.MakeOne(s.ctx, r)
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.OfOne(one))
	} else if err := c.tell(s, r, one, note); err != nil {
		return err
	}
	if one.Result.Status != measure.Optimal {
		return no()
	}
	return nil
}

// request parses the words, once, into a request; note says that the usual bench and its ounce were taken.
func (c *mixCmd) request(s *session) (r plan.OneRequest, note bool, err error) {
	ounce := quantity.OunceUS // of the usual bench
	if c.File != "" {
		if r.File, err = s.readFile(c.File, c.JSON); err != nil {
			return r, false, err
		}
		ounce = r.File.Darkroom.Ounce
	}
	switch c.Ounce {
	case "us":
		ounce = quantity.OunceUS
	case "imperial":
		ounce = quantity.OunceImperial
	}
	r.Alternatives = min(max(c.Others, 0), 4)
	v, err := voiceFor(s, r.File, ounce)
	if err != nil {
		return r, false, err
	}
	if r.Dilution, err = dilution.Read(c.Dilution, dilution.Options{Ounce: ounce}); err != nil {
		return r, false, bad(c.JSON, "dilution %s", v.ReadError(err).Text())
	}
	if r.Window, err = quantity.ReadWindow(c.Volume, ounce); err != nil {
		return r, false, bad(c.JSON, "volume %s", v.ReadError(err).Text())
	}
	return r, c.File == "", c.uses(&r, v)
}

// uses reads what the bath is for.
func (c *mixCmd) uses(r *plan.OneRequest, v *words.Voice) (err error) {
	if c.For != "" {
		if r.Role, err = process.ReadRole(c.For); err != nil {
			return bad(c.JSON, "--for %s", v.ReadError(err).Text())
		}
	}
	if c.Material != "" {
		if r.Material, err = material.Read(c.Material); err != nil {
			return bad(c.JSON, "--material %s", v.ReadError(err).Text())
		}
	}
	if c.Tolerance != "" {
		if r.Tolerance, err = quantity.ReadShare(c.Tolerance); err != nil {
			return bad(c.JSON, "--tolerance %s", v.ReadError(err).Text())
		}
		if r.Tolerance <= 0 {
			return bad(c.JSON, "--tolerance %s: must be above nothing", c.Tolerance)
		}
	}
	return nil
}

// tell prints the answer for people: the best way with its picture, then others.
func (c *mixCmd) tell(s *session, r plan.OneRequest, one plan.One, note bool) error {
	v, err := voiceFor(s, r.File, r.File.Darkroom.Ounce)
	if err != nil {
		return err
	}
	p := newPrinter(s.io.Out)
	b := words.Batch{
		Vessels: one.Vessels, Dilution: one.Dilution, Chemical: one.Product, Tank: r.Material == material.Film,
		WaterFirst: one.WaterFirst,
	}
	p.wrap(v.DilutionNote(c.Dilution, one.Dilution).Text())
	if one.Result.Status != measure.Optimal {
		p.wrap(v.Lack(one.Result, b, one.Window).Text())
		p.wrap(v.Advice(one.Result.Advice).Text())
		return nil
	}
	best := one.Result.Choices[0]
	p.head(v.Summary(best, b, r.Role, one.Tolerance).Text())
	for _, x := range one.Cautions { // before anything is poured
		p.caution(v.Caution(x).Text())
	}
	p.lines(v.Mix(best, b))
	if c.Picture {
		p.pictures(v, best, b)
	}
	for _, x := range one.Findings {
		p.item(v.Finding(x).Text())
	}
	p.wrap(v.Advice(one.Result.Advice).Text())
	p.others(v, one.Result.Choices[1:], b)
	if note {
		say(s.io.Err, "%s\n", v.Label("usual_bench"))
	}
	return nil
}
