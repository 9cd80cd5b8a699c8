package api

import (
	"context"
	"errors"
	"net/http"
	"strings"

	"wetside/access"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

// Problem is what is told where a request is not answered (RFC 9457).
type Problem struct {
	Type     string    `json:"type"`             // urn:wetside:problem: and a word that never changes; docs/api.md lists them
	Title    string    `json:"title"`            // what sort of problem it is, in the language of the room
	Status   int       `json:"status"`           // as the answer's
	Detail   string    `json:"detail"`           // what is wrong here and what to do
	Instance string    `json:"instance"`         // of this one answer: where the fault is ours, the log has it
	Errors   []Mistake `json:"errors,omitempty"` // all that is wrong with the request
	Roles    []string  `json:"roles,omitempty"`  // who may, where you may not
	// Position is the book's, where a request says another.
	Position *int64        `json:"position,omitempty"`
	Expected *int64        `json:"expected,omitempty"` // the position that a decision was made on
	Between  []facts.Entry `json:"between,omitempty"`  // what came since; at most the latest 200
	Stored   *facts.Entry  `json:"stored,omitempty"`   // what stands in the book under the id
	Reason   string        `json:"reason,omitempty"`   // why a decision can't be
	Subject  string        `json:"subject,omitempty"`  // the id of what that is about
	Because  string        `json:"because,omitempty"`  // the id of the entry that stands in the way
}

// Mistake is one thing that is wrong with a request: in its body or in a parameter.
type Mistake struct {
	Pointer   string `json:"pointer,omitempty"`   // where in the body: a JSON pointer as a fragment, #/body/sheets
	Parameter string `json:"parameter,omitempty"` // or which parameter of the address
	Code      string `json:"code"`                // a word that never changes
	Detail    string `json:"detail"`              // what is wrong and what would do
}

// typeOf begins the type of every problem.
const typeOf = "urn:wetside:problem:"

// The sorts of problems.
const (
	pInvalid  = "invalid"
	pNotJSON  = "not_json"
	pNoToken  = "no_token"
	pMayNot   = "may_not"
	pNoOne    = "not_served" // a darkroom without a keyholder, from elsewhere
	pFrom     = "from_elsewhere"
	pNotFound = "not_found"
	pMethod   = "method"
	pStale    = "stale"
	pConflict = "other_contents"
	pRefused  = "refused"
	pBeyond   = "beyond"
	pTooLarge = "too_large"
	pNotType  = "media_type"
	pTooOften = "too_often"
	pInternal = "internal"
	pAway     = "away"
	pFull     = "full"
)

// statusOf is the status of a sort of problem.
func statusOf(slug string) int {
	switch slug {
	case pInvalid, pNotJSON:
		return http.StatusBadRequest
	case pNoToken:
		return http.StatusUnauthorized
	case pMayNot, pNoOne, pFrom:
		return http.StatusForbidden
	case pNotFound:
		return http.StatusNotFound
	case pMethod:
		return http.StatusMethodNotAllowed
	case pStale, pConflict, pRefused, pBeyond:
		return http.StatusConflict
	case pTooLarge:
		return http.StatusRequestEntityTooLarge
	case pNotType:
		return http.StatusUnsupportedMediaType
	case pTooOften:
		return http.StatusTooManyRequests
	case pAway:
		return http.StatusServiceUnavailable
	case pFull:
		return http.StatusInsufficientStorage
	default:
		return http.StatusInternalServerError
	}
}

// A failure is why a request is not answered, before it is put into words.
type failure struct {
	slug     string
	key      string   // of its sentence, where it is not the slug
	args     []string // what stands in the places of its sentence
	mistakes []mistake
	with     func(*Problem) // what it carries besides; may be nil
	cause    error
}

func (f *failure) Error() string {
	if f.cause != nil {
		return f.slug + ": " + f.cause.Error()
	}
	return f.slug
}

func (f *failure) Unwrap() error { return f.cause }

// invalid is the failure of a request with mistakes, nil where there are none.
func invalid(all ...mistake) error {
	if len(all) == 0 {
		return nil
	}
	return &failure{slug: pInvalid, mistakes: all}
}

// mayNot is the failure of somebody whose role may not do what roles may.
func mayNot(w access.Who, may func(access.Role) bool) error {
	var roles []string
	for _, r := range access.Roles() {
		if may(r) {
			roles = append(roles, r.String())
		}
	}
	return &failure{
		slug: pMayNot, args: []string{"Role", w.Role.String(), "Roles", strings.Join(roles, ", ")}, with: func(p *Problem) { p.Roles = roles },
	}
}

// failureOf makes a failure of any error.
func failureOf(err error) *failure {
	if f, ok := errors.AsType[*failure](err); ok {
		return f
	}
	if syntax, ok := errors.AsType[*syntaxError](err); ok {
		return ofSyntax(syntax)
	}
	switch {
	case errors.Is(err, access.ErrHomeOnly), errors.Is(err, access.ErrNoKeyholder):
		return &failure{slug: pNoOne, cause: err}
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return &failure{slug: pAway, cause: err}
	}
	if f := ofBook(err); f != nil {
		f.cause = err
		return f
	}
	slug := pInternal
	switch book.KindOf(err) {
	case book.NotFound:
		slug = pNotFound
	case book.Away, book.Busy, book.Cancelled, book.InUse:
		slug = pAway
	case book.Full:
		slug = pFull
	default:
	}
	return &failure{slug: slug, cause: err}
}

// ofBook makes a failure of what a book says of an entry, nil of another error.
func ofBook(err error) *failure {
	var stale *book.StaleError
	var conflict *book.ConflictError
	var refused *book.RefusedError
	switch {
	case errors.As(err, &stale):
		return &failure{slug: pStale, with: func(p *Problem) {
			p.Expected, p.Position, p.Between = &stale.Expected, &stale.Head, entriesOf(stale.Between)
		}}
	case errors.As(err, &conflict):
		return &failure{slug: pConflict, with: func(p *Problem) {
			stored := facts.OfEntry(conflict.Stored)
			p.Stored = &stored
		}}
	case errors.As(err, &refused):
		return &failure{slug: pRefused, args: []string{"Reason", strings.ReplaceAll(string(refused.Reason), "_", " ")}, with: func(p *Problem) {
			p.Reason, p.Subject, p.Because = string(refused.Reason), refused.Subject, refused.Because
		}}
	case book.KindOf(err) == book.BadInput:
		return &failure{slug: pInvalid, mistakes: []mistake{{at: root, code: "entry"}}}
	}
	return nil
}

func ofSyntax(e *syntaxError) *failure {
	key := ""
	switch {
	case errors.Is(e, errSeveral):
		key = "_several"
	case errors.Is(e, errEmpty):
		key = "_empty"
	case errors.Is(e, errNoUTF8):
		key = "_utf8"
	case errors.Is(e, errTooDeep):
		key = "_deep"
	}
	return &failure{slug: pNotJSON, key: pNotJSON + key, args: []string{"Line", itoa(int64(e.line)), "Column", itoa(int64(e.column))}, cause: e}
}

// told puts a failure into words.
func (f *failure) told(v *words.Voice, instance string) Problem {
	key := f.key
	if key == "" {
		key = f.slug
	}
	p := Problem{
		Type: typeOf + f.slug, Title: v.Tell("api_title." + f.slug).Text(), Status: statusOf(f.slug), Instance: instance,
		Detail: v.Tell("api."+key, f.args...).Text(),
	}
	for _, m := range f.mistakes {
		p.Errors = append(p.Errors, f.mistake(v, m)...)
	}
	if f.with != nil {
		f.with(&p)
	}
	return p
}

// mistake puts one mistake into words; what a book says of an entry's body may be several.
func (f *failure) mistake(v *words.Voice, m mistake) []Mistake {
	var field *book.FieldError
	var problems darkroom.Problems
	body := root.field("body")
	switch {
	case m.code != "entry":
		says := v.Tell("api_field."+m.code, "Found", m.found, "Want", strings.Join(m.want, "; ")).Text()
		return []Mistake{{string(m.at), m.param, m.code, says}}
	case errors.As(f.cause, &field):
		return []Mistake{{Pointer: string(body.path(field.Field)), Code: string(field.Why), Detail: ofField(v, field)}}
	case errors.As(f.cause, &problems):
		var all []Mistake
		for _, p := range problems {
			all = append(all, Mistake{Pointer: string(body.field("as").path(p.Path)), Code: string(p.Kind), Detail: v.Problem(p).Text()})
		}
		return all
	}
	return []Mistake{{Pointer: string(body), Code: "unreadable", Detail: v.Tell("api_field.unreadable", "Found", book.KeyOf(f.cause)).Text()}}
}

// ofField says what is wrong with a field of an entry's body.
func ofField(v *words.Voice, e *book.FieldError) string {
	if cause, read := errors.AsType[*quantity.ReadError](e.Cause); read && len(e.Want) == 0 {
		return v.ReadError(cause).Text()
	}
	return v.Tell("field."+string(e.Why), "Found", e.Found, "Want", strings.Join(e.Want, "; ")).Text()
}
