package cli

import (
	"errors"
	"fmt"
	"strings"

	"wetside/darkroom"
	"wetside/trade/hazard"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

type classifyCmd struct {
	Law  string `help:"Whose rules: EU, UK, US, CA, other; EU where left out." enum:"EU,UK,US,CA,other" default:"EU" placeholder:"LAW"`
	JSON bool   `name:"json" help:"Answer as JSON."`
}

// Help shows what is read.
func (c *classifyCmd) Help() string {
	return "Reads one JSON object from standard input:\n\n    " + mixtureExample +
		"\n\nThe rest counts as water. Beside it may stand \"product\", \"state\" (concentrate, powder, stock, working, used), " +
		"\"dilution\" (1+9) with \"density_g_per_ml\", and \"ph\". It is an estimate: the supplier's safety data sheet rules."
}

const mixtureExample = `{"ingredients":[{"substance":"acetic acid","share_percent":[25,28]}]}`

// Run judges one mixture.
func (c *classifyCmd) Run(s *session) error {
	v, err := voiceFor(s, darkroom.File{}, quantity.NoOunce)
	if err != nil {
		return err
	}
	read, err := facts.ReadMixture(s.io.In)
	if err != nil {
		return bad(c.JSON, "%s", unmixed(v, err))
	}
	read.Mixture.Law = hazard.Law(c.Law)
	res, err := hazard.Classify(read.Mixture)
	if err != nil {
		return bad(c.JSON, "%s", unmixed(v, err))
	}
	if c.JSON {
		item := facts.OfHazard(res)
		item.Product, item.Dilution = read.Product, read.Dilution
		writeJSON(s.io.Out, item)
		return nil
	}
	t := hazardTeller{newPrinter(s.io.Out), v, map[string]bool{}}
	t.p.head(t.named(read))
	t.judgement(res)
	t.once(t.v.Tell("hazard.estimate").Text())
	t.reckoning(res)
	return nil
}

// unmixed says what is wrong with a mixture.
func unmixed(v *words.Voice, err error) string {
	if e, ok := errors.AsType[*hazard.MixtureError](err); ok {
		return v.MixtureError(e).Text()
	}
	if errors.Is(err, facts.ErrNotMixture) {
		why := strings.TrimPrefix(err.Error(), facts.ErrNotMixture.Error()+": ")
		return v.Tell("mixture.not_json", "Why", why).Text() + "\n" + v.Tell("mixture.example", "Example", mixtureExample).Text()
	}
	return explained(v, err)
}

// A hazardTeller prints judgements for people.
type hazardTeller struct {
	p    *printer
	v    *words.Voice
	said map[string]bool // what is told but once
}

// named is what the mixture is called: its product, or what is declared of it.
func (t hazardTeller) named(m facts.MixtureRead) string {
	name := m.Product
	if name == "" {
		var parts []string
		for _, i := range m.Mixture.Ingredients {
			part := i.Name
			if !i.Open {
				part += " " + t.v.HazardShare(i.Share)
			}
			parts = append(parts, part)
		}
		name = strings.Join(parts, ", ")
	}
	if name == "" {
		name = t.v.Tell("hazard.nothing").Text()
	}
	return strings.Join(strings.Fields(name), " ")
}

// judgement prints one.
func (t hazardTeller) judgement(r hazard.Result) {
	if signal := t.v.Signal(r.Signal); signal != "" {
		t.p.item(strings.TrimSpace(signal + ". " + strings.Join(r.Pictograms, ", ")))
	} else {
		t.p.item(strings.Join(r.Pictograms, ", "))
	}
	for _, code := range append(append([]string{}, r.Codes...), r.P...) {
		t.p.item(t.v.Statement(code, r.Elicits))
	}
	for _, i := range r.NotJudged {
		t.p.caution(t.v.NotJudged(i).Text())
	}
	if len(r.Codes) == 0 && (len(r.NotJudged) == 0 || r.NotJudged[0].Name != hazard.Undeclared) {
		t.p.item(t.v.Tell("hazard.none_reached").Text())
	}
	t.ph(r.PHRule)
	if len(r.Classes) > 0 {
		t.point(t.v.HazardClasses(r.Classes) + ". " + t.v.Tell("hazard.from_declared").Text())
	}
	t.ends(r)
	for _, f := range r.Findings {
		if f.Kind != hazard.SomeNotJudged && f.Kind != hazard.NothingDeclared { // told above
			t.once(t.v.HazardFinding(f).Text())
		}
	}
	if g, because := r.Gloves(); g == hazard.ThickGlove {
		t.point(t.v.Gloves(g, because).Text())
	} else {
		t.once(t.v.Gloves(g, because).Text())
	}
}

// ph prints what the pH rule says; that nothing can be said, but once.
func (t hazardTeller) ph(r hazard.PHRule) {
	if text := t.v.PHRule(r).Text(); r.Known {
		t.point(text)
	} else {
		t.once(text)
	}
	if r.Indicative {
		t.point(t.v.Tell("ph_rule.indicative").Text())
	}
}

// once prints a point, unless it was printed already: what is repeated is not read.
func (t hazardTeller) once(text string) {
	if !t.said[text] {
		t.said[text] = true
		t.point(text)
	}
}

func (t hazardTeller) point(text string) { t.p.put("  ╷ ", "    ", text) }

// ends prints what the other end of the shares and another law give, where they differ.
func (t hazardTeller) ends(r hazard.Result) {
	switch {
	case fmt.Sprint(string(r.Milder)) == fmt.Sprint(string(r.Classes)):
	case len(r.Milder) == 0:
		t.point(t.v.Tell("hazard.milder_none").Text())
	default:
		t.point(t.v.Tell("hazard.milder", "Classes", t.v.HazardClasses(r.Milder)).Text())
	}
	switch o := r.Otherwise; {
	case o.Law == "":
	case len(o.Codes) == 0:
		t.point(t.v.Tell("hazard.otherwise_none", "Law", t.v.Tell("law."+string(o.Law)).Text()).Text())
	default:
		t.point(t.v.Tell("hazard.otherwise", "Law", t.v.Tell("law."+string(o.Law)).Text(), "Codes", strings.Join(o.Codes, ", ")).Text())
	}
}

// reckoning prints how the classes came about.
func (t hazardTeller) reckoning(r hazard.Result) {
	for _, x := range r.Reckoning {
		t.p.gap()
		for _, row := range t.v.Reckoning(x) {
			switch row.Kind {
			case words.Rule:
				t.p.wrap(row.Name)
			case words.Put:
				t.p.item(row.Name + ": " + row.Value + " (" + row.From + ")")
			case words.Result:
				t.p.item("= " + row.Value + ", " + row.Name)
			}
		}
	}
}
