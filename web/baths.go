package web

import (
	"context"
	"math"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"wetside/ahead"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/words"
)

// standing is a bath that stands there, as it is read from afar.
type standing struct {
	Name, Where, At string
	Tray            *scene.Scene // its tray, from above
	Big             words.Phrase // how many more, its safe end, or a word in its place
	Units           string       // of what, where it is a count
	Under           words.Phrase // what comes next for it
	Tape            *scene.Scene
	Made            words.Phrase
	Whose           string // empty: the room's
}

type bathsPage struct {
	frame
	Lead  words.Phrase
	When  string
	Baths []standing
	Tapes bool
	Due   []words.Phrase
	Lacks words.Phrase // what tonight wants and does not stand here
	Tally tallyView    // for the whole way of what is printed most
	Count string       // where the tally is sent
	Did   *doneView
	Keeps bool // whoever asks may write down a bath that stands here already
}

// baths is read from four metres: what to do next, and what each bath still does.
func (s *server) baths(r *http.Request, v *visit) error {
	if r.FormValue("wall") != "" {
		return v.to(r, "/wall")
	}
	sc, report, err := v.outlook(r.Context(), looking{})
	if err != nil {
		return err
	}
	p := bathsPage{frame: v.frame(r, "baths"), Lead: v.say.Together(report), When: v.say.DateTime(report.At), Keeps: v.keeps()}
	p.Baths, p.Tapes = v.standings(&report)
	if i := lastOfWay(report.Baths); i >= 0 {
		p.Tally, p.Count = v.tally(r, &report.Baths[i], &sc), bathPath(report.Baths[i].Bath.ID)+"/worked"
	}
	if b, there := v.state.Bath(r.FormValue("bath")); there {
		p.Did = v.written(r, &b, v.history(&b))
	}
	if p.Lacks, err = v.notHere(r.Context()); err != nil {
		return err
	}
	for _, d := range report.Due {
		p.Due = append(p.Due, v.say.Due(report, d))
	}
	return v.show(http.StatusOK, "baths", &p)
}

// notHere names the baths that tonight wants and that nobody has mixed, where others stand ready already.
func (v *visit) notHere(ctx context.Context) (words.Phrase, error) {
	p, err := v.plan(ctx)
	if err != nil {
		return nil, err
	}
	var names []string
	all, done, _ := v.readiness(p)
	for _, b := range all {
		if b.Since == "" {
			names = append(names, b.Name)
		}
	}
	if done == 0 || len(names) == 0 {
		return nil, nil
	}
	return v.say.Tell("not_here", "Baths", strings.Join(names, ", ")), nil
}

// lastOfWay returns the last bath of the first way, where whoever counts a load says so; -1 where there is none.
func lastOfWay(all []ahead.Outlook) int {
	last := -1
	for i := range all {
		c := &all[i].Chain
		if c.Material == material.None || !slices.Equal(c.Baths, all[0].Chain.Baths) { // another way, or a bath that stands beside one of it
			break
		}
		last = i
	}
	return last
}

// scene is what stands in the darkroom now, asked about a material.
func (v *visit) scene(asked material.Material) ahead.Scene {
	return ahead.FromBook(v.state, asked, v.s.Now())
}

// tapeScale is the one scale of all tapes on a page.
func (v *visit) tapeScale(all []ahead.Outlook) float64 {
	var tapes []draw.Tape
	for i := range all {
		if t, ok := draw.TapeOf(v.say, &all[i]); ok {
			tapes = append(tapes, t)
		}
	}
	return draw.TapeScale(tapes...)
}

// tape draws a bath's tape; nil where nothing is counted of it.
func (v *visit) tape(o *ahead.Outlook, scale float64, size draw.Size) *scene.Scene {
	t, ok := draw.TapeOf(v.say, o)
	if !ok {
		return nil
	}
	t.To, t.Size, t.Say.Picture = scale, size, v.say.Lead(*o).Text()
	return drawn(t.Scene(v.form()))
}

// drawn returns a picture, nil where it can't be drawn: the words beside it say the same.
func drawn(s scene.Scene, err error) *scene.Scene {
	if err != nil {
		return nil
	}
	return &s
}

func (v *visit) standing(o *ahead.Outlook, scale float64) standing {
	one := standing{
		Name: capital(v.say.BathCalled(o.Bath)), Where: o.Bath.Tray + o.Bath.Tank, At: bathPath(o.Bath.ID),
		Tape: v.tape(o, scale, draw.Wall), Tray: v.trayOf(o), Big: v.say.Big(*o),
	}
	if one.Where == "" && o.Bath.Container != "" {
		one.Where = v.word("", string(o.Bath.Container))
	}
	counted := o.Lead.Kind == ahead.UseFor || o.Lead.Kind == ahead.UseForLabel
	if counted {
		one.Units = v.say.OfUnits(o.Chain.Material)
	}
	switch {
	case o.Lead.Kind == ahead.UseFor && len(o.Tests) > 0 && o.TestAfter > 0:
		at := strconv.Itoa(int(math.Round(o.Done)) + o.TestAfter)
		key := "bath_test_at"
		if o.Chain.Material == material.Film {
			key = "bath_test_at_roll"
		}
		one.Under = v.say.Tell(key, "Test", capitalTest(v.say.TestName(o.Tests[0])), "At", at)
	case counted || o.Lead.Kind == ahead.UseUntil || o.Lead.Kind == ahead.UseForMany:
		one.Under = v.say.LeadEnd(*o)
	default:
		one.Under = v.say.Lead(*o)
	}
	return one
}

// trayOf draws the tray that a bath stands in; nil where it stands in none.
func (v *visit) trayOf(o *ahead.Outlook) *scene.Scene {
	i := slices.Index(v.trayNames(), o.Bath.Tray)
	if i < 0 || o.Bath.Tray == "" {
		return nil
	}
	return drawn(v.tray(v.file.Bench.Trays[i], i).Scene(v.form()))
}

func bathPath(id string) string { return "/baths/" + id }

// litres says how much a bath is.
func (v *visit) litres(b *ahead.Bath) string {
	vol, err := quantity.VolumeOfML(1000 * b.Litres)
	if err != nil || vol <= 0 {
		return ""
	}
	return v.say.Volume(vol)
}

// lead says the one thing of all baths; empty where none stands.
func (v *visit) lead(ctx context.Context) (words.Phrase, error) {
	_, report, err := v.outlook(ctx, looking{few: true})
	if err != nil || len(report.Baths) == 0 {
		return nil, err
	}
	return v.say.Together(report), nil
}

// capitalTest begins a test's name with a capital, but for pH, which is written one way.
func capitalTest(name string) string {
	if strings.HasPrefix(name, "pH") {
		return name
	}
	return capital(name)
}
