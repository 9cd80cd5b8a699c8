package cli

import (
	"strings"

	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/temper"
	"wetside/words"
	"wetside/words/facts"
)

type temperCmd struct {
	Cold     string `required:"" help:"The cold tap: 12C." placeholder:"TEMP"`
	Hot      string `required:"" help:"The hot tap: 50C." placeholder:"TEMP"`
	Want     string `required:"" help:"The temperature wanted: 20C, 68F." placeholder:"TEMP"`
	Make     string `required:"" help:"The volume wanted, with the chemical: 2 L." placeholder:"VOLUME"`
	Chemical string `help:"What is added, and how warm it is: 200 mL at 18C." placeholder:"VOLUME at TEMP"`
	Step     string `help:"The division of the vessel that the levels are read on." placeholder:"VOLUME" default:"50 mL"`
	Kettle   bool   `help:"There is a kettle."`
	Ice      bool   `help:"There is ice."`
	Ounce    string `help:"What an ounce is: us or imperial." enum:"us,imperial," default:""`
	Units    string `help:"How to speak: metric, us, imperial." enum:"metric,us,imperial" default:"metric"`
	JSON     bool   `name:"json" help:"Answer as JSON."`
}

// Run finds hot and cold water for a temperature.
func (c *temperCmd) Run(s *session) error {
	p, err := c.problem(s)
	if err != nil {
		return err
	}
	res, err := temper.Solve(s.ctx, p)
	if err != nil {
		v, verr := c.voice(s)
		if verr != nil {
			return verr
		}
		return bad(c.JSON, "%s", v.ReadError(err).Text())
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.OfTemper(res))
	} else if err := c.tell(s, res); err != nil {
		return err
	}
	if res.Status == temper.OutOfReach {
		return no()
	}
	return nil
}

func (c *temperCmd) ounce() quantity.Ounce {
	return map[string]quantity.Ounce{"us": quantity.OunceUS, "imperial": quantity.OunceImperial}[c.Ounce]
}

func (c *temperCmd) problem(s *session) (p temper.Problem, err error) {
	v, err := c.voice(s)
	if err != nil {
		return p, err
	}
	for _, t := range []struct {
		flag, text string
		to         *quantity.Celsius
	}{{"cold", c.Cold, &p.Cold}, {"hot", c.Hot, &p.Hot}, {"want", c.Want, &p.Want}} {
		if *t.to, err = quantity.ReadCelsius(t.text); err != nil {
			return p, bad(c.JSON, "--%s %s", t.flag, v.ReadError(err).Text())
		}
	}
	if p.Total, err = quantity.ReadVolume(c.Make, c.ounce()); err != nil {
		return p, bad(c.JSON, "--make %s", v.ReadError(err).Text())
	}
	if p.Step, err = quantity.ReadVolume(c.Step, c.ounce()); err != nil {
		return p, bad(c.JSON, "--step %s", v.ReadError(err).Text())
	}
	p.Kettle, p.Ice = c.Kettle, c.Ice
	if c.Chemical == "" {
		return p, nil
	}
	volume, at, ok := strings.Cut(c.Chemical, " at ")
	if !ok {
		return p, bad(c.JSON, "--chemical %q: write a volume and a temperature, as in \"200 mL at 18C\"", c.Chemical)
	}
	if p.Chemical, err = quantity.ReadVolume(volume, c.ounce()); err != nil {
		return p, bad(c.JSON, "--chemical %s", v.ReadError(err).Text())
	}
	if p.ChemicalAt, err = quantity.ReadCelsius(at); err != nil {
		return p, bad(c.JSON, "--chemical %s", v.ReadError(err).Text())
	}
	return p, nil
}

func (c *temperCmd) tell(s *session, res temper.Result) error {
	v, err := c.voice(s)
	if err != nil {
		return err
	}
	out := newPrinter(s.io.Out)
	water := words.Water{}
	if c.Chemical != "" {
		water.Chemical = v.Role(process.NoRole)
	}
	for _, line := range v.Temper(res, water) {
		out.wrap(line.Text())
	}
	return nil
}

func (c *temperCmd) voice(s *session) (*words.Voice, error) { return voiceFor(s, c.file(), c.ounce()) }

// file is a room that says nothing but how it speaks.
func (c *temperCmd) file() darkroom.File {
	var f darkroom.File
	f.Darkroom.Units = map[string]quantity.System{"us": quantity.US, "imperial": quantity.Imperial}[c.Units]
	return f
}
