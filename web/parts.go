package web

import "net/http"

type partsPage struct {
	frame
	Fields []field
	Mix    *mixView
}

// parts shows every part of the look on one page, for whoever works on it.
func (s *server) parts(r *http.Request, v *visit) error {
	p := partsPage{frame: v.frame(r, "parts"), Fields: []field{
		{Name: "plain", Label: v.say.Label("name"), Value: "1+9", Hint: v.say.Label("label_says")},
		{Name: "wrong", Label: v.say.Label("how_much"), Value: "1 xL", Problem: v.say.Label("unknown")},
		{Name: "choice", Label: v.say.Label("role"), Options: roleOptions(v.say, true)},
	}}
	return v.show(http.StatusOK, "parts", &p)
}
