package upkeep

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"time"

	"wetside/book"
	"wetside/cli"
)

// schema tells in which form the books stand.
func (x *exam) schema(ctx context.Context) cli.Check {
	s, err := x.reading(ctx, x.at)
	if err != nil {
		return check("schema", cli.Bad, "schema_unknown", figures{"Cause": text(book.CauseOf(err))})
	}
	has, knows, err := s.Schema(ctx)
	if err = errors.Join(err, s.Close()); err != nil {
		return check("schema", cli.Bad, "schema_unknown", figures{"Cause": text(book.CauseOf(err))})
	}
	f := figures{"Has": {Count: has}, "Knows": {Count: knows}}
	if has < knows {
		return check("schema", cli.Warning, "schema_older", f)
	}
	return check("schema", cli.Good, "schema_good", f)
}

// chain tells whether the books are as they were written.
func (x *exam) chain() cli.Check {
	broken, entries := 0, int64(0)
	for i := range x.found.Books {
		broken += x.found.Books[i].Count
		entries += x.found.Books[i].Entries
	}
	broken += len(x.found.Faults)
	if broken > 0 {
		return check("chain", cli.Bad, "chain_broken", figures{"N": {Count: int64(broken)}})
	}
	return check("chain", cli.Good, "chain_good", figures{"N": {Count: entries}})
}

// fold tells whether this version understands every entry, and whether the snapshot says what the entries do.
func (x *exam) fold() cli.Check {
	unread := 0
	for i := range x.found.Books {
		unread += x.found.Books[i].Unread
		if x.found.Books[i].Snapshot == cli.SnapshotDiffers {
			return check("fold", cli.Bad, "fold_differs", nil)
		}
	}
	if unread > 0 {
		return check("fold", cli.Warning, "fold_unread", figures{"N": {Count: int64(unread)}})
	}
	return check("fold", cli.Good, "fold_good", nil)
}

// clock tells whether this machine's clock stands before what was written last.
func (x *exam) clock() cli.Check {
	var last time.Time
	for i := range x.found.Books {
		if at := x.found.Books[i].Last; at.After(last) {
			last = at
		}
	}
	now := x.Now()
	f := figures{"Now": {At: now}, "Last": {At: last}, "Behind": {For: last.Sub(now)}}
	if last.Sub(now) > clockMayStray {
		return check("clock", cli.Bad, "clock_behind", f)
	}
	return check("clock", cli.Good, "clock_good", f)
}

// certificate tells how long a certificate is still good.
func (x *exam) certificate() cli.Check {
	pair, err := tls.LoadX509KeyPair(x.about.Cert, x.about.Key)
	f := figures{"Path": text(x.about.Cert)}
	if err != nil {
		f["Cause"] = text(book.CauseOf(err))
		return check("certificate", cli.Bad, "certificate_unread", f)
	}
	leaf := pair.Leaf
	if leaf == nil {
		if leaf, err = x509.ParseCertificate(pair.Certificate[0]); err != nil {
			f["Cause"] = text(book.CauseOf(err))
			return check("certificate", cli.Bad, "certificate_unread", f)
		}
	}
	now := x.Now()
	f["Until"] = cli.Figure{At: leaf.NotAfter}
	f["From"] = cli.Figure{At: leaf.NotBefore}
	f["Left"] = cli.Figure{For: leaf.NotAfter.Sub(now)}
	switch {
	case now.Before(leaf.NotBefore):
		return check("certificate", cli.Bad, "certificate_early", f)
	case now.After(leaf.NotAfter):
		return check("certificate", cli.Bad, "certificate_over", f)
	case leaf.NotAfter.Sub(now) < certSoon:
		return check("certificate", cli.Warning, "certificate_soon", f)
	}
	return check("certificate", cli.Good, "certificate_good", f)
}
