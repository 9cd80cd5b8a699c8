// Package scene holds a drawing as a few primitives in colour roles, and gives it out as SVG or PDF.
//
// A Scene has a width and a height in units of its own, meant as CSS pixels of a phone 346 wide; on paper it
// is scaled to the width that it is given. x runs to the right and y downwards. Its items are painted in order.
//
// No item holds a colour: it names a role, and the page's custom properties (--ink, --accent, ...) or a
// Palette say what that looks like. Inline SVG has neither style attributes, style elements nor ids, so that it
// stands in a page with a strict content security policy, any number of times.
//
// The same scene gives the same bytes: figures are written with two decimals at most.
//
// Widths of text are estimates from the wider of DejaVu Sans and Liberation Sans, among the widest faces that a
// page falls back to; Text.Box is therefore the most that a text covers, not what it covers.
// Limits of validity: Latin text; anything beyond ASCII counts one em where it is not a letter.
package scene
