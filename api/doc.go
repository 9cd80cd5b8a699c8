// Package api is the door for programs: the book and what follows from it under /api/v1, as JSON objects with the names and
// units of --json (package words/facts), in UTF-8, with the problems of RFC 9457 where something is wrong.
//
// It says nothing that the pages do not say and writes nothing that a page could not. Who may write which kind of entry is asked
// in package access. Facts are always taken; decisions carry the position that they were made on. An entry is written once,
// however often it is sent. What a probe reads is thinned, so that a board that reads every second does not fill a book.
//
// openapi.yaml describes it; the tests hold the description and the handlers to each other in both directions.
package api
