// Package web is the pages of the front of house: server-rendered, complete without scripts. A handler reads a form, asks
// plan or the book, and redirects or shows the page again with the user's own words in it. It computes nothing.
//
// Bad input is shown at its field and writes nothing. An error has a kind, and one function makes a page of it. A page is
// rendered into a buffer first, so that no half page is ever sent.
package web
