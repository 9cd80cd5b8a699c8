package words_test

import (
	"context"
	"fmt"
	"time"

	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/words"
)

// exampleMix returns two litres of paper developer 1+9 from a litre jug.
func exampleMix() (measure.Choice, words.Batch, error) {
	jug := measure.Vessel{Name: "litre jug", Kind: measure.Jug, Scales: []measure.Scale{{
		Unit: quantity.UnitML, From: quantity.Int(100), To: quantity.Int(1000), Step: quantity.Int(50),
		Numbered: quantity.Int(100),
	}}}
	d := dilution.Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, Water: quantity.Int(9)}
	res, err := measure.Solve(context.Background(), measure.Problem{
		Dilution: d, Tolerance: 0.15, Vessels: []measure.Vessel{jug},
		Window: quantity.Window{Min: 1900 * quantity.Millilitre, Max: 2 * quantity.Litre, Want: 2 * quantity.Litre},
	}, measure.Options{NoAdvice: true})
	if err != nil || len(res.Choices) == 0 {
		return measure.Choice{}, words.Batch{}, fmt.Errorf("no choice: %w", err)
	}
	return res.Choices[0], words.Batch{
		Vessels: []measure.Vessel{jug}, Dilution: d, Chemical: "paper developer", Into: "white",
	}, nil
}

func ExampleVoice_Walk() {
	v, err := words.New("en", quantity.Metric, quantity.NoOunce)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, b, err := exampleMix()
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, line := range v.Walk(c, b) {
		fmt.Printf("%d %5s %-2s %s\n", i+1, line.Number, line.Unit, line.Text())
	}
	// Output:
	// 1   200 mL Paper developer to the 200 mark of the litre jug.
	// 2  1000 mL Then fill with water to the 1000 mark of the litre jug.
	// 3          Pour it into the white tray.
	// 4  1000 mL Water to the 1000 mark of the litre jug.
	// 5          Pour it into the white tray and stir.
}

func ExampleVoice_Mix() {
	v, err := words.New("en", quantity.Metric, quantity.NoOunce)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, b, err := exampleMix()
	if err != nil {
		fmt.Println(err)
		return
	}
	first := v.Mix(c, b)[0]
	for _, segment := range first.Say {
		if segment.Weight == words.Heavy {
			fmt.Printf("<b>%s</b>", segment.Text)
			continue
		}
		fmt.Print(segment.Text)
	}
	fmt.Printf("\n%s\n", first.Next)
	// Output:
	// <b>Paper developer</b> to the <b>200</b> mark of the <b>litre jug</b>.
	// then fill with water to 1000; first of two jugfuls
}

func ExampleVoice_Caution() {
	v, err := words.New("en", quantity.Metric, quantity.NoOunce)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Caution(plan.Caution{Kind: plan.AcidIntoWater, Subject: "print stop"}))
	// Output:
	// Print stop is an acid: acid into water, never water onto acid.
}

func ExampleVoice_DateTime() {
	v, err := words.New("en", quantity.US, quantity.OunceUS, words.Zone(time.FixedZone("EST", -5*3600)))
	if err != nil {
		fmt.Println(err)
		return
	}
	text := v.DateTime(time.Date(2026, 12, 3, 23, 30, 0, 0, time.UTC))
	fmt.Printf("%+q\n", text)
	// Output:
	// "Thursday, December\u00a03, 6:30\u00a0pm"
}
