// Package plan turns a request (bench, shelf, what is to be made) into a plan: which baths, in which trays and
// tanks, how much of each, from which lots, with which readings, at which temperature, in which order, with
// which cautions, what is missing, what must be made the day before, and what it costs.
//
// It computes nothing of the trade itself: it asks the packages under trade and puts their answers together.
// It returns findings and figures; package words makes the sentences.
package plan
