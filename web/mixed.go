package web

import (
	"net/http"
	"slices"
	"strings"

	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// mixed is the entry that says a bath was made: the label's words, the volume, and what was drawn from which lot.
func (v *visit) mixed(b plan.Bath) *book.Mixed {
	c := b.Mix.Choices[0]
	m := &book.Mixed{
		Bath: v.s.NewID(), Product: v.idOf(v.ids.Products, b.Product, v.productNames()), Dilution: b.Words,
		Volume: c.Total.String(), Whose: v.member(), Ounce: book.OunceOf(v.file.Darkroom.Ounce),
	}
	if b.Tray != "" {
		m.Tray = v.idOf(v.ids.Trays, b.Tray, v.trayNames())
	}
	if b.Tank != "" {
		m.Tank = v.idOf(v.ids.Tanks, b.Tank, v.tankNames())
	}
	v.placed(m, b)
	for _, d := range b.Lots {
		if d.Lot >= 0 && d.Lot < len(v.ids.Lots) {
			m.From = append(m.From, book.Draw{Lot: v.ids.Lots[d.Lot], Amount: (d.Amount / quantity.Volume(max(b.Makings, 1))).String()})
		}
	}
	return m
}

// placed says which of two fixing baths a fixer is, which other one it stands with, and whether a bath is for film alone.
func (v *visit) placed(m *book.Mixed, b plan.Bath) {
	if len(b.Materials) > 0 && !slices.ContainsFunc(b.Materials, material.Material.Paper) {
		m.For = book.ServesFilm
	}
	switch {
	case b.Step == process.SecondFix:
		m.Place = darkroom.BathSecond
		for _, x := range v.state.Baths() {
			if x.Gone == nil && x.Place == darkroom.BathFirst && x.Mixed.For == m.For && x.Mixed.Whose == m.Whose {
				m.Pair = x.ID
			}
		}
	case b.Step == process.Fix && v.inTwoBaths(b.Materials):
		m.Place = darkroom.BathFirst
	}
}

// inTwoBaths reports whether one of these materials is fixed in two baths.
func (v *visit) inTwoBaths(all []material.Material) bool {
	return slices.ContainsFunc(all, func(m material.Material) bool {
		fixing := v.file.Darkroom.Standards[m].Fixing
		for _, l := range v.file.Session.ToMake {
			if l.Material == m && l.Wanted.Fixing != process.FixingUnsaid {
				fixing = l.Wanted.Fixing
			}
		}
		return fixing == process.TwoBaths
	})
}

// undo takes an entry back.
func (s *server) undo(r *http.Request, v *visit) error {
	id := r.PathValue("id")
	if err := s.Book.CanTakeBack(r.Context(), id); err != nil {
		return err
	}
	a := v.author(r)
	e, err := a.TakeBack(id, "")
	if err != nil {
		return err
	}
	at := v.state.Position()
	if err := s.Book.Append(r.Context(), []book.Entry{e}, &at); err != nil {
		return err
	}
	if back := r.PostFormValue("back"); (back == "/baths" || back == "/waste" || back == wrongPath || back == closingPath || strings.HasPrefix(back, "/baths/")) && !strings.ContainsAny(back, "?#\\") {
		return v.to(r, back)
	}
	return v.to(r, "/")
}

// idOf returns the id of a thing by its name.
func (v *visit) idOf(ids []string, name string, names []string) string {
	for i, n := range names {
		if n == name && i < len(ids) {
			return ids[i]
		}
	}
	return ""
}

func (v *visit) productNames() []string { return v.file.Shelf.Names() }

func (v *visit) trayNames() (out []string) {
	for _, t := range v.file.Bench.Trays {
		out = append(out, t.Name)
	}
	return out
}

func (v *visit) tankNames() (out []string) {
	for _, t := range v.file.Bench.Tanks {
		out = append(out, t.Name)
	}
	return out
}
