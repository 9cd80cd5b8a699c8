package darkroom

import (
	"slices"

	"wetside/darkroom/outline"
)

// ProblemKind is the reason of a Problem, a stable key of the message catalogue. Beside these it may be any reason
// of package outline, quantity or dilution.
type ProblemKind string

// The reasons that are this package's own, and those it looks for.
const (
	ProblemMissing             ProblemKind = "missing"
	ProblemUnknownField        ProblemKind = "unknown_field"
	ProblemDuplicateKey        ProblemKind = "duplicate_key"
	ProblemNotMapping          ProblemKind = "not_a_mapping"
	ProblemNotList             ProblemKind = "not_a_list"
	ProblemNotOneValue         ProblemKind = "not_one_value"
	ProblemBlankItem           ProblemKind = "blank_item"
	ProblemTextTooLong         ProblemKind = "text_too_long"
	ProblemControlCharacter    ProblemKind = "control_character"
	ProblemNotAWord            ProblemKind = "not_a_word" // none of Expected.Words
	ProblemUnreadable          ProblemKind = "unreadable" // not of the form of Expected.What
	ProblemNotACount           ProblemKind = "not_a_count"
	ProblemOutOfBounds         ProblemKind = "out_of_bounds"
	ProblemNotPositive         ProblemKind = "not_positive"
	ProblemNegative            ProblemKind = "negative"
	ProblemNoSuchDate          ProblemKind = "no_such_date"
	ProblemWhichOunce          ProblemKind = "which_ounce"
	ProblemNotRising           ProblemKind = "not_rising"
	ProblemHotBelowCold        ProblemKind = "hot_below_cold"
	ProblemDoesNotGo           ProblemKind = "does_not_go" // beside Expected.Other it would mean nothing
	ProblemNotAbove            ProblemKind = "not_above"
	ProblemMarksDoNotDivide    ProblemKind = "marks_do_not_divide"
	ProblemTooManyMarks        ProblemKind = "too_many_marks"
	ProblemNumbersMiss         ProblemKind = "numbers_miss"
	ProblemOverBrim            ProblemKind = "over_the_brim"
	ProblemNotFor              ProblemKind = "not_for" // a material that is none of Expected.Words
	ProblemMoreThanHolds       ProblemKind = "more_than_it_holds"
	ProblemBefore              ProblemKind = "before" // a date before that of Expected.Other
	ProblemSameName            ProblemKind = "same_name"
	ProblemNoSuchProduct       ProblemKind = "no_such_product"
	ProblemNoSuchRoleOrProduct ProblemKind = "no_such_role_or_product"
	ProblemNoDeveloper         ProblemKind = "no_developer"
	ProblemNoSuchPerson        ProblemKind = "no_such_person"
)

// ProblemKinds returns the reasons that are this package's own and those of package outline, for a catalogue that
// has to hold them all. Beside them a Problem may have any quantity.Why or dilution.Reason.
func ProblemKinds() []ProblemKind {
	kinds := []ProblemKind{
		ProblemMissing, ProblemUnknownField, ProblemDuplicateKey,
		ProblemNotMapping, ProblemNotList, ProblemNotOneValue,
		ProblemBlankItem, ProblemTextTooLong, ProblemControlCharacter,
		ProblemNotAWord, ProblemUnreadable, ProblemNotACount,
		ProblemOutOfBounds, ProblemNotPositive, ProblemNegative,
		ProblemNoSuchDate, ProblemWhichOunce, ProblemNotRising,
		ProblemHotBelowCold, ProblemDoesNotGo, ProblemNotAbove,
		ProblemMarksDoNotDivide, ProblemTooManyMarks, ProblemNumbersMiss,
		ProblemOverBrim, ProblemNotFor, ProblemMoreThanHolds,
		ProblemBefore, ProblemSameName, ProblemNoSuchProduct,
		ProblemNoSuchRoleOrProduct, ProblemNoDeveloper, ProblemNoSuchPerson,
	}
	for _, k := range outline.Kinds() {
		if !slices.Contains(kinds, ProblemKind(k)) {
			kinds = append(kinds, ProblemKind(k))
		}
	}
	return kinds
}
