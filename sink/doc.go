// Package sink says who is where: the stations of tonight's work in their order, the prints that lie in them, until when,
// and whose move is next.
//
// It puts together what is planned (package plan: the way of each load, its times), what stands there (package book: the
// baths, by their ids) and what was tapped (package book: prints). Times are time.Duration, moments are instants; a due
// time is a moment that the taps themselves say, so that every device shows the same. A developer's and a fixer's time
// follow the temperature that was last read in the bath, by somebody or by a probe (package temper), with the reckoning.
//
// It makes the lists that are gone through at the start of an evening and at its end, of what is really there.
//
// It returns findings and figures, never sentences; it reads no clock.
package sink
