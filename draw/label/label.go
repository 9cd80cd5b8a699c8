package label

import "strings"

// A Label is what stands on a label, in the reader's language.
type Label struct {
	Title  string   // what it is: "Fixer 1"
	About  string   // of which product, how strong, how much
	For    string   // for what, and where it stands
	Fields []Field  // when it was mixed and opened, until when it keeps, by whom
	Alarm  string   // what must be read first, where it is not to be used any more
	Signs  []Sign   // its pictograms
	Signal string   // the signal word
	Hazard []string // its hazard statements in full
	Advice []string // its precautionary statements, the last go first where there is no room
	Notes  []string // what could not be judged, and from what the hazards come
	Spent  string   // where it goes
	// Address is of its page, for the code; empty for none.
	Address string
	// Side and Wished are a pictogram's sides: the least, and that which it should have where there is room.
	Side, Wished float64
	// Wants is how large the standard wants the label of a package of that volume.
	Wants Size
	Say   Say
}

// Below reports whether a size is smaller than the standard wants, either way round.
func (l Label) Below(s Size) bool {
	return min(s.Wide, s.High) < min(l.Wants.Wide, l.Wants.High) || max(s.Wide, s.High) < max(l.Wants.Wide, l.Wants.High)
}

// A Field is a word with what it says; an empty Value is a line to write on.
type Field struct {
	Name, Value string
	Heavy       bool
	Later       bool // written on it only later, so that it may be left out
}

// A Sign is a pictogram with its name.
type Sign struct{ Code, Name string }

// Say is what a label's parts are called.
type Say struct {
	Code  string // what the code opens
	Tally string // what is counted on the line
	Label string // what the picture shows, for those who do not see it
}

// Text writes the label out, line by line, to be copied by hand. Where nothing is known stands a line to fill in.
func (l Label) Text() string {
	var b strings.Builder
	line := func(parts ...string) {
		if text := strings.TrimSpace(strings.Join(parts, " ")); text != "" {
			b.WriteString(text + "\n")
		}
	}
	line(strings.ToUpper(l.Title))
	line(l.About)
	line(l.For)
	line(l.Alarm)
	for _, f := range l.Fields {
		value := f.Value
		if value == "" {
			value = "____________"
		}
		line(f.Name+":", value)
	}
	for _, s := range l.Signs {
		line("<" + s.Code + " " + s.Name + ">")
	}
	line(strings.ToUpper(l.Signal))
	for _, all := range [][]string{l.Hazard, l.Advice, l.Notes} {
		for _, s := range all {
			line(s)
		}
	}
	line(l.Spent)
	line(l.Address)
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// words are all that is to be read on it.
func (l Label) words() []string {
	all := []string{l.Title, l.About, l.For, l.Alarm, l.Signal, l.Spent}
	for _, f := range l.Fields {
		all = append(all, f.Name, f.Value)
	}
	all = append(all, l.Hazard...)
	all = append(all, l.Advice...)
	return append(all, l.Notes...)
}
