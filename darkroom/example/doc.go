// Package example is a darkroom of our own invention to begin with: a community darkroom that has an evening
// class of eight tonight, with its jugs, trays, shelf, prices and dates, all that its own evening needs. Dates stand
// relative to a day, so that they stay sensible whatever today is. Nothing in it is anybody's real room, product or
// price.
package example
