package web

import (
	"context"
	"errors"
	"net/http"
	"strings"

	"wetside/access"
	"wetside/book"
	"wetside/plan"
)

// errNotFound is for an address that leads nowhere.
var errNotFound = errors.New("no such page")

// errElsewhere is for a form that a page of another house sent.
var errElsewhere = errors.New("a form from elsewhere")

// status turns an error into a status and the key of what is told.
func status(err error) (code int, key string) {
	var tooLarge *http.MaxBytesError
	var refused *book.RefusedError
	switch {
	case errors.Is(err, context.DeadlineExceeded):
		return http.StatusServiceUnavailable, "too_long"
	case errors.Is(err, errNotFound), errors.Is(err, plan.ErrNoName), errors.As(err, &refused) && refused.Reason == book.NoSuchEntry:
		return http.StatusNotFound, "not_found"
	case errors.Is(err, errElsewhere):
		return http.StatusForbidden, "from_elsewhere"
	case errors.Is(err, errNotYours):
		return http.StatusForbidden, "not_yours"
	case errors.Is(err, errNotTheirs):
		return http.StatusForbidden, "not_theirs"
	case errors.Is(err, errStranger):
		return http.StatusUnauthorized, "stranger"
	case errors.Is(err, access.ErrHomeOnly):
		return http.StatusForbidden, "home_only"
	case errors.Is(err, access.ErrNoKeyholder):
		return http.StatusForbidden, "no_keyholder"
	case errors.Is(err, access.ErrLast):
		return http.StatusConflict, "keyholder_last"
	case errors.Is(err, access.ErrBusy):
		return http.StatusServiceUnavailable, "signin_busy"
	case errors.As(err, &tooLarge):
		return http.StatusRequestEntityTooLarge, "too_large"
	}
	switch book.KindOf(err) {
	case book.NotFound:
		return http.StatusNotFound, "not_found"
	case book.Stale, book.Conflict:
		return http.StatusConflict, "moved_on"
	case book.Refused:
		return http.StatusConflict, "cannot_undo"
	case book.BadInput:
		return http.StatusBadRequest, "bad_form"
	case book.Away, book.Busy:
		return http.StatusServiceUnavailable, "book_away"
	case book.Full:
		return http.StatusInsufficientStorage, "disk_full"
	default:
		return http.StatusInternalServerError, "gone_wrong"
	}
}

type errorPage struct {
	frame
	Code       int
	Text, Rest string // what it is, and what there is to say of it
	At, Way    string // where one goes on; empty: nowhere
}

// firstSentence parts a text, so that a heading stays short.
func firstSentence(text string) (first, rest string) {
	first, rest, more := strings.Cut(text, ". ")
	if more {
		first += "."
	}
	return first, rest
}

// onward is where whoever asked can go on after an error.
func (v *visit) onward(err error) (at, way string) {
	switch {
	case errors.Is(err, access.ErrHomeOnly), errors.Is(err, access.ErrNoKeyholder):
		return "", ""
	case v.who.Role <= access.Wall:
		return "/sign-in", v.say.Label("sign_in")
	}
	return "/", v.say.Label("today")
}

// fail shows an error: what can be said of it to the user, the cause to the log alone.
func (v *visit) fail(r *http.Request, err error) {
	if errors.Is(err, plan.ErrNoName) && asksForPage(r.Method) && access.Reads(v.who.Role) {
		_ = v.to(r, "/begin") // nothing is told of this darkroom yet
		return
	}
	code, key := status(err)
	if code >= http.StatusInternalServerError {
		v.s.Log.ErrorContext(r.Context(), "request failed", "request", v.id, "method", r.Method, "path", toldPath(r), "error", err)
	}
	if turnsAway(code) {
		v.s.turnedAway(r, v.id, key)
	}
	if v.say == nil {
		v.bare(code, "wetside: something went wrong: "+v.id)
		return
	}
	if v.who.Role == access.Wall && errors.Is(err, errNotYours) {
		key = "wall_only"
	}
	p := errorPage{frame: v.frame(r, "error"), Code: code}
	p.Text, p.Rest = firstSentence(v.say.Tell(key, "ID", v.id).Text())
	p.At, p.Way = v.onward(err)
	if err := v.show(code, "error", &p); err != nil {
		v.s.Log.ErrorContext(r.Context(), "error page failed", "request", v.id, "error", err)
		v.bare(http.StatusInternalServerError, "wetside: something went wrong: "+v.id)
	}
}
