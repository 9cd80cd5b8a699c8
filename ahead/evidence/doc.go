// Package evidence gathers what a darkroom's book says that bears on something that looks wrong: facts with their figures, for
// package trade/fault to rank causes by. It reads the outlooks of the baths that stand there, how they were mixed, what
// thermometers and tests showed, how long tonight's prints lay in their trays, how many together, and how they were washed.
//
// It returns facts, never sentences, in the order of the baths and then of the work; no fact is made of a silence: what nobody
// wrote down is left out, but for a stop bath and a washing aid that the book does not have.
//
// Readings and prints count for half a day, tests of baths and fresh mixes for as long as is said at each, washes for two months.
// What counts as fresh, warm, early or stacked is from memory unless a source stands beside it.
package evidence
