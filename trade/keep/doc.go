// Package keep says until when a product keeps: by the label's own figure for the state of its container, else by a default
// for its kind, each with its source; shortened where the container is nearly empty or the room is warm, never lengthened.
//
// Days are civil days and good to their end; months go by the calendar. Only what keeps for hours is an instant, which
// counts elapsed time, whatever clocks do in spring and autumn. Now is handed in; its location says which day it is.
// A working solution that is bottled between sessions has two ends: the bottle's date, and the time it has
// stood in the open tray, which adds up. Whichever comes first binds.
//
// What nobody knows stays unknown, with the test that settles it. Only a fixer is worth a test; a developer of unknown age
// is poured out.
//
// Limits of validity: most defaults are from memory, and say so; printed ones disagree (a working fixer: from not a day to 6
// months), and then the shorter is taken and the other named. The container, more than the product, sets the life.
package keep
