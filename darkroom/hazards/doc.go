// Package hazards judges what a darkroom file has on its shelf: each product as bought, each of its working solutions, used
// fixer, and the pairs that must not meet. It takes what the file declares to trade/hazard and adds nothing but what a role
// means: a fixer holds thiosulfate, a stop bath is an acid, a product that is marked so is an acid or an alkali.
//
// A powder's solutions are judged where the file says what its packet weighs and makes. Nor is what silver does in a used
// fixer: its complexes have no harmonised class (from memory).
package hazards
