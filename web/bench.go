package web

import (
	"net/http"
	"slices"
	"strings"

	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/measure"
)

type benchPage struct {
	frame
	Vessels, Trays, Tanks, Cans []thingView
	Inches                      bool
}

// thingView is a thing of the bench: its picture, what it is, and where it is changed.
type thingView struct {
	Name, Text, Change string
	Picture            *scene.Scene
}

// bench shows the room's gear.
func (s *server) bench(r *http.Request, v *visit) error {
	p := benchPage{frame: v.frame(r, "bench"), Inches: r.URL.Query().Get("read") == "inches"}
	for i, x := range v.file.Bench.Vessels {
		p.Vessels = append(p.Vessels, thingView{
			Name: x.Name, Text: v.vesselText(x), Change: "/bench/vessel/" + v.ids.Vessels[i],
			Picture: v.vesselPicture(x.ForMeasure(darkroom.Product{}, v.file.Bench)),
		})
	}
	for i, t := range v.file.Bench.Trays {
		one := thingView{Name: t.Name, Text: v.trayText(t), Change: "/bench/tray/" + v.ids.Trays[i]}
		if sc, err := v.tray(t, i).Scene(v.form()); err == nil {
			one.Picture = &sc
		}
		p.Trays = append(p.Trays, one)
	}
	for i, t := range v.file.Bench.Tanks {
		p.Tanks = append(p.Tanks, thingView{Name: t.Name, Change: "/bench/tank/" + v.ids.Tanks[i]})
	}
	for i, c := range v.file.Bench.Cans {
		p.Cans = append(p.Cans, thingView{Name: c.Name, Text: v.canText(c), Change: "/bench/can/" + v.ids.Cans[i]})
	}
	return v.show(http.StatusOK, "bench", &p)
}

func (v *visit) canText(c darkroom.Can) string {
	return v.say.Tell("can_takes", "What", v.say.UsedBath(c.Takes), "Holds", v.say.Volume(c.Holds.Value)).Text()
}

func (v *visit) vesselText(x darkroom.Vessel) string {
	text := v.say.Kind(x.Kind)
	if strings.Contains(strings.ToLower(x.Name), strings.ToLower(text)) && x.KeepFor == "" { // its name says it
		return ""
	}
	if x.KeepFor != "" {
		text = v.say.Tell("kept_for", "Kind", text, "For", v.word("", x.KeepFor)).Text()
	}
	return text
}

// vesselPicture draws a vessel filled to its last mark, so that its scales are seen.
func (v *visit) vesselPicture(x measure.Vessel) *scene.Scene {
	if len(x.Scales) == 0 || x.Kind == measure.Balance {
		return nil
	}
	x = withNumbers(x)
	say := draw.WordsOn(v.say, x, 0, x.Name)
	say.Stop = ""
	sc, err := draw.Reading{Vessel: x, Mark: x.Scales[0].To, Say: say}.Scene(v.form())
	if err != nil {
		return nil
	}
	return &sc
}

func (v *visit) trayText(t darkroom.Tray) string {
	text := v.trayFor(t)
	if t.Inside.Given() {
		text += ", " + t.Inside.Text
	}
	if t.Fill.Given() {
		text += ", " + t.Fill.Text
	}
	return text
}

func (v *visit) trayFor(t darkroom.Tray) string {
	switch {
	case t.For.Holding:
		return v.word("", "holding")
	case t.For.Wash:
		return v.word("", "wash")
	}
	return v.say.Role(t.For.Role)
}

// tray returns a tray's picture, its pattern by its place on the bench.
func (v *visit) tray(t darkroom.Tray, place int) draw.Tray {
	return draw.Tray{
		Name: t.Name, Colour: t.Colour, Pattern: draw.PatternAt(place), Wide: t.Inside.Value.Width, High: t.Inside.Value.Height,
	}
}

// numberedVessels returns a bath whose vessels carry numbers to be drawn, also where nobody said which marks do.
func numberedVessels(b plan.Bath) plan.Bath {
	b.Vessels = slices.Clone(b.Vessels)
	for i, x := range b.Vessels {
		b.Vessels[i] = withNumbers(x)
	}
	return b
}

// withNumbers returns a vessel whose scales carry numbers.
func withNumbers(x measure.Vessel) measure.Vessel {
	x.Scales = slices.Clone(x.Scales)
	for i, s := range x.Scales {
		if s.Numbered.Sign() <= 0 && x.Kind != measure.Balance {
			x.Scales[i].Numbered = numbered(s.From, s.To, s.Step)
		}
	}
	return x
}

// sinks draws the trays of a plan from above, in working order: one under another for a phone, side by side for a desk.
func (v *visit) sinks(p plan.Plan) []scene.Scene {
	s := draw.Sink{Label: v.say.Label("sink")}
	for _, b := range p.Baths {
		for i, t := range v.file.Bench.Trays {
			if t.Name != b.Tray || b.Tray == "" {
				continue
			}
			one := draw.SinkTray{Tray: v.tray(t, i), Role: v.say.BathTitle(b), Volume: v.say.Volume(b.Volume), Filled: true}
			if b.Step.Tongs() {
				one.Tongs = v.say.Label("tongs")
			}
			s.Trays = append(s.Trays, one)
		}
	}
	var out []scene.Scene
	for _, width := range []float64{0, 1000} {
		s.Width = width
		sc, err := s.Scene(v.form())
		if err != nil {
			return nil
		}
		out = append(out, sc)
	}
	return out
}

// waterPicture draws hot and cold water to their marks in the vessel that they meet in.
func (v *visit) waterPicture(b plan.Bath) *scene.Scene {
	t, ok := draw.WaterOf(v.say, b, v.file)
	if !ok {
		return nil
	}
	sc, err := t.Scene(v.form())
	if err != nil {
		return nil
	}
	return &sc
}
