// Package access says who may do what in a darkroom: roles, and one table of which role may write which kind of entry, read
// what, and keep the keys. It computes, and remembers nothing but how often something was tried; store keeps the
// secrets, internal/doors brings the two together, web and api ask here.
//
// A darkroom without a keyholder is a home: whoever reaches it is its keeper, and it is reached from its own machine alone. With
// the first keyholder it is a shared room: what a device may do it shows by a token, of which the store has the SHA-256 alone.
//
// Passphrases are kept as argon2id (RFC 9106; 19 MiB, two passes, one lane: OWASP Password Storage Cheat Sheet).
package access
