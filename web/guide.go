package web

import (
	"net/http"
	"strconv"

	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
)

// guidePath is the way from nothing to a mix sheet, one question to a page.
func guidePath() []string {
	return []string{"/begin", "/begin/jugs", "/begin/trays", "/begin/bottles", "/begin/prints"}
}

// A guide is what every page of that way has.
type guide struct {
	frame
	Ruler   scene.Scene
	Back    string // the page before
	Later   string // the page after, with nothing said here
	There   string // what was told before
	Problem string // what is wrong with the page as a whole
}

// guide makes the frame of page n of the way, from 1.
func (v *visit) guide(r *http.Request, n int) (guide, error) {
	path := guidePath()
	g := guide{frame: v.frame(r, "begin"), Later: "/"}
	g.Title = v.say.Label("begin_title")
	if n > 1 {
		g.Back = path[n-2]
	}
	if n < len(path) {
		g.Later = path[n]
	}
	say := v.say.Tell("step_of", "N", strconv.Itoa(n), "Of", strconv.Itoa(len(path))).Text()
	var err error
	g.Ruler, err = draw.Progress{At: n, Of: len(path), Say: say}.Scene(v.form())
	return g, err
}

type beginPage struct {
	guide
	Name field
}

// begin asks for a name, which may be left out; or shows the example; or just one jug.
func (s *server) begin(r *http.Request, v *visit) error {
	g, err := v.guide(r, 1)
	if err != nil {
		return err
	}
	p := beginPage{guide: g, Name: field{
		Name: "name", Label: v.say.Label("begin_name"), Value: v.file.Darkroom.Name, Hint: v.say.Label("begin_name_free"),
	}}
	return v.show(http.StatusOK, "begin", &p)
}

// beginWith makes the darkroom that was asked for.
func (s *server) beginWith(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	if form["do"] == "example" {
		f, err := darkroom.Read(s.Example(s.Now()))
		if err != nil {
			return err
		}
		if err := s.Book.Keep(r.Context(), f, Keeping{Device: v.device(r)}); err != nil {
			return err
		}
		return v.to(r, "/")
	}
	room := darkroom.FormOf(v.file.Darkroom)
	switch {
	case form["name"] != "":
		room["name"] = form["name"]
	case room["name"] == "":
		room["name"] = v.say.Label("darkroom")
	}
	d, err := darkroom.ReadForm[darkroom.Room](v.file, 0, room)
	if err != nil {
		g, failed := v.guide(r, 1)
		if failed != nil {
			return failed
		}
		p := beginPage{guide: g, Name: field{
			Name: "name", Label: v.say.Label("begin_name"), Value: form["name"], Problem: v.say.ReadError(err).Text(),
		}}
		return v.show(http.StatusUnprocessableEntity, "begin", &p)
	}
	return v.keepAndGo(r, darkroom.With(v.file, 0, d), "/begin/jugs")
}

// keepAndGo keeps what a page of the way has told, and goes on. A darkroom without a name gets one, so that whoever leaves
// out the first page gets on, too.
func (v *visit) keepAndGo(r *http.Request, f darkroom.File, to string) error {
	if f.Darkroom.Name == "" {
		f.Darkroom.Name = v.say.Label("darkroom")
	}
	if err := v.s.Book.Keep(r.Context(), f, Keeping{Device: v.device(r)}); err != nil {
		return err
	}
	return v.to(r, to)
}

// A pick is something that can be ticked.
type pick struct {
	option
	Ticked bool
}
