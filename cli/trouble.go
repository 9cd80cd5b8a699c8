package cli

import (
	"errors"
	"strings"

	"wetside/book"
	"wetside/book/journal"
	"wetside/words"
)

// trouble is an error of the books said in a sentence. What was given and can't be used is bad input, whatever code is for the
// rest; an error without a sentence is told as it is.
func (s *session) trouble(v *words.Voice, asJSON bool, code int, err error) error {
	switch book.KindOf(err) {
	case book.BadInput, book.NotFound, book.Conflict, book.Refused:
		code = BadInput
	default:
		if key := book.KeyOf(err); strings.HasPrefix(key, "backup_") || strings.HasPrefix(key, "journal_") {
			code = BadInput
		}
	}
	return &outcome{code: code, json: asJSON, err: said{troubleText(v, err), err}}
}

// inWords says an error of the books in a sentence, where it is not said yet and there is one.
func (s *session) inWords(err error) error {
	if _, is := errors.AsType[said](err); is || book.KeyOf(err) == "internal" {
		return err
	}
	v, failed := s.plain()
	if failed != nil || !v.Tells("trouble."+book.KeyOf(err)) {
		return err
	}
	return said{troubleText(v, err), err}
}

// said is an error with its sentence.
type said struct {
	text string
	err  error
}

// Error returns the sentence.
func (s said) Error() string { return s.text }

// Unwrap returns the cause.
func (s said) Unwrap() error { return s.err }

// troubleText returns the sentence of an error; of an export with what became of it.
func troubleText(v *words.Voice, err error) string {
	text := reasonText(v, err)
	if e, ok := errors.AsType[*journal.Error](err); ok {
		text += " " + v.Tell("trouble.journal_untaken").Text()
		if e.Partly() {
			text += " " + v.Tell("trouble.journal_as_far").Text()
		}
	}
	return text
}

// reasonText says what is wrong alone.
func reasonText(v *words.Voice, err error) string {
	key := "trouble." + book.KeyOf(err)
	if !v.Tells(key) {
		return err.Error()
	}
	line, position := "", ""
	if e, ok := errors.AsType[*journal.Error](err); ok {
		line = number(int64(e.Line))
	}
	if e, ok := errors.AsType[interface {
		error
		Where() int64
	}](err); ok {
		position = number(e.Where())
	}
	text := v.Tell(key, "Cause", book.CauseOf(err), "Line", line, "Position", position).Text()
	if b, ok := errors.AsType[brokenBackupError](err); ok {
		text += b.list()
	}
	return text
}
