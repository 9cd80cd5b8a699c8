package web

import (
	"errors"
	"net/http"
	"strconv"
	"strings"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
)

type bottlesPage struct {
	guide
	Bottles []bottle
}

// A bottle is one row of the page: what is asked of a product at first.
type bottle struct {
	N, Heading     string
	Role           string
	Roles          *field // where it can be chosen
	Name, Dilution field
	Acid           *pick // of a stop bath alone
}

// proposed are the bottles that a paper evening takes. The dilutions are common practice: the label's own go before them.
func proposed() []struct {
	role           process.Role
	name, dilution string
} {
	return []struct {
		role           process.Role
		name, dilution string
	}{
		{process.Developer, "guide_developer", "1+9"}, {process.StopBath, "guide_stop", "1+19"}, {process.Fixer, "guide_fixer", "1+4"},
	}
}

// isProposed reports whether row n is one of the proposed.
func isProposed(n string) bool {
	i, err := strconv.Atoi(n)
	return err == nil && i < len(proposed())
}

// moreBottles is the most that the page takes beside the proposed.
const moreBottles = 9

func (s *server) beginBottles(r *http.Request, v *visit) error {
	return v.showBottles(r, http.StatusOK, v.bottleForm(), nil, 0)
}

// bottleForm is what the page proposes: what stands there already, else the usual.
func (v *visit) bottleForm() map[string]string {
	form := map[string]string{}
	for i, x := range proposed() {
		n := strconv.Itoa(i)
		form["name"+n], form["dilution"+n], form["acid"+n] = v.say.Label(x.name), x.dilution, "yes"
		if all := v.file.Shelf.ProductsFor(x.role, material.RC); len(all) > 0 {
			form["name"+n], form["dilution"+n] = all[0].Name, all[0].Dilutions[material.RC].Text
			if all[0].Acid.Given() && !all[0].Acid.Value {
				form["acid"+n] = ""
			}
		}
	}
	return form
}

// showBottles shows the rows, more of them beside the proposed; problems are by field.
func (v *visit) showBottles(r *http.Request, status int, form, problems map[string]string, more int) error {
	g, err := v.guide(r, 4)
	if err != nil {
		return err
	}
	p := bottlesPage{guide: g}
	for i := range len(proposed()) + more {
		n := strconv.Itoa(i)
		b := bottle{
			N:        n,
			Name:     field{Name: "name" + n, Label: v.say.Label("name"), Value: form["name"+n], Problem: problems["name"+n]},
			Dilution: field{Name: "dilution" + n, Label: v.say.Label("dilution"), Value: form["dilution"+n], Problem: problems["dilution"+n]},
		}
		if i < len(proposed()) {
			role := proposed()[i].role
			b.Role, b.Heading = role.String(), capital(v.say.Role(role))
			if role == process.StopBath {
				b.Acid = &pick{option{"yes", v.say.Label("guide_acid")}, form["acid"+n] != ""}
			}
		} else {
			b.Heading = v.say.Label("guide_more")
			b.Roles = &field{Name: "role" + n, Label: v.say.Label("role"), Value: form["role"+n], Options: roleOptions(v.say, false)}
		}
		p.Bottles = append(p.Bottles, b)
	}
	return v.show(status, "bottles", &p)
}

// keepBottles puts the bottles on the shelf, how much is in them unknown.
func (s *server) keepBottles(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	more := 0
	for i := range moreBottles {
		if _, there := r.PostForm["name"+strconv.Itoa(len(proposed())+i)]; there {
			more = i + 1
		}
	}
	if form["do"] == "more" {
		return v.showBottles(r, http.StatusOK, form, nil, min(more+1, moreBottles))
	}
	f, problems := v.file, map[string]string{}
	for i := range len(proposed()) + more {
		f = v.bottled(f, form, strconv.Itoa(i), problems)
	}
	if len(problems) > 0 {
		return v.showBottles(r, http.StatusUnprocessableEntity, form, problems, more)
	}
	return v.keepAndGo(r, f, "/begin/prints")
}

// bottled returns the file with the bottle of row n: its product, and one bottle of it whose contents nobody measured. A
// row without a name is left out. What is wrong goes to problems.
func (v *visit) bottled(f darkroom.File, form map[string]string, n string, problems map[string]string) darkroom.File {
	name := form["name"+n]
	if name == "" {
		return f
	}
	at := darkroom.IndexOf[darkroom.Product](f, name)
	product := map[string]string{"form": "liquid"}
	if at != darkroom.New {
		product = darkroom.FormOf(f.Shelf.Products[at])
	}
	product["name"], product["role"] = name, form["role"+n]
	for _, m := range []material.Material{material.RC, material.FB} {
		product["dilutions."+m.String()] = form["dilution"+n]
	}
	if product["role"] == process.StopBath.String() {
		product["acid"] = "no"
		if form["acid"+n] != "" || !isProposed(n) { // one more stop bath is not asked about it
			product["acid"] = "yes"
		}
	}
	x, err := darkroom.ReadForm[darkroom.Product](f, at, product)
	if all, ok := errors.AsType[darkroom.Problems](err); ok {
		field := "name" + n
		if strings.HasPrefix(all[0].Path, "dilutions.") {
			field = "dilution" + n
		}
		problems[field] = v.say.Problem(all[0]).Text()
		return f
	}
	f = darkroom.With(f, at, x)
	if len(f.Shelf.LotsOf(name)) == 0 {
		f = darkroom.With(f, darkroom.New, darkroom.Lot{Product: name, LeftUnknown: true})
	}
	return f
}
