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
// A count is exact and found fast: in closed form where baths before it hold nothing of what ends it, else by squaring the
// transfer of one sheet; both agree with going sheet by sheet.
//
// Beside the balance stand what a label says ([LabelUsed], [LabelLeft]), what the air takes from a developer in its tray
// ([Air]), and when both fixers of two-bath fixing are made new ([Pair]). What a test of a developer's strength says, a
// strip darkened in a cup of it, teaches nothing here: no uncertain rate bears on it. A developer of unknown age is
// poured out.
//
// Not followed: what prints use up of a developer, alkali lost to the air, and a fixer's pH. A first bath that sheets would
// take more than half of counts as topped up with what was made (for a fixer with what it held), since nobody prints in
// an empty tray.
//
// Units: litres, grams, square metres, mL/m², seconds, g/L. Sources: fixer limits and the two-bath rule after Haist,
// APorg-fix and Darkside; silver on papers after an emulsion engineer's figures; carry-over and spreads from memory.
// Every default is a reckoning.Figure that says so.
package bath
