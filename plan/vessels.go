package plan

import (
	"wetside/darkroom"
	"wetside/trade/measure"
)

// vesselsFor returns the vessels that may be used for a product, as package measure sees them. A vessel kept for
// one product or role serves no other, and that product uses no other vessel where its own exists.
func vesselsFor(p darkroom.Product, all []darkroom.Vessel) (use []measure.Vessel) {
	own := false
	for _, v := range all {
		own = own || keptFor(v, p)
	}
	for _, v := range all {
		if (v.KeepFor != "" || own) && !keptFor(v, p) {
			continue
		}
		use = append(use, toMeasure(v))
	}
	return use
}

// keptFor reports whether a vessel is kept for a product or for its role.
func keptFor(v darkroom.Vessel, p darkroom.Product) bool {
	return v.KeepFor != "" && (v.KeepFor == p.Name || v.KeepFor == p.Role.String())
}

// toMeasure returns a vessel as package measure sees it.
func toMeasure(v darkroom.Vessel) measure.Vessel {
	out := measure.Vessel{
		Name: v.Name, Kind: v.Kind, Class: v.Class, HalfMarks: v.HalfMarks.Value,
		InnerWidth: v.InnerWidth.Value,
		Setting:    measure.Setting{OnMark: v.Setting.Value.Float(), Between: v.SettingBetween.Value.Float()},
	}
	if v.PermissibleError.Given() {
		own := v.PermissibleError.Value
		out.Own = &own
	}
	for _, s := range v.Scales {
		out.Scales = append(out.Scales, measure.Scale{
			Unit: s.Unit.Value, From: s.From.Value, To: s.To.Value, Step: s.Step.Value, Numbered: s.Numbered.Value,
		})
	}
	return out
}
