package web

import (
	"net/http"
	"strings"

	"wetside/draw/scene"
)

// redCookie says that pages are wanted in the form for the dark.
const redCookie = "form"

func isRed(r *http.Request) bool {
	c, err := r.Cookie(redCookie)
	return err == nil && c.Value == "red"
}

// form is how pictures of a page are lit.
func (v *visit) form() scene.Form {
	if v.red {
		return scene.Red
	}
	return scene.Light
}

// lightAs turns the pages red, or back.
func (s *server) lightAs(r *http.Request, v *visit) error {
	c := http.Cookie{Name: redCookie, Value: "red", Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode, MaxAge: 12 * 3600}
	if r.PostFormValue("form") != "red" {
		c.Value, c.MaxAge = "", -1
	}
	http.SetCookie(v.w, &c)
	back := r.PostFormValue("back")
	if !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") || strings.ContainsAny(back, "\\\r\n") {
		back = "/"
	}
	return v.to(r, back)
}
