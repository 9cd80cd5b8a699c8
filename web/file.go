package web

import (
	"errors"
	"net/http"

	"wetside/darkroom"
)

type filePage struct {
	frame
	Text     string
	Problems []string
}

// file shows where a darkroom file is read and written.
func (s *server) file(r *http.Request, v *visit) error {
	return v.show(http.StatusOK, "file", &filePage{frame: v.frame(r, "file")})
}

// keepFile reads a pasted file into the book; with a mistake in it, all are told and nothing is written.
func (s *server) keepFile(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	p := filePage{frame: v.frame(r, "file"), Text: r.PostForm.Get("text")}
	f, err := darkroom.Read([]byte(p.Text))
	if problems, ok := errors.AsType[darkroom.Problems](err); ok {
		for _, x := range problems {
			text := v.say.Problem(x).Text()
			if at := v.say.Place(x); at != "" {
				text = v.say.Titled(at, text)
			}
			p.Problems = append(p.Problems, text)
		}
		return v.show(http.StatusUnprocessableEntity, "file", &p)
	}
	if err != nil {
		return err
	}
	if err := s.Book.Keep(r.Context(), f, Keeping{Device: v.device(r)}); err != nil {
		return err
	}
	return v.to(r, "/")
}

// download sends the darkroom file, without people's notes.
func (s *server) download(_ *http.Request, v *visit) error {
	v.w.Header().Set("Content-Type", "application/yaml; charset=utf-8")
	v.w.Header().Set("Content-Disposition", `attachment; filename="darkroom.yaml"`)
	v.w.Header().Set("Cache-Control", "no-store")
	_, err := v.w.Write(darkroom.Write(darkroom.Public(v.file)))
	return err
}
