// Command wetside runs the wet side of a black-and-white darkroom. It wires the rooms of the front of house together and
// does nothing else.
package main

import (
	"context"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"syscall"
	"time"

	"wetside/cli"
	"wetside/internal/upkeep"
	"wetside/internal/webbook"
	"wetside/sheet"
)

// version is set when the binary is built.
var version = "" //nolint:gochecknoglobals // set by the linker

func main() {
	os.Exit(run())
}

func run() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	debug.SetGCPercent(50) // a small board has little memory, and this program little garbage
	h := house{now: time.Now}
	return cli.Run(ctx, cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}, os.Args[1:], cli.Parts{
		Version: versionText(), Completing: os.Getenv("COMP_LINE") != "", Now: h.now, DataDir: dataDir(), OpenBook: h.openBook, OpenDoors: h.openDoors, Hidden: hidden, Serve: h.serve, Sheet: webbook.Sheet(h.now),
		Baths: h.baths, Tapes: h.tapes, WasteSheet: webbook.WasteSheet(h.now), WasteTable: sheet.WasteCSV, Labels: h.labels, Cards: webbook.Cards(h.now), Calendar: webbook.Calendar(h.now), Upkeep: upkeep.Keeper{Now: h.now, Told: upkeep.Telling(os.Stderr)},
	})
}

func versionText() string {
	if version != "" {
		return version
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "unknown"
}

// dataDir is where the data lie when nobody says otherwise: the user's own data folder (XDG Base Directory Specification).
func dataDir() string {
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "wetside")
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "wetside-data"
	}
	return filepath.Join(home, ".local", "share", "wetside")
}
