// Package temper mixes hot and cold water to a wanted temperature and volume, allowing for the chemical's
// own volume and temperature, by mass and enthalpy balance with a table of IAPWS-95 density and enthalpy
// from 0 to 100 °C at 101.325 kPa. Out of reach is no refusal: it gives the nearest reachable
// temperature, a kettle, or ice by weight as part of the water. It also turns a time at one
// temperature into the time at another.
//
// Limits of validity: the chemical counts as water (its heat capacity is within some per cent of it);
// heat of solution and of the vessel are not counted, so the thermometer decides.
package temper
