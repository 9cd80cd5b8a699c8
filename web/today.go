package web

import (
	"net/http"

	"wetside/book"
	"wetside/plan"
	"wetside/words"
)

type todayPage struct {
	frame
	Plan   plan.Plan
	When   string
	Loads  []string
	First  string // where mixing starts or goes on; empty: there is nothing to mix, or all is ready
	Going  bool   // some baths are ready
	Ready  string // that all are ready
	Told   []plan.Missing
	Gaps   []gapView
	Stocks []stockView
	Baths  []mixedView  // mixed already, newest first
	Lead   words.Phrase // the one thing of all baths; empty: none stands
	Low    []words.Phrase
	Over   bool // the handover has something to say
	Shares bool // whoever is signed in may let others join the evening
	Shared bool // they do: its code hangs on the wall
}

// mixedView is a bath that stands mixed, and how to take that back.
type mixedView struct {
	Product, Dilution, Volume, When, Where, Undo string
}

// today is the first page: what the evening wants, and what stands in its way.
func (s *server) today(r *http.Request, v *visit) error {
	if !v.begun() {
		return v.to(r, "/begin")
	}
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	page := todayPage{frame: v.frame(r, "today"), Plan: p, Over: v.handoverDue()}
	evening, _ := v.state.Running()
	page.Shares, page.Shared = page.Signed != "", evening.Shared
	if v.file.Session.Starts.Given() {
		page.When = v.say.DateTimeTitle(p.Starts)
	}
	for _, l := range p.Loads {
		page.Loads = append(page.Loads, v.load(l))
	}
	page.Told, page.Gaps = v.gaps(p)
	baths, done, next := v.readiness(p)
	page.First, page.Going = next, done > 0
	if done > 0 && done == len(baths) {
		page.Ready = v.readyHeading(done, done)
	}
	for _, x := range p.DayBefore {
		page.Stocks = append(page.Stocks, stockView{x, v.say.Stock(x, words.WaterOfStock(x, v.file.Bench))})
	}
	mixed := v.state.Baths()
	for i := len(mixed) - 1; i >= 0 && len(page.Baths) < 8; i-- {
		page.Baths = append(page.Baths, v.mixedView(mixed[i]))
	}
	page.Lead, err = v.lead(r.Context())
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "today", &page)
}

func (v *visit) mixedView(b book.Bath) mixedView {
	m := mixedView{
		Dilution: b.Mixed.Dilution, Volume: b.Mixed.Volume, When: v.say.DateTime(b.MixedAt), Undo: "/undo/" + b.Entry,
		Product: nameOf(v.ids.Products, b.Mixed.Product, v.productNames()),
		Where:   nameOf(v.ids.Trays, b.Mixed.Tray, v.trayNames()) + nameOf(v.ids.Tanks, b.Mixed.Tank, v.tankNames()),
	}
	return m
}

// nameOf returns the name of the thing with an id; empty where it is gone.
func nameOf(ids []string, id string, names []string) string {
	for i, x := range ids {
		if x == id && i < len(names) {
			return names[i]
		}
	}
	return ""
}
