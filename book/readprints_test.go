package book_test

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
)

func TestReadPrints(t *testing.T) {
	for text, want := range map[string]book.Prints{
		"6 8x10 RC":                     {Material: "RC paper", Size: "8x10 in", Sheets: 6},
		"6 8×10 RC paper":               {Material: "RC paper", Size: "8x10 in", Sheets: 6},
		"6 sheets 10x8 fibre":           {Material: "FB paper", Size: "10x8 in", Sheets: 6},
		"1 print 8x10 in RC":            {Material: "RC paper", Size: "8x10 in", Sheets: 1},
		"about 36 8x10 in RC paper":     {Material: "RC paper", Size: "8x10 in", Sheets: 36, Estimated: true},
		"4 24x30 cm FB and 3 strips":    {Material: "FB paper", Size: "24x30 cm", Sheets: 4, Strips: 3},
		"4 24x30 FB, 3 strips":          {Material: "FB paper", Size: "24x30 cm", Sheets: 4, Strips: 3},
		"12 strips 8x10 RC":             {Material: "RC paper", Size: "8x10 in", Strips: 12},
		"2 rolls 135-36":                {Material: "film", Size: "135-36", Rolls: 2},
		"2 120":                         {Material: "film", Size: "120", Rolls: 2},
		"1 roll 135-24 film":            {Material: "film", Size: "135-24", Rolls: 1},
		"8 4x5 film":                    {Material: "film", Size: "4x5 in", Sheets: 8},
		"3 20.3 x 25.4 cm FB + 1 strip": {Material: "FB paper", Size: "20.3 x 25.4 cm", Sheets: 3, Strips: 1},
	} {
		got, err := book.ReadPrints(text)
		if d := cmp.Diff(want, got); d != "" || err != nil {
			t.Errorf("%q: %v (-want +got):\n%s", text, err, d)
		}
	}
	for text, want := range map[string]struct {
		field string
		why   book.FieldWhy
	}{
		"":                       {"sheets", book.FieldMissing},
		"six 8x10 RC":            {"sheets", book.FieldUnreadable},
		"-3 8x10 RC":             {"sheets", book.FieldBelowZero},
		"0 8x10 RC":              {"sheets", book.FieldNothing},
		"2.5 8x10 RC":            {"sheets", book.FieldUnreadable},
		"9999999 8x10 RC":        {"sheets", book.FieldTooMuch},
		"6":                      {"size", book.FieldMissing},
		"6 RC":                   {"size", book.FieldUnreadable},
		"6 7x13 RC":              {"size", book.FieldUnreadable}, // of no usual size, so inches or centimetres?
		"6 8x10":                 {"material", book.FieldNoWord},
		"6 8x10 vellum":          {"material", book.FieldNoWord},
		"2 sheets 135-36":        {"size", book.FieldClashes},
		"2 rolls 8x10 film":      {"size", book.FieldClashes},
		"2 120 RC":               {"size", book.FieldClashes},
		"4 8x10 RC and 3 5x7 RC": {"sheets", book.FieldUnreadable},
	} {
		_, err := book.ReadPrints(text)
		bad, ok := errors.AsType[*book.FieldError](err)
		if !ok || bad.Field != want.field || bad.Why != want.why || len(bad.Want) == 0 || book.KindOf(err) != book.BadInput {
			t.Errorf("%q: got %v, want %s %s and what would do", text, err, want.field, want.why)
		}
	}
}
