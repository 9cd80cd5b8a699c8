// Package darkroom says what there is: the room, its bench and shelf, its products, people and the session that
// is wanted; and reads and writes the file that describes them (YAML), with all mistakes told at once.
//
// A field that was not given has Given() false; nothing is filled in here. Every quantity keeps the user's own words
// beside its value, so that what is read and written again is the same. Values are those of the packages below
// trade: volumes exact, lengths in mm, temperatures in °C, shares relative, money in hundredths, dates at midnight UTC.
//
// The contract of the file (names, order, what must be there, words, bounds) stands once, in the tables of the
// fields_ files. Reader, writer, JSON Schema (Schema), pages' forms (ReadForm, FormFields) and the bodies of the book's
// entries (JSON) all come from these tables, which is why they are in one package although it is a large one. What
// fields say together stands in the rules_ files; what is wrong is a Problem, whose English is in problem_text.go.
//
// Limits: a file of up to 1 MiB, one document, 32 levels; see package outline. At most 500 problems are told.
//
// Bounds beside the contract's are far beyond what a darkroom has and catch a slip of the pen: a room of 0 to 50 °C, a
// bottle of up to 1000 L, a tray of up to 3 m, silver up to 20 g/L, 2,000 marks on a scale (1,000,000 on a balance).
package darkroom

//go:generate go test -run=TestSchema$ -update
