package web

import (
	"bytes"
	"net/http"

	"wetside/ahead"
	"wetside/plan"
)

// cardsPDF sends the cards of the evening: one for each tray, the rules and lists, the safety sheet.
func (s *server) cardsPDF(r *http.Request, v *visit) error {
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	_, report, err := v.outlook(r.Context(), looking{})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := s.Cards(&b, p, report, v.file); err != nil {
		return err
	}
	return v.sendFile(&b, "application/pdf", `inline; filename="cards.pdf"`)
}

// calendar sends what goes off, is due and will be full, for a calendar to take in or to fetch again and again.
func (s *server) calendar(r *http.Request, v *visit) error {
	_, report, err := v.outlook(r.Context(), looking{})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := s.Calendar(&b, plan.Dates(report, v.file, ahead.Cans(v.state, s.Now())), report, v.file); err != nil {
		return err
	}
	return v.sendFile(&b, "text/calendar; charset=utf-8", `attachment; filename="darkroom.ics"`)
}

// sendFile sends what is no page; how says whether it is shown or kept, and under which name.
func (v *visit) sendFile(b *bytes.Buffer, kind, how string) error {
	v.w.Header().Set("Content-Type", kind)
	v.w.Header().Set("Content-Disposition", how)
	v.w.Header().Set("Cache-Control", "no-store") // the book goes on
	_, _ = b.WriteTo(v.w)
	return nil
}

// paperRoutes are what goes on a wall, a bottle or into a calendar.
func (s *server) paperRoutes() map[string]handler {
	return map[string]handler{
		"GET /labels": s.labels, "GET /labels.pdf": inWhite(inLanguage(s.labelsPDF)), "GET /cards.pdf": inWhite(inLanguage(s.cardsPDF)),
		"GET /calendar.ics": inWhite(inLanguage(s.calendar)),
	}
}
