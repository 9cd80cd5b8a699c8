package cli

import (
	"strconv"

	"wetside/book"
	"wetside/book/proof"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

type verifyCmd struct {
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run looks through the books and says what is not as it was written.
func (c *verifyCmd) Run(s *session) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	v, err := s.plain()
	if err != nil {
		return err
	}
	found, err := s.parts.Upkeep.Verify(s.ctx, w)
	if err != nil {
		return s.trouble(v, c.JSON, Broken, err)
	}
	if c.JSON {
		writeJSON(s.io.Out, verified(v, &found))
	} else {
		tellVerified(newPrinter(s.io.Out), v, &found)
	}
	if !found.Good() {
		return no()
	}
	return nil
}

// plain is the voice of what concerns no room.
func (s *session) plain() (*words.Voice, error) {
	return words.New("en", quantity.Metric, quantity.OunceUS, words.Zone(s.parts.Now().Location()))
}

func verified(v *words.Voice, found *Verified) facts.Verified {
	out := facts.Verified{
		Whole: found.Whole(), Place: found.Place, Schema: found.Schema, Books: []facts.Proved{}, File: append([]string{}, found.Faults...),
	}
	for i := range found.Books {
		b := &found.Books[i]
		out.Books = append(out.Books, facts.OfProof(&b.Report, b.Unread, string(b.Snapshot), func(f *proof.Break) string { return breakText(v, f) }))
	}
	return out
}

func tellVerified(p *printer, v *words.Voice, found *Verified) {
	for i := range found.Books {
		tellProved(p, v, &found.Books[i])
	}
	for _, fault := range found.Faults {
		p.wrap(v.Tell("verify.fault", "Fault", fault).Text())
	}
	if found.File && len(found.Faults) == 0 {
		p.wrap(v.Tell("verify.file_good").Text())
	}
	if !found.Whole() {
		p.gap()
		p.wrap(v.Tell("verify.keep").Text())
	}
}

func tellProved(p *printer, v *words.Voice, b *Proved) {
	switch {
	case !b.Whole():
		p.wrap(v.TellN("verify.broken", b.Count, "Name", b.Darkroom).Text())
	case b.Entries == 0:
		p.wrap(v.Tell("verify.empty", "Name", b.Darkroom).Text())
		return
	default:
		p.wrap(v.Tell("verify.whole", "Name", b.Darkroom).Text())
	}
	for i := range b.Breaks {
		p.item(breakText(v, &b.Breaks[i]))
	}
	if more := b.Count - len(b.Breaks); more > 0 {
		p.item(v.TellN("verify.more", more).Text())
	}
	p.item(v.TellN("verify.entries", int(b.Entries)).Text())
	if b.Unread > 0 {
		p.item(v.TellN("verify.unread", b.Unread).Text())
	}
	if b.Snapshot != NoSnapshot && b.Snapshot != "" {
		p.item(v.Tell("verify.snapshot_" + string(b.Snapshot)).Text())
	}
	if b.Whole() {
		p.item(v.Tell("verify.last", "At", v.Instant(b.Last), "Hash", b.Head.Hash.String()).Text())
	}
}

// breakText says what is wrong at one place of a chain.
func breakText(v *words.Voice, b *proof.Break) string {
	key := "verify." + string(b.Fault)
	switch {
	case b.Fault == proof.Changed && b.Field != "":
		key += "_link"
	case b.Fault == proof.Missing && b.To > b.From:
		key += "_many"
	}
	entry, cause := "", ""
	if b.ID != "" {
		entry = v.Tell("verify.entry", "Kind", string(b.Kind), "At", v.Instant(b.HappenedAt), "ID", b.ID).Text()
	}
	if b.Cause != nil {
		cause = book.CauseOf(b.Cause)
	}
	return v.Tell(key, "From", number(b.From), "To", number(b.To), "Was", number(b.Was), "Entry", entry,
		"Written", b.Written.String(), "Stands", b.Stands.String(), "Cause", cause).Text()
}

func number(n int64) string { return strconv.FormatInt(n, 10) }
