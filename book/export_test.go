package book

import "time"

// RestKeeping is Rest that keeps little awake, so that books of a few entries go to rest.
func RestKeeping(s *State, before time.Time, recent int64, latest int) int {
	return s.rest(before, keeping{recent, latest, latest, latest, latest, latest})
}
