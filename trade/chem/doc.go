// Package chem is the chemistry of the baths: formulas with water of crystallisation and their molar masses, the
// substances that go into a bath, and the pH of any mixture of them, with titrations and buffers.
//
// # Mixtures
//
// Amounts are mol per kilogram of water. PH answers once; Mix and Explain tell how it came about. A bath whose liquid
// changes is Prepared once, changed in place and solved again, which starts from the last answer
// and allocates nothing:
//
//	bath, err := chem.Prepare(20, acid, carbonate, sulfite)  // the substances of the bath and of what is carried in
//	bath.Set(0, 0.232)                                       // a stop bath of acetic acid
//	bath.Replace(0.005, []float64{0, 0.2123, 0.1190})        // a print brings 5 mL of developer to 1 L
//	now := bath.Solve()                                      // now.PH
//
// For thousands of draws a Curve is tabulated once: CarryIn against the share of the liquid carried in, Titration
// against what is added. See the examples.
//
// # Model
//
// Every acid is a row of forms that give off one proton after the other; sodium, potassium and the halides take none.
// Charges balance; pH is −log10 of the activity of H+; ions have Davies' activity coefficients with A of the temperature,
// uncharged species 1, water 1. Constants follow the temperature by enthalpy and change of heat capacity.
// The ionic strength is the ions' own. So solved, the pH of the primary buffers is met within 0.012 at 20 and 25 °C.
//
// Sources: constants at 25 °C from the databases of USGS PHREEQC 3 and LibreTexts (each beside its acid, in the
// reckoning, and as Substance.PKs); those of phthalic, sulfuric and ascorbic acid, hydroquinone and metol are from memory,
// and so are all changes of heat capacity and most enthalpies (of Goldberg, Kishore and Lennen 2002, whose table
// was not at hand). Atomic weights: IUPAC 2001.
//
// # Limits of validity
//
// From 10 to 40 °C. Above an ionic strength of 0.5 mol/kg, where most developers and all fixers are, a pH is marked
// indicative; from 1 mol/kg on the activity coefficients are held. A closed system: carbon dioxide, sulfur dioxide and ammonia
// stay in, and nothing is oxidised or precipitated. No ion pairs (with them in, this activity model misses the
// carbonate standard by 0.15), no polyborates, no silver. In alkalis of 0.1 to 0.3 mol/kg the databases
// themselves differ by 0.1. Notes say which of these a mixture comes up against.
package chem
