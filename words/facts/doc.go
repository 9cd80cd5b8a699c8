// Package facts says a result to a machine: one JSON object each, with stable names in snake_case, SI units or mL with
// the unit in the name. The command line prints these with --json and the HTTP API serves the same objects.
// It computes nothing; it takes results apart. Enumerations are words that do not change; sentences for people are
// made in package words and stand beside them only where a field is called message.
package facts
