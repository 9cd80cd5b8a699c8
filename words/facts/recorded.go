package facts

import "wetside/ahead"

// Recorded is what was written down: what `wetside worked --json` and `wetside test --json` print.
type Recorded struct {
	Entry    string    `json:"entry"`    // the id of the entry in the book
	Baths    []string  `json:"bath_ids"` // in order of use
	Warnings []Warning `json:"warnings"`
	Now      []Outlook `json:"now"` // what the baths still do, as in `wetside baths --json`
}

// Warning is something odd about what was written down, which is written down all the same.
type Warning struct {
	Kind    string `json:"kind"`
	Message string `json:"message"`
}

// OfRecorded takes apart what was written down and what its baths do now.
func OfRecorded(
	entry string, ids []string, warnings []Warning, now []ahead.Outlook, sentence func(ahead.Outlook) string,
) Recorded {
	out := Recorded{Entry: entry, Baths: ids, Warnings: append([]Warning{}, warnings...), Now: []Outlook{}}
	for i := range now {
		out.Now = append(out.Now, ofOutlook(&now[i], sentence(now[i])))
	}
	return out
}
