package waste_test

import (
	"fmt"
	"time"

	"wetside/trade/process"
	"wetside/trade/waste"
)

// Somebody at home, over a septic tank, asks where the stop bath goes.
func ExampleHere_Advise() {
	here := waste.Here{Place: waste.Home, Drain: waste.Septic, Now: time.Date(2026, time.December, 3, 21, 0, 0, 0, time.UTC)}
	a := here.Advise(process.StopBath)
	fmt.Println(a.Way, a.Why[0].Reason, a.Why[0].Source)
	fmt.Println(here.Advise(process.Fixer).Way)
	// Output:
	// keep_and_ask never_septic OregonMetro
	// collect
}

// A stop bath is not poured into the can of used fixer.
func ExampleCan_MayGo() {
	can := waste.Can{Takes: process.Fixer, Litres: 25}
	may := can.MayGo(waste.Bath{Role: process.StopBath}, nil)
	fmt.Println(may.Goes, may.Why, may.Pairs[0].Effect)
	fmt.Printf("%.0f L until it is full\n", can.Level(13).Room)
	// Output:
	// false must_not_meet sulfur_dioxide
	// 7 L until it is full
}
