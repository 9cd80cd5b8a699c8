package plan_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
)

// replace changes one piece of a file's text; a piece that is not there is a mistake in the case.
func replace(t *testing.T, text, old, with string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("%q is not in the case's text", old)
	}
	return strings.ReplaceAll(text, old, with)
}

func exampleContext() context.Context { return context.Background() }

func printf(format string, args ...any) { fmt.Printf(format, args...) }
