package ahead

import (
	"strconv"

	"wetside/trade/bath"
)

// Name calls the baths of a scene as people do: developer, fixer 1, fixer 2, film fixer. Those that would be called alike
// are told apart by where they stand, else by a number.
func Name(baths []Bath) {
	alike := map[string]int{}
	for i := range baths {
		b := &baths[i]
		b.Name, b.Apart, b.Nth = b.plainName(), "", 0
		if !b.Gone {
			alike[b.Name]++
		}
	}
	taken := map[string]int{}
	for i := range baths {
		b := &baths[i]
		if b.Gone || b.Name == "" {
			continue
		}
		if alike[b.Name] > 1 {
			b.Apart = b.Tray + b.Tank
		}
		if b.Apart != "" {
			b.Name += ", " + b.Apart
		}
		if taken[b.Name]++; taken[b.Name] > 1 {
			b.Nth = taken[b.Name]
			b.Name += " (" + strconv.Itoa(b.Nth) + ")"
		}
	}
}

func (b *Bath) plainName() string {
	name := b.Role.String()
	switch b.Place {
	case bath.First:
		name += " 1"
	case bath.Second:
		name += " 2"
	case bath.Alone:
	}
	if b.Film && name != "" {
		name = "film " + name
	}
	return name
}
