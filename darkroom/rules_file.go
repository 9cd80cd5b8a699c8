package darkroom

import (
	"slices"
	"strings"

	"wetside/darkroom/outline"
	"wetside/trade/material"
	"wetside/trade/process"
)

// fileRules are what the parts of a file say together.
func fileRules() []rule[File] {
	return []rule[File]{noTwoAlike, lotsHaveProducts, lotsOfForm, ownersThere, vesselsKeptFor, loadsHaveProducts}
}

// noTwoAlike refuses two vessels, trays, tanks, cans or products of one name.
func noTwoAlike(r *reader, n *node, f *File) {
	bench, shelf := n.Get("bench"), n.Get("shelf")
	r.in("bench", func() {
		uniqueNames(r, bench.Get("vessels"), "vessels", f.Bench.Vessels, func(v Vessel) string { return v.Name })
		uniqueNames(r, bench.Get("trays"), "trays", f.Bench.Trays, func(t Tray) string { return t.Name })
		uniqueNames(r, bench.Get("tanks"), "tanks", f.Bench.Tanks, func(t Tank) string { return t.Name })
		uniqueNames(r, bench.Get("cans"), "cans", f.Bench.Cans, func(c Can) string { return c.Name })
	})
	r.in("shelf", func() {
		uniqueNames(r, shelf.Get("products"), "products", f.Shelf.Products, func(p Product) string { return p.Name })
	})
}

func uniqueNames[T any](r *reader, n *node, list string, all []T, name func(T) string) {
	first := map[string]int{}
	for i := range all {
		folded := fold(name(all[i]))
		j, twice := first[folded]
		if !twice {
			first[folded] = i
		}
		if !twice || folded == "" {
			continue
		}
		r.in(list, func() {
			r.in(item(i), func() {
				r.badField(itemOf(n, i), "name", Problem{
					Kind: ProblemSameName, Found: name(all[i]), Expected: Expected{Other: list + item(j)},
				})
			})
		})
	}
}

// fold makes names comparable as a reader sees them: capitals and spaces are no matter.
func fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// itemOf returns item i of a list, or an empty node.
func itemOf(n *node, i int) *node {
	if i < len(n.Items) {
		return n.Items[i]
	}
	return &node{Kind: outline.Empty}
}

// lotsHaveProducts refuses a lot of a product that is not on the shelf.
func lotsHaveProducts(r *reader, n *node, f *File) {
	for i, l := range f.Shelf.Lots {
		r.in("shelf", func() {
			r.productNamed(n.Get("shelf"), "lots", i, l.Product, f.Shelf)
		})
	}
}

// productNamed notes that an item of a list names a product that is not on the shelf.
func (r *reader) productNamed(n *node, list string, i int, name string, s Shelf) {
	if _, known := s.Product(name); known || name == "" {
		return
	}
	r.inItem(n, list, i, func(n *node) {
		r.badField(n, "product", Problem{
			Kind: ProblemNoSuchProduct, Found: name, Suggestion: nearest(name, s.Names()),
			Expected: Expected{Words: s.Names()},
		})
	})
}

// lotsOfForm refuses packets of a liquid, and litres of a powder that was not made up.
func lotsOfForm(r *reader, n *node, f *File) {
	for i, l := range f.Shelf.Lots {
		p, known := f.Shelf.Product(l.Product)
		if !known || p.Form == "" {
			continue
		}
		wrong := p.Form == Liquid && l.Packets > 0 || p.Form == Powder && !l.Stock && l.Holds.Given()
		r.in("shelf", func() {
			r.inItem(n.Get("shelf"), "lots", i, func(n *node) {
				r.goesWith(n, "holds", wrong, "form: "+string(p.Form))
			})
		})
	}
}

// vesselsKeptFor refuses a vessel kept for what is neither a role nor a product, and sets the role's own word.
func vesselsKeptFor(r *reader, n *node, f *File) {
	for i := range f.Bench.Vessels {
		v := &f.Bench.Vessels[i]
		if _, known := f.Shelf.Product(v.KeepFor); known || v.KeepFor == "" {
			continue
		}
		if role, err := process.ReadRole(v.KeepFor); err == nil {
			v.KeepFor = role.String()
			continue
		}
		words := f.Shelf.Names()
		for _, role := range process.Roles() {
			words = append(words, role.String())
		}
		r.in("bench", func() {
			r.inItem(n.Get("bench"), "vessels", i, func(n *node) {
				r.badField(n, "keep_for", Problem{
					Kind: ProblemNoSuchRoleOrProduct, Suggestion: nearest(v.KeepFor, words), Expected: Expected{Words: words},
				})
			})
		})
	}
}

// loadsHaveProducts refuses a load's developer that is not on the shelf, is none, or is not for its material.
func loadsHaveProducts(r *reader, n *node, f *File) {
	for i, l := range f.Session.ToMake {
		r.in("session", func() {
			r.productNamed(n.Get("session"), "to_make", i, l.Product, f.Shelf)
		})
		p, known := f.Shelf.Product(l.Product)
		if !known {
			continue
		}
		problem := Problem{}
		switch {
		case p.Role != process.Developer && p.Role != process.NoRole:
			problem = Problem{Kind: ProblemNoDeveloper, Expected: Expected{Other: p.Role.String()}}
		case l.Material != material.None && len(p.For) > 0 && !slices.Contains(p.For, l.Material):
			problem = Problem{Kind: ProblemNotFor, Expected: Expected{Words: p.forWords(), Other: l.Material.String()}}
		default:
			continue
		}
		r.in("session", func() {
			r.inItem(n.Get("session"), "to_make", i, func(n *node) { r.badField(n, "product", problem) })
		})
	}
}
