package web

import (
	"net/http"
	"slices"
	"strconv"
	"time"

	"wetside/book"
	"wetside/plan"
	"wetside/words"
)

// sameEvening is how long ago a bath may have been mixed and still be the evening's own.
const sameEvening = 12 * time.Hour

// ready returns the bath of the book that stands where a bath of the plan is to go, mixed of the same product this evening, by whom the plan is for.
// One of which nobody knows since when it stands is not ready.
func (v *visit) ready(b plan.Bath) (book.Bath, bool) {
	product := v.idOf(v.ids.Products, b.Product, v.productNames())
	tray, tank := v.idOf(v.ids.Trays, b.Tray, v.trayNames()), v.idOf(v.ids.Tanks, b.Tank, v.tankNames())
	for _, x := range slices.Backward(v.state.Baths()) {
		in := x.In()
		if x.Gone == nil && product != "" && x.Mixed.Whose == v.plansFor() && x.Mixed.Product == product && in.Tray == tray && in.Tank == tank &&
			x.Made != book.MadeUnknown && v.s.Now().Sub(x.MixedAt) < sameEvening {
			return x, true
		}
	}
	return book.Bath{}, false
}

// readyView is a bath of the plan and whether it stands ready.
type readyView struct {
	Title, Name string // with what it is made of, and what it is
	Where, At   string
	Since       string         // when it was mixed; empty: it is not
	First       string         // where its mixing starts
	Lack        []words.Phrase // why it can't be mixed
}

type readyPage struct {
	frame
	Heading string
	All     bool
	Baths   []readyView
	Chains  []chainView
}

// readiness lists the baths of a plan that are mixed, in the order of mixing, how many of them are ready, and where mixing
// goes on.
func (v *visit) readiness(p plan.Plan) (out []readyView, done int, next string) {
	all := v.stops(p)
	for _, i := range p.Order {
		b := p.Baths[i]
		one := readyView{Title: v.say.BathTitle(b), Name: v.say.Bath(b), Where: unbroken(b.Tray + b.Tank)}
		if len(b.Mix.Choices) == 0 {
			if one.Lack = v.lacks(p, b.ID); b.Product != "" && len(one.Lack) > 0 {
				out = append(out, one) // a tray that stays empty is no bath that is ready
			}
			continue
		}
		if b.Temperature > 0 {
			one.At = v.say.Temperature(b.Temperature)
		}
		for _, s := range all {
			if s.bath == i && s.n == 1 {
				one.First = s.at()
			}
		}
		if x, ok := v.ready(b); ok {
			one.Since, done = v.say.DateTime(x.MixedAt), done+1
		} else if next == "" {
			next = one.First
		}
		out = append(out, one)
	}
	if done == 0 && len(all) > 0 {
		next = all[0].at()
	}
	return out, done, next
}

// lacks says why a bath of the plan can't be mixed.
func (v *visit) lacks(p plan.Plan, bath string) (all []words.Phrase) {
	for _, m := range p.Missing {
		if m.Bath == bath {
			all = append(all, v.say.Missing(m))
		}
	}
	return all
}

// mixReady is the end of mixing: which baths stand ready, and what comes next.
func (s *server) mixReady(r *http.Request, v *visit) error {
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	baths, done, _ := v.readiness(p)
	page := readyPage{frame: v.frame(r, "step"), Baths: baths, All: done == len(baths) && done > 0, Chains: v.chains(p)}
	page.Heading = v.readyHeading(done, len(baths))
	page.Title = page.Heading
	return v.show(http.StatusOK, "ready", &page)
}

func (v *visit) readyHeading(done, of int) string {
	if done == of && done > 0 {
		return v.say.TellN("all_ready", done, "Word", v.say.Word(done)).Text()
	}
	return v.say.Tell("some_ready", "N", strconv.Itoa(done), "Of", strconv.Itoa(of)).Text()
}

type againPage struct {
	frame
	Say    words.Phrase
	Action string
	Next   string
	Back   string
}

// askAgain asks before a bath is written down a second time in the same tray.
func (v *visit) askAgain(r *http.Request, b plan.Bath, x book.Bath, next string) error {
	p := againPage{frame: v.frame(r, "step"), Action: r.URL.Path, Next: next, Back: "/mix/ready"}
	p.Say = v.say.Tell("mixed_before", "Bath", v.say.BathTitle(b), "Where", unbroken(b.Tray+b.Tank), "When", v.say.DateTime(x.MixedAt))
	return v.show(http.StatusConflict, "again", &p)
}
