// Package meet knows which things in a darkroom must never meet, what would happen, and who says so. It looks at groups of
// substances, whatever the shares; what is strong is told by its own hazard statement.
//
// Ferricyanide with hypo is no such pair: as a reducer it is normal practice. "Bleach" alone is never said: it is chlorine bleach, or a
// ferricyanide.
package meet
