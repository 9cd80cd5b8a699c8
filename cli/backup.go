package cli

import (
	"strings"

	"wetside/book"
	"wetside/words"
	"wetside/words/facts"
)

type backupCmd struct {
	Out string `arg:"" help:"The file to write, or a directory: then its name has the moment in it. Nothing is overwritten." type:"path"`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run saves a copy of the books, and looks it through.
func (c *backupCmd) Run(s *session) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	v, err := s.plain()
	if err != nil {
		return err
	}
	saved, err := s.parts.Upkeep.Backup(s.ctx, w, c.Out)
	if err != nil {
		return s.trouble(v, c.JSON, Broken, err)
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.Saved{Path: saved.Path, Bytes: saved.Bytes, Found: verified(v, &saved.Verified)})
	} else {
		tellSaved(newPrinter(s.io.Out), v, &saved)
	}
	if !saved.Whole() {
		return no()
	}
	return nil
}

func tellSaved(p *printer, v *words.Voice, saved *Saved) {
	if !saved.Whole() {
		p.line(v.Tell("backup.saved_broken", "Path", saved.Path, "Size", v.Bytes(saved.Bytes)).Text())
		p.gap()
		tellVerified(p, v, &saved.Verified)
		return
	}
	p.line(v.Tell("backup.saved", "Path", saved.Path, "Size", v.Bytes(saved.Bytes)).Text() + " " + entriesText(v, &saved.Verified))
	p.wrap(v.Tell("backup.holds").Text())
}

func entriesText(v *words.Voice, found *Verified) string {
	var n int64
	for i := range found.Books {
		n += found.Books[i].Entries
	}
	return v.TellN("backup.entries", int(n)).Text()
}

type restoreCmd struct {
	From     string `arg:"" help:"A backup of this or an older version." type:"path" predictor:"file"`
	YesOther bool   `help:"Bring it back though it is of another darkroom than the books that are there."`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run puts a backup in the place of what is there.
func (c *restoreCmd) Run(s *session) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	v, err := s.plain()
	if err != nil {
		return err
	}
	r, err := s.parts.Upkeep.Restore(s.ctx, w, c.From, c.YesOther)
	if err != nil {
		code := Broken
		if kind := book.KindOf(err); kind == book.Newer || kind == book.Damaged || kind == book.Foreign {
			code = BadInput // of the backup; the books that are there are only moved
		}
		return s.trouble(v, c.JSON, code, withBreaks(v, &r, err))
	}
	if c.JSON {
		out := facts.Restored{Path: r.Path, Was: r.Was, Schema: r.Schema, Found: verified(v, &r.Verified)}
		if r.Aside != "" {
			out.Aside = &r.Aside
		}
		writeJSON(s.io.Out, out)
		return nil
	}
	p := newPrinter(s.io.Out)
	p.line(v.Tell("backup.restored", "Path", r.Path).Text() + " " + entriesText(v, &r.Verified))
	if r.Aside == "" {
		p.wrap(v.Tell("backup.aside_none").Text())
		return nil
	}
	p.line(v.Tell("backup.aside", "Path", r.Aside).Text() + " " + v.TellN("backup.entries", int(r.Was)).Text())
	return nil
}

// brokenBackupError is an error of a damaged backup with what is wrong in it.
type brokenBackupError struct {
	error
	breaks []string
}

// Unwrap returns the error.
func (b brokenBackupError) Unwrap() error { return b.error }

// withBreaks puts to an error of a damaged backup what is wrong in it.
func withBreaks(v *words.Voice, r *Restored, err error) error {
	if book.KeyOf(err) != "backup_broken" {
		return err
	}
	b := brokenBackupError{error: err}
	for i := range r.Books {
		for j := range r.Books[i].Breaks {
			b.breaks = append(b.breaks, breakText(v, &r.Books[i].Breaks[j]))
		}
	}
	for _, fault := range r.Faults {
		b.breaks = append(b.breaks, v.Tell("verify.fault", "Fault", fault).Text())
	}
	return b
}

// list returns what is wrong, a line each.
func (b brokenBackupError) list() string { return "\n  " + strings.Join(b.breaks, "\n  ") }
