package draw_test

import (
	"fmt"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// Concentrate to the 100 mark of a beaker that is printed from 50 to 250 mL.
func ExampleReading_Text() {
	beaker := measure.Vessel{Name: "small beaker", Kind: measure.Beaker, Scales: []measure.Scale{{
		Unit: quantity.UnitML, From: quantity.Int(50), To: quantity.Int(250), Step: quantity.Int(50), Numbered: quantity.Int(50),
	}}}
	text, err := draw.Reading{
		Vessel: beaker, Mark: quantity.Int(100), Pour: draw.Concentrate,
		Say: draw.ReadingWords{Units: []string{"mL"}, Stop: "stop here"},
	}.Text(draw.TextOptions{})
	fmt.Print(text, err)
	// Output:
	//               ╲    mL                 │
	//                ├── 250                │
	//                ├── 200                │
	//                ├── 150                │
	//      100 mL ━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━ stop here
	//                ├── 50 ╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱│
	//                │╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱╱│
	//                └──────────────────────┘
	// <nil>
}

func ExampleProgress_Scene() {
	s, err := draw.Progress{At: 1, Of: 2, Say: "1 of 2", Label: "step 1 of 2"}.Scene(scene.Light)
	fmt.Println(s.SVG(), err)
	// Output:
	// <svg class="drawing" viewBox="0 0 346 36" width="346" height="36" role="img" aria-label="step 1 of 2" fill="none" stroke-linejoin="round"><path d="M0 33.5L346 33.5" stroke="var(--hair)" stroke-width="1"/><path d="M86.5 6L86.5 33.5" stroke="var(--accent)" stroke-width="5"/><path d="M259.5 25L259.5 33.5" stroke="var(--soft)" stroke-width="1"/><text x="95.5" y="17" font-size="16" font-weight="700" fill="var(--ink)">1 of 2</text></svg> <nil>
}
