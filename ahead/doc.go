// Package ahead says what is coming: for every bath how many sheets it still does and until when, what ends it, which
// test would settle it, and what is due.
//
// It puts together what the trade knows (trade/bath for silver, thiosulfate and acid, trade/chem for pH, trade/keep for
// time) with what the darkroom says (its standards, its own limits, the labels) and what happened (the book). A Scene is
// all that is put in: FromBook makes one of a darkroom's book, package plan makes one of baths that are still to be mixed.
// Look answers with a Report: findings and figures, never sentences; package words says them.
//
// Counts are sheets of 8×10 (80 in²) that go through one by one. The safe end, which nine rooms in ten reach, leads. What
// is not known is said to be unknown, with the test that settles it.
package ahead
