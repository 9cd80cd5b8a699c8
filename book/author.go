package book

import "time"

// An Author makes entries: who and what taps, when, and where ids come from. All of one Author are of one instant; what
// a device says in one instant holds in the order of the book.
type Author struct {
	By     string    // a person's id, or empty
	Device string    // or empty
	Now    time.Time // when it happens
	NewID  func() string
}

// Write returns an entry that says body, in today's version; position, darkroom and hash are set where it is written.
func (a *Author) Write(body Body) (Entry, error) {
	text, err := encode(body)
	if err != nil {
		return Entry{}, badBody(Entry{Kind: body.Kind(), Version: Upcasters().Version(body.Kind())}, err)
	}
	return a.entry(body.Kind(), text), nil
}

// TakeBack returns a correction that takes back the entry of an id; why may be empty.
func (a *Author) TakeBack(id, why string) (Entry, error) {
	e, err := a.Write(&Corrected{Why: why})
	e.TakesBack = id
	return e, err
}

func (a *Author) entry(k Kind, body string) Entry {
	return Entry{
		ID:         a.NewID(),
		Kind:       k,
		Version:    Upcasters().Version(k),
		HappenedAt: Instant(a.Now),
		By:         a.By,
		Device:     a.Device,
		Body:       body,
	}
}
