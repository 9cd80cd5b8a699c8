package cli

import (
	"io"
	"strconv"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/draw"
	"wetside/trade/waste"
	"wetside/words"
	"wetside/words/facts"
)

type wasteCmd struct {
	whereFlags
	Year  int    `help:"The calendar year; this one where it is left out." placeholder:"YEAR"`
	PDF   string `name:"pdf" help:"Write the year's sheet as PDF, too, to be signed." placeholder:"OUT"`
	CSV   string `name:"csv" help:"Write the year as a table, too." placeholder:"OUT"`
	Force bool   `help:"Overwrite the PDF or the table."`
	languageFlag
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run tells of the waste cans: how full they are, what the year brought, and where each kind of bath goes here.
func (c *wasteCmd) Run(s *session) error {
	return s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
		if err := b.speak(c.languageFlag); err != nil {
			return err
		}
		now := s.parts.Now()
		year := c.Year
		if year == 0 {
			year = now.Year()
		}
		if year < firstYear || year > now.Year() {
			return bad(c.JSON, "--year %s", b.v.Tell("cli.no_year", "Found", strconv.Itoa(year)).Text())
		}
		from := time.Date(year, time.January, 1, 0, 0, 0, 0, now.Location())
		if err := b.wake(func(s *book.State) book.Waking { return s.NeedsBaths(ahead.InCans(s, from)...) }); err != nil {
			return err
		}
		y, err := ahead.YearOfWaste(b.state, year, now)
		if err != nil {
			return err
		}
		if err := c.papers(s, b, y); err != nil {
			return err
		}
		if c.JSON {
			writeJSON(s.io.Out, facts.OfWaste(&y, func(x *ahead.Can) string { return b.v.CanLevel(x).Text() }, func(a *waste.Advice) (string, []string) {
				return b.v.Drain(a).Text(), texts(b.v.DrainWhy(a))
			}))
			return nil
		}
		return tellWaste(newPrinter(s.io.Out), b.v, &y)
	})
}

// firstYear is the first that is asked about; what is earlier is a slip of the pen.
const firstYear = 1900

func texts(all []words.Phrase) []string {
	out := []string{}
	for _, p := range all {
		out = append(out, p.Text())
	}
	return out
}

func (c *wasteCmd) papers(s *session, b *bench, y ahead.WasteYear) error {
	if c.PDF != "" {
		if err := writeFile(c.PDF, c.Force, c.JSON, func(w io.Writer) error { return s.parts.WasteSheet(w, y, b.file) }); err != nil {
			return err
		}
	}
	if c.CSV == "" {
		return nil
	}
	return writeFile(c.CSV, c.Force, c.JSON, func(w io.Writer) error { return s.parts.WasteTable(w, y) })
}

func tellWaste(p *printer, v *words.Voice, y *ahead.WasteYear) error {
	if len(y.Cans) == 0 {
		p.wrap(v.Label("can_none"))
	}
	for i := range y.Cans {
		if err := tellCan(p, v, &y.Cans[i]); err != nil {
			return err
		}
	}
	if y.Taken > 0 {
		p.head(v.Tell("waste_year", "Year", strconv.Itoa(y.Year)).Text())
		p.wrap(v.Tell("waste_all", "Put", v.Volume(y.Put), "Taken", v.Volume(y.Taken)).Text())
		for _, x := range v.SilverTaken(&y.Fetched) {
			p.wrap(x.Text())
		}
	}
	p.head(v.Label("where_it_goes"))
	p.wrap(v.PlaceAndDrain(&y.Here).Text() + ".")
	for i := range y.Advice {
		a := &y.Advice[i]
		p.put("  ", "  ", v.Drain(a).Text())
		for _, x := range v.DrainWhy(a) {
			p.put("    ╷ ", "      ", x.Text())
		}
	}
	return nil
}

func tellCan(p *printer, v *words.Voice, c *ahead.CanYear) error {
	title := upper(v.CanName(&c.Can.WasteCan))
	if c.Can.Can.Holds.Given() {
		title += ", " + v.Tell("can_takes", "What", v.UsedBath(c.Can.Can.Takes), "Holds", v.Volume(c.Can.Can.Holds.Value)).Text()
	}
	p.head(title)
	p.wrap(v.CanLevel(&c.Can).Text())
	if picture, ok := draw.CanOf(v, &c.Can); ok {
		text, err := picture.Text(draw.TextOptions{})
		if err != nil {
			return err
		}
		p.picture(text)
	}
	if day := v.CanFullOn(c.Can.FullOn); len(day) > 0 {
		p.wrap(day.Text())
	}
	for _, x := range v.Silver(&c.Can.Silver) {
		p.wrap(x.Text())
	}
	for i := range c.Can.Wrong {
		p.caution(v.CanWrong(&c.Can.Wrong[i]).Text())
	}
	for i := range c.Rows {
		r := &c.Rows[i]
		p.put("  ", "    ", v.Titled(v.DateTime(r.At), v.WasteMove(&r.WasteMove).Text()))
	}
	return nil
}
