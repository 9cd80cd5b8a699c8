// Package draw makes the pictures of the product, each from one model: a reading in the user's own vessel, a tray
// in section and from above, the sink from above, progress, hot and cold water brought to a temperature.
//
// A model holds what is to be seen: the real figures, and the words that stand in the picture, ready in the
// reader's language. Its Scene is for SVG and PDF (see package scene); its Text, from the same model, for a terminal.
// Volumes are exact (quantity.Volume), lengths in millimetres.
//
// One idea holds the look together: the graduation. Marks, a number at the mark, and one heavy mark in the
// accent's role where to stop. Concentrate is hatched; water and what is made up are plain. Nothing hangs on
// colour alone.
//
// Proportions are the vessel's own where its inner width is known, within bounds that leave marks apart, else usual
// ones of its kind (common practice, from memory). A jug is drawn as a cone cut off, so that its marks lie closer towards the mouth.
// Marks too dense to tell apart are left out all but the numbered, and a piece of the scale is drawn enlarged.
package draw
