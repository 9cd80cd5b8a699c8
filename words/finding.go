package words

import (
	"slices"
	"strings"

	"wetside/plan"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// Finding says what a plan has found.
func (v *Voice) Finding(f plan.Finding) Phrase {
	a := v.places(f.Figures)
	v.subject(a, "Subject", f.Subject)
	v.subject(a, "Other", f.Other)
	a["Clock"] = ""
	if !f.At.IsZero() {
		a["Clock"] = v.Clock(f.At)
	}
	a["TheTray"], a["TheTank"], a["TheVessel"] = v.into(f.Subject, false), v.into(f.Subject, true), v.the(f.Subject)
	return phrase(sentence(v.say("finding."+string(f.Kind), a)))
}

// Missing says what the plan needs and the room lacks.
func (v *Voice) Missing(m plan.Missing) Phrase {
	a := args{
		"Role": v.Role(m.Role), "ARole": v.aRole(m.Role), "Need": v.Volume(m.Need), "Have": v.Volume(m.Have),
	}
	v.subject(a, "Product", m.Product)
	v.subject(a, "Near", m.Near)
	a["Near"], a["NearTray"] = bound(a["Near"]), v.into(m.Near, false)
	if a["Near"] == a["Product"] {
		a["Near"] = ""
	}
	if m.Have == 0 {
		a["Have"] = ""
	}
	if m.Need == 0 {
		a["Need"] = ""
	}
	key := "missing." + string(m.Kind)
	if len(m.Steps) > 1 {
		var names []string
		for _, s := range m.Steps {
			names = append(names, v.BathName(s, m.Material))
		}
		key, a["Baths"] = "missing.no_trays", v.list(names)
	}
	return phrase(sentence(v.say(key, a)))
}

// Order says in which order the baths of a plan are mixed, and why. It is empty where there is but one.
func (v *Voice) Order(p plan.Plan) Phrase {
	var names []string
	for _, i := range p.Order {
		if b := p.Baths[i]; b.Product != "" && !slices.Contains(names, v.bath(b)) {
			names = append(names, v.bath(b))
		}
	}
	if len(names) < 2 {
		return nil
	}
	return phrase(v.say("order", args{"Baths": v.list(names)}))
}

// Bath names a bath of a plan by what it does: developer, first fixer, film fixer.
func (v *Voice) Bath(b plan.Bath) string { return plain(v.bath(b)) }

func (v *Voice) bath(b plan.Bath) string {
	if len(b.Materials) == 0 {
		return v.BathName(b.Step, 0)
	}
	return v.BathName(b.Step, b.Materials[0])
}

// Rinse says which vessels are washed before a bath is mixed, as another bath's chemical was in them. It is empty
// where there is none.
func (v *Voice) Rinse(b plan.Bath) Phrase {
	if len(b.Rinse) == 0 {
		return nil
	}
	var names []string
	for _, name := range b.Rinse {
		names = append(names, v.the(name))
	}
	return phrase(sentence(v.say("rinse_before", args{"Vessels": v.list(names)})))
}

// Makings says how often a bath is made in the evening. It is empty for once.
func (v *Voice) Makings(b plan.Bath) Phrase {
	if b.Makings < 2 {
		return nil
	}
	key := "makings.tray"
	if b.Tank != "" {
		key = "makings.tank"
	}
	return phrase(sentence(v.say(key, args{"Times": v.Times(b.Makings), "Bath": v.bath(b)})))
}

// Batch returns what the telling of a bath's choices needs.
func (v *Voice) Batch(b plan.Bath) Batch {
	into := b.Tray
	if b.Tank != "" {
		into = b.Tank
	}
	return Batch{
		Vessels: b.Vessels, Dilution: b.Dilution, Chemical: b.Product, Into: into, Tank: b.Tank != "",
		WaterFirst: b.WaterFirst,
	}
}

// BathMix tells the best choice of a bath as it stands on paper. It is empty where nothing was found.
func (v *Voice) BathMix(b plan.Bath) []Line {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	return inWater(v.Mix(b.Mix.Choices[0], v.Batch(b)), b)
}

// inWater leaves out the start with water where the tempered water stands in the jug already.
func inWater(lines []Line, b plan.Bath) []Line {
	if !b.TemperInPlace || b.Temper == nil {
		return lines
	}
	steps := b.Mix.Choices[0].Steps
	return slices.DeleteFunc(lines, func(l Line) bool { return l.Step >= 0 && steps[l.Step].Do == measure.Start })
}

// BathWalk tells the best choice of a bath step by step.
func (v *Voice) BathWalk(b plan.Bath) []Line {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	return inWater(v.Walk(b.Mix.Choices[0], v.Batch(b)), b)
}

// BathSummary tells a bath's best choice in one line. It is empty where nothing was found.
func (v *Voice) BathSummary(b plan.Bath) Phrase {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	return v.Summary(b.Mix.Choices[0], v.Batch(b), b.Role, b.Tolerance)
}

// Timed says one step of a load's chain: "Develop 90 s; 10 s every minute; drain 10 s".
func (v *Voice) Timed(t plan.Timed) Phrase {
	a := args{"Step": v.StepName(t.Step), "Time": v.Time(t.Time), "Drain": v.Time(t.Drain)}
	var clauses []string
	switch {
	case t.Time > 0:
		clauses = append(clauses, v.say("timed.time", a))
	case t.Step.Role() == process.NoRole:
		clauses = append(clauses, a["Step"])
	default:
		clauses = append(clauses, v.say("timed.unknown", a))
	}
	if t.Agitation != "" {
		clauses = append(clauses, own(t.Agitation))
	}
	if t.Drain > 0 && t.Step.Liquid() {
		clauses = append(clauses, v.say("timed.drain", a))
	}
	return phrase(sentence(strings.Join(clauses, v.say("list.semicolon", nil)) + v.say("stop", nil)))
}

// TimedOf says one step of a load's chain in a plan, with where and how warm it is done.
func (v *Voice) TimedOf(p plan.Plan, t plan.Timed) Phrase {
	if t.Bath < 0 {
		return v.TimedIn(t, "", 0)
	}
	b := &p.Baths[t.Bath]
	return v.TimedIn(t, b.Tray+b.Tank, b.Temperature)
}

// TimedIn says one step of a load's chain with the tray or tank that it is done in, and how warm the bath is: "Tray 1:
// develop 1 min at 20 °C, drain 10 s." where is empty for plain water; a temperature of 0 is not told.
func (v *Voice) TimedIn(t plan.Timed, where string, at quantity.Celsius) Phrase {
	step := v.StepName(t.Step)
	clauses := []string{step}
	switch {
	case t.Time > 0:
		clauses[0] = v.say("timed.time", args{"Step": step, "Time": v.Time(t.Time)})
	case t.Step.Role() != process.NoRole:
		clauses[0] = v.say("timed.unknown", args{"Step": step})
	}
	if at > 0 {
		clauses[0] = v.say("timed.at", args{"Step": clauses[0], "At": v.Temperature(at)})
	}
	if t.Agitation != "" {
		clauses = append(clauses, own(t.Agitation))
	}
	if t.Drain > 0 && t.Step.Liquid() {
		clauses = append(clauses, v.say("timed.drain", args{"Drain": v.Time(t.Drain)}))
	}
	text := strings.Join(clauses, v.say("list.comma", nil)) + v.say("stop", nil)
	if where != "" {
		text = v.say("timed.in", args{"Where": bound(own(where)), "Step": text})
	}
	return phrase(sentence(text))
}

// Load says one line of what is to be made: "36 sheets and 24 strips of RC paper, 8×10 in".
func (v *Voice) Load(l plan.Load) string {
	var counts []string
	if l.Sheets > 0 {
		counts = append(counts, v.Count("sheets", l.Sheets))
	}
	if l.Rolls > 0 {
		counts = append(counts, v.Count("rolls", l.Rolls))
	}
	a := args{"Size": v.Size(l.Size), "Material": v.Material(l.Material)}
	if l.Strips > 0 {
		counts = append(counts, v.Count("strips", l.Strips))
	}
	a["Count"] = v.list(counts)
	return plain(v.say("load.of", a))
}

// Wanted says how a load is to last: "exhibition, two baths, with a washing aid".
func (v *Voice) Wanted(l plan.Load) string {
	var words []string
	if l.Standard != process.StandardUnsaid {
		words = append(words, v.Standard(l.Standard))
	}
	if l.Fixing != process.FixingUnsaid {
		words = append(words, v.Fixing(l.Fixing))
	}
	if l.WashAid {
		words = append(words, v.say("load.washing_aid", nil))
	}
	return plain(strings.Join(words, v.say("list.comma", nil)))
}
