package shape

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// ErrMisfit says that measures of one shape contradict each other.
var ErrMisfit = errors.New("measures do not agree")

// QuadrilateralForm is a panel of four straight sides by their lengths and the
// diagonal from the lower left corner to the upper right one, taken with a tape:
// edges bottom, right, top, left. With A the lower left corner, B the lower right
// one and so on anticlockwise, sides a = AB, b = BC, c = CD, d = DA and the
// diagonal e = AC,
//
//	C = (x, sqrt(e² - x²)),  x = (e² + a² - b²) / (2 a)
//	D = t u + h (-u_y, u_x),  u = C / e,  t = (d² + e² - c²) / (2 e),  h = sqrt(d² - t²)
//
// Both triangles must close and stand at least a twentieth as high as their
// longest side is long: of a thinner one the tape does not say where its corner is.
//
// The second diagonal, BD, is the only check of the five, and worth its minute.
// Where it is off by no more than three times what the tolerance explains, all six
// are brought together with the least sum of squares of their changes; else they
// are refused with the measure that would cure it by the smallest change.
//
// Drawing: allowance/doc/foursides.svg
type QuadrilateralForm struct {
	Bottom   unit.Length `json:"bottom" required:"true" hint:"the side along the bottom"`
	Right    unit.Length `json:"right" required:"true" hint:"the right side"`
	Top      unit.Length `json:"top" required:"true" hint:"the side along the top"`
	Left     unit.Length `json:"left" required:"true" hint:"the left side"`
	Diagonal unit.Length `json:"diagonal" required:"true" hint:"from the lower left corner to the upper right one"`
	// SecondDiagonal, from the lower right corner to the upper left one, is a check
	// of the others.
	SecondDiagonal unit.Length `json:"second_diagonal,omitzero"`
}

// TapedDiagonal is the second diagonal: what it must be, and how far what was
// measured is from that.
type TapedDiagonal struct {
	Computed unit.Length `json:"computed"` // from the sides and the first diagonal, as measured
	Sigma    unit.Length `json:"sigma"`    // of Computed
	// On is what one more of bottom, right, top, left and diagonal adds to Computed.
	On []unit.Ratio `json:"on"`
	// Measured is zero when it was not: nothing then checks the other five.
	Measured unit.Length `json:"measured,omitzero"`
	// Misfit is Measured - Computed, and MisfitSigma what its sigma is expected to
	// be:
	//
	//	σ_m = σ sqrt(1 + Σ (∂f/∂x_i)²)
	Misfit      unit.Length `json:"misfit,omitzero"`
	MisfitSigma unit.Length `json:"misfit_sigma,omitzero"`
}

// Doubtful tells whether the misfit is over two of its sigmas: one measure is
// probably wrong, and taking all again is better than averaging.
func (d TapedDiagonal) Doubtful() bool { return max(d.Misfit, -d.Misfit) > 2*d.MisfitSigma }

var quadrilateralMeasures = [6]string{"bottom", "right", "top", "left", "diagonal", "second_diagonal"}

func (q QuadrilateralForm) lengths() []unit.Length {
	ls := []unit.Length{q.Bottom, q.Right, q.Top, q.Left, q.Diagonal, q.SecondDiagonal}
	if q.SecondDiagonal == 0 {
		ls = ls[:5]
	}
	return ls
}

// outline gives the quadrilateral for measures that may be off by tolerance.
func (q QuadrilateralForm) outline(tolerance unit.Length) (Outline, error) {
	tp, err := q.taping(tolerance)
	if err != nil {
		return Outline{}, err
	}
	sides, err := tp.draw(tp.nominal(), 1)
	if err != nil {
		return Outline{}, err
	}
	return newOutline(sides)
}

// taping checks the measures against each other.
func (q QuadrilateralForm) taping(tolerance unit.Length) (*taping, error) {
	ls := q.lengths()
	x := make([]float64, len(ls))
	for i, l := range ls {
		if err := checkSize(quadrilateralMeasures[i], l); err != nil {
			return nil, err
		}
		x[i] = float64(l)
	}
	if err := q.triangles(x, 0.05); err != nil {
		return nil, err
	}
	tp := &taping{draw: func(x []float64, grid float64) ([]side, error) {
		p, _, err := q.corners(x)
		if err != nil {
			return nil, err
		}
		return polygonSides(p[:], []string{"bottom", "right", "top", "left"}, grid), nil
	}}
	for i, l := range ls {
		tp.measured(quadrilateralMeasures[i], l, tolerance, -1)
	}
	f, on := secondDiagonal(x[:5])
	sum := 0.0
	d := &TapedDiagonal{Computed: rounded(f)}
	for _, g := range on {
		sum += nano.Square(g)
		d.On = append(d.On, unit.Ratio(g))
	}
	sigma := float64(tolerance) / math.Sqrt(3)
	d.Sigma = rounded(sigma * math.Sqrt(sum))
	tp.diagonal = d
	if q.SecondDiagonal == 0 {
		return tp, nil
	}
	d.Measured, d.Misfit, d.MisfitSigma = q.SecondDiagonal, rounded(x[5]-f), rounded(sigma*math.Sqrt(1+sum))
	if math.Abs(x[5]-f) > 3*sigma*math.Sqrt(1+sum) {
		return nil, q.misfit(x, *d, on)
	}
	_, used, err := q.corners(x)
	tp.used = used
	return tp, err
}

// corners gives the four corners, and the measures that they fit: all as they are
// for five, adjusted for six.
func (q QuadrilateralForm) corners(x []float64) (p [4]geom.Vec, used []float64, err error) {
	used = x
	if len(x) == 6 {
		if used, err = q.adjusted(x); err != nil {
			return p, nil, err
		}
	}
	if err := q.triangles(used, 0); err != nil {
		return p, nil, err
	}
	return fourCorners(used), used, nil
}

// adjusted brings six measures together: of all x with f(x) = second diagonal the
// one nearest to the measured ones, by steps of Lagrange on the condition made
// straight at the last step,
//
//	x' = x0 - Jᵀ (g + J (x0 - x)) / (J Jᵀ),  g = f(x) - x_6
func (q QuadrilateralForm) adjusted(x0 []float64) ([]float64, error) {
	x := append([]float64(nil), x0...)
	for range 30 {
		if err := q.triangles(x, 0); err != nil {
			return nil, err
		}
		f, on := secondDiagonal(x[:5])
		j := append(on[:], -1)
		g, square, change := f-x[5], 0.0, 0.0
		for i := range j {
			g += float64(j[i] * (x0[i] - x[i]))
			square += nano.Square(j[i])
		}
		for i := range j {
			next := x0[i] - float64(j[i]*g/square)
			change = max(change, math.Abs(next-x[i]))
			x[i] = next
		}
		if change < 1e-4 {
			break
		}
	}
	return x, nil
}

// fourCorners gives the corners of measures whose triangles close.
func fourCorners(x []float64) [4]geom.Vec {
	a, c, d, e := x[0], x[2], x[3], x[4]
	right := apexOver(a, e, x[1])
	t := (nano.Square(e) + float64((d-c)*(d+c))) / (2 * e)
	h := math.Sqrt(max(0, (d-t)*(d+t)))
	ux, uy := right.X/e, right.Y/e
	return [4]geom.Vec{{}, {X: a}, right, {X: float64(t*ux) - float64(h*uy), Y: float64(t*uy) + float64(h*ux)}}
}

// apexOver gives the point at distances r1 and r2 from the ends of a level line
// of length b, over it:
//
//	x = (r1² + b² - r2²) / (2 b),  y = sqrt(r1² - x²)
func apexOver(b, r1, r2 float64) geom.Vec {
	x := (nano.Square(b) + float64((r1-r2)*(r1+r2))) / (2 * b)
	return geom.Vec{X: x, Y: math.Sqrt(max(0, (r1-x)*(r1+x)))}
}

// secondDiagonal gives BD and its derivatives by the five other measures, as
// central differences.
func secondDiagonal(x []float64) (f float64, on [5]float64) {
	at := func() float64 {
		p := fourCorners(x)
		return geom.Hypot(p[3].X-p[1].X, p[3].Y-p[1].Y)
	}
	f = at()
	for i := range on {
		was := x[i]
		step := float64(1e-6 * was)
		x[i] = was + step
		up := at()
		x[i] = was - step
		on[i] = (up - at()) / (2 * step)
		x[i] = was
	}
	return f, on
}

// triangles refuses measures whose two triangles do not close, or stand less than
// least of their longest side high.
func (q QuadrilateralForm) triangles(x []float64, least float64) error {
	for _, t := range [2][3]int{{0, 1, 4}, {2, 3, 4}} {
		names := [3]string{quadrilateralMeasures[t[0]], quadrilateralMeasures[t[1]], quadrilateralMeasures[t[2]]}
		if err := checkTriangle(names, [3]float64{x[t[0]], x[t[1]], x[t[2]]}, least); err != nil {
			return err
		}
	}
	return nil
}

// checkTriangle refuses three sides that do not close, by how much, or whose
// triangle is less than least of its longest side high.
func checkTriangle(names [3]string, s [3]float64, least float64) error {
	long := 0
	for i := range s {
		if s[i] > s[long] {
			long = i
		}
	}
	o, p := (long+1)%3, (long+2)%3
	value := rounded(s[long]).String()
	short := s[long] - s[o] - s[p]
	if short >= 0 {
		return check.Refuse(names[long], value, unit.ErrRange, fmt.Sprintf("less than %s and %s together: it is %s more", names[o], names[p], inchOrMore(short)))
	}
	// Heron's formula, in an order that keeps the digits.
	a, b, c := s[long], max(s[o], s[p]), min(s[o], s[p])
	area := math.Sqrt(max(0, (a+(b+c))*(c-(a-b))*(c+(a-b))*(a+(b-c)))) / 4
	height := 2 * area / a
	if height < least*a {
		return check.Refuse(names[long], value, unit.ErrRange, fmt.Sprintf(
			"a triangle with %s and %s at least %s high: it is %s high, too thin for a tape to say where its corner is",
			names[o], names[p], inchOrMore(least*a), inchOrMore(height)))
	}
	return nil
}

// inchOrMore writes a worked-out length for an error: thousandths of an inch.
func inchOrMore(nm float64) string { return rounded(nm).Decimal(unit.Inch, 3, unit.Nearest) }

// misfit words a second diagonal that the others contradict.
func (q QuadrilateralForm) misfit(x []float64, d TapedDiagonal, on [5]float64) error {
	m := x[5] - float64(d.Computed)
	cure, change := 5, -m
	for i, g := range on {
		if math.Abs(m/g) < math.Abs(change) {
			cure, change = i, m/g
		}
	}
	// With the fourth corner folded over to the other side of the first diagonal?
	p := fourCorners(x[:5])
	e := x[4]
	ux, uy := p[2].X/e, p[2].Y/e
	along := float64(p[3].X*ux) + float64(p[3].Y*uy)
	folded := geom.Vec{X: float64(2*along*ux) - p[3].X, Y: float64(2*along*uy) - p[3].Y}
	if math.Abs(geom.Hypot(folded.X-p[1].X, folded.Y-p[1].Y)-x[5]) < 3*float64(d.MisfitSigma) {
		return check.Refuse("second_diagonal", q.SecondDiagonal.String(), ErrMisfit,
			"a first diagonal that lies inside the shape; take this one first and the other second, and turn the names of the sides by one")
	}
	more := "more"
	if change < 0 {
		more = "less"
	}
	return check.Refuse("second_diagonal", q.SecondDiagonal.String(), ErrMisfit, fmt.Sprintf(
		"%s, as the sides and the first diagonal have it; it is off by %s, where the tape explains %s at three sigma: measure again, first the %s, which alone would cure it with %s %s",
		inchOrMore(float64(d.Computed)), inchOrMore(math.Abs(m)), inchOrMore(3*float64(d.MisfitSigma)),
		strings.ReplaceAll(quadrilateralMeasures[cure], "_", " "), inchOrMore(math.Abs(change)), more))
}

// QuadrilateralArea gives the area of a quadrilateral from its sides a, b, c, d in
// their order and both diagonals p and q:
//
//	A = 1/4 sqrt(4 p² q² - (b² + d² - a² - c²)²)
//
// Each is above zero, up to 1 km. Diagonals too short for the sides are refused.
func QuadrilateralArea(a, b, c, d, p, q unit.Length) (unit.Area, error) {
	if err := check.Positives([]string{"a", "b", "c", "d", "p", "q"}, a, b, c, d, p, q); err != nil {
		return 0, err
	}
	product := 2 * float64(p) * float64(q)
	sum := nano.Square(float64(b)) + nano.Square(float64(d)) - nano.Square(float64(a)) - nano.Square(float64(c))
	if product <= math.Abs(sum) {
		return 0, check.Refuse("p", p.String(), unit.ErrRange, "diagonals that sides of these lengths can have")
	}
	return nano.Area(math.Sqrt((product-sum)*(product+sum)) / 4)
}
