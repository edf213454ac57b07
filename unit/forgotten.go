package unit

// A bare number compiles as a quantity and counts its quanta: 67 is 67 square
// micrometres. What is so small that no shop measures it had a unit that was
// forgotten; calculators refuse it with ErrForgottenUnit.

func forgotten[Q ~int64](q, least Q) bool { return q != 0 && q > -least && q < least }

// Forgotten tells whether l is so small that its unit was surely forgotten:
// not zero and under 10 micrometres either way.
func (l Length) Forgotten() bool { return forgotten(l, 10*Micrometre) }

// Forgotten tells whether a is so small that its unit was surely forgotten:
// not zero and under a hundredth of a square millimetre either way.
func (a Area) Forgotten() bool { return forgotten(a, SquareMillimetre/100) }

// Forgotten tells whether v is so small that its unit was surely forgotten:
// not zero and under 10 cubic millimetres either way.
func (v Volume) Forgotten() bool { return forgotten(v, Litre/100_000) }

// Forgotten tells whether m is so small that its unit was surely forgotten:
// not zero and under a milligram either way.
func (m Mass) Forgotten() bool { return forgotten(m, Milligram) }

// Forgotten tells whether d is so short that its unit was surely forgotten:
// not zero and under a second either way.
func (d Duration) Forgotten() bool { return forgotten(d, Second) }
