package web

import (
	"net/http"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"wetside/ahead"
	"wetside/book"
	"wetside/sink"
	"wetside/words"
)

// noteView is a note that was left.
type noteView struct {
	Words string
	By    words.Phrase
	Erase string
}

type handoverPage struct {
	frame
	Lead    words.Phrase
	Evening words.Phrase // since when it runs, or when the last was closed
	Runs    bool
	Shared  bool
	Baths   []standing
	First   []words.Phrase // what to do first
	Low     []words.Phrase
	Odd     []words.Phrase
	Note    *noteView
	Form    field
	Waste   []words.Phrase // how full each can is
	Join    *invitation
	Present []string // who joined
	Keeps   bool     // who joined writes nothing here
	Tells   bool     // whoever asks may leave a note
}

// handover is for whoever comes in: ten seconds.
func (s *server) handover(r *http.Request, v *visit) error {
	p, err := v.handoverPage(r)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "handover", p)
}

func (v *visit) handoverPage(r *http.Request) (*handoverPage, error) {
	l, err := v.lookAround(r)
	if err != nil {
		return nil, err
	}
	p := &handoverPage{frame: v.frame(r, "handover"), Lead: v.say.Together(l.Report), Keeps: v.keeps(), Tells: v.may(book.NoteLeft)}
	p.Baths, _ = v.standings(&l.Report)
	for _, d := range l.Report.Due {
		p.First = append(p.First, v.say.Due(l.Report, d))
	}
	p.Low, p.Odd = v.low(&l), v.odd(&l)
	p.Form = field{Name: "words", Label: v.say.Label("leave_note"), Value: r.PostFormValue("words")}
	if p.Note, err = v.lastNote(r); err != nil {
		return nil, err
	}
	p.Waste = v.wasteNow()
	p.evening(v, &l.Sink.Evening)
	p.Join, err = v.invitation(r, &l.Sink.Evening, false)
	return p, err
}

// evening says since when the evening runs and who is here.
func (p *handoverPage) evening(v *visit, e *book.Evening) {
	if e.ID != "" {
		p.Runs, p.Shared = true, e.Shared
		p.Evening = v.say.EveningOpened(e.Opened.At, v.called(e.Opened.By))
		for _, j := range e.Joined {
			p.Present = append(p.Present, v.called(j.Person))
		}
		return
	}
	for _, was := range slices.Backward(v.state.Evenings()) {
		if was.Closed != nil {
			p.Evening = v.say.EveningClosed(was.Closed.At, v.called(was.Closed.By))
			return
		}
	}
}

// low is what tonight lacks, and baths whose level is down or which will not last the evening.
func (v *visit) low(l *roomLook) (all []words.Phrase) {
	for i := range l.Report.Baths {
		o := &l.Report.Baths[i]
		said := v.say.Beside(*o)
		for j, f := range o.More {
			if f.Kind == ahead.LevelDown || f.Kind == ahead.TonightShort {
				all = append(all, v.say.Tell("of_bath", "Bath", capital(v.say.BathCalled(o.Bath)), "Said", said[j].Text()))
			}
		}
	}
	for _, m := range missingNow(l.Plan) {
		all = append(all, v.say.Missing(m))
	}
	return all
}

// oddFor is how far back the handover looks: a day and a half, so that the evening before is still told.
const oddFor = 36 * time.Hour

// odd is what was odd of late: tests that failed, what looked wrong, what the book finds, prints that went astray.
func (v *visit) odd(l *roomLook) (all []words.Phrase) {
	from := l.Report.At.Add(-oddFor)
	for _, b := range v.state.Baths() {
		for _, e := range b.Events {
			t, ok := e.Did.(book.TestMade)
			if ok && t.Bath == b.ID && t.Result.Verdict == book.Failed && e.At.After(from) {
				all = append(all, v.say.FailedTest(v.bathIn(&l.Report, b.ID), t.Result.Test, e.At, v.called(e.By)))
			}
		}
	}
	for _, e := range v.state.Faults() {
		if f, ok := e.Did.(book.FaultSeen); ok && e.At.After(from) {
			all = append(all, v.say.FoundOdd(f, v.aboutBathCalled(&l.Report, f.Bath), e.At, v.called(e.By)))
		}
	}
	for _, f := range v.state.Findings() {
		if f.At.After(from) {
			all = append(all, v.say.OddAbout(v.bathIn(&l.Report, f.Subject), f))
		}
	}
	for _, p := range v.state.Prints() {
		for _, o := range p.Odd {
			if p.Last.At.After(from) {
				all = append(all, v.say.OddPrint(v.whose(&p), o.Kind))
			}
		}
	}
	return all
}

// aboutBathCalled names the bath that something was about; empty where it was about none.
func (v *visit) aboutBathCalled(report *ahead.Report, id string) string {
	if id == "" {
		return ""
	}
	return v.bathIn(report, id)
}

func (v *visit) whose(p *book.Print) string {
	if name := v.called(sink.Owner(p)); name != "" {
		return name
	}
	return v.say.Label("a_print")
}

// lastNote returns the last note whose words stand; nil where there is none.
func (v *visit) lastNote(r *http.Request) (*noteView, error) {
	said, err := v.s.Book.Notes(r.Context())
	if err != nil {
		return nil, err
	}
	for _, n := range slices.Backward(v.state.Notes()) {
		if text, ok := said[n.Note]; ok {
			return &noteView{Words: text, By: v.say.NoteBy(n.At, v.called(n.By)), Erase: "/handover/note/" + n.Note + "/away"}, nil
		}
	}
	return nil, nil //nolint:nilnil // nobody left one
}

// handoverDue reports whether today's page leads to the handover: an evening runs, or a note was left that nobody has opened
// an evening on since.
func (v *visit) handoverDue() bool {
	if _, runs := v.state.Running(); runs {
		return true
	}
	notes := v.state.Notes()
	if len(notes) == 0 {
		return false
	}
	last := notes[len(notes)-1].At
	return !slices.ContainsFunc(v.state.Evenings(), func(e book.Evening) bool { return e.Opened.At.After(last) })
}

// maxNote is how many characters a note has at most.
const maxNote = 2000

// leaveNote keeps a note for whoever comes next.
func (s *server) leaveNote(r *http.Request, v *visit) error {
	text := strings.TrimSpace(strings.ReplaceAll(r.PostFormValue("words"), "\r\n", "\n"))
	wrong := ""
	switch {
	case text == "":
		wrong = "note_none"
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		wrong = "name_signs"
	case utf8.RuneCountInString(text) > maxNote:
		wrong = "note_long"
	}
	if wrong != "" {
		p, err := v.handoverPage(r)
		if err != nil {
			return err
		}
		p.Form.Problem = v.say.Label(wrong)
		return v.show(http.StatusUnprocessableEntity, "handover", p)
	}
	body := &book.Told{Note: s.NewID()}
	if e, runs := v.state.Running(); runs {
		body.Session = e.ID
	}
	e, err := v.author(r).Write(body)
	if err != nil {
		return err
	}
	if err := s.Book.LeaveNote(r.Context(), body.Note, text, e); err != nil {
		return err
	}
	return v.to(r, "/handover")
}

// eraseNote forgets a note's words.
func (s *server) eraseNote(r *http.Request, v *visit) error {
	id := r.PathValue("id")
	if !slices.ContainsFunc(v.state.Notes(), func(n book.NoteSaid) bool { return n.Note == id }) {
		return errNotFound
	}
	if r.PostFormValue("sure") == "" {
		p := surePage{
			frame: v.frame(r, "handover"), Say: v.say.Tell("sure_note"), Action: r.URL.Path, Position: v.state.Position(),
			Back: "/handover", Yes: v.say.Label("erase_note"),
		}
		return v.show(http.StatusConflict, "sure", &p)
	}
	if err := s.Book.EraseNote(r.Context(), id); err != nil {
		return err
	}
	return v.to(r, "/handover")
}
