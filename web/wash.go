package web

import (
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"

	"wetside/book"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/wash"
	"wetside/words"
)

type washPage struct {
	frame
	Materials, Standards []pick
	Aid                  bool
	Prints, Water        field
	Tray, Flow           field
	Found, After, In     field
	Tested               bool         // something is said of a test
	LeaveOut             string       // offers to do without the book's test; empty: there is none
	LeftOut              bool         // it is not wanted
	Own                  words.Phrase // how the room washes by its test
	Changed              words.Phrase // and what that has changed
	Open                 bool
	Answered             bool
	Best                 words.Phrase
	For                  string // what is washed
	Limit                words.Phrase
	Ways                 []washWay
	Notes                []words.Phrase
	Plot                 *twoSizes
	Reckoning            []reckoning.Reckoning
}

// washWay is one way of washing in a table.
type washWay struct {
	Name, Time, Likely, Changes, Litres, Left string
	Fastest, Cheapest                         bool
	Notes                                     []words.Phrase
}

// wash asks what is to be washed, and says how: minutes, changes, litres.
func (s *server) wash(r *http.Request, v *visit) error {
	q, asked := r.URL.Query(), r.URL.Query().Has("material")
	get := func(name, usual string) string {
		if q.Has(name) {
			return strings.TrimSpace(q.Get(name))
		}
		return usual
	}
	tonight, prints := v.toWash()
	m, err := material.Read(get("material", tonight.String()))
	if err != nil {
		m = tonight
	}
	usual := v.file.Darkroom.Standards[m].Standard
	if usual == process.StandardUnsaid {
		usual = process.Exhibition
	}
	std, err := process.ReadStandard(get("standard", usual.String()))
	if err != nil || std == process.StandardUnsaid {
		std = usual
	}
	if m != tonight {
		prints = usualPrints(m)
	}
	p := washPage{
		frame: v.frame(r, "wash"), Aid: q.Get("aid") != "" || !asked && v.file.Darkroom.Standards[m].WashingAid.Value,
		Prints: field{Name: "prints", Label: v.say.Label("wash_prints"), Value: get("prints", prints), Hint: v.say.Label("hint_wash_prints")},
		Water:  field{Name: "water", Label: v.say.Label("wash_water_temp"), Value: get("water", v.tap())},
		Tray:   field{Name: "tray", Label: v.say.Label("wash_tray"), Value: get("tray", "4 L")},
		Flow:   field{Name: "flow", Label: v.say.Label("wash_flow"), Value: get("flow", "2 L")},
	}
	for _, x := range []material.Material{material.RC, material.FB, material.Film} {
		p.Materials = append(p.Materials, pick{option{x.String(), capital(v.say.Material(x))}, x == m})
	}
	for _, x := range process.Standards() {
		p.Standards = append(p.Standards, pick{option{x.String(), capital(v.say.Standard(x))}, x == std})
	}
	p.testFields(v, get, q.Get("leave_out") != "")
	status := http.StatusOK
	if asked {
		if req, ok := p.request(v, m, std); ok {
			status = p.answer(v, req)
		} else {
			status = http.StatusUnprocessableEntity
		}
	}
	return v.show(status, "wash", &p)
}

// toWash is what tonight's wash takes, as it is typed: the first that is to be made, all of its size; else a few prints.
func (v *visit) toWash() (material.Material, string) {
	for _, l := range v.file.Session.ToMake {
		if l.Size.Given() && l.Sheets+l.Rolls > 0 {
			return l.Material, strconv.Itoa(l.Sheets+l.Rolls) + " " + l.Size.Value.String()
		}
	}
	return material.FB, usualPrints(material.FB)
}

func usualPrints(m material.Material) string {
	if m == material.Film {
		return "1 135-36"
	}
	return "4 8x10 in"
}

// tap is how warm the room's cold tap is, or 20 °C.
func (v *visit) tap() string {
	return v.say.Temperature(v.file.Darkroom.Water.Cold.Or(20))
}

// request reads the fields; ok is false where one can't be read, with what is wrong at it.
func (p *washPage) request(v *visit, m material.Material, std process.Standard) (r wash.Request, ok bool) {
	o, ok := v.file.Darkroom.Ounce, true
	wrong := func(f *field, text string) { f.Problem, ok = text, false }
	r.Load.Material, r.Load.Aid, r.Limit.Standard = m, p.Aid, std
	text := p.Prints.Value + " " + m.String()
	load, err := book.ReadPrints(text)
	if err != nil {
		wrong(&p.Prints, v.unreadable(err))
	} else if size, err := material.ReadSize(load.Size); err == nil {
		one, _ := size.Area()
		r.Load.Area = one * quantity.Area(load.Sheets+load.Rolls)
	}
	if r.Load.Water, err = quantity.ReadCelsius(p.Water.Value); err != nil {
		wrong(&p.Water, v.say.ReadError(err).Text())
	}
	if r.Setting.Vessel, err = quantity.ReadVolume(p.Tray.Value, o); err != nil {
		wrong(&p.Tray, v.say.ReadError(err).Text())
		p.Open = true
	}
	if p.Flow.Value == "" || p.Flow.Value == "0" {
		return r, ok
	}
	if r.Setting.Flow, err = quantity.ReadVolume(p.Flow.Value, o); err != nil {
		wrong(&p.Flow, v.say.ReadError(err).Text())
		p.Open = true
	}
	return r, ok
}

// answer finds every way and draws them; what the trade refuses is told at its field.
func (p *washPage) answer(v *visit, r wash.Request) int {
	table, err := wash.Solve(r)
	if err != nil {
		return p.refuse(v, err)
	}
	own, tested, ok := p.own(v, r)
	if !ok {
		return http.StatusUnprocessableEntity
	}
	a := table
	r.Own = own
	if r.Own != nil {
		if a, err = wash.Solve(r); err != nil {
			return p.refuse(v, err)
		}
		p.Own = v.say.WashOwn(r.Own, v.say.WashTestOf(tested))
		if changed, shows := v.say.WashChanged(table, a); shows {
			p.Changed = changed
		}
	}
	p.Answered, p.Best, p.Reckoning = true, v.say.WashBest(a), a.Reckonings
	p.For = v.say.Tell("wash.for", "Material", v.say.Material(r.Load.Material), "Standard", v.say.Standard(r.Limit.Standard), "Prints", p.Prints.Value).Text()
	p.Limit = v.say.WashLimit(a)
	for i, w := range a.Ways {
		p.Ways = append(p.Ways, v.washWay(w, i == a.Fastest, i == a.Cheapest))
	}
	p.Notes = v.say.WashNotes(a.Findings)
	if phone, desk := v.washPlot(r, a, draw.Phone), v.washPlot(r, a, draw.Desk); phone != nil && desk != nil {
		p.Plot = &twoSizes{*phone, *desk}
	}
	return http.StatusOK
}

// refuse tells what the trade refuses at its field.
func (p *washPage) refuse(v *visit, err error) int {
	e, bad := errors.AsType[*wash.ProblemError](err)
	if !bad {
		p.Prints.Problem = v.say.Tell("bad_form").Text()
		return http.StatusUnprocessableEntity
	}
	f := map[string]*field{
		"area": &p.Prints, "water": &p.Water, "vessel": &p.Tray, "flow": &p.Flow, "result": &p.Found, "time": &p.After, "way": &p.In,
	}[e.Field]
	if f == nil {
		f = &p.Prints
	}
	f.Problem = v.say.Tell("wash."+string(e.Why), "Flag", f.Label, "Found", f.Value).Text()
	return http.StatusUnprocessableEntity
}

func (v *visit) washWay(w wash.Result, fastest, cheapest bool) washWay {
	out := washWay{
		Name: capital(v.say.WashWay(w.Way)), Fastest: fastest, Cheapest: cheapest, Notes: v.say.WashNotes(w.Findings),
		Left: v.say.WashLeft(w),
	}
	if w.Status != wash.Reached {
		return out
	}
	out.Litres, out.Time = v.say.WashWater(w.Water), v.say.WashTime(w.SafeTime())
	if w.SafeTime() > w.Time {
		out.Likely = v.say.WashTime(w.Time)
	}
	if w.Way != wash.Running {
		out.Changes = v.say.TellN("wash_changes", w.Changes, "Contact", v.say.Time(w.Contact.Round(time.Second))).Text()
	}
	return out
}

// washPlot draws what is left against time.
func (v *visit) washPlot(r wash.Request, a wash.Answer, size draw.Size) *scene.Scene {
	left, ok := draw.LeftOf(v.say, r, a)
	if !ok {
		return nil
	}
	left.Size = size
	return drawn(left.Scene(v.form()))
}
