package draw_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetside/draw"
	"wetside/draw/scene"
)

func tape(done float64, ends *draw.Ends) draw.Tape {
	t := draw.Tape{Ends: ends, To: 100, Say: draw.TapeWords{
		Picture: "fixer 1", Safe: "safe", Likely: "likely", Label: "label", Test: "test", Unknown: "end not known",
	}}
	if done > 0 {
		t.Work = []draw.Stretch{{Sheets: done}}
	}
	return t
}

// tapes are one of each kind. The first is a two-litre fixer of 31 sheets.
func tapes() map[string]draw.Tape {
	worked := tape(27, &draw.Ends{Safe: 48, Likely: 64})
	worked.Work = append(worked.Work, draw.Stretch{Sheets: 4, Estimated: true})
	worked.Test, worked.Label = new(45.0), new(80.0)
	past := tape(55.5, &draw.Ends{Safe: 48, Likely: 64})
	past.Say.Past = "7 too many"
	gone := tape(71, &draw.Ends{Safe: 48, Likely: 64})
	gone.Say.Past = "23 too many"
	near := tape(12.25, &draw.Ends{Safe: 48, Likely: 49})
	near.Label, near.Test = new(49.0), new(46.0)
	same := tape(3, &draw.Ends{Safe: 40, Likely: 40.6})
	unknown := tape(18, nil)
	many := tape(303, &draw.Ends{Safe: 330, Likely: 380})
	many.To = 400
	many.Work = append(many.Work, draw.Stretch{Sheets: 20, Estimated: true})
	far := tape(8, &draw.Ends{Safe: 120, Likely: 260})
	sheet := worked
	sheet.Size = draw.Sheet
	wall := worked
	wall.Size = draw.Wall
	desk := many
	desk.Size = draw.Desk
	return map[string]draw.Tape{
		"worked": worked, "past": past, "gone": gone, "near": near, "same": same, "unknown": unknown, "many": many,
		"far": far, "fresh": tape(0, &draw.Ends{Safe: 47, Likely: 64}), "spent": tape(0, &draw.Ends{Safe: 0, Likely: 4}),
		"wall": wall, "sheet": sheet, "desk": desk, "full": tape(97, nil),
	}
}

func TestTapeGolden(t *testing.T) {
	for name, p := range tapes() {
		t.Run(name, func(t *testing.T) { checkPicture(t, "tape-"+name, p) })
	}
}

func TestTapeRefuses(t *testing.T) {
	for name, p := range map[string]draw.Tape{
		"a count below zero": {Work: []draw.Stretch{{Sheets: -1}}},
		"no figure":          tape(3, &draw.Ends{Safe: math.NaN(), Likely: 4}),
		"ends the wrong way": tape(3, &draw.Ends{Safe: 9, Likely: 4}),
		"a scale below zero": {To: -5},
		"endless":            tape(3, &draw.Ends{Safe: 9, Likely: math.Inf(1)}),
		"too much":           tape(1e9, nil),
	} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: error %v, want ErrModel", name, err)
		}
		if _, err := p.Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: text's error %v, want ErrModel", name, err)
		}
	}
}

func TestTapeScale(t *testing.T) {
	for _, c := range []struct {
		name  string
		tapes []draw.Tape
		want  float64
	}{
		{"none", nil, 10},
		{"the farthest mark rules", []draw.Tape{tape(31, &draw.Ends{Safe: 48, Likely: 64}), tape(31, &draw.Ends{Safe: 64, Likely: 80})}, 80},
		{"rounded up", []draw.Tape{tape(31, &draw.Ends{Safe: 48, Likely: 86})}, 100},
		{"a long one is cut for a short one", []draw.Tape{tape(1, &draw.Ends{Safe: 8, Likely: 10}), tape(3, &draw.Ends{Safe: 500, Likely: 900})}, 80},
		{"but never below its work", []draw.Tape{tape(1, &draw.Ends{Safe: 8, Likely: 10}), tape(300, &draw.Ends{Safe: 500, Likely: 900})}, 300},
	} {
		if got := draw.TapeScale(c.tapes...); got != c.want {
			t.Errorf("%s: %g, want %g", c.name, got, c.want)
		}
	}
}

// strokesOf counts the strokes of a tape's scene: whole ones, those that lie across, broken ones.
func strokesOf(s scene.Scene) (all, across, broken int) {
	for _, it := range s.Items {
		l, ok := it.(scene.Line)
		if !ok || l.Stroke != scene.Ink || l.A.X == 6 {
			continue
		}
		all++
		if l.A.X != l.B.X {
			across++
		}
		if l.Dash > 0 {
			broken++
		}
	}
	return all, across, broken
}

func TestTapeTalliesWhatWasCounted(t *testing.T) {
	for _, c := range []struct{ counted, estimated, to, all, across, broken int }{
		{31, 0, 100, 31, 6, 0},
		{27, 4, 100, 31, 6, 4},
		{0, 10, 100, 10, 2, 10},
		{300, 0, 400, 60, 12, 0}, // a stroke is five sheets
	} {
		p := tape(0, nil)
		p.To = float64(c.to)
		p.Work = []draw.Stretch{{Sheets: float64(c.counted)}, {Sheets: float64(c.estimated), Estimated: true}}
		s, err := p.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		if all, across, broken := strokesOf(s); all != c.all || across != c.across || broken != c.broken {
			t.Errorf("%+v: %d strokes, %d across, %d broken", c, all, across, broken)
		}
	}
}

func anyTape(t *rapid.T) draw.Tape {
	count := rapid.OneOf(rapid.Float64Range(0, 120), rapid.Float64Range(0, 20000))
	p := draw.Tape{To: count.Draw(t, "to"), Size: draw.Size(rapid.IntRange(0, 3).Draw(t, "size")), Say: draw.TapeWords{
		Picture: "a bath", Safe: "safe", Likely: "likely", Label: "label", Test: "test", Past: "3 too many", Unknown: "end not known, test it",
	}}
	for range rapid.IntRange(0, 4).Draw(t, "stretches") {
		p.Work = append(p.Work, draw.Stretch{Sheets: rapid.Float64Range(0, 90).Draw(t, "sheets"), Estimated: rapid.Bool().Draw(t, "estimated")})
	}
	if rapid.Bool().Draw(t, "known") {
		safe := count.Draw(t, "safe")
		p.Ends = &draw.Ends{Safe: safe, Likely: safe + rapid.OneOf(rapid.Just(0.), count).Draw(t, "further")}
	}
	if rapid.Bool().Draw(t, "has label") {
		p.Label = new(count.Draw(t, "label"))
	}
	if rapid.Bool().Draw(t, "has test") {
		p.Test = new(count.Draw(t, "test"))
	}
	return p
}

// No number runs into another, nothing leaves the picture, the heavy mark never lies behind the fine one, and strokes
// go from left to right.
func TestTapeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyTape(t)
		s, err := p.Scene(anyForm(t))
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		x := math.Inf(-1)
		for _, it := range s.Items {
			if l, ok := it.(scene.Line); ok && l.Stroke == scene.Ink && l.A.X == l.B.X && l.A.X != 6 {
				if l.A.X <= x {
					t.Errorf("stroke at %v after one at %v", l.A.X, x)
				}
				x = l.A.X
			}
		}
		checkTextRows(t, p)
	})
}

func anyForm(t *rapid.T) scene.Form { return scene.Form(rapid.IntRange(0, 2).Draw(t, "form")) }

// checkTextRows: the terminal's picture keeps to its columns.
func checkTextRows(t *rapid.T, p picture) {
	text, err := p.Text(draw.TextOptions{})
	if err != nil {
		t.Fatal(err)
	}
	width := 0
	for _, r := range text {
		width++
		if r == '\n' {
			width = 0
		}
		if width > 60 {
			t.Fatalf("more than 60 columns:\n%s", text)
		}
	}
}

// A number stands under its own mark where there is room. Of two marks too near each other the numbers keep their
// order and move as far to the left as to the right.
func TestTapeNumbersStandAtTheirMarks(t *testing.T) {
	at := func(safe, likely float64) (marks, numbers [2]float64) {
		p := tape(0, &draw.Ends{Safe: safe, Likely: likely})
		p.Say = draw.TapeWords{Picture: "a bath"}
		s, err := p.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range s.Items {
			switch it := it.(type) {
			case scene.Line:
				switch it.Stroke {
				case scene.Accent:
					marks[0] = it.A.X
				case scene.Mark:
					marks[1] = it.A.X
				default:
				}
			case scene.Text:
				if it.Bold {
					numbers[0] = it.At.X
				} else if it.Fill == scene.Ink {
					numbers[1] = it.At.X
				}
			}
		}
		return marks, numbers
	}
	if marks, numbers := at(48, 64); marks != numbers {
		t.Errorf("numbers at %v, marks at %v", numbers, marks)
	}
	marks, numbers := at(48, 49)
	left, right := marks[0]-numbers[0], numbers[1]-marks[1]
	if left <= 0 || math.Abs(left-right) > 1e-9 {
		t.Errorf("numbers of marks at %v moved %.2f to the left and %.2f to the right", marks, left, right)
	}
	// At the tape's edge both move to one side.
	if _, numbers := at(0, 1); numbers[0] >= numbers[1] {
		t.Errorf("numbers at %v, want them in order", numbers)
	}
}

// Tapes with one scale and size show one count at one place.
func TestTapesShareAScale(t *testing.T) {
	a, b := tape(31, &draw.Ends{Safe: 48, Likely: 64}), tape(3, &draw.Ends{Safe: 48, Likely: 90})
	a.To = draw.TapeScale(a, b)
	b.To = a.To
	var x []float64
	for _, p := range []draw.Tape{a, b} {
		s, err := p.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range s.Items {
			if l, ok := it.(scene.Line); ok && l.Stroke == scene.Accent {
				x = append(x, l.A.X)
			}
		}
	}
	if len(x) != 2 || x[0] != x[1] {
		t.Errorf("heavy marks for 48 sheets at %v, want two at one place", x)
	}
}

func ExampleTape_Text() {
	text, err := draw.Tape{
		Work: []draw.Stretch{{Sheets: 12}, {Sheets: 4, Estimated: true}},
		Ends: &draw.Ends{Safe: 28, Likely: 41}, To: 50,
		Say: draw.TapeWords{Safe: "safe", Likely: "likely"},
	}.Text(draw.TextOptions{})
	fmt.Print(text, err)
	// Output:
	// ||||/||||/||::::────────────┃────────────┼─────────
	//                          28 safe     41 likely   50
	// <nil>
}
