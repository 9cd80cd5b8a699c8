package facts

import (
	"wetside/trade/fault"
	"wetside/words"
)

// Wrong is what may be behind something that looks wrong: what `wetside wrong --json` prints.
type Wrong struct {
	// Signs are those that the words may mean, the likeliest first, or all where none was asked for.
	Signs []Sign `json:"signs"`
	Guide *Guide `json:"guide"` // of the first sign; null where none was found or asked for
	Entry string `json:"entry,omitempty"`
}

// Sign is what is seen.
type Sign struct {
	Sign  string   `json:"sign"`
	Name  string   `json:"name"`
	Where string   `json:"where"`     // print, film, bath
	Met   []string `json:"words_met"` // the words by which it was found
}

// Guide is where to look, in order.
type Guide struct {
	Sign string `json:"sign"`
	Look string `json:"look"`
	// First says how light is told from chemistry; null where the sign is none that can be both.
	First  *string `json:"rule_out_light"`
	Causes []Cause `json:"causes"`
}

// Cause is one possible cause, with why it stands where it stands.
type Cause struct {
	Cause     string      `json:"cause"`
	Name      string      `json:"name"`
	Kind      string      `json:"kind"` // chemistry, light, handling, water, material
	First     bool        `json:"rule_out_first"`
	Out       bool        `json:"ruled_out"`
	Points    int         `json:"points"`
	Source    string      `json:"source"`
	Why       string      `json:"why"`
	Check     string      `json:"check"`
	Remedy    string      `json:"remedy"`
	Evidence  []Evidence  `json:"evidence"`
	Reckoning []Reckoning `json:"reckoning"`
}

// Evidence is what is known that speaks for a cause, or against it where its points are below 0.
type Evidence struct {
	Fact     string `json:"fact"`
	Bath     string `json:"bath,omitempty"`
	Points   int    `json:"points"`
	Sentence string `json:"sentence"`
}

// OfSigns takes signs apart; met are the words by which each was found, or nil.
func OfSigns(v *words.Voice, found []words.SignFound) []Sign {
	out := make([]Sign, 0, len(found))
	for _, f := range found {
		one := Sign{Sign: string(f.Sign), Name: v.SignName(f.Sign), Where: string(f.Sign.Where()), Met: []string{}}
		one.Met = append(one.Met, f.Met...)
		out = append(out, one)
	}
	return out
}

// OfGuide takes a guide apart.
func OfGuide(v *words.Voice, g fault.Guide) *Guide {
	out := &Guide{Sign: string(g.Sign), Look: v.SignLook(g.Sign), Causes: []Cause{}}
	if first := v.SignFirst(g.Sign); len(first) > 0 {
		text := first.Text()
		out.First = &text
	}
	for i, s := range g.Causes {
		told := v.Cause(s.Cause)
		c := Cause{
			Cause: string(s.Cause), Name: v.CauseName(s.Cause), Kind: string(s.Kind), First: i < g.LightFirst, Out: s.Out,
			Points: s.Points, Source: v.CauseFrom(s.Link), Why: told.Why.Text(), Check: told.Check.Text(), Remedy: told.Remedy.Text(),
			Evidence: []Evidence{}, Reckoning: []Reckoning{OfReckoning(s.Reckoning)},
		}
		for _, x := range s.Speaks {
			c.Evidence = append(c.Evidence, Evidence{string(x.Kind), x.Name, int(x.By), v.Spoken(x).Text()})
		}
		out.Causes = append(out.Causes, c)
	}
	return out
}
