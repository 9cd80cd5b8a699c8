package api

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"wetside/book"
	"wetside/words/facts"
)

// Bounds of what is read at once.
const (
	usualLimit  = 100
	mostLimit   = 1_000
	mostKinds   = 16
	mostBytes   = 4 << 20 // of bodies in one answer: the entry that goes beyond is the last
	mostScanned = 5_000   // entries that are looked at for those of the wanted kinds
	readAtOnce  = 500
)

// A wish is which entries are wanted.
type wish struct {
	after int64
	limit int
	kinds []string // beginnings of kinds, each with a sign at least; none: all
}

func (q *wish) has(k book.Kind) bool {
	return len(q.kinds) == 0 || slices.ContainsFunc(q.kinds, func(start string) bool { return strings.HasPrefix(string(k), start) })
}

// readWish reads the parameters of an address.
func readWish(query url.Values) (wish, error) {
	q := wish{limit: usualLimit}
	var wrong []mistake
	if text := query.Get("after"); query.Has("after") {
		n, err := strconv.ParseInt(text, 10, 64)
		if q.after = n; err != nil || n < 0 {
			wrong = append(wrong, mistake{param: "after", code: "no_position", found: short([]byte(text))})
		}
	}
	if text := query.Get("limit"); query.Has("limit") {
		n, err := strconv.Atoi(text)
		if q.limit = n; err != nil || n < 1 || n > mostLimit {
			wrong = append(wrong, mistake{param: "limit", code: "outside", found: short([]byte(text)), want: []string{"1", strconv.Itoa(mostLimit)}})
		}
	}
	if text := query.Get("kinds"); text != "" {
		if q.kinds = strings.Split(text, ","); len(q.kinds) > mostKinds {
			wrong = append(wrong, mistake{param: "kinds", code: "outside", found: strconv.Itoa(len(q.kinds)), want: []string{"1", strconv.Itoa(mostKinds)}})
		}
		for i, word := range q.kinds {
			if k, known := kindOf(word); known { // the short forms, too
				q.kinds[i] = string(k)
			}
		}
		if i := slices.IndexFunc(q.kinds, func(start string) bool { return !begins(start) }); i >= 0 && len(q.kinds) <= mostKinds {
			wrong = append(wrong, mistake{param: "kinds", code: "no_kind", found: short([]byte(q.kinds[i]))})
		}
	}
	return q, invalid(wrong...)
}

// begins reports whether a kind of entry begins so. Nothing is no beginning, though every kind begins with it.
func begins(start string) bool {
	return start != "" && slices.ContainsFunc(book.Kinds(), func(k book.Kind) bool { return strings.HasPrefix(string(k), start) })
}

// entries answers with entries after a position: a list, or a stream for who asks for one.
func (c *call) entries() error {
	q, err := readWish(c.r.URL.Query())
	if err != nil {
		return err
	}
	if strings.Contains(c.r.Header.Get("Accept"), eventStream) {
		return c.stream(q)
	}
	head, err := c.a.Book.Position(c.ctx())
	if err != nil {
		return err
	}
	if q.after > head {
		return &failure{slug: pBeyond, with: func(p *Problem) { p.Position = &head }}
	}
	page, err := c.a.page(c.ctx(), q)
	if err != nil {
		return err
	}
	page.Position = max(head, page.Next) // it may have moved on since
	page.More = page.Next < page.Position
	return c.send(http.StatusOK, kindJSON, page)
}

// page reads entries after a position; Next is the position up to which the book was looked at.
func (a *api) page(ctx context.Context, q wish) (facts.Entries, error) {
	out := facts.Entries{Entries: []facts.Entry{}, Next: q.after}
	for scanned, bytes := 0, 0; ; {
		n := readAtOnce
		if len(q.kinds) == 0 {
			n = min(n, q.limit-len(out.Entries))
		}
		all, err := a.Book.Since(ctx, out.Next, n)
		if err != nil {
			return out, err
		}
		for _, e := range all {
			if scanned++; q.has(e.Kind) {
				out.Entries = append(out.Entries, facts.OfEntry(e))
				bytes += len(e.Body)
			}
			out.Next = e.Position
			if len(out.Entries) == q.limit || bytes > mostBytes || scanned == mostScanned {
				return out, nil
			}
		}
		if len(all) < n {
			return out, nil
		}
	}
}

// entry answers with one entry.
func (c *call) entry() error {
	e, err := c.a.Book.Find(c.ctx(), c.r.PathValue("id"))
	switch {
	case book.KindOf(err) == book.NotFound:
		return c.noSuch("/entries")
	case err != nil:
		return err
	}
	return c.send(http.StatusOK, kindJSON, facts.OfEntry(e))
}
