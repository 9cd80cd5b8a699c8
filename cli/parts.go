package cli

import (
	"context"
	"io"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/draw/label"
	"wetside/plan"
)

// Streams are where a command reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
}

// Parts is what the other rooms of the front of house do for the command line.
type Parts struct {
	Version string
	// Completing says that a shell asks how a command line goes on, by COMP_LINE in the environment.
	Completing bool
	// Now is the clock, in the zone of this machine.
	Now func() time.Time
	// DataDir is where the data lie when nobody says otherwise.
	DataDir string
	// OpenBook opens the book at a place, and makes it where there is none.
	OpenBook func(ctx context.Context, at Where) (Book, error)
	// OpenDoors opens what says who keeps the darkroom at a place.
	OpenDoors func(ctx context.Context, at Where) (Keyholders, error)
	// Hidden asks at the terminal for a line that is not shown; hidden is false where there is no terminal. nil: there is none.
	Hidden func(prompt string) (line string, hidden bool, err error)
	// Upkeep keeps the books whole.
	Upkeep Upkeep
	// Serve answers on an address until the context ends.
	Serve func(ctx context.Context, c ServeConfig) error
	// Sheet draws a plan on paper as PDF.
	Sheet func(w io.Writer, p plan.Plan, f darkroom.File) error
	// Baths draws the state of the baths on paper as PDF, Tapes a tape for each bath's bottle.
	Baths, Tapes func(w io.Writer, r ahead.Report, f darkroom.File) error
	// WasteSheet draws a year of the waste cans as PDF, WasteTable writes it as CSV.
	WasteSheet func(w io.Writer, y ahead.WasteYear, f darkroom.File) error
	WasteTable func(w io.Writer, y ahead.WasteYear) error
	// Cards draws the cards of an evening as PDF: one for each tray, the rules and lists, a safety sheet.
	Cards func(w io.Writer, p plan.Plan, r ahead.Report, f darkroom.File) error
	// Calendar writes what falls on which day as an iCalendar.
	Calendar func(w io.Writer, all []plan.Dated, r ahead.Report, f darkroom.File) error
	// Labels prints labels on a stock as PDF, from its place start on.
	Labels func(w io.Writer, all []label.Label, on label.Stock, start int) error
}

// A Book is the record of a darkroom, as far as the command line needs it.
type Book interface {
	// Import writes what differs between a file and the book, and says how many entries that took.
	Import(ctx context.Context, f darkroom.File) (entries int, err error)
	// Export returns the darkroom as the book has it now.
	Export(ctx context.Context) (darkroom.File, error)
	// State returns what is there now; it is not to be changed.
	State(ctx context.Context) (*book.State, error)
	// Awake is State with what needs names awake that long finished and rests.
	Awake(ctx context.Context, needs func(*book.State) book.Waking) (*book.State, error)
	// Write writes what happened, all or none. expect is the position of the state that decisions were made on; facts
	// are written whatever it says. It returns the entries' ids.
	Write(ctx context.Context, at time.Time, expect int64, bodies ...book.Body) (ids []string, err error)
	Close() error
}

// ServeConfig says how the pages are served.
type ServeConfig struct {
	Addr string
	Where
	// Example loads the example darkroom where the book is still empty.
	Example bool
	// Parts serves the page that shows every part of the look.
	Parts bool
	// Cert and Key are PEM files; both or neither.
	Cert, Key string
	// Hosts are names beside localhost by which a darkroom without a keyholder may be asked.
	Hosts []string
	// Health is the address of a second listener, which tells how the server does; empty: none.
	Health string
	// Version is the program's own.
	Version string
	// Out gets the address and where the data lie.
	Out io.Writer
}
