// Package outline is the bare shape of a file: mappings, lists and scalars, each with its place, every scalar in
// the file's own characters. It reads YAML (a cautious part of it), a page's form and JSON into the same tree of
// nodes, and writes the tree as YAML, JSON or form values.
//
// Nothing is decoded: 1_000, 0x10, 11.20, yes and 2026-03-01 stay text. An unquoted null or ~ and a place left
// blank are Empty.
//
// Refused whole, with the place: more than MaxBytes, text that is not UTF-8, control characters, tabs that
// indent, an empty file, a second document, a root that is no mapping, more than MaxDepth levels, aliases,
// anchors, merge keys, tags, directives, keys that are no plain word. The cost of the YAML parser grows with the
// square of the depth, of the keys of one mapping and of the number of blank values, so these are counted on the
// token stream before it is called.
//
// Sources: YAML 1.2.2 (yaml.org/spec); RFC 8259 for JSON.
package outline
