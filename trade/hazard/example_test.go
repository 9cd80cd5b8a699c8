package hazard_test

import (
	"fmt"

	"wetside/trade/dilution"
	"wetside/trade/hazard"
)

func ExampleClassify() {
	r, err := hazard.Classify(hazard.Mixture{Ingredients: []hazard.Ingredient{
		{Name: "acetic acid", Share: hazard.Share{Low: 25, High: 28}},
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v %v %v %s\n", r.Classes, r.Codes, r.Pictograms, r.Signal)
	// Output: [Skin Corr. 1B] [H314] [GHS05] Danger
}

// The same acid as a stop bath, 1+31: nothing is left of its classes.
func ExampleDilute() {
	concentrate := []hazard.Ingredient{{Name: "acetic acid", Share: hazard.Share{Low: 25, High: 28}}}
	d, err := dilution.Read("1+31", dilution.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	bath, err := hazard.Dilute(concentrate, d, 1.04)
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := hazard.Classify(hazard.Mixture{Ingredients: bath, State: hazard.Working})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f to %.2f %%: %v, pH %.1f\n", bath[0].Share.Low, bath[0].Share.High, r.Codes, r.PHRule.PH)
	// Output: 0.81 to 0.91 %: [], pH 2.8
}
