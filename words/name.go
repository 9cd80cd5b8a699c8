package words

import (
	"strings"

	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
)

// Material names a material: RC paper, FB paper, film.
func (v *Voice) Material(m material.Material) string {
	if m == material.None {
		return ""
	}
	return plain(v.say("material."+snake(m.String()), nil))
}

// MaterialLong names a material in full: resin-coated paper.
func (v *Voice) MaterialLong(m material.Material) string {
	if m == material.None {
		return ""
	}
	return plain(v.say("material_long."+snake(m.String()), nil))
}

// Role names what a chemical does: developer, stop bath.
func (v *Voice) Role(r process.Role) string {
	if r == process.NoRole {
		return plain(v.say("role.none", nil))
	}
	return plain(v.say("role."+snake(r.String()), nil))
}

// aRole names a role with its article, in a sentence: a stop bath.
func (v *Voice) aRole(r process.Role) string {
	if r == process.NoRole {
		return v.say("a_role.none", nil)
	}
	return v.say("a_role."+snake(r.String()), nil)
}

// StepName names a step of a chain: develop, stop, fix.
func (v *Voice) StepName(s process.Step) string {
	if s == process.NoStep {
		return ""
	}
	return plain(v.say("step."+s.String(), nil))
}

// BathName names the bath of a step: developer, stop bath, first fixer.
func (v *Voice) BathName(s process.Step, m material.Material) string {
	if s == process.NoStep {
		return ""
	}
	key := "bath." + s.String()
	if m == material.Film && v.has(key+"_film") {
		key += "_film"
	}
	return plain(v.say(key, nil))
}

// Standard names how long a print shall last: work print, exhibition, archival.
func (v *Voice) Standard(s process.Standard) string {
	if s == process.StandardUnsaid {
		return plain(v.say("standard.unsaid", nil))
	}
	return plain(v.say("standard."+snake(s.String()), nil))
}

// Fixing names in how many baths a print is fixed.
func (v *Voice) Fixing(f process.Fixing) string {
	if f == process.FixingUnsaid {
		return plain(v.say("fixing.unsaid", nil))
	}
	return plain(v.say("fixing."+snake(f.String()), nil))
}

// Kind names a kind of vessel: jug, cylinder.
func (v *Voice) Kind(k measure.Kind) string { return plain(v.say(kindKey(k), nil)) }

// Class names a vessel's class.
func (v *Voice) Class(c measure.Class) string { return plain(v.say(classKey(c), nil)) }

// Size names a sheet's size, 8×10 in or 24×30 cm as it is sold, or a roll's.
func (v *Voice) Size(s material.Size) string {
	size, unit, found := strings.Cut(s.String(), " ")
	if !found {
		return size
	}
	size = strings.ReplaceAll(strings.ReplaceAll(size, "x", "×"), ".", v.point)
	return size + string(nbsp) + unit
}

// Dilution prints a dilution in parts: 1+9; 1+1+10; 1+1 from stock; undiluted.
func (v *Voice) Dilution(d dilution.Dilution) string {
	if d.Water.Sign() == 0 {
		if d.FromStock {
			return plain(v.say("dilution.stock", nil))
		}
		return plain(v.say("dilution.undiluted", nil))
	}
	var parts []string
	for _, c := range d.Chemicals {
		parts = append(parts, v.exact(c))
	}
	text := strings.Join(append(parts, v.exact(d.Water)), "+")
	if d.FromStock {
		return plain(v.say("dilution.from_stock", args{"Dilution": text}))
	}
	return text
}

// DilutionNote tells how a label's words were read where they can be read in two ways: "1:9 is read as 1+9: one part
// and nine parts of water. Read as one in nine it would be 11 % stronger." words is the label's, as typed. It is
// empty where there is nothing to say.
func (v *Voice) DilutionNote(words string, d dilution.Dilution) Phrase {
	if d.Note == dilution.NoNote || len(d.Chemicals) == 0 {
		return nil
	}
	a := args{
		"Words": own(words), "Dilution": v.Dilution(d), "Chemical": v.parts(d.Chemicals[0]), "Water": v.parts(d.Water),
	}
	if d.Note == dilution.ColonRead {
		one, err := d.Chemicals[0].Add(d.Other)
		if err != nil {
			return nil
		}
		total := d.Chemicals[0].Float() + d.Water.Float()
		a["Other"], a["Stronger"] = v.exact(d.Chemicals[0])+"+"+v.exact(d.Other), v.Share(total/one.Float()-1)
		a["In"] = v.numberWord(one)
		a["One"] = v.numberWord(d.Chemicals[0])
	}
	return phrase(sentence(v.say("note."+d.Note.Key(), a)))
}
