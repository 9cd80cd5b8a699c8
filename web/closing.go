package web

import (
	"cmp"
	"maps"
	"net/http"
	"slices"

	"wetside/access"
	"wetside/book"
	"wetside/sink"
	"wetside/words"
)

// openEvening says that the work begins, or that others may join what has begun.
func (s *server) openEvening(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	e, runs := v.state.Running()
	body := &book.EveningOpened{Session: e.ID, Shared: r.PostForm.Get("shared") != ""}
	if runs && (e.Shared || !body.Shared) {
		return v.to(r, "/handover") // somebody was quicker
	}
	if !runs {
		body.Session = s.NewID()
	}
	if !body.Shared {
		return v.append(r, body, "/handover")
	}
	entry, err := v.author(r).Write(body)
	if err != nil {
		return err
	}
	if err := s.Book.Share(r.Context(), body.Session, newCode(), entry); err != nil {
		return err
	}
	return v.to(r, "/handover")
}

// closingPath is where the end of an evening is gone through.
const closingPath = "/lists/closing"

type closePage struct {
	frame
	Say      []words.Phrase // what is still in the sink
	Prints   bool           // that can be told as taken out
	Position int64
}

// askClose says what is still in the sink before the evening is closed. The closing list leads here where something is.
func (s *server) askClose(r *http.Request, v *visit) error { return v.askToClose(r, http.StatusOK) }

func (v *visit) askToClose(r *http.Request, status int) error {
	l, err := v.lookAtSink(r)
	if err != nil {
		return err
	}
	if l.Evening.ID == "" {
		return v.to(r, "/handover")
	}
	p := closePage{frame: v.frame(r, "handover"), Position: v.state.Position()}
	p.Title = v.say.Label("evening_close")
	in := inSink(&l.Sink)
	batched := 0
	for _, x := range v.state.Prints() {
		if x.Now().Batch != "" && !slices.Contains(in, x.ID) {
			batched++
		}
	}
	p.Say, p.Prints = v.say.StillInSink(len(in), batched), len(in) > 0
	return v.show(status, "close", &p)
}

// inSink are the prints that somebody would have to take out, those from an evening before among them.
func inSink(s *sink.Sink) (ids []string) {
	for i := range s.Tags {
		ids = append(ids, s.Tags[i].Print.ID)
	}
	for i := range s.Stray {
		ids = append(ids, s.Stray[i].ID)
	}
	return ids
}

// closeEvening closes it, on the position at which it was asked.
func (s *server) closeEvening(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	l, err := v.lookAtSink(r)
	if err != nil {
		return err
	}
	if l.Evening.ID == "" {
		return v.to(r, "/handover")
	}
	if position(r) == nil || r.PostForm.Get("from") == "list" && len(inSink(&l.Sink)) > 0 {
		return v.askToClose(r, http.StatusConflict)
	}
	var bodies []book.Body
	if r.PostForm.Get("left") != "" {
		for _, id := range inSink(&l.Sink) {
			bodies = append(bodies, &book.PrintLeft{Print: id})
		}
	}
	a := v.author(r)
	var entries []book.Entry
	for _, b := range append(bodies, &book.EveningClosed{Session: l.Evening.ID}) {
		e, err := a.Write(b)
		if err != nil {
			return err
		}
		entries = append(entries, e)
	}
	err = s.Book.Append(r.Context(), entries, position(r))
	if book.KindOf(err) == book.Stale { // a tap came in meanwhile: look once more
		return v.askToClose(r, http.StatusConflict)
	}
	if err != nil {
		return err
	}
	return v.to(r, "/handover")
}

type namesPage struct {
	frame
	Names []namedTap
}

// A namedTap is a name; Value is where it is erased, Notes where what is noted of them is changed, empty for whoever may not see it.
type namedTap struct {
	tap
	Notes string
}

// names are the names that are kept, each to be erased.
func (s *server) names(r *http.Request, v *visit) error {
	p := namesPage{frame: v.frame(r, "handover")}
	p.Title = v.say.Label("names_kept")
	people := slices.Collect(maps.Values(v.people))
	slices.SortStableFunc(people, func(a, b book.Person) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) })
	for _, who := range people {
		one := namedTap{tap: tap{Text: v.called(who.ID), Value: "/people/" + who.ID + "/away"}}
		if mayNote(v.who, who.ID) {
			one.Notes = "/people/" + who.ID
		}
		p.Names = append(p.Names, one)
	}
	return v.show(http.StatusOK, "names", &p)
}

// eraseName forgets a name for good, once asked.
func (s *server) eraseName(r *http.Request, v *visit) error {
	id := r.PathValue("id")
	if _, known := v.people[id]; !known {
		return errNotFound
	}
	if last, err := v.isLast(r, id); err != nil || last {
		return cmp.Or(err, error(access.ErrLast))
	}
	if r.PostFormValue("sure") == "" {
		p := surePage{
			frame: v.frame(r, "handover"), Say: v.say.Tell("sure_erase", "Name", v.called(id)), Action: r.URL.Path,
			Position: v.state.Position(), Back: "/people", Yes: v.say.Label("erase_name"),
		}
		return v.show(http.StatusConflict, "sure", &p)
	}
	if err := s.Book.ErasePerson(r.Context(), id); err != nil {
		return err
	}
	return v.to(r, "/people")
}
