// Package upkeep keeps books whole for the command line: it looks through them, backs them up, restores them, writes them out,
// takes them over, and examines what may go wrong around them. The program and the command line's tests share it.
package upkeep
