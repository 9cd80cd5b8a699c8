package measure_test

import (
	"fmt"
	"io"
	"math/rand/v2"
	"strings"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// The core problem is "this volume from these marks with the fewest readings". An undiluted chemical comes to
// just that: its strength is 1 whatever is read, so bias and U are nothing, every choice is of grade A, and the next
// step of the choice is the number of readings. The space is that of pour plans: whole numbers n_i of each
// reading, no more than two of them above nothing, their sum at most MaxJugfuls, the volume in the window.
// As an integer program, with b_i 1 where reading i is used, and none = 1 where nothing serves:
//
//	minimise   Σ n_i + 100·none
//	subject to lo·(1 − none) ≤ Σ v_i·n_i ≤ hi,  n_i ≤ 8·b_i,  Σ b_i ≤ 2,  Σ n_i ≤ 8

// nothingServes is the cost of an instance that can't be met.
const nothingServes = 100

// coreProblem draws an instance: up to 8 vessels of two scales each, and a window of so many thousandths of the
// volume. Its ends fall on no sum of marks: they are odd multiples of 1/8 mL, marks are of whole mL or of ounces.
func coreProblem(rng *rand.Rand, thousandths int64) measure.Problem {
	p := measure.Problem{Dilution: oneTo(0), Tolerance: 0.15}
	for i := range 1 + rng.IntN(8) {
		step := []int64{5, 10, 25, 50, 100}[rng.IntN(5)]
		from := step * (1 + rng.Int64N(4))
		unit := quantity.UnitUSOunce
		if rng.IntN(2) == 0 {
			unit = quantity.UnitImperialOunce
		}
		ounces := 1 + rng.Int64N(4)
		p.Vessels = append(p.Vessels, measure.Vessel{
			Name: fmt.Sprintf("jug %d", i), Kind: measure.Jug, Scales: []measure.Scale{
				scale(quantity.UnitML, from, from+step*(1+rng.Int64N(19)), step, 0),
				scale(unit, ounces, ounces+rng.Int64N(16), 1, 0),
			},
		})
	}
	least := 100 + rng.Int64N(6000)
	width := 1 + least*thousandths/1000
	eighths := quantity.Millilitre / 8
	p.Window = quantity.Window{
		Min: quantity.Millilitre*quantity.Volume(least) + eighths,
		Max: quantity.Millilitre*quantity.Volume(least+width) + 3*eighths,
	}
	return p
}

// wideWindow is the window of a tray, and of most that is mixed.
const wideWindow = 75

func coreProblems(n int, thousandths int64) []measure.Problem {
	rng := rand.New(rand.NewPCG(1000, uint64(thousandths)))
	all := make([]measure.Problem, n)
	for i := range all {
		all[i] = coreProblem(rng, thousandths)
	}
	return all
}

// writeCore writes the instances as one integer program in LP format; they share nothing.
func writeCore(w io.Writer, all []measure.Problem) error {
	b := &strings.Builder{}
	var rows, general, binary []string
	fmt.Fprint(b, "Minimize\n readings:")
	for k, p := range all {
		var volume, count, used []string
		for v := range p.Vessels {
			for _, m := range marksOf(p, v) {
				i := len(count)
				n, y := fmt.Sprintf("n_%d_%d", k, i), fmt.Sprintf("b_%d_%d", k, i)
				count, used = append(count, n), append(used, y)
				volume = append(volume, fmt.Sprintf("%.10f %s", m.volume.ML(), n))
				rows = append(rows, fmt.Sprintf("%s - %d %s <= 0", n, measure.MaxJugfuls, y))
			}
		}
		none := fmt.Sprintf("none_%d", k)
		fmt.Fprintf(b, "\n %s + %d %s", strings.Join(prefixed(count), " "), nothingServes, none)
		low, high, sum := p.Window.Min.ML(), p.Window.Max.ML(), strings.Join(volume, "\n + ")
		rows = append(
			rows,
			fmt.Sprintf("%s\n + %.10f %s >= %.10f", sum, low, none, low),
			fmt.Sprintf("%s <= %.10f", sum, high),
			fmt.Sprintf("%s <= 2", strings.Join(used, "\n + ")),
			fmt.Sprintf("%s <= %d", strings.Join(count, "\n + "), measure.MaxJugfuls),
		)
		general, binary = append(general, count...), append(append(binary, used...), none)
	}
	fmt.Fprintf(b, "\nSubject To\n")
	for i, row := range rows {
		fmt.Fprintf(b, " c%d: %s\n", i, row)
	}
	fmt.Fprintf(b, "Generals\n%s\nBinaries\n%s\nEnd\n", strings.Join(general, "\n"), strings.Join(binary, "\n"))
	_, err := io.WriteString(w, b.String())
	return err
}

func prefixed(names []string) []string {
	all := make([]string, len(names))
	for i, n := range names {
		all[i] = "+ " + n
		if i%10 == 9 {
			all[i] += "\n"
		}
	}
	return all
}
