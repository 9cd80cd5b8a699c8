package draw

// What a code is made of, after ISO/IEC 18004: bytes alone, correction level M, versions 1 to 6, which hold an address in a
// room's own network and need no information on their version.

// A qrVersion is a size of code at level M. All its blocks are alike.
type qrVersion struct {
	blocks, data, check int // blocks, and bytes in each
	align               int // where the one alignment pattern's middle stands; 0: none
}

// qrVersions are versions 1 to 6 (ISO/IEC 18004 Tables 9 and E.1).
func qrVersions() []qrVersion {
	return []qrVersion{{1, 16, 10, 0}, {1, 28, 16, 18}, {1, 44, 26, 22}, {2, 32, 18, 26}, {2, 43, 24, 30}, {4, 27, 16, 34}}
}

// A qrCode is a square of modules.
type qrCode struct {
	side        int
	dark, fixed []bool // fixed: not for data
}

func (c *qrCode) at(x, y int) bool { return c.dark[y*c.side+x] }

func (c *qrCode) set(x, y int, dark bool) {
	if x >= 0 && y >= 0 && x < c.side && y < c.side {
		c.dark[y*c.side+x], c.fixed[y*c.side+x] = dark, true
	}
}

// encodeQR makes the smallest code that holds the bytes. The error is ErrTooLong.
func encodeQR(text []byte) (*qrCode, error) {
	for i, v := range qrVersions() {
		if len(text)+2 > v.blocks*v.data { // the mode, the length and the end take two bytes
			continue
		}
		words := interleaved(v, qrData(text, v.blocks*v.data))
		var best *qrCode
		least := 0
		for mask := range 8 {
			c := newQR(17+4*(i+1), v.align)
			c.format(mask)
			c.place(words, mask)
			if p := c.penalty(); best == nil || p < least {
				best, least = c, p
			}
		}
		return best, nil
	}
	return nil, ErrTooLong
}

// qrData is the bytes with mode and length before them, filled up to n.
func qrData(text []byte, n int) []byte {
	out := make([]byte, 0, n+1)
	last := byte(0b0100)                                         // of the mode: bytes
	for _, b := range append([]byte{byte(len(text))}, text...) { //nolint:gosec // at most 106
		out = append(out, last<<4|b>>4)
		last = b & 0xf
	}
	out = append(out, last<<4)
	for pad := byte(0xec); len(out) < n; pad ^= 0xec ^ 0x11 {
		out = append(out, pad)
	}
	return out[:n]
}

// interleaved takes the blocks' bytes by turns, those of the data first.
func interleaved(v qrVersion, data []byte) []byte {
	var out []byte
	checks := make([][]byte, v.blocks)
	for b := range v.blocks {
		checks[b] = reedSolomon(data[b*v.data:(b+1)*v.data], v.check)
	}
	for i := range v.data {
		for b := range v.blocks {
			out = append(out, data[b*v.data+i])
		}
	}
	for i := range v.check {
		for b := range v.blocks {
			out = append(out, checks[b][i])
		}
	}
	return out
}

// reedSolomon returns n check bytes over GF(256) with x^8 + x^4 + x^3 + x^2 + 1.
func reedSolomon(data []byte, n int) []byte {
	generator := []byte{1}
	root := byte(1)
	for range n {
		next := make([]byte, len(generator)+1)
		for i, g := range generator {
			next[i] ^= g
			next[i+1] ^= times(g, root)
		}
		generator, root = next, times(root, 2)
	}
	rest := make([]byte, n)
	for _, d := range data {
		factor := d ^ rest[0]
		copy(rest, rest[1:])
		rest[n-1] = 0
		for i := range rest {
			rest[i] ^= times(generator[i+1], factor)
		}
	}
	return rest
}

func times(a, b byte) (p byte) {
	for ; b > 0; b >>= 1 {
		if b&1 > 0 {
			p ^= a
		}
		high := a&0x80 > 0
		if a <<= 1; high {
			a ^= 0x1d
		}
	}
	return p
}

// newQR sets what every code of a size has.
func newQR(side, align int) *qrCode {
	c := &qrCode{side: side, dark: make([]bool, side*side), fixed: make([]bool, side*side)}
	for i := range side { // the timing
		c.set(i, 6, i%2 == 0)
		c.set(6, i, i%2 == 0)
	}
	for _, corner := range [][2]int{{3, 3}, {side - 4, 3}, {3, side - 4}} {
		c.rings(corner[0], corner[1], 4, 2)
	}
	if align > 0 {
		c.rings(align, align, 2, 1)
	}
	return c
}

// rings draws a pattern of rings round a middle, of which the one at the distance light is light, and for a finder its rim.
func (c *qrCode) rings(x, y, out, light int) {
	for dy := -out; dy <= out; dy++ {
		for dx := -out; dx <= out; dx++ {
			far := max(dx, -dx, dy, -dy)
			c.set(x+dx, y+dy, far != light && far != 4)
		}
	}
}

// format writes the level and the mask, twice (ISO/IEC 18004 7.9: BCH(15,5), generator 0x537, mask 0x5412; M is 00).
func (c *qrCode) format(mask int) {
	rest := mask << 10
	for bit := 14; bit >= 10; bit-- {
		if rest>>bit&1 > 0 {
			rest ^= 0x537 << (bit - 10)
		}
	}
	bits := (mask<<10 | rest) ^ 0x5412
	on := func(i int) bool { return bits>>i&1 > 0 }
	for i := range 15 {
		x, y := 8, i
		switch {
		case i > 8:
			x, y = 14-i, 8
		case i == 8:
			x, y = 7, 8
		case i > 5:
			y = i + 1
		}
		c.set(x, y, on(i))
		if i < 8 {
			c.set(c.side-1-i, 8, on(i))
		} else {
			c.set(8, c.side-15+i, on(i))
		}
	}
	c.set(8, c.side-8, true)
}

// place writes the bytes in pairs of columns, up and down from the right, under a mask.
func (c *qrCode) place(words []byte, mask int) {
	bit, up := 0, true
	for right := c.side - 1; right > 0; right -= 2 {
		if right == 6 {
			right-- // the timing stands there
		}
		for i := range c.side {
			y := i
			if up {
				y = c.side - 1 - i
			}
			for _, x := range []int{right, right - 1} {
				if c.fixed[y*c.side+x] {
					continue
				}
				on := bit < 8*len(words) && words[bit/8]>>(7-bit%8)&1 > 0
				bit++
				c.dark[y*c.side+x] = on != masked(mask, x, y)
			}
		}
		up = !up
	}
}

// masked reports whether a mask turns a module (ISO/IEC 18004 Table 10).
func masked(mask, x, y int) bool {
	switch mask {
	case 0:
		return (x+y)%2 == 0
	case 1:
		return y%2 == 0
	case 2:
		return x%3 == 0
	case 3:
		return (x+y)%3 == 0
	case 4:
		return (x/3+y/2)%2 == 0
	case 5:
		return x*y%2+x*y%3 == 0
	case 6:
		return (x*y%2+x*y%3)%2 == 0
	default:
		return ((x+y)%2+x*y%3)%2 == 0
	}
}

// penalty tells how hard a code is to read: runs of one kind, squares of four, what looks like a finder, more of one kind
// than of the other (ISO/IEC 18004 7.8.3).
func (c *qrCode) penalty() (p int) {
	darks := 0
	for y := range c.side {
		for x := range c.side {
			if c.at(x, y) {
				darks++
			}
			if x > 0 && y > 0 && c.at(x, y) == c.at(x-1, y) && c.at(x, y) == c.at(x, y-1) && c.at(x, y) == c.at(x-1, y-1) {
				p += 3
			}
		}
		p += linePenalty(c.side, func(i int) bool { return c.at(i, y) })
		p += linePenalty(c.side, func(i int) bool { return c.at(y, i) })
	}
	off := 100*darks/(c.side*c.side) - 50
	return p + max(off, -off)/5*10
}

func linePenalty(n int, at func(int) bool) (p int) {
	run, window := 0, 0
	for i := range n {
		if i > 0 && at(i) == at(i-1) {
			run++
		} else {
			run = 1
		}
		switch {
		case run == 5:
			p += 3
		case run > 5:
			p++
		}
		window = window << 1 & 0x7ff
		if at(i) {
			window |= 1
		}
		if i >= 10 && (window == 0b10111010000 || window == 0b00001011101) {
			p += 40
		}
	}
	return p
}
