package darkroom_test

import (
	"errors"
	"fmt"

	"wetside/darkroom"
	"wetside/trade/material"
)

// All mistakes of a file are told at once, each with its place.
func ExampleRead() {
	_, err := darkroom.Read([]byte(`darkroom: {name: Cellar}
bench:
  trays:
    - {name: white, for: developper, fill: 2}
session:
  to_make:
    - {material: RC paper, size: 8x10 in, sheets: -3}
`))
	problems, _ := errors.AsType[darkroom.Problems](err)
	for _, p := range problems {
		fmt.Println(p)
	}
	// Output:
	// bench.trays[0].for: must be developer, stop bath, fixer, washing aid, wetting agent, toner, hardener, holding or wash, got "developper"; did you mean developer? (line 4, column 26)
	// bench.trays[0].fill: must be a volume, such as 500 mL or 32 fl oz, got 2, which has no unit (line 4, column 44)
	// session.to_make[0].sheets: must be a whole number above 0, got -3 (line 7, column 51)
}

// A file is written in the order of the contract, everything in the words it was read in.
func ExampleWrite() {
	f, err := darkroom.Read([]byte(`
shelf: {products: [{form: liquid, role: fixer, name: rapid fixer, dilutions: {rc: "1:4"}, packs: [{price: 11.20, holds: 1 l}]}]}
darkroom: {name: Cellar}
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(string(darkroom.Write(f)))
	d := f.Shelf.Products[0].Dilutions[material.RC]
	strength, _ := d.Value.Strength(0)
	fmt.Println(d.Text, "is one part in", 1/strength.Float())
	// Output:
	// darkroom:
	//   name: Cellar
	//
	// shelf:
	//   products:
	//     - name: rapid fixer
	//       role: fixer
	//       form: liquid
	//       dilutions: {RC paper: "1:4"}
	//       packs: [{holds: 1 l, price: 11.20}]
	// 1:4 is one part in 5
}

// A form's problems carry the names of its inputs.
func ExampleReadForm() {
	var f darkroom.File
	_, err := darkroom.ReadForm[darkroom.Tray](f, darkroom.New, map[string]string{"name": "white", "inside": "38 x 30", "depth": "8 cm"})
	fmt.Println(err)
	tray, err := darkroom.ReadForm[darkroom.Tray](f, darkroom.New, map[string]string{"name": "white", "inside": "38 x 30 cm", "depth": "8 cm"})
	fmt.Println(tray.Inside.Value.Width, tray.Inside.Text, err)
	// Output:
	// inside: must be a size, such as 8x10 in or 24x30 cm, got 38 x 30, which has no unit
	// 38 cm 38 x 30 cm <nil>
}
