package book

// A Person is what the erasable record holds of somebody: outside the chain, so that it can be forgotten.
type Person struct {
	ID    string
	Name  string
	Notes []string // never on a wall, never in an export
}

// People is the erasable record of a darkroom, by id. Whoever is not in it is Somebody.
type People map[string]Person

// Somebody stands for a name that is not known or was erased. Package words has it in the reader's language.
const Somebody = "somebody"

// Name returns the name that goes with an id, or Somebody.
func (p People) Name(id string) string {
	if who, ok := p[id]; ok && who.Name != "" {
		return who.Name
	}
	return Somebody
}
