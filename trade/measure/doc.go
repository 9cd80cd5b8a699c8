// Package measure finds what to do with one's hands: given parts, a window of useful volume, the vessels
// with their scales and marks, how much chemical there is and how strong a product may stray, which
// readings to take. The answer is the true optimum, by a fixed order of choice, over the space of
// actions below; every choice states its bias, its uncertainty and its reckoning.
//
// # Readings and marks
//
// A mark of a scale is From, From+Step, … up to and not beyond To. A reading lies on a mark or, where the
// vessel has HalfMarks, half-way between two neighbouring marks. A mark is numbered where it is a
// multiple of Numbered (from zero); a half mark never is. Volumes are exact: a mark's volume is its number
// times the exact unit.
//
// # The space of actions
//
// Let a_i be the chemicals' parts, w the water's, T their sum, f_i = a_i/T.
//
// A fill plan is one vessel that is not a syringe, pipette or balance, n1 fills to reading m1 and, where wanted,
// n2 fills to a second reading m2 ≠ m1 (of any of its scales), 1 ≤ n1+n2 ≤ MaxJugfuls.
// A pour plan of a chemical is k1 pours of a reading r1 and, where wanted, k2 pours of a second reading
// r2 ≠ r1, in the same vessel or another, 1 ≤ k1+k2 ≤ MaxPours.
//
//   - (a) InJug: n fills alike to m. In each the chemical comes first, to a reading c of the same vessel (any
//     of its scales), c < m, then water to m. Two chemicals: A to c1, then B up to c2 > c1, then water to m.
//   - (b) Poured: n fills alike to m. In each a pour plan in vessels other than the fill vessel, then water
//     to m. The pour plan's volume is below m. Two chemicals have a pour plan each, no vessel in common
//     unless the product is not kept apart; then the vessel is rinsed between (a rinse step, no reading).
//   - (c) FirstJug: like (a) or (b) in the first fill, but with the whole chemical; the other n1+n2-1 ≥ 1
//     fills are plain water. Fills may be of two different readings, and the first may be of either.
//   - (d) Apart: the chemical by a pour plan in any vessels, the water by a fill plan's readings, poured
//     into the tray: total = chemical + water. The fill vessel may be one of the pour vessels.
//   - (e) Weighed: as (b), (c) or (d), the pour plan replaced by one weighing on a balance (needs Density).
//   - (f) Intermediate: one pour r of chemical (in a vessel other than J1, or in J1 itself first) is filled up
//     with water to a reading q of J1 (a fill vessel). Of that, a pour plan of one reading, 1 to MaxPours
//     pours, in a vessel other than J1, goes into the first fill of a fill plan in a vessel other than J1 and
//     other than the pour vessel; the other fills are water. f = (r/q)·(S_I/T). Only where (a) to (e) reach
//     neither grade A nor B, only one chemical, never with J1's whole content exceeded. Chemical used is r.
//
// An undiluted chemical (w = 0) has Apart with no water: a pour plan of up to MaxJugfuls pours.
//
// Total volume must lie in the window, ends included. Chemical used (poured from the bottle, of each chemical)
// must not exceed Available, where known.
//
// Water first (Problem.WaterFirst: an acid, H314, strong alkali, powder, or one that foams): about three
// quarters of the water goes in first (a start step), then the measured chemical, then water up to the mark;
// the chemical is never measured in the mixing vessel, so (a) and the (a)-like form of (c) and (f) are out; in (d)
// all the water goes into the tray before the chemical, and with one jug alone that is the answer.
//
// Vessels kept for something else are taken out before (ForChemical, ForWater say which may be used for what).
//
// # Uncertainty (JCGM 100)
//
// A reading i at mark m in vessel v errs by t_v(m)·z_v + h·y_i: t_v the permissible error, z_v one rectangular
// variable on [-1, 1] for the whole vessel, h the setting half-width, y_i rectangular and new for each
// reading. To first order, with S the chemical, W the water measured apart and T the total:
//
//	filled up to a mark:   δf/f = δS/S − δT/T
//	measured apart:        δf/f = (1 − f)·(δS/S − δW/W)
//	intermediate:          δf/f = δr/r − δq/q + δS_I/S_I − δT/T
//
// The coefficient of every z_v and y_i is collected; u² is a third of the sum of their squares; U = 2u.
// In (b), n fills alike: S is the sum over all n fills' pours and T over all fills (each reading its own y).
// In (a), with two chemicals, S_B = c2 − c1 and its error is that of both readings.
// For several chemicals, bias and U are those of the chemical with the largest |bias| + U.
// bias = (S/total)/f − 1, from exact volumes.
//
// t(m) = max(Abs, Rel·m), or for a syringe the two-range rule (see Vessel.Error); a calibrated vessel has its
// own. h: Setting.OnMark (a quarter of a division by default) on a mark, Setting.Between (half of one) between
// two marks; where InnerWidth is known, one millimetre of level instead: π/4·width²·1 mm for both.
// A weighing: the balance's Error and setting in grams, relative to the mass; the density is taken as exact.
//
// # Choice
//
// In this order; each only parts what the ones before left equal (comparisons of floats: see Tie).
//
//  1. Grade. A: |bias| ≤ tolerance/4 and |bias|+U ≤ tolerance. B: |bias|+U ≤ tolerance. C: the rest; only
//     those within 1.5 times the least |bias|+U reachable over the space are kept.
//  2. Fewest readings (pours + fills + weighings, each time one is done).
//  3. Close: |bias|+U ≤ tolerance/2.
//  4. Fewest vessels.
//  5. Whole marks: fewest readings between marks.
//  6. One scale per vessel: fewest vessels read on more than one scale.
//  7. Made up to a mark (a, b, c, f) before measured apart (d).
//  8. Fewest different marks to remember: distinct (vessel, scale, mark).
//  9. Scales in the reader's own system: fewest distinct marks on scales of another.
//  10. Numbered marks: fewest distinct marks without a number.
//  11. Total nearest the wanted one.
//  12. Least |bias|+U.
//  13. Vessel names in order, then Choice.Key, so that the answer is one.
//
// # Limits of validity
//
// First-order errors; volumes are taken as additive (mixing contraction of a few parts in a thousand is below
// any reading here); one temperature.
package measure
