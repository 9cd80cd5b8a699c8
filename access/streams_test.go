package access_test

import (
	"testing"

	"wetside/access"
)

// So many are open of one, of an address and of all; one that ends makes room, and a home is counted by its address alone.
func TestStreamsAreCounted(t *testing.T) {
	s := access.NewStreams(2, 5, 7)
	who := func(key string) access.Who { return access.Who{Key: key} }
	open := func(w access.Who, address string, want bool) func() {
		t.Helper()
		done, ok := s.Open(w, address)
		if ok != want {
			t.Errorf("%+v at %s: %v, want %v", w, address, ok, want)
		}
		return done
	}
	first := open(who("a"), "1", true)
	open(who("a"), "2", true)
	open(who("a"), "3", false) // the third of one
	first()
	again := open(who("a"), "1", true)
	open(access.Who{}, "1", true)
	open(access.Who{}, "1", true)
	open(access.Who{}, "1", true)
	open(who("b"), "1", true)
	open(who("c"), "1", false) // the sixth of an address
	open(access.Who{Person: "p"}, "4", true)
	open(access.Who{Person: "q"}, "5", false) // the eighth of all
	again()
	open(access.Who{Person: "q"}, "5", true)
}
