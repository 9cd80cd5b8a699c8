package cli

import (
	"math"
	"time"

	"wetside/draw"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/wash"
	"wetside/words"
)

// tellWash prints every way of washing, the cheapest and the fastest, and what is left against time.
func tellWash(p *printer, v *words.Voice, load string, r wash.Request, a wash.Answer) error {
	p.wrap(bestWays(v, a))
	p.head(load)
	p.wrap(v.Tell("wash.limit", "Limit", v.Figure(a.Limit), "From", v.Origin(a.Limit)).Text())
	p.gap()
	for _, w := range a.Ways {
		p.item(sayWay(v, w))
		tellWashFindings(p, v, w.Findings)
	}
	p.gap()
	tellWashFindings(p, v, a.Findings)
	return plotWash(p, v, r, a)
}

// bestWays names the fastest and the cheapest.
func bestWays(v *words.Voice, a wash.Answer) string {
	if a.Fastest < 0 {
		return v.Tell("wash.none").Text()
	}
	fast, cheap := a.Ways[a.Fastest], a.Ways[a.Cheapest]
	key := "wash.best"
	if a.Fastest == a.Cheapest {
		key = "wash.best_both"
	}
	return upper(v.Tell(key, "Fastest", wayName(v, fast.Way), "Time", v.Time(roundUp(fast.Time)),
		"Cheapest", wayName(v, cheap.Way), "Litres", v.Volume(fullLitres(cheap.Water))).Text())
}

func wayName(v *words.Voice, w wash.Way) string { return v.Label("way_" + w.String()) }

// sayWay says one way: its minutes, changes and litres.
func sayWay(v *words.Voice, w wash.Result) string {
	name, left := wayName(v, w.Way), v.Figure(leftAs(w))
	if w.Status != wash.Reached {
		return v.Tell("wash.way_out_of_reach", "Way", name, "Left", left).Text()
	}
	safe := ""
	if w.Safe > w.Time {
		safe = v.Time(roundUp(w.Safe))
	}
	pairs := []string{
		"Way", name, "Time", v.Time(roundUp(w.Time)), "Litres", v.Volume(fullLitres(w.Water)), "Left", left,
		"Contact", v.Time(w.Contact.Round(time.Second)), "Safe", safe,
	}
	if w.Way == wash.Running {
		return v.Tell("wash.way_running", pairs...).Text()
	}
	return v.TellN("wash.way_changes", w.Changes, pairs...).Text()
}

// leftAs is what a way leaves, as a figure.
func leftAs(w wash.Result) reckoning.Figure {
	return reckoning.Figure{Name: "left", Value: w.Left, Unit: reckoning.GPerM2}
}

// roundUp rounds a time up to whole minutes, a short one to ten seconds.
func roundUp(d time.Duration) time.Duration {
	step := time.Minute
	if d < 10*time.Minute {
		step = 10 * time.Second
	}
	return (d + step - 1).Truncate(step)
}

// fullLitres rounds water up to whole litres.
func fullLitres(w quantity.Volume) quantity.Volume {
	return (w + quantity.Litre - 1) / quantity.Litre * quantity.Litre
}

func tellWashFindings(p *printer, v *words.Voice, fs []wash.Finding) {
	for _, f := range fs {
		p.put("  ╷ ", "    ", v.Tell("wash."+string(f.Kind), "Got", v.Figure(f.Got), "Limit", v.Figure(f.Limit)).Text())
	}
}

// plotWash draws what is left against time, of as many ways as one picture holds.
func plotWash(p *printer, v *words.Voice, r wash.Request, a wash.Answer) error {
	longest := time.Duration(0)
	for _, w := range a.Ways {
		longest = max(longest, w.Time)
	}
	left := draw.Left{Limit: a.Limit.Value, Say: draw.LeftWords{
		Amount: v.Label("thiosulfate_left"), Time: v.Label("minutes"), Limit: v.Figure(a.Limit),
	}}
	if longest < 10*time.Minute {
		left.Say.Minutes = func(m float64) string { return v.Number(tenths(m)) }
	}
	for _, w := range drawn(a) {
		line, err := lineOf(v, r, w, longest*5/4)
		if err != nil {
			return err
		}
		left.Ways = append(left.Ways, line)
	}
	if len(left.Ways) == 0 {
		return nil
	}
	text, err := left.Text(draw.TextOptions{})
	if err != nil {
		return err
	}
	p.picture(text)
	return nil
}

// tenths rounds minutes up to a tenth.
func tenths(m float64) quantity.Ratio {
	r, err := quantity.NewRatio(int64(math.Ceil(10*m-1e-9)), 10)
	if err != nil {
		return quantity.Ratio{}
	}
	return r
}

// drawn returns the ways that get there, as many as one picture holds: the cheapest and the fastest are never left out.
func drawn(a wash.Answer) []wash.Result {
	var ways []wash.Result
	more := -draw.MaxWays
	for _, w := range a.Ways {
		if w.Status == wash.Reached {
			more++
		}
	}
	for i, w := range a.Ways {
		switch {
		case w.Status != wash.Reached:
		case more > 0 && i != a.Cheapest && i != a.Fastest:
			more--
		default:
			ways = append(ways, w)
		}
	}
	return ways
}

// plotPoints is how many points a line has: more than a terminal has columns.
const plotPoints = 120

func lineOf(v *words.Voice, r wash.Request, w wash.Result, upTo time.Duration) (draw.LeftWay, error) {
	points, err := wash.Curve(r, w, upTo, plotPoints)
	if err != nil {
		return draw.LeftWay{}, err
	}
	line := draw.LeftWay{Name: wayName(v, w.Way), Reaches: new(roundUp(w.Time).Minutes())}
	for _, x := range points {
		line.Points = append(line.Points, draw.Sample{At: x.At.Minutes(), Amount: x.Left})
	}
	return line, nil
}
