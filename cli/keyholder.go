package cli

import (
	"context"
	"errors"
	"io"
	"strings"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/words"
)

// Keyholders is who keeps a darkroom, as far as the command line needs it.
type Keyholders interface {
	// MakeKeyholder makes one; of kind Conflict where somebody signs in by that name.
	MakeKeyholder(ctx context.Context, name, phrase string) error
	Keyholders(ctx context.Context) ([]access.KeyholderMade, error)
	// WithdrawCalled takes one away, with all that they are signed in with; the last only where last says so.
	WithdrawCalled(ctx context.Context, name string, last bool) error
	// NewPassphrase gives one a new passphrase, and ends all that they are signed in with.
	NewPassphrase(ctx context.Context, name, phrase string) error
	Close() error
}

type keyholderCmd struct {
	Make       keyholderMakeCmd       `cmd:"" help:"Make a keyholder. The passphrase is asked for, or read from the first line of the input."`
	List       keyholderListCmd       `cmd:"" help:"Tell who the keyholders are."`
	Withdraw   keyholderWithdrawCmd   `cmd:"" help:"Withdraw a keyholder: they are signed out everywhere, and their scripts end."`
	Passphrase keyholderPassphraseCmd `cmd:"" help:"Give a keyholder a new passphrase: the way back in for who forgot theirs."`
}

type keyholderFlags struct {
	whereFlags
	stolenFlag
	JSON bool `name:"json" help:"Answer as JSON."`
}

// stolenFlag is for what takes new passphrases.
type stolenFlag struct {
	Stolen string `help:"A file of hashes of passwords that were stolen elsewhere (SHA-1, in their order, a line each): none of them is taken as a new passphrase." env:"WETSIDE_STOLEN" type:"path" placeholder:"FILE"`
}

// with opens the doors of the darkroom for f.
func (c *keyholderFlags) with(s *session, f func(Keyholders, *words.Voice) error) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	w.Stolen = c.Stolen
	v, err := s.plain()
	if err != nil {
		return err
	}
	k, err := s.parts.OpenDoors(s.ctx, w)
	if err != nil {
		return s.trouble(v, c.JSON, Broken, err)
	}
	return errors.Join(c.told(s, v, f(k, v)), k.Close())
}

// told puts an error in words.
func (c *keyholderFlags) told(s *session, v *words.Voice, err error) error {
	var out *outcome
	switch {
	case err == nil || errors.As(err, &out):
		return err
	case errors.Is(err, access.ErrLast):
		return bad(c.JSON, "%s", v.Tell("keyholder_really_last").Text())
	case book.KeyOf(err) == "keyholder_not_found":
		return bad(c.JSON, "%s", v.Tell("keyholder_unknown").Text())
	case errors.Is(err, access.ErrStolen):
		return bad(c.JSON, "%s", v.Label("passphrase_stolen"))
	case book.KeyOf(err) == "keyholder_name_taken":
		return bad(c.JSON, "%s", v.Label("keyholder_name_taken"))
	}
	return s.trouble(v, c.JSON, Broken, err)
}

// say tells what was done.
func (c *keyholderFlags) say(s *session, v *words.Voice, key, name string) {
	if c.JSON {
		writeJSON(s.io.Out, struct {
			Done string `json:"done"`
			Name string `json:"name"`
		}{key, name})
		return
	}
	newPrinter(s.io.Out).wrap(v.Tell(key, "Name", name).Text())
}

// named reads a name from the command line.
func (c *keyholderFlags) named(name string, v *words.Voice) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		return "", bad(c.JSON, "%s", v.Label("keyholder_name_none"))
	}
	return name, nil
}

// give asks for a passphrase for a name, does what takes both, and tells that it is done.
func (c *keyholderFlags) give(s *session, name, told string, do func(k Keyholders, ctx context.Context, name, phrase string) error) error {
	return c.with(s, func(k Keyholders, v *words.Voice) error {
		name, err := c.named(name, v)
		if err != nil {
			return err
		}
		phrase, err := c.passphrase(s, v, name)
		if err != nil {
			return err
		}
		if err := do(k, s.ctx, name, phrase); err != nil {
			return err
		}
		c.say(s, v, told, name)
		return nil
	})
}

type keyholderMakeCmd struct {
	keyholderFlags
	Name string `arg:"" help:"The name by which the keyholder signs in."`
}

// Run makes a keyholder.
func (c *keyholderMakeCmd) Run(s *session) error {
	return c.give(s, c.Name, "keyholder_is_made", Keyholders.MakeKeyholder)
}

type keyholderPassphraseCmd struct {
	keyholderFlags
	Name string `arg:"" help:"The name by which the keyholder signs in."`
}

// Run gives a keyholder a new passphrase.
func (c *keyholderPassphraseCmd) Run(s *session) error {
	return c.give(s, c.Name, "keyholder_passphrase_new", Keyholders.NewPassphrase)
}

type keyholderWithdrawCmd struct {
	keyholderFlags
	Name string `arg:"" help:"The name by which the keyholder signs in."`
	Last bool   `help:"Withdraw the last keyholder, too: the darkroom is a home again, and asks nobody."`
}

// Run withdraws a keyholder.
func (c *keyholderWithdrawCmd) Run(s *session) error {
	return c.with(s, func(k Keyholders, v *words.Voice) error {
		name, err := c.named(c.Name, v)
		if err != nil {
			return err
		}
		if err := k.WithdrawCalled(s.ctx, name, c.Last); err != nil {
			return err
		}
		c.say(s, v, "keyholder_withdrawn", name)
		return nil
	})
}

type keyholderListCmd struct{ keyholderFlags }

// Run tells who the keyholders are.
func (c *keyholderListCmd) Run(s *session) error {
	return c.with(s, func(k Keyholders, v *words.Voice) error {
		all, err := k.Keyholders(s.ctx)
		if err != nil {
			return err
		}
		if c.JSON {
			writeJSON(s.io.Out, keyholdersListed(all))
			return nil
		}
		p := newPrinter(s.io.Out)
		for _, x := range all {
			p.wrap(v.Tell("keyholder_row", "Name", x.Name, "When", v.DateTime(x.Made)).Text())
		}
		if len(all) == 0 {
			p.wrap(v.Tell("keyholder_nobody").Text())
		}
		return nil
	})
}

type keyholderListed struct {
	Name string    `json:"name"`
	Made time.Time `json:"made_at"`
}

type keyholderList struct {
	Keyholders []keyholderListed `json:"keyholders"`
}

func keyholdersListed(all []access.KeyholderMade) keyholderList {
	out := keyholderList{Keyholders: []keyholderListed{}}
	for _, x := range all {
		out.Keyholders = append(out.Keyholders, keyholderListed{x.Name, x.Made})
	}
	return out
}

// mostInput is what is read of a passphrase at most, in bytes.
const mostInput = 64 << 10

// passphrase asks for a new passphrase twice at a terminal, which does not show it; elsewhere it is the first line of the input.
// Never an argument: every user of the machine can read those.
func (c *keyholderFlags) passphrase(s *session, v *words.Voice, name string) (string, error) {
	typed, hidden, err := s.secret(v.Tell("keyholder_ask", "Name", name).Text())
	if err != nil {
		return "", bad(c.JSON, "%w", err)
	}
	phrase, wrong := access.Passphrase(typed, name)
	if wrong != "" {
		return "", bad(c.JSON, "%s", v.Label(wrong))
	}
	if hidden {
		again, _, err := s.secret(v.Tell("keyholder_ask_again").Text())
		if err != nil {
			return "", bad(c.JSON, "%w", err)
		}
		if access.Typed(again) != phrase {
			return "", bad(c.JSON, "%s", v.Tell("keyholder_differ").Text())
		}
	}
	return phrase, nil
}

// secret reads what is not to be seen.
func (s *session) secret(prompt string) (typed string, hidden bool, err error) {
	if s.parts.Hidden != nil {
		if typed, hidden, err = s.parts.Hidden(prompt + " "); hidden || err != nil {
			return typed, hidden, err
		}
	}
	text, err := io.ReadAll(io.LimitReader(s.io.In, mostInput))
	line, _, _ := strings.Cut(string(text), "\n")
	return strings.TrimSuffix(line, "\r"), false, err
}
