// Package postgres connects to PostgreSQL: by a URL, to the first of its hosts that will do, and so that nobody waits on a connection
// longer than his context, whatever becomes of the server. It has no statements about books: those stand in package store,
// once for all engines.
//
// A host will do where it lets the user in and can be written to, or is what target_session_attrs asks for. Commits of a
// connection wait for the disk, where the server is set not to. No error has a password in it.
//
// It is a layer over github.com/lib/pq, which looks at a context only while a statement runs, and then waits for the server
// to answer that it has stopped it.
package postgres
