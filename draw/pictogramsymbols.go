package draw

// bomb is a ball that bursts: fragments fly off, the larger ones upwards.
func bomb() []area {
	all := []area{
		black(ring(45, 62, 12)),
		white("M47.5 49L49.8 55.5L47.2 56.6L51.4 64.5L50.6 57.6L53 56.6L50.5 49Z"),
	}
	ray := []area{black("M-1.6 0L0 -14L1.6 0L0 2Z")}
	for _, r := range [][4]float64{{55, 48, 30, 1.1}, {61, 55, 62, 0.9}, {48, 45, 2, 1}, {61, 63, 95, 0.7}, {40, 46, -28, 0.75}} {
		all = append(all, placed(ray, r[0], r[1], r[2], r[3])...)
	}
	piece := []area{black("M-3 -2L1 -3.4L3.4 0.4L0 3L-2.6 1.6Z")}
	for _, p := range [][4]float64{{52, 25, 10, 1.1}, {64, 34, 70, 1}, {72, 48, 30, 0.9}, {38, 32, 120, 0.9}, {73, 60, 200, 0.7}, {29, 46, 40, 0.75}} {
		all = append(all, placed(piece, p[0], p[1], p[2], p[3])...)
	}
	return all
}

// cylinder is a gas bottle that lies aslant, its neck at the upper right.
func cylinder() []area {
	return placed([]area{
		black("M-6.5 25L-6.5 -13C-6.5 -18 -3 -19.5 -2.6 -22L2.6 -22C3 -19.5 6.5 -18 6.5 -13L6.5 25C6.5 27.5 -6.5 27.5 -6.5 25Z"),
		black("M-3.6 -23.2L3.6 -23.2L3.6 -27.5L-3.6 -27.5Z"),
		white("M-3.9 20L-3.9 -11L-2 -13L-2 20Z"),
	}, 49, 51, 62, 1.08)
}

// tube is a test tube about the origin with its mouth down, glass with what is in it.
func tube() []area {
	return []area{
		black("M-4.6 12L-4.6 -9C-4.6 -14.6 4.6 -14.6 4.6 -9L4.6 12L6.2 12L6.2 13.8L-6.2 13.8L-6.2 12Z"),
		white("M-3 12.6L-3 -8.8C-3 -12.4 3 -12.4 3 -8.8L3 1L-1 12.6Z"),
	}
}

// corrosion is two tubes from which something drips: on metal, and on a hand; both are eaten.
func corrosion() []area {
	drop := []area{black("M0 -3C1.2 -0.6 1.9 0.4 1.9 1.6C1.9 3.6 -1.9 3.6 -1.9 1.6C-1.9 0.4 -1.2 -0.6 0 -3Z")}
	all := placed(tube(), 40, 31, 58, 1)
	all = append(all, placed(tube(), 61, 35, 58, 1)...)
	for _, d := range [][3]float64{{26.5, 44, 0.9}, {26.5, 51, 1}, {47.5, 48, 0.9}, {48.3, 54.5, 1}} {
		all = append(all, placed(drop, d[0], d[1], 0, d[2])...)
	}
	fume := []area{black("M-0.8 0C-2.6 -2.6 1.4 -4 -0.6 -7.4L0.8 -7.6C3 -4 -1 -2.8 0.8 -0.2Z")}
	for _, x := range []float64{20.5, 32.5} {
		all = append(all, placed(fume, x, 55, 0, 0.8)...)
	}
	for _, x := range []float64{40.6, 56.5} {
		all = append(all, placed(fume, x, 59.5, 0, 0.8)...)
	}
	return append(all,
		// the metal, with a hole eaten into its upper edge
		black("M15.5 56.5L22 56.5L23 58.5L25 58L26 60.3L28 59.5L29.3 60.5L30.5 58L31.5 56.5L37.5 56.5L37.5 63.5L22.5 63.5Z"),
		// the hand, flat, its fingers to the left
		black("M34.5 70.5C34.5 68.8 36 68 38 68L47 67.3L42.7 64.4C41.5 63.2 42.6 61.4 44.6 62.1L47.4 63L48.4 65.3L50.6 64L51.6 66L53.6 64.2"+
			"C58 63.2 63 62.6 67 64.4L75.6 64.2L63.6 76.2L59 76.6C52 78.2 45 74.6 37 73.2C35.4 72.9 34.5 72 34.5 70.5Z"),
	)
}

// skull is a skull over two crossed bones.
func skull() []area {
	bone := []area{
		black(bar(4, 44)), black(ring(-2.2, -21.5, 2.9)), black(ring(2.2, -21.5, 2.9)), black(ring(-2.2, 21.5, 2.9)), black(ring(2.2, 21.5, 2.9)),
	}
	all := append(placed(bone, 50, 61.5, 66, 0.92), placed(bone, 50, 61.5, -66, 0.92)...)
	head := []area{
		white("M30 38C30 14 70 14 70 38C70 46 67 50 63.5 53L63 64.5C58 68 42 68 37 64.5L36.5 53C33 50 30 46 30 38Z"),
		black("M32 38C32 16.5 68 16.5 68 38C68 45 65.5 48.8 61.5 51.5L61 60.5C57 63 43 63 39 60.5L38.5 51.5C34.5 48.8 32 45 32 38Z"),
		white("M36.5 41C36.5 35.5 46.5 34.8 47 40C47.4 45.6 44 47.4 41 47.2C38.2 47 36.5 45 36.5 41Z"),
		white("M63.5 41C63.5 35.5 53.5 34.8 53 40C52.6 45.6 56 47.4 59 47.2C61.8 47 63.5 45 63.5 41Z"),
		white("M50 44.5L52.8 50.6C51.6 51.6 50.8 50.6 50 50C49.2 50.6 48.4 51.6 47.2 50.6Z"),
		white("M42.6 54.2L44 54.2L44.3 61L43.2 60.8Z"), white("M47 54.6L48.3 54.6L48.3 61.6L47.2 61.5Z"),
		white("M51.7 54.6L53 54.6L52.8 61.5L51.7 61.6Z"), white("M56 54.2L57.4 54.2L56.8 60.8L55.7 61Z"),
	}
	return append(all, placed(head, 2, -2, 0, 0.96)...)
}

// bust is head and shoulders with a star where the lungs are.
func bust() []area {
	star := "M0 -15L2.6 -6.2L10.8 -9.8L6.2 -2.2L15 0.6L6.4 3.2L10 12L2.8 6.6L0 15.4L-2.8 6.6L-10 12L-6.4 3.2L-15 0.6L-6.2 -2.2L-10.8 -9.8L-2.6 -6.2Z"
	return append([]area{
		black("M50 13.5C55.5 13.5 58.8 17.5 58.8 23C58.8 27.6 57 31.4 54.8 33.4L54.8 38C57.5 41.2 68.5 41.5 70 47.5" +
			"C71 52 71.3 56.5 71.5 62L60.5 73L39.5 73L28.5 62C28.7 56.5 29 52 30 47.5C31.5 41.5 42.5 41.2 45.2 38L45.2 33.4" +
			"C43 31.4 41.2 27.6 41.2 23C41.2 17.5 44.5 13.5 50 13.5Z"),
	}, placed([]area{white(star)}, 50, 56, 0, 0.86)...)
}

// dead is a bare tree on the bank, and a fish that lies on its back in front of it.
func dead() []area {
	return []area{
		// the tree
		black("M35.5 63L37.3 49L30 41.5L31.2 40.4L36.2 44.4L35.4 35.5L37 35.2L38.2 43L39.5 30L36.4 25L37.6 24.3L40.2 28L42 21.5L43.4 21.8L42 30.5" +
			"L46.6 26L47.6 27L42 33.6L41.4 45L48.6 38.4L49.8 39.6L42.6 49.2L44.6 63Z"),
		// the bank and the water
		black("M16.4 58.6C22 60.5 30 60 37 61.5C46 63.4 50 67.4 57.5 68.2L74.4 68.2L70.2 72.4L30.2 72.4Z"),
		// the fish
		black("M46 59.5C50 52.6 60.5 50.2 69 54.4L75.6 49.6L75.2 57.8L78.8 62.6L71 61.4C63 66 50.5 65.4 46 59.5Z"),
		white("M50.2 56.6L51.3 57.7L52.4 56.6L53.3 57.5L52.2 58.6L53.3 59.7L52.4 60.6L51.3 59.5L50.2 60.6L49.3 59.7L50.4 58.6L49.3 57.5Z"),
		white("M56.6 54.2C58.4 56.8 58.4 60 56.8 62.8L55.9 62.4C57.2 59.9 57.2 57.2 55.8 54.8Z"),
	}
}
