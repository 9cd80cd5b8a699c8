package api

import (
	"reflect"
	"strings"

	"wetside/book"
)

// short forms: the kinds that may be named by what stands behind the dot alone. The list is kept by hand, so that a kind that
// comes later can't change what a word means; a test says what could be added.
func shortened() []book.Kind {
	return []book.Kind{
		book.Received, book.Counted, book.Drawn, book.StockMade, book.BathMixed, book.BathWorked, book.BathTested, book.BathToppedUp,
		book.BathPouredBack, book.BathPouredOut, book.WastePut, book.WasteTaken, book.DrainAnswered, book.BatchHeld, book.BatchWashed,
		book.PrintBegan, book.SessionClosed, book.ListTicked, book.FaultNoted, book.TemperatureRead,
	}
}

// kindOf returns the kind of a word: a kind's own name, or a short form.
func kindOf(word string) (book.Kind, bool) {
	if k := book.Kind(word); k.Known() {
		return k, true
	}
	for _, k := range shortened() {
		if _, short, _ := strings.Cut(string(k), "."); short == word {
			return k, true
		}
	}
	return "", false
}

// withPage reports whether entries of a kind are made by a page alone: what they tell stands beside the book, where names and
// notes can be erased.
func withPage(k book.Kind) bool { return k == book.SessionJoined || k == book.NoteLeft }

// bodyOf returns the type of a kind's body.
func bodyOf(k book.Kind) reflect.Type {
	b, err := book.Upcasters().Read(book.Entry{Kind: k, Version: book.Upcasters().Version(k), Body: "{}"})
	if err != nil {
		return raw
	}
	return reflect.TypeOf(b).Elem()
}

// NamesOf returns the words by which entries of a kind may be sent, the kind's own name first; none where a page alone makes them.
func NamesOf(kind string) []string {
	k := book.Kind(kind)
	if !k.Known() || withPage(k) {
		return nil
	}
	names := []string{kind}
	for _, s := range shortened() {
		if s == k {
			_, short, _ := strings.Cut(kind, ".")
			names = append(names, short)
		}
	}
	return names
}
