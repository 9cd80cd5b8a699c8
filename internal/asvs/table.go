package asvs

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// The states of an item.
const (
	Met           = "met"
	NotApplicable = "not applicable"
	NotMet        = "not met"
)

// An Item is a row of the table.
type Item struct {
	Number string // as in the standard: 6.2.1
	Level  int    // 1 or 2
	Asks   string // what it asks, in our words
	State  string
	Tests  []string // of a met one: folder and name, web.TestHeaders
	Reason string   // what is said beside the tests
}

var (
	row      = regexp.MustCompile(`^\| (\d+\.\d+\.\d+) \| ([12]) \| (.*?) \| (.*?) \| (.*?) \|$`)
	testName = regexp.MustCompile("`([a-z/]+\\.(?:Test|Fuzz)[A-Za-z0-9]+)`")
)

// Read reads the rows of a table and tells every fault of them, by its number.
func Read(text string) (all []Item, faults []string) {
	seen := map[string]bool{}
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		m := row.FindStringSubmatch(line)
		if m == nil {
			if strings.HasPrefix(line, "| ") && !strings.HasPrefix(line, "| item |") {
				faults = append(faults, "a row that can't be read: "+line)
			}
			continue
		}
		level, _ := strconv.Atoi(m[2])
		i := Item{Number: m[1], Level: level, Asks: m[3], State: m[4]}
		for _, t := range testName.FindAllStringSubmatch(m[5], -1) {
			i.Tests = append(i.Tests, t[1])
		}
		i.Reason = strings.Trim(testName.ReplaceAllString(m[5], ""), " ,;")
		if seen[i.Number] {
			faults = append(faults, i.Number+" stands twice")
		}
		seen[i.Number] = true
		faults = append(faults, i.faults()...)
		all = append(all, i)
	}
	return all, faults
}

func (i *Item) faults() (all []string) {
	say := func(what string) { all = append(all, i.Number+" "+what) }
	if len(i.Asks) < 10 {
		say("does not say what it asks")
	}
	const sentence = 20 // letters: less is no reason
	switch i.State {
	case Met:
		if len(i.Tests) == 0 {
			say("is met by no test")
		}
	case NotApplicable, NotMet:
		if len(i.Reason) < sentence {
			say("is " + i.State + " without a reason")
		}
	default:
		say(fmt.Sprintf("is in no state that there is: %q", i.State))
	}
	return all
}

// Missing are the numbers wanted that no item has, and those that no one wants.
func Missing(all []Item, want map[string]int) (faults []string) {
	has := map[string]int{}
	for _, i := range all {
		has[i.Number] = i.Level
	}
	for number, level := range want {
		switch got, there := has[number]; {
		case !there:
			faults = append(faults, number+" is missing")
		case got != level:
			faults = append(faults, fmt.Sprintf("%s is of level %d, not %d", number, level, got))
		}
	}
	for number := range has {
		if _, wanted := want[number]; !wanted {
			faults = append(faults, number+" is no item of those levels")
		}
	}
	slices.Sort(faults)
	return faults
}

// Absent are the tests named that known does not have.
func Absent(all []Item, known map[string]bool) (faults []string) {
	for _, i := range all {
		for _, t := range i.Tests {
			if !known[t] {
				faults = append(faults, i.Number+" names "+t+", which there is not")
			}
		}
	}
	return faults
}
