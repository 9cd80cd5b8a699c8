package cli

import (
	"context"
	"errors"
	"io"

	"github.com/alecthomas/kong"
	kongcompletion "github.com/jotaen/kong-completion"
	"github.com/posener/complete"
)

// The exit statuses.
const (
	Done     = 0
	No       = 1
	BadInput = 3
	Broken   = 4
	Usage    = 64
)

// commands is the whole command line; the help, the man page and the completion are made from it.
type commands struct {
	Mix        mixCmd                    `cmd:"" help:"What to pour for one bath: a dilution and a volume."`
	Plan       planCmd                   `cmd:"" help:"What to mix for an evening, from a darkroom file."`
	Temper     temperCmd                 `cmd:"" help:"Hot and cold water for a temperature."`
	Baths      bathsCmd                  `cmd:"" help:"What each bath still does."`
	Cards      cardsCmd                  `cmd:"" help:"Cards for the trays, the rules and lists, and a safety sheet, on paper."`
	Calendar   calendarCmd               `cmd:"" help:"What goes off, is due and will be full, as a calendar."`
	Label      labelCmd                  `cmd:"" help:"The label of a bath or a waste can, for a bottle or a tray."`
	Worked     workedCmd                 `cmd:"" help:"Write down that a load went through a bath."`
	Test       testCmd                   `cmd:"" help:"Write down what a test of a bath showed."`
	Wash       washCmd                   `cmd:"" help:"How long to wash, in which ways."`
	Wrong      wrongCmd                  `cmd:"" help:"What may be behind something that looks wrong, and how to check it."`
	Close      closeCmd                  `cmd:"" help:"What is done at the end of an evening: each bath with what becomes of it, and the room."`
	Waste      wasteCmd                  `cmd:"" help:"The waste cans, the year's sheet, and where each bath goes here."`
	PH         phCmd                     `cmd:"" name:"ph" help:"The pH of a mixture."`
	Classify   classifyCmd               `cmd:"" help:"The hazards of a mixture, from its declared shares."`
	Hazards    hazardsCmd                `cmd:"" help:"The hazards of what a darkroom file has on its shelf, and what must never meet."`
	Check      checkCmd                  `cmd:"" help:"Read a darkroom file and tell every mistake in it."`
	Import     importCmd                 `cmd:"" help:"Put a darkroom file into the book."`
	Export     exportCmd                 `cmd:"" help:"Write the darkroom as the book has it as a file."`
	Book       bookCmd                   `cmd:"" help:"Write the whole book out, or read it back: every entry, as text."`
	Verify     verifyCmd                 `cmd:"" help:"Look whether the books are as they were written."`
	Backup     backupCmd                 `cmd:"" help:"Save a copy of the books, while they are in use."`
	Restore    restoreCmd                `cmd:"" help:"Bring a backup back; what is there is kept aside."`
	Doctor     doctorCmd                 `cmd:"" help:"Look at everything that may go wrong here, and say what would mend it."`
	Serve      serveCmd                  `cmd:"" help:"Serve the pages on this machine."`
	Keyholder  keyholderCmd              `cmd:"" help:"Who keeps the darkroom: make, list, withdraw, a new passphrase."`
	Version    versionCmd                `cmd:"" help:"Tell which version this is."`
	Completion kongcompletion.Completion `cmd:"" help:"Tell how to complete commands in bash, zsh or fish."`
	Man        manCmd                    `cmd:"" help:"Write the manual page."`
}

// session is what a command needs beside its flags.
type session struct {
	ctx    context.Context
	io     Streams
	parts  Parts
	parser *kong.Kong
}

// Run runs one command line and returns the exit status. It never exits itself.
func Run(ctx context.Context, s Streams, args []string, p Parts) int {
	var c commands
	exit := -1
	parser, err := kong.New(&c,
		kong.Name("wetside"),
		kong.Description("Runs the wet side of a black-and-white darkroom: from the bottles on the shelf to the mix sheet."),
		kong.Writers(s.Out, s.Err),
		kong.Exit(func(code int) { exit = code }),
		kong.UsageOnError(),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, NoExpandSubcommands: true, WrapUpperBound: 96}),
		kong.Vars{"data": p.DataDir},
	)
	if err != nil {
		return broken(s.Err, err)
	}
	if p.Completing { // else it would only be in the way of the start
		kongcompletion.Register(parser, kongcompletion.WithPredictor("file", complete.PredictFiles("*.yaml")),
			kongcompletion.WithExitFunc(func(code int) { exit = code }))
	}
	if exit >= 0 {
		return exit
	}
	k, err := parser.Parse(negatives(args))
	if exit >= 0 {
		return exit // the help was asked for
	}
	if err != nil {
		return usage(s.Err, err)
	}
	return status(&session{ctx: ctx, io: s, parts: p, parser: parser}, k)
}

// status runs the chosen command and turns its error into an exit status.
func status(s *session, k *kong.Context) int {
	err := k.Run(s)
	if err == nil {
		return Done
	}
	var out *outcome
	if !errors.As(err, &out) {
		return broken(s.io.Err, err)
	}
	if out.err != nil {
		out.err = s.inWords(out.err)
		out.print(s.io.Err)
	}
	return out.code
}

func usage(w io.Writer, err error) int {
	say(w, "wetside: %s\nTry wetside --help.\n", err)
	return Usage
}

func broken(w io.Writer, err error) int {
	say(w, "wetside: something broke: %s\n", err)
	return Broken
}
