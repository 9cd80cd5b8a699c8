package cli

import (
	"os"
	"time"

	"wetside/ahead"
	"wetside/trade/quantity"
	"wetside/trade/wash"
	"wetside/words"
)

// own is what a residual test has told of this room's washing, and when it was made; zero for one that was typed.
type own struct {
	*wash.Calibration
	at time.Time
}

// own finds the room's own washing: by the test that was typed, else by the last one in the book; nothing where there is none.
func (c *washCmd) own(s *session, v *words.Voice, r wash.Request) (own, error) {
	if c.Found != "" || c.After != "" || c.WashedIn != "" {
		x, err := c.test(v, r)
		return own{Calibration: x}, err
	}
	if !c.Book || c.Database == "" && c.DatabaseFile == "" && !there(c.Data) {
		return own{}, nil
	}
	var found own
	err := s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
		last, ok := ahead.LastWashTest(b.state, r.Load.Material)
		if !ok {
			return nil
		}
		if x, err := wash.Calibrate(last.In(r)); err == nil { // else it was of a wash that is not to be had here
			found = own{&x, last.At}
		}
		return nil
	})
	return found, err
}

// there reports whether data lie somewhere: no book is made for a question.
func there(dir string) bool {
	_, err := os.Stat(dir)
	return err == nil
}

// test reads the test that was typed, as one of a wash like the one that is asked about.
func (c *washCmd) test(v *words.Voice, r wash.Request) (*wash.Calibration, error) {
	x := wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.UsualWay(r.Setting, 0)}
	for _, f := range []struct {
		flag, text string
		needed     bool
		read       func(text string) error
	}{
		{"--found", c.Found, true, func(text string) (err error) { x.Found, err = wash.ReadFound(text); return err }},
		{"--after", c.After, true, func(text string) (err error) { x.Time, err = quantity.ReadDuration(text); return err }},
		{"--washed-in", c.WashedIn, false, func(text string) (err error) { x.Way, err = wash.ReadWay(text); return err }},
	} {
		if f.text == "" && f.needed {
			return nil, bad(c.JSON, "%s", v.Tell("wash.missing", "Flag", f.flag).Text())
		}
		if f.text == "" {
			continue
		}
		if err := f.read(f.text); err != nil {
			return nil, bad(c.JSON, "%s %s", f.flag, explained(v, err))
		}
	}
	if x.Way == wash.Cascade && r.Setting.Stages > 0 {
		x.Contact = x.Time / time.Duration(r.Setting.Stages)
	}
	got, err := wash.Calibrate(x)
	if err != nil {
		return nil, bad(c.JSON, "%s", explained(v, err))
	}
	return &got, nil
}

// tell says how the room washes by its test, and what that has changed.
func (o own) tell(p *printer, v *words.Voice, table, now wash.Answer) {
	if o.Calibration == nil {
		return
	}
	p.wrap(v.WashOwn(o.Calibration, v.WashTestOf(o.at)).Text())
	if changed, ok := v.WashChanged(table, now); ok {
		p.wrap(changed.Text())
	}
}
