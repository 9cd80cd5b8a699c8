package words

import "github.com/nicksnyder/go-i18n/v2/i18n"

// ReadMessages is readMessages, with each message's forms by name.
func ReadMessages(text string) (map[string]map[string]string, error) {
	all, err := readMessages(text)
	if err != nil {
		return nil, err
	}
	out := map[string]map[string]string{}
	for _, m := range all {
		out[m.ID] = formsOf(m)
	}
	return out, nil
}

func formsOf(m *i18n.Message) map[string]string {
	forms := map[string]string{}
	for name, text := range map[string]string{"zero": m.Zero, "one": m.One, "two": m.Two, "few": m.Few, "many": m.Many, "other": m.Other} {
		if text != "" || name == "other" {
			forms[name] = text
		}
	}
	return forms
}
