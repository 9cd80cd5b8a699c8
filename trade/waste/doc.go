// Package waste says what goes into which waste can and why not, how full a can is and about when it will be, how much silver
// may be in it and what that is worth, and what may go down which drain.
//
// Volumes are litres, silver grams, shares from 0 to 1. What a can takes is one kind of used bath alone; why nothing else goes
// in is told by trade/hazard/meet, over what each bath may hold. Of a drain it gives an answer only where the room's own
// authority gave one; else it says whom to ask and what others print, each with its source. Used fixer is collected, whatever
// anybody answers.
//
// Limits of validity: what a bath may hold is the most that its kind commonly holds, so a refusal can be too careful. The share
// at which a can counts as full, and the pace at which it fills, are guesses that say so. No legal limit is this package's own.
package waste
