package process

import (
	"errors"
	"math"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Errors about trays. They are facts about the darkroom, for which words has a sentence.
var (
	// ErrNoFloor: neither the inside of a tray is known nor how deep a litre stands in it.
	ErrNoFloor = errors.New("tray's floor is not known")
	// ErrNoInside: the inside width and height of a tray are not known, or not positive.
	ErrNoInside = errors.New("tray's inside is not known")
	// ErrNoDepth: a depth that is nothing or less, or not a number.
	ErrNoDepth = errors.New("depth must be above nothing")
)

// A Tray is a tray as far as it is known; zero values are unknown.
type Tray struct {
	Width, Height quantity.Length // inside, at the floor
	Depth         quantity.Length // from the floor to the rim
	// LitreDepth is how deep a litre stands in it, measured once. Its floor then goes by this, ribs and slanting
	// walls included, and not by Width and Height.
	LitreDepth quantity.Length
	Fill       quantity.Volume // the room's own, in place of a wanted depth
}

// Floor returns the area that stands for the floor of a tray, in m²: 1 L divided by the depth of a litre
// where that was measured, width × height where not. ErrNoFloor where neither is known.
func (t Tray) Floor() (quantity.Area, reckoning.Figure, error) {
	switch {
	case positive(t.LitreDepth):
		put := mm("litre_depth", t.LitreDepth, reckoning.Measured)
		f := reckoned("floor", 1/float64(t.LitreDepth), reckoning.M2, "floor_from_litre", put)
		return quantity.Area(f.Value), f, nil
	case positive(t.Width) && positive(t.Height):
		f := reckoned("floor", float64(t.Width)*float64(t.Height)/1e6, reckoning.M2, "floor_from_inside",
			mm("inside_width", t.Width, reckoning.Measured), mm("inside_height", t.Height, reckoning.Measured))
		return quantity.Area(f.Value), f, nil
	}
	return 0, reckoning.Figure{}, ErrNoFloor
}

// VolumeFor returns the volume that stands depth deep in the tray: floor × depth. ErrNoFloor, ErrNoDepth, or
// quantity.ErrRange beyond quantity.MaxVolume.
func (t Tray) VolumeFor(depth quantity.Length) (quantity.Volume, reckoning.Figure, error) {
	floor, put, err := t.Floor()
	if err != nil {
		return 0, reckoning.Figure{}, err
	}
	v, err := volumeOn(floor, depth)
	if err != nil {
		return 0, reckoning.Figure{}, err
	}
	return v, reckoned("volume", v.ML(), reckoning.ML, "volume_for_depth", put, mm("depth", depth, reckoning.Asked)), nil
}

// DepthFor returns how deep a volume stands in the tray, in mm: volume ÷ floor. ErrNoFloor where that is not known.
func (t Tray) DepthFor(v quantity.Volume) (quantity.Length, reckoning.Figure, error) {
	floor, put, err := t.Floor()
	if err != nil {
		return 0, reckoning.Figure{}, err
	}
	d := v.ML() / (float64(floor) * 1e3) // mL per (m² × 1e3) is mm: 1 L on 1 m² stands 1 mm deep
	f := reckoned("depth", d, reckoning.MM, "depth_for_volume", put,
		reckoning.Figure{Name: "volume", Value: v.ML(), Unit: reckoning.ML, Origin: reckoning.Asked})
	return quantity.Length(d), f, nil
}

// VolumeForDepth returns the volume that stands depth deep on a floor of w by h: w × h × depth. ErrNoInside,
// ErrNoDepth, or quantity.ErrRange beyond quantity.MaxVolume.
func VolumeForDepth(w, h, depth quantity.Length) (quantity.Volume, error) {
	if !positive(w) || !positive(h) {
		return 0, ErrNoInside
	}
	return volumeOn(quantity.Area(float64(w)*float64(h)/1e6), depth)
}

func volumeOn(floor quantity.Area, depth quantity.Length) (quantity.Volume, error) {
	if !positive(depth) {
		return 0, ErrNoDepth
	}
	ml := float64(floor) * float64(depth) * 1e3
	if ml > quantity.MaxVolume.ML() {
		return 0, quantity.ErrRange
	}
	return quantity.Volume(math.Round(ml * float64(quantity.Millilitre))), nil
}

// Freeboard returns what is left between the liquid and the rim, in mm, and whether that is enough for
// rocking (LeastFreeboard). ErrNoDepth where the tray's depth is not known.
func (t Tray) Freeboard(liquid quantity.Length) (left quantity.Length, enough bool, err error) {
	if !positive(t.Depth) {
		return 0, false, ErrNoDepth
	}
	left = t.Depth - liquid
	return left, float64(left) >= LeastFreeboard().Value, nil
}

// LeastDepth returns the least depth of liquid in a tray that is of use, 13 mm: common practice, and
// half an inch in US Army subcourse SS0509 (page Ss050980024).
func LeastDepth() reckoning.Figure {
	return reckoning.Figure{Name: "least_depth", Value: 13, Unit: reckoning.MM, Origin: reckoning.CommonPractice}
}

// FillDepth returns the wanted depth where a room has none of its own, 15 mm (from memory: 15 to 25 mm
// is comfortable).
func FillDepth() reckoning.Figure {
	return reckoning.Figure{Name: "fill_depth", Value: 15, Unit: reckoning.MM, Origin: reckoning.FromMemory}
}

// LeastFreeboard returns what a tray must leave between the liquid and the rim for rocking, 25 mm (from memory).
func LeastFreeboard() reckoning.Figure {
	return reckoning.Figure{Name: "least_freeboard", Value: 25, Unit: reckoning.MM, Origin: reckoning.FromMemory}
}

// TongsPerTray returns how many pairs of tongs a tray has for its own, 1: common practice. Step.Tongs says
// which trays have one.
func TongsPerTray() reckoning.Figure {
	return reckoning.Figure{Name: "tongs", Value: 1, Origin: reckoning.CommonPractice}
}

func positive(l quantity.Length) bool { return l > 0 && !math.IsInf(float64(l), 1) }

func mm(name string, l quantity.Length, o reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: float64(l), Unit: reckoning.MM, Origin: o}
}

// reckoned returns a computed figure with its rule and what was put in.
func reckoned(name string, v float64, u reckoning.Unit, rule string, puts ...reckoning.Figure) reckoning.Figure {
	return reckoning.Reckoning{Rule: rule, Puts: puts, Result: reckoning.Figure{Name: name, Value: v, Unit: u}}.Figure()
}
