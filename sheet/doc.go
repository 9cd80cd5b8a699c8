// Package sheet is the paper of the front of house: the mix sheet as PDF, A4 or Letter, with the same sentences (words)
// and the same drawings (draw) as on screen. Lengths are millimetres. The same input gives the same bytes: the date of
// the document is the session's, never the clock's.
package sheet
