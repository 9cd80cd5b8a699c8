// Package asvs holds docs/asvs.md to the source: which items of a security standard are met, by which tests, which do not apply and
// why, and which are not met. It also holds what some of those items ask of the source as a whole: what the program imports, whom it
// calls, where it logs, what its scripts do.
package asvs

//go:generate go test -run=TestComponentsAreTold$ -update
