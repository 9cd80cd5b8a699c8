// Package fault knows what goes wrong in the wet work, from what is seen: on the print, on the film, in the bath. For every sign
// it has the causes in the order in which a printer looks for them, each with its kind (chemistry, light, handling, water,
// material) and where that is from; and it ranks them by what is known of the room tonight.
//
//	g, err := fault.Look(fault.Question{Sign: fault.FlatBlacks, Facts: []fault.Fact{{Kind: fault.DeveloperReadCold}}})
//	// g.Causes[0].Cause: fault.DeveloperCold; g.Causes[0].Reckoning: how it came to stand there
//
// # The rule
//
// A cause has points. Its place in the sign's list gives the first of them:
//
//	first 10, then 2 less with every place, and never less than 0
//
// What is known adds to that or takes from it, each kind of fact once, however many baths it is true of:
//
//	Tells    ±12  it was read, measured or tested: it outweighs every place in the list
//	Suggests  ±8  it makes the cause likely: some four places
//	Hints     ±4  it happens more easily so: two places
//	Answered  ±30 the cause's own check was made tonight: it outweighs all else but another check
//
// Causes stand by their points, equal ones by their place in the list. Which fact bears on which cause, and how much, is the one
// table in bearing.go. The points are no probabilities: the weights are from memory, chosen so that the order is the one that
// the cases of the tests, which are common practice, ask for.
//
// Light and chemistry are kept apart. Where a sign can be light as well as chemistry (its LightFirst), the causes of kind Light
// stand before all others, whatever their points, to be ruled out first: no bath is changed for a lamp. A light whose check said
// no is ruled out, and stands behind with the others that are.
//
// A fact about a bath for film says nothing of a print, nor the other way round. Facts about a bath say nothing of another bath
// where the question is of one.
//
// Sources: the courses and handbooks named beside each cause; what has none is common practice, or from memory and marked so.
//
// # Limits of validity
//
// It tells where to look, not what it is: the check decides. Colour work, reversal and alternative processes are not in it.
package fault
