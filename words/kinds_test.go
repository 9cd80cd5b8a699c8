package words_test

import (
	"fmt"
	"go/constant"
	"strings"
	"testing"

	"wetside/plan"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

func ml(name string, v float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: v, Unit: reckoning.ML}
}

func count(name string, v float64) reckoning.Figure { return reckoning.Figure{Name: name, Value: v} }

func celsius(name string, v float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: v, Unit: reckoning.C}
}

func mm(name string, v float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: v, Unit: reckoning.MM}
}

// findings holds each kind once or more, with figures as a plan gives them.
func findings() []plan.Finding {
	type figures = []reckoning.Figure
	least := reckoning.Figure{Name: "least_per_roll", Value: 5, Unit: reckoning.ML, Origin: reckoning.FromMemory}
	return []plan.Finding{
		{Kind: plan.NothingToMake},
		{Kind: plan.LeftUnknown, Subject: "print stop", Figures: figures{ml("need", 60)}},
		{Kind: plan.LotPastDate, Subject: "paper developer"},
		{Kind: plan.LotAgeUnknown, Subject: "paper developer"},
		{Kind: plan.LeastPerRollShort, Subject: "film developer", Figures: figures{
			ml("chemical_per_roll", 3), least, count("rolls", 2), ml("total_needed", 1000), count("rolls_at_most", 1),
			{Name: "strength_needed", Value: 0.02, Unit: reckoning.Share},
		}},
		{Kind: plan.LeastPerRollShort, Subject: "film developer", Figures: figures{
			ml("chemical_per_roll", 3), least, count("rolls", 1), ml("total_needed", 510), count("rolls_at_most", 0),
		}},
		{Kind: plan.LeastPerRollOK, Subject: "film developer", Figures: figures{ml("chemical_per_roll", 10), least, count("rolls", 1)}},
		{Kind: plan.CoversReels, Subject: "small tank", Figures: figures{ml("covers", 500), count("reels", 2)}},
		{Kind: plan.SeveralMakings, Subject: "paper developer", Figures: figures{
			count("makings", 3), {Name: "load", Value: 2.4, Unit: reckoning.Share},
		}},
		{Kind: plan.SeveralByCount, Subject: "rapid fixer", Other: "exhibition", Figures: figures{
			count("makings", 2), count("safe", 48), count("tonight", 60), count("test_after", 45),
		}},
		{Kind: plan.TestTonight, Subject: "rapid fixer", Figures: figures{count("safe", 48), count("tonight", 46), count("test_after", 45)}},
		{Kind: plan.SeveralRuns, Subject: "small tank", Figures: figures{count("runs", 3), count("rolls", 5), count("reels", 2)}},
		{Kind: plan.CapacityUnknown, Subject: "print stop"},
		{Kind: plan.OneAtATime, Subject: "white"},
		{Kind: plan.SheetsTogether, Subject: "8x10 in", Figures: figures{count("usual", 2), count("in_developer", 2)}},
		{Kind: plan.SheetsTogether, Subject: "24x30 cm", Figures: figures{count("usual", 4), count("shuffled", 6)}},
		{Kind: plan.SmallerTray, Subject: "16x20 in", Other: "white", Figures: figures{ml("volume", 4650), ml("smaller_volume", 3100)}},
		{Kind: plan.TrayShared, Subject: "Tray 3"},
		{Kind: plan.WarmRoom, Subject: "paper developer", Figures: figures{celsius("wanted", 20), celsius("nearest", 26)}},
		{Kind: plan.ColdRoom, Subject: "paper developer", Figures: figures{celsius("wanted", 20), celsius("nearest", 14)}},
		{Kind: plan.ColonAmbiguous, Subject: "1:9", Other: "paper developer"},
		{Kind: plan.PartPacket, Subject: "film developer, powder"},
		{Kind: plan.StandardAssumed, Subject: "FB paper"},
		{Kind: plan.FixingAssumed, Subject: "FB paper"},
		{Kind: plan.ArchivalOneBath},
		{Kind: plan.FilmFixerApart},
		{Kind: plan.TimeUnknown, Subject: "film developer", Other: "film"},
		{Kind: plan.TapsUnknown},
		{Kind: plan.DepthLow, Subject: "white", Figures: figures{mm("depth", 9), mm("least_depth", 13)}},
		{Kind: plan.NeverInVessel, Subject: "two-litre jug", Other: "paper developer"},
		{Kind: plan.TwoProducts, Subject: "paper developer"},
		{Kind: plan.CoolingHours, Subject: "film developer, powder"},
		{Kind: plan.PacketNotHeld, Subject: "film developer, powder", Figures: figures{ml("makes", 3785.41)}},
		{Kind: plan.StockMustBeMade, Subject: "film developer, powder", Figures: figures{ml("makes", 3785.41), ml("need", 667)}},
	}
}

func cautions() []plan.Caution {
	var out []plan.Caution
	for _, k := range []plan.CautionKind{
		plan.GlovesGoggles, plan.LabelFirst, plan.NotJudged, plan.NoKitchenware, plan.Air, plan.PupilsTongs, plan.InEye, plan.Spilt,
		plan.Swallowed, plan.PoisonCentre, plan.PoisonBlank, plan.AcidIntoWater, plan.AcidUnknown, plan.StrongAlkali, plan.PowderDust,
		plan.HotWater, plan.ThickGloves, plan.Vapour, plan.OdourlessStop, plan.TonerApart, plan.FixerNoDrain,
	} {
		out = append(out, plan.Caution{Kind: k, Subject: "glacial acid", Other: "acetic acid", Names: []string{"old stock", "print stop"}})
	}
	for _, h := range ghs.AllHarms() {
		out = append(out, plan.Caution{Kind: plan.Harmful, Subject: "reducer", From: hazard.Powder, Harms: []ghs.Harm{h}})
	}
	many := []ghs.Harm{ghs.HarmsEyes, ghs.MakesAllergic, ghs.SuspectedBoth}
	return append(out,
		plan.Caution{Kind: plan.Harmful, Subject: "paper developer", From: hazard.Concentrate, Harms: many, Thinned: many[1:2]},
		plan.Caution{Kind: plan.Harmful, Subject: "old stock", From: hazard.Stock, Harms: many, Thinned: many},
	)
}

func missing() []plan.Missing {
	ml := quantity.Millilitre
	return []plan.Missing{
		{Kind: plan.NoProduct, Role: process.StopBath, Near: "FB paper"},
		{Kind: plan.NoDilution, Product: "rapid fixer", Role: process.Fixer, Near: "film"},
		{Kind: plan.TooLittle, Product: "rapid fixer", Role: process.Fixer, Need: 400 * ml, Have: 250 * ml, Bath: "fixer"},
		{Kind: plan.TooLittle, Product: "rapid fixer", Role: process.Fixer, Need: 400 * ml, Bath: "fixer"},
		{Kind: plan.NoLot, Product: "rapid fixer", Need: 400 * ml},
		{Kind: plan.OutOfDate, Product: "paper developer", Need: 200 * ml},
		{Kind: plan.NoTray, Role: process.Developer, Product: "16x20 in", Near: "20x24 in"},
		{Kind: plan.NoTray, Role: process.Fixer, Product: "16x20 in", Near: "16x20 in"},
		{
			Kind: plan.NoTray, Role: process.Developer, Product: "16x20 in", Near: "20x24 in", Material: material.FB,
			Steps: []process.Step{process.Develop, process.Fix, process.SecondFix},
		},
		{Kind: plan.NoTraySize, Near: "white"},
		{Kind: plan.NoTank, Near: "120"},
		{Kind: plan.NoVessel, Product: "film developer", Near: "10 mL syringe"},
		{Kind: plan.NoVessel, Product: "film developer"},
		{Kind: plan.NoHolder, Product: "film developer, powder", Need: quantity.USGallon},
	}
}

func TestEveryKindIsSaid(t *testing.T) {
	for _, sys := range []struct {
		name   string
		system quantity.System
	}{{"metric", quantity.Metric}, {"US", quantity.US}, {"imperial", quantity.Imperial}} {
		t.Run(sys.name, func(t *testing.T) {
			v := voice(t, sys.system)
			var b strings.Builder
			for _, f := range findings() {
				fmt.Fprintf(&b, "%s\n    %s\n", f.Kind, marked(v.Finding(f)))
			}
			for _, c := range cautions() {
				fmt.Fprintf(&b, "%s\n    %s\n", c.Kind, marked(v.Caution(c)))
			}
			for _, m := range missing() {
				fmt.Fprintf(&b, "%s\n    %s\n", m.Kind, marked(v.Missing(m)))
			}
			golden(t, "kinds "+sys.name, b.String())
		})
	}
}

// A kind that a plan has and the tables above lack would be said by nobody's eye.
func TestTablesHoldEveryKind(t *testing.T) {
	said := map[string]bool{}
	for _, f := range findings() {
		said[string(f.Kind)] = true
	}
	for _, c := range cautions() {
		said[string(c.Kind)] = true
	}
	for _, m := range missing() {
		said[string(m.Kind)] = true
	}
	for _, typeName := range []string{"FindingKind", "CautionKind", "MissingKind"} {
		for name, value := range constants(t, "../plan", typeName) {
			if !said[constant.StringVal(value)] {
				t.Errorf("plan.%s is in no table here", name)
			}
		}
	}
}

// A plan's own findings carry the figures that their sentences ask for: an empty place would show as two spaces or a
// space before a stop. So would a figure that a plan names otherwise.
func TestFindingsWithoutFiguresAreSeen(t *testing.T) {
	v := voice(t, quantity.Metric)
	got := v.Finding(plan.Finding{Kind: plan.DepthLow, Subject: "white"}).Text()
	if !strings.Contains(got, "<no value>") {
		t.Errorf("a finding without its figures says %q; tidy would not see it", got)
	}
}
