// Package doors lets people into one darkroom of a store: it finds who asks by what a request shows, signs in by passphrase,
// and makes and withdraws keys. What is right is said in access, what is kept lies in store; here the two meet. Pages, API and
// command line share it.
package doors
