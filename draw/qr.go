package draw

import (
	"errors"
	"image/color"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/qr"

	"wetside/draw/scene"
)

// A QR is an address that a phone reads off a screen or off paper.
type QR struct {
	Text string // at most 2331 bytes (ISO/IEC 18004 Table 7, version 40 at level M)
	Say  string // what it is for, for those who do not see it
	Size Size
}

// ErrTooLong says that an address does not go into a code.
var ErrTooLong = errors.New("draw: too long for a code")

// quiet is the empty border that a code needs, in modules (ISO/IEC 18004: four).
const quiet = 4

// Scene draws the code, dark on light in every form: not every camera reads the other way round. On the red page light is
// red. The error is ErrTooLong.
func (q QR) Scene(f scene.Form) (scene.Scene, error) {
	code, err := qr.Encode(q.Text, qr.M, qr.Unicode) // bytes as they are, in the smallest that holds them
	if err != nil {
		return scene.Scene{}, errors.Join(ErrTooLong, err)
	}
	module := 6.0
	if q.Size == Wall {
		module = 8
	}
	side := float64(code.Bounds().Dx()+2*quiet) * module
	s := scene.Scene{Width: side, Height: side, Label: q.Say}
	light, dark := scene.Role("own-white"), scene.Role("own-black")
	if f == scene.Red {
		light, dark = scene.Ink, scene.Paper
	}
	s.Add(scene.Rect{W: side, H: side, Fill: light}, scene.Path{Segs: runs(code, module), Fill: dark})
	return s, nil
}

// runs outlines the dark modules, each row's neighbours as one.
func runs(c barcode.Barcode, module float64) []scene.Seg {
	var segs []scene.Seg
	at := func(x, y int) scene.Point {
		return scene.Point{X: float64(x+quiet) * module, Y: float64(y+quiet) * module}
	}
	size, dark := c.Bounds().Dx(), color.Color(color.Black)
	for y := range size {
		for x := 0; x < size; x++ {
			if c.At(x, y) != dark {
				continue
			}
			from := x
			for x+1 < size && c.At(x+1, y) == dark {
				x++
			}
			segs = append(segs,
				scene.Seg{Op: scene.MoveTo, To: at(from, y)}, scene.Seg{Op: scene.LineTo, To: at(x+1, y)},
				scene.Seg{Op: scene.LineTo, To: at(x+1, y+1)}, scene.Seg{Op: scene.LineTo, To: at(from, y+1)},
				scene.Seg{Op: scene.Close})
		}
	}
	return segs
}
