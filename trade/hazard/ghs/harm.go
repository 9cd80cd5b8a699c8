package ghs

import (
	"slices"
	"strings"
)

// A Harm is what a mixture does that gloves, goggles and a closed mouth alone do not settle, a key of the message catalogue. What
// irritates, skin, eyes or airways, and what is harmful only when swallowed, is none: the head of a mix sheet settles it.
type Harm string

// The harms, the worst first.
const (
	Poisons         Harm = "poisons"    // H300, H301, H310, H311, H330, H331
	BurnsSkin       Harm = "burns"      // H314
	HarmsEyes       Harm = "harms_eyes" // H318
	FeedsFire       Harm = "feeds_fire" // H271, H272
	CatchesFire     Harm = "catches"    // H224 to H228
	HarmsBreath     Harm = "breath"     // H334: allergy or asthma
	MakesAllergic   Harm = "allergic"   // H317
	CausesCancer    Harm = "cancer"     // H350
	HarmsGenes      Harm = "genes"      // H340
	HarmsChild      Harm = "child"      // H360, H362
	HarmsOrgans     Harm = "organs"     // H370, H372
	SuspectedBoth   Harm = "maybe_both" // H341 and H351
	SuspectedCancer Harm = "maybe_cancer"
	SuspectedGenes  Harm = "maybe_genes"
	SuspectedChild  Harm = "maybe_child"  // H361
	SuspectedOrgans Harm = "maybe_organs" // H371, H373
)

// AllHarms returns the harms, the worst first.
func AllHarms() []Harm {
	return []Harm{
		Poisons, BurnsSkin, HarmsEyes, FeedsFire, CatchesFire, HarmsBreath, MakesAllergic, CausesCancer, HarmsGenes, HarmsChild,
		HarmsOrgans, SuspectedBoth, SuspectedCancer, SuspectedGenes, SuspectedChild, SuspectedOrgans,
	}
}

// harmOf maps a statement, without its suffix, to its harm; empty for none.
func harmOf(code string) Harm {
	switch code[:min(len(code), 4)] {
	case "H300", "H301", "H310", "H311", "H330", "H331":
		return Poisons
	case "H314":
		return BurnsSkin
	case "H318":
		return HarmsEyes
	case "H271", "H272":
		return FeedsFire
	case "H224", "H225", "H226", "H228":
		return CatchesFire
	case "H334":
		return HarmsBreath
	case "H317":
		return MakesAllergic
	case "H350":
		return CausesCancer
	case "H340":
		return HarmsGenes
	case "H360", "H362":
		return HarmsChild
	case "H370", "H372":
		return HarmsOrgans
	case "H351":
		return SuspectedCancer
	case "H341":
		return SuspectedGenes
	case "H361":
		return SuspectedChild
	case "H371", "H373":
		return SuspectedOrgans
	}
	return ""
}

// HarmsOf returns the harms that hazard statements tell, each once, the worst first. A burn takes in harm to the eyes; that it is
// suspected of cancer and of genetic defects is one harm.
func HarmsOf(codes []string) []Harm {
	found := map[Harm]bool{}
	for _, code := range codes {
		if h := harmOf(strings.TrimSpace(code)); h != "" {
			found[h] = true
		}
	}
	if found[BurnsSkin] {
		delete(found, HarmsEyes)
	}
	if found[SuspectedCancer] && found[SuspectedGenes] {
		found[SuspectedBoth] = true
		delete(found, SuspectedCancer)
		delete(found, SuspectedGenes)
	}
	return slices.DeleteFunc(AllHarms(), func(h Harm) bool { return !found[h] })
}
