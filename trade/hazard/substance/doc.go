// Package substance is the table of the darkroom's chemicals with their hazards: one row a substance, with its classes, its
// specific concentration limits, M factors and estimates of acute toxicity, what it must be kept from, and where each of these
// is from. Lookup finds a row by name, synonym, formula or CAS number.
//
// # Status
//
// A row's Basis says where its classes are from, Limited where its limits, M factors and supplemental statements are. Seen: read at
// the source itself; SeenSecond: as another quotes it; Memory: written down without a page at hand, to be held against
// the supplier's sheet before it is relied on. Classes are those of CLP Annex VI where the basis names it, else those that
// suppliers give. An asterisk of Annex VI (a least classification) is not kept.
//
// # What the rows cannot know
//
// Annex VI changes a few times a year; the rows are of November 2025. A supplier's own data may make a class stricter or milder.
// Disputes name where sheets were seen to disagree with a row. Water of crystallisation is left out of the count: a
// share of crystals is taken as a share of the substance itself, which is on the safe side.
package substance
