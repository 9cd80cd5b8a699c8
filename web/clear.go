package web

import (
	"net/http"
	"slices"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/sink"
	"wetside/words"
)

// clearTap is one way in which an open bath may end its evening.
type clearTap struct {
	tap
	First bool // what is advised
	Rare  bool // shown where somebody asks for more
}

// What the closing list's taps send; beside them those of waysOut.
const (
	staysCovered = "stays"
	intoFull     = "full"
	intoPart     = "part"
)

// stayKey is the list's item for a bath that stays in its tray.
func stayKey(bath string) string { return "stays-" + bath }

// clearTaps are the ways in which a bath of the closing list may end its evening, what is advised first; nil for other items.
func (v *visit) clearTaps(l *roomLook, x *sink.Item) (all []clearTap) {
	if x.Bath == nil || x.Outlook == nil || !v.keeps() {
		return nil
	}
	b, there := v.state.Bath(x.Bath.ID)
	if !there {
		return nil
	}
	bottle := []clearTap{
		{tap: tap{Text: v.say.Label("into_full_bottle"), Value: intoFull}}, {tap: tap{Text: v.say.Label("into_part_bottle"), Value: intoPart}},
	}
	var away []clearTap
	for _, w := range v.waysOut(&b) {
		away = append(away, clearTap{tap: w})
	}
	switch x.Kind {
	case sink.ItemBack:
		all = bottle
		if sink.Stays(x.Outlook, l.Report.At) && x.Bath.Tray != "" {
			all = append(all, clearTap{tap: tap{Text: v.say.Label("stays_covered"), Value: staysCovered}})
		}
		all = append(all, away...)
	default:
		all = slices.Concat(away, bottle)
	}
	all[0].First = true
	for i := usual; i < len(all); i++ {
		all[i].Rare = true
	}
	return all
}

// usual is how many ways are shown at once.
const usual = 2

// clearBath writes down what became of a bath at the end: it goes, into a bottle or stays.
func (s *server) clearBath(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	l, err := v.lookAround(r)
	if err != nil {
		return err
	}
	do := r.PostForm.Get("do")
	items := l.Closing()
	i := slices.IndexFunc(items, func(x sink.Item) bool { return x.Bath != nil && x.Bath.ID == r.PathValue("id") })
	if i < 0 { // somebody was quicker: the list says how it went
		return v.to(r, closingPath)
	}
	x := &items[i]
	if !slices.ContainsFunc(v.clearTaps(&l, x), func(t clearTap) bool { return t.Value == do }) {
		return errNotFound
	}
	var body book.Body
	switch do {
	case intoFull:
		body = &book.PouredBack{Bath: x.Bath.ID, Into: darkroom.FullBottle}
	case intoPart:
		body = &book.PouredBack{Bath: x.Bath.ID, Into: darkroom.PartBottle}
	case staysCovered:
		if l.Sink.Evening.ID == "" {
			return v.to(r, closingPath)
		}
		body = &book.Ticked{Session: l.Sink.Evening.ID, List: book.ClosingList, Item: stayKey(x.Bath.ID)}
	default:
		return v.clearAway(r, x, do)
	}
	return v.append(r, body, closingPath)
}

// clearAway writes down that a bath went, on the position at which the list was shown.
func (v *visit) clearAway(r *http.Request, x *sink.Item, to string) error {
	b, _ := v.state.Bath(x.Bath.ID)
	leave := book.Leaving{To: to}
	if sink.Over(x.Outlook, v.s.Now()) {
		leave.Why = string(x.Outlook.Lead.Kind)
	}
	if to == book.ToCollected {
		leave.Can = v.canFor(&b).ID
	}
	e, err := v.author(r).Write(&book.Disposed{Bath: x.Bath.ID, Leaving: leave})
	if err != nil {
		return err
	}
	at := position(r)
	if at == nil {
		here := v.state.Position()
		at = &here
	}
	err = v.s.Book.Append(r.Context(), []book.Entry{e}, at)
	if book.KindOf(err) == book.Stale {
		return v.to(r, closingPath+"?moved=on")
	}
	if err != nil {
		return err
	}
	return v.to(r, closingPath)
}

// canWarns says what is to be known of the can before a bath goes into it: it must not go in, or has no room in it.
func (v *visit) canWarns(x *sink.Item) words.Phrase {
	if x.Kind != sink.ItemToCan && x.Kind != sink.ItemAway {
		return nil
	}
	b, there := v.state.Bath(x.Bath.ID)
	if !there {
		return nil
	}
	can := v.canFor(&b)
	switch {
	case can.ID != "":
		may := ahead.MayGo(v.state, &can, &b)
		return v.say.CanTakes(&can, &may, ahead.LevelOf(&can), b.Volume)
	case x.Kind == sink.ItemToCan:
		return v.say.Tell("no_can_here")
	}
	return nil
}
