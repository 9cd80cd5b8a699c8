package web

import (
	"errors"
	"math"
	"net/http"
	"strconv"
	"strings"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

type traysPage struct {
	guide
	Sets    []traySet
	Own     []field
	Open    bool
	HasSome bool
}

// A traySet is trays for one size of sheet that can be had with one tap.
type traySet struct {
	Size, Text, Fill string
}

// usualFill is a round filling of the tray sold for a sheet, about 15 mm deep: common practice for each size.
func usualFill() map[string]string {
	return map[string]string{
		"5x7 in": "500 mL", "8x10 in": "1 L", "9.5x12 in": "1.5 L", "11x14 in": "2 L", "12x16 in": "2 L", "16x20 in": "3.5 L",
	}
}

func (s *server) beginTrays(r *http.Request, v *visit) error {
	return v.showTrays(r, http.StatusOK, map[string]string{}, nil)
}

func (v *visit) showTrays(r *http.Request, status int, form, problems map[string]string) error {
	g, err := v.guide(r, 3)
	if err != nil {
		return err
	}
	p := traysPage{guide: g, Open: len(problems) > 0, HasSome: len(v.file.Bench.Trays) > 0}
	p.There = strings.Join(v.trayNames(), ", ")
	for _, size := range material.InchSizes() {
		if fill, ok := usualFill()[size.String()]; ok && size != material.Inches(5, 7) {
			p.Sets = append(p.Sets, traySet{size.String(), v.say.Tell("tray_set", "Size", v.say.Size(size)).Text(), v.amountOf(fill)})
		}
	}
	for _, name := range []string{"trays", "sheet", "each"} {
		f := field{
			Name: name, Label: v.say.Label("own_" + name), Value: form[name], Problem: problems[name], Hint: v.labelOr("", "own_hint_"+name),
		}
		if name == "trays" && f.Value == "" {
			f.Value = "3"
		}
		p.Own = append(p.Own, f)
	}
	return v.show(status, "trays", &p)
}

// amountOf says a volume of ours in the reader's own units.
func (v *visit) amountOf(text string) string {
	if vol, err := quantity.ReadVolume(text, v.ounce()); err == nil {
		return v.say.Volume(vol)
	}
	return text
}

// keepTrays puts trays of one size on the bench, for developer, stop bath, fixer and what comes after.
func (s *server) keepTrays(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	n, fill := 3, ""
	text := form["size"]
	problems := map[string]string{}
	if text == "" {
		text, fill = withInches(form["sheet"]), form["each"]
		if n, err = strconv.Atoi(form["trays"]); err != nil || n < 1 || n > 12 {
			problems["trays"] = v.say.Label("own_trays_wrong")
		}
	}
	size, err := material.ReadSize(text)
	if err != nil || size.Roll != material.NoRoll {
		problems["sheet"] = v.say.Label("own_sheet_wrong")
	}
	if len(problems) > 0 {
		return v.showTrays(r, http.StatusUnprocessableEntity, form, problems)
	}
	if fill == "" {
		fill = fillFor(size)
	}
	f := v.file
	for i := range n {
		tray := map[string]string{
			"name": v.freeTray(f), "for": trayUse(i, n), "fill": fill,
			"inside": quantity.Size(process.NominalTray(size).Width, process.NominalTray(size).Height),
		}
		x, err := darkroom.ReadForm[darkroom.Tray](f, darkroom.New, tray)
		if all, ok := errors.AsType[darkroom.Problems](err); ok {
			field := map[string]string{"fill": "each"}[all[0].Path]
			if field == "" {
				field = "sheet"
			}
			return v.showTrays(r, http.StatusUnprocessableEntity, form, map[string]string{field: v.say.Problem(all[0]).Text()})
		}
		if err != nil {
			return err
		}
		f = darkroom.With(f, darkroom.New, x)
	}
	return v.keepAndGo(r, f, "/begin/bottles")
}

// fillFor is what a tray for a sheet is filled with: the usual, else 15 mm deep, rounded up to 100 mL.
func fillFor(size material.Size) string {
	if fill, ok := usualFill()[size.String()]; ok {
		return fill
	}
	vol, _, err := process.NominalTray(size).VolumeFor(quantity.Length(process.FillDepth().Value))
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(math.Ceil(vol.ML()/100)*100, 'f', -1, 64) + " mL"
}

// trayUse is what tray i of n is for: with two there is no stop bath.
func trayUse(i, n int) string {
	uses := []string{"developer", "stop bath", "fixer", "fixer", "wash"}
	if n == 2 {
		uses = []string{"developer", "fixer"}
	}
	return uses[min(i, len(uses)-1)]
}

// freeTray returns the next name that no tray has yet.
func (v *visit) freeTray(f darkroom.File) string {
	for n := 1; ; n++ {
		if name := capital(v.say.Label("tray")) + " " + strconv.Itoa(n); darkroom.IndexOf[darkroom.Tray](f, name) == darkroom.New {
			return name
		}
	}
}
