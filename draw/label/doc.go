// Package label makes the label of a bath, or of a waste can: what it is, how strong, for what, when it was mixed and by whom,
// until when it keeps, its hazards, where it goes when it is spent, places for a pencil's tally, and a code that opens its page.
//
// A Label holds the words. Fit sets them on a size, as a scene for SVG and PDF; Text writes them out to be copied by hand.
// Lengths are millimetres, letters points.
//
// What stands on a label, by rule: always what it is, its dates, the pictograms, the signal word, every hazard statement in
// full, and where it goes. Letters are as large as all of it fits in, 14 points down to LeastPoints. Where that is not enough
// the precautionary statements go, the last first; then the places for a tally; then the code; last the lines that are written
// on only later. A label that is still too small is refused, never cut short.
//
// How large a label and its pictograms should be is the CLP table (trade/hazard/ghs.SizeFor). LeastPoints gives small
// letters 1.2 mm of height, which the same law asks for on packages up to half a litre (from memory).
//
// Limits: letters from right to left, and those that the face has not, are told by Lacks and printed as an empty box.
package label
