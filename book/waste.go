package book

import (
	"cmp"
	"slices"
	"time"

	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// A WasteCan is a waste can with all that was put into it and taken from it. Its lists are not to be changed.
type WasteCan struct {
	ID     string       // empty: what was collected and nobody named a can of
	Can    darkroom.Can // as it is, or as it last was; zero where the book does not know it
	There  bool         // it stands in the room
	Now    []WastePart  // what is in it, the oldest first
	Moves  []WasteMove  // all that happened, in order
	Spilt  bool         // more was taken from it than was ever put in
	putBys int
	level  quantity.Volume // Level, summed up on the way
}

// Level is how much is in it.
func (c *WasteCan) Level() quantity.Volume {
	var sum quantity.Volume
	for i := range c.Now {
		sum += c.Now[i].Left()
	}
	return sum
}

// A WastePart is what one entry put into a can, and how much of it is there still, or went with one fetching.
type WastePart struct {
	Said
	Of     process.Role    // what it was; NoRole where the bath's product is not known
	Bath   string          // its id; empty for what no bath's own entry put in
	Volume quantity.Volume // as it was put in: as measured, else as the bath was mixed
	Share  float64         // of Volume, from 0 to 1
	Why    string          // the entry's words, or empty
}

// Left is Share of Volume.
func (p *WastePart) Left() quantity.Volume {
	if p.Share == 1 {
		return p.Volume
	}
	v, err := quantity.VolumeOfML(p.Volume.ML() * p.Share)
	if err != nil {
		return 0
	}
	return v
}

// A WasteMove is something put into a can or taken from it: one of In and Taken is given.
type WasteMove struct {
	Said
	In    *WastePart
	Taken *TakenAway
	With  []WastePart     // what went with a fetching
	Level quantity.Volume // after it
}

// ToCollected is where a bath goes that is put by to be collected.
const ToCollected = "collected"

// putIn is a part on its way into a can.
type putIn struct {
	moment
	can     string
	part    WastePart
	product string // the bath's; what it is, is said when it is asked about
}

// Waste returns the waste cans: those of the room in their order, then those that were removed or that the book does not know
// while anything is told of them, by id; first what nobody named a can of, where there is any.
func (s *State) Waste() []WasteCan { return slices.Clone(s.derived.waste.get(s.allWaste)) }

func (s *State) allWaste() []WasteCan {
	cans := map[string]*WasteCan{}
	at := func(id string) *WasteCan {
		if cans[id] == nil {
			cans[id] = &WasteCan{ID: id}
		}
		return cans[id]
	}
	ins := s.collected()
	for i := range s.waste {
		w := &s.waste[i]
		if !s.corrections.stands(w.entry) {
			continue
		}
		for len(ins) > 0 && ins[0].compare(&w.moment) <= 0 {
			at(ins[0].can).put(ins[0].part)
			ins = ins[1:]
		}
		switch b := w.body.(type) {
		case *WasteIn:
			if b.PutBy {
				at(b.Can).takeOver(at(""), w.said)
				continue
			}
			at(b.Can).put(WastePart{Said: w.said, Of: w.of, Volume: w.volume, Share: 1, Why: b.Why})
		case *TakenAway:
			at(b.Can).fetch(w.said, b, w.volume)
		}
	}
	for i := range ins {
		at(ins[i].can).put(ins[i].part)
	}
	return s.inOrder(cans)
}

// inOrder names the cans and puts them in order.
func (s *State) inOrder(cans map[string]*WasteCan) []WasteCan {
	order := map[string]int{}
	for i := range s.cans.all {
		h := &s.cans.all[i]
		order[h.id] = i + 1
		now := h.now(&s.corrections)
		if now != nil && cans[h.id] == nil {
			cans[h.id] = &WasteCan{ID: h.id}
		}
		c := cans[h.id]
		if c == nil {
			continue
		}
		if now != nil {
			c.Can, c.There = now.value, true
			continue
		}
		for _, was := range slices.Backward(h.said) {
			if !was.removed && s.corrections.stands(was.entry) {
				c.Can = was.value
				break
			}
		}
	}
	all := make([]WasteCan, 0, len(cans))
	for id, c := range cans {
		if id != "" || len(c.Moves) > c.putBys {
			all = append(all, *c)
		}
	}
	place := func(c *WasteCan) int {
		switch n := order[c.ID]; {
		case c.ID == "":
			return 0
		case n > 0 && c.There:
			return n
		}
		return len(order) + 1
	}
	slices.SortStableFunc(all, func(a, b WasteCan) int { return cmp.Or(cmp.Compare(place(&a), place(&b)), cmp.Compare(a.ID, b.ID)) })
	return all
}

// collected returns the baths that were put by to be collected, in order, those at rest among them.
func (s *State) collected() []putIn {
	var all []putIn
	for id := range s.baths {
		if p, in := s.putInOf(id); in {
			all = append(all, p)
		}
	}
	for _, x := range s.resting.records {
		if x != nil && x.bath != nil && x.bath.waste != nil {
			all = append(all, *x.bath.waste)
		}
	}
	for i := range all {
		product, _ := s.Product(all[i].product)
		all[i].part.Of = product.Role
	}
	slices.SortStableFunc(all, func(a, b putIn) int { return cmp.Or(a.compare(&b.moment), cmp.Compare(a.part.Bath, b.part.Bath)) })
	return all
}

// putInOf returns a bath's way into a can; false where it was not put by.
func (s *State) putInOf(id string) (p putIn, in bool) {
	m, _ := s.mix(id)
	d := s.leaving(id)
	if m == nil || d == nil {
		return p, false
	}
	var leave Leave
	switch did := d.did.(type) {
	case Disposal:
		leave = did.Leave
	case Move:
		leave = did.Leave
	}
	if leave.To != ToCollected && leave.Can == "" {
		return p, false
	}
	part := WastePart{
		Said: Said{Entry: d.entry, At: time.UnixMicro(d.at).UTC(), By: d.by}, Bath: id, Volume: leave.Volume, Share: 1, Why: leave.Why,
	}
	if part.Volume == 0 {
		part.Volume = m.bath.Volume
	}
	return putIn{moment: d.moment, can: leave.Can, part: part, product: m.bath.Mixed.Product}, true
}

func (c *WasteCan) put(p WastePart) {
	c.Now = append(c.Now, p)
	c.level += p.Left()
	c.Moves = append(c.Moves, WasteMove{Said: p.Said, In: &p, Level: c.level})
}

// takeOver moves all that no can was named of into this one.
func (c *WasteCan) takeOver(heap *WasteCan, said Said) {
	for _, p := range heap.Now {
		c.Now = append(c.Now, p)
		c.level += p.Left()
		in := p
		c.Moves = append(c.Moves, WasteMove{Said: said, In: &in, Level: c.level})
		heap.putBys++
	}
	heap.Now, heap.level = nil, 0
}

// fetch takes all, or as much as was said, the same part of each.
func (c *WasteCan) fetch(said Said, b *TakenAway, v quantity.Volume) {
	level, part := c.Level(), 1.0
	if v > 0 && level > 0 {
		part = min(1, v.ML()/level.ML())
	}
	c.Spilt = c.Spilt || v > level
	move := WasteMove{Said: said, Taken: b}
	var left []WastePart
	for _, p := range c.Now {
		gone, stays := p, p
		gone.Share, stays.Share = p.Share*part, p.Share*(1-part)
		move.With = append(move.With, gone)
		if part < 1 {
			left = append(left, stays)
		}
	}
	c.Now = left
	c.level = c.Level()
	move.Level = c.level
	c.Moves = append(c.Moves, move)
}
