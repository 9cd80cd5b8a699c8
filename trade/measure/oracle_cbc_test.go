package measure_test

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"wetside/internal/outside"
	"wetside/trade/measure"
)

// cbc solves the instances in one run, and returns the readings of each and the time taken.
func cbc(tb testing.TB, all []measure.Problem) ([]int, time.Duration) {
	tb.Helper()
	path := outside.Program(tb, "cbc", "coinor-cbc")
	program, solution := filepath.Join(tb.TempDir(), "core.lp"), filepath.Join(tb.TempDir(), "core.sol")
	f, err := os.Create(program)
	if err != nil {
		tb.Fatal(err)
	}
	if err := writeCore(f, all); err != nil {
		tb.Fatal(err)
	}
	if err := f.Close(); err != nil {
		tb.Fatal(err)
	}
	start := time.Now()
	out, err := exec.CommandContext(tb.Context(), path, program, "-solve", "-solution", solution).CombinedOutput()
	took := time.Since(start)
	if err != nil {
		tb.Fatalf("cbc: %v\n%s", err, out)
	}
	found, err := os.Open(solution)
	if err != nil {
		tb.Fatalf("cbc left no solution: %v\n%s", err, out)
	}
	defer func() { _ = found.Close() }()
	readings, err := readCore(found, len(all))
	if err != nil {
		tb.Fatal(err)
	}
	return readings, took
}

// readCore reads cbc's solution of n instances: the readings of each, nothingServes where nothing does.
func readCore(r io.Reader, n int) ([]int, error) {
	readings := make([]int, n)
	lines := bufio.NewScanner(r)
	if !lines.Scan() || !strings.HasPrefix(lines.Text(), "Optimal") {
		return nil, fmt.Errorf("no optimum: %s", lines.Text())
	}
	for lines.Scan() {
		f := strings.Fields(strings.TrimPrefix(lines.Text(), "**"))
		if len(f) < 3 {
			return nil, fmt.Errorf("odd line %q", lines.Text())
		}
		name := strings.Split(f[1], "_")
		value, err := strconv.ParseFloat(f[2], 64)
		if err != nil {
			return nil, err
		}
		k, err := strconv.Atoi(name[1])
		if err != nil {
			return nil, err
		}
		switch name[0] {
		case "n":
			readings[k] += int(value + 0.5)
		case "none":
			readings[k] += int(value+0.5) * nothingServes
		}
	}
	return readings, lines.Err()
}

// coreReadings returns the solver's answer to the instances, nothingServes where it finds nothing.
func coreReadings(tb testing.TB, all []measure.Problem) []int {
	tb.Helper()
	readings := make([]int, len(all))
	for i, p := range all {
		r, err := measure.Solve(tb.Context(), p, measure.Options{NoAdvice: true})
		if err != nil {
			tb.Fatal(err)
		}
		readings[i] = nothingServes
		if len(r.Choices) > 0 {
			readings[i] = r.Choices[0].Readings
		}
	}
	return readings
}

// TestCoreAgainstCBC compares the fewest readings with those of an integer-programming solver: a hundred instances
// in one program, and some with a narrow window, which are harder, one by one.
func TestCoreAgainstCBC(t *testing.T) {
	batches := [][]measure.Problem{coreProblems(100, wideWindow)}
	for _, p := range coreProblems(12, 4) {
		batches = append(batches, []measure.Problem{p})
	}
	spread := map[int]int{}
	for _, batch := range batches {
		want, _ := cbc(t, batch)
		for i, got := range coreReadings(t, batch) {
			spread[want[i]]++
			if got != want[i] {
				t.Errorf("%d readings, cbc has %d:\n%s", got, want[i], describe(batch[i]))
			}
		}
	}
	t.Logf("readings and how often: %v", spread)
	if spread[nothingServes] == 0 || len(spread) < 7 {
		t.Errorf("the instances are all of a kind: %v", spread)
	}
}

// BenchmarkCoreAgainstCBC times the solver over 1,000 instances, and cbc over the same in one run, started and read
// included; it reports how many times the solver is faster. cbc takes some two minutes.
func BenchmarkCoreAgainstCBC(b *testing.B) {
	all := coreProblems(1000, wideWindow)
	want, took := cbc(b, all)
	var got []int
	b.ReportAllocs()
	for b.Loop() {
		got = coreReadings(b, all)
	}
	perRound := b.Elapsed() / time.Duration(b.N)
	for i := range got {
		if got[i] != want[i] {
			b.Errorf("instance %d: %d readings, cbc has %d", i, got[i], want[i])
		}
	}
	b.ReportMetric(took.Seconds(), "cbc-s")
	b.ReportMetric(float64(took)/float64(perRound), "times-faster")
}
