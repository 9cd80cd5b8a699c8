package darkroom

// Write writes a file as YAML in the order and style of the contract. Comments are not kept; everybody's own
// words are. Read gives the same File back, and writing that again gives the same bytes.
func Write(f File) []byte {
	n := fileKind().write(f)
	if n == nil {
		return nil
	}
	return n.YAML()
}

// Public returns the file without what is nobody else's: people's notes. It is what an export writes.
func Public(f File) File {
	people := make([]Person, 0, len(f.People))
	for _, p := range f.People {
		p.Notes = nil
		people = append(people, p)
	}
	if f.People = people; len(people) == 0 {
		f.People = nil
	}
	return f
}
