package process

import (
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

const (
	// windowDepth is how much deeper than wanted a tray may be filled, in mm.
	windowDepth = 5
	// own and over are the share by which a tray's own fill, and what covers a tank's reels, may be missed; as
	// one part in so many.
	ownPart, overPart = 10, 10
)

// Window returns the volumes that are right for a tray, and the one that is wanted: with a fill of its own
// 10 % either way of it, wanted the fill itself; else from the depth wanted (0: FillDepth) to 5 mm more,
// wanted the upper end. The figure is that of the wanted volume. ErrNoFloor where a tray has neither a fill
// nor a known floor; quantity.ErrRange where it is beyond quantity.MaxVolume.
func (t Tray) Window(depth quantity.Length) (quantity.Window, reckoning.Figure, error) {
	if t.Fill > 0 {
		w := quantity.Window{Min: t.Fill - t.Fill/ownPart, Max: t.Fill + t.Fill/ownPart, Want: t.Fill}
		put := reckoning.Figure{Name: "fill", Value: t.Fill.ML(), Unit: reckoning.ML, Origin: reckoning.Measured}
		return w, reckoned("wanted", w.Want.ML(), reckoning.ML, "window_of_fill", put), nil
	}
	put := mm("fill_depth", depth, reckoning.Measured)
	if !positive(depth) {
		put = FillDepth()
		depth = quantity.Length(put.Value)
	}
	least, _, err := t.VolumeFor(depth)
	if err != nil {
		return quantity.Window{}, reckoning.Figure{}, err
	}
	most, _, err := t.VolumeFor(depth + windowDepth)
	if err != nil {
		return quantity.Window{}, reckoning.Figure{}, err
	}
	_, floor, err := t.Floor()
	f := reckoned("wanted", most.ML(), reckoning.ML, "window_of_depth", floor, put,
		mm("window_depth", windowDepth, reckoning.CommonPractice))
	return quantity.Window{Min: least, Max: most, Want: most}, f, err
}

// TankWindow returns the volumes that are right for a tank: from what covers its reels to 10 % more. Wanted is what
// just covers: more is thrown away at once by a one-shot developer, and what a tank holds beyond it is not
// known. Nothing or less than nothing gives an empty window.
func TankWindow(covers quantity.Volume) (quantity.Window, reckoning.Figure) {
	if covers <= 0 {
		return quantity.Window{}, reckoning.Figure{}
	}
	w := quantity.Window{Min: covers, Max: covers + covers/overPart, Want: covers}
	put := reckoning.Figure{Name: "covers", Value: covers.ML(), Unit: reckoning.ML, Origin: reckoning.Measured}
	return w, reckoned("wanted", w.Want.ML(), reckoning.ML, "window_of_tank", put)
}
