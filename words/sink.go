package words

import (
	"strconv"
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
)

// SinkPlace names a place in the sink as it stands over a tray: Fixer 1. number is 0 where there is one of its kind.
func (v *Voice) SinkPlace(s process.Step, number int) string {
	return sentence(v.sinkWords("place", s, number))
}

// SinkMove says who goes where next, as it is read and as it is spoken: "Lu into fixer 2", "Film 3: pour in the stop bath".
// Where a print leaves the sink, step is process.NoStep.
func (v *Voice) SinkMove(who string, s process.Step, number int, film bool) Phrase {
	return phrase(v.say("sink.move", args{"Who": own(who), "Into": v.SinkInto(s, number, film)}))
}

// SinkInto says where a print goes: into fixer 2, into the wash, out of the sink.
func (v *Voice) SinkInto(s process.Step, number int, film bool) string {
	table := "into"
	if film {
		table = "pour"
	}
	return v.sinkWords(table, s, number)
}

func (v *Voice) sinkWords(table string, s process.Step, number int) string {
	a := args{"Number": ""}
	if number > 0 {
		a["Number"] = strconv.Itoa(number)
	}
	word := s.String()
	if s == process.NoStep {
		word = "out"
	}
	return plain(v.say("sink."+table+"."+word, a))
}

// SinkLine is a line of the sink page with its places filled.
func (v *Voice) SinkLine(key string, pairs ...string) string {
	return plain(v.say("sink."+key, pairsOf(pairs)))
}

// SinkCount is a line of the sink page that counts.
func (v *Voice) SinkCount(key string, n int) string { return plain(v.sayN("sink."+key, n, nil)) }

// HalfDays reports whether the reader's clock counts to twelve.
func (v *Voice) HalfDays() bool { return v.system == quantity.US }

// Countdown prints a time that is left as clocks do, rounded up to the second: 1:02; 1:02:00 from an hour on; a time that is
// over with a plus before it.
func Countdown(left time.Duration) string {
	s := int64((left + time.Second - 1) / time.Second)
	if left < 0 {
		s = int64(left / time.Second)
	}
	sign := ""
	if s < 0 {
		sign, s = "+", -s
	}
	two := func(n int64) string {
		if n < 10 {
			return "0" + strconv.FormatInt(n, 10)
		}
		return strconv.FormatInt(n, 10)
	}
	if s >= 3600 {
		return sign + strconv.FormatInt(s/3600, 10) + ":" + two(s/60%60) + ":" + two(s%60)
	}
	return sign + strconv.FormatInt(s/60, 10) + ":" + two(s%60)
}

// sinkLines are the sentences and labels that the sink page says by itself, and the places in them.
func sinkLines() map[string][]string {
	return map[string][]string{
		"move": {"Who", "Into"}, "print": {"N"}, "film": {"N"}, "small": {"N", "Size"}, "lift": nil, "over": {"Ago"},
		"late": {"Ago"}, "moving": {"Left"}, "still": {"Left"}, "agitate": nil, "pour_out": nil,
		"kept_here": nil, "kept_long": nil, "memory": nil, "full": nil, "dead": nil, "no_sound": nil, "hidden": nil,
		"muted": nil, "jumped": nil, "refused": {"Why"}, "since": {"Count", "When"}, "wash_left": {"Left"},
	}
}

// sinkCounts are those that count.
func sinkCounts() []string { return []string{"waiting", "prints"} }

// SinkLines are the sentences that the sink page says by itself, by key, for a reader's language. A place stands as {name},
// the count as {n}; where a sentence counts, it has the forms key.one and key.other.
func (v *Voice) SinkLines() map[string]string {
	all := map[string]string{}
	for key, places := range sinkLines() {
		a := args{}
		for _, p := range places {
			a[p] = "{" + snake(p) + "}"
		}
		all[key] = plain(v.say("sink."+key, a))
	}
	for _, key := range sinkCounts() {
		all[key+".one"] = plain(v.sayN("sink."+key, 1, args{"N": "{n}"}))
		all[key+".other"] = plain(v.sayN("sink."+key, 2, args{"N": "{n}"}))
	}
	return all
}
