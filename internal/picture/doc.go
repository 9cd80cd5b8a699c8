// Command picture takes the README's pictures: it starts the program's own pages over the example of a fixed day and
// photographs them in Chromium.
//
//	picture [-out docs/pictures]
package main
