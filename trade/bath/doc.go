// Package bath says what baths at work hold and when each is spent: mass balance of a chain of baths with carry-over.
//
// A sheet of area A carries v = A·q(t) out of every bath after t seconds of draining, arrives dry at the first bath and
// wet with the previous bath's liquid at every other. Every bath is well mixed: each amount arrives with v·c of the
// bath before, reacts, and leaves with v·c of the bath after. Silver that was not developed dissolves in the first fixer.
//
// A bath ends where its silver passes the wanted permanence's limit (which shrinks with the thiosulfate), where its
// thiosulfate is thinned below what fixes in the stated time, or where the carried-in developer has taken the stop bath
// to the indicator's turn. Coating, undeveloped share and carry-over are uncertain: [Past.Draw] makes possible rooms,
// weighs them by what was seen ([Seen]), and [Rooms.Ends] counts in each how many sheets are left. The number to
// lead with is the tenth percentile, what nine rooms in ten reach.
//
// Units: litres, grams, square metres, mL/m², seconds, g/L. Sources: fixer limits and the two-bath rule after Haist,
// APorg-fix and Darkside; silver on papers after an emulsion engineer's figures; carry-over and spreads from memory.
// Every default is a reckoning.Figure that says so.
package bath
