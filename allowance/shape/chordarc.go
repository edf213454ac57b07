package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// ChordArc is a circular arc over its chord: a bowed rail, a crowned cushion,
// a channel. The zero value is no arc.
type ChordArc struct {
	Chord       unit.Length `json:"chord"`        // straight from end to end
	Rise        unit.Length `json:"rise"`         // from the middle of the chord to the arc
	Radius      unit.Length `json:"radius"`       //
	Angle       unit.Angle  `json:"angle"`        // at the centre
	Length      unit.Length `json:"length"`       // along the arc
	SegmentArea unit.Area   `json:"segment_area"` // between chord and arc
}

// ArcFromChord gives the arc over a chord c with rise h:
//
//	R = c²/(8 h) + h/2
//	θ = 4 atan(2 h / c)
//	arc = R θ,  segment = R² (θ - sin θ) / 2
//
// Chord and rise are above zero, up to 1 km; a rise above half the chord is an
// arc of more than half a circle. A rise under 1/10 000 of the chord is refused
// as straight.
func ArcFromChord(chord, rise unit.Length) (ChordArc, error) {
	if err := check.Positive("chord", chord); err != nil {
		return ChordArc{}, err
	}
	if err := check.Length("rise", rise, max(10*unit.Micrometre, chord/flattest), check.Longest); err != nil {
		return ChordArc{}, err
	}
	return arcOf(float64(chord), float64(rise))
}

// flattest is the largest ratio of chord to rise that is still an arc.
const flattest = 10_000

func arcOf(c, h float64) (ChordArc, error) {
	r := nano.Square(c)/(8*h) + h/2
	theta := 4 * math.Atan2(2*h, c)
	var a ChordArc
	var err error
	if a.Chord, err = nano.Length(c); err != nil {
		return ChordArc{}, err
	}
	if a.Rise, err = nano.Length(h); err != nil {
		return ChordArc{}, err
	}
	if a.Radius, err = nano.Length(r); err != nil {
		return ChordArc{}, err
	}
	if a.Length, err = nano.Length(r * theta); err != nil {
		return ChordArc{}, err
	}
	if a.SegmentArea, err = nano.Area(nano.Square(r) / 2 * thetaMinusSin(theta)); err != nil {
		return ChordArc{}, err
	}
	a.Angle = unit.Angle(theta) * unit.Radian
	return a, nil
}

// thetaMinusSin gives θ - sin θ without loss at small angles.
func thetaMinusSin(t float64) float64 {
	if t > 0.5 {
		return t - math.Sin(t)
	}
	// t³/3! - t⁵/5! + t⁷/7! - …
	term, sum := t*t*t/6, 0.0
	for k := 4.0; math.Abs(term) > 1e-18*math.Abs(sum); k += 2 {
		sum += term
		term *= -nano.Square(t) / (k * (k + 1))
	}
	return sum
}

// ArcFromLength gives the arc of a given length over a given chord: how far a
// panel of one width bows out when its edges are held closer. The rise is
// found where
//
//	sin(θ/2) / (θ/2) = chord / arc
//
// The length is more than the chord and at most ten times it; a length so
// little longer that the rise is under 1/10 000 of the chord is refused as
// straight.
func ArcFromLength(chord, length unit.Length) (ChordArc, error) {
	if err := check.Positive("chord", chord); err != nil {
		return ChordArc{}, err
	}
	if err := check.Length("length", length, chord+chord/37_000_000+1, 10*chord); err != nil {
		return ChordArc{}, err
	}
	c, l := float64(chord), float64(length)
	// f(x) = sin x / x falls from 1 to 0 on (0, π); halve until it stands still
	lo, hi := 0.0, math.Pi
	for range 80 {
		x := (lo + hi) / 2
		if float64(l*math.Sin(x)) > float64(c*x) {
			lo = x
		} else {
			hi = x
		}
	}
	half := (lo + hi) / 2
	// h = R (1 - cos θ/2) and c = 2 R sin θ/2, so h = c/2 tan(θ/4)
	return arcOf(c, c/2*math.Tan(half/2))
}
