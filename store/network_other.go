//go:build !linux

package store

// network is not known here.
func network(string) string { return "" }
