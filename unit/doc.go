// Package unit holds the quantities an upholstery shop measures, as types
// that cannot be mixed up.
//
// It is the ground of the house: it imports no other public package, and every
// other may import it.
//
// # What is exact
//
// Length, Area, Volume, Mass and Duration count whole quanta in an int64, the
// way time.Duration does, so == and < mean what they say:
//
//	Length    1 quantum = 1 nanometre         1 in  = 25 400 000
//	Area      1 quantum = 1 square micrometre 1 in² = 645 160 000
//	Volume    1 quantum = 1 nanolitre         1 in³ = 16 387 064
//	Mass      1 quantum = 1 microgram         1 lb  = 453 592 370
//	Duration  1 quantum = 1 millisecond
//
// Every 64th of an inch and every whole nanometre is exact. The leather ounce
// (1/64 in of thickness) is exact; the iron (1/48 in) and the avoirdupois
// ounce (1/16 lb) are not whole quanta, so there is no constant for them:
// they are read and written through exact ratios and rounded once.
//
// Force, Pressure, Density, LinearDensity, Angle and Ratio are float64
// underneath, since they come from scales and tables with a few digits.
// Nothing in this package hands out a NaN or an infinity.
//
// # Writing quantities
//
// Constants read like speech:
//
//	w := 22*unit.Inch + 5*unit.Inch/8
//
// A bare 3 compiles, as it does with time.Duration, and means 3 nanometres.
// Calculators therefore refuse what is too small to be meant as a forgotten
// unit; see [Length.Forgotten], [Area.Forgotten] and their like.
//
// # Overflow
//
// The operators + - * wrap around like any int64. The methods Plus, Minus,
// Times, By and Scale check and return an error instead; use them wherever a
// value comes from outside.
//
// # Text
//
// Every type reads what a shop writes ("25 5/8 in", `25-5/8"`, `2' 1 5/8"`,
// "1 1/2 yd", "652 mm", "48 sq ft", "2.8 lb/ft3") and marshals without loss, so
// that text and JSON round-trip to the same value. String is for people: that
// of the exact types loses nothing either, that of the measured ones gives five
// digits, in the unit in which the value is a round number ("33 lbf"). A
// decimal comma is refused: 1,250 could be read two ways.
//
// Arithmetic and parsing do not allocate; a text costs one allocation.
//
// The definitions are those of the international yard and pound (1 yd =
// 0.9144 m, 1 lb = 0.453 592 37 kg), as in NIST SP 811 and NIST Handbook 44,
// Appendix C.
package unit
