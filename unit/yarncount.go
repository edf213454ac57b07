package unit

import "math/big"

// The yarn counts that shrink as the thread grows. With T the linear density
// in tex:
//
//	Nm = 1000 / T            metres per gram
//	Ne = K / T               hanks of 840 yd per pound
//	yd/lb = 840 K / T
//	K = 1000 × 453.592 37 / (840 × 0.9144) = 590.541 247 448…
//
// K follows from the exact pound and yard.

const (
	poundTex = 45_359_237 * 100_000 // a pound, a hank and a yard, so that
	hank     = 840 * yard           // poundTex/hank is K and
	yard     = 9144 * 1000          // poundTex/yard is 840 K
)

// MetricCountOf gives the thread of which n metres weigh a gram (Nm). The
// count must be above zero; it wraps ErrRange or ErrNotFinite.
func MetricCountOf(n float64) (LinearDensity, error) { return countOf(n, 1000, 1) }

// CottonCountOf gives the thread of which n hanks of 840 yd weigh a pound
// (Ne). The count must be above zero; it wraps ErrRange or ErrNotFinite.
func CottonCountOf(n float64) (LinearDensity, error) { return countOf(n, poundTex, hank) }

// YardsPerPoundOf gives the thread of which n yards weigh a pound. The count
// must be above zero; it wraps ErrRange or ErrNotFinite.
func YardsPerPoundOf(n float64) (LinearDensity, error) { return countOf(n, poundTex, yard) }

// countOf gives num/den/n. The rule is its own inverse.
func countOf(n float64, num, den int64) (LinearDensity, error) {
	if err := finite(n, "yarn count"); err != nil {
		return 0, err
	}
	if n <= 0 {
		return 0, &InputError{Value: floatText(n), Err: ErrRange, Want: "a count above zero"}
	}
	q := new(big.Rat).SetFloat64(n)
	f, _ := q.Quo(big.NewRat(num, den), q).Float64()
	return checked(LinearDensity(f))
}

// MetricCount gives d as Nm, metres per gram. It wraps ErrRange when d is not
// above zero.
func (d LinearDensity) MetricCount() (float64, error) { return d.count(1000, 1) }

// CottonCount gives d as Ne, hanks of 840 yd per pound. It wraps ErrRange
// when d is not above zero.
func (d LinearDensity) CottonCount() (float64, error) { return d.count(poundTex, hank) }

// YardsPerPound gives d as yards per pound. It wraps ErrRange when d is not
// above zero.
func (d LinearDensity) YardsPerPound() (float64, error) { return d.count(poundTex, yard) }

func (d LinearDensity) count(num, den int64) (float64, error) {
	x, err := countOf(float64(d), num, den)
	return float64(x), err
}
