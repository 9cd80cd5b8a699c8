// Package ghs is the vocabulary of hazard labels: the classes, with the statement, signal word and pictogram of each; which
// pictogram gives way to which; which precautionary statements go with a class, and which six of them a label keeps. It
// holds codes, never sentences: package words has the standard's texts.
//
// Which statement, signal word and pictogram a class has: CLP, Regulation (EC) 1272/2008, as in German authorities'
// pages on skin, eyes and metals, the English texts of the LaTeX package ghsystem, and the GHS's list of pictograms; the signal
// words of what those do not show are from memory. Precedence: CLP Article 26. At most six precautionary
// statements: CLP Article 28. Which of them goes with which class: seen for the eyes alone (CLP Annex I 3.3.4), all others from
// memory.
package ghs
