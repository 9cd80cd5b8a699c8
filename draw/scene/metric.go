package scene

import "strings"

// advances are advance widths from space to tilde, regular and bold, in hundredths of an em, rounded up: of DejaVu
// Sans 2.37 or Liberation Sans 2.1, whichever is wider. Measured from the faces.
var advances = [2][95]uint8{
	{
		32, 41, 46, 84, 64, 95, 78, 28, 39, 39, 50, 84, 32, 37, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 56,
		102, 69, 69, 73, 77, 67, 62, 78, 76, 30, 50, 67, 56, 87, 75, 79, 67, 79, 73, 67, 62, 74, 69, 99, 69, 67, 69, 39, 34, 39, 84, 56,
		50, 62, 64, 55, 64, 62, 36, 64, 64, 28, 28, 58, 28, 98, 64, 62, 64, 64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84,
	},
	{
		35, 46, 53, 84, 70, 101, 88, 31, 46, 46, 53, 84, 38, 42, 38, 37, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70, 40, 40, 84, 84, 84, 62,
		100, 78, 77, 74, 83, 69, 69, 83, 84, 38, 56, 78, 64, 100, 84, 85, 74, 85, 77, 72, 69, 82, 78, 111, 78, 73, 73, 46, 37, 46, 84, 56,
		50, 68, 72, 60, 72, 68, 44, 72, 72, 35, 35, 67, 35, 105, 72, 69, 72, 72, 50, 60, 48, 72, 66, 93, 65, 66, 59, 72, 37, 72, 84,
	},
}

// TextWidth returns the most that a text of this size takes, in the scene's units.
func TextWidth(text string, size float64, bold bool) float64 {
	face := advances[0]
	if bold {
		face = advances[1]
	}
	sum := 0
	for _, r := range text {
		switch {
		case r >= ' ' && r <= '~':
			sum += int(face[r-' '])
		case r == '°' || r == '½' || r == '¼' || r == '¾' || r == '·' || r == '’':
			sum += int(face['m'-' '])
		default:
			sum += 100
		}
	}
	return float64(sum) * size / 100
}

// Fit returns the largest size, from size down to least, in which the text takes at most width.
func Fit(text string, size, least, width float64, bold bool) float64 {
	if w := TextWidth(text, size, bold); w > width {
		size = max(least, size*width/w)
	}
	return size
}

// descent is how far a text reaches below its baseline, in em: nothing much for figures and capitals.
func descent(text string) float64 {
	if strings.ContainsAny(text, "gjpqy,;()/@[]{}|_Qç") {
		return 0.24
	}
	return 0.02
}
