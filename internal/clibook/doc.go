// Package clibook hands a store to the command line: one darkroom of it as cli.Book. The program and the command line's
// tests share it, so that what is tested is what runs.
package clibook
