package keep_test

import (
	"fmt"
	"time"

	"wetside/trade/keep"
	"wetside/trade/process"
)

// Fixer made up for an evening at the start of November stands in a part-full bottle. Tonight it still does.
func ExampleUntil() {
	a, err := keep.Until(keep.Kept{
		Product: keep.Product{Role: process.Fixer, Form: keep.Working},
		State:   keep.PartBottle,
		Level:   0.8,
		Since:   keep.Moment{Time: time.Date(2026, time.November, 3, 0, 0, 0, 0, time.UTC), DayOnly: true},
		Now:     time.Date(2026, time.December, 1, 18, 30, 0, 0, time.UTC),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.Do, a.Binds.Rule, a.Binds.Day.Format(time.DateOnly), a.Days, a.Binds.Keeps.Source)
	// Output: use default_keeping 2026-12-03 2 RF-pl
}
