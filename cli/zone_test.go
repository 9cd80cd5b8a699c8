package cli_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/cli"
	"wetside/darkroom/example"
)

// A session starts by the clock on the wall, wherever the machine stands: "18:30" is never told as another hour.
func TestSessionStartsByTheClockOnTheWall(t *testing.T) {
	zone := time.FixedZone("far west", -5*60*60)
	now := func() time.Time { return time.Date(2027, 2, 18, 9, 0, 0, 0, zone) }
	name := filepath.Join(t.TempDir(), "example.yaml")
	if err := os.WriteFile(name, example.YAML(now()), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"plan", []string{"plan", name}, "18 February, 18:30"},
		{"plan for scripts", []string{"plan", name, "--json"}, `"starts": "2027-02-18T18:30:00-05:00"`},
		{"baths", []string{"baths", name}, "19 February, 18:30"},
		{"baths for scripts", []string{"baths", name, "--json"}, `"at": "2027-02-18T18:30:00-05:00"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			streams := cli.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}
			if code := cli.Run(t.Context(), streams, c.args, cli.Parts{Now: now}); code != cli.Done {
				t.Fatalf("status %d: %s", code, errs.String())
			}
			if got := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(got, c.want) {
				t.Errorf("got %s, want %s in it", got[:min(len(got), 600)], c.want)
			}
		})
	}
}
