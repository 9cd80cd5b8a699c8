package web

import (
	"errors"
	"math"
	"net/http"
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
	Open                 bool
	Answered             bool
	Best                 words.Phrase
	Limit                words.Phrase
	Ways                 []washWay
	Notes                []words.Phrase
	Plot                 *twoSizes
	Reckoning            []reckoning.Reckoning
}

// washWay is one way of washing in a table.
type washWay struct {
	Name, Time, Safe, Changes, Litres, Left string
	Fastest, Cheapest                       bool
	Notes                                   []words.Phrase
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
	m, err := material.Read(get("material", material.FB.String()))
	if err != nil {
		m = material.FB
	}
	usual := v.file.Darkroom.Standards[m].Standard
	if usual == process.StandardUnsaid {
		usual = process.Exhibition
	}
	std, err := process.ReadStandard(get("standard", usual.String()))
	if err != nil || std == process.StandardUnsaid {
		std = usual
	}
	prints := "4 8x10"
	if m == material.Film {
		prints = "1 135-36"
	}
	p := washPage{
		frame: v.frame(r, "wash"), Aid: q.Get("aid") != "",
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

// tap is how warm the room's cold tap is, or 20 °C.
func (v *visit) tap() string { return v.say.Temperature(20) }

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
	a, err := wash.Solve(r)
	if e, bad := errors.AsType[*wash.ProblemError](err); bad {
		f := map[string]*field{"area": &p.Prints, "water": &p.Water, "vessel": &p.Tray, "flow": &p.Flow}[e.Field]
		if f == nil {
			f = &p.Prints
		}
		f.Problem = v.say.Tell("wash."+string(e.Why), "Flag", f.Label, "Found", f.Value).Text()
		return http.StatusUnprocessableEntity
	}
	if err != nil {
		p.Prints.Problem = v.say.Tell("bad_form").Text()
		return http.StatusUnprocessableEntity
	}
	p.Answered, p.Best, p.Reckoning = true, v.bestWash(a), a.Reckonings
	p.Limit = v.say.Tell("wash.limit", "Limit", v.say.Figure(a.Limit), "From", v.say.Origin(a.Limit))
	for i, w := range a.Ways {
		p.Ways = append(p.Ways, v.washWay(w, i == a.Fastest, i == a.Cheapest))
	}
	p.Notes = v.washNotes(a.Findings)
	if phone, desk := v.washPlot(r, a, draw.Phone), v.washPlot(r, a, draw.Desk); phone != nil && desk != nil {
		p.Plot = &twoSizes{*phone, *desk}
	}
	return http.StatusOK
}

func (v *visit) washName(w wash.Way) string { return v.say.Label("way_" + w.String()) }

// bestWash names the fastest way and the cheapest in water.
func (v *visit) bestWash(a wash.Answer) words.Phrase {
	if a.Fastest < 0 {
		return v.say.Tell("wash.none")
	}
	fast, cheap := a.Ways[a.Fastest], a.Ways[a.Cheapest]
	key := "wash.best"
	if a.Fastest == a.Cheapest {
		key = "wash.best_both"
	}
	return v.say.Tell(key, "Fastest", capital(v.washName(fast.Way)), "Time", v.say.Time(roundedUp(fast.Time)),
		"Cheapest", v.washName(cheap.Way), "Litres", v.say.Volume(wholeLitres(cheap.Water)))
}

func (v *visit) washWay(w wash.Result, fastest, cheapest bool) washWay {
	out := washWay{
		Name: capital(v.washName(w.Way)), Fastest: fastest, Cheapest: cheapest, Notes: v.washNotes(w.Findings),
		Left: v.say.Figure(reckoning.Figure{Name: "left", Value: w.Left, Unit: reckoning.GPerM2}),
	}
	if w.Status != wash.Reached {
		return out
	}
	out.Time, out.Litres = v.say.Time(roundedUp(w.Time)), v.say.Volume(wholeLitres(w.Water))
	if w.Safe > w.Time {
		out.Safe = v.say.Time(roundedUp(w.Safe))
	}
	if w.Way != wash.Running {
		out.Changes = v.say.TellN("wash_changes", w.Changes, "Contact", v.say.Time(w.Contact.Round(time.Second))).Text()
	}
	return out
}

func (v *visit) washNotes(fs []wash.Finding) (out []words.Phrase) {
	for _, f := range fs {
		out = append(out, v.say.Tell("wash."+string(f.Kind), "Got", v.say.Figure(f.Got), "Limit", v.say.Figure(f.Limit)))
	}
	return out
}

// roundedUp rounds a time up to whole minutes, a short one to ten seconds.
func roundedUp(d time.Duration) time.Duration {
	step := time.Minute
	if d < 10*time.Minute {
		step = 10 * time.Second
	}
	return (d + step - 1).Truncate(step)
}

// wholeLitres rounds water up to whole litres.
func wholeLitres(w quantity.Volume) quantity.Volume {
	return (w + quantity.Litre - 1) / quantity.Litre * quantity.Litre
}

// washPoints is how many points a line of the plot has.
const washPoints = 200

// washPlot draws what is left against time, of as many ways as one picture holds; the fastest and the cheapest are among
// them.
func (v *visit) washPlot(r wash.Request, a wash.Answer, size draw.Size) *scene.Scene {
	longest, more := time.Duration(0), -draw.MaxWays
	for _, w := range a.Ways {
		if w.Status == wash.Reached {
			longest, more = max(longest, w.Time), more+1
		}
	}
	left := draw.Left{Limit: a.Limit.Value, Size: size, Say: draw.LeftWords{
		Picture: v.say.Label("thiosulfate_left"), Amount: v.say.Label("thiosulfate_left"), Time: v.say.Label("minutes"), Limit: v.say.Figure(a.Limit),
	}}
	if longest < 10*time.Minute {
		left.Say.Minutes = func(m float64) string {
			n, err := quantity.NewRatio(int64(math.Ceil(10*m-1e-9)), 10)
			if err != nil {
				return ""
			}
			return v.say.Number(n)
		}
	}
	for i, w := range a.Ways {
		if w.Status != wash.Reached {
			continue
		}
		if more > 0 && i != a.Fastest && i != a.Cheapest {
			more--
			continue
		}
		points, err := wash.Curve(r, w, longest*5/4, washPoints)
		if err != nil {
			return nil
		}
		line := draw.LeftWay{Name: v.washName(w.Way), Reaches: new(roundedUp(w.Time).Minutes())}
		for _, x := range points {
			line.Points = append(line.Points, draw.Sample{At: x.At.Minutes(), Amount: x.Left})
		}
		left.Ways = append(left.Ways, line)
	}
	if len(left.Ways) == 0 {
		return nil
	}
	return drawn(left.Scene(v.form()))
}
