// Package measure finds what to do with one's hands: given parts, a window of useful volume, the vessels
// with their scales and marks, how much chemical there is and how strong a product may stray, which
// readings to take. The answer is the true optimum, by a fixed order of choice, over the space of
// actions below; every choice states its bias, its uncertainty and its reckoning.
//
// # Readings and marks
//
// A mark of a scale is From, From+Step, … up to To; (To−From)/Step is whole. A reading lies on a mark or, where
// the vessel has HalfMarks, half-way between two neighbouring marks of one scale. A mark is numbered where it is
// a multiple of Numbered (from zero); a half mark never is. A reading of nothing (a balance's mark 0) is none.
// A balance has no half marks. Volumes are exact: a reading's volume is its number times the exact unit, to
// the nearest unit of quantity.Volume (halves up); on a balance its grams ÷ Density, to the nearest unit.
// Two readings are the same where vessel, scale and mark are the same; the same volume on another scale is
// another reading.
//
// # The space of actions
//
// Let a_i be the chemicals' parts (one or two chemicals), w the water's, T their sum, f_i = a_i/T.
//
// Where a vessel may be used: NotForChemical bars it from holding chemical, an intermediate or a mix: as a pour
// vessel, as a balance and as the fill vessel of (a), (b), (c), (e in their form) and (f). NotForWater bars it
// from being a fill vessel of any kind. So the fill vessel of (d), which holds plain water, needs only the second.
//
// A fill plan is one vessel that is not a syringe, pipette or balance, n1 fills to reading m1 and, where wanted,
// n2 ≥ 1 fills to a second reading m2 ≠ m1 (of any of its scales), 1 ≤ n1+n2 ≤ MaxJugfuls. Its volume is
// n1·m1 + n2·m2.
// A pour plan of a chemical is k1 pours of a reading r1 and, where wanted, k2 ≥ 1 pours of a second reading
// r2 ≠ r1, in the same vessel or another, 1 ≤ k1+k2 ≤ MaxPours. Any vessel but a balance can be poured from.
// Plans have no order of their own: in the steps the larger of two readings comes first.
//
//   - (a) InJug: n fills alike to one reading m. In each the chemical comes first, to a reading c of the same
//     vessel (any of its scales), c < m, then water to m. Two chemicals: A to c1, then B up to c2 > c1, then
//     water to m > c2.
//   - (b) Poured: n fills alike to one reading m. In each a pour plan in vessels other than the fill vessel, then
//     water to m. The pour plan's volume is below m. Two chemicals have a pour plan each, the sum of both below
//     m; they may share vessels (a vessel is rinsed after each chemical, which is no reading).
//   - (c) FirstJug: a fill plan of one or two readings with n1+n2 ≥ 2. The first fill, to the larger reading, is
//     made up like (a) or (b) with the whole chemical, whose volume is below that reading; the others are plain
//     water. T is the fill plan's volume.
//   - (d) Apart: the chemical by a pour plan in any vessels (two chemicals: one each), the water by a fill plan,
//     each fill poured into the tray: T = chemical + water. The fill vessel may be one of the pour vessels.
//   - (e) Weighed: as (b), (c) (its form like (b)) or (d), for one chemical of known Density, the pour plan
//     replaced by one weighing on a balance.
//   - (f) Intermediate: one chemical. A reading r of chemical is filled up with water to a reading q > r of J1, a
//     fill vessel. r is read in a vessel other than J1, or in J1 itself before the water. Of that, k pours
//     (1 ≤ k ≤ MaxPours) of one reading p, k·p ≤ q, in a vessel other than J1, go into the first fill of a fill
//     plan (first the larger reading, which is above k·p) in a vessel J2 other than J1, than the vessel of p and
//     than the vessel of r; the other fills are water. r and p may be read in one vessel. f = (r/q)·(k·p/T).
//     Chemical in the total is r·k·p/q, chemical used is r. Only where (a) to (e) reach neither grade A nor B.
//
// An undiluted chemical (w = 0) has Apart with no water: one chemical a pour plan of up to MaxJugfuls pours, two
// chemicals a pour plan each of up to MaxPours; T is what was poured. There is no weighing of it.
//
// The total T must lie in the window, ends included. Chemical used (what leaves the bottle, of each chemical:
// in (b) n times the plan's volume) must not exceed Available, where known. Every chemical's |bias| is at most
// Stray, or the tolerance where that is more: what is farther off is not this dilution, and an amount that the
// marks cannot give is never given as another.
//
// Water first (Problem.WaterFirst: an acid, H314, strong alkali, powder, or one that foams): about three
// quarters of the water goes in first (a start step), then the measured chemical, then water up to the mark;
// the chemical is never measured in the mixing vessel, so (a) and the forms of (c) and (f) that read the chemical
// in the vessel which is then filled up are out; in (d) all the water goes into the tray before the chemical,
// and with one jug alone that is the answer.
//
// # Uncertainty (JCGM 100)
//
// A reading i at mark m in vessel v errs by t_v(m)·z_v + h·y_i: t_v the permissible error, z_v one rectangular
// variable on [-1, 1] for the whole vessel (all its scales), h the setting half-width, y_i rectangular and new
// for each reading each time it is done. To first order, for chemical i with volume S_i, total T:
//
//	δf_i/f_i = δS_i/S_i − δT/T
//
// where δT is the error of the fills where the bath is made up to marks, (a), (b), (c), and of everything that was
// measured where it is measured apart, (d): then δf/f = (1 − S/T)·(δS/S − δW/W) for one chemical. S and T are
// what the marks give, not what was asked. In (f): δr/r − δq/q + δS_I/S_I − δT/T, S_I = k·p.
//
// The coefficient of every z_v and y_i is collected; u² is a third of the sum of their squares; U = 2u.
// In (a) and (b) with n fills alike S is the sum over all n fills and T that over all fills. With two chemicals in
// one jug S_B = c2 − c1, and its error is that of both readings. A reading that stands in several places (A's
// mark in S_B, a measured volume in T) has one y.
// bias_i = (S_i/T)/f_i − 1, from exact volumes. For two chemicals, bias and U of the choice are those of the
// chemical with the larger |bias| + U (the first where they are equal).
//
// t(m) and h are those of Vessel.Error and Vessel.SettingError. What a room declares as its own error (Vessel.Own)
// is the largest error that it knows the vessel to have: t(m) is the larger of Abs and Rel × m, on every scale of the
// vessel and in place of its kind's, of which nothing is left; (0, 0) says that the vessel does not err. It is a limit, as a
// standard's is, not a standard deviation, and one error for the whole vessel: set to one mark twice, the vessel errs
// the same way twice. How near people come to the mark is not in it; that is Vessel.Setting. A weighing errs in grams, relative to its mass;
// the density is taken as exact.
//
// # Choice
//
// E is |bias| + U of the choice. In this order; each only parts what the ones before left equal.
//
//  1. Grade. A: every chemical's |bias| ≤ tolerance/4, and E ≤ tolerance. B: E ≤ tolerance. C: the rest; only
//     those with E ≤ Keep times the least E over the space are kept.
//  2. Fewest readings (pours + fills + weighings, each time one is done; measuring water apart is one each time).
//  3. Close: E ≤ tolerance/2.
//  4. Fewest vessels, of all that are read.
//  5. Whole marks: fewest readings between marks, each time one is done.
//  6. One scale per vessel: fewest vessels read on more than one scale.
//  7. Made up to a mark (a, b, c, f, and e in those forms) before measured apart (d, and e in its form; an
//     undiluted chemical).
//  8. Fewest different marks to remember: distinct readings (vessel, scale, mark).
//  9. Scales in the reader's own system: fewest distinct readings on scales of another. A balance counts as
//     the reader's own.
//  10. Numbered marks: fewest distinct readings without a number.
//  11. Total nearest the wanted one, exactly.
//  12. Least E, to the nearest multiple of Tie.
//  13. The vessels' names in the order of Choice.Vessels, compared as text one by one; then, so that the answer is
//     one, the manner, and the reading steps in order of doing, one by one: what, vessel's name, scale, volume
//     (larger first), times. Nobody should rely on which of two equals that gives.
//
// Floats: x ≤ y holds where x ≤ y + Tie.
//
// # Too little chemical
//
// Where Available leaves nothing, or nothing better than grade C, while without it there is something, or
// something of grade A or B, the result is Impossible with LackChemical: nobody gets a weak bath because a
// bottle is nearly empty. Without Available there is then a best choice; of the choices that have its readings or
// fewer, and E ≤ tolerance where it is of grade A or B, else those that are kept, one uses the least of each
// chemical. Result.Short is the first chemical of which there is less than that least, and NeedAtLeast is the
// least. (Where there is enough of each alone but not of both in any one choice, Short is the second, and
// NeedAtLeast the least of it that goes with what there is of the first.)
//
// # Alternatives
//
// Each is the best by the order above over a part of the space, where the best choice itself is not in it, among
// the choices of at most two readings more than the best choice has (from memory: who would read more often than
// that for a gain that the order of choice puts last?):
// (1) for each vessel of the best: without that vessel; (2) fewer readings; (3) E at most three quarters of
// the best's; (4) a total nearer the wanted one; (5) a total at most nineteen twentieths of the best's. Where the
// best is of grade A or B only choices of these grades count, where it is C only those that are kept. (f) counts only where
// the best's space has it. Of these, those are given that gain something over the best and over every other
// that is given, in readings, E (by a twentieth of the larger at least), number of vessels, distance of the
// total, chemical used, distinct readings on another system's scales, or readings between marks; in the
// order of choice, up to Options.Alternatives (those of (1) to (5) that come first by the order).
//
// # Advice
//
// Where the best is grade C or there is none: each usual vessel is added to the bench in turn. Of the best
// choices that this gives, one each, the first by grade (C: E within Keep of the least of them), then
// readings, then the order of the list, which begins with what a darkroom gets first. Advice is nil where no vessel
// betters the grade, or E within grade C.
//
// # Steps
//
// Steps stand in the order of doing. Times counts all times a step is done. The steps of one Group are done in turn,
// Rounds times over; Times is a multiple of Rounds. A chemical's vessel other than the fill vessel is rinsed into
// the mix (Rinse, no reading): with water before the vessel is filled up; apart, with the mix, unless water is
// measured in it afterwards. One jugful alone is mixed where it stands; of several, and apart, each is
// tipped into the tray (Tip), and (c) and (d) end with a Stir (one chemical undiluted does not).
//
// # Limits of validity
//
// First-order errors; volumes are taken as additive (mixing contraction of a few parts in a thousand is below
// any reading here); one temperature. Up to MaxVessels vessels, and MaxMarks marks a scale (a balance:
// MaxBalanceMarks).
package measure
