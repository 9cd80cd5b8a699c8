// Package quantity holds the amounts of a darkroom: volume, mass, length, area, density, temperature,
// duration, keeping period and share, how people write them and how they are printed.
//
// Volumes are exact while marks are compared: an int64 in units of 1/6,144,000,000 mL holds
// millilitres, US and imperial fluid ounces, their 128ths and thirds of a millilitre without loss.
// A volume that is none of these (1/7 mL) is rounded to the nearest unit. Mass (g), length (mm),
// area (m²), density (g/mL) and temperature (°C) are float64 with the unit in the type. Readers
// refuse NaN, infinities, exponents and wrong signs.
//
// # What is read
//
//	number       10  0.5  0,5  .5  ½  4½  1/2  1 1/2  1-1/2
//	volume       100 mL  100 cc  50 cl  1.5 L  1/2 fl oz  1 US qt  1 imp gal  1 UK pint
//	window       900 mL to 1 L  900-1000 mL  1.4–1.6 L  32 to 36 fl oz  1 L (a tenth either way)
//	mass         5 g  1 kg  500 mg  20 gr  1 oz av  1 lb
//	density      1.10 g/mL  1.1 kg/L
//	temperature  60 C  60 °C  12C  140 F  68 °F  -5 °C
//	length       15 mm  8 cm  1 m  8 in  8"  1 ft
//	size         8x10 in  8×10"  24x30 cm  38 x 30 cm
//	area         1 m2  80 sq in  1 sq ft
//	duration     90 s  1 min 30 s  1:30  1:30:00  9 min 45 s  3 h
//	period       24 months  2 years  4 weeks  10 days  24 h
//	share        2 %  10%  ±15 %  (range: 1 to 2 %)
//
// Capitals do not matter, units may be written out, and every kind of space counts as one. An oz is
// a fluid ounce, never a mass; whose it is, US, imperial, imp or UK before it says, or the caller's
// Ounce, or else it is an error. Volume, mass, duration and share may be 0; the others are above it.
//
// Digits in groups are refused and not guessed at (1,000 and 1 000; also 1.000 mL, because
// nobody measures thousandths of a millilitre and many write a thousand so). A comma followed by any
// other number of digits, or behind a 0, is a decimal comma. What cannot be read is a ReadError with
// place, reason and the nearest right word.
//
// # What is printed
//
// The String methods, Size, Share and Duration write for files: plain spaces, nothing lost, and the
// reader gives the same value back, whatever its ounce. A Style prints for people: in their system, rounded to
// what can be measured, with spaces that do not break. It refuses what would round to nothing or to
// an amount more than 5 % off.
//
// Sources: NIST HB 44 App. C (US gallon of 231 in³, inch of 25.4 mm), UK Weights and Measures Act
// 1985 (gallon of 4546.09 mL), avoirdupois pound of 453.59237 g; tested against GNU units.
//
// Limits: volumes up to MaxVolume; masses up to 10 t, lengths to 10 km, -273.15 to 1000 °C, times to
// 10,000 h; numbers that are held exactly have 18 figures.
package quantity
