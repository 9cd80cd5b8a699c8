package scene

import (
	"fmt"
	"maps"
	"strings"
)

// A Colour is what a role looks like.
type Colour struct{ R, G, B uint8 }

// Hex returns the colour as CSS writes it.
func (c Colour) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// A Palette gives each role its colour.
type Palette map[Role]Colour

// PaletteFor returns a palette of our own for a form: Light for white light and paper, Dark for a dark colour
// scheme, Red for the dark itself, without a trace of green or blue.
func PaletteFor(f Form) Palette {
	switch f {
	case Dark:
		return darkPalette()
	case Red:
		return redPalette()
	case Light:
	}
	return lightPalette()
}

func lightPalette() Palette {
	return Palette{
		Paper: {0xfc, 0xfb, 0xf8}, Ink: {0x14, 0x17, 0x1a}, Soft: {0x5e, 0x5b, 0x54}, Hair: {0xcf, 0xca, 0xc0},
		Mark: {0x14, 0x17, 0x1a}, Liquid: {0xec, 0xe3, 0xcb}, Hatch: {0x8f, 0x85, 0x68}, Accent: {0xa8, 0x32, 0x1a},
		"own-white": {0xff, 0xff, 0xff}, "own-red": {0xb0, 0x2e, 0x25}, "own-grey": {0x8b, 0x91, 0x95},
		"own-blue": {0x2f, 0x62, 0xa3}, "own-green": {0x3b, 0x7d, 0x4f}, "own-yellow": {0xe6, 0xc2, 0x36},
		"own-black": {0x26, 0x28, 0x2a}, "own-orange": {0xd9, 0x7b, 0x29}, "own-brown": {0x7a, 0x55, 0x38},
		"own-pink": {0xdc, 0x92, 0xa5}, "own-purple": {0x71, 0x53, 0x93}, "own-cream": {0xef, 0xe4, 0xc6},
		"own-steel": {0xc3, 0xc8, 0xcc},
	}
}

func darkPalette() Palette {
	p := lightPalette()
	maps.Copy(p, Palette{
		Paper: {0x14, 0x17, 0x1a}, Ink: {0xf3, 0xf0, 0xe9}, Soft: {0xb5, 0xb1, 0xa7}, Hair: {0x4b, 0x4e, 0x52},
		Mark: {0xf3, 0xf0, 0xe9}, Liquid: {0x38, 0x35, 0x2a}, Hatch: {0x8a, 0x82, 0x69}, Accent: {0xff, 0x8b, 0x66},
		"own-white": {0xf3, 0xf0, 0xe9}, "own-black": {0x05, 0x06, 0x07},
	})
	return p
}

// redPalette is no brighter than it must be: #eb0000 on black is where small text reaches 4.5:1 (WCAG 2.2). Nothing in it
// is brighter than ink; the mark to stop at is told by its width.
func redPalette() Palette {
	p := Palette{}
	for _, role := range Roles() {
		p[role] = Colour{R: 0xec}
	}
	p[Paper], p[Liquid] = Colour{}, Colour{}
	p[Hair], p[Hatch] = Colour{R: 0xb8}, Colour{R: 0xb8}
	return p
}

// CSS returns the palette as declarations of custom properties, for a rule of the page's style sheet:
// "--paper:#fcfbf8;--ink:#14171a;...". A red page leaves the own roles out, since no drawing names them there.
func (p Palette) CSS() string {
	var b strings.Builder
	for _, role := range Roles() {
		if c, ok := p[role]; ok {
			fmt.Fprintf(&b, "--%s:%s;", role, c.Hex())
		}
	}
	return b.String()
}
