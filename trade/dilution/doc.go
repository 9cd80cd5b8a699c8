// Package dilution turns a label's words into parts: "1+9", "1:9" (read as 1+9, and says so), "1 in 32", "31 parts
// water to 1 part concentrate", "16 mL per litre", "1/2 fl oz per quart", "3 %", "stock", "1+1+10" (A, B, water), "1+1
// from stock", "100 mL made up to 1.5 L". Parts are exact ratios; strength is chemical ÷ total. Serial dilutions
// compose: strength multiplies.
//
// # Grammar
//
//	dilution = [ verb ] ( alone | parts | share ) [ "with water" | "in water" ] [ "from stock" ]
//	alone    = "stock" [ neat ] | neat [ "stock" ]
//	neat     = "undiluted" | "neat" | "straight" | "full strength" | "as is"
//	share    = number "%"
//	parts    = figure sign figure [ sign figure ]
//	figure   = [ thing ] number [ unit ] [ "part" | "parts" ] [ "of" ] [ thing ]
//	number   = as package quantity reads it | "one" … "twenty" | "half" | "a" before a unit or a part
//	unit     = of volume, as package quantity reads it; alone it is one of it: "per litre"
//	thing    = "concentrate", "chemical", "stock", "developer", "fixer", "stop bath", …
//	         | "A" | "B" | "water" | "working solution"
//	verb     = "use" | "mix" | "dilute" | "dilution"
//
//	sign                                    the second figure is    how it was read is noted
//	"+"  "plus"  "with"  "diluted with"     water                   no
//	"and"  ","   where things are named     water                   no
//	":"  "to"  "-to-"                       water                   ColonRead, unless water is named
//	"in"  "per"  "/"                        the whole               MadeUpTo, by volume
//	"in"  "per"  "to"   by volume and …     … water, where named    AddedTo
//	"made up to"  "to make"  "makes"  …     the whole               no
//
// Either order will do where water, or everything else, is named. Of three figures two are chemicals, A before B. A
// percentage is by volume. The last word names the dilution where it stands straight behind the last figure
// ("1+9 stock"), unless parts or units are counted or the figure before it is larger ("9+1 developer", refused).
//
// Parts stay as written, ½+4½ too; volumes and percentages become what a printer would say: the first chemical
// 1 where the rest then has two decimals at most (16 mL per litre: 1+61.5), else the least whole numbers up to 1000 (3 %:
// 3+97), else the first chemical 1 with an exact fraction.
//
// Refused, with the place and a reason: nothing or less than nothing on either side, more than the whole, a dangling
// sign, trailing words that mean nothing, a unit on one side only, a mass, an ounce of no system where it matters which,
// anything weaker than one in a million.
//
// Source: common practice of the trade (a+b is a parts of chemical and b parts of water).
package dilution
