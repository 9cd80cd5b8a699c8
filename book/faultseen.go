package book

import (
	"time"

	wrong "wetside/trade/fault" // package book has faults of its own: what keeps an entry from being taken in
)

// FaultDone is what was done about something that looked wrong.
type FaultDone string

// What may have been done; empty where nobody said.
const (
	FaultRemedied FaultDone = "remedied"
	FaultLater    FaultDone = "later" // the remedy is still to be done
)

// FaultFound says that something looked wrong, and what was behind it.
type FaultFound struct {
	Sign  string    `json:"sign"`            // its key in trade/fault
	Cause string    `json:"cause,omitempty"` // its key; empty where none was found
	Done  FaultDone `json:"done,omitempty"`
	Bath  string    `json:"bath,omitempty"` // the id of the bath that it was about
}

// Kind returns FaultNoted.
func (*FaultFound) Kind() Kind { return FaultNoted }

// A FaultSeen is something that looked wrong, with what was found. Signs and causes that this program does not know are kept.
type FaultSeen struct {
	Sign  wrong.Sign
	Cause wrong.Cause // empty where none was found
	Done  FaultDone
	Bath  string // an id, or empty
}

// Baths returns the bath that it was about, where there is one.
func (f FaultSeen) Baths() []string { return some(f.Bath) }

func readFault(b *FaultFound) (Did, error) {
	err := first(
		wantID("sign", b.Sign), mayID("cause", b.Cause), mayID("bath", b.Bath), oneOf("done", b.Done, FaultRemedied, FaultLater),
	)
	if err != nil {
		return nil, err
	}
	if b.Cause == "" && b.Done != "" {
		return nil, &FieldError{Field: "done", Found: string(b.Done), Why: FieldClashes, Want: []string{"cause"}}
	}
	return FaultSeen{Sign: wrong.Sign(b.Sign), Cause: wrong.Cause(b.Cause), Done: b.Done, Bath: b.Bath}, nil
}

// Faults returns what looked wrong and was not taken back, in order: events whose Did is a FaultSeen.
func (s *State) Faults() []Event {
	all := make([]Event, 0, len(s.looked))
	for _, d := range s.looked {
		if s.corrections.stands(d.entry) {
			all = append(all, Event{Entry: d.entry, At: time.UnixMicro(d.at).UTC(), By: d.by, Device: d.device, Did: d.did})
		}
	}
	return all
}
