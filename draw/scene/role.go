package scene

import (
	"slices"
	"strings"
)

// A Role is what a colour is for. The zero value paints nothing.
type Role string

// The roles.
const (
	None   Role = ""
	Paper  Role = "paper"  // the ground
	Ink    Role = "ink"    // words and numbers
	Soft   Role = "soft"   // words that step back
	Hair   Role = "hair"   // hairlines that part things
	Mark   Role = "mark"   // glass, marks and outlines
	Liquid Role = "liquid" // whatever is poured
	Hatch  Role = "hatch"  // the lines that tell concentrate from water
	Accent Role = "accent" // the one mark to stop at
)

// A Form is how a page is lit.
type Form uint8

// The forms. Red has red on black alone: outlines instead of filled areas, and no tray's own colour.
const (
	Light Form = iota
	Dark
	Red
)

// ownWords are the colour words that have a role of their own, and other spellings of them. English.
var ownWords = map[string]string{
	"white": "white", "red": "red", "grey": "grey", "gray": "grey", "blue": "blue", "green": "green",
	"yellow": "yellow", "black": "black", "orange": "orange", "brown": "brown", "pink": "pink",
	"purple": "purple", "violet": "purple", "cream": "cream", "beige": "cream", "ivory": "cream",
	"steel": "steel", "stainless": "steel",
}

// Own returns the role of a thing's own colour from the words that name it: the first word that is a colour
// counts ("dark blue", "grey two"). Anything else, "clear" too, is None: it has no colour, only a pattern.
func Own(words string) Role {
	for _, word := range strings.FieldsFunc(strings.ToLower(words), notLetter) {
		if name, ok := ownWords[word]; ok {
			return Role("own-" + name)
		}
	}
	return None
}

func notLetter(r rune) bool { return r < 'a' || r > 'z' }

// Roles returns all roles that a drawing can name, None left out, in a fixed order.
func Roles() []Role {
	roles := []Role{Paper, Ink, Soft, Hair, Mark, Liquid, Hatch, Accent}
	var own []Role
	for _, name := range ownWords {
		own = append(own, Role("own-"+name))
	}
	slices.Sort(own)
	return append(roles, slices.Compact(own)...)
}
