package ahead

import (
	"errors"
	"slices"
	"time"

	"wetside/book"
	"wetside/trade/bath"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// usualDraws is how many possible rooms are drawn where a scene does not say.
const usualDraws = 4000

// Shared returns the scene for several looks, each with something changed: what they have in common is reckoned once. They
// are not to be taken at the same time.
func Shared(s Scene) Scene {
	s.acids = newAcids()
	return s
}

// Look says what is coming. The error is that of package bath or chem, for a scene that makes no sense.
func Look(s Scene) (Report, error) {
	if s.acids == nil {
		s.acids = newAcids()
	}
	l := looker{scene: &s}
	if err := l.draw(); err != nil {
		return Report{}, err
	}
	return l.look()
}

// LookApart says what is coming by each chain of the scene as if there were no other: what Look says of as many scenes of one
// chain each, of which the rooms are drawn once. The error joins theirs; the report of a chain that can't be looked at is empty.
func LookApart(s Scene) ([]Report, error) {
	s = Shared(s)
	drawn := looker{scene: &s}
	if err := drawn.draw(); err != nil {
		return nil, err
	}
	all, errs := make([]Report, len(s.Chains)), make([]error, len(s.Chains))
	for i := range s.Chains {
		one, l := s, drawn
		one.Chains, l.scene = s.Chains[i:i+1], &one
		all[i], errs[i] = l.look()
	}
	return all, errors.Join(errs...)
}

// look says what is coming in the rooms that are drawn.
func (l *looker) look() (Report, error) {
	if err := l.fit(); err != nil {
		return Report{}, err
	}
	for i := range l.scene.Chains {
		if err := l.chain(&l.scene.Chains[i]); err != nil {
			return Report{}, err
		}
	}
	l.rest()
	l.learned()
	l.lead()
	return l.report, nil
}

type looker struct {
	scene  *Scene
	past   bath.Past
	rooms  *bath.Rooms   // now
	after  *bath.Rooms   // after tonight; nil where nothing is wanted
	unfit  map[int]unfit // by bath, where the last strip does not fit what was counted
	report Report
}

func (l *looker) draw() error {
	s := l.scene
	n := s.Draws
	if n == 0 {
		n = usualDraws
	}
	l.report = Report{At: s.Now, Draws: n}
	if len(s.Baths) == 0 {
		return nil
	}
	var err error
	if l.past, err = s.past(); err != nil {
		return err
	}
	if l.rooms, err = l.past.Draw(n, s.Seed); err != nil {
		return err
	}
	l.report.Effective = l.rooms.Effective
	if len(s.Tonight) == 0 {
		return nil
	}
	var steps []bath.Step
	for i := range s.Tonight {
		steps = append(steps, s.Tonight[i].step())
	}
	l.after, err = l.rooms.After(steps...)
	return err
}

// asked is one chain's question with what it found.
type asked struct {
	chain   *Chain
	ask     bath.Ask
	figures []*reckoning.Figure // the silver limit of each place
	advised []bool              // places where the answer is another way of working
	now     *bath.Ends
	after   *bath.Ends
}

// chain looks ahead for each bath of a chain that no chain before it had.
func (l *looker) chain(c *Chain) error {
	if len(c.Baths) == 0 {
		return nil
	}
	a := asked{chain: c, ask: bath.Ask{
		Sheet:   bath.Sheet{Of: c.Material, Area: Area8x10, Drained: c.Drained.Seconds()},
		Through: c.Baths,
	}}
	for _, b := range c.Baths {
		limits, figure, ok := l.scene.limitOf(c, &l.scene.Baths[b], &l.past.Baths[b])
		a.ask.Limits = append(a.ask.Limits, limits)
		a.figures, a.advised = append(a.figures, figure), append(a.advised, !ok)
	}
	var err error
	if a.now, err = l.rooms.Ends(a.ask); err != nil {
		return err
	}
	if l.after != nil {
		if a.after, err = l.after.Ends(a.ask); err != nil {
			return err
		}
	}
	for place, b := range c.Baths {
		if !l.has(b) && told(l.scene.Baths[b].Role) {
			l.report.Baths = append(l.report.Baths, l.outlook(&a, place))
		}
	}
	return nil
}

// told reports whether something is told of a bath of this role: not of plain water.
func told(r process.Role) bool { return r != process.NoRole }

func (l *looker) has(index int) bool {
	return slices.ContainsFunc(l.report.Baths, func(o Outlook) bool { return o.Index == index })
}

// rest tells of the baths that are in no chain what time says of them.
func (l *looker) rest() {
	for i := range l.scene.Baths {
		b := &l.scene.Baths[i]
		if l.has(i) || !told(b.Role) || b.Gone {
			continue
		}
		o := Outlook{Bath: *b, Index: i, End: End{By: ByUnknown}}
		l.worked(&o)
		l.time(&o)
		o.Lead = Finding{Kind: NoRule, Subject: b.name()}
		switch {
		case l.failed(&o):
			o.End.By = ByTest
			o.Lead = l.gone(&o, FailedTest)
		case b.Known == book.MadeUnknown:
			o.Lead.Kind = ofUnknownAge(b.Role)
		case !o.End.Date.IsZero() && !l.scene.Now.Before(o.End.Date):
			o.End.By = timed(b)
			o.Lead = l.gone(&o, PastDate)
		case !o.End.Date.IsZero():
			o.End.By = timed(b)
			o.Lead = Finding{Kind: UseUntil, Subject: b.name(), By: o.End.By, Date: o.End.Date}
		}
		l.report.Baths = append(l.report.Baths, o)
	}
}

// ofUnknownAge says what to do with a bath that nobody knows since when it stands: only a fixer is worth a test.
func ofUnknownAge(r process.Role) FindingKind {
	switch r {
	case process.Developer:
		return PourOut
	case process.Fixer:
		return TestFirst
	default:
		return UnknownAge
	}
}

// name is what the bath is called.
func (b *Bath) name() string {
	if b.Name != "" {
		return b.Name
	}
	return b.ID
}

// timed says whether a bath's time is that of a tray or of a bottle.
func timed(b *Bath) By {
	if b.open() {
		return ByTrayTime
	}
	return ByKeeping
}

// worked adds up what went through a bath.
func (l *looker) worked(o *Outlook) {
	for i := range l.scene.Events {
		p := l.scene.Events[i].Pass
		if p == nil || !slices.Contains(p.Baths, o.Index) {
			continue
		}
		o.Done += p.Units()
		if p.Estimated {
			o.Guessed += p.Units()
		}
		if made := o.Bath.Made; !made.IsZero() && o.Bath.Known == book.MadeThen && l.scene.Events[i].At.Before(made) {
			o.more(Finding{Kind: BeforeItWasMade, Subject: o.Bath.name(), Date: l.scene.Events[i].At})
		}
	}
	if o.Guessed > 0 {
		o.more(Finding{Kind: Guessed, Subject: o.Bath.name(), Figures: []reckoning.Figure{
			count("guessed", o.Guessed), count("done", o.Done),
		}})
	}
}

func (o *Outlook) more(f Finding) {
	same := func(g Finding) bool { return g.Kind == f.Kind && g.Subject == f.Subject }
	if !slices.ContainsFunc(o.More, same) {
		o.More = append(o.More, f)
	}
}

func count(name string, n float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: n, Unit: reckoning.One}
}

// tonight returns what tonight puts through a bath, in 8×10.
func (l *looker) tonight(index int) float64 {
	units := 0.0
	for i := range l.scene.Tonight {
		if p := &l.scene.Tonight[i]; slices.Contains(p.Baths, index) {
			units += p.Units()
		}
	}
	return units
}

// later returns the later of two moments.
func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
