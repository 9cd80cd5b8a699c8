package book

import (
	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// WasteIn says that something was put into a waste can otherwise than by a bath's own entry: what stood in it before the book,
// a test's beaker, or all that was put by before a can was named. A bath's own entry (discarded, moved) names its can itself.
type WasteIn struct {
	Can    string `json:"can"`
	What   string `json:"what,omitempty"`   // a role's word: fixer, toner, ...; empty for PutBy
	Volume string `json:"volume,omitempty"` // empty for PutBy
	PutBy  bool   `json:"put_by,omitempty"` // all that was collected until then and that no entry names a can of
	Why    string `json:"why,omitempty"`
	Ounce  Ounce  `json:"ounce,omitempty"`
}

// Kind returns WastePut.
func (*WasteIn) Kind() Kind { return WastePut }

// TakenAway says that a waste can was fetched or emptied, on the day that the entry happened.
type TakenAway struct {
	Can      string `json:"can,omitempty"`      // its id; empty: what no can was named of
	By       string `json:"by,omitempty"`       // the firm or the collection point, in the room's own words; no person's name
	Document string `json:"document,omitempty"` // the number on the paper that came with it
	Volume   string `json:"volume,omitempty"`   // empty: all of it
	Ounce    Ounce  `json:"ounce,omitempty"`
}

// Kind returns WasteTaken.
func (*TakenAway) Kind() Kind { return WasteTaken }

// SaidOfDrain is what an authority can answer about a drain.
type SaidOfDrain string

// The answers.
const (
	AuthorityYes SaidOfDrain = "yes"
	AuthorityNo  SaidOfDrain = "no"
	AuthorityIf  SaidOfDrain = "if" // under conditions, which Words has
)

// Answered keeps what the authority said of a drain, on the day that the entry happened.
type Answered struct {
	Place  darkroom.Place `json:"place"`
	Drain  darkroom.Drain `json:"drain"`
	What   string         `json:"what"` // the role's word of the bath that was asked about
	Asked  string         `json:"asked,omitempty"`
	Answer SaidOfDrain    `json:"answer"`
	Words  string         `json:"words,omitempty"`  // the authority's own
	Office string         `json:"office,omitempty"` // who answered: the office, no person's name
}

// Kind returns DrainAnswered.
func (*Answered) Kind() Kind { return DrainAnswered }

// An Answer is what an authority said of a drain, as it was read.
type Answer struct {
	Said
	Of    process.Role
	Words Answered
}

// saidOfWaste is one entry about waste cans.
type saidOfWaste struct {
	moment
	said   Said
	body   Body
	of     process.Role
	volume quantity.Volume
}

// saidOfDrains is one entry about a drain.
type saidOfDrains struct {
	moment
	Answer
}

// tellWaste takes in what was said of waste cans and drains.
func (s *State) tellWaste(e Entry, body Body) error {
	said := saidOfWaste{moment: momentOf(e), said: saidBy(e), body: body}
	var err error
	switch b := body.(type) {
	case *WasteIn:
		said.of, said.volume, err = readWasteIn(b)
	case *TakenAway:
		if err = mayID("can", b.Can); err == nil {
			said.volume, err = readVolume(b.Volume, 1, b.Ounce)
		}
	case *Answered:
		said.of, err = readAnswered(b)
		if err == nil {
			one := saidOfDrains{said.moment, Answer{Said: said.said, Of: said.of, Words: *b}}
			s.answers = inserted(s.answers, one, func(a, b saidOfDrains) int { return a.compare(&b.moment) })
			return nil
		}
	}
	if err != nil {
		return badBody(e, err)
	}
	s.waste = inserted(s.waste, said, func(a, b saidOfWaste) int { return a.compare(&b.moment) })
	return nil
}

func readWasteIn(b *WasteIn) (of process.Role, v quantity.Volume, err error) {
	switch {
	case wantID("can", b.Can) != nil:
		return of, v, wantID("can", b.Can)
	case b.PutBy:
		return of, v, first(notBoth("put_by", "yes", "what", b.What), notBoth("put_by", "yes", "volume", b.Volume))
	}
	if of, err = readWhat(b.What); err != nil {
		return of, v, err
	}
	if err = wantWords("volume", b.Volume, "2 L"); err == nil {
		v, err = readVolume(b.Volume, 1, b.Ounce)
	}
	return of, v, err
}

func readAnswered(b *Answered) (process.Role, error) {
	err := first(mustBe("place", b.Place, darkroom.Home, darkroom.Community, darkroom.School),
		mustBe("drain", b.Drain, darkroom.Sewer, darkroom.Septic, darkroom.NoDrain),
		mustBe("answer", b.Answer, AuthorityYes, AuthorityNo, AuthorityIf))
	if err != nil {
		return process.NoRole, err
	}
	return readWhat(b.What)
}

// readWhat reads a role's word; the error is a *FieldError.
func readWhat(words string) (process.Role, error) {
	r, err := process.ReadRole(words)
	if err == nil {
		return r, nil
	}
	bad := &FieldError{Field: "what", Found: quantity.Shown(words), Why: FieldNoWord, Cause: err}
	if words == "" {
		bad.Why = FieldMissing
	}
	for _, r := range process.Roles() {
		bad.Want = append(bad.Want, r.String())
	}
	return r, bad
}

// Answers returns what authorities said of drains and was not taken back, in order.
func (s *State) Answers() []Answer {
	var all []Answer
	for i := range s.answers {
		if a := &s.answers[i]; s.corrections.stands(a.entry) {
			all = append(all, a.Answer)
		}
	}
	return all
}
