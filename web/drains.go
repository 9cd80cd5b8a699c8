package web

import (
	"net/http"
	"strings"

	"wetside/book"
	"wetside/trade/process"
	"wetside/trade/waste"
	"wetside/words"
)

// drainView is what is done with one kind of used bath here.
type drainView struct {
	Of                  string
	Lead                words.Phrase
	Why                 []words.Phrase
	Told                bool   // why is shown unasked: the authority answered, or nothing goes down here
	Undo                string // of the answer
	Answer, Said, Asked field
	Office              field
}

// drain shows what is done with a used bath, with the form for what the authority answers.
func (v *visit) drain(a *waste.Advice, f func(name, label string) field) drainView {
	of := a.Of.String()
	d := drainView{
		Of: of, Lead: v.say.Drain(a), Why: v.say.DrainWhy(a), Answer: f("answer "+of, "authority_answer"), Said: f("words "+of, "authority_words"),
		Office: f("office "+of, "authority_office"), Asked: f("asked "+of, "authority_asked"),
	}
	d.Office.Hint = v.say.Label("hint_office")
	for _, w := range []book.SaidOfDrain{book.AuthorityNo, book.AuthorityIf, book.AuthorityYes} {
		d.Answer.Options = append(d.Answer.Options, option{string(w), v.say.Label("authority_" + string(w))})
	}
	d.Told = a.Answer != nil || a.Way == waste.KeepAndAsk
	if a.Answer != nil {
		d.Undo = "/undo/" + a.Answer.Entry
	}
	return d
}

// drainAnswered keeps what the authority said.
func (s *server) drainAnswered(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	of := form["of"]
	if _, err := process.ReadRole(of); err != nil {
		return errNotFound
	}
	d := v.file.Darkroom
	body := &book.Answered{
		Place: d.Place, Drain: d.Drain, What: of, Answer: book.SaidOfDrain(form["answer "+of]), Words: strings.TrimSpace(form["words "+of]),
		Office: strings.TrimSpace(form["office "+of]), Asked: strings.TrimSpace(form["asked "+of]),
	}
	problems := map[string]string{}
	v.shortEnough(problems, form, "words "+of, "office "+of, "asked "+of)
	switch {
	case d.Place == "" || d.Drain == "":
		problems["answer "+of] = v.say.Label("authority_where")
	case body.Answer != book.AuthorityYes && body.Answer != book.AuthorityNo && body.Answer != book.AuthorityIf:
		problems["answer "+of] = v.say.Label("authority_which")
	}
	if len(problems) > 0 {
		return v.showWaste(r, http.StatusUnprocessableEntity, form, problems)
	}
	return v.append(r, body, "/waste#drains")
}
