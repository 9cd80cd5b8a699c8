package web

import (
	"net/http"

	"wetside/book"
	"wetside/plan"
	"wetside/trade/quantity"
)

// mixed is the entry that says a bath was made: the label's words, the volume, and what was drawn from which lot.
func (v *visit) mixed(b plan.Bath) *book.Mixed {
	c := b.Mix.Choices[0]
	m := &book.Mixed{
		Bath: v.s.NewID(), Product: v.idOf(v.ids.Products, b.Product, v.productNames()), Dilution: b.Words,
		Volume: c.Total.String(), Ounce: book.OunceOf(v.file.Darkroom.Ounce),
	}
	if b.Tray != "" {
		m.Tray = v.idOf(v.ids.Trays, b.Tray, v.trayNames())
	}
	if b.Tank != "" {
		m.Tank = v.idOf(v.ids.Tanks, b.Tank, v.tankNames())
	}
	for _, d := range b.Lots {
		if d.Lot >= 0 && d.Lot < len(v.ids.Lots) {
			m.From = append(m.From, book.Draw{Lot: v.ids.Lots[d.Lot], Amount: (d.Amount / quantity.Volume(max(b.Makings, 1))).String()})
		}
	}
	return m
}

// undo takes an entry back.
func (s *server) undo(r *http.Request, v *visit) error {
	id := r.PathValue("id")
	if err := s.Book.CanTakeBack(r.Context(), id); err != nil {
		return err
	}
	a := &book.Author{Device: "page", Now: s.Now(), NewID: s.NewID}
	e, err := a.TakeBack(id, "")
	if err != nil {
		return err
	}
	at := v.state.Position()
	if err := s.Book.Append(r.Context(), []book.Entry{e}, &at); err != nil {
		return err
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
