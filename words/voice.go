package words

import (
	"maps"
	"time"

	"github.com/nicksnyder/go-i18n/v2/i18n"
)

// setting is what a voice may be told beside its language and units.
type setting struct {
	zone     *time.Location
	currency string
	both     bool
}

// A Setting tells a voice more about the room.
type Setting func(*setting)

// Zone sets the room's time zone; without it a moment is told in the zone that it carries.
func Zone(z *time.Location) Setting { return func(s *setting) { s.zone = z } }

// Currency sets the room's currency, a three-letter code, for sums that carry none of their own.
func Currency(code string) Setting { return func(s *setting) { s.currency = code } }

// BothOunces says that US and imperial scales are both in the room, so that every ounce, pint, quart and gallon is
// told with its system.
func BothOunces() Setting { return func(s *setting) { s.both = true } }

// args are what stands in a message's places, by name.
type args map[string]string

// say returns a message with its places filled. A message that is not there shows as its key in brackets.
func (v *Voice) say(key string, a args) string { return v.sayAs(key, nil, a) }

// sayN returns the message's form for a count, with the count as {{.N}}.
func (v *Voice) sayN(key string, n int, a args) string {
	all := args{"N": v.whole(n)}
	maps.Copy(all, a)
	return v.sayAs(key, n, all)
}

func (v *Voice) sayAs(key string, count any, a args) string {
	text, err := v.says.Localize(&i18n.LocalizeConfig{MessageID: key, PluralCount: count, TemplateData: a})
	if err != nil {
		return "[" + key + "]"
	}
	return text
}

// has reports whether there is a message of this key.
func (v *Voice) has(key string) bool {
	_, err := v.says.Localize(&i18n.LocalizeConfig{MessageID: key, TemplateData: args{}})
	return err == nil
}

// Label returns the fixed words of a page or a column, the message "label.KEY". Front rooms add their own to the
// message files. A label that is not there shows as its key in brackets.
func (v *Voice) Label(key string) string { return plain(v.say("label."+key, nil)) }

// HasLabel reports whether there is such a label, for the tests of the front rooms.
func (v *Voice) HasLabel(key string) bool { return v.has("label." + key) }

// Tell returns the sentence "tell.KEY" with its places filled from pairs of a place's name and what goes there;
// those words are set as they are, so amounts come from the voice's own methods.
func (v *Voice) Tell(key string, pairs ...string) Phrase {
	return phrase(v.say("tell."+key, pairsOf(pairs)))
}

// Tells reports whether there is such a sentence.
func (v *Voice) Tells(key string) bool { return v.has("tell." + key) }

// TellN is Tell for a sentence with a count, its place {{.N}}.
func (v *Voice) TellN(key string, n int, pairs ...string) Phrase {
	return phrase(v.sayN("tell."+key, n, pairsOf(pairs)))
}

func pairsOf(pairs []string) args {
	a := args{}
	for i := 0; i+1 < len(pairs); i += 2 {
		a[pairs[i]] = own(pairs[i+1])
	}
	return a
}
