// Package wash says what a washing leaves: thiosulfate in film, RC and FB paper, in g/m², against time, changes and litres,
// for still changes, running water, a cascade and a standing tray with dumps; how long it takes to a wanted limit,
// which way is the cheapest in water and which the fastest.
//
// A material holds water in one place (film, RC) or two (FB: surface and inside), each giving to and taking from the water
// around it with a time constant. With the water that makes a linear system of two or three equations, solved
// in closed form as a sum of exponentials. Left long enough, a change leaves held ÷ (water + held): the still-rinse law.
//
// Cold lengthens every time by 2 for every 10 K, warm shortens by 1.2 only: temper.WashFactor. Prints that share water have
// one clock, started again by the last print put in: Together. Two quick dumps are not two changes: Counted.
//
// Limits of validity: the water is well mixed and prints are apart and moved. No published series for FB paper was found to
// fit; the time constants are from memory, or from one printed half-life, and a single exponential promises film and RC more
// than was ever measured. So every time has a safe twin, and a residual test of the room's own decides: Calibrate. A
// drop's stain is a class, of which the worse end is taken; it can't tell 0.01 g/m² from nothing.
package wash
