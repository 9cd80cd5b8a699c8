package web

import (
	"net/http"
	"slices"

	"wetside/ahead"
	"wetside/draw"
	"wetside/plan"
	"wetside/sink"
)

// A roomLook is all that the wall, the handover and the lists are made from.
type roomLook struct {
	sink.Room
	scene ahead.Scene
}

func (v *visit) lookAround(r *http.Request) (l roomLook, err error) {
	if l.Plan, err = v.plan(r.Context()); err != nil {
		return l, err
	}
	if l.scene, l.Report, err = v.outlook(r.Context(), looking{}); err != nil {
		return l, err
	}
	l.Sink = sink.Look(sink.Scene{State: v.state, Plan: l.Plan, Baths: l.scene, Now: v.s.Now()})
	l.Place, l.State, l.Bench, l.People = v.file.Darkroom.Place, v.state, v.file.Bench, v.people
	return l, nil
}

// standings are the baths as they are read from afar, and whether any has a tape.
func (v *visit) standings(report *ahead.Report) (all []standing, tapes bool) {
	scale := v.tapeScale(report.Baths)
	for i := range report.Baths {
		o := &report.Baths[i]
		one := v.standing(o, scale)
		one.Made = v.say.Since(o.Bath, v.called(o.Bath.MadeBy))
		if o.Bath.Whose != "" {
			one.Whose = v.ofWhom(o.Bath.Whose)
		}
		all, tapes = append(all, one), tapes || one.Tape != nil
	}
	return all, tapes
}

// bathIn names a bath by its id, as the report calls it, else by what was mixed.
func (v *visit) bathIn(report *ahead.Report, id string) string {
	i := slices.IndexFunc(report.Baths, func(o ahead.Outlook) bool { return o.Bath.ID == id })
	if i >= 0 {
		return capital(v.say.BathCalled(report.Baths[i].Bath))
	}
	if b, ok := v.state.Bath(id); ok {
		return capital(v.calledInBook(&b))
	}
	return capital(v.say.Label("bath"))
}

// missingNow is what tonight lacks, without what stands there already.
func missingNow(p plan.Plan) []plan.Missing {
	return slices.DeleteFunc(slices.Clone(p.Missing), func(m plan.Missing) bool {
		return m.Kind == plan.NoVessel || m.Kind == plan.NoTraySize
	})
}

// codeSize is how large a code is drawn.
func codeSize(wall bool) draw.Size {
	if wall {
		return draw.Wall
	}
	return draw.Phone
}
