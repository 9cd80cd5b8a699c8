// Package material knows papers and films: sizes and areas of sheets and rolls, and what kind of base they
// have (RC, FB, film). Lengths in mm, areas in m²; one unit of 80 in² is one 8×10 sheet.
//
// Sources: inch of 25.4 mm; 80 in² counting unit (handbook); roll lengths from memory, marked as such.
package material
