package process_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// TestWords: the words of a darkroom file, written and read again as the same, in capitals or not.
func TestWords(t *testing.T) {
	same(t, process.ReadRole, process.Roles(), []string{
		"developer", "stop bath", "fixer", "washing aid", "wetting agent", "toner", "hardener",
	})
	same(t, process.ReadFixing, process.Fixings(), []string{"one bath", "two baths"})
	same(t, process.ReadStandard, process.Standards(), []string{"work print", "exhibition", "archival"})
	none := process.NoRole.String() + process.FixingUnsaid.String() + process.StandardUnsaid.String() +
		process.NoStep.String()
	if none != "" {
		t.Errorf("nothing is written %q", none)
	}
}

func same[T interface {
	comparable
	String() string
}](t *testing.T, read func(string) (T, error), all []T, words []string) {
	t.Helper()
	if len(all) != len(words) {
		t.Fatalf("%v, want %v", all, words)
	}
	for i, v := range all {
		if v.String() != words[i] {
			t.Errorf("%v is written %q, want %q", i, v, words[i])
		}
		for _, text := range []string{
			words[i], strings.ToUpper(words[i]), " " + strings.ReplaceAll(words[i], " ", "  "),
			strings.ReplaceAll(words[i], " ", "-"), strings.ReplaceAll(words[i], " ", "_"),
		} {
			if got, err := read(text); err != nil || got != v {
				t.Errorf("%q is read as %v, %v, want %v", text, got, err, v)
			}
		}
	}
}

func TestWordsRefused(t *testing.T) {
	role := func(s string) error { _, err := process.ReadRole(s); return err }
	fixing := func(s string) error { _, err := process.ReadFixing(s); return err }
	standard := func(s string) error { _, err := process.ReadStandard(s); return err }
	for _, c := range []struct {
		text, want, near string
		read             func(string) error
		why              quantity.Why
	}{
		{"", "role", "", role, quantity.WhyEmpty},
		{"stp bath", "role", "stop bath", role, material.WhyUnknownWord},
		{"devloper", "role", "developer", role, material.WhyUnknownWord},
		{"fxier", "role", "fixer", role, material.WhyUnknownWord},
		{"soup", "role", "", role, material.WhyUnknownWord},
		{"three baths", "fixing", "", fixing, material.WhyUnknownWord},
		{"two bath", "fixing", "two baths", fixing, material.WhyUnknownWord},
		{"exhibitjon", "standard", "exhibition", standard, material.WhyUnknownWord},
		{"\t", "standard", "", standard, quantity.WhyEmpty},
	} {
		var got *quantity.ReadError
		if err := c.read(c.text); !errors.As(err, &got) {
			t.Errorf("%q: %v, want a ReadError", c.text, err)
			continue
		}
		if got.Want != c.want || got.Near != c.near || got.Why != c.why {
			t.Errorf("%q: %+v, want %s, %s, near %q", c.text, *got, c.want, c.why, c.near)
		}
	}
}

// TestSteps: every step has a key of its own, and is told apart by what it takes.
func TestSteps(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range process.Steps() {
		if s.String() == "" || seen[s.String()] || strings.ToLower(s.String()) != s.String() || strings.Contains(s.String(), " ") {
			t.Errorf("step %d has the key %q", s, s)
		}
		seen[s.String()] = true
		if s.Role() != process.NoRole && !s.Liquid() {
			t.Errorf("%v takes %v and is dry", s, s.Role())
		}
		if s.Tongs() && !s.Liquid() {
			t.Errorf("%v has tongs and is dry", s)
		}
	}
	if len(seen) != int(process.CheckClearing) {
		t.Errorf("%d steps, want %d", len(seen), process.CheckClearing)
	}
	for s, want := range map[process.Step]process.Role{
		process.Develop: process.Developer, process.Stop: process.StopBath, process.Fix: process.Fixer,
		process.SecondFix: process.Fixer, process.Tone: process.Toner, process.WashAid: process.WashingAid,
		process.Wet: process.WettingAgent, process.StopRinse: process.NoRole, process.Wash: process.NoRole,
		process.PreWash: process.NoRole, process.Hold: process.NoRole, process.Rinse: process.NoRole,
	} {
		if got := s.Role(); got != want {
			t.Errorf("%v takes %v, want %v", s, got, want)
		}
	}
	dry := slices.DeleteFunc(process.Steps(), process.Step.Liquid)
	if want := []process.Step{process.CheckClearing, process.Dry}; !slices.Equal(dry, want) {
		t.Errorf("dry in %v, want %v", dry, want)
	}
	tongs := slices.DeleteFunc(process.Steps(), func(s process.Step) bool { return !s.Tongs() })
	want := []process.Step{
		process.Develop, process.Stop, process.StopRinse, process.Fix, process.SecondFix, process.Tone, process.WashAid,
	}
	if !slices.Equal(tongs, want) {
		t.Errorf("tongs for %v, want %v", tongs, want)
	}
}

func FuzzReadRole(f *testing.F) {
	for _, s := range []string{"developer", "STOP-bath", "washing_aid", "", "toner ", "\xff", strings.Repeat("stop ", 99)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := process.ReadRole(text)
		if (err == nil) != (r != process.NoRole) {
			t.Fatalf("ReadRole(%q) = %v, %v", text, r, err)
		}
		if again, err2 := process.ReadRole(r.String()); err == nil && (err2 != nil || again != r) {
			t.Errorf("ReadRole(%q) = %v, written and read again %v, %v", text, r, again, err2)
		}
	})
}
