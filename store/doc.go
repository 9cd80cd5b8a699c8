// Package store keeps books on disk: in one file of SQLite's, or in a database of PostgreSQL's that several processes share.
// Several darkrooms stand in one place, each with its own chain of entries, its own erasable record of people and notes, and
// beside it what lets people join an evening: codes, and hashes of what their devices keep. No export has any of these.
//
// What Append, Each or Write has returned without an error is on disk: commits are synchronous, one writer at a time.
// Facts that wait at the same moment share one commit; what is refused among them hinders no other, and a commit that
// fails is everybody's. What a fact costs does not grow with the book.
// Whatever was not acknowledged is either there in full or not at all, and can be sent again: an entry is written
// once, however often it is sent. After a disk has failed, nothing more is acknowledged until the store is opened
// anew; a full disk is waited out.
//
// One process has the file at a time, held by a lock on a file beside it that ends with the process; others may read beside it
// (OpenBeside). A server's database is locked a book at a time, and a server that is away is waited for. A database of a newer
// program is refused, and so is what is no book of ours.
//
// Backup and Restore copy a file's books and look the copy through; TakeOver and WriteOut carry one book between any two places.
//
// SQL is written once, in the subset that SQLite and PostgreSQL share, with ? for arguments. What differs between
// engines is in one dialect value. Errors of the driver become kinds of package book once, by their code.
package store
