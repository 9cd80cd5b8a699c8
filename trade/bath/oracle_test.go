package bath_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
)

func vectors(t *testing.T) []oracleVector {
	t.Helper()
	text, err := os.ReadFile("testdata/oracle/vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Vectors []oracleVector `json:"vectors"`
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Vectors) < 60 {
		t.Fatalf("%d vectors, want 60", len(file.Vectors))
	}
	return file.Vectors
}

func TestOracleTrajectories(t *testing.T) {
	t.Parallel()
	rows, topped := 0, 0
	for i, v := range vectors(t) {
		for _, row := range v.Answer.Rows {
			if v.Request.dry(row.Sheet, v.Request.Material.Carry) {
				topped++
				continue
			}
			rows++
			v.Request.compare(t, i, &row)
		}
	}
	t.Logf("%d rows alike, %d where the tray is topped up left out", rows, topped)
	if rows < 6*topped || rows < 300 {
		t.Errorf("only %d rows compared", rows)
	}
}

// compare holds what every bath holds, sheet by sheet and at once, against a row.
func (q *oracleRequest) compare(t *testing.T, vector int, row *oracleRow) {
	t.Helper()
	p := q.past()
	a := q.ask()
	p.Steps = []bath.Step{bath.Worked{Sheet: a.Sheet, Sheets: float64(row.Sheet), Through: a.Through}}
	b, err := p.Balance(p.Prior.Median())
	if err != nil {
		t.Fatal(err)
	}
	p.Prior = certain(p.Prior)
	rooms, err := p.Draw(1, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Baths {
		for _, x := range []struct {
			of        bath.Amount
			want, got float64
			atOnce    float64
		}{
			{bath.Liquid, row.Litres[i], b.Each[i][bath.Liquid], rooms.Litres(i).P50},
			{bath.Silver, row.Silver[i], b.Each[i].PerLitre(bath.Silver), rooms.Now(i, bath.Silver).P50},
			{bath.Thiosulfate, row.Thiosulfate[i], b.Each[i].PerLitre(bath.Thiosulfate), rooms.Now(i, bath.Thiosulfate).P50},
			{bath.Developer, row.Developer[i], b.Each[i].PerLitre(bath.Developer), rooms.Now(i, bath.Developer).P50},
		} {
			if !alike(x.got, x.want) || !alike(x.atOnce, x.want) {
				t.Errorf("vector %d, %d sheets, bath %d, amount %d: %.15g one by one, %.15g at once, want %.15g",
					vector, row.Sheet, i, x.of, x.got, x.atOnce, x.want)
			}
		}
	}
	for of, want := range map[bath.Amount]float64{
		bath.Liquid: row.Out.Litres, bath.Silver: row.Out.Silver,
		bath.Thiosulfate: row.Out.Thiosulfate, bath.Developer: row.Out.Developer,
	} {
		if !alike(b.Left[of], want) {
			t.Errorf("vector %d, %d sheets: amount %d left %.15g, want %.15g", vector, row.Sheet, of, b.Left[of], want)
		}
	}
}

func alike(got, want float64) bool { return math.Abs(got-want) <= 1e-9*math.Abs(want)+1e-15 }

func TestOracleCounts(t *testing.T) {
	t.Parallel()
	counts, topped := 0, 0
	for i, v := range vectors(t) {
		c, d := v.compareCounts(t, i)
		counts, topped = counts+c, topped+d
	}
	t.Logf("%d counts alike, %d where the tray is topped up left out", counts, topped)
	if counts < 1500 {
		t.Errorf("only %d counts compared", counts)
	}
}

// compareCounts holds every draw's count and ending of every bath against the oracle's, exactly: no count of the vectors
// hangs on a billionth.
func (v *oracleVector) compareCounts(t *testing.T, vector int) (compared, topped int) {
	t.Helper()
	p := v.Request.past()
	z := &v.Request.Draws
	drawn := make([]bath.Room, len(z.Coating))
	for d := range drawn {
		drawn[d] = p.Prior.RoomAt([9]float64{z.Coating[d], z.Undeveloped[d], z.Carry[d]})
		got, want := &drawn[d][material.RC], &v.Answer.Values
		if !alike(got.Coating, want.Coating[d]) || !alike(got.Undeveloped, want.Undeveloped[d]) ||
			!alike(got.Carry*v.Request.Material.Carry, want.Carry[d]) {
			t.Errorf("vector %d, draw %d: room %+v", vector, d, got)
		}
	}
	drawn = append(drawn, p.Prior.Median())
	rooms, err := p.RoomsOf(drawn...)
	if err != nil {
		t.Fatal(err)
	}
	ask := v.Request.ask()
	e, err := rooms.Ends(ask)
	if err != nil {
		t.Fatal(err)
	}
	for place := range ask.Through {
		got, by := e.Each(place), e.ByEach(place)
		for d := range got {
			want, binds, limited := v.count(place, d)
			carry := v.Request.Material.Carry * drawn[d][material.RC].Carry
			switch {
			case !limited && got[d] != bath.Most:
				t.Errorf("vector %d, bath %d, draw %d: %d, want no end", vector, place, d, got[d])
			case limited && v.Request.Baths[0].Kind == "fixer" && v.Request.dry(want, carry):
				topped++
			case limited && (int(got[d]) != want || by[d] != binds):
				t.Errorf("vector %d, bath %d, draw %d: %d by %d, want %d by %d", vector, place, d, got[d], by[d], want, binds)
			case limited:
				compared++
			}
		}
	}
	return compared, topped
}

// count returns the oracle's count and ending; the draw behind the last is the room of the medians.
func (v *oracleVector) count(place, draw int) (count int, by bath.Ending, limited bool) {
	names := map[string]bath.Ending{"silver": bath.BySilver, "thiosulfate": bath.ByThiosulfate, "ph": bath.ByPH}
	a := &v.Answer
	if draw < len(v.Request.Draws.Coating) {
		if a.Counts[place] == nil {
			return 0, bath.NoEnding, false
		}
		return a.Counts[place][draw], names[a.Binds[place][draw]], true
	}
	if a.Median[place] == nil {
		return 0, bath.NoEnding, false
	}
	return *a.Median[place], names[*a.MedianBinds[place]], true
}
