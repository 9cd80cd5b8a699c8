package hazards_test

import (
	"slices"
	"testing"

	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/dilution"
	"wetside/trade/hazard/ghs"
	"wetside/trade/process"
)

// A bath's label is that of its dilution, and undiluted that of the bottle; a can's takes in every dilution of its role as used.
func TestLabelled(t *testing.T) {
	f, err := darkroom.Read([]byte(`
darkroom: {name: Test, law: EU}
shelf:
  products:
    - {name: strong stop, role: stop bath, form: liquid, dilutions: {RC paper: 1+1}, contains: [{substance: acetic acid, share: 60 %}], hazards: [H314]}
    - {name: fixer, role: fixer, form: liquid, dilutions: {RC paper: 1+9, film: 1+4}, contains: [{substance: ammonium thiosulfate, share: 50 %}, {substance: acetic acid, share: 2 %}]}
    - {name: other fixer, role: fixer, form: liquid, dilutions: {RC paper: 1+4}, hazards: [H319]}
`))
	if err != nil {
		t.Fatal(err)
	}
	p, _ := f.Shelf.Product("strong stop")
	bought, err := hazards.OfBath(f, &p, dilution.Dilution{})
	if err != nil || bought.Signal != ghs.Danger || !slices.Contains(bought.Pictograms, ghs.Corrosion) {
		t.Errorf("undiluted: %+v, %v", bought, err)
	}
	thin, err := dilution.Read("1+9", dilution.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := hazards.OfBath(f, &p, thin); err != nil || slices.Contains(got.Codes, "H314") {
		t.Errorf("1+9, about 6 %% of acid, burns: %+v, %v", got, err)
	}
	can, err := hazards.OfCan(f, process.Fixer)
	if err != nil || !can.NotJudged || !slices.Equal(can.Bought, []string{"H319"}) {
		t.Errorf("can: %+v, %v", can, err)
	}
	if got, err := hazards.OfCan(f, process.Toner); err != nil || len(got.Codes) > 0 || got.NotJudged {
		t.Errorf("a can for what is not on the shelf: %+v, %v", got, err)
	}
}
