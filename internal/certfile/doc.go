// Package certfile serves a certificate from two files and takes up a renewed one without a restart: whoever renews it
// replaces the files and tells nobody. Files that do not belong together, as in the middle of a renewal, leave the one that
// was read before in use; at the start they are refused by name.
package certfile
