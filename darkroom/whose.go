package darkroom

import "slices"

// ownersThere refuses what is said to be of a person who is not there, and writes the others as people writes them.
func ownersThere(r *reader, n *node, f *File) {
	r.in("shelf", func() {
		shelf := n.Get("shelf")
		for i := range f.Shelf.Products {
			r.owner(shelf, "products", i, &f.Shelf.Products[i].Whose, f.People)
		}
		for i := range f.Shelf.Lots {
			r.owner(shelf, "lots", i, &f.Shelf.Lots[i].Whose, f.People)
		}
	})
}

func (r *reader) owner(n *node, list string, i int, whose *string, people []Person) {
	if *whose == "" {
		return
	}
	words := make([]string, 0, len(people)+1)
	for _, p := range people {
		words = append(words, p.Name)
	}
	words = append(words, Somebody)
	if at := slices.IndexFunc(words, func(w string) bool { return fold(w) == fold(*whose) }); at >= 0 {
		*whose = words[at]
		return
	}
	r.inItem(n, list, i, func(n *node) {
		r.badField(n, "whose", Problem{
			Kind: ProblemNoSuchPerson, Found: *whose, Suggestion: nearest(*whose, words), Expected: Expected{Words: words},
		})
	})
}

// Of reports whether a lot is there for whoever plans: the room's are there for everybody, what is somebody's for them alone.
// whose is the name of who plans; empty: the room.
func (l Lot) Of(whose string) bool { return l.Whose == "" || l.Whose == whose }

// ProductOf reports whether a product is there for whoever plans: the room's and their own, and what they have a lot of.
func (s Shelf) ProductOf(p Product, whose string) bool {
	return p.Whose == "" || p.Whose == whose ||
		slices.ContainsFunc(s.Lots, func(l Lot) bool { return l.Product == p.Name && l.Of(whose) })
}
