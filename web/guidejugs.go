package web

import (
	"errors"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"wetside/darkroom"
	"wetside/trade/quantity"
)

type jugsPage struct {
	guide
	Jugs []pick
	Own  []field
	Open bool   // the form for a jug of one's own
	To   string // where it leads in place of the way: a word of jugsLead
}

// jugsLead are the pages that ask for a vessel and go on by themselves.
func jugsLead() map[string]string { return map[string]string{"bench": "/bench", "mix": "/mix"} }

// usualVessels are the vessels that can be had with one tap: their forms, by a word.
func usualVessels() []usualVessel {
	jug := func(word, unit, from, to, step, numbered string) usualVessel {
		return usualVessel{word, map[string]string{
			"kind": "jug", "scales[0].unit": unit, "scales[0].from": from, "scales[0].to": to, "scales[0].step": step,
			"scales[0].numbered": numbered,
		}}
	}
	both := jug("litre_jug_both", "mL", "100", "1000", "50", "100")
	for name, t := range map[string]string{"unit": "US fl oz", "from": "1", "to": "32", "step": "1", "numbered": "4"} {
		both.form["scales[1]."+name] = t
	}
	small := func(word, kind, from, to, step, numbered string) usualVessel {
		u := jug(word, "mL", from, to, step, numbered)
		u.form["kind"] = kind
		return u
	}
	return []usualVessel{
		jug("litre_jug", "mL", "100", "1000", "50", "100"), both, jug("half_litre_jug", "mL", "50", "500", "25", "100"),
		jug("two_litre_jug", "mL", "200", "2000", "100", "200"), small("cylinder_100", "cylinder", "2", "100", "1", "10"),
		small("cylinder_25", "cylinder", "1", "25", "0.5", "5"), small("syringe_10", "syringe", "0.2", "10", "0.2", "1"),
	}
}

type usualVessel struct {
	word string
	form map[string]string
}

func (s *server) beginJugs(r *http.Request, v *visit) error {
	return v.showJugs(r, http.StatusOK, nil, map[string]string{}, nil, "")
}

// showJugs shows the vessels to tick, and the form for one that is not among them with what was typed in it.
func (v *visit) showJugs(r *http.Request, status int, ticked []string, form, problems map[string]string, problem string) error {
	g, err := v.guide(r, 2)
	if err != nil {
		return err
	}
	p := jugsPage{guide: g, Open: len(problems) > 0}
	if lead, ok := jugsLead()[r.FormValue("to")]; ok {
		p.To, p.Back, p.Later = r.FormValue("to"), lead, lead
	}
	p.Problem = problem
	var there []string
	for _, x := range v.file.Bench.Vessels {
		there = append(there, x.Name)
	}
	p.There = strings.Join(there, ", ")
	for _, u := range usualVessels() {
		if !slices.Contains(there, v.say.Label("usual_name_"+u.word)) {
			p.Jugs = append(p.Jugs, pick{option{u.word, v.say.Label("usual_" + u.word)}, slices.Contains(ticked, u.word)})
		}
	}
	for _, name := range []string{"kind", "holds", "every", "lowest"} {
		f := field{
			Name: name, Label: v.say.Label("own_" + name), Value: form[name], Problem: problems[name], Hint: v.labelOr("", "own_hint_"+name),
		}
		if name == "kind" {
			for _, k := range []string{"jug", "cylinder", "syringe", "beaker"} {
				f.Options = append(f.Options, option{k, v.word("kind", k)})
			}
		}
		p.Own = append(p.Own, f)
	}
	return v.show(status, "jugs", &p)
}

// keepJugs puts the ticked vessels and one's own on the bench.
func (s *server) keepJugs(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	ticked := r.PostForm["vessel"]
	to := "/begin/trays"
	if lead, ok := jugsLead()[form["to"]]; ok {
		to = lead
	}
	own := form["holds"] != "" || form["every"] != "" || form["lowest"] != ""
	if len(ticked) == 0 && !own {
		if len(v.file.Bench.Vessels) > 0 {
			return v.to(r, to)
		}
		return v.showJugs(r, http.StatusUnprocessableEntity, nil, form, nil, v.say.Label("begin_jugs_none"))
	}
	f := v.file
	for _, u := range usualVessels() {
		u.form["name"] = v.say.Label("usual_name_" + u.word)
		if !slices.Contains(ticked, u.word) || darkroom.IndexOf[darkroom.Vessel](f, u.form["name"]) != darkroom.New {
			continue
		}
		x, err := darkroom.ReadForm[darkroom.Vessel](f, darkroom.New, u.form)
		if err != nil {
			return err
		}
		f = darkroom.With(f, darkroom.New, x)
	}
	if own {
		x, problems := v.ownVessel(f, form)
		if len(problems) > 0 {
			return v.showJugs(r, http.StatusUnprocessableEntity, ticked, form, problems, "")
		}
		f = darkroom.With(f, darkroom.New, x)
	}
	if form["do"] == "more" {
		to = "/begin/jugs"
		if form["to"] != "" {
			to += "?" + url.Values{"to": {form["to"]}}.Encode()
		}
	}
	return v.keepAndGo(r, f, to)
}

// ownVessel reads a vessel of one scale from its last mark, from mark to mark and its first mark; what is wrong is returned
// by the field.
func (v *visit) ownVessel(f darkroom.File, form map[string]string) (x darkroom.Vessel, problems map[string]string) {
	problems = map[string]string{}
	for _, name := range []string{"holds", "every"} {
		if form[name] == "" {
			problems[name] = v.say.Label("own_missing_" + name)
		}
	}
	if len(problems) > 0 {
		return x, problems
	}
	to, unit := onScale(form["holds"])
	step, _ := onScale(form["every"])
	from, _ := onScale(form["lowest"])
	if from == "" {
		from = step
	}
	kind := form["kind"]
	if kind == "" {
		kind = "jug"
	}
	x, err := darkroom.ReadForm[darkroom.Vessel](f, darkroom.New, map[string]string{
		"name": v.freeName(f, to+" "+unit+" "+v.word("kind", kind)), "kind": kind, "scales[0].unit": unit,
		"scales[0].from": from, "scales[0].to": to, "scales[0].step": step, "scales[0].numbered": numberedBy(from, to, step),
	})
	all, _ := errors.AsType[darkroom.Problems](err)
	fields := map[string]string{
		"scales[0].from": "lowest", "scales[0].step": "every", "scales[0].to": "holds", "scales[0].unit": "holds", "kind": "kind",
	}
	for _, p := range all {
		name := fields[p.Path]
		if name == "" {
			name = "holds"
		}
		problems[name] = v.say.Problem(p).Text()
	}
	return x, problems
}

// freeName returns a name that no vessel has yet: the wanted one, or with a number behind it.
func (v *visit) freeName(f darkroom.File, name string) string {
	free := name
	for n := 2; darkroom.IndexOf[darkroom.Vessel](f, free) != darkroom.New; n++ {
		free = name + " " + strconv.Itoa(n)
	}
	return free
}

var figureAndUnit = regexp.MustCompile(`^\s*([0-9][0-9.,/ ]*?)\s*([A-Za-z][A-Za-z. ]*)?\s*$`)

// onScale takes a mark apart: 500 is mL, 1 L is 1000 mL, 16 fl oz stays in ounces. What is neither stays as it is.
func onScale(text string) (number, unit string) {
	m := figureAndUnit.FindStringSubmatch(text)
	switch {
	case m == nil:
		return text, "mL"
	case m[2] == "":
		return m[1], "mL"
	}
	switch strings.ToLower(m[2]) {
	case "l", "litre", "liter", "litres", "liters":
		if n, err := quantity.ReadRatio(m[1]); err == nil {
			if ml, err := n.Mul(quantity.Int(1000)); err == nil {
				return ml.String(), "mL"
			}
		}
		return text, "mL"
	case "ml", "cc":
		return m[1], "mL"
	}
	return m[1], m[2]
}

// numberedBy returns which marks of a scale carry a number, where nobody said: every mark of a short scale; else whole
// hundreds or every second, fourth, fifth, tenth mark, the first that leaves at most a dozen. Empty where none divides.
func numberedBy(from, to, step string) string {
	a, errA := quantity.ReadRatio(from)
	b, errB := quantity.ReadRatio(to)
	s, errS := quantity.ReadRatio(step)
	if errA != nil || errB != nil || errS != nil || s.Sign() <= 0 || b.Cmp(a) <= 0 {
		return ""
	}
	if n := numbered(a, b, s); n.Sign() > 0 {
		return n.String()
	}
	return ""
}

// numbered is numberedBy on ratios; 0 where none divides.
func numbered(from, to, step quantity.Ratio) quantity.Ratio {
	const most = 12
	whole := func(x, y quantity.Ratio) bool {
		q, err := x.Quo(y)
		return err == nil && q.Den() == 1 && q.Sign() > 0
	}
	tries := []quantity.Ratio{step}
	if hundred := quantity.Int(100); whole(hundred, step) {
		tries = append(tries, hundred)
	}
	for _, k := range []int64{2, 4, 5, 10, 20, 50, 100} {
		if n, err := step.Mul(quantity.Int(k)); err == nil {
			tries = append(tries, n)
		}
	}
	for _, n := range tries {
		if whole(from, step) && to.Float()/n.Float() <= most && n.Cmp(to) <= 0 {
			return n
		}
	}
	return quantity.Ratio{}
}
