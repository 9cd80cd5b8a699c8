package web

import (
	"net/http"

	"wetside/access"
	"wetside/book"
)

// What a device keeps of itself: its own id, and the person whose it is.
const (
	deviceCookie = "device"
	personCookie = "person"
)

// device returns the id of the device that asks, and gives it one where it has none.
func (v *visit) device(r *http.Request) string {
	if v.who.Role == access.Sink {
		return v.who.Key
	}
	if c, err := r.Cookie(access.CookieName(r, deviceCookie)); err == nil && book.ValidID(c.Value) {
		return c.Value
	}
	id := v.s.NewID()
	v.keep(r, deviceCookie, id)
	return id
}

// me is the person whose device this is, or empty.
func me(r *http.Request) string {
	if c, err := r.Cookie(access.CookieName(r, personCookie)); err == nil && book.ValidID(c.Value) {
		return c.Value
	}
	return ""
}
