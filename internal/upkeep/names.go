package upkeep

import (
	"maps"
	"slices"

	"wetside/book"
)

// named returns those who have a name, by id.
func named(all book.People) (people []book.Person) {
	for _, id := range slices.Sorted(maps.Keys(all)) {
		if all[id].Name != "" {
			people = append(people, all[id])
		}
	}
	return people
}
