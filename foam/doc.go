// Package foam chooses, sizes and judges flexible polyurethane foam for
// cushions: density and indentation force, selection by use and duty with the
// figures of every source kept visible, the sizes to cut
// that go with the material.
//
// It stands on package unit alone; packages sheet, wrap and job stand on it.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Firmness is not one number
//
// The same foam has several firmness figures, taken by different tests, and
// none follows from another. They are therefore different types:
//
//	IFD25      force to push a 50 in² plate 25 % into the foam (ASTM D3574, test B1)
//	IFD65      the same at 65 %
//	HardnessA  force at 40 % after 30 s (ISO 2439, method A)
//	HardnessB  forces at 25, 40 and 65 % after 30 s each (ISO 2439, method B)
//
// ILD is the older name of IFD. There is no exact factor between the American
// and the ISO figures: the tests differ in depth, hold time, conditioning and
// sample. [EstimateHardnessA] gives an estimate with its uncertainty and says so.
//
// Density and firmness are independent of each other: firmness says how the
// cushion feels, density how long it keeps feeling so.
//
// # What the figures are worth
//
// Much of what is written about foam for seats is custom of the trade, and the
// pages disagree. Every figure here carries a [cite.Basis]; where sources
// differ the whole span is returned together with each of them.
//
// # Fire and health
//
// Polyurethane foam burns fast and its smoke is poisonous. Package caution
// gives the rules by jurisdiction with edition and date; show them with every
// selection. The text in force where the piece is sold, and the supplier's
// certificate, always come first.
package foam
