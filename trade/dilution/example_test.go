package dilution_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"

	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

func ExampleRead() {
	for _, words := range []string{
		"1+9", "1 in 32", "31 parts water to 1 part concentrate", "16 mL per litre", "16 mL to 1 litre of water",
		"1/2 fl oz per quart", "3 %", "1+1 from stock", "1+1+10",
	} {
		d, err := dilution.Read(words, dilution.Options{Ounce: quantity.OunceUS})
		fmt.Println(words, "=", d, d.Note.Key(), err)
	}
	// Output:
	// 1+9 = 1+9  <nil>
	// 1 in 32 = 1+31  <nil>
	// 31 parts water to 1 part concentrate = 1+31  <nil>
	// 16 mL per litre = 1+61.5 made_up_to <nil>
	// 16 mL to 1 litre of water = 1+62.5 added_to <nil>
	// 1/2 fl oz per quart = 1+63 made_up_to <nil>
	// 3 % = 3+97 made_up_to <nil>
	// 1+1 from stock = 1+1 from stock  <nil>
	// 1+1+10 = 1+1+10  <nil>
}

// A colon is read as a plus, and how much it would matter is there to be said.
func ExampleDilution_Stronger() {
	d, err := dilution.Read("1:9", dilution.Options{})
	fmt.Println(d, "or else 1 and", d.Other, "stronger by", d.Stronger(), err)
	// Output: 1+9 or else 1 and 8 stronger by 1/9 <nil>
}

// A stock made up 1+3 and used 1+1 is the bottle at 1+7.
func ExampleDilution_Then() {
	stock, _ := dilution.Read("1+3", dilution.Options{})
	working, _ := dilution.Read("1+1 from stock", dilution.Options{})
	d, err := stock.Then(working)
	fmt.Println(d, err)
	// Output: 1+7 <nil>
}

func ExampleDilution_Amounts() {
	d, _ := dilution.Read("1+31", dilution.Options{})
	chemicals, water, err := d.Amounts(quantity.USQuart)
	fmt.Println(chemicals[0], "and", water, err)
	// Output: 1 US fl oz and 31 US fl oz <nil>
}

func ExampleDilution_MarshalJSON() {
	d, _ := dilution.Read("1+31", dilution.Options{})
	if err := json.NewEncoder(os.Stdout).Encode(d); err != nil {
		fmt.Println(err)
	}
	// Output: {"read_as":"1+31","chemical_parts":"1","water_parts":"31","strength":0.03125,"note":null}
}

func ExampleError() {
	for _, words := range []string{"1+0", "5 in 3", "1+", "1+9 foo", "9+1 developer"} {
		_, err := dilution.Read(words, dilution.Options{})
		if e, ok := errors.AsType[*dilution.Error](err); ok {
			fmt.Printf("%s: %s at %q\n", words, e.Reason, words[e.At:])
		}
	}
	// Output:
	// 1+0: no_water at "0"
	// 5 in 3: more_than_whole at "3"
	// 1+: dangling at "+"
	// 1+9 foo: trailing_words at "foo"
	// 9+1 developer: which_side at "1 developer"
}
