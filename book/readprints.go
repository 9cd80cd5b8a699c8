package book

import (
	"slices"
	"strconv"
	"strings"

	"wetside/trade/material"
	"wetside/trade/quantity"
)

// ReadPrints reads what people say that a load was: "6 8x10 RC", "about 36 8x10 in RC paper", "4 24x30 cm FB and 3 strips",
// "12 strips 8x10 RC", "2 rolls 135-36", "2 120". A sheet's size that is usually sold may be without its unit. The error
// is a *FieldError.
func ReadPrints(text string) (Prints, error) {
	words := strings.Fields(strings.NewReplacer(",", " and ", "×", "x").Replace(text))
	var p Prints
	if len(words) > 0 && slices.Contains([]string{"about", "~", "ca."}, strings.ToLower(words[0])) {
		p.Estimated, words = true, words[1:]
	}
	clauses := [][]string{nil}
	for _, w := range words {
		if strings.EqualFold(w, "and") || w == "+" {
			clauses = append(clauses, nil)
			continue
		}
		last := len(clauses) - 1
		clauses[last] = append(clauses[last], w)
	}
	for i, c := range clauses {
		rest, err := p.count(c)
		if err != nil {
			return Prints{}, err
		}
		if i > 0 && len(rest) > 0 {
			return Prints{}, &FieldError{Field: "sheets", Found: quantity.Shown(text), Why: FieldUnreadable, Want: prints()}
		}
		if i == 0 {
			if err := p.what(rest); err != nil {
				return Prints{}, err
			}
		}
	}
	if err := p.check(false); err != nil {
		return Prints{}, err
	}
	_, err := readPass(&p)
	return p, err
}

// prints returns examples of what ReadPrints reads.
func prints() []string { return []string{"6 8x10 RC", "4 24x30 cm FB and 3 strips", "2 rolls 135-36"} }

// count takes the number and what it is a number of off the front; a number alone is of sheets, or of rolls before a
// roll's name.
func (p *Prints) count(words []string) (rest []string, err error) {
	bad := &FieldError{Field: "sheets", Found: quantity.Shown(strings.Join(words, " ")), Why: FieldUnreadable, Want: prints()}
	if len(words) == 0 {
		bad.Why = FieldMissing
		return nil, bad
	}
	n, err := strconv.Atoi(words[0])
	switch {
	case err != nil:
		return nil, bad
	case n > maxPrints:
		bad.Why, bad.Want = FieldTooMuch, []string{strconv.Itoa(maxPrints)}
		return nil, bad
	}
	rest = words[1:]
	of := ""
	if len(rest) > 0 {
		of = strings.TrimSuffix(strings.ToLower(rest[0]), "s")
	}
	switch {
	case of == "sheet" || of == "print":
		p.Sheets += n
		return rest[1:], nil
	case of == "strip":
		p.Strips += n
		return rest[1:], nil
	case of == "roll":
		p.Rolls += n
		return rest[1:], nil
	case len(rest) > 0 && isRoll(rest[0]):
		p.Rolls += n
	default:
		p.Sheets += n
	}
	return rest, nil
}

func isRoll(word string) bool {
	s, err := material.ReadSize(word)
	return err == nil && s.Roll != material.NoRoll
}

// what reads size and material, the longest words that are a size first. A roll is of film without saying so.
func (p *Prints) what(words []string) error {
	for n := len(words); n > 0; n-- {
		size, roll, ok := sizeOf(strings.Join(words[:n], " "))
		if !ok {
			continue
		}
		p.Size, p.Material = size, strings.Join(words[n:], " ")
		if p.Material == "" && roll {
			p.Material = material.Film.String()
		}
		if m, err := material.Read(p.Material); err == nil {
			p.Material = m.String()
		}
		return nil // readPass says what is wrong with the material
	}
	found := quantity.Shown(strings.Join(words, " "))
	if len(words) == 0 {
		return &FieldError{Field: "size", Why: FieldMissing, Want: prints()}
	}
	return &FieldError{Field: "size", Found: found, Why: FieldUnreadable, Want: prints()}
}

// sizeOf returns a size's words as an entry has them.
func sizeOf(text string) (size string, roll, ok bool) {
	s, added, err := material.ReadUsual(text)
	if added != "" {
		text = s.String()
	}
	return text, s.Roll != material.NoRoll, err == nil
}
