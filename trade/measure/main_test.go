package measure_test

import (
	"flag"
	"fmt"
	"os"
	"testing"
)

// TestMain gives the properties the same problems in every run, but for the long one; -rapid.seed gives others.
func TestMain(m *testing.M) {
	if os.Getenv("WETSIDE_LONG") == "" {
		if err := flag.Set("rapid.seed", "11"); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}
