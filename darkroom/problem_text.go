package darkroom

import (
	"strings"

	"wetside/darkroom/outline"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/quantity"
)

// This file holds every English sentence of this package, so that package words can say them in another
// language by Kind.

// Message says the problem in plain English, without its path and place: what would be right, what was found,
// and the nearest right word.
func (p Problem) Message() string {
	say := p.ofFile
	for _, next := range []func() string{p.ofShape, p.ofBounds, p.ofRules, p.ofWords, p.ofLabel} {
		if s := say(); s != "" {
			return s + p.hint()
		}
		say = next
	}
	if s := say(); s != "" {
		return s + p.hint()
	}
	return "must be " + p.wanted() + p.got() + p.hint()
}

// hint names the nearest right word.
func (p Problem) hint() string {
	if p.Suggestion == "" {
		return ""
	}
	return "; did you mean " + p.Suggestion + "?"
}

// got says what was found: figures as they are, words in quotes.
func (p Problem) got() string {
	if p.Found == "" {
		return ""
	}
	return ", got " + shown(p.Found)
}

func shown(found string) string {
	if found == "" {
		return "this"
	}
	figure := strings.ContainsRune("0123456789+-.½¼¾⅓⅔<", []rune(found)[0])
	if figure || strings.HasPrefix(found, "a list of") || strings.HasPrefix(found, "a mapping of") {
		return found
	}
	return `"` + found + `"`
}

// ofFile says why a file was refused whole.
func (p Problem) ofFile() string {
	switch outline.FaultKind(p.Kind) {
	case outline.TooLarge:
		return "the file is larger than 1 MiB, and a darkroom file has some kilobytes: is it the right file?"
	case outline.NotUTF8:
		return "the byte " + p.Found + " is not UTF-8 text: save the file as UTF-8; or is it the wrong file?"
	case outline.ControlChar:
		return "the control character " + p.Found + " does not belong here: leave it out; or is it the wrong file?"
	case outline.TabIndent:
		return "a tab indents this line: use spaces"
	case outline.EmptyFile:
		return "the file is empty: it needs at least darkroom: with a name: below it"
	case outline.SecondDocument:
		return "a second document begins here: keep one in a file"
	case outline.RootNoMapping:
		return "the file must be made of fields such as darkroom: and bench:" + p.got()
	case outline.TooDeep:
		return "more than 32 levels deep: nothing here needs more than 8"
	case outline.TooManyKeys:
		return "more than 500 fields in one mapping: nothing here has more than 30"
	case outline.TooManyBlanks:
		return "more than 1,000 fields are left blank: take them out"
	case outline.TooManySigns:
		return p.Found + " brackets, commas, colons and dashes are too many: a darkroom file has a few thousand; is it the right file?"
	default:
		return p.ofYAML()
	}
}

// ofYAML says which part of YAML is not read here.
func (p Problem) ofYAML() string {
	switch outline.FaultKind(p.Kind) {
	case outline.Alias:
		return "an alias (*) is not read here: write the value out"
	case outline.Anchor:
		return "an anchor (&) is not read here: leave it out"
	case outline.MergeKey:
		return "a merge key (<<) is not read here: write the fields out"
	case outline.Tag:
		return "a tag (!) is not read here: leave it out"
	case outline.Directive:
		return "a directive (%) is not read here: leave the line out"
	case outline.NoPlainKey:
		return "a field's name must be a plain word and a colon"
	case outline.DuplicateKey:
		if p.Expected.Other != "" {
			return "stands twice, first in " + p.Expected.Other + ": keep one"
		}
		return "stands twice under different names: keep one"
	case outline.Syntax:
		var why string
		if p.Found != "" {
			why = " (" + p.Found + ")"
		}
		return "this is not YAML" + why + ": look at the indentation, the colons, the brackets and the quotes"
	default:
		return ""
	}
}

// ofShape says that a field is missing, unknown, or of the wrong shape.
func (p Problem) ofShape() string {
	switch p.Kind {
	case ProblemMissing:
		return "must be given"
	case ProblemUnknownField:
		if p.Suggestion != "" || len(p.Expected.Words) == 0 {
			return "there is no such field here"
		}
		return "there is no such field here, but " + oneOf(p.Expected.Words, "and")
	case ProblemNotMapping:
		if len(p.Expected.Words) > 0 {
			return "must be a mapping with fields such as " + p.Expected.Words[0] + p.got()
		}
		return "must be a mapping by " + p.Expected.What + p.got()
	case ProblemNotList:
		return "must be a list: [ ] or a line with - for each" + p.got()
	case ProblemNotOneValue:
		return "must be one value" + p.got()
	case ProblemBlankItem:
		return "this item of the list is blank: fill it in or leave it out"
	case ProblemTextTooLong:
		return "must have no more than " + p.Expected.High + " bytes"
	case ProblemNotAWord:
		return "must be " + oneOf(p.Expected.Words, "or") + p.got()
	default:
		return ""
	}
}

// ofBounds says that a figure is not where it should be.
func (p Problem) ofBounds() string {
	switch p.Kind {
	case ProblemNotACount:
		if p.Expected.Low == "0" {
			return "must be a whole number, 0 or more" + p.got()
		}
		return "must be a whole number above 0" + p.got()
	case ProblemOutOfBounds:
		if p.Expected.Low == "" {
			return "must be at most " + p.Expected.High + p.got()
		}
		return "must be from " + p.Expected.Low + " to " + p.Expected.High + p.got()
	case ProblemNotPositive:
		return "must be more than 0" + p.got()
	case ProblemNegative:
		return "must not be less than 0" + p.got()
	case ProblemNoSuchDate:
		return "there is no such date or time" + p.got()
	case ProblemNotRising:
		return "must rise from figure to figure" + p.got()
	case ProblemWhichOunce:
		return "which ounce, pint, quart or gallon? Set darkroom.ounce to us or imperial, or put US or imperial before it" + p.got()
	default:
		return ""
	}
}

// ofRules says what fields together do not allow.
func (p Problem) ofRules() string {
	e := p.Expected
	switch p.Kind {
	case ProblemHotBelowCold:
		return "must not be colder than cold, which is " + e.Low + p.got()
	case ProblemDoesNotGo:
		return shown(p.Found) + " cannot stand with " + e.Other + ": change one or leave it out"
	case ProblemNotAbove:
		return "must be above " + e.Other + ", which is " + e.Low + p.got()
	case ProblemMarksDoNotDivide:
		return "steps of " + p.Found + " do not lead from the mark " + e.Low + " to the mark " + e.High
	case ProblemTooManyMarks:
		return "makes " + p.Found + " marks: a scale here has at most " + e.High
	case ProblemNumbersMiss:
		return "no mark is a multiple of " + p.Found + ": they go from " + e.Low + " to " + e.High + " by " + e.Other
	case ProblemOverBrim:
		return "must not be more than the tray holds to its brim, " + e.High + p.got()
	case ProblemNotFor:
		return "the product is for " + oneOf(e.Words, "and") + " only, not for " + e.Other
	case ProblemMoreThanHolds:
		return "must not be more than it holds, " + e.High + p.got()
	case ProblemBefore:
		return "must not be before " + e.Other + ", which is " + e.Low + p.got()
	case ProblemSameName:
		return "no two may have the same name, and " + e.Other + " is called that, too" + p.got()
	case ProblemNoSuchProduct:
		return "no product of the shelf has this name" + p.got()
	case ProblemNoSuchRoleOrProduct:
		return "must be a role or a product of the shelf" + p.got()
	case ProblemNoSuchPerson:
		return "nobody of people has this name" + p.got()
	case ProblemNoDeveloper:
		return "must be a developer; this product is a " + e.Other + p.got()
	default:
		return ""
	}
}

// ofWords says why a quantity could not be read.
func (p Problem) ofWords() string {
	var why string
	switch quantity.Why(p.Kind) {
	case quantity.WhyNoNumber:
		why = "which does not begin with a number"
	case quantity.WhyNoUnit:
		why = "which has no unit"
	case quantity.WhyUnknownUnit:
		why = "whose unit is unknown"
	case quantity.WhyTooLarge:
		why = "which is too large"
	case quantity.WhyTooSmall:
		why = "which is too small"
	case quantity.WhyTrailing:
		why = "whose last words mean nothing here"
	case quantity.WhyIsMass:
		why = "which is a mass"
	case quantity.WhyIsVolume:
		why = "which is a volume"
	case quantity.WhyTooLong:
		why = "which is too long"
	case quantity.WhyNotText:
		why = "which is not UTF-8 text"
	case quantity.WhyGrouped:
		why = "which may be one or a thousand: write 1000 or 1.0"
	case quantity.WhyNoFraction:
		why = "which is no fraction"
	case quantity.WhyReversed:
		why = "which runs from more to less"
	case quantity.WhyNotWhole:
		why = "which must be whole"
	case quantity.WhyEmpty, material.WhyUnknownWord:
		return "must be " + p.wanted() + p.got()
	case quantity.WhyNegative, quantity.WhyNotPositive, quantity.WhyNoSuchDate, quantity.WhyWhichOunce:
		return ""
	default:
		return ""
	}
	return "must be " + p.wanted() + p.got() + ", " + why
}

// ofLabel says why words are no dilution.
func (p Problem) ofLabel() string {
	var why string
	switch dilution.Reason(p.Kind) {
	case dilution.NoParts:
		why = "which says nothing of the water"
	case dilution.NoWater:
		why = "which has no water in it: write undiluted for that"
	case dilution.NoChemical:
		why = "which has no chemical in it"
	case dilution.MoreThanWhole:
		why = "which is more than the whole"
	case dilution.Dangling:
		why = "where something is missing beside the sign"
	case dilution.TooMany:
		why = "which has more than two chemicals and water"
	case dilution.TwoChemicals:
		why = "which has a chemical on both sides"
	case dilution.UnitOnOneSide:
		why = "which has a unit on one side only"
	case dilution.Trailing:
		why = "whose last words mean nothing here"
	default:
		return ""
	}
	return "must be " + p.wanted() + p.got() + ", " + why
}

// wanted says what is read here, with an example.
func (p Problem) wanted() string {
	examples := map[string]string{
		"volume":       "a volume, such as 500 mL or 32 fl oz",
		"unit":         "a unit of volume, such as mL or fl oz, or g for a balance",
		"temperature":  "a temperature, such as 20 °C or 68 °F",
		"length":       "a length, such as 15 mm, 8 cm or 1/2 in",
		"size":         "a size, such as 8x10 in or 24x30 cm",
		"duration":     "a time, such as 90 s or 9 min 45 s",
		"period":       "a keeping time, such as 24 months, 1 week or 24 h",
		"share":        "a percentage, such as 15 %",
		"range":        "a percentage, such as 5 % or 1 to 2 %",
		"density":      "a density, such as 1.10 g/mL",
		"dilution":     "a dilution, such as 1+9, 1 in 32 or 25 mL per litre",
		"capacity":     "a capacity, such as 50 8x10 in per L, 1 m2 per L, 20 rolls per L or 30 8x10 in per bottle",
		"silver":       "a silver content, such as 0.5 g/L",
		"error":        "an error, such as 5 mL, 2 %, or 5 mL, 2 % for the larger; of a balance 0.1 g",
		"reuse":        "one-shot, +10 % per roll, or replenish 20 mL per roll",
		"hazard":       "a hazard statement, such as H314",
		"part":         "a part of a whole, such as 1/4",
		"mark":         "a number, such as 100 or 1/2",
		"number":       "a number, such as 0.5",
		"price":        "a price with at most two decimals, such as 11.20",
		"date":         "a date, such as 2026-09-02",
		"moment":       "a date and a time, such as 2026-12-03 18:30",
		"holding":      "a volume, such as 500 mL, or 1 packet",
		"language":     "a language, such as en",
		"currency":     "a currency of at most 8 letters, such as EUR",
		"text":         "words on one line",
		"material":     "a material: RC paper, FB paper or film",
		"count":        "a whole number",
		"role":         "a role, such as fixer",
		"fixing":       "one bath or two baths",
		"standard":     "work print, exhibition or archival",
		"yes or no":    "yes or no",
		"paper format": "A4 or Letter",
	}
	if s, ok := examples[p.Expected.What]; ok {
		return s
	}
	return "a " + p.Expected.What
}

// oneOf lists words with the last joined by and or or; long lists are cut.
func oneOf(words []string, joint string) string {
	const most = 12
	switch {
	case len(words) == 0:
		return "nothing"
	case len(words) == 1:
		return words[0]
	case len(words) > most:
		return strings.Join(words[:most], ", ") + " " + joint + " others"
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + joint + " " + words[len(words)-1]
}
