package quantity_test

import (
	"errors"
	"fmt"
	"time"

	"wetside/trade/quantity"
)

func ExampleReadVolume() {
	for _, text := range []string{"½ fl oz", "1 imp pint", "1,5 L", "250 cc"} {
		v, err := quantity.ReadVolume(text, quantity.OunceUS)
		fmt.Println(text, "=", v.ML(), "mL", err)
	}
	// Output:
	// ½ fl oz = 14.78676478125 mL <nil>
	// 1 imp pint = 568.26125 mL <nil>
	// 1,5 L = 1500 mL <nil>
	// 250 cc = 250 mL <nil>
}

// What cannot be read says where and why, and an ounce of no system is not guessed at.
func ExampleReadError() {
	for _, text := range []string{"16 oz", "10 litter", "1,000 mL", "100 g"} {
		_, err := quantity.ReadVolume(text, quantity.NoOunce)
		if re, ok := errors.AsType[*quantity.ReadError](err); ok {
			fmt.Printf("%s: %s at %d, near %q\n", text, re.Why, re.At, re.Near)
		}
	}
	// Output:
	// 16 oz: which_ounce at 3, near ""
	// 10 litter: unknown_unit at 3, near "liter"
	// 1,000 mL: grouped at 0, near ""
	// 100 g: is_a_mass at 4, near ""
}

func ExampleReadWindow() {
	for _, text := range []string{"900 mL to 1 L", "1.4–1.6 L", "2 L"} {
		w, err := quantity.ReadWindow(text, quantity.NoOunce)
		fmt.Println(w.Min, w.Max, "wanted", w.Want, err)
	}
	// Output:
	// 900 mL 1 L wanted 1 L <nil>
	// 1.4 L 1.6 L wanted 1.6 L <nil>
	// 1.8 L 2.2 L wanted 2 L <nil>
}

func ExampleVolumeOf() {
	half, _ := quantity.NewRatio(1, 2)
	v, err := quantity.VolumeOf(half, quantity.UnitUSQuart)
	fmt.Println(v, v.InUnit(quantity.UnitUSOunce), err)
	// Output: 16 US fl oz 16 <nil>
}

// Computed volumes are rounded to what can be measured, and said to be none where that would be another amount.
func ExampleVolume_In() {
	for _, ml := range []float64{1000, 236.588, 9.46, 0.004} {
		v, _ := quantity.VolumeOfML(ml)
		metric, ok := v.In(quantity.Metric)
		us, _ := v.In(quantity.US)
		fmt.Println(plainly(metric), ok, plainly(us))
	}
	// Output:
	// 1 L true 33.8 US fl oz
	// 237 mL true 8 US fl oz
	// 9.5 mL true 0.32 US fl oz
	//  false
}

func ExampleVolumeUnit_Mark() {
	n, _ := quantity.NewRatio(5, 4)
	jug, _ := quantity.UnitUSOunce.Mark(n)
	cylinder, _ := quantity.UnitML.Mark(n)
	fmt.Println(jug, quantity.UnitUSOunce, "or", cylinder, quantity.UnitML)
	// Output: 1 1/4 US fl oz or 1.25 mL
}

func ExampleStyle() {
	metric, us := quantity.Style{}, quantity.Style{System: quantity.US}
	cold, _ := us.Temperature(12)
	time90, _ := metric.Duration(90 * time.Second)
	error7, _ := metric.PlusMinus(0.07)
	depth, _ := us.Length(15)
	fmt.Println(plainly(cold), plainly(time90), plainly(error7), plainly(depth))
	// Output: 54 °F 1 min 30 s ±7 % 9/16 in
}

func ExamplePeriod_From() {
	opened := time.Date(2026, time.October, 14, 0, 0, 0, 0, time.UTC)
	keeps, err := quantity.ReadPeriod("6 months")
	fmt.Println(keeps.From(opened).Format(time.DateOnly), err)
	// Output: 2027-04-14 <nil>
}

func ExampleReadSize() {
	w, h, err := quantity.ReadSize(`8×10"`)
	fmt.Printf("%v by %v, %.4f m² %v\n", w, h, float64(quantity.AreaOf(w, h)), err)
	// Output: 8 in by 10 in, 0.0516 m² <nil>
}
