package chem_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/chem"
)

func TestParseAmount(t *testing.T) {
	tests := map[string]string{
		"acetic acid 0.05 mol/kg":              "acetic acid 0.05 mol/kg",
		"Acetic Acid 0,05 MOL/KG":              "acetic acid 0.05 mol/kg",
		"acetic acid 50 mmol/kg":               "acetic acid 0.05 mol/kg",
		"acetic acid 50mmol/kg":                "acetic acid 0.05 mol/kg",
		"0.05 mol/kg acetic acid":              "acetic acid 0.05 mol/kg",
		" .2 mol/kg  sodium  acetate ":         "sodium acetate 0.2 mol/kg",
		"Na2CO3.10H2O 0.1 mol/kg":              "sodium carbonate decahydrate 0.1 mol/kg",
		"K2CO3·1.5H2O 0.1mol/kg":               "potassium carbonate sesquihydrate 0.1 mol/kg",
		"borax 0.01 mol/kg":                    "sodium tetraborate decahydrate 0.01 mol/kg",
		"sodium hydroxide 0 mol/kg":            "sodium hydroxide 0 mol/kg",
		"sodium hydroxide 20 mol/kg":           "sodium hydroxide 20 mol/kg",
		"sodium\u00a0chloride 0.5\u202fmol/kg": "sodium chloride 0.5 mol/kg",
		"NaCl 0.1 molal":                       "sodium chloride 0.1 mol/kg",
	}
	for text, want := range tests {
		a, err := chem.ParseAmount(text)
		if err != nil || a.String() != want {
			t.Errorf("%q: %v, %v, want %q", text, a, err, want)
		}
	}
}

func TestParseAmountErrors(t *testing.T) {
	type bad struct {
		At   int
		Why  chem.Why
		Near string
	}
	tests := map[string]bad{
		"":                                               {0, chem.WhyEmpty, "acetic acid 0.05 mol/kg"},
		"acetic acid":                                    {11, chem.WhyNoNumber, "0.05 mol/kg"},
		"acetic acid 0.05":                               {12, chem.WhyNoUnit, "0.05 mol/kg"},
		"acetic acid 0.05 mol":                           {17, chem.WhyUnknownUnit, "mol/kg"},
		"acetic acid 0.05 mol/L":                         {17, chem.WhyPerLitre, "mol/kg"},
		"acetic acid 3 g/L":                              {14, chem.WhyIsMass, "mol/kg"},
		"acetic acid -0.05 mol/kg":                       {12, chem.WhyNegative, ""},
		"acetic acid −0.05 mol/kg":                       {12, chem.WhyNegative, ""},
		"acetic acid 1,000 mmol/kg":                      {12, chem.WhyGrouped, ""},
		"acetic acid 21 mol/kg":                          {12, chem.WhyTooLarge, ""},
		"acetic acid 9999999999 mol/kg":                  {12, chem.WhyTooLarge, ""},
		"acetic acid 1e-3 mol/kg":                        {12, chem.WhyNoNumber, ""},
		"acetic acid NaN mol/kg":                         {12, chem.WhyNoNumber, ""},
		"acetic acid much mol/kg":                        {12, chem.WhyNoNumber, ""},
		"0.05 mol/kg":                                    {0, chem.WhyNoName, "acetic acid 0.05 mol/kg"},
		"mol/kg":                                         {0, chem.WhyNoNumber, ""},
		"acetik acid 0.05 mol/kg":                        {0, chem.WhyUnknown, "acetic acid"},
		"0.05 mol/kg acetik acid":                        {12, chem.WhyUnknown, "acetic acid"},
		"Na2CO3·4H2O 0.05 mol/kg":                        {0, chem.WhyNoSuchHydrate, "sodium carbonate decahydrate"},
		"acetic acid 0.0\xff5 mol/kg":                    {0, chem.WhyNotText, ""},
		"NaCl 0." + strings.Repeat("0", 12) + "1 mol/kg": {5, chem.WhyTooFine, ""},
		"NaCl 0." + strings.Repeat("1", 41) + " mol/kg":  {5, chem.WhyTooFine, ""},
		strings.Repeat("NaCl ", 50):                      {80, chem.WhyTooLong, ""},
	}
	for text, want := range tests {
		a, err := chem.ParseAmount(text)
		var re *chem.ReadError
		if !errors.As(err, &re) || a != (chem.Amount{}) {
			t.Errorf("%q: %v, %v, want a ReadError", text, a, err)
			continue
		}
		if diff := cmp.Diff(want, bad{re.At, re.Why, re.Near}); diff != "" || re.Want != "amount" {
			t.Errorf("%q, of %q: want −, got +\n%s", text, re.Want, diff)
		}
	}
}

// TestWhysAreNamed holds each reason apart from the others.
func TestWhysAreNamed(t *testing.T) {
	whys := chem.Whys()
	slices.Sort(whys)
	if n := len(slices.Compact(whys)); n != len(chem.Whys()) {
		t.Errorf("%d reasons, %d of them different", len(chem.Whys()), n)
	}
}
