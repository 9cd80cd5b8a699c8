package web

import (
	"net/http"
	"slices"
	"strconv"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/bath"
	"wetside/trade/process"
	"wetside/words"
)

// cardView is a test written out, which takes its result with one tap.
type cardView struct {
	words.TestCard
	Test   string
	Taps   []tap
	Note   string  // what the numbers are
	Fields []field // where the result is two times
	Wrong  bool    // one of them can't be read
}

func (v *visit) strip() []float64 {
	if s := v.file.Darkroom.SilverStrip; len(s) > 0 {
		return s
	}
	return bath.UsualStrip()
}

// cards are the tests that tell something of a bath, the most telling first.
func (v *visit) cards(o *ahead.Outlook) []cardView {
	tests := o.Tests
	if o.Bath.Role == process.Fixer && !slices.Contains(tests, book.SilverStrip) && o.Lead.Kind == ahead.TestFirst {
		tests = append([]book.Test{book.SilverStrip}, tests...)
	}
	var out []cardView
	for _, t := range tests {
		out = append(out, v.card(t))
	}
	return out
}

func (v *visit) card(t book.Test) cardView {
	c := cardView{TestCard: v.say.TestCard(t), Test: string(t)}
	switch t {
	case book.SilverStrip:
		c.Note = v.say.Label("grams_per_litre")
		if len(v.file.Darkroom.SilverStrip) == 0 {
			c.Note = v.say.Label("grams_per_litre_usual")
		}
		for i, s := range v.strip() {
			n := strconv.FormatFloat(s, 'f', -1, 64)
			if i == 0 {
				c.Taps = append(c.Taps, tap{Text: v.say.Tell("under", "N", v.say.Plain(s)).Text(), Value: "under " + n + " g/L"})
			}
			c.Taps = append(c.Taps, tap{Text: v.say.Plain(s), Value: n + " g/L"})
		}
	case book.PHPaper:
		for n := 8; n <= 14; n++ {
			ph := float64(n) / 2
			c.Taps = append(c.Taps, tap{Text: v.say.Plain(ph), Value: strconv.FormatFloat(ph, 'f', -1, 64)})
		}
	case book.IndicatorTest:
		c.Taps = []tap{{Text: v.say.Label("not_turned"), Value: "not turned"}, {Text: v.say.Label("turned"), Value: "turned"}}
	case book.DropTest:
		c.Taps = []tap{{Text: v.say.Label("stayed_clear"), Value: "passed"}, {Text: v.say.Label("cloudy"), Value: "failed"}}
	case book.SilverDrop, book.HypoDrop:
		c.Taps = []tap{{Text: v.say.Label("no_stain"), Value: "passed"}, {Text: v.say.Label("stain"), Value: "failed"}}
	case book.LightTest:
		c.Taps = []tap{{Text: v.say.Label("as_dark"), Value: "passed"}, {Text: v.say.Label("paler"), Value: "failed"}}
	case book.ClearingTime:
		c.Fields = []field{
			{Name: "fresh", Label: v.say.Label("clears_fresh"), Example: "30 s"}, {Name: "this", Label: v.say.Label("clears_this"), Example: "50 s"},
		}
	case book.Thermometer, book.LevelTest:
		c.Fields = []field{{Name: "result", Label: v.say.Label("test_result"), Example: t.Wants()[0]}}
	}
	return c
}

// otherTest takes the result of any test, in words.
type otherTest struct {
	Tests  []pick
	Result field
	Open   bool
}

func (v *visit) otherTest() *otherTest {
	o := &otherTest{Result: field{Name: "result", Label: v.say.Label("test_result"), Hint: v.say.Label("hint_result")}}
	for _, t := range []book.Test{
		book.SilverStrip, book.PHPaper, book.ClearingTime, book.DropTest, book.SilverDrop, book.LightTest, book.Thermometer, book.LevelTest,
	} {
		o.Tests = append(o.Tests, pick{option: option{string(t), v.say.TestName(t)}})
	}
	return o
}

// tested writes down what a test showed.
func (s *server) tested(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there {
		return errNotFound
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	t := book.Test(r.PostForm.Get("test"))
	result := r.PostForm.Get("result")
	if this := r.PostForm.Get("this"); this != "" || r.PostForm.Has("this") {
		result = this
		if fresh := r.PostForm.Get("fresh"); fresh != "" {
			result += " against " + fresh
		}
	}
	body := &book.Tested{Bath: b.ID, Test: t, Result: result, Ounce: book.OunceOf(v.file.Darkroom.Ounce)}
	if t == book.SilverStrip {
		body.Steps = v.strip()
	}
	read, err := book.ReadTestResult(t, result, body.Ounce)
	if err == nil && t == book.SilverStrip {
		_, err = read.Class(body.Steps)
	}
	if err != nil {
		return v.bathProblem(r, func(p *bathPage) { p.wrongTest(v, r, err) })
	}
	return v.write(r, b.ID, body, false)
}

// wrongTest sets what is wrong with a result at its field, with what was typed.
func (p *bathPage) wrongTest(v *visit, r *http.Request, err error) {
	problem, test := v.unreadable(err), r.PostForm.Get("test")
	for i := range p.Cards {
		c := &p.Cards[i]
		if c.Test != test || len(c.Fields) == 0 {
			continue
		}
		for j := range c.Fields {
			c.Fields[j].Value = r.PostForm.Get(c.Fields[j].Name)
		}
		c.Fields[len(c.Fields)-1].Problem, c.Wrong = problem, true
		return
	}
	if p.Other == nil {
		return
	}
	p.Other.Open = true
	p.Other.Result.Value, p.Other.Result.Problem = r.PostForm.Get("result"), problem
	for i := range p.Other.Tests {
		p.Other.Tests[i].Ticked = p.Other.Tests[i].Value == test
	}
}
