package web

import (
	"errors"
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
)

type printsPage struct {
	guide
	Sizes, Papers []pick
	Lasts         []pick // how long the prints shall last
	Other, Sheets field
	Open          bool
}

func (s *server) beginPrints(r *http.Request, v *visit) error {
	form := map[string]string{"material": material.RC.String(), "sheets": "10", "standard": process.Exhibition.String()}
	if said := v.file.Darkroom.Standards[material.RC].Standard; said != process.StandardUnsaid {
		form["standard"] = said.String()
	}
	if sizes := v.printSizes(); len(sizes) > 0 {
		form["size"] = sizes[len(sizes)-1].String()
		if usual := material.Inches(8, 10); len(v.file.Bench.Trays) == 0 && slices.Contains(sizes, usual) {
			form["size"] = usual.String()
		}
	}
	return v.showPrints(r, http.StatusOK, form, nil)
}

// printSizes are the usual sheets in inches that lie in the trays, at most the five largest; those of no trays are all.
func (v *visit) printSizes() []material.Size {
	var out []material.Size
	for _, size := range material.InchSizes() {
		fits := len(v.file.Bench.Trays) == 0 && size.Width*size.Height <= material.Inches(12, 16).Width*material.Inches(12, 16).Height
		for _, t := range v.file.Bench.Trays {
			tray := process.Tray{Width: t.Inside.Value.Width, Height: t.Inside.Value.Height}
			if f, err := process.FitOf(tray, size); err != nil || f.Fits {
				fits = true
			}
		}
		if fits {
			out = append(out, size)
		}
	}
	return out[max(0, len(out)-5):]
}

func (v *visit) showPrints(r *http.Request, status int, form map[string]string, problems map[string]string) error {
	g, err := v.guide(r, 5)
	if err != nil {
		return err
	}
	p := printsPage{guide: g, Open: problems["size"] != ""}
	for _, size := range v.printSizes() {
		p.Sizes = append(p.Sizes, pick{option{size.String(), v.say.Size(size)}, form["size"] == size.String()})
	}
	for _, m := range []material.Material{material.RC, material.FB} {
		p.Papers = append(p.Papers, pick{option{m.String(), v.say.Material(m)}, form["material"] == m.String()})
	}
	for _, std := range []process.Standard{process.WorkPrint, process.Exhibition, process.Archival} {
		p.Lasts = append(p.Lasts, pick{option{std.String(), v.say.Label("guide_lasts_" + strings.ReplaceAll(std.String(), " ", "_"))}, form["standard"] == std.String()})
	}
	p.Other = field{
		Name: "other", Label: v.say.Label("guide_other_size"), Value: form["other"], Problem: problems["size"],
		Hint: v.say.Label("hint_size_paper"),
	}
	p.Sheets = field{Name: "sheets", Label: v.say.Label("sheets"), Value: form["sheets"], Problem: problems["sheets"], Mode: "numeric"}
	p.Problem = problems["material"]
	return v.show(status, "prints", &p)
}

// keepPrints adds what will be printed to the evening; the mix sheet is next.
func (s *server) keepPrints(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	load := map[string]string{"material": form["material"], "size": form["size"], "sheets": form["sheets"]}
	if form["other"] != "" {
		load["size"] = form["other"]
	}
	load, inches := readAsInches(load)
	x, err := darkroom.ReadForm[darkroom.Load](v.file, darkroom.New, load)
	all, _ := errors.AsType[darkroom.Problems](err)
	if len(all) == 0 && err != nil {
		return err
	}
	problems := map[string]string{}
	for _, p := range all {
		problems[p.Path] = v.say.Problem(p).Text()
	}
	if load["size"] == "" {
		problems["size"] = v.say.Label("own_sheet_wrong")
	}
	if n, err := strconv.Atoi(load["sheets"]); err != nil || n < 1 {
		if problems["sheets"] == "" {
			problems["sheets"] = v.say.Label("guide_sheets_wrong")
		}
	}
	if len(problems) > 0 {
		if !slices.ContainsFunc(v.printSizes(), func(s material.Size) bool { return s.String() == form["size"] }) && form["other"] == "" {
			form["other"] = form["size"]
		}
		return v.showPrints(r, http.StatusUnprocessableEntity, form, problems)
	}
	to := "/mix"
	if inches {
		to += "?read=inches"
	}
	f := darkroom.With(v.file, darkroom.New, x)
	f.Darkroom.Standards = lasting(f.Darkroom.Standards, x.Material, form["standard"])
	return v.keepAndGo(r, f, to)
}

// lasting returns the room's standards with what is wanted of a material; words that are no standard change nothing.
func lasting(all map[material.Material]darkroom.Wanted, m material.Material, text string) map[material.Material]darkroom.Wanted {
	std, err := process.ReadStandard(text)
	if err != nil || std == process.StandardUnsaid {
		return all
	}
	out := map[material.Material]darkroom.Wanted{}
	maps.Copy(out, all)
	w := out[m]
	w.Standard = std
	out[m] = w
	return out
}
