package draw

import (
	"cmp"
	"slices"

	"wetside/draw/scene"
)

// A tag is what is written at a mark: a number and, smaller, a word under it.
type tag struct {
	mark   float64 // where the mark is
	number string
	word   string
	loud   bool // the number is bold
	nth    int  // whose it is, for the caller
	spare  bool // is left out sooner than touch another or be moved far
	// What follows is reckoned by settle.
	wide float64 // the room that it takes along the row
	at   float64 // where its middle comes to stand
}

// settle finds places along a row, from lo to hi, for tags that must all be written: in the order of their marks,
// gap apart, as near to their marks as can be (least squares). Then spare ones are added where there is room.
// Where the tags that must be there do not fit, all are drawn narrower; the share is returned.
func settle(tags []tag, lo, hi, gap float64) (placed []tag, share float64) {
	var must, spare []tag
	for _, t := range tags {
		if t.spare {
			spare = append(spare, t)
		} else {
			must = append(must, t)
		}
	}
	slices.SortStableFunc(must, func(a, b tag) int { return cmp.Compare(a.mark, b.mark) })
	share = narrow(must, hi-lo, gap)
	apart(must, lo, hi, gap)
	for _, t := range spare {
		t.wide *= share
		t.at = min(max(t.mark, lo+t.wide/2), hi-t.wide/2)
		if !touches(must, t, gap) {
			must = append(must, t)
		}
	}
	slices.SortStableFunc(must, func(a, b tag) int { return cmp.Compare(a.at, b.at) })
	return must, share
}

// narrow takes the tags' widths down to what there is room for.
func narrow(tags []tag, room, gap float64) float64 {
	sum := 0.0
	for _, t := range tags {
		sum += t.wide
	}
	room -= gap * float64(max(0, len(tags)-1))
	if sum <= room {
		return 1
	}
	for i := range tags {
		tags[i].wide *= room / sum
	}
	return room / sum
}

func touches(tags []tag, t tag, gap float64) bool {
	return slices.ContainsFunc(tags, func(o tag) bool {
		return max(o.at-t.at, t.at-o.at) < (o.wide+t.wide)/2+gap-1e-9
	})
}

// A pool is a run of tags that stand shoulder to shoulder.
type pool struct {
	sum float64 // of where they want to be, less their offsets
	n   int
}

func (p pool) mean() float64 { return p.sum / float64(p.n) }

// apart sets At. The wish for order and distance becomes one for order alone once each tag's offset from the first
// is taken off; then runs that are out of order are pooled (pool adjacent violators) and the ends held.
func apart(tags []tag, lo, hi, gap float64) {
	if len(tags) == 0 {
		return
	}
	offset := make([]float64, len(tags))
	var pools []pool
	for i, t := range tags {
		if i > 0 {
			offset[i] = offset[i-1] + (tags[i-1].wide+t.wide)/2 + gap
		}
		pools = append(pools, pool{t.mark - offset[i], 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].mean() > pools[k].mean(); k-- {
			pools[k-1].sum += pools[k].sum
			pools[k-1].n += pools[k].n
			pools = pools[:k]
		}
	}
	last := len(tags) - 1
	low, high := lo+tags[0].wide/2, hi-tags[last].wide/2-offset[last]
	i := 0
	for _, p := range pools {
		for range p.n {
			tags[i].at = min(max(p.mean(), low), high) + offset[i]
			i++
		}
	}
}

// A tagRow is a row of tags under (or over) a graduation.
type tagRow struct {
	size    Size
	lo, hi  float64
	number  float64 // the size of numbers; 0: the size's own
	ends    float64 // y where the marks end
	top     float64 // y of the tops of the numbers
	upwards bool    // the tags stand over their marks, the word before the number in one line
}

// draw writes the tags with a line from each mark's end to its number, and returns the y under the lowest.
func (r tagRow) draw(out *scene.Scene, tags []tag) float64 {
	if r.number == 0 {
		r.number = r.size.number()
	}
	for i := range tags {
		tags[i].wide = r.width(tags[i])
	}
	placed, share := settle(tags, r.lo, r.hi, r.size.letter()*0.55)
	low := r.top
	for _, t := range placed {
		low = max(low, r.write(out, t, share))
	}
	return low
}

func (r tagRow) width(t tag) float64 {
	return max(scene.TextWidth(t.number, r.of(t), t.loud), scene.TextWidth(t.word, r.size.letter()*wordShare, false))
}

// wordShare is how much smaller the word under a number is than small letters.
const wordShare = 0.95

// of returns the size of a tag's number.
func (r tagRow) of(t tag) float64 {
	if t.spare {
		return min(r.number, r.size.letter())
	}
	return r.number
}

func (r tagRow) write(out *scene.Scene, t tag, share float64) float64 {
	size := r.of(t)
	line := scene.Path{Stroke: scene.Mark, Width: r.size.stroke(plainWidth)}
	tall := r.number * 0.73 // numbers of two sizes stand on one line
	base := r.top + tall
	switch {
	case t.spare:
	case r.upwards:
		out.Add(*line.Move(t.mark, r.ends).Line(t.at, r.top+tall+3))
	default:
		out.Add(*line.Move(t.mark, r.ends).Line(t.at, r.top-3))
	}
	ink := scene.Ink
	if t.spare {
		ink = scene.Soft
	}
	out.Add(scene.Text{At: scene.Point{X: t.at, Y: base}, Text: t.number, Size: size * share, Bold: t.loud, Anchor: scene.Middle, Fill: ink})
	if t.word == "" {
		return base
	}
	small := r.size.letter() * wordShare * share
	word := scene.Text{At: scene.Point{X: t.at, Y: base + small*1.05}, Text: t.word, Size: small, Anchor: scene.Middle, Fill: scene.Soft}
	out.Add(word)
	return word.Box().Max.Y
}
