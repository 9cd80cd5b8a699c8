// Package book says what happened: an append-only journal of entries, its fold into the present state, and the
// way of a darkroom file into it and out of it. It is pure: no I/O, no clock, no ids of its own making.
//
// An Entry has an envelope that is final and a body: JSON text, kept byte for byte, with the darkroom file's
// field names and the user's own words. No derived figure ever stands in an entry. Each entry carries the
// SHA-256 of the one before it, over a length-prefixed framing of all its fields (see HashOf).
//
// Facts (a lot received, opened, counted, drawn from; a stock made; a bath mixed, worked, tested, topped up, poured
// back and out; a batch held, washed; what looked wrong; a print started, moved on, gone; an evening opened, joined; what a probe showed) are never refused and take effect by the moment they happened; decisions (the
// room, the bench, products, people, the wanted session, its close, a bath moved forward, a discard, a correction) name the
// position they were made on. Within one instant a thing is there before anything is done with it, and each device's
// entries go in the order of the book. So two devices' facts give the same state in whatever order they arrive. What
// is odd (a load through a bath that is gone, or that nobody mixed) is a Finding. A correction takes an entry back by
// its id, and can itself be taken back; what can't be undone says why. Entries of a newer version or an unknown kind are
// kept, counted and reported, and change nothing. An older version is read through an upcaster.
//
// A print on its way through the sink is told by entries of its own; in the life of each bath that it came into it is a
// load, from the moment that it lies there, and undo takes it out again.
//
// People are ids in entries; names and notes stand in the erasable record People.
package book
