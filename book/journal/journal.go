package journal

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"wetside/book"
)

// Form is the number of the form that is written today.
const Form = 1

// maxLine bounds a line: an entry's body as a JSON string, and its envelope.
const maxLine = 4 * book.MaxBody

// maxName bounds a name, in bytes.
const maxName = 4096

// A Head is the first line.
type Head struct {
	Form     int       `json:"wetside_book"`
	Darkroom string    `json:"darkroom"`
	Entries  int64     `json:"entries"` // how many follow: the position of the last
	Hash     book.Hash `json:"hash"`    // of the last; all zero: there are none
	People   int       `json:"people"`  // how many lines with names follow the entries
}

// person is a line with a name.
type person struct {
	ID   string `json:"person"`
	Name string `json:"name"`
}

// Why is what is wrong with an export.
type Why string

// The reasons.
const (
	NoExport  Why = "no_export"  // the first line is none of an export
	NewerForm Why = "newer_form" // a newer program wrote it
	BadLine   Why = "bad_line"   // the line is not what belongs there
	BadEntry  Why = "bad_entry"  // the entry can't be one; Cause names the field
	NoFollow  Why = "no_follow"  // the entry does not follow the one before it: something was changed, put in or taken out
	OtherEnd  Why = "other_end"  // the last entry is not the one that the first line names
	EndsEarly Why = "ends_early" // entries or names are missing at the end
	TooMuch   Why = "too_much"   // something stands after the end
	LongLine  Why = "long_line"  // the line is longer than any can be
)

// An Error says at which line an export is wrong, and why. Before that line all was well.
type Error struct {
	Line     int
	Position int64 // of the last entry that was read
	Why      Why
	Cause    error
}

// Error says it for the log.
func (e *Error) Error() string {
	if e.Cause == nil {
		return fmt.Sprintf("line %d: %s", e.Line, e.Why)
	}
	return fmt.Sprintf("line %d: %s: %v", e.Line, e.Why, e.Cause)
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Cause }

// ErrorKind makes it BadInput, or Newer.
func (e *Error) ErrorKind() book.ErrorKind {
	if e.Why == NewerForm {
		return book.Newer
	}
	return book.BadInput
}

// Partly reports whether there are entries before that line that can be taken without the rest.
func (e *Error) Partly() bool {
	switch e.Why {
	case BadLine, BadEntry, NoFollow, OtherEnd, EndsEarly, LongLine:
		return e.Position > 0
	default:
		return false
	}
}

// ErrorKey returns the key of its sentence.
func (e *Error) ErrorKey() string { return "journal_" + string(e.Why) }

// A Reader reads an export. It holds one line at a time.
type Reader struct {
	lines  *bufio.Scanner
	line   int
	head   Head
	at     book.Head
	people int
}

// NewReader reads the first line.
func NewReader(r io.Reader) (*Reader, error) {
	j := &Reader{lines: bufio.NewScanner(r)}
	j.lines.Buffer(make([]byte, 0, 64<<10), maxLine)
	text, ok, err := j.scan()
	if err != nil || !ok {
		return nil, j.either(err, NoExport, io.ErrUnexpectedEOF)
	}
	var form struct {
		Form *int `json:"wetside_book"`
	}
	switch err := json.Unmarshal(text, &form); {
	case err != nil:
		return nil, j.fail(NoExport, err)
	case form.Form == nil || *form.Form < 1:
		return nil, j.fail(NoExport, nil)
	case *form.Form > Form:
		return nil, j.fail(NewerForm, fmt.Errorf("form %d, this program knows %d", *form.Form, Form))
	}
	if err := strictly(text, &j.head); err != nil {
		return nil, j.fail(BadLine, err)
	}
	h := j.head
	if !book.ValidID(h.Darkroom) || h.Entries < 0 || h.People < 0 || h.Entries == 0 && h.Hash != (book.Hash{}) {
		return nil, j.fail(BadLine, errors.New("darkroom, entries, hash or people can't be so"))
	}
	j.at = book.Head{Darkroom: h.Darkroom}
	return j, nil
}

// Head returns the first line.
func (j *Reader) Head() Head { return j.head }

// Next returns the next entry, which follows the one before; io.EOF after the last. Any other error is an *Error or the
// reader's own.
func (j *Reader) Next() (book.Entry, error) {
	if j.at.Position == j.head.Entries {
		return book.Entry{}, io.EOF
	}
	text, ok, err := j.scan()
	if err != nil || !ok {
		return book.Entry{}, j.either(err, EndsEarly, fmt.Errorf("%d of %d entries are there", j.at.Position, j.head.Entries))
	}
	var e book.Entry
	if err := strictly(text, &e); err != nil {
		return book.Entry{}, j.fail(BadLine, err)
	}
	e.HappenedAt, e.RecordedAt = e.HappenedAt.UTC(), e.RecordedAt.UTC()
	if err := e.Check(); err != nil {
		return book.Entry{}, j.fail(BadEntry, err)
	}
	if !e.RecordedAt.Equal(book.Instant(e.RecordedAt)) {
		return book.Entry{}, j.fail(BadEntry, errors.New("recorded_at is finer than a microsecond"))
	}
	at, err := j.at.Verify([]book.Entry{e})
	if err != nil {
		return book.Entry{}, j.fail(NoFollow, err)
	}
	if at.Position == j.head.Entries && at.Hash != j.head.Hash {
		return book.Entry{}, j.fail(OtherEnd, fmt.Errorf("it hashes to %s, the first line says %s", at.Hash, j.head.Hash))
	}
	j.at = at
	return e, nil
}

// NextPerson returns the next name, once Next has returned io.EOF; io.EOF after the last.
func (j *Reader) NextPerson() (book.Person, error) {
	if j.people == j.head.People {
		text, ok, err := j.scan()
		for ; err == nil && ok; text, ok, err = j.scan() {
			if len(bytes.TrimSpace(text)) > 0 {
				return book.Person{}, j.fail(TooMuch, nil)
			}
		}
		return book.Person{}, j.either(err, "", io.EOF)
	}
	text, ok, err := j.scan()
	if err != nil || !ok {
		return book.Person{}, j.either(err, EndsEarly, fmt.Errorf("%d of %d names are there", j.people, j.head.People))
	}
	var p person
	if err := strictly(text, &p); err != nil {
		return book.Person{}, j.fail(BadLine, err)
	}
	if !book.ValidID(p.ID) || p.Name == "" || len(p.Name) > maxName || bytes.ContainsRune([]byte(p.Name), 0) {
		return book.Person{}, j.fail(BadLine, errors.New("no person"))
	}
	j.people++
	return book.Person{ID: p.ID, Name: p.Name}, nil
}

// scan returns the next line; false at the end.
func (j *Reader) scan() ([]byte, bool, error) {
	if j.lines.Scan() {
		j.line++
		if !utf8.Valid(j.lines.Bytes()) {
			return nil, false, j.fail(BadLine, errors.New("no UTF-8"))
		}
		return j.lines.Bytes(), true, nil
	}
	err := j.lines.Err()
	if errors.Is(err, bufio.ErrTooLong) {
		j.line++
		return nil, false, j.fail(LongLine, err)
	}
	return nil, false, err
}

func (j *Reader) fail(why Why, cause error) error {
	return &Error{Line: max(j.line, 1), Position: j.at.Position, Why: why, Cause: cause}
}

// either returns the error, where there is one, else another; without a reason the cause itself.
func (j *Reader) either(err error, why Why, cause error) error {
	if err != nil {
		return err
	}
	if why == "" {
		return cause
	}
	j.line++ // that is the line where something should stand
	return j.fail(why, cause)
}

// strictly reads one JSON object in which no field is unknown.
func strictly(text []byte, into any) error {
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	if err := dec.Decode(into); err != nil {
		return err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return errors.New("more than one object")
	}
	return nil
}

// A Writer writes an export.
type Writer struct {
	to   *bufio.Writer
	json *json.Encoder
	left int64
}

// NewWriter writes the first line. So many entries and people must follow.
func NewWriter(w io.Writer, end book.Head, people int) (*Writer, error) {
	j := &Writer{to: bufio.NewWriterSize(w, 64<<10), left: end.Position + int64(people)}
	j.json = json.NewEncoder(j.to)
	j.json.SetEscapeHTML(false)
	return j, j.json.Encode(Head{Form: Form, Darkroom: end.Darkroom, Entries: end.Position, Hash: end.Hash, People: people})
}

// Entry writes the next entry.
func (j *Writer) Entry(e book.Entry) error {
	j.left--
	return j.json.Encode(e)
}

// Person writes a name; of the notes nothing.
func (j *Writer) Person(p book.Person) error {
	j.left--
	return j.json.Encode(person{p.ID, p.Name})
}

// Close ends the export; it does not close what is written to.
func (j *Writer) Close() error {
	if j.left != 0 {
		return fmt.Errorf("an export with %d lines too few", j.left)
	}
	return j.to.Flush()
}
