package cli

import (
	"io"
	"strings"

	"wetside/darkroom"
	"wetside/draw"
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/words"
	"wetside/words/facts"
)

type planCmd struct {
	File  string `arg:"" help:"A darkroom file; - is standard input." predictor:"file"`
	PDF   string `name:"pdf" help:"Write the mix sheet as PDF, too." placeholder:"OUT"`
	Force bool   `help:"Overwrite the PDF."`
	languageFlag
	Others int    `help:"How many other ways to tell beside the best, up to 4." default:"0"`
	If     string `name:"what-if" help:"Put the evening beside another: archival, two baths, FB paper, 12 more, fixer 1+9, 3 L trays." placeholder:"CHANGE"`
	Whose  string `help:"Plan for one of the file's people: with their own bottles first, then the room's." placeholder:"NAME"`
	JSON   bool   `name:"json" help:"Answer as JSON."`
}

// Run plans an evening.
func (c *planCmd) Run(s *session) error {
	f, err := s.readFile(c.File, c.JSON)
	if err != nil {
		return err
	}
	if err := c.speak(s, &f, c.JSON); err != nil {
		return err
	}
	if err := c.findWhose(f); err != nil {
		return err
	}
	if c.If != "" {
		return c.whatIf(s, f)
	}
	p, err := plan.Make(s.ctx, plan.Request{File: f, Now: s.parts.Now(), Alternatives: min(max(c.Others, 0), measure.MaxAlternatives), Whose: c.Whose})
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	if c.PDF != "" {
		err := writeFile(c.PDF, c.Force, c.JSON, func(w io.Writer) error { return s.parts.Sheet(w, p, f) })
		if err != nil {
			return err
		}
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.OfPlan(p))
	} else if err := tellPlan(s, p, f); err != nil {
		return err
	}
	if len(p.Missing) > 0 {
		return no()
	}
	return nil
}

// findWhose finds for whom it is planned, as the file writes the name.
func (c *planCmd) findWhose(f darkroom.File) error {
	if c.Whose == "" {
		return nil
	}
	var names []string
	for _, p := range f.People {
		if strings.EqualFold(p.Name, strings.TrimSpace(c.Whose)) {
			c.Whose = p.Name
			return nil
		}
		names = append(names, p.Name)
	}
	if len(names) == 0 {
		return bad(c.JSON, "--whose %q: the file has no people; list them under people, and write whose a bottle is at its lot", c.Whose)
	}
	return bad(c.JSON, "--whose %q: nobody in the file is called that; there are: %s", c.Whose, strings.Join(names, ", "))
}

// tellPlan prints the mix sheet for a terminal.
func tellPlan(s *session, p plan.Plan, f darkroom.File) error {
	v, err := voiceFor(s, f, f.Darkroom.Ounce)
	if err != nil {
		return err
	}
	t := planTeller{newPrinter(s.io.Out), v, p, f}
	t.head()
	t.dayBefore()
	for _, i := range p.Order {
		t.bath(p.Baths[i])
	}
	t.chains()
	t.end()
	return nil
}

type planTeller struct {
	p    *printer
	v    *words.Voice
	plan plan.Plan
	file darkroom.File
}

func (t planTeller) head() {
	t.p.head(t.plan.Name + ", " + t.v.DateTime(t.plan.Starts))
	for _, l := range t.plan.Loads {
		t.p.item(t.v.Clauses(t.v.Load(l), t.v.Wanted(l)))
	}
	t.list(t.v.Label("missing"), len(t.plan.Missing), func(i int) string { return t.v.Missing(t.plan.Missing[i]).Text() })
	t.list("", len(t.plan.Findings), func(i int) string { return t.v.Finding(t.plan.Findings[i]).Text() })
	t.p.gap()
	for _, c := range t.plan.Cautions {
		t.p.caution(t.v.Caution(c).Text())
	}
	if never := t.v.NeverTogether(t.plan.Never).Text(); never != "" {
		t.p.caution(never)
	}
	t.p.gap()
	t.p.wrap(t.v.Order(t.plan).Text())
}

// list prints a titled list, nothing where it is empty.
func (t planTeller) list(title string, n int, say func(int) string) {
	if n == 0 {
		return
	}
	t.p.gap()
	t.p.wrap(title)
	for i := range n {
		t.p.put("  ╷ ", "    ", say(i))
	}
}

func (t planTeller) dayBefore() {
	for _, s := range t.plan.DayBefore {
		t.p.head(t.v.Titled(t.v.Label("day_before"), s.Product))
		t.cautions(s.Cautions)
		t.p.lines(t.v.Stock(s, words.WaterOfStock(s, t.file.Bench)))
		t.findings(s.Findings)
	}
}

func (t planTeller) bath(b plan.Bath) {
	title := t.v.BathTitle(b)
	if where := b.Tray + b.Tank; where != "" {
		title += " → " + where
	}
	if d := t.v.Depth(b); d != "" {
		title += ", " + d
	} else {
		title += ", " + t.v.Volume(b.Volume)
	}
	t.p.head(title)
	t.cautions(b.Cautions)
	if b.Product == "" {
		return
	}
	t.p.item(t.v.Rinse(b).Text())
	for _, d := range b.Lots {
		t.p.item(t.v.Draw(d, t.file.Shelf.Lots).Text())
	}
	if b.Temper != nil {
		t.p.item(t.v.TemperLine(*b.Temper, words.WaterOf(b)).Text())
	}
	t.p.lines(t.v.BathMix(b))
	t.p.item(t.v.Makings(b).Text())
	t.p.item(t.v.BathSummary(b).Text())
	t.p.item(t.v.Advice(b.Mix.Advice).Text())
	t.findings(b.Findings)
	for _, c := range b.Mix.Choices[min(1, len(b.Mix.Choices)):] {
		t.p.other(t.v, c, t.v.Batch(b))
	}
}

func (t planTeller) cautions(cs []plan.Caution) {
	for _, c := range cs {
		t.p.caution(t.v.Caution(c).Text())
	}
}

func (t planTeller) findings(fs []plan.Finding) {
	for _, f := range fs {
		t.p.put("  ╷ ", "    ", t.v.Finding(f).Text())
	}
}

// chains prints, for each load, the steps that it goes through and how long.
func (t planTeller) chains() {
	for _, l := range t.plan.Loads {
		t.p.head(t.v.Titled(t.v.Label("through_the_baths"), t.v.Load(l)))
		for _, s := range l.Times {
			t.p.item(t.v.TimedOf(t.plan, s).Text())
		}
	}
}

func (t planTeller) end() {
	if c := t.v.Cost(t.plan.Cost).Text(); c != "" {
		t.p.head(t.v.Label("cost"))
		t.p.wrap(c)
		for _, part := range t.plan.Cost.Parts {
			t.p.item(t.v.CostPart(part, t.plan.Cost.Currency))
		}
	}
}

// other prints another way of making a bath, with what it gains and costs.
func (p *printer) other(v *words.Voice, c measure.Choice, b words.Batch) {
	p.gap()
	p.put("", "", v.Label("or")+" "+v.Differs(c).Text())
	p.lines(v.Mix(c, b))
}

func (p *printer) others(v *words.Voice, cs []measure.Choice, b words.Batch) {
	for _, c := range cs {
		p.other(v, c, b)
	}
}

// pictures prints the jug of each reading of a choice, one below the other.
func (p *printer) pictures(v *words.Voice, c measure.Choice, b words.Batch) {
	all := draw.Told(v, c, b)
	for i, s := range c.Steps {
		if s.Do != measure.Fill && s.Do != measure.Pour && s.Do != measure.Weigh {
			continue
		}
		r, ok := all[i]
		if !ok {
			continue
		}
		if text, err := r.Text(draw.TextOptions{}); err == nil {
			p.picture(text)
		}
	}
}
