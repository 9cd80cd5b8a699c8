package hazard

import "wetside/trade/reckoning"

// An AirSaid is what somebody published on how much air a darkroom wants. They disagree, and none of them says how much gas comes off;
// so no room is called safe here.
type AirSaid struct {
	Key     string  // of the message catalogue
	PerHour float64 // changes of the room's air an hour; 0 where it is told otherwise
	Origin  reckoning.Origin
	Source  string // a key of docs/sources.md; empty from memory
}

// AirPublished returns what was published on darkroom air, the most air first.
func AirPublished() []AirSaid {
	return []AirSaid{
		{Key: "rule", PerHour: 12, Origin: reckoning.Standard, Source: "UWM"},
		{Key: "taught", PerHour: 10, Origin: reckoning.FromMemory},
		{Key: "workshop", PerHour: 5, Origin: reckoning.Standard, Source: "FrameW"},
		{Key: "machines", Origin: reckoning.Standard, Source: "VentManual"},
		{Key: "toxicologist", Origin: reckoning.Standard, Source: "Nash"},
	}
}
