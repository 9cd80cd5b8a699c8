package ahead

import (
	"strconv"
	"time"

	"wetside/book"
	"wetside/trade/bath"
)

// Name calls the baths of a scene as people do: developer, fixer 1, fixer 2, film fixer. Those that would be called alike
// are told apart by where they stand, a bottled one by the day it was made, else by a number.
func Name(baths []Bath) {
	alike := map[string]int{}
	for i := range baths {
		b := &baths[i]
		b.Name, b.Apart, b.ByDay, b.Nth = b.plainName(), "", false, 0
		if !b.Gone {
			alike[b.Name]++
		}
	}
	taken := map[string]int{}
	for _, i := range roomsFirst(baths) {
		b := &baths[i]
		if b.Gone || b.Name == "" {
			continue
		}
		if alike[b.Name] > 1 {
			b.Apart = b.Tray + b.Tank
			b.ByDay = b.Apart == "" && b.bottled() && b.Known != book.MadeUnknown && !b.Made.IsZero()
		}
		switch {
		case b.Apart != "":
			b.Name += ", " + b.Apart
		case b.ByDay:
			b.Name += ", " + b.Made.Format(time.DateOnly)
		}
		if taken[b.Name]++; taken[b.Name] > 1 {
			b.Nth = taken[b.Name]
			b.Name += " (" + strconv.Itoa(b.Nth) + ")"
		}
	}
}

// roomsFirst are the baths in their order, what is somebody's own after the room's.
func roomsFirst(baths []Bath) []int {
	all := make([]int, 0, len(baths))
	for _, own := range []bool{false, true} {
		for i := range baths {
			if (baths[i].Whose != "") == own {
				all = append(all, i)
			}
		}
	}
	return all
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
