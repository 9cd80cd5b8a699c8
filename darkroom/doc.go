//go:generate go test -run=TestSchema$ -update

// Package darkroom says what there is: the room, its bench and shelf, its products, people and the session that
// is wanted; and reads and writes the file that describes them (YAML), with all mistakes told at once.
//
// A field that was not given has Given() false; nothing is filled in here. Every quantity keeps the
// user's own words beside its value, so that what is read and written again is the same.
package darkroom
