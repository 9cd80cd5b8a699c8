// Package face is the face that sheets are printed in: Liberation Sans, regular and bold, as TrueType (SIL Open Font License, beside
// it). It is kept packed, half as large, and unpacked when the first sheet is made.
package face
