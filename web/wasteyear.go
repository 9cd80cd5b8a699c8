package web

import (
	"bytes"
	"net/http"
	"strconv"
	"time"

	"wetside/ahead"
)

// yearOf is the year that an address asks for, this one where it does not say.
func (v *visit) yearOf(r *http.Request) (ahead.WasteYear, error) {
	now := v.s.Now()
	year := now.Year()
	if text := r.URL.Query().Get("year"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1900 || n > year {
			return ahead.WasteYear{}, errNotFound
		}
		year = n
	}
	if err := v.wakeWaste(r.Context(), time.Date(year, time.January, 1, 0, 0, 0, 0, now.Location())); err != nil {
		return ahead.WasteYear{}, err
	}
	return ahead.YearOfWaste(v.state, year, now)
}

// wastePDF sends the year's sheet, to be signed.
func (s *server) wastePDF(r *http.Request, v *visit) error {
	y, err := v.yearOf(r)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := s.WasteSheet(&b, y, v.file); err != nil {
		return err
	}
	return v.sendFile(&b, "application/pdf", `inline; filename="waste-`+strconv.Itoa(y.Year)+`.pdf"`)
}

// wasteCSV sends the year as a table.
func (s *server) wasteCSV(r *http.Request, v *visit) error {
	y, err := v.yearOf(r)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := s.WasteTable(&b, y); err != nil {
		return err
	}
	return v.sendFile(&b, "text/csv; charset=utf-8", `attachment; filename="waste-`+strconv.Itoa(y.Year)+`.csv"`)
}
