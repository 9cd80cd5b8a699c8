package darkroom

import (
	"slices"

	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// Serves reports whether a vessel may be used for a product, its water included, among the vessels of a bench: not
// where it is kept for something else, nor where the product has a vessel of its own. Only a balance stays, for
// there is nothing in it to mix up.
func (v Vessel) Serves(p Product, b Bench) bool {
	if v.KeepFor != "" {
		return v.keptFor(p)
	}
	return v.Kind == measure.Balance || !slices.ContainsFunc(b.Vessels, func(o Vessel) bool { return o.keptFor(p) })
}

// keptFor reports whether a vessel is kept for a product, by its name or its role.
func (v Vessel) keptFor(p Product) bool {
	if v.KeepFor == "" {
		return false
	}
	return v.KeepFor == p.Name || p.Role != process.NoRole && v.KeepFor == p.Role.String()
}

// ForMeasure returns the vessel as package measure takes it, for one product and among the vessels of a bench: a
// vessel kept for something else is used for nothing here, and a product with a vessel of its own goes into no
// other. Only the contract's defaults are filled in: a cylinder without a class is of class B, no mark is numbered
// without numbered, none are read half-way without half_marks.
func (v Vessel) ForMeasure(p Product, b Bench) measure.Vessel {
	out := !v.Serves(p, b)
	m := measure.Vessel{
		Name: v.Name, Kind: v.Kind, Class: v.Class,
		HalfMarks:      v.HalfMarks.Or(false),
		InnerWidth:     v.InnerWidth.Or(0),
		NotForChemical: out,
		NotForWater:    out,
		Setting: measure.Setting{
			OnMark:  v.Setting.Or(quantity.Ratio{}).Float(),
			Between: v.SettingBetween.Or(quantity.Ratio{}).Float(),
		},
	}
	if v.Kind == measure.Cylinder && v.Class == measure.NoClass {
		m.Class = measure.ClassB
	}
	if v.PermissibleError.Given() {
		own := v.PermissibleError.Value
		m.Own = &own
	}
	for _, s := range v.Scales {
		m.Scales = append(m.Scales, measure.Scale{
			Unit: s.Unit.Value, From: s.From.Value, To: s.To.Value, Step: s.Step.Value,
			Numbered: s.Numbered.Or(quantity.Ratio{}),
		})
	}
	return m
}
