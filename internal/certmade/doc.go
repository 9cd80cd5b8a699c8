// Package certmade makes certificates for tests: one that vouches for itself, good for a name and for this machine, between two
// moments that the test chooses.
package certmade
