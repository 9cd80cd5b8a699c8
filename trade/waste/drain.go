package waste

import (
	"slices"
	"time"

	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// Place is who the room is; the words are the darkroom file's.
type Place string

// The places.
const (
	NoPlace   Place = ""
	Home      Place = "home"
	Community Place = "community"
	School    Place = "school"
)

// Drain is where the sink drains; the words are the darkroom file's.
type Drain string

// The drains.
const (
	DrainUnsaid Drain = ""
	Sewer       Drain = "sewer"
	Septic      Drain = "septic"
	NoDrain     Drain = "none"
)

// Law is whose rules are looked at: EU, UK, US, CA, or empty.
type Law string

// SaidOf is what an authority answered about a drain; the words are the book's.
type SaidOf string

// The answers.
const (
	Yes SaidOf = "yes"
	No  SaidOf = "no"
	If  SaidOf = "if"
)

// An Answer is what an authority said of a bath, a place and a drain.
type Answer struct {
	Entry  string // of the book
	Of     process.Role
	Place  Place
	Drain  Drain
	Said   SaidOf
	On     time.Time
	Office string // who answered
	Words  string // the authority's own
}

// Way is what is done with a used bath, a key of the message catalogue.
type Way string

// The ways.
const (
	Collect    Way = "collect"      // into its can; never down the drain
	KeepAndAsk Way = "keep_and_ask" // into a can of its own until the authority has answered
	AskFirst   Way = "ask_first"    // a sewer: ask once, and keep the answer
	AsAnswered Way = "as_answered"  // as the authority's own answer has it
)

// Reason is why, a key of the message catalogue.
type Reason string

// The reasons.
const (
	SilverRich      Reason = "silver_rich"      // used fixer is what cities call silver-rich
	TonerHarms      Reason = "toner"            // a toner is collected apart
	OverLeached     Reason = "over_leached"     // US: hundreds of times what the law calls toxic
	NotByThinning   Reason = "not_by_thinning"  // US: thinning is no treatment
	ListedFixer     Reason = "listed_fixer"     // EU: a hazardous waste by the list
	ListedDeveloper Reason = "listed_developer" // EU: likewise
	NeverSeptic     Reason = "never_septic"     // it lives from bacteria, and the ground is next
	NothingDrains   Reason = "nothing_drains"
	PlaceUnsaid     Reason = "place_unsaid"
	DrainNotSaid    Reason = "drain_unsaid"
	HouseSewer      Reason = "house_sewer"   // what one region tells households
	NoHousehold     Reason = "no_household"  // a school or a club
	Consent         Reason = "consent"       // UK: of trades, schools among them
	LimitsDiffer    Reason = "limits_differ" // towns' limits for silver lie far apart
	ItSaidYes       Reason = "it_said_yes"
	ItSaidNo        Reason = "it_said_no"
	ItSaidIf        Reason = "it_said_if"
	SaidOfFixer     Reason = "said_of_fixer" // a yes for used fixer is kept and changes nothing
	AnswerOld       Reason = "answer_old"
	AnswerElsewhere Reason = "answer_elsewhere" // one stands there for another place or drain
)

// A Because is one reason with who says so.
type Because struct {
	Reason Reason
	Origin reckoning.Origin
	Source string // a key of docs/sources.md; empty: from memory, or common practice
}

// Advice is what to do with a used bath here.
type Advice struct {
	Of     process.Role
	Way    Way
	Why    []Because
	Answer *Answer // the last of this bath, place and drain; nil where nobody asked
}

// answerKept is after how long an answer is asked for anew; a guess.
const answerKept = 2 * 365 * 24 * time.Hour

// Here is a room.
type Here struct {
	Place   Place
	Drain   Drain
	Law     Law
	Answers []Answer // in order
	Now     time.Time
}

// Advise says what is done with a used bath here. Used fixer and toners are collected, whatever anybody answered. Nothing goes
// into a septic tank or onto the ground that an authority did not allow there. For a sewer the authority's answer counts, and
// without one the advice is to ask.
func (h Here) Advise(of process.Role) Advice {
	a := Advice{Of: of, Answer: h.answer(of)}
	if of == process.Fixer || of == process.Toner {
		a.Way = Collect
		h.collected(&a)
		h.answered(&a)
		return a
	}
	switch {
	case a.Answer != nil && a.Answer.Said == No:
		a.Way = Collect
	case a.Answer != nil:
		a.Way = AsAnswered
	case h.Drain == Sewer && h.Place != NoPlace:
		a.Way = AskFirst
	default:
		a.Way = KeepAndAsk
	}
	h.answered(&a)
	h.drains(&a)
	return a
}

// answer is the last about a bath at this place and drain.
func (h *Here) answer(of process.Role) *Answer {
	for i := range slices.Backward(h.Answers) {
		if x := &h.Answers[i]; x.Of == of && x.Place == h.Place && x.Drain == h.Drain {
			return x
		}
	}
	return nil
}

func (a *Advice) add(r Reason, o reckoning.Origin, source string) {
	a.Why = append(a.Why, Because{Reason: r, Origin: o, Source: source})
}

// collected is why used fixer and toners are.
func (h *Here) collected(a *Advice) {
	if a.Of == process.Toner {
		a.add(TonerHarms, reckoning.FromMemory, "")
	} else {
		a.add(SilverRich, reckoning.Standard, "Dallas")
	}
	fixer := a.Of == process.Fixer
	switch {
	case h.Law == "US" && fixer:
		a.add(OverLeached, reckoning.Standard, "TCLP-tab")
		a.add(NotByThinning, reckoning.Standard, "CFR268")
	case h.Law == "EU" && fixer:
		a.add(ListedFixer, reckoning.Standard, "LoW-list")
	}
	if fixer && h.Drain == Sewer {
		a.add(LimitsDiffer, reckoning.Standard, "Dallas-lim")
	}
	if h.Drain == Septic {
		a.add(NeverSeptic, reckoning.Standard, "OregonMetro")
	}
}

// answered is what the authority said.
func (h *Here) answered(a *Advice) {
	x := a.Answer
	if x == nil {
		if slices.ContainsFunc(h.Answers, func(x Answer) bool { return x.Of == a.Of }) {
			a.add(AnswerElsewhere, reckoning.Measured, "")
		}
		return
	}
	switch {
	case a.Of == process.Fixer && x.Said != No:
		a.add(SaidOfFixer, reckoning.Measured, "")
	case x.Said == Yes:
		a.add(ItSaidYes, reckoning.Measured, "")
	case x.Said == No:
		a.add(ItSaidNo, reckoning.Measured, "")
	default:
		a.add(ItSaidIf, reckoning.Measured, "")
	}
	if h.Now.Sub(x.On) > answerKept {
		a.add(AnswerOld, reckoning.FromMemory, "")
	}
}

// drains is what is printed of the drain.
func (h *Here) drains(a *Advice) {
	if h.Place == NoPlace {
		a.add(PlaceUnsaid, reckoning.CommonPractice, "")
	}
	switch h.Drain {
	case DrainUnsaid:
		a.add(DrainNotSaid, reckoning.CommonPractice, "")
	case NoDrain:
		a.add(NothingDrains, reckoning.CommonPractice, "")
	case Septic:
		a.add(NeverSeptic, reckoning.Standard, "OregonMetro")
	case Sewer:
		h.sewer(a)
	}
	if h.Law == "EU" && a.Of == process.Developer {
		a.add(ListedDeveloper, reckoning.Standard, "LoW-list")
	}
}

// sewer is what is printed of sewers, until the authority has answered.
func (h *Here) sewer(a *Advice) {
	if a.Answer != nil {
		return
	}
	switch h.Place {
	case Home:
		a.add(HouseSewer, reckoning.Standard, "OregonMetro")
	case Community, School:
		if h.Law == "UK" {
			a.add(Consent, reckoning.Standard, "UK-Coppice")
			return
		}
		a.add(NoHousehold, reckoning.FromMemory, "")
	case NoPlace:
	}
}
