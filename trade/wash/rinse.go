package wash

import "math"

// The laws of rinsing, for what is held and mixes at once: the ends to which every way of washing tends where contact is long.

// StillLaw returns the share that n fillings leave where held of liquid stays at every dump: (held ÷ (water + held))ⁿ. Source:
// the power of dilution (Dilutions); measured once in M. Fay (MFay). Both in the same unit; it is 1 where nothing is held
// or no water comes.
func StillLaw(water, held float64, n int) float64 {
	if !(held > 0 && water > 0) {
		return 1
	}
	return math.Pow(held/(water+held), float64(n))
}

// RunningLaw returns the share of a well-mixed vessel's own content after t of a flow: exp(−flow·t ÷ vessel), in matching
// units. Derived; the set-up is in Rinse-ODE.
func RunningLaw(flow, vessel, t float64) float64 { return math.Exp(-flow * t / vessel) }

// CounterFlowLaw returns by what n vessels against the flow divide: 1 + R + R² + … + Rⁿ, with R the fresh water for every
// volume carried over. One vessel is the single running rinse, 1 + R. Derived; its first case is in Poly.
func CounterFlowLaw(r float64, n int) float64 {
	sum := 1.0
	for range n {
		sum = 1 + r*sum
	}
	return sum
}

// CounterFlowFor returns the R for which CounterFlowLaw is ratio: 0 for a ratio of 1 or less, or without a vessel.
func CounterFlowFor(ratio float64, n int) float64 {
	if !(ratio > 1) || n < 1 {
		return 0
	}
	low, high := 0.0, ratio
	const halvings = 200 // more than a float64 can tell apart
	for range halvings {
		mid := low + (high-low)/2
		if mid == low || mid == high {
			break
		}
		if CounterFlowLaw(mid, n) < ratio {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
