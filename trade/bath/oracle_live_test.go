package bath_test

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os/exec"
	"testing"

	"wetside/internal/outside"
)

// numpy returns the interpreter of the independent model.
func numpy(tb testing.TB) string {
	tb.Helper()
	return outside.Python(tb, "numpy", "scipy")
}

// The independent model runs beside and answers what the file of vectors does not hold.
func TestOracleLive(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("runs another program")
	}
	python := numpy(t)
	r := rand.New(rand.NewPCG(5, 8))
	all := vectors(t)
	for _, i := range []int{1, 11} {
		v := all[i]
		q := v.Request
		q.Sheets = 3 + r.IntN(9)
		q.Draws = oracleDraws{}
		for range 40 {
			q.Draws.Coating = append(q.Draws.Coating, r.NormFloat64())
			q.Draws.Undeveloped = append(q.Draws.Undeveloped, r.NormFloat64())
			q.Draws.Carry = append(q.Draws.Carry, r.NormFloat64())
		}
		text, err := json.Marshal(q)
		if err != nil {
			t.Fatal(err)
		}
		run := exec.CommandContext(t.Context(), python, "-B", "testdata/oracle/model.py", "run")
		run.Stdin = bytes.NewReader(text)
		out, err := run.Output()
		if err != nil {
			t.Fatal(err)
		}
		live := oracleVector{Request: q}
		if err := json.Unmarshal(out, &live.Answer); err != nil {
			t.Fatal(err)
		}
		for _, row := range live.Answer.Rows {
			if !q.dry(row.Sheet, q.Material.Carry) {
				q.compare(t, i, &row)
			}
		}
		if n, _ := live.compareCounts(t, i); n < 40 {
			t.Errorf("request %d: only %d counts compared", i, n)
		}
	}
}
