// Package draw makes the pictures of the product, each from one model: a reading in the user's own vessel, a tray
// in section and from above, the sink from above, progress, hot and cold water brought to a temperature; of a bath at
// work its tape with the tally of its sheets, the curve of what ends it, what a wash leaves against time, and what tests
// taught about a room; the hazard pictograms.
//
// A model holds what is to be seen: the real figures, and the words that stand in the picture, ready in the
// reader's language. Its Scene is for SVG and PDF (see package scene); its Text, from the same model, for a terminal.
// Volumes are exact (quantity.Volume), lengths in millimetres. Counts of sheets, amounts and minutes come as they are
// to be shown; nothing is reckoned from them.
//
// One idea holds the look together: the graduation. Marks, a number at the mark, and one heavy mark in the
// accent's role where to stop. Concentrate is hatched; water and what is made up are plain. Nothing hangs on
// colour alone.
//
// Proportions are the vessel's own where its inner width is known, within bounds that leave marks apart, else usual
// ones of its kind (common practice, from memory). A jug is drawn as a cone cut off, so that its marks lie closer towards the mouth.
// Marks too dense to tell apart are left out all but the numbered, and a piece of the scale is drawn enlarged.
//
// Numbers of marks too near each other move apart along their row, by the least sum of squares, and a line leads from
// each mark to its number; the scale's own numbers give way.
package draw
