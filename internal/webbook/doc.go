// Package webbook hands a store to the pages: one darkroom of it as web.Book. The program, the pages' tests and the tool
// that takes pictures share it, so that what is tested is what runs.
package webbook
