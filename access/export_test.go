package access

// Bared is for tests.
var Bared = bared
