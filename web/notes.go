package web

import (
	"net/http"
	"slices"
	"strings"

	"wetside/access"
	"wetside/trade/hazard"
)

// A noteKey is one thing that somebody can tick of themselves: the note's words as hazard.ReadPerson reads them, and its label.
type noteKey struct{ note, label string }

func noteKeys() []noteKey {
	return []noteKey{{"under 18", "join_under18"}, {"asthma", "join_asthma"}, {"pregnant", "join_pregnant"}}
}

// notesOf reads what somebody who joins tells of themselves.
func notesOf(r *http.Request) []string {
	var out []string
	for _, n := range noteKeys() {
		if slices.Contains(r.PostForm["note"], n.note) {
			out = append(out, n.note)
		}
	}
	for to := range strings.SplitSeq(r.PostFormValue("sensitised"), ",") {
		if name, wrong := readName(to); wrong == "" {
			out = append(out, "sensitised to "+name)
		}
	}
	return out
}

// notesPage shows what is noted of somebody, to themselves and to those who keep the darkroom alone.
type notesPage struct {
	frame
	Name, Action, Leads string
	Own                 bool // it is theirs
	Notes               []pick
	To, Else            field
}

// mayNote reports whether the notes of somebody may be seen and changed: they are one's own, or one keeps the darkroom.
func mayNote(who access.Who, id string) bool {
	return who.Keeps() || who.Person != "" && who.Person == id
}

// notes shows the notes of somebody.
func (s *server) notes(r *http.Request, v *visit) error { return v.showNotes(r, http.StatusOK, nil) }

func (v *visit) showNotes(r *http.Request, status int, problems map[string]string) error {
	id := r.PathValue("id")
	if !mayNote(v.who, id) {
		return errNotYours
	}
	who, known := v.people[id]
	if !known {
		return errNotFound
	}
	p := notesPage{frame: v.frame(r, "handover"), Name: v.called(id), Action: r.URL.Path, Leads: "/safety", Own: !v.keeps()}
	if v.keeps() {
		p.Leads = "/people"
	}
	p.Title = v.say.Label("notes_title")
	told := hazard.ReadPerson(who.Notes)
	ticked := map[string]bool{"under 18": told.Under18, "asthma": told.Asthma, "pregnant": told.Pregnant}
	to, others := strings.Join(told.SensitisedTo, ", "), strings.Join(otherNotes(who.Notes), ", ")
	if problems != nil {
		to, others = r.PostFormValue("sensitised"), r.PostFormValue("else")
		for note := range ticked {
			ticked[note] = slices.Contains(r.PostForm["note"], note)
		}
	}
	for _, n := range noteKeys() {
		p.Notes = append(p.Notes, pick{option{n.note, v.say.Label(n.label)}, ticked[n.note]})
	}
	p.To = field{Name: "sensitised", Label: v.say.Label("join_sensitised"), Value: to, Example: "metol", Problem: problems["sensitised"]}
	p.Else = field{Name: "else", Label: v.say.Label("notes_else"), Value: others, Hint: v.say.Label("hint_notes_else"), Problem: problems["else"]}
	return v.show(status, "notes", &p)
}

// otherNotes are those that raise no caution by themselves: words for people.
func otherNotes(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(n string) bool {
		p := hazard.ReadPerson([]string{n})
		return p.Under18 || p.Asthma || p.Pregnant || len(p.SensitisedTo) > 0
	})
}

// keepNotes keeps what is noted of somebody in place of what was.
func (s *server) keepNotes(r *http.Request, v *visit) error {
	id := r.PathValue("id")
	if !mayNote(v.who, id) {
		return errNotYours
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	problems := map[string]string{}
	for _, name := range []string{"sensitised", "else"} {
		for part := range strings.SplitSeq(r.PostFormValue(name), ",") {
			if _, wrong := readName(part); wrong != "" && strings.TrimSpace(part) != "" {
				problems[name] = v.say.Label(wrong)
			}
		}
	}
	if len(problems) > 0 {
		return v.showNotes(r, http.StatusUnprocessableEntity, problems)
	}
	notes := notesOf(r)
	for part := range strings.SplitSeq(r.PostFormValue("else"), ",") {
		if words, wrong := readName(part); wrong == "" {
			notes = append(notes, words)
		}
	}
	if err := s.Book.NotePerson(r.Context(), id, notes); err != nil {
		return err
	}
	if v.keeps() {
		return v.to(r, "/people")
	}
	return v.to(r, "/safety")
}
