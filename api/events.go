package api

import (
	"log/slog"

	"wetside/access"
)

// tell writes to the log that somebody was refused, or sent too much or too often (docs/security.md); ids, no names, no token.
func (c *call) tell(f *failure) {
	switch f.slug {
	case pNoToken, pMayNot, pNoOne, pFrom, pTooLarge, pTooOften:
	default:
		return
	}
	who := c.who
	if who == (access.Who{}) {
		who, _ = c.a.Keys.Who(c.r)
	}
	c.a.Log.LogAttrs(c.ctx(), slog.LevelWarn, "refused",
		slog.String("request", c.id), slog.String("from", access.Address(c.r)), slog.String("role", who.Role.String()), slog.String("person", who.Person),
		slog.String("key", who.Key), slog.String("why", f.slug), slog.String("method", c.r.Method), slog.String("path", c.r.URL.Path),
		slog.Bool("showed", access.Show(c.r).Token != ""))
}
