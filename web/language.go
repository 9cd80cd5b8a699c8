package web

import (
	"net/http"
	"net/url"
	"slices"

	"wetside/words"
)

// A spokenIn is a paper in one of the languages that there are.
type spokenIn struct {
	Tag, Name, At string
	Own           bool // it is the room's own
}

// inLanguage lets what is printed be asked for in the reader's language, as ?language=de; without it the room's is spoken.
func inLanguage(h handler) handler {
	return func(r *http.Request, v *visit) error {
		if err := v.speak(r.URL.Query().Get("language")); err != nil {
			return err
		}
		return h(r, v)
	}
}

// speak goes on in another language; empty is the room's. The error is errNotFound for one that nobody speaks here.
func (v *visit) speak(tag string) error {
	if tag == "" {
		return nil
	}
	if !slices.ContainsFunc(v.languages("", url.Values{}), func(x spokenIn) bool { return x.Tag == tag }) {
		return errNotFound
	}
	v.file.Darkroom.Language = tag
	say, err := v.voice()
	if err == nil {
		v.say = say
	}
	return err
}

// voice is the one that the room's file asks for.
func (v *visit) voice() (*words.Voice, error) {
	d := v.file.Darkroom
	return v.s.words.Voice(d.Language, d.Units, d.Ounce, words.Zone(v.s.Now().Location()), words.Currency(d.Currency))
}

// languages are all that there are, each called by its own name, with the address of a paper in it.
func (v *visit) languages(path string, q url.Values) (all []spokenIn) {
	for _, tag := range v.s.words.Languages() {
		q.Set("language", tag.String())
		all = append(all, spokenIn{tag.String(), v.languageName(tag.String()), path + "?" + q.Encode(), tag == v.say.Language()})
	}
	return all
}

// languageName is what a language calls itself.
func (v *visit) languageName(tag string) string { return v.labelOr(tag, "language_"+tag) }

// languageOptions are the languages to choose from; what else was typed is kept among them.
func (v *visit) languageOptions(typed string) (all []option) {
	known := typed == ""
	for _, tag := range v.s.words.Languages() {
		all = append(all, option{tag.String(), v.languageName(tag.String())})
		known = known || tag.String() == typed
	}
	if !known {
		all = append(all, option{typed, typed})
	}
	return all
}
