package book

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"wetside/darkroom"
)

// A State is the fold of a darkroom's entries: what is there now. It is made by New or Fold, moved on by Apply, and
// not safe for use by several goroutines while one applies; Clone gives one to keep.
type State struct {
	darkroom string
	position int64
	old      Upcasts

	room     history[darkroom.Room]
	bench    history[darkroom.Bench]
	session  history[darkroom.Session]
	vessels  things[darkroom.Vessel]
	trays    things[darkroom.Tray]
	tanks    things[darkroom.Tank]
	cans     things[darkroom.Can]
	waste    []saidOfWaste  // in order
	answers  []saidOfDrains // in order
	products things[darkroom.Product]
	people   things[darkroom.Person]
	lots     map[string][]happening
	baths    map[string][]making
	deeds    map[string][]*deed         // by bath
	batches  map[string][]*deed         // by batch
	prints   map[string]*track          // by print
	trackOf  map[string]string          // the print that an entry is about
	inSink   map[string]bool            // the prints that are somewhere in the sink
	evenings map[string][]saidOfEvening // in order, by session
	looked   []*deed                    // what looked wrong, in order
	readings map[string][]saidOfReading // of probes, in order, by where they hang

	corrections corrections
	resting     *resting // what is long finished
	unread      []Unread
	derived     *derived             // what was worked out of all this, until more is told
	read        map[amountKey]amount // what words came to, so that each is read once
	passes      map[passKey]Pass     // the same of prints
}

// An Unread is an entry that stands in the book and has no effect here.
type Unread struct {
	ID       string
	Position int64
	Kind     Kind
	Version  int
	Cause    error // of kind Newer, or BadInput for a body that is not what its kind says
}

// New returns the state of an empty book. old lifts bodies of older versions; Upcasters() is the program's own.
func New(darkroomID string, old Upcasts) *State {
	return &State{
		darkroom:    darkroomID,
		old:         old,
		vessels:     newThings[darkroom.Vessel](),
		trays:       newThings[darkroom.Tray](),
		tanks:       newThings[darkroom.Tank](),
		cans:        newThings[darkroom.Can](),
		products:    newThings[darkroom.Product](),
		people:      newThings[darkroom.Person](),
		lots:        map[string][]happening{},
		baths:       map[string][]making{},
		deeds:       map[string][]*deed{},
		batches:     map[string][]*deed{},
		prints:      map[string]*track{},
		trackOf:     map[string]string{},
		inSink:      map[string]bool{},
		evenings:    map[string][]saidOfEvening{},
		readings:    map[string][]saidOfReading{},
		corrections: newCorrections(),
		resting:     &resting{},
		derived:     newDerived(),
		read:        map[amountKey]amount{},
		passes:      map[passKey]Pass{},
	}
}

// Fold returns the state after a darkroom's entries, from position 1 on. The error is that of Apply.
func Fold(darkroomID string, entries []Entry) (*State, error) {
	s := New(darkroomID, Upcasters())
	for _, e := range entries {
		if err := s.Apply(e); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// Apply moves the state on by the next entry. What can't be read is kept in Unread and changes nothing. The error, of
// kind Damaged, is for an entry of another darkroom or at another position than the next; the state is then as before. What an
// entry is about must be awake: see Needs.
func (s *State) Apply(e Entry) error {
	if err := s.follows(&e); err != nil {
		return err
	}
	body, err := s.old.Read(e)
	s.take(e, body, err)
	return nil
}

// Next is Apply for a state of which something rests. Where the entry is about that, nothing is done but to say what is to be
// woken; then it is asked again. find is that of Needs, and the error that of Apply or of find.
func (s *State) Next(e Entry, find Finder) (w Waking, err error) {
	if err := s.follows(&e); err != nil {
		return w, err
	}
	body, reading := s.old.Read(e)
	if reading == nil && !s.resting.none() {
		q := wakes{s: s}
		if err := q.read(&e, body, find); err != nil {
			return w, err
		}
		if w = q.waking(); !w.None() {
			return w, nil
		}
	}
	s.take(e, body, reading)
	return w, nil
}

// follows reports an entry that is not the next.
func (s *State) follows(e *Entry) error {
	if e.Darkroom != s.darkroom || e.Position != s.position+1 {
		return &Error{Kind: Damaged, Key: "entry_out_of_order", Cause: fmt.Errorf(
			"%s at %d was given the entry at %d of %s", s.darkroom, s.position, e.Position, e.Darkroom)}
	}
	return nil
}

// take takes in an entry, or keeps it where it could not be read.
func (s *State) take(e Entry, body Body, err error) {
	s.position = e.Position
	if err == nil {
		err = s.tell(e, body)
	}
	if err != nil {
		s.unread = append(s.unread, Unread{e.ID, e.Position, e.Kind, e.Version, err})
	}
}

// tell takes in one body. On an error nothing was taken in.
func (s *State) tell(e Entry, body Body) error {
	s.derived = s.derived.after(body)
	switch b := body.(type) {
	case *Set:
		return s.tellSet(e, b)
	case *Removed:
		return s.tellRemoved(e, b)
	case *LotReceived:
		return s.tellComing(e, b.Lot, saying{product: b.Product, whose: b.Whose, ounce: b.Ounce}, b.As)
	case *LotOpened:
		day, err := time.Parse(time.DateOnly, b.Opened)
		if err != nil {
			return badBody(e, err)
		}
		s.happened(b.Lot, happening{do: actOpened, said: &saying{opened: darkroom.As[time.Time]{Value: day, Text: b.Opened}}}, e)
	case *LotCounted:
		a, err := readCount(b.Left, b.Ounce)
		if err != nil {
			return badBody(e, err)
		}
		s.happened(b.Lot, happening{do: actCounted, amount: a, said: &saying{words: b.Left, ounce: b.Ounce}}, e)
	case *LotDrawn:
		return s.tellDraws(e, []Draw{b.Draw}, b.Ounce)
	case *LotDiscarded:
		s.happened(b.Lot, happening{do: actDiscarded}, e)
	case *Stock:
		return s.tellStock(e, b)
	case *Mixed:
		return s.tellMixed(e, b)
	case *Corrected:
		s.corrections.add(e)
		if id, ofPrint := s.trackOf[s.corrections.root(e.TakesBack)]; ofPrint {
			s.track(id, s.prints[id].said)
		}
	case *PrintStarted, *PrintMoved, *PrintLeft:
		return s.tellPrint(e, body)
	case *EveningOpened, *EveningJoined, *EveningClosed, *Ticked, *Told:
		return s.tellEvening(e, body)
	case *ProbeRead:
		return s.tellReading(e, b)
	case *WasteIn, *TakenAway, *Answered:
		return s.tellWaste(e, body)
	default:
		return s.tellDeed(e, body)
	}
	return nil
}

func (s *State) happened(lot string, h happening, e Entry) {
	h.moment = momentOf(e)
	h.begins = h.do == actReceived
	s.lots[lot] = inserted(s.lots[lot], h, func(a, b happening) int { return a.compare(&b.moment) })
}

func (s *State) tellComing(e Entry, lot string, said saying, as []byte) (err error) {
	if said.lot, err = decodeLot(as, said.ounce); err != nil {
		return badBody(e, err)
	}
	s.happened(lot, happening{do: actReceived, said: &said}, e)
	return nil
}

func (s *State) tellStock(e Entry, b *Stock) error {
	amounts, err := s.amounts(e, b.From, b.Ounce)
	if err != nil {
		return err
	}
	if err := s.tellComing(e, b.Lot, saying{product: b.Product, whose: b.Whose, ounce: b.Ounce}, b.As); err != nil {
		return err
	}
	s.draw(e, b.From, amounts)
	return nil
}

func (s *State) tellDraws(e Entry, from []Draw, o Ounce) error {
	amounts, err := s.amounts(e, from, o)
	if err != nil {
		return err
	}
	s.draw(e, from, amounts)
	return nil
}

// draw takes the amounts off the lots that the draws name.
func (s *State) draw(e Entry, from []Draw, amounts []amount) {
	for i, d := range from {
		if d.Lot != "" {
			s.happened(d.Lot, happening{do: actDrawn, amount: amounts[i]}, e)
		}
	}
}

// amountKey is words and what rules their meaning.
type amountKey struct {
	words string
	times int
	ounce Ounce
}

// maxRead bounds the words that are remembered.
const maxRead = 4096

// amounts reads the words of draws.
func (s *State) amounts(e Entry, from []Draw, o Ounce) ([]amount, error) {
	out := make([]amount, 0, len(from))
	for _, d := range from {
		key := amountKey{d.Amount, d.Times, o}
		a, known := s.read[key]
		if !known {
			var err error
			if a, err = readAmount(d.Amount, d.Times, o); err != nil {
				return nil, badBody(e, err)
			}
			if len(s.read) >= maxRead {
				clear(s.read)
			}
			s.read[key] = a
		}
		out = append(out, a)
	}
	return out, nil
}

// Clone returns a copy; neither notices what the other is told afterwards.
func (s *State) Clone() *State {
	c := *s
	c.derived = s.derived.again()
	c.room.said, c.bench.said, c.session.said = slices.Clip(s.room.said), slices.Clip(s.bench.said), slices.Clip(s.session.said)
	c.vessels, c.trays, c.tanks, c.cans = s.vessels.clone(), s.trays.clone(), s.tanks.clone(), s.cans.clone()
	c.waste, c.answers = slices.Clip(s.waste), slices.Clip(s.answers)
	c.products, c.people = s.products.clone(), s.people.clone()
	c.lots, c.baths = cloneLists(s.lots), cloneLists(s.baths)
	c.deeds, c.batches = cloneLists(s.deeds), cloneLists(s.batches)
	c.prints, c.trackOf, c.inSink = maps.Clone(s.prints), maps.Clone(s.trackOf), maps.Clone(s.inSink)
	c.evenings = cloneLists(s.evenings)
	c.readings = cloneLists(s.readings)
	c.looked = slices.Clip(s.looked)
	c.corrections = s.corrections.clone()
	c.unread = slices.Clip(s.unread)
	c.read, c.passes = map[amountKey]amount{}, map[passKey]Pass{}
	return &c
}

// cloneLists copies a map of lists; a list that one side appends to no longer shares its end with the other's.
func cloneLists[T any](lists map[string][]T) map[string][]T {
	out := make(map[string][]T, len(lists))
	for id, list := range lists {
		out[id] = slices.Clip(list)
	}
	return out
}

// Darkroom returns the darkroom's id.
func (s *State) Darkroom() string { return s.darkroom }

// Position returns the position of the last entry taken in, 0 for none: what a decision made on this state expects.
func (s *State) Position() int64 { return s.position }

// Unread returns the entries that had no effect, in order of position.
func (s *State) Unread() []Unread { return slices.Clone(s.unread) }
