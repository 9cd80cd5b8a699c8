package book

// At says where a print is put, and for how long.
type At struct {
	Step  string `json:"step"`            // of its way, as package process writes steps: develop, stop, fix, hold, wash
	Bath  string `json:"bath,omitempty"`  // the bath's id; empty for water, and where the book does not know the bath
	Batch string `json:"batch,omitempty"` // in holding or in the wash: the batch's id, the same for all that share the water
	For   string `json:"for,omitempty"`   // the time that the tapper was told, 90 s; empty: nobody set one
	Drain string `json:"drain,omitempty"` // how much of that it hangs and drains, 10 s
}

// PrintStarted says that a sheet, a strip or a film in its tank was put into the first liquid of its way. Said again, it
// is the same print.
type PrintStarted struct {
	Print   string `json:"print"`             // its id, made by whoever tapped
	Of      string `json:"of,omitempty"`      // whose it is: a person's id
	Session string `json:"session,omitempty"` // the evening that it belongs to
	Prints
	At
}

// Kind returns PrintBegan.
func (*PrintStarted) Kind() Kind { return PrintBegan }

// PrintMoved says that a print was put into a place. A second saying of the same place is the same stay: it can set
// another time, and moves nothing.
type PrintMoved struct {
	Print string `json:"print"`
	At
}

// Kind returns PrintPut.
func (*PrintMoved) Kind() Kind { return PrintPut }

// PrintLeft says that a print left the sink.
type PrintLeft struct {
	Print     string `json:"print"`
	Abandoned bool   `json:"abandoned,omitempty"` // thrown away, and not done
}

// Kind returns PrintOut.
func (*PrintLeft) Kind() Kind { return PrintOut }

// EveningOpened says that the work began.
type EveningOpened struct {
	Session string `json:"session"` // its id
	Shared  bool   `json:"shared,omitempty"`
}

// Kind returns SessionOpened.
func (*EveningOpened) Kind() Kind { return SessionOpened }

// EveningJoined says that somebody came in. The name stands in the erasable record.
type EveningJoined struct {
	Session string `json:"session"`
	Person  string `json:"person"` // an id
}

// Kind returns SessionJoined.
func (*EveningJoined) Kind() Kind { return SessionJoined }

// EveningClosed says that the work is over.
type EveningClosed struct {
	Session string `json:"session"`
}

// Kind returns SessionClosed.
func (*EveningClosed) Kind() Kind { return SessionClosed }

// A List is what is gone through at the start of an evening, or at its end.
type List string

// The lists.
const (
	OpeningList List = "opening"
	ClosingList List = "closing"
)

// Ticked says that something on a list is done, or that it is not after all.
type Ticked struct {
	Session string `json:"session"`
	List    List   `json:"list"`
	Item    string `json:"item"` // its key
	Undone  bool   `json:"undone,omitempty"`
}

// Kind returns ListTicked.
func (*Ticked) Kind() Kind { return ListTicked }

// Told says that a note was left for whoever comes next. Its words stand in the erasable record.
type Told struct {
	Session string `json:"session,omitempty"`
	Note    string `json:"note"` // its id
}

// Kind returns NoteLeft.
func (*Told) Kind() Kind { return NoteLeft }
