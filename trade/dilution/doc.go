// Package dilution turns a label's words into parts: "1+9", "1:9" (read as 1+9, and says so), "1 in 32",
// "31 parts water to 1 part concentrate", "16 mL per litre", "1/2 fl oz per quart", "3 %", "stock",
// "1+1+10" (A, B, water), "1+1 from stock", "100 mL made up to 1.5 L". Parts are exact ratios; strength
// is chemical ÷ total. Serial dilutions compose: strength multiplies.
//
// Refused, with the place and a reason: nothing or less than nothing on either side, more than the
// whole, a dangling sign, trailing words that mean nothing, an ounce of no system.
//
// Source: common practice of the trade (a+b is a parts of chemical and b parts of water).
package dilution
