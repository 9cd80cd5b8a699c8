// Package sheet is the paper of the front of house: the mix sheet as PDF, A4 or Letter, with the same sentences (words)
// and the same drawings (draw) as on screen. Lengths are millimetres. The same input gives the same bytes: the date of
// the document is the session's, never the clock's.
//
// The sheet hangs over the sink: three or four baths stand on a page, each whole where a page can hold it, with its
// cautions, its marks large beside their sentences, and two of its readings drawn. Behind the baths come the times, what
// it costs, and, small, how the figures came about.
package sheet
