package darkroom

import (
	"slices"

	"wetside/trade/material"
	"wetside/trade/process"
)

// Product returns the product of that name.
func (s Shelf) Product(name string) (Product, bool) {
	i := slices.IndexFunc(s.Products, func(p Product) bool { return p.Name == name })
	if i < 0 || name == "" {
		return Product{}, false
	}
	return s.Products[i], true
}

// Names returns the names of all products, in the order of the shelf.
func (s Shelf) Names() []string {
	var names []string
	for _, p := range s.Products {
		names = append(names, p.Name)
	}
	return names
}

// ProductsFor returns the products of a role that are for a material, in the order of the shelf.
func (s Shelf) ProductsFor(role process.Role, m material.Material) []Product {
	var all []Product
	for _, p := range s.Products {
		if p.Role == role && p.IsFor(m) {
			all = append(all, p)
		}
	}
	return all
}

// LotsOf returns the lots of a product, in the order of the shelf.
func (s Shelf) LotsOf(product string) []Lot {
	var all []Lot
	for _, l := range s.Lots {
		if l.Product == product {
			all = append(all, l)
		}
	}
	return all
}

// IsFor reports whether the product is for a material: it names it, or names none.
func (p Product) IsFor(m material.Material) bool { return len(p.For) == 0 || slices.Contains(p.For, m) }

// Vessel returns the vessel of that name.
func (b Bench) Vessel(name string) (Vessel, bool) {
	i := slices.IndexFunc(b.Vessels, func(v Vessel) bool { return v.Name == name })
	if i < 0 {
		return Vessel{}, false
	}
	return b.Vessels[i], true
}

// Tray returns the tray of that name.
func (b Bench) Tray(name string) (Tray, bool) {
	i := slices.IndexFunc(b.Trays, func(t Tray) bool { return t.Name == name })
	if i < 0 {
		return Tray{}, false
	}
	return b.Trays[i], true
}

// Tank returns the tank of that name.
func (b Bench) Tank(name string) (Tank, bool) {
	i := slices.IndexFunc(b.Tanks, func(t Tank) bool { return t.Name == name })
	if i < 0 {
		return Tank{}, false
	}
	return b.Tanks[i], true
}

// TraysFor returns the trays for a role, in the order of the bench.
func (b Bench) TraysFor(role process.Role) []Tray { return b.traysWhere(For{Role: role}) }

// HoldingTrays returns the trays for holding.
func (b Bench) HoldingTrays() []Tray { return b.traysWhere(For{Holding: true}) }

// WashTrays returns the trays for washing.
func (b Bench) WashTrays() []Tray { return b.traysWhere(For{Wash: true}) }

func (b Bench) traysWhere(use For) []Tray {
	var all []Tray
	for _, t := range b.Trays {
		if t.For == use {
			all = append(all, t)
		}
	}
	return all
}
