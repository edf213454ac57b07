package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// DefaultTapeTolerance is how far a measure with a tape may be off where
// nothing else is given: 1/16 in either way. It is a working figure of this
// package, twice what reading to the nearest sixteenth costs; a cloth tape over
// padding is worse.
const DefaultTapeTolerance = unit.Inch / 16

// TapeSigma gives the standard deviation of a measure that may be off by t
// either way and lies anywhere within it alike:
//
//	σ = t / √3
//
// The tolerance is from 10 micrometres to 1 in; zero stands for
// DefaultTapeTolerance.
func TapeSigma(tolerance unit.Length) (unit.Length, error) {
	t, err := tapeTolerance(tolerance)
	if err != nil {
		return 0, err
	}
	return rounded(float64(t) / math.Sqrt(3)), nil
}

// Taped is an outline that was worked out from measures, with what the error of
// the measures makes of it.
type Taped struct {
	Outline   Outline        `json:"outline"`
	Tolerance Tolerance      `json:"tolerance"`
	Measures  []TapedMeasure `json:"measures"`
	Corners   []TapedPoint   `json:"corners"` // where the pieces of the outline meet, in its order
}

// Tolerance is how far the sizes of a measured outline may be off. The zero
// value belongs to an outline that was drawn, not measured.
//
// Of each size y, worked out from measures x that are independent and each
// within t of the truth, it gives two figures. Sigma is by the law of propagation,
//
//	σ_y² = Σ (∂y/∂x_i)² σ_i² + what the curvature of y adds,  σ_i = t_i / √3
//
// with derivatives by central differences. The truth lies within two sigma in
// 95 of 100 cases. Worst is the largest change of y while no measure leaves its
// tolerance: for up to eight measures the largest over the corners of the box
// that they span, with an allowance where the largest may lie between corners; for
// more a bound from every measure and every pair of them, which two measures far
// apart do not change together. The truth cannot be further off than that, but for
// what three measures together do beyond their pairs.
type Tolerance struct {
	// Measure is how far each measure may be off.
	Measure   unit.Length `json:"measure,omitzero"`
	Width     TapedLength `json:"width,omitzero"`
	Height    TapedLength `json:"height,omitzero"`
	Area      TapedArea   `json:"area,omitzero"`
	Perimeter TapedLength `json:"perimeter,omitzero"`
	Edges     []TapedEdge `json:"edges,omitempty"` // in the order of the outline
	// Diagonal is the second diagonal of four sides and a diagonal.
	Diagonal *TapedDiagonal `json:"diagonal,omitempty"`
	// Angles are those under which the two tapes meet at the points of a baseline,
	// in their order. Under 40 and over 140 degrees a point is badly founded.
	Angles []unit.Angle `json:"angles,omitempty"`
	// Photo is how far an outline may be off that was taken from a photo; beside it
	// only Diagonal is then said, that of marks whose distances were taped.
	Photo *PhotoError `json:"photo,omitempty"`
}

// IsZero tells whether t is the zero value: the outline was not measured.
func (t Tolerance) IsZero() bool { return t.Measure == 0 && t.Photo == nil }

// TapedLength is a length worked out from measures.
type TapedLength struct {
	Size  unit.Length `json:"size"`
	Sigma unit.Length `json:"sigma"` // the truth lies within twice this in 95 of 100 cases
	Worst unit.Length `json:"worst"` // the truth cannot be further off
	// Bias is how much too long the size is, on the average: the wobble of measured
	// points adds length to a line and never takes it away.
	Bias unit.Length `json:"bias,omitzero"`
}

// Likely gives two sigma, but no more than Worst: the truth lies as near in 95 of
// 100 cases.
func (t TapedLength) Likely() unit.Length { return min(2*t.Sigma, t.Worst) }

// TapedArea is an area worked out from measures.
type TapedArea struct {
	Size  unit.Area `json:"size"`
	Sigma unit.Area `json:"sigma"` // the truth lies within twice this in 95 of 100 cases
	Worst unit.Area `json:"worst"` // the truth cannot be further off
}

// Likely gives two sigma, but no more than Worst: the truth lies as near in 95 of
// 100 cases.
func (t TapedArea) Likely() unit.Area { return min(2*t.Sigma, t.Worst) }

// TapedEdge is the length of an edge, which is sewn to another.
type TapedEdge struct {
	Name   string      `json:"name"`
	Length TapedLength `json:"length"`
}

// TapedMeasure is one measure, and what one more of it adds to the sizes: the
// derivatives, which tell which measure is worth taking twice.
type TapedMeasure struct {
	Field     unit.Path    `json:"field"` // of the Form
	Measured  unit.Length  `json:"measured"`
	Used      unit.Length  `json:"used"` // after all measures were brought together
	Tolerance unit.Length  `json:"tolerance"`
	OnWidth   unit.Ratio   `json:"on_width"`
	OnHeight  unit.Ratio   `json:"on_height"`
	OnArea    unit.Length  `json:"on_area"`  // area per length
	OnEdges   []unit.Ratio `json:"on_edges"` // in the order of the outline
}

// TapedPoint is a point worked out from measures.
type TapedPoint struct {
	At     Point       `json:"at"`
	SigmaX unit.Length `json:"sigma_x"`
	SigmaY unit.Length `json:"sigma_y"`
}

// Sigma gives the root of the squares of both sigmas.
func (p TapedPoint) Sigma() unit.Length {
	return rounded(math.Sqrt(nano.Square(float64(p.SigmaX)) + nano.Square(float64(p.SigmaY))))
}

func rounded(nm float64) unit.Length { return unit.Length(math.Round(nm)) }
