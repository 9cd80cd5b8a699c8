package cli

import (
	"strings"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
	"wetside/words"
	"wetside/words/facts"
)

type washCmd struct {
	Material string `required:"" help:"What is washed: RC paper, FB paper, film." placeholder:"MATERIAL"`
	Prints   count  `help:"How many sheets or rolls at once; else 1." default:"1" placeholder:"N"`
	Size     string `help:"Their size; else 8x10 in, or 135-36." placeholder:"SIZE"`
	Standard string `help:"How long they shall last: work print, exhibition, archival; else exhibition." placeholder:"STANDARD"`
	Limit    string `help:"What may be left, g/m² of thiosulfate, in place of a standard." placeholder:"G/M2"`
	From     string `help:"The last fixer: its thiosulfate in g/L, or its dilution; else a fresh rapid fixer at 1+4." placeholder:"G/L or DILUTION"`
	Aid      bool   `help:"A washing aid went before."`
	Water    string `help:"How warm the water is; else 20 °C." default:"20C" placeholder:"TEMP"`
	Tray     string `help:"The water in the tray, tank or washer; else 4 L." default:"4 L" placeholder:"VOLUME"`
	Flow     string `help:"Fresh water in a minute; 0 L where none runs; else 2 L." default:"2 L" placeholder:"VOLUME"`
	Vessels  count  `help:"How many vessels stand one after another, for a cascade." default:"0" placeholder:"N"`
	Contact  string `help:"How long each still change stays, where longer than the least." placeholder:"TIME"`
	Found    string `help:"What a residual-thiosulfate test of your own found: none, faint, clear or dark, as the drop's stain is, or a figure, 0.05 g/m2." placeholder:"RESULT"`
	After    string `help:"After how long a wash that test was made." placeholder:"TIME"`
	WashedIn string `help:"The way that was washed then: still, running, cascade, standing; else running water where it runs." placeholder:"WAY"`
	Book     bool   `help:"Start from the last such test in the book." default:"true" negatable:""`
	whereFlags
	Ounce string `help:"What an ounce is: us or imperial." enum:"us,imperial," default:""`
	JSON  bool   `name:"json" help:"Answer as JSON."`
}

// Run finds every way of washing to a limit.
func (c *washCmd) Run(s *session) error {
	v, err := voiceFor(s, darkroom.File{}, ounceOf(c.Ounce))
	if err != nil {
		return err
	}
	if c.Prints < 1 {
		return bad(c.JSON, "--prints %s", explained(v, belowOne(int(c.Prints))))
	}
	r, size, err := c.request(v)
	if err != nil {
		return err
	}
	table, err := wash.Solve(r)
	if err != nil {
		return bad(c.JSON, "%s", explained(v, err))
	}
	tested, err := c.own(s, v, r)
	if err != nil {
		return err
	}
	a := table
	if r.Own = tested.Calibration; r.Own != nil {
		if a, err = wash.Solve(r); err != nil {
			return bad(c.JSON, "%s", explained(v, err))
		}
	}
	if c.JSON {
		out := facts.OfWash(a, v.Origin(a.Limit))
		if r.Own != nil {
			out.Own = facts.OfOwnWash(r.Own, tested.at, v.WashOwn(r.Own, v.WashTestOf(tested.at)).Text())
		}
		writeJSON(s.io.Out, out)
	} else if err := tellWash(newPrinter(s.io.Out), v, c.said(v, r, size), told{r, a, table, tested}); err != nil {
		return err
	}
	if a.Fastest < 0 {
		return no()
	}
	return nil
}

func ounceOf(word string) quantity.Ounce {
	return map[string]quantity.Ounce{"us": quantity.OunceUS, "imperial": quantity.OunceImperial}[word]
}

// request parses the words, once, into a request.
func (c *washCmd) request(v *words.Voice) (r wash.Request, size material.Size, err error) {
	flag := ""
	misread := func(err error) error { return bad(c.JSON, "%s %s", flag, explained(v, err)) }
	for _, x := range []struct {
		flag, text string
		read       func(text string) error
	}{
		{"--material", c.Material, func(text string) (err error) { r.Load.Material, err = material.Read(text); return err }},
		{"--size", c.Size, func(text string) (err error) { size, _, err = material.ReadUsual(text); return err }},
		{"--standard", c.Standard, func(text string) (err error) { r.Limit.Standard, err = process.ReadStandard(text); return err }},
		{"--limit", c.Limit, func(text string) (err error) { r.Limit.Own, err = wash.ReadPerSquareMetre(text); return err }},
		{"--from", c.From, func(text string) (err error) { r.Load.Start, err = thiosulfate(text, ounceOf(c.Ounce)); return err }},
		{"--water", c.Water, func(text string) (err error) { r.Load.Water, err = quantity.ReadCelsius(text); return err }},
		{"--tray", c.Tray, func(text string) (err error) {
			r.Setting.Vessel, err = quantity.ReadVolume(text, ounceOf(c.Ounce))
			return err
		}},
		{"--flow", c.Flow, func(text string) (err error) {
			r.Setting.Flow, err = quantity.ReadVolume(text, ounceOf(c.Ounce))
			return err
		}},
		{"--contact", c.Contact, func(text string) (err error) { r.Setting.Contact, err = quantity.ReadDuration(text); return err }},
	} {
		if flag = x.flag; x.text == "" {
			continue
		}
		if err := x.read(strings.TrimSpace(x.text)); err != nil {
			return r, size, misread(err)
		}
	}
	if r.Limit.Standard == process.StandardUnsaid {
		r.Limit.Standard = process.Exhibition
	}
	if size == (material.Size{}) {
		size = usualSize(r.Load.Material)
	}
	one, _ := size.Area()
	r.Load.Area, r.Load.Aid, r.Setting.Stages = one*quantity.Area(c.Prints), c.Aid, int(c.Vessels)
	return r, size, nil
}

func usualSize(m material.Material) material.Size {
	if m == material.Film {
		return material.Size{Roll: material.Roll135x36}
	}
	return material.Inches(8, 10)
}

// thiosulfate reads what the last fixer holds, g/L: as such, or as the dilution of a rapid fixer that at 1+4 has what
// package wash takes for one.
func thiosulfate(text string, o quantity.Ounce) (float64, error) {
	if number, said := strings.CutSuffix(strings.ReplaceAll(text, "g/l", "g/L"), "g/L"); said {
		n, err := quantity.ReadRatio(strings.TrimSpace(number))
		return n.Float(), err
	}
	d, err := dilution.Read(text, dilution.Options{Ounce: o})
	if err != nil {
		return 0, err
	}
	share, err := d.Strength(0)
	const film = 5 // parts in all at film strength, one of them fixer
	return share.Float() * film * wash.FreshFixer().Value, err
}

// said says what is washed in what.
func (c *washCmd) said(v *words.Voice, r wash.Request, size material.Size) string {
	key := "wash.load"
	if r.Load.Aid {
		key = "wash.load_aid"
	}
	noun, flow := "sheets", ""
	if size.Roll != material.NoRoll {
		noun = "rolls"
	}
	if r.Setting.Flow > 0 {
		flow = v.Volume(r.Setting.Flow)
	}
	return v.Tell(key, "Count", v.Count(noun, int(c.Prints)), "Size", v.Size(size), "Material", v.Material(r.Load.Material),
		"Tray", v.Volume(r.Setting.Vessel), "Water", v.Temperature(r.Load.Water), "Flow", flow).Text()
}
