package fault_test

import (
	"fmt"

	"wetside/trade/fault"
)

// Flat prints out of a tray that was read at 15 °C: the cold comes before the spent developer, which leads where nothing is known.
func ExampleLook() {
	g, err := fault.Look(fault.Question{Sign: fault.FlatBlacks, Facts: []fault.Fact{{Kind: fault.DeveloperReadCold}}})
	if err != nil {
		panic(err)
	}
	for _, s := range g.Causes[:3] {
		fmt.Println(s.Cause, s.Kind, s.Points)
	}
	// Output:
	// developer_cold chemistry 20
	// developer_spent chemistry 10
	// developer_weak chemistry 6
}
