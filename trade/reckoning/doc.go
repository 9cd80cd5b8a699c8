// Package reckoning holds a figure together with how it came about: the rule, the figures that were
// put in, and where each is from (the label, one's own measurement, a named standard, common
// practice, memory). Everything in trade that computes returns one, so that every number on a
// screen can be opened. It holds keys and figures, never sentences: package words says them.
package reckoning
