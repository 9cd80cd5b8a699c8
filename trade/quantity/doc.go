// Package quantity holds the amounts of a darkroom: volume, mass, length, area, temperature,
// duration and keeping period, how people write them and how they are printed.
//
// Volumes are exact while marks are compared: an int64 in units of 1/6,144,000,000 mL holds
// millilitres, US and imperial fluid ounces, their 128ths and thirds of a millilitre without loss.
// Mass (g), length (mm), area (m²) and temperature (°C) are float64 with the unit in the type.
// Constructors refuse NaN, infinities and wrong signs.
//
// Sources: NIST HB 44 App. C (US gallon of 231 in³, inch of 25.4 mm), UK Weights and Measures Act
// 1985 (gallon of 4546.09 mL), avoirdupois pound of 453.59237 g; tested against GNU units.
//
// Limits: volumes up to MaxVolume; an ounce without a system is an error, never a guess.
package quantity
