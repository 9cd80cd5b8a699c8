// Package signs draws what looks wrong: a small print, a strip of film or a bath with the sign on it, to be touched in place of
// reading. Each sign of trade/fault has its own picture; none hangs on colour, and in the red form nothing is filled.
//
// A picture is 120 by 96 units. A terminal tells signs in words, so there is no form in text.
package signs
