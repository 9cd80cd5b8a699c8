//go:build linux

package store

// NetworkName is the name of a network file system by its number.
func NetworkName(number uint32) string { return networkName(number) }
