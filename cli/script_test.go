package cli_test

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"wetside/cli"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/plan"
	"wetside/sheet"
	"wetside/words"
)

// clock is the moment at which all scripts run.
func clock() time.Time { return time.Date(2027, 2, 18, 15, 0, 0, 0, time.UTC) }

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"wetside": func() {
		os.Exit(cli.Run(context.Background(), cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}, os.Args[1:], cli.Parts{
			Version: "test", Now: clock, DataDir: "data", Sheet: drawSheet,
		}))
	}})
}

func drawSheet(w io.Writer, p plan.Plan, f darkroom.File) error {
	v, err := words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		return err
	}
	return sheet.Mix(w, v, p, f)
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script", RequireExplicitExec: true, RequireUniqueNames: true,
		UpdateScripts: os.Getenv("UPDATE") != "",
		Setup: func(e *testscript.Env) error {
			return os.WriteFile(filepath.Join(e.WorkDir, "example.yaml"), example.YAML(clock()), 0o600)
		},
	})
}
