package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/words"
)

type shelfPage struct {
	frame
	Owners   []ownerView
	Some     bool // something stands here
	Adds     bool // whoever asks may put something of their own here
	Position int64
	Problem  string
	Never    words.Phrase // what must never meet of what stands here
	Reducer  bool         // a ferricyanide stands here, which with hypo is normal practice
}

// An ownerView is what one owner has on the shelf.
type ownerView struct {
	Name     string // "The room’s"; empty: there is nobody else
	Products []productView
	None     bool // a member has nothing here yet
}

type productView struct {
	Name, Role, Dilutions string
	Change, Add           string // empty: not for whoever asks
	Own                   bool   // what is added is a member's own, beside the room's
	Lots                  []lotView
}

type lotView struct {
	At, What, Left, Dates string
	Closed                bool // not opened yet
	Changes               bool // whoever asks may count it, open it, discard it
}

// shelf shows products with the lots that stand there.
func (s *server) shelf(r *http.Request, v *visit) error { return v.showShelf(r, http.StatusOK, "") }

func (v *visit) showShelf(r *http.Request, status int, problem string) error {
	p := shelfPage{frame: v.frame(r, "shelf"), Position: v.state.Position(), Problem: problem}
	p.Some, p.Adds = len(v.file.Shelf.Products) > 0, v.keeps() || v.member() != ""
	owners := v.owners()
	for _, whose := range owners {
		one := ownerView{Products: v.shelfOf(whose)}
		if len(owners) > 1 {
			one.Name = v.ofWhom(whose)
		}
		one.None = len(one.Products) == 0 && whose != "" && whose == v.member()
		if len(one.Products) > 0 || one.None {
			p.Owners = append(p.Owners, one)
		}
	}
	if report, err := v.judged(r.Context()); err == nil {
		p.Never, p.Reducer = v.say.NeverTogether(report.Never), report.Reducer
	}
	return v.show(status, "shelf", &p)
}

// shelfOf are the products that are of one owner, the room's where whose is empty, or of which they have a bottle here.
func (v *visit) shelfOf(whose string) (all []productView) {
	lots, products := v.ownersNow()
	for i, x := range v.file.Shelf.Products {
		one := v.productView(&x)
		if v.mayChange(products[i]) {
			one.Change = "/shelf/product/" + v.ids.Products[i]
		}
		if v.mayChange(whose) {
			one.Add = "/shelf/lot/new?" + v.newLot(x.Name, whose)
		} else if whose == "" && v.member() != "" {
			one.Add, one.Own = "/shelf/lot/new?"+v.newLot(x.Name, v.member()), true
		}
		for j, l := range v.file.Shelf.Lots {
			if l.Product == x.Name && lots[j] == whose {
				lot := v.lotView(l, v.ids.Lots[j])
				if lot.Changes = v.mayChange(whose); !lot.Changes {
					lot.tellLeft(v, l.LeftUnknown)
				}
				one.Lots = append(one.Lots, lot)
			}
		}
		if products[i] == whose || len(one.Lots) > 0 {
			all = append(all, one)
		}
	}
	return all
}

// tellLeft puts what is left among what is told of a lot, where it can't be changed.
func (l *lotView) tellLeft(v *visit, unknown bool) {
	if unknown {
		l.Left = v.say.Label("unknown")
	}
	if l.Left == "" {
		return
	}
	if l.Dates != "" {
		l.Dates += ", "
	}
	l.Dates += strings.ToLower(v.say.Label("left")) + " " + l.Left
}

// newLot asks for a new bottle of a product, of one owner.
func (v *visit) newLot(product, whose string) string {
	q := url.Values{"product": {product}}
	if name := v.people.Name(whose); whose != "" && name != book.Somebody && v.keeps() {
		q.Set("whose", name)
	}
	return q.Encode()
}

func (v *visit) productView(x *darkroom.Product) productView {
	one := productView{Name: x.Name, Role: v.say.Role(x.Role)}
	for _, m := range material.All() {
		if d := x.Dilutions[m]; d.Given() && !slices.Contains(strings.Split(one.Dilutions, ", "), d.Text) {
			one.Dilutions = strings.TrimPrefix(one.Dilutions+", "+d.Text, ", ")
		}
	}
	if strings.Contains(strings.ToLower(x.Name), strings.ToLower(one.Role)) {
		one.Role = ""
	}
	return one
}

func (v *visit) lotView(l darkroom.Lot, id string) lotView {
	out := lotView{At: "/shelf/lot/" + id, What: cmp.Or(l.Holds.Text, v.say.Label("lot")), Closed: !l.Opened.Given() && !l.Stock}
	if l.Packets > 0 {
		out.What = v.say.Count("packets", l.Packets)
	}
	if l.Stock {
		out.What = v.say.Label("stock") + " " + out.What
	}
	switch {
	case l.Left.Given():
		out.Left = l.Left.Text
	case l.LeftUnknown:
		out.Left = "unknown" // as it is typed
	}
	for _, d := range []struct {
		key string
		as  darkroom.As[time.Time]
	}{{"received", l.Received}, {"opened", l.Opened}, {"made", l.Made}} {
		if d.as.Given() {
			if out.Dates != "" {
				out.Dates += ", "
			}
			out.Dates += strings.ToLower(v.say.Label(d.key)) + " " + v.say.DayYear(d.as.Value)
		}
	}
	return out
}

// lot appends one entry about the lot in the address.
func (s *server) lotEntry(r *http.Request, v *visit, body func(id string) book.Body, decides bool) error {
	id := r.PathValue("id")
	if !slices.Contains(v.ids.Lots, id) {
		return errNotFound
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	a := v.author(r)
	e, err := a.Write(body(id))
	if err != nil {
		return err
	}
	var expect *int64
	if decides {
		at := v.state.Position()
		expect = &at
	}
	if err := s.Book.Append(r.Context(), []book.Entry{e}, expect); err != nil {
		if book.KindOf(err) == book.BadInput {
			return v.showShelf(r, http.StatusUnprocessableEntity, v.say.Label("left_wrong"))
		}
		return err
	}
	return v.to(r, "/shelf")
}

func (s *server) lotOpened(r *http.Request, v *visit) error {
	return s.lotEntry(r, v, func(id string) book.Body {
		return &book.LotOpened{Lot: id, Opened: s.Now().Format("2006-01-02")}
	}, false)
}

func (s *server) lotLeft(r *http.Request, v *visit) error {
	return s.lotEntry(r, v, func(id string) book.Body {
		return &book.LotCounted{Lot: id, Left: r.PostForm.Get("left"), Ounce: book.OunceOf(v.file.Darkroom.Ounce)}
	}, false)
}

func (s *server) lotDiscarded(r *http.Request, v *visit) error {
	return s.lotEntry(r, v, func(id string) book.Body { return &book.LotDiscarded{Lot: id} }, true)
}
