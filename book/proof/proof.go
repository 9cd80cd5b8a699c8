package proof

import (
	"cmp"
	"slices"
	"time"

	"wetside/book"
)

// A Fault is what is wrong at a place of a chain.
type Fault string

// The faults.
const (
	Changed  Fault = "changed"    // the entry there is not the one that was written
	Missing  Fault = "missing"    // entries that were written are not there
	Inserted Fault = "inserted"   // the entry there was put between two that follow each other
	Moved    Fault = "moved"      // the entry there was written at another position
	AfterEnd Fault = "after_end"  // entries stand after the book's end
	Unread   Fault = "unreadable" // from there on nothing can be read
)

// A Break is one place where a book is not as it was written.
type Break struct {
	Fault Fault
	// From and To are positions: those that are gone for Missing, as they were numbered when they were written; otherwise
	// where the entries stand now.
	From, To int64
	// ID, Kind and HappenedAt are those of the entry that stands at From; empty for Missing and Unread.
	ID         string
	Kind       book.Kind
	HappenedAt time.Time
	// Was is where a Moved entry was written.
	Was int64
	// Field is prev_hash where that alone was changed; empty where the chain does not tell which field it was.
	Field string
	// Written is the hash that the chain has for the entry, Stands that of what is there; for Changed alone.
	Written, Stands book.Hash
	// Cause is why nothing can be read, for Unread.
	Cause error

	entry book.Entry // for Inserted: it may turn out to have been moved
	after book.Hash  // for Missing: what the last of them hashes to
}

// A Report is what became of a proof.
type Report struct {
	Darkroom string
	Entries  int64     // that were followed
	Head     book.Head // what the book says of its end
	First    book.Hash // of the first entry
	FirstID  string    // of the first entry; two books with another first one are two darkrooms
	Last     time.Time // when the last entry was recorded; zero for none
	Breaks   []Break   // in order of position, at most MaxBreaks
	Count    int       // of all breaks
}

// Whole reports whether nothing is wrong.
func (r *Report) Whole() bool { return r.Count == 0 }

// Bounds of what is told and sought.
const (
	MaxBreaks = 100
	MaxGap    = 64 // entries taken out in one place that are recognised after the rest was numbered anew
)

// A Prover follows one chain. It holds two entries at a time.
type Prover struct {
	report Report
	shift  int64       // from where entries stand to where they were written
	before *book.Entry // the last that was followed, at the position where it was written
	stands int64       // where that one stands
	now    *book.Entry // the next to be followed, as it stands
}

// New begins to follow the chain of the book that ends at a head.
func New(head book.Head) *Prover {
	return &Prover{report: Report{Darkroom: head.Darkroom, Head: head}}
}

// Next takes in the next entry in order of position.
func (p *Prover) Next(e book.Entry) {
	if p.report.Entries == 0 {
		p.report.First, p.report.FirstID = book.HashOf(e), e.ID
	}
	p.report.Entries++
	p.report.Last = e.RecordedAt
	if p.now == nil || p.follow(&e) {
		p.now = &e
	}
}

// End says that there are no more entries, and returns what was found.
func (p *Prover) End() Report {
	if p.now != nil {
		_ = p.follow(nil)
	}
	p.end()
	return p.close()
}

// Broken says that nothing more can be read, and why.
func (p *Prover) Broken(cause error) Report {
	if p.now != nil {
		p.settle(p.at(*p.now, 0))
	}
	p.found(Break{Fault: Unread, From: p.stands + 1, To: p.report.Head.Position, Cause: cause})
	return p.close()
}

func (p *Prover) close() Report {
	slices.SortStableFunc(p.report.Breaks, func(a, b Break) int { return cmp.Compare(a.From, b.From) })
	return p.report
}

// follow holds p.now against the one before it; next is the one after it, nil at the end. It reports whether next is still to
// be followed.
func (p *Prover) follow(next *book.Entry) bool {
	e := p.at(*p.now, 0)
	follows := p.report.Head.Hash // what the one after e has as the hash of e
	if next != nil {
		follows = next.PrevHash
	}
	head := p.head()
	written := head.Position + 1
	switch {
	case e.Position > written:
		p.found(Break{Fault: Missing, From: written, To: e.Position - 1, after: e.PrevHash})
	case e.PrevHash == head.Hash:
	case p.before != nil && e.PrevHash == p.before.PrevHash:
		p.found(breakAt(Inserted, *p.before, p.stands))
		p.shift--
		e = p.at(*p.now, 0)
	case next != nil && next.PrevHash == head.Hash && e.PrevHash == book.HashOf(p.at(*next, -1)):
		p.swapped(e, *next)
		return false
	case follows == head.Hash:
		p.found(breakAt(Inserted, *p.now, p.now.Position))
		p.stands, p.now = p.now.Position, nil
		p.shift--
		return true
	default:
		e = p.differs(e, head, follows)
	}
	p.settle(e)
	return true
}

// settle makes an entry the one that the next is held against.
func (p *Prover) settle(e book.Entry) {
	p.before, p.stands = &e, p.now.Position
	p.now = nil
}

// at returns an entry at the position where it was written, or by so many after.
func (p *Prover) at(e book.Entry, by int64) book.Entry {
	e.Position += p.shift + by
	return e
}

// head is the end of what was followed.
func (p *Prover) head() book.Head {
	if p.before == nil {
		return book.Head{Darkroom: p.report.Darkroom}
	}
	return book.Head{Darkroom: p.report.Darkroom, Position: p.before.Position, Hash: book.HashOf(*p.before)}
}

// swapped takes in two neighbours that stand in each other's place.
func (p *Prover) swapped(e, next book.Entry) {
	first, second := breakAt(Moved, *p.now, p.now.Position), breakAt(Moved, next, next.Position)
	first.Was, second.Was = p.at(next, 0).Position, e.Position
	p.found(first)
	p.found(second)
	e.Position++
	p.before, p.stands, p.now = &e, next.Position, nil
}

// differs deals with an entry that does not name the one before it, and returns it as it was written.
func (p *Prover) differs(e book.Entry, head book.Head, follows book.Hash) book.Entry {
	for gone := int64(1); gone <= MaxGap; gone++ {
		if was := p.at(*p.now, gone); book.HashOf(was) == follows {
			p.found(Break{Fault: Missing, From: e.Position, To: e.Position + gone - 1, after: e.PrevHash})
			p.shift += gone
			return was
		}
	}
	mended := e
	mended.PrevHash = head.Hash
	if book.HashOf(mended) == follows || p.before == nil {
		b := breakAt(Changed, e, p.now.Position)
		b.Field, b.Written, b.Stands = "prev_hash", follows, book.HashOf(e)
		p.found(b)
		return mended
	}
	b := breakAt(Changed, *p.before, p.stands)
	b.Written, b.Stands = e.PrevHash, head.Hash
	p.found(b)
	return e
}

// end holds the last entry against the head.
func (p *Prover) end() {
	last, head := p.head(), p.report.Head
	switch {
	case last.Hash == head.Hash && (last.Position == head.Position || p.stands == head.Position):
	case head.Position > last.Position:
		p.found(Break{Fault: Missing, From: last.Position + 1, To: head.Position, after: head.Hash})
	case head.Position < p.stands:
		b := Break{Fault: AfterEnd, From: head.Position + 1, To: p.stands}
		p.found(b)
	default:
		b := breakAt(Changed, *p.before, p.stands)
		b.Written, b.Stands = head.Hash, last.Hash
		p.found(b)
	}
}

func breakAt(f Fault, e book.Entry, stands int64) Break {
	return Break{Fault: f, From: stands, To: stands, ID: e.ID, Kind: e.Kind, HappenedAt: e.HappenedAt, entry: e}
}

// found keeps a break. One entry gone here and the same put in there was moved.
func (p *Prover) found(b Break) {
	for i, other := range p.report.Breaks {
		gone, in := b, other
		if b.Fault == Inserted {
			gone, in = other, b
		}
		if gone.Fault != Missing || in.Fault != Inserted || gone.From != gone.To {
			continue
		}
		in.entry.Position = gone.From
		if book.HashOf(in.entry) == gone.after {
			in.Fault, in.Was = Moved, gone.From
			p.report.Breaks[i] = in
			return
		}
	}
	p.report.Count++
	if len(p.report.Breaks) < MaxBreaks {
		p.report.Breaks = append(p.report.Breaks, b)
	}
}
