package web

import (
	"net/http"
	"slices"

	"wetside/book"
	"wetside/sink"
	"wetside/words"
)

// itemView is one thing of a list.
type itemView struct {
	Key  string
	Say  words.Phrase
	Done words.Phrase // by whom, when; empty: not yet
	At   string       // where it is written down; empty: nowhere
	Why  words.Phrase // of what becomes of a bath
	Warn words.Phrase
	Do   string // where its taps are sent
	Taps []clearTap
	More bool   // some of them are shown where somebody asks for more
	Undo string // takes back what was done
	To   string // what is there
}

type listPage struct {
	frame
	Items  []itemView
	Action string
	Keeps  bool // whoever asks begins and closes evenings
	Ticks  bool // and ticks; who joined does not
	Runs   bool // an evening goes on, so that a tap is written
	Other  string
	Closes int64 // the position at which the evening is closed from here; 0: it is not
	Moved  bool  // the book had moved on, so that what was tapped was not written
	At     int64 // the position of the book that is shown
}

// list shows what is gone through at the start of the evening, or at its end.
func (s *server) list(r *http.Request, v *visit) error {
	name := book.List(r.PathValue("list"))
	l, err := v.lookAround(r)
	if err != nil {
		return err
	}
	items, ok := l.List(name)
	if !ok {
		return errNotFound
	}
	p := listPage{frame: v.frame(r, "handover"), Action: r.URL.Path, Keeps: v.keeps(), Ticks: v.may(book.ListTicked), Runs: l.Sink.Evening.ID != "", Other: "/lists/closing"}
	p.Title = v.say.Label("opening_list")
	if name == book.ClosingList {
		p.Title, p.Other = v.say.Label("closing_list"), "/lists/opening"
	}
	p.At, p.Moved = v.state.Position(), r.URL.Query().Get("moved") != ""
	if name == book.ClosingList && p.Runs && p.Keeps {
		p.Closes = p.At
	}
	for i := range items {
		one := v.item(&items[i])
		if name == book.ClosingList {
			v.clearing(&l, &items[i], &one)
		}
		p.Items = append(p.Items, one)
	}
	return v.show(http.StatusOK, "list", &p)
}

func (v *visit) item(x *sink.Item) itemView {
	one := itemView{Key: x.Key, Say: v.say.ListItem(*x)}
	if x.Done != nil {
		one.Done = v.say.Ticked(x.Done.At, v.called(x.Done.By))
	}
	switch {
	case x.Bath != nil:
		one.At, one.To = bathPath(x.Bath.ID), capital(v.say.BathCalled(*x.Bath))
	case x.Kind == sink.ItemMix:
		one.At, one.To = "/mix", v.say.Label("mix_sheet")
	case x.Kind == sink.ItemCounts:
		one.At, one.To = "/baths", v.say.Label("baths")
	}
	return one
}

// clearing adds what becomes of a bath at the end of an evening.
func (v *visit) clearing(l *roomLook, x *sink.Item, one *itemView) {
	one.Why, one.Warn = v.say.ClosingWhy(x), v.canWarns(x)
	if x.Kind == sink.ItemWent && v.keeps() {
		one.Undo = "/undo/" + x.Done.Entry
	}
	if x.How == sink.WentBottle {
		one.At, one.To = labelsOf(x.Was.ID), v.say.Label("labels_its")
	}
	if x.Bath == nil {
		return
	}
	if t, said := l.Sink.Evening.Ticks[book.ClosingList][stayKey(x.Bath.ID)]; said && t.Done {
		one.Say, one.Done, one.Warn = v.say.Tell("stays_in_tray", "Bath", capital(v.say.BathCalled(*x.Bath))), v.say.Ticked(t.At, v.called(t.By)), nil
		if v.keeps() {
			one.Undo = "/undo/" + t.Entry
		}
		return
	}
	one.Taps = v.clearTaps(l, x)
	one.More = len(one.Taps) > usual
	one.Do = "/lists/closing/bath/" + x.Bath.ID
}

// tick writes that something of a list is done, or that it is not.
func (s *server) tick(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	l, err := v.lookAround(r)
	if err != nil {
		return err
	}
	name := book.List(r.PathValue("list"))
	items, ok := l.List(name)
	key, undone := r.PostForm.Get("done"), false
	if key == "" {
		key, undone = r.PostForm.Get("undone"), true
	}
	if !ok || !slices.ContainsFunc(items, func(x sink.Item) bool { return x.Key == key }) {
		return errNotFound
	}
	if l.Sink.Evening.ID == "" {
		return v.to(r, r.URL.Path)
	}
	return v.append(r, &book.Ticked{Session: l.Sink.Evening.ID, List: name, Item: key, Undone: undone}, r.URL.Path)
}

// append writes a fact and goes on.
func (v *visit) append(r *http.Request, body book.Body, to string) error {
	e, err := v.author(r).Write(body)
	if err != nil {
		return err
	}
	if err := v.s.Book.Append(r.Context(), []book.Entry{e}, nil); err != nil {
		return err
	}
	return v.to(r, to)
}
