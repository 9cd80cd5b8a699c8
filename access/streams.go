package access

import "sync"

// Streams count what is open at once, of one who listens, of one address and of all. They are safe for use by several goroutines.
type Streams struct {
	mostOfOne, mostOfAddress, most int

	mu  sync.Mutex
	all int
	of  map[string]int
}

// How many streams may be open at once. The figures are ours: a browser opens one for all its tabs, a home's devices come from one address, and a
// stream takes some 20 kB.
const (
	StreamsOfOne     = 16
	StreamsOfAddress = 400
	StreamsInAll     = 1000
)

// StreamAgain is when whoever was refused a stream may try again, in seconds: the words of a Retry-After.
const StreamAgain = "10"

// NewStreams returns a count that lets so many be open.
func NewStreams(ofOne, ofAddress, inAll int) *Streams {
	return &Streams{mostOfOne: ofOne, mostOfAddress: ofAddress, most: inAll, of: map[string]int{}}
}

// Open counts a stream of somebody at an address, until done is called, once; false where there are too many. Whoever shows nothing, at home, is
// counted by their address alone.
func (s *Streams) Open(who Who, address string) (done func(), ok bool) {
	keys := map[string]int{"at " + address: s.mostOfAddress}
	if who.Key != "" || who.Person != "" {
		keys["of "+who.Key+" "+who.Person] = s.mostOfOne
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.all >= s.most {
		return nil, false
	}
	for k, most := range keys {
		if s.of[k] >= most {
			return nil, false
		}
	}
	s.all++
	for k := range keys {
		s.of[k]++
	}
	return func() { s.close(keys) }, true
}

func (s *Streams) close(keys map[string]int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.all--
	for k := range keys {
		if s.of[k]--; s.of[k] == 0 {
			delete(s.of, k)
		}
	}
}
