// Package packed is for tests that hold a packed file to what it was packed from, and pack it anew.
package packed
