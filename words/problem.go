package words

import (
	"errors"
	"strings"
	"unicode"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

// Problem says what is wrong at one place of a file or a form, and what to write there.
func (v *Voice) Problem(p darkroom.Problem) Phrase {
	a := v.found(p.Found, p.Expected.What)
	a["Low"], a["High"], a["Other"] = own(p.Expected.Low), own(p.Expected.High), own(p.Expected.Other)
	a["Words"] = v.or(p.Expected.Words)
	a["Field"] = own(field(p.Path))
	return v.problem(string(p.Kind), p.Suggestion, a)
}

// field returns the last name of a path: sheets of session.to_make[1].sheets.
func field(path string) string {
	name := path[strings.LastIndex(path, ".")+1:]
	name, _, _ = strings.Cut(name, "[")
	return name
}

// Place says where in a file a problem stands: "line 41, column 15". It is empty where there is no file.
func (v *Voice) Place(p darkroom.Problem) string {
	if p.Line == 0 {
		return ""
	}
	return plain(v.say("place", args{"Line": v.whole(p.Line), "Column": v.whole(p.Column)}))
}

// ReadError says where words could not be read, and what to do: "‘12 oz’: US or imperial? Write ‘12 US oz’ or ‘12
// imperial oz’, or set the ounce of the room." It knows *quantity.ReadError and *dilution.Error, wrapped or not, and
// darkroom.Problems, of which it says the first; of any other error it says that something went wrong.
func (v *Voice) ReadError(err error) Phrase {
	var read *quantity.ReadError
	var label *dilution.Error
	var problems darkroom.Problems
	switch {
	case errors.As(err, &read):
		a := v.found(read.Text, read.Want)
		a["Rest"] = own(rest(read.Text, read.At))
		return v.problem(string(read.Why), read.Near, a)
	case errors.As(err, &label):
		a := v.found(label.Text, "dilution")
		a["Rest"] = own(rest(label.Text, label.At))
		return v.problem(string(label.Reason), "", a)
	case errors.As(err, &problems) && len(problems) > 0:
		return v.Problem(problems[0])
	}
	return phrase(v.say("problem.any", nil))
}

// rest returns the text from the trouble on.
func rest(text string, at int) string {
	if at <= 0 || at >= len(text) {
		return ""
	}
	return text[at:]
}

// found makes the places of what was found and of what is wanted in its stead.
func (v *Voice) found(text, what string) args {
	a := args{"Found": own(text), "Rest": "", "Want": v.want(what)}
	if i := strings.IndexFunc(a["Found"], unicode.IsLetter); i > 0 {
		number, unit := strings.TrimRight(a["Found"][:i], " "+string(nbsp)), a["Found"][i:]
		a["US"] = v.say("problem.us", args{"Number": number, "Unit": unit})
		a["Imperial"] = v.say("problem.imperial", args{"Number": number, "Unit": unit})
	}
	return a
}

// want says what is read at a place, with an example.
func (v *Voice) want(what string) string {
	if key := "want." + snake(what); what != "" && v.has(key) {
		return v.say(key, nil)
	}
	return v.say("want.any", nil)
}

func (v *Voice) problem(kind, suggestion string, a args) Phrase {
	text := v.say("problem."+kind, a)
	if near := own(suggestion); near != "" {
		text += " " + v.say("problem.suggest", args{"Near": near})
	}
	return phrase(sentence(text))
}

// or joins words of which one is to be chosen.
func (v *Voice) or(words []string) string {
	var clean []string
	for _, w := range words {
		clean = append(clean, own(w))
	}
	if len(clean) < 2 {
		return strings.Join(clean, "")
	}
	last := len(clean) - 1
	return v.say("list.or", args{"Before": strings.Join(clean[:last], v.say("list.comma", nil)), "Last": clean[last]})
}
