// Package proof follows a book's chain of hashes from its first entry to its head and says what is not as it was written:
// which entry was changed, taken out, put in or moved, at which position, and what differs. It is pure.
//
// Each entry carries the SHA-256 of the one before it (book.HashOf), which covers the position too. So one changed entry
// shows at its follower, one that was taken out shows as a gap, or, where the rest was numbered anew, by hashes that are
// right at the old positions only. Of a changed entry the chain tells that it differs, not what stood there: that is in a
// backup.
//
// Limits: whoever can write the file can reckon a whole new chain, and who cuts entries off the end can set the head back.
// Against that helps a head's hash that was written down elsewhere, or an older backup. Of entries that were taken out and
// the rest numbered anew, up to MaxGap are recognised in one place; more show as a changed entry.
package proof
