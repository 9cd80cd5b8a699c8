// Package words says what the floors below have found: a finding and its figures become a sentence in the
// reader's language and units, once, for page, terminal and paper.
//
// A [Catalogue] holds the messages, one TOML file per language (active.en.toml); another language is one more
// file beside it. All but the English one are built in packed: go generate packs them anew, and a test tells when that was
// forgotten. A [Voice] is a language with the reader's system of units; it never changes and may be used by
// many goroutines at once. Its methods take the types of trade, darkroom and plan and give back text, or a
// [Phrase] where some parts of a sentence are to be set heavy. No sentence stands in the code.
//
// Amounts are rounded to what can be measured and are never turned into another amount; a mark is always told in
// the vessel's own scale. A space between a number and its unit does not break.
package words
