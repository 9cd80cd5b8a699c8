// Package journal is the form in which a whole book leaves the program and comes back: text in UTF-8, one JSON object a line.
// docs/export.md describes it for others.
//
// The first line says which form it is, how many entries follow and what the last of them hashes to; then come the entries,
// each with its hash of the one before; then, where they were asked for, the names of people. Notes about people, notes that
// were left for others, codes and tokens are in no export. Nothing in it depends on when it was written, so the same book
// gives the same bytes.
//
// A Reader holds one line at a time, follows the chain, and says at which line something is wrong.
package journal
