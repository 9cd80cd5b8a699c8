package outline

// A Fault is a reason for refusing a text whole, or a key that stands twice.
type Fault struct {
	Kind  FaultKind
	Place Place
	Path  string // of a key that stands twice
	Found string // what stands there, or a figure; may be empty
	First Place  // of a key that stands twice: where it stood first
}

// FaultKind is a reason, a stable key.
type FaultKind string

// The reasons.
const (
	TooLarge       FaultKind = "file_too_large"
	NotUTF8        FaultKind = "not_utf8"
	ControlChar    FaultKind = "control_character"
	TabIndent      FaultKind = "tab"
	EmptyFile      FaultKind = "empty_file"
	SecondDocument FaultKind = "second_document"
	RootNoMapping  FaultKind = "root_no_mapping"
	TooDeep        FaultKind = "too_deep"
	TooManyKeys    FaultKind = "too_many_keys"
	TooManyBlanks  FaultKind = "too_many_blanks"
	TooManySigns   FaultKind = "too_many_signs"
	Alias          FaultKind = "alias"
	Anchor         FaultKind = "anchor"
	MergeKey       FaultKind = "merge_key"
	Tag            FaultKind = "tag"
	Directive      FaultKind = "directive"
	NoPlainKey     FaultKind = "no_plain_key"
	DuplicateKey   FaultKind = "duplicate_key"
	Syntax         FaultKind = "syntax"
)

// Limits of a text.
const (
	MaxBytes  = 1 << 20
	MaxDepth  = 32
	MaxKeys   = 500  // of one mapping; the contract knows no more than some thirty
	MaxBlanks = 1000 // values left blank in the whole text
	// MaxSigns is how many brackets, commas, colons and dashes a text may have; every one is a token that costs
	// the lexer some microseconds. A darkroom file has a few thousand.
	MaxSigns  = 100_000
	maxFaults = 100
)

// Kinds returns all reasons.
func Kinds() []FaultKind {
	return []FaultKind{
		TooLarge, NotUTF8, ControlChar, TabIndent,
		EmptyFile, SecondDocument, RootNoMapping, TooDeep, TooManyKeys,
		TooManyBlanks, TooManySigns, Alias, Anchor, MergeKey,
		Tag, Directive, NoPlainKey, DuplicateKey, Syntax,
	}
}
