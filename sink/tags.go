package sink

import (
	"slices"
	"time"

	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/process"
)

// prints puts tags on the prints that are under way. What was started in an evening that is over, or half a day ago, is
// stray: somebody forgot to say that it left. Prints in holding and in the wash go by their batch.
func (k *looker) prints() {
	number := k.numbers()
	for _, p := range k.scene.State.Prints() {
		now := p.Now()
		if k.stray(&p) {
			k.sink.Stray = append(k.sink.Stray, p)
			continue
		}
		if now.Batch != "" {
			continue
		}
		t := Tag{Print: p, Number: number[p.ID], Station: k.at(now, p.What.Material), Next: -1}
		t.Way = k.wayOf(&p)
		t.Next = k.after(&t)
		if lift, due, ok := now.Due(); ok {
			t.Lift, t.Due = lift, due
		}
		k.sink.Tags = append(k.sink.Tags, t)
	}
}

// numbers counts the evening's prints in the order in which they were started.
func (k *looker) numbers() map[string]int {
	number := map[string]int{}
	for _, p := range k.scene.State.PrintsOf(k.sink.Evening.ID) {
		if k.sink.Evening.ID != "" || k.scene.Now.Sub(p.Began) <= TooOld {
			k.sink.Begun = append(k.sink.Begun, p)
			number[p.ID] = len(k.sink.Begun)
		}
	}
	return number
}

func (k *looker) stray(p *book.Print) bool {
	if e, ok := k.scene.State.Evening(p.Session); p.Session != "" && ok && e.Closed != nil && p.Last.At.Before(e.Closed.At) {
		return true
	}
	return k.scene.Now.Sub(p.Last.At) > TooOld
}

// at returns the station of a place, -1 where the plan has none.
func (k *looker) at(s *book.Stay, m material.Material) int {
	key := s.Step.String()
	if m == material.Film {
		key = "film-" + key
	}
	if i, ok := k.found[key]; ok {
		return i
	}
	return -1
}

// wayOf returns the way of a print: of its material and size, else of its material.
func (k *looker) wayOf(p *book.Print) int {
	of := func(same func(w Way) bool) int { return slices.IndexFunc(k.sink.Ways, same) }
	at := of(func(w Way) bool { return w.Material == p.What.Material && w.Size == p.What.Size })
	if at < 0 {
		at = of(func(w Way) bool { return w.Material == p.What.Material })
	}
	return at
}

// after returns the station to which a tag goes next. A print that lies where its way does not lead goes on with the first
// step that comes later.
func (k *looker) after(t *Tag) int {
	if t.Way < 0 {
		return -1
	}
	step := t.Print.Now().Step
	for _, stop := range k.sink.Ways[t.Way].Stops {
		if step.Before(k.sink.Stations[stop.Station].Step) {
			return stop.Station
		}
	}
	return -1
}

// next returns the tag that is moved next: the one that is due first, by when it was started where several are; one without
// a time only where no other has one. -1 for none.
func next(tags []Tag) int {
	best := -1
	for i := range tags {
		if best < 0 || sooner(&tags[i], &tags[best]) {
			best = i
		}
	}
	return best
}

func sooner(a, b *Tag) bool {
	if a.Timed() != b.Timed() {
		return a.Timed()
	}
	return a.Due.Before(b.Due)
}

// batches tells of what waits for its wash, lies in the washing aid and is washed. A batch is in the washing aid once one of
// its prints is, and both there and in the wash all count from the last that came in.
func (k *looker) batches() {
	lie := map[string][]*book.Stay{} // where the prints of a batch are
	for _, p := range k.scene.State.Prints() {
		if now := p.Now(); now.Batch != "" {
			lie[now.Batch] = append(lie[now.Batch], now)
		}
	}
	for _, b := range k.scene.State.Batches() {
		if len(b.Prints) == 0 || b.Wash != nil && !b.Wash.Ended.IsZero() || k.scene.Now.Sub(lastOf(&b)) > TooOld {
			continue
		}
		out := Batch{Batch: b, Material: b.Prints[0].Material, Since: b.Since}
		step := process.Hold
		switch aid := lastIn(lie[b.ID], process.WashAid); {
		case b.Wash != nil:
			step, out.Since = process.Wash, b.Wash.Clock
			if d := k.washTime(out.Material); d > 0 {
				out.Due = b.Wash.Clock.Add(d)
			}
		case aid != nil:
			step, out.Since = process.WashAid, aid.Since
			if _, due, ok := aid.Due(); ok {
				out.Due = due
			}
		}
		out.Station = k.at(&book.Stay{Step: step}, out.Material)
		out.Next = k.afterBatch(out.Material, step)
		k.sink.Batches = append(k.sink.Batches, out)
	}
}

// lastIn returns the stay in a step that began last, nil for none.
func lastIn(stays []*book.Stay, step process.Step) (last *book.Stay) {
	for _, s := range stays {
		if s.Step == step && (last == nil || s.Since.After(last.Since)) {
			last = s
		}
	}
	return last
}

func lastOf(b *book.Batch) time.Time { return b.Events[len(b.Events)-1].At }

// batchWay returns the stops that a material goes through as a batch by tonight's plan: washing aid and wash.
func (k *looker) batchWay(m material.Material) []Stop {
	for i := range k.sink.Ways {
		if w := &k.sink.Ways[i]; w.Material == m {
			return slices.DeleteFunc(slices.Clone(w.Stops), func(s Stop) bool {
				step := k.sink.Stations[s.Station].Step
				return step != process.WashAid && step != process.Wash
			})
		}
	}
	return nil
}

// afterBatch returns the station to which a batch goes next, -1 out of the sink.
func (k *looker) afterBatch(m material.Material, step process.Step) int {
	for _, s := range k.batchWay(m) {
		if step.Before(k.sink.Stations[s.Station].Step) {
			return s.Station
		}
	}
	return -1
}

// washTime returns how long a material is washed by tonight's plan, 0 where it does not say.
func (k *looker) washTime(m material.Material) time.Duration {
	for _, s := range k.batchWay(m) {
		if k.sink.Stations[s.Station].Step == process.Wash {
			return s.Time
		}
	}
	return 0
}
