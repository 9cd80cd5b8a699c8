package web

import (
	"errors"
	"net/http"
	"slices"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/words"
)

// field is one input of a form as a page shows it.
type field struct {
	Name, Label, Value, Example, Hint, Problem string
	Mode                                       string // which keys a phone shows: numeric, or empty
	Options                                    []option
}

type option struct{ Value, Text string }

type jugPage struct {
	frame
	Label, Volume, Role, Material field
	// Mix is the answer; nil where nothing was asked yet or the words can't be read.
	Mix *mixView
	// Lack says why nothing can be made.
	Lack  words.Phrase
	Usual bool
	// NoBench says that no vessel was told yet.
	NoBench bool
}

// mixView is one way of making a bath, ready to be shown.
type mixView struct {
	V         *words.Voice
	Note      words.Phrase
	Lead      *words.Line // the first reading of the chemical, to be set large
	Summary   words.Phrase
	Lines     []words.Line
	Pictures  []scene.Scene
	Exact     words.Phrase
	Reckoning []reckoning.Reckoning
	Advice    words.Phrase
	Cautions  []plan.Caution
	Findings  []plan.Finding
	Others    []otherView
}

type otherView struct {
	Differs words.Phrase
	Lines   []words.Line
}

// jug answers one bath: a label's words and a volume, nothing else.
func (s *server) jug(r *http.Request, v *visit) error {
	p := jugPage{frame: v.frame(r, "one_jug"), NoBench: len(v.file.Bench.Vessels) == 0}
	q := r.URL.Query()
	p.Label = field{Name: "label", Label: v.say.Label("label_says"), Value: q.Get("label"), Example: "1+9"}
	p.Volume = field{Name: "volume", Label: v.say.Label("how_much"), Value: q.Get("volume"), Example: v.say.Volume(quantity.Litre)}
	p.Role = field{Name: "for", Label: v.say.Label("role"), Value: q.Get("for"), Options: roleOptions(v.say, true)}
	p.Material = field{Name: "material", Label: v.say.Label("material"), Value: q.Get("material"), Options: materialOptions(v.say)}
	if p.Label.Value == "" && p.Volume.Value == "" {
		return v.show(http.StatusOK, "jug", &p)
	}
	req, ok := p.request(v)
	if !ok {
		return v.show(http.StatusUnprocessableEntity, "jug", &p)
	}
	one, err := plan.MakeOne(r.Context(), req)
	if err != nil && !errors.Is(err, measure.ErrProblem) {
		return err // gave up in time, or nobody waits any more
	}
	if err != nil {
		p.Volume.Problem = v.say.ReadError(err).Text()
		return v.show(http.StatusUnprocessableEntity, "jug", &p)
	}
	p.answer(v, req, one)
	return v.show(http.StatusOK, "jug", &p)
}

// request reads the words of the form; what can't be read is said at its field.
func (p *jugPage) request(v *visit) (req plan.OneRequest, ok bool) {
	req = plan.OneRequest{File: v.file, System: v.say.System(), Alternatives: 2}
	ounce := v.ounce()
	var err error
	ok = true
	if req.Dilution, err = dilution.Read(p.Label.Value, dilution.Options{Ounce: ounce}); err != nil {
		p.Label.Problem, ok = v.say.ReadError(err).Text(), false
	}
	if req.Window, err = quantity.ReadWindow(p.Volume.Value, ounce); err != nil {
		p.Volume.Problem, ok = v.say.ReadError(err).Text(), false
	}
	if t := p.Role.Value; t != "" {
		if req.Role, err = process.ReadRole(t); err != nil {
			p.Role.Problem, ok = v.say.ReadError(err).Text(), false
		}
	}
	if t := p.Material.Value; t != "" {
		if req.Material, err = material.Read(t); err != nil {
			p.Material.Problem, ok = v.say.ReadError(err).Text(), false
		}
	}
	return req, ok
}

// ounce is the room's; where there is no room yet, the usual bench's.
func (v *visit) ounce() quantity.Ounce {
	if len(v.file.Bench.Vessels) == 0 && v.file.Darkroom.Ounce == quantity.NoOunce {
		return quantity.OunceUS
	}
	return v.file.Darkroom.Ounce
}

func (p *jugPage) answer(v *visit, req plan.OneRequest, one plan.One) {
	p.Usual = one.Usual
	b := words.Batch{
		Vessels: one.Vessels, Dilution: one.Dilution, Chemical: one.Product, Tank: req.Material == material.Film,
		WaterFirst: one.WaterFirst,
	}
	if one.Result.Status != measure.Optimal {
		p.Lack = v.say.Lack(one.Result, b, one.Window)
		p.Mix = &mixView{V: v.say, Advice: v.say.Advice(one.Result.Advice)}
		return
	}
	m := viewOf(v.say, v.form(), one.Result, b)
	m.Note = v.say.DilutionNote(p.Label.Value, one.Dilution)
	m.Summary = v.say.Summary(one.Result.Choices[0], b, req.Role, one.Tolerance)
	m.Exact = v.say.Exact(one.Result.Choices[0], req.Role, one.Tolerance)
	m.Cautions, m.Findings = one.Cautions, one.Findings
	p.Mix = &m
}

// viewOf makes the best choice of a result ready to be shown, with the others behind it.
func viewOf(v *words.Voice, form scene.Form, r measure.Result, b words.Batch) mixView {
	c := r.Choices[0]
	m := mixView{V: v, Lines: v.Mix(c, b), Reckoning: c.Reckoning, Advice: v.Advice(r.Advice)}
	for i, l := range m.Lines {
		if l.Kind == words.Reading && l.Step >= 0 && c.Steps[l.Step].What != measure.Water {
			m.Lead = &m.Lines[i]
			break
		}
	}
	b.Vessels = slices.Clone(b.Vessels)
	for i, x := range b.Vessels {
		b.Vessels[i] = withNumbers(x)
	}
	all := draw.Told(v, c, b)
	for i := range c.Steps {
		if r, ok := all[i]; ok {
			if s, err := r.Scene(form); err == nil {
				m.Pictures = append(m.Pictures, s)
			}
		}
	}
	for _, o := range r.Choices[1:] {
		m.Others = append(m.Others, otherView{v.Differs(o), v.Mix(o, b)})
	}
	return m
}

func roleOptions(v *words.Voice, none bool) []option {
	var out []option
	if none {
		out = append(out, option{"", v.Label("not_known")})
	}
	for _, r := range process.Roles() {
		out = append(out, option{r.String(), v.Role(r)})
	}
	return out
}

func materialOptions(v *words.Voice) []option {
	out := []option{{"", v.Label("not_known")}}
	for _, m := range material.All() {
		out = append(out, option{m.String(), v.Material(m)})
	}
	return out
}
