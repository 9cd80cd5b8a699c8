// Package outside finds the programs that tests are held against: other people's, from Debian's packages. Where one is
// missing, or the machine can't do what a test needs, the test is skipped at a desk, and fails where CI=true, so that nothing
// passes there without having been held. tools/packages installs the programs.
package outside
