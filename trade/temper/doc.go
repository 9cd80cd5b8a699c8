// Package temper mixes hot and cold water to a wanted temperature and volume, allowing for the chemical's
// own volume and temperature, by mass and enthalpy balance with a table of IAPWS-95 density and enthalpy
// from 0 to 100 °C at 101.325 kPa. Out of reach is no refusal: it gives the nearest reachable
// temperature, a kettle, or ice by weight as part of the water. The answer is given as a person does it: hot water to a
// mark, cold up to a mark, then the thermometer, then the chemical. It also tells how a standing bath
// drifts to the room's temperature, and turns a time at one temperature into the time at another.
//
// The table is written by tools/water_table with Debian's python3-iapws, every degree; between its rows a cubic
// is within 2e-6 kg/m³ and 2e-6 kJ/kg of IAPWS-95 up to 98 °C, within 5e-5 and 7e-5 (2e-5 K) above. At 0 °C
// the liquid is 0.0025 K below its freezing point; at 100 °C it is taken as just boiling, at 101.42 kPa.
//
// Limits of validity: the chemical counts as water (its heat capacity is within some per cent of it);
// heat of solution (hypo crystals cool strongly, anhydrous carbonate warms), of the vessel and of the air are not
// counted; ice is taken as melting, at 0 °C: straight from a freezer at −18 °C it cools about a tenth more. So the
// thermometer decides.
package temper
