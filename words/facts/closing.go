package facts

import "wetside/sink"

// Closing is what is done at the end of an evening: what `wetside close --json` prints.
type Closing struct {
	At    string        `json:"at"`
	Runs  bool          `json:"evening_runs"`
	Items []ClosingItem `json:"items"`
}

// ClosingItem is one thing to do. Of a bath, kind is what is advised: to_can, away, back; went is done already.
type ClosingItem struct {
	Key   string `json:"key"`
	Kind  string `json:"kind"`
	Bath  string `json:"bath_id"` // empty: it is about no bath
	Says  string `json:"says"`
	Why   string `json:"why"`
	Stays bool   `json:"may_stay_covered"` // it may stay in its tray until tomorrow
	Done  bool   `json:"done"`
}

// OfClosing takes the items apart; says and why are the sentences.
func OfClosing(at string, runs bool, items []sink.Item, stays func(*sink.Item) bool, says, why func(*sink.Item) string) Closing {
	out := Closing{At: at, Runs: runs, Items: []ClosingItem{}}
	for i := range items {
		x := &items[i]
		one := ClosingItem{Key: x.Key, Kind: string(x.Kind), Says: says(x), Why: why(x), Stays: stays(x), Done: x.Done != nil}
		switch {
		case x.Bath != nil:
			one.Bath = x.Bath.ID
		case x.Was != nil:
			one.Bath = x.Was.ID
		}
		out.Items = append(out.Items, one)
	}
	return out
}
