// Package store keeps books on disk: SQLite in one file. Several darkrooms stand in one file, each with its own chain of
// entries, its own erasable record of people and notes, and beside it what lets people join an evening: codes, and hashes
// of what their devices keep. No export has any of these.
//
// What Append, Each or Write has returned without an error is on disk: commits are synchronous, one writer at a time.
// Facts that wait at the same moment share one commit; what is refused among them hinders no other, and a commit that
// fails is everybody's. What a fact costs does not grow with the book.
// Whatever was not acknowledged is either there in full or not at all, and can be sent again: an entry is written
// once, however often it is sent. After a disk has failed, nothing more is acknowledged until the store is opened
// anew; a full disk is waited out.
//
// One process has the file at a time, held by a lock on a file beside it that ends with the process. A database of a
// newer program is refused, and so is a file that is no book.
//
// SQL is written once, in the subset that SQLite and PostgreSQL share, with ? for arguments. What differs between
// engines is in one dialect value. Errors of the driver become kinds of package book once, by their code.
package store
