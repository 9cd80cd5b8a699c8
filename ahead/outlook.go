package ahead

import (
	"math"
	"slices"

	"wetside/book"
	"wetside/trade/bath"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// outlook looks ahead for one bath of a chain.
func (l *looker) outlook(a *asked, place int) Outlook {
	index := a.chain.Baths[place]
	o := Outlook{Bath: l.scene.Baths[index], Index: index, Chain: *a.chain}
	l.worked(&o)
	l.holds(&o)
	l.label(&o)
	l.time(&o)
	if b := &o.Bath; b.Film && a.chain.Material.Paper() {
		o.End.By = ByAdvice
		o.Lead = Finding{Kind: ForFilmAlone, Subject: b.name()}
		return o
	}
	switch o.Bath.Role {
	case process.Fixer:
		l.fixer(&o, a, place)
	case process.StopBath:
		l.stop(&o, a, place)
	default:
		l.developer(&o)
	}
	l.beside(&o)
	return o
}

// holds says what is in the bath.
func (l *looker) holds(o *Outlook) {
	switch o.Bath.Role {
	case process.Fixer:
		o.Silver = l.rooms.Now(o.Index, bath.Silver)
		o.Thiosulfate = l.rooms.Now(o.Index, bath.Thiosulfate)
	case process.StopBath:
		if ph, err := l.rooms.PH(o.Index); err == nil {
			o.PH = ph.P50
		}
	default:
	}
}

// fixer says how many sheets a fixer still does.
func (l *looker) fixer(o *Outlook, a *asked, place int) {
	if a.advised[place] {
		o.End.By = ByAdvice
		o.Lead = Finding{Kind: UseTwoBaths, Subject: o.Bath.name(), Standard: a.chain.Standard, Fixing: process.TwoBaths}
		o.Tests = []book.Test{book.SilverDrop}
		return
	}
	places := []int{place}
	if a.chain.place(&o.Bath) == bath.First {
		if second := l.secondOf(a.chain); second >= 0 {
			places = append(places, second)
		}
	}
	l.counted(o, a, place, places)
	by := map[bath.Ending]By{bath.BySilver: BySilver, bath.ByThiosulfate: ByThiosulfate}
	if at, ending := a.now.By(places...); at == place {
		o.End.By = by[ending]
	} else {
		o.End.By = BySecondBath
	}
	l.tests(o, a, place)
	l.ends(o, a)
}

// secondOf returns the place of the second fixer in a chain, -1 where there is none.
func (l *looker) secondOf(c *Chain) int {
	return slices.IndexFunc(c.Baths, func(b int) bool {
		x := &l.scene.Baths[b]
		return x.Role == process.Fixer && x.Place == bath.Second
	})
}

// counted takes the counts of a bath, those of several places where the first to end counts.
func (l *looker) counted(o *Outlook, a *asked, place int, places []int) {
	left := a.now.First(places...)
	o.Left = &left
	if a.after != nil {
		after := a.after.First(places...)
		o.After = &after
	}
	o.Reckoning = append(l.rooms.Reckon(a.ask, place, a.figures[place], a.now), o.Reckoning...)
	if l.scene.Courses {
		o.Course = l.course(o, a, place)
	}
}

// stop says how many sheets a stop bath still does.
func (l *looker) stop(o *Outlook, a *asked, place int) {
	if l.past.Baths[o.Index].Titration == nil || a.ask.Limits[place].Developer == 0 {
		l.developer(o)
		return
	}
	l.counted(o, a, place, []int{place})
	o.End.By = ByPH
	if o.Bath.acidAssumed() {
		o.more(Finding{Kind: AcidAssumed, Subject: o.Bath.name()})
	}
	l.tests(o, a, place)
	l.ends(o, a)
}

// developer is judged by its label, the time in the tray and a sheet in room light; so is everything else that nothing
// is reckoned of.
func (l *looker) developer(o *Outlook) {
	b := &o.Bath
	if b.Role == process.Developer {
		o.Tests = []book.Test{book.LightTest}
	}
	switch {
	case b.Known == book.MadeUnknown:
		o.End.By = ByUnknown
		o.Lead = Finding{Kind: UnknownAge, Subject: b.name()}
		if b.Role == process.Developer {
			o.Lead.Kind = PourOut
		}
		return
	case b.oneShot():
		o.End.By = ByLabel
		o.Lead = Finding{Kind: OneShot, Subject: b.name()}
		return
	case o.Label != nil:
		left := max(0, *o.Label)
		o.Left = &bath.Counts{P10: left, P50: left, P90: left}
		after := max(0, left-int(math.Ceil(l.tonight(o.Index)-1e-9)))
		if l.after != nil {
			o.After = &bath.Counts{P10: after, P50: after, P90: after}
		}
		o.End.By = ByLabel
		if !o.End.Date.IsZero() && float64(left) >= l.tonight(o.Index) {
			o.End.By = timed(b)
		}
	case !o.End.Date.IsZero():
		o.End.By = timed(b)
	default:
		o.End.By = ByUnknown
	}
	l.ends(o, nil)
}

// oneShot reports a film developer that its label has poured away after its film.
func (b *Bath) oneShot() bool {
	return b.Role == process.Developer && b.Tank != "" && b.Product != nil && b.Product.OneShot()
}

// course follows the bath a third beyond its likely end.
func (l *looker) course(o *Outlook, a *asked, place int) *Course {
	c := &Course{Of: bath.Silver, From: o.Done}
	if o.Bath.Role == process.StopBath {
		c.Of, c.Limit = bath.Developer, bath.SpentPH
	}
	upTo := min(max(o.Left.P50*4/3, 10), 2000)
	ahead, err := l.rooms.Course(a.ask, place, c.Of, upTo, 24)
	if err != nil {
		return nil
	}
	c.Ahead = ahead
	return c
}

// label says what the label's capacity leaves: loads of different materials add as parts of it. The label counts what a
// bath fixes, so of two fixers what went through as the first; of a second it says nothing.
func (l *looker) label(o *Outlook) {
	if o.Bath.Role == process.Fixer && o.Chain.place(&o.Bath) == bath.Second {
		return
	}
	b := &o.Bath
	if b.Product == nil {
		return
	}
	label := b.Product.Label(b.strength())
	for m := range label {
		if label[m] == (bath.Capacity{}) {
			label[m] = label[o.Chain.Material] // what the label does not name counts as what is asked about
		}
	}
	var done []bath.Done
	for i := range l.scene.Events {
		p := l.scene.Events[i].Pass
		if p != nil && slices.Contains(p.Baths, o.Index) && (b.Role != process.Fixer || !l.fixedBefore(p, o.Index)) {
			done = append(done, bath.Done{Of: p.Material, Area: p.Area * p.Sheets, Rolls: p.Units()})
		}
	}
	one := bath.Done{Of: o.Chain.Material, Area: Area8x10, Rolls: 1}
	all, ok := bath.LabelLeft(&label, b.Litres, 0, one)
	if !ok {
		return
	}
	used, _ := bath.LabelUsed(&label, b.Litres, done...)
	left, _ := bath.LabelLeft(&label, b.Litres, used.Result.Value, one)
	whole, rest := int(all.Result.Value), int(left.Result.Value)
	o.LabelAll, o.Label = &whole, &rest
	o.Reckoning = append(o.Reckoning, used, left)
}

// fixedBefore reports whether sheets met another fixer before a bath.
func (l *looker) fixedBefore(p *Pass, index int) bool {
	for _, b := range p.Baths {
		if b == index {
			return false
		}
		if l.scene.Baths[b].Role == process.Fixer {
			return true
		}
	}
	return false
}

// ends finishes what ends a bath: by count, by its day, by a test.
func (l *looker) ends(o *Outlook, a *asked) {
	l.clampToLabel(o)
	if o.Left != nil {
		o.End.At = int(o.Done + float64(o.Left.P10) + 1e-6)
		if len(o.Tests) > 0 {
			o.TestAfter = max(0, o.Left.P10-int(math.Ceil(testBefore*(o.Done+float64(o.Left.P10)))))
		}
		l.dayFirst(o)
	}
	switch b := &o.Bath; {
	case l.failed(o):
		o.End.By = ByTest
		o.Lead = l.gone(o, FailedTest)
	case b.Known == book.MadeUnknown && !l.measured(o, a):
		o.End.By, o.Left, o.After, o.Course = ByUnknown, nil, nil, nil
		o.Lead = Finding{Kind: UnknownAge, Subject: b.name()}
		if b.Role == process.Fixer {
			o.Lead.Kind = TestFirst
			l.cannotTell(o, a)
		}
	case !o.End.Date.IsZero() && !l.scene.Now.Before(o.End.Date):
		o.End.By = timed(b)
		o.Lead = l.gone(o, PastDate)
	case o.Left == nil && o.End.By == ByUnknown:
		o.Lead = Finding{Kind: NoRule, Subject: b.name()}
	case o.Left == nil:
		o.Lead = Finding{Kind: UseUntil, Subject: b.name(), By: o.End.By, Date: o.End.Date}
	case o.Left.P10 == 0 && l.worthTest(o, a):
		o.Lead = Finding{
			Kind: AtSafeEnd, Subject: b.name(), Standard: o.Chain.Standard, By: o.End.By, Test: o.settling(),
			Figures: []reckoning.Figure{count("likely", float64(o.Left.P50))},
		}
	case o.Left.P10 == 0:
		o.Lead = l.gone(o, Spent)
	default:
		l.use(o, a)
	}
}

// use is the sentence of a bath that is good.
func (l *looker) use(o *Outlook, a *asked) {
	o.Lead = Finding{
		Kind: UseFor, Subject: o.Bath.name(), Standard: o.Chain.Standard, Fixing: o.Chain.Fixing, By: o.End.By, Date: o.End.Date,
		Figures: []reckoning.Figure{count("safe", float64(o.Left.P10)), count("likely", float64(o.Left.P50))},
	}
	switch {
	case a == nil:
		o.Lead.Kind = UseForLabel
	case o.Left.P10 >= many:
		o.Lead.Kind = UseForMany
	}
}

// many is a count that no evening comes near.
const many = 2000

// gone makes the outlook of a bath that is not to be used any more.
func (l *looker) gone(o *Outlook, kind FindingKind) Finding {
	if o.Left != nil || o.Bath.Role == process.Fixer || o.Bath.Role == process.StopBath {
		o.Left = &bath.Counts{}
		if l.after != nil {
			o.After = &bath.Counts{}
		}
	}
	o.TestAfter = 0
	return Finding{
		Kind: kind, Subject: o.Bath.name(), By: o.End.By, Date: o.End.Date, Standard: o.Chain.Standard,
		Figures: []reckoning.Figure{count("done", o.Done)},
	}
}

// clampToLabel lets the label end a bath where it names less than was reckoned. Where it names more, both are said.
func (l *looker) clampToLabel(o *Outlook) {
	if o.Label == nil || o.Left == nil || o.Bath.Role == process.Developer {
		return
	}
	label := max(0, *o.Label)
	if label < o.Left.P10 {
		o.End.By = ByLabel
	} else if label > o.Left.P50 {
		o.more(Finding{Kind: LabelDiffers, Subject: o.Bath.name(), Standard: o.Chain.Standard, Figures: []reckoning.Figure{
			count("label", float64(label)), count("safe", float64(o.Left.P10)), count("likely", float64(o.Left.P50)),
		}})
	}
	clamp := func(c *bath.Counts, most int) {
		if c != nil {
			c.P10, c.P50, c.P90 = min(c.P10, most), min(c.P50, most), min(c.P90, most)
		}
	}
	clamp(o.Left, label)
	clamp(o.After, max(0, label-int(math.Ceil(l.tonight(o.Index)-1e-9))))
}

// beside is what else belongs to a bath.
func (l *looker) beside(o *Outlook) {
	b := &o.Bath
	if o.Chain.Assumed && b.Role == process.Fixer {
		o.more(Finding{Kind: StandardTaken, Standard: o.Chain.Standard})
	}
	if b.Known == book.MadeEstimated {
		o.more(Finding{Kind: AgeGuessed, Subject: b.name(), Date: b.Made})
	}
	if o.Left != nil && o.Left.P10 > 0 && l.after != nil {
		tonight := l.tonight(o.Index)
		kind := TonightEnough
		if tonight > float64(o.Left.P10) {
			kind = TonightShort
		}
		if tonight > 0 {
			o.more(Finding{Kind: kind, Subject: b.name(), Figures: []reckoning.Figure{
				count("tonight", math.Ceil(tonight-1e-9)), count("safe", float64(o.Left.P10)),
			}})
		}
	}
	l.bottled(o)
	switch b.Role {
	case process.Fixer:
		l.besideFixer(o)
	case process.Developer:
		l.inTray(o)
	default:
	}
	if l.scene.Helps && o.Left != nil {
		o.Helps = l.helps(o)
	}
}
