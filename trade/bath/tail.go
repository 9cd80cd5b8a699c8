package bath

import "math"

// Tail returns the chance that a silver strip reads as far out as this one, or farther out on the same side, in rooms that
// were drawn without it, and whether it reads high. In rooms that are as believed, a tail under some chance comes up that
// often at most on each side, and besides where somebody notes down a wrong step.
func (r *Rooms) Tail(bath int, read StripRead) (chance float64, high bool) {
	under, over := 0.0, 0.0 // at most this step, at least this step
	low, top := read.between()
	for i := range r.rooms {
		at := math.Log(math.Max(r.held(i)[bath].PerLitre(Silver), 1e-6))
		under += normal((top - at) / stripSpread)
		over += normal((at - low) / stripSpread)
	}
	return math.Min(under, over) / float64(len(r.rooms)), over < under
}
