package api

import (
	"encoding/json"
	"errors"
	"hash/maphash"
	"io"
	"mime"
	"net/http"
	"net/url"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/book"
	"wetside/words/facts"
)

// mostBody is the most that a request may send.
const mostBody = 1 << 20

// Append is an entry as it is sent.
type Append struct {
	ID   string `json:"id" format:"uuid"` // a UUID made by whoever sends it, in lower case: an entry that is sent twice is written once
	Kind string `json:"kind"`             // bath.worked, or worked where no other kind ends so
	// Version is that of the body; 0 or left out: today's.
	Version    int             `json:"version,omitempty"`
	HappenedAt string          `json:"happened_at,omitempty" format:"date-time"` // RFC 3339; left out: when it arrives
	By         string          `json:"by,omitempty"`                             // a person's id; with a key, whose it is
	Device     string          `json:"device,omitempty"`                         // left out, and with a key: the key's id
	TakesBack  string          `json:"takes_back,omitempty"`                     // of a correction: the id of the entry that it takes back
	Expect     *int64          `json:"expect,omitempty"`                         // of a decision: the position that it was made on; facts need none
	Body       json.RawMessage `json:"body,omitempty"`                           // as the kind says; left out: {}
}

// readJSON reads the one JSON object that a request sends.
func (c *call) readJSON() (value, error) {
	kind, params, err := mime.ParseMediaType(c.r.Header.Get("Content-Type"))
	charset := strings.ToLower(params["charset"])
	encoding := c.r.Header.Get("Content-Encoding")
	if err != nil || kind != kindJSON || charset != "" && charset != "utf-8" || encoding != "" && encoding != "identity" {
		c.w.Header().Set("Accept-Post", kindJSON)
		return value{}, &failure{slug: pNotType, args: []string{"Found", short([]byte(c.r.Header.Get("Content-Type"))), "Want", kindJSON}}
	}
	text, err := io.ReadAll(http.MaxBytesReader(c.w, c.r.Body, mostBody))
	if err != nil {
		if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
			return value{}, &failure{slug: pTooLarge, args: []string{"Most", "1 MiB"}}
		}
		return value{}, &failure{slug: pNotJSON, args: []string{"Line", "1", "Column", "1"}, cause: err}
	}
	return readValue(text)
}

// add writes one entry.
func (c *call) add() error {
	v, err := c.readJSON()
	if err != nil {
		return err
	}
	e, expect, err := c.entryOf(&v)
	if err != nil {
		return err
	}
	stored, fresh, err := c.write(e, expect, v.get("happened_at") == nil)
	if err != nil {
		return err
	}
	return c.wrote(stored, fresh, facts.OfEntry(stored))
}

// wrote answers with what was written: 201 where it is new, 200 where it was there.
func (c *call) wrote(e book.Entry, fresh bool, v any) error {
	status := http.StatusOK
	if fresh {
		status = http.StatusCreated
	}
	c.w.Header().Set("Location", Prefix+"/entries/"+url.PathEscape(e.ID))
	return c.send(status, kindJSON, v)
}

// entryOf makes an entry of what was sent; the error names all that is wrong with it.
func (c *call) entryOf(v *value) (e book.Entry, expect *int64, err error) {
	if err := invalid(shape(v, reflect.TypeFor[Append](), root)...); err != nil {
		return e, nil, err
	}
	sent := Append{Body: json.RawMessage("{}")}
	if err := json.Unmarshal(v.raw, &sent); err != nil {
		return e, nil, &failure{slug: pNotJSON, args: []string{"Line", "1", "Column", "1"}, cause: err}
	}
	e = book.Entry{
		ID: sent.ID, Version: sent.Version, HappenedAt: book.Instant(c.a.Now()), By: sent.By, Device: sent.Device, TakesBack: sent.TakesBack,
		Body: string(sent.Body),
	}
	wrong := c.envelope(v, &sent, &e)
	if body := v.get("body"); body != nil && e.Kind != "" {
		wrong = append(wrong, shape(body, bodyOf(e.Kind), root.field("body"))...)
	}
	c.inTheNameOf(&e)
	return e, sent.Expect, invalid(wrong...)
}

// inTheNameOf says who writes: the person whose key it is, nobody for a device of the room, and by which key.
func (c *call) inTheNameOf(e *book.Entry) {
	if c.who.Person != "" || c.who.Key != "" {
		e.By = c.who.Person
	}
	if c.who.Key != "" {
		e.Device = c.who.Key
	}
}

// envelope reads what stands beside the body, and returns what is wrong with it.
func (c *call) envelope(v *value, sent *Append, e *book.Entry) (wrong []mistake) {
	bad := func(field, code, found string, want ...string) {
		wrong = append(wrong, mistake{at: root.field(field), code: code, found: short([]byte(found)), want: want})
	}
	if !isUUID(sent.ID) {
		bad("id", "no_uuid", sent.ID)
	}
	k, known := kindOf(sent.Kind)
	switch {
	case v.get("kind") == nil:
		bad("kind", "missing", "")
	case !known:
		bad("kind", "no_kind", sent.Kind)
	case withPage(k):
		bad("kind", "with_page", sent.Kind)
	default:
		e.Kind = k
	}
	switch now := book.Upcasters().Version(e.Kind); {
	case v.get("version") == nil || sent.Version == 0:
		e.Version = now
	case sent.Version < 0 || sent.Version > now:
		bad("version", "outside", strconv.Itoa(sent.Version), "1", strconv.Itoa(now))
	}
	if v.get("happened_at") != nil {
		at, err := time.Parse(time.RFC3339Nano, sent.HappenedAt)
		if e.HappenedAt = book.Instant(at); err != nil || at.Year() < 1 || at.UTC().Year() > 9999 {
			bad("happened_at", "no_instant", sent.HappenedAt)
		}
	}
	for _, f := range []struct{ name, id string }{{"by", sent.By}, {"device", sent.Device}, {"takes_back", sent.TakesBack}} {
		if v.get(f.name) != nil && !book.ValidID(f.id) {
			bad(f.name, "no_id", f.id)
		}
	}
	switch {
	case e.Kind == book.Correction && sent.TakesBack == "" && v.get("takes_back") == nil:
		bad("takes_back", "missing", "")
	case e.Kind != "" && e.Kind != book.Correction && sent.TakesBack != "":
		bad("takes_back", "not_here", sent.TakesBack, string(book.Correction))
	}
	if sent.Expect != nil && *sent.Expect < 0 {
		bad("expect", "no_position", itoa(*sent.Expect))
	}
	return wrong
}

// isUUID accepts the one way in which a UUID is written here, so that the same one is the same id.
func isUUID(id string) bool {
	u, err := uuid.Parse(id)
	return err == nil && u.String() == id
}

// write writes an entry, once however often it is sent; fresh is false where it was there. Without a moment of its own an
// entry that was there is the same as it was.
func (c *call) write(e book.Entry, expect *int64, anyMoment bool) (stored book.Entry, fresh bool, err error) {
	if err := c.mayWrite(e); err != nil {
		return e, false, err
	}
	defer c.a.sending.lock(e.ID)()
	was, err := c.a.Book.Find(c.ctx(), e.ID)
	switch {
	case err == nil:
		return again(was, e, anyMoment)
	case book.KindOf(err) != book.NotFound:
		return e, false, err
	}
	stored, err = c.put(e, expect)
	if other, ok := errors.AsType[*book.ConflictError](err); ok && other.Stored.ID == e.ID { // another process was quicker
		return again(other.Stored, e, anyMoment)
	}
	return stored, err == nil, err
}

// again answers for an entry under an id that was there.
func again(was, e book.Entry, anyMoment bool) (stored book.Entry, fresh bool, err error) {
	if anyMoment {
		e.HappenedAt = was.HappenedAt
	}
	if e.Darkroom = was.Darkroom; !was.Same(e) {
		err = &book.ConflictError{Stored: was}
	}
	return was, false, err
}

// put writes an entry that is not there. A correction of a fact needs no position: it is decided on the book as it is.
func (c *call) put(e book.Entry, expect *int64) (book.Entry, error) {
	if !e.Kind.Decides() {
		return c.a.Book.Add(c.ctx(), e, nil)
	}
	head, err := c.a.Book.Position(c.ctx())
	if err != nil {
		return e, err
	}
	switch {
	case expect != nil && *expect > head:
		return e, invalid(mistake{at: root.field("expect"), code: "ahead", found: itoa(*expect), want: []string{itoa(head)}})
	case expect != nil:
		return c.a.Book.Add(c.ctx(), e, expect)
	}
	if decided, err := c.decided(e); err != nil {
		return e, err
	} else if decided {
		return e, invalid(mistake{at: root.field("expect"), code: "decides", found: string(e.Kind)})
	}
	return c.a.Book.TakeBack(c.ctx(), e)
}

// decided reports whether an entry is a decision, or takes one back in the end.
func (c *call) decided(e book.Entry) (bool, error) {
	for range book.MaxBetween { // of corrections of corrections
		if e.Kind != book.Correction {
			return e.Kind.Decides(), nil
		}
		was, err := c.a.Book.Find(c.ctx(), e.TakesBack)
		if err != nil {
			if book.KindOf(err) == book.NotFound {
				err = nil // the book refuses it
			}
			return false, err
		}
		e = was
	}
	return true, nil
}

// mayWrite refuses an entry that is not theirs to write.
func (c *call) mayWrite(e book.Entry) error {
	may := func(k book.Kind) func(access.Role) bool {
		return func(r access.Role) bool { return access.Write(r, k) != access.Never }
	}
	ok, err := access.MayWrite(c.ctx(), c.a.Book, c.who, nil, e)
	switch {
	case ok:
		return nil
	case err != nil && e.Kind == book.Correction && book.KindOf(err) == book.NotFound:
		return nil // the book refuses it
	case err != nil:
		return err
	case access.Write(c.who.Role, e.Kind) == access.Never:
		return mayNot(c.who, may(e.Kind))
	}
	if err := c.saysWhose(e); err != nil {
		return err
	}
	return mayNot(c.who, func(r access.Role) bool { return access.Write(r, e.Kind) == access.Always })
}

// saysWhose tells a member that what comes new must say that it is theirs.
func (c *call) saysWhose(e book.Entry) error {
	switch e.Kind {
	case book.Received, book.StockMade, book.BathMixed, book.ProductSet:
	default:
		return nil
	}
	var says struct {
		Whose string `json:"whose"`
	}
	if err := json.Unmarshal([]byte(e.Body), &says); err != nil || says.Whose == c.who.Person || c.who.Person == "" {
		return nil //nolint:nilerr // what can't be read was told before
	}
	return invalid(mistake{at: root.field("body").field("whose"), code: "not_theirs", want: []string{c.who.Person}})
}

// sending lets those wait for each other who send the same entry at once, so that one of them hears that it is new.
type sending struct {
	seed  sync.Once
	of    maphash.Seed
	lanes [64]sync.Mutex
}

// lock waits for an id's turn and returns what ends it.
func (s *sending) lock(id string) (unlock func()) {
	s.seed.Do(func() { s.of = maphash.MakeSeed() })
	m := &s.lanes[maphash.String(s.of, id)%uint64(len(s.lanes))]
	m.Lock()
	return m.Unlock
}

// oneOf reports whether a word is one of several.
func oneOf[T ~string](word string, all ...T) bool { return slices.Contains(all, T(word)) }
