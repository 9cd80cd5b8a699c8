// Package cli is the command line: it reads flags and files, asks plan and trade, and prints what words and draw make of
// the answer, or facts with --json. Data goes to stdout, talk to stderr.
//
// Exit status: 0 done; 1 the answer is no (cannot be made at all, not enough); 3 bad input; 4 something broke; 64 wrong
// usage. The front of house never imports its neighbours: the book, the server and the sheet are handed in as Parts.
package cli
