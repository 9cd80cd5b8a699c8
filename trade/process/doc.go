// Package process holds the chains of steps that a paper or a film goes through, their times and drain
// times, and the geometry of trays and tanks: volume for a depth, sheets side by side with room for
// tongs, sheets shuffled together in stop and fixer, what covers a tank's reels, the least chemical per roll.
//
// Times and drain times are time.Duration; lengths mm; volumes quantity.Volume. Every default is handed
// out as a reckoning.Figure with its origin: a named handbook, common practice, or from memory.
//
// Limits of validity: times are for about 20 °C, fixing for a rapid fixer at film strength, and give way to a
// product's label. A tray's floor is flat and its walls are upright, unless a litre's depth was measured in it. How many
// sheets are shuffled together, and what room tongs want, nobody has printed: those are from memory.
package process
