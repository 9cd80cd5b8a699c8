// Package sheet is the paper of the front of house as PDF, A4 or Letter: the mix sheet, the state of the baths, and their
// tapes, with the same sentences (words) and the same drawings (draw) as on screen. Lengths are millimetres. The same input
// gives the same bytes: the date of the document is the session's, or that of the report, never the clock's.
//
// The mix sheet hangs over the sink: three or four baths stand on a page, each whole where a page can hold it, with its
// cautions, its marks large beside their sentences, and two of its readings drawn. Behind the baths come the times, what
// it costs, and, small, how the figures came about.
//
// The state of the baths hangs on the wall as one page, with a tape for each that is gone on with by pencil: a place for every
// five sheets up to the safe end. The tapes are strips with the same places, to wrap round the bottles.
package sheet
