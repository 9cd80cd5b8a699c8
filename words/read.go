package words

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/nicksnyder/go-i18n/v2/i18n"
)

// read reads a message file, line by line: a comment, a [table], or a key and its text in double quotes. That is as much of TOML
// as they are written in; reading them as TOML takes half of what a start may take. A test holds this to a TOML reader's
// reading of every file.
func read(text string, each func(table, key, value string)) error {
	table, n := "", 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if line[0] == '[' {
			name, rest, closed := strings.Cut(line[1:], "]")
			if !closed || !bare(strings.ReplaceAll(name, ".", "")) || strings.Contains("."+name+".", "..") || !comment(rest) {
				return fmt.Errorf("line %d: %q is no table", n, line)
			}
			table = name
			continue
		}
		key, value, ok := keyed(line)
		if !ok {
			return fmt.Errorf("line %d: %q is no key with a text in double quotes", n, line)
		}
		each(table, key, value)
	}
	return nil
}

// keyed reads a line such as name = "text" or "P301+P310" = "text".
func keyed(line string) (key, value string, ok bool) {
	key, rest, found := strings.Cut(line, " = ")
	if inside := strings.TrimSuffix(strings.TrimPrefix(key, `"`), `"`); len(key) == len(inside)+2 && !strings.ContainsAny(inside, `"\`) {
		key = inside
	} else if !bare(key) {
		return "", "", false
	}
	quoted, err := strconv.QuotedPrefix(rest)
	if !found || err != nil || quoted[0] != '"' || !comment(rest[len(quoted):]) {
		return "", "", false
	}
	value, err = strconv.Unquote(quoted)
	return key, value, err == nil
}

// bare reports whether a key needs no quotes.
func bare(key string) bool {
	return key != "" && strings.Trim(key, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") == ""
}

func comment(rest string) bool {
	rest = strings.TrimSpace(rest)
	return rest == "" || rest[0] == '#'
}

// readMessages reads a file's messages; a table of plural forms is one message.
func readMessages(text string) (all []*i18n.Message, err error) {
	tables := map[string]*i18n.Message{} // nil: of messages
	wrong := ""
	err = read(text, func(table, key, value string) {
		m, known := tables[table]
		plural := table != "" && formOf(&i18n.Message{}, key) != nil
		if !known {
			if plural {
				m = &i18n.Message{ID: table}
				all = append(all, m)
			}
			tables[table] = m
		}
		switch {
		case plural != (m != nil):
			wrong = table
		case plural:
			*formOf(m, key) = value
		default:
			all = append(all, &i18n.Message{ID: strings.TrimPrefix(table+"."+key, "."), Other: value})
		}
	})
	for table, m := range tables {
		if m != nil && m.Other == "" {
			wrong = table
		}
	}
	if err == nil && wrong != "" {
		err = fmt.Errorf("[%s] has other keys beside plural forms, or no form %q", wrong, "other")
	}
	return all, err
}

// formOf returns the place of a plural form in a message; nil for another key.
func formOf(m *i18n.Message, key string) *string {
	switch key {
	case "zero":
		return &m.Zero
	case "one":
		return &m.One
	case "two":
		return &m.Two
	case "few":
		return &m.Few
	case "many":
		return &m.Many
	case "other":
		return &m.Other
	}
	return nil
}
