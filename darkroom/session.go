package darkroom

import "time"

// Start returns the moment at which the clock in the room shows what was written down as the session's start; ok is
// false where nothing was.
func (s *Session) Start(zone *time.Location) (start time.Time, ok bool) {
	if !s.Starts.Given() {
		return start, false
	}
	t := s.Starts.Value
	y, m, d := t.Date()
	return time.Date(y, m, d, t.Hour(), t.Minute(), t.Second(), 0, zone), true
}
