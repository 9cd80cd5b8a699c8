package process

import (
	"strings"
	"time"

	"wetside/trade/quantity"
)

// An Agitation is when a film is moved in its tank: for First at the beginning, then for Each at the start of every Every.
// Without end, First is as long as the step and Every is 0.
type Agitation struct {
	First, Each, Every time.Duration
	Always             bool // without a pause
}

// maxAgitation bounds the words that are looked at.
const maxAgitation = 200

// ReadAgitation reads how a film is moved, as labels say it: "10 s every minute", "30 s, then 10 s every 60 s", "first 30 s,
// then 5 s each 30 s", "continuous". ok is false for words that say nothing of times; they are still the user's own.
func ReadAgitation(text string) (a Agitation, ok bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	if text == "" || len(text) > maxAgitation {
		return a, false
	}
	switch text {
	case "continuous", "continuously", "always", "constant", "constantly":
		return Agitation{Always: true}, true
	}
	first, rest, two := strings.Cut(text, ",")
	if !two {
		first, rest, two = strings.Cut(text, " then ")
	}
	if two {
		first = strings.TrimPrefix(strings.TrimPrefix(strings.TrimSpace(first), "the "), "first ")
		rest = strings.TrimPrefix(strings.TrimSpace(rest), "then ")
		if a.First, ok = agitated(first); !ok {
			return Agitation{}, false
		}
	} else {
		rest = text
	}
	for _, word := range []string{" every ", " each ", " per "} {
		each, every, found := strings.Cut(rest, word)
		if !found {
			continue
		}
		var each1, every1 bool
		a.Each, each1 = agitated(each)
		a.Every, every1 = agitated(every)
		if !each1 || !every1 || a.Each >= a.Every {
			return Agitation{}, false
		}
		if a.First == 0 {
			a.First = a.Each
		}
		return a, true
	}
	return Agitation{}, false
}

// agitated reads a time; a minute alone is one minute.
func agitated(text string) (time.Duration, bool) {
	text = strings.TrimSpace(text)
	switch text {
	case "minute", "min":
		return time.Minute, true
	case "half minute", "half a minute":
		return time.Minute / 2, true
	}
	d, err := quantity.ReadDuration(text)
	return d, err == nil && d > 0 && d <= time.Hour
}

// Moves returns when the film is moved within a step of a length, from its beginning: each stretch begins at a At and
// lasts For. None begins when the step is over.
func (a Agitation) Moves(step time.Duration) []Moving {
	if a.Always {
		return []Moving{{0, step}}
	}
	var all []Moving
	if a.First > 0 {
		all = append(all, Moving{0, min(a.First, step)})
	}
	if a.Every <= 0 {
		return all
	}
	for at := a.Every; at < step; at += a.Every {
		if at >= a.First {
			all = append(all, Moving{at, min(a.Each, step-at)})
		}
	}
	return all
}

// A Moving is one stretch of agitation.
type Moving struct{ At, For time.Duration }
