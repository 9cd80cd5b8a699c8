package process

import (
	"strings"

	"wetside/trade/material"
	"wetside/trade/quantity"
)

// Role is what a chemical does.
type Role uint8

// The roles. The zero value is none.
const (
	NoRole Role = iota
	Developer
	StopBath
	Fixer
	WashingAid
	WettingAgent
	Toner
	Hardener
)

// Roles returns the roles in their order, for lists and for the nearest right word.
func Roles() []Role {
	return []Role{Developer, StopBath, Fixer, WashingAid, WettingAgent, Toner, Hardener}
}

// String returns the word as it stands in a darkroom file: developer, stop bath, ...; empty for NoRole.
func (r Role) String() string {
	switch r {
	case Developer:
		return "developer"
	case StopBath:
		return "stop bath"
	case Fixer:
		return "fixer"
	case WashingAid:
		return "washing aid"
	case WettingAgent:
		return "wetting agent"
	case Toner:
		return "toner"
	case Hardener:
		return "hardener"
	case NoRole:
	}
	return ""
}

// ReadRole reads a role's word, in capitals or not, with spaces, hyphens or nothing between its parts.
// The error is a *quantity.ReadError.
func ReadRole(text string) (Role, error) { return read(text, "role", Roles()) }

// Fixing says in how many baths a print is fixed.
type Fixing uint8

// The ways of fixing. The zero value is not said.
const (
	FixingUnsaid Fixing = iota
	OneBath
	TwoBaths
)

// Fixings returns the ways of fixing in their order.
func Fixings() []Fixing { return []Fixing{OneBath, TwoBaths} }

// String returns the words as they stand in a darkroom file, one bath or two baths; empty where not said.
func (f Fixing) String() string {
	switch f {
	case OneBath:
		return "one bath"
	case TwoBaths:
		return "two baths"
	case FixingUnsaid:
	}
	return ""
}

// ReadFixing reads one bath or two baths, in capitals or not. The error is a *quantity.ReadError.
func ReadFixing(text string) (Fixing, error) { return read(text, "fixing", Fixings()) }

// Standard is how long a print shall last.
type Standard uint8

// The standards. The zero value is not said.
const (
	StandardUnsaid Standard = iota
	WorkPrint
	Exhibition
	Archival
)

// Standards returns the standards, the least first.
func Standards() []Standard { return []Standard{WorkPrint, Exhibition, Archival} }

// String returns the words as they stand in a darkroom file: work print, exhibition, archival; empty where not said.
func (s Standard) String() string {
	switch s {
	case WorkPrint:
		return "work print"
	case Exhibition:
		return "exhibition"
	case Archival:
		return "archival"
	case StandardUnsaid:
	}
	return ""
}

// ReadStandard reads a standard's word, in capitals or not. The error is a *quantity.ReadError.
func ReadStandard(text string) (Standard, error) { return read(text, "standard", Standards()) }

// read finds the word among those of all, or says why not.
func read[T interface{ String() string }](text, want string, all []T) (T, error) {
	var none T
	if strings.TrimSpace(text) == "" {
		return none, &quantity.ReadError{Want: want, Why: quantity.WhyEmpty}
	}
	words := make([]string, 0, len(all))
	for _, t := range all {
		words = append(words, t.String())
		if squeeze(t.String()) == squeeze(text) {
			return t, nil
		}
	}
	return none, material.UnknownWord(text, want, words...)
}

var joiners = strings.NewReplacer("-", "", "_", "")

// squeeze makes words comparable: lower case, without spaces, hyphens and low lines.
func squeeze(text string) string {
	return joiners.Replace(strings.ToLower(strings.Join(strings.Fields(text), "")))
}
