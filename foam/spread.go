package foam

import "github.com/coverwright/coverwright/unit/cite"

// Range is a span of a quantity, both ends included.
type Range[Q ~int64 | ~float64] struct {
	Low  Q `json:"low"`
	High Q `json:"high"`
}

// Has tells whether q lies in the range.
func (r Range[Q]) Has(q Q) bool { return q >= r.Low && q <= r.High }

// Middle gives the middle of the range.
func (r Range[Q]) Middle() Q { return r.Low + (r.High-r.Low)/2 }

// span gives the smallest range that holds both.
func (r Range[Q]) span(s Range[Q]) Range[Q] {
	return Range[Q]{Low: min(r.Low, s.Low), High: max(r.High, s.High)}
}

// overlap gives what both have in common, if anything.
func (r Range[Q]) overlap(s Range[Q]) (Range[Q], bool) {
	o := Range[Q]{Low: max(r.Low, s.Low), High: min(r.High, s.High)}
	return o, o.Low <= o.High
}

// Figure is what one source says: a range (a single value when both ends are
// equal), what it was said about, and how well it is founded.
type Figure[Q ~int64 | ~float64] struct {
	About string     `json:"about"`
	Range Range[Q]   `json:"range"`
	Basis cite.Basis `json:"basis"`
}

// Estimated is a model's answer with its error bars.
type Estimated[Q ~int64 | ~float64] struct {
	Value Q          `json:"value"`
	Low   Q          `json:"low"`
	High  Q          `json:"high"`
	Kind  cite.Kind  `json:"kind"`
	Basis cite.Basis `json:"basis"`
}

// Range gives the error bars.
func (e Estimated[Q]) Range() Range[Q] { return Range[Q]{Low: e.Low, High: e.High} }
