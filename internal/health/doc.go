// Package health tells other machines how a serving process does, on a listener of its own:
//
//	/livez    200 while the process answers at all
//	/readyz   200 while its book can be read and written, 503 and why not otherwise
//	/metrics  counts and times, in the text format 0.0.4 of Prometheus: seconds, bytes, entries
//
// A name, a path with an id or a word of the book is in none of them. Where the listener stands is for whoever starts the
// program to choose: without one there is none.
package health
