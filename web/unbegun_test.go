package web_test

import (
	"net/http"
	"testing"
)

// A darkroom of which nothing is told yet has a keyholder, and no page of it is a fault.
func TestNothingIsToldYet(t *testing.T) {
	h, _ := stillHouse(t)
	ilka := &device{house: h}
	ilka.signIn("Ilka", grey)
	for _, path := range []string{
		"/", "/baths", "/baths/stands", "/wall", "/handover", "/sink", "/wash", "/plan", "/mix", "/mix/ready", "/shelf", "/bench", "/jug", "/labels", "/lists/opening",
		"/lists/closing", "/begin", "/room", "/safety", "/waste", "/wrong", "/keys", "/people", "/file", "/second", "/sign-out", "/evening/close", "/plan/when",
	} {
		if a := ilka.do(http.MethodGet, path, nil); a.StatusCode >= http.StatusInternalServerError {
			t.Errorf("%s: %d", path, a.StatusCode)
		}
	}
	for _, path := range []string{"/baths", "/wall", "/sink"} {
		if a := ilka.do(http.MethodGet, path, nil); a.Header.Get("Location") != "/begin" {
			t.Errorf("%s: %d to %q, want the beginning", path, a.StatusCode, a.Header.Get("Location"))
		}
	}
}
