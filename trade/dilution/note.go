package dilution

import "encoding/json"

// Note is what to tell the user about how the words were read.
type Note uint8

// The notes.
const (
	NoNote        Note = iota
	ColonRead          // "1:9", "1 to 9": read as 1+9; "1 in 9" would be stronger by Stronger()
	MadeUpTo           // "25 mL/L", "3 %": made up to the litre, not added to a litre
	AddedTo            // "16 mL to 1 litre of water": added to a litre, so a little more than a litre comes of it
	ChemicalFirst      // "9:1": the first figure is the chemical, so there is more of it than of water
)

// Notes returns every note that says something, so that a catalogue of messages can be held complete.
func Notes() []Note { return []Note{ColonRead, MadeUpTo, AddedTo, ChemicalFirst} }

// Key returns the note's key for catalogues and JSON: "colon_read"; empty for NoNote.
func (n Note) Key() string {
	switch n {
	case NoNote:
		return ""
	case ColonRead:
		return "colon_read"
	case MadeUpTo:
		return "made_up_to"
	case AddedTo:
		return "added_to"
	case ChemicalFirst:
		return "chemical_first"
	}
	return ""
}

// MarshalJSON writes the contract for scripts:
//
//	{"read_as":"1+31","chemical_parts":"1","water_parts":"31","strength":0.03125,"note":null}
//
// Parts are as Plain gives them, two chemicals' as "1+1"; strength is that of all chemicals together; note is a key or
// null. Where it is "colon_read", "other_read_as" holds the other reading.
func (d Dilution) MarshalJSON() ([]byte, error) {
	text, _ := d.Plain()
	total, err := d.Total()
	if err != nil {
		return nil, err
	}
	chemicals, err := sum(d.Chemicals)
	if err != nil {
		return nil, err
	}
	strength, err := chemicals.Quo(total)
	if err != nil {
		return nil, err
	}
	out := struct {
		ReadAs        string  `json:"read_as"`
		ChemicalParts string  `json:"chemical_parts"`
		WaterParts    string  `json:"water_parts"`
		Strength      float64 `json:"strength"`
		Note          *string `json:"note"`
		OtherReadAs   string  `json:"other_read_as,omitempty"`
	}{ReadAs: text, Strength: strength.Float()}
	out.WaterParts, _ = plain(d.Water)
	for i, c := range d.Chemicals {
		if i > 0 {
			out.ChemicalParts += "+"
		}
		part, _ := plain(c)
		out.ChemicalParts += part
	}
	if key := d.Note.Key(); key != "" {
		out.Note = &key
	}
	if d.Note == ColonRead {
		out.OtherReadAs, _ = Dilution{Chemicals: d.Chemicals, Water: d.Other, FromStock: d.FromStock}.Plain()
	}
	return json.Marshal(out)
}
