package dilution

// A thing is what a figure counts.
type thing uint8

const (
	unnamed thing = iota
	chemical
	stock
	partA
	partB
	water
	whole // "working solution"
)

// A phrase is some words, in lower case, and what they name. Of two that start alike the longer stands first.
type phrase[T any] struct {
	text string
	is   T
}

// leadingThings may stand before a figure: "developer 1+9", "water 9 to fixer 1".
var leadingThings = []phrase[thing]{
	{"stock solution", stock},
	{"stock", stock},
	{"concentrated", chemical},
	{"concentrate", chemical},
	{"chemical", chemical},
	{"paper", chemical},
	{"print", chemical},
	{"film", chemical},
	{"rapid", chemical},
	{"developer", chemical},
	{"dev", chemical},
	{"fixer", chemical},
	{"fix", chemical},
	{"stop bath", chemical},
	{"stop", chemical},
	{"washing aid", chemical},
	{"wetting agent", chemical},
	{"toner", chemical},
	{"hardener", chemical},
	{"tap water", water},
	{"distilled water", water},
	{"cold water", water},
	{"warm water", water},
	{"water", water},
}

// things may stand behind one.
var things = append([]phrase[thing]{
	{"a", partA},
	{"b", partB},
	{"working solution", whole},
	{"working bath", whole},
	{"solution", whole},
}, leadingThings...)

// A sign is what stands between two figures.
type sign uint8

const (
	plus  sign = iota // the second is added
	comma             // the same, where the words name what is mixed
	colon             // the same, by the trade's usual reading
	to                // the same
	in                // the second is the whole, unless it is water
	per               // the same
	upTo              // the second is the whole
)

var signs = []phrase[sign]{
	{"with water to make", upTo},
	{"in water to make", upTo},
	{"water to make", upTo},
	{"to make", upTo},
	{"makes", upTo},
	{"with water made up to", upTo},
	{"made up with water to", upTo},
	{"made up to", upTo},
	{"make up to", upTo},
	{"made to", upTo},
	{"topped up to", upTo},
	{"top up to", upTo},
	{"diluted to", upTo},
	{"dilute to", upTo},
	{"made up with", plus},
	{"diluted with", plus},
	{"added to", plus},
	{"plus", plus},
	{"with", plus},
	{"&", plus},
	{"+", plus},
	{"＋", plus},
	{"and", comma},
	{",", comma},
	{"-to-", to},
	{"to", to},
	{":", colon},
	{"∶", colon}, // the sign of a ratio
	{"：", colon}, // full width
	{"in", in},
	{"per", per},
	{"/", per},
}

// takesBareUnit tells whether a unit without a number may follow: "per litre", "to the litre".
func (s sign) takesBareUnit() bool { return s == to || s == in || s == per || s == upTo }

// adds tells whether the sign puts water to the chemical.
func (s sign) adds() bool { return s <= to }

var (
	verbs     = []string{"use", "mix", "mixed", "dilute", "diluted", "dilution:", "dilution"}
	neatWords = []string{"undiluted", "neat", "straight", "full strength", "as is"}
)

// numberWords are the numbers from nought to twenty.
var numberWords = []phrase[int64]{
	{"zero", 0},
	{"one", 1},
	{"two", 2},
	{"three", 3},
	{"four", 4},
	{"five", 5},
	{"six", 6},
	{"seven", 7},
	{"eight", 8},
	{"nine", 9},
	{"ten", 10},
	{"eleven", 11},
	{"twelve", 12},
	{"thirteen", 13},
	{"fourteen", 14},
	{"fifteen", 15},
	{"sixteen", 16},
	{"seventeen", 17},
	{"eighteen", 18},
	{"nineteen", 19},
	{"twenty", 20},
}
