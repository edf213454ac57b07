package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/nano"
)

// reading is a measure as the propagation of errors takes it, in nanometres.
type reading struct {
	at, tol float64
	// near is a number by which readings that change a size together lie near
	// each other; see propagate.
	near int
}

// spread is one size and its error.
type spread struct {
	size, sigma, worst, bias float64
	by                       []float64 // derivatives, by every reading
}

// mostCorners is the largest number of readings whose box is searched corner by
// corner.
const mostCorners = 8

// propagate carries the tolerances of readings through f, which gives sizes; see
// Tolerance. Two readings change a size together when their near differs by at
// most reach, or one of them has none (below zero); with ring above zero, near
// counts round and round.
//
// The first boxes sizes are extents of a box: they have kinks, where one point
// takes the place of another as the outmost, and no curvature else. Their slopes
// are the steeper ones of both sides of a kink; their worst is found at corners
// alone, and not at all for more than mostCorners readings.
func propagate(rs []reading, reach, ring, boxes int, f func([]float64) ([]float64, error)) ([]spread, error) {
	x := make([]float64, len(rs))
	var loose []int // readings that may be off
	for i, r := range rs {
		x[i] = r.at
		if r.tol > 0 {
			loose = append(loose, i)
		}
	}
	base, err := f(x)
	if err != nil {
		return nil, err
	}
	p := &propagation{rs: rs, x: x, boxes: boxes, base: base, f: f, loose: loose, out: make([]spread, len(base))}
	for k, y := range base {
		p.out[k] = spread{size: y, by: make([]float64, len(rs))}
	}
	if err := p.slopes(); err != nil {
		return nil, err
	}
	bound, bend, err := p.curvature(reach, ring)
	if err != nil {
		return nil, err
	}
	if len(loose) > mostCorners {
		for k := boxes; k < len(p.out); k++ {
			p.out[k].worst = bound[k]
		}
	} else if err := p.corners(bend); err != nil {
		return nil, err
	}
	for k := range p.out {
		p.out[k].sigma = math.Sqrt(p.out[k].sigma)
	}
	return p.out, nil
}

type propagation struct {
	rs    []reading
	x     []float64
	boxes int
	base  []float64
	f     func([]float64) ([]float64, error)
	loose []int
	out   []spread // sigma holds the square until the end
}

// moved gives the sizes with some readings moved by parts of their tolerances.
func (p *propagation) moved(steps map[int]float64) ([]float64, error) {
	for i, s := range steps {
		p.x[i] = p.rs[i].at + float64(s*p.rs[i].tol)
	}
	y, err := p.f(p.x)
	for i := range steps {
		p.x[i] = p.rs[i].at
	}
	return y, err
}

// slopes gives the derivatives, and the squares of sigma of the first order.
func (p *propagation) slopes() error {
	const step = 2_000 // nanometres
	for i, r := range p.rs {
		p.x[i] = r.at + step
		up, err := p.f(p.x)
		if err != nil {
			return err
		}
		p.x[i] = r.at - step
		down, err := p.f(p.x)
		if err != nil {
			return err
		}
		p.x[i] = r.at
		for k := range p.out {
			p.out[k].by[i] = (up[k] - down[k]) / (2 * step)
			steepest := math.Abs(p.out[k].by[i])
			if k < p.boxes {
				steepest = max(math.Abs(up[k]-p.base[k]), math.Abs(down[k]-p.base[k])) / step
			}
			p.out[k].sigma += nano.Square(steepest*r.tol) / 3
		}
	}
	return nil
}

// curvature adds to bias and sigma what the second differences say, and gives for
// every size a bound from the readings one by one and in pairs, and by how much a
// size may be further off between the corners of the box than at them.
//
// With readings spread evenly over their tolerances, E(d²) = t²/3 and
// E(d⁴) - E(d²)² = 4 t⁴/45:
//
//	bias = Σ H_ii t_i² / 6,  σ² += bias² + Σ (H_ii/2)² 4 t_i⁴/45 + Σ_(i<j) H_ij² t_i² t_j² / 9
func (p *propagation) curvature(reach, ring int) (bound, bend []float64, err error) {
	n := len(p.base)
	bound, bend = make([]float64, n), make([]float64, n)
	single := map[[2]int][]float64{} // change of the sizes when a reading moves up or down
	cross := make([][]float64, len(p.rs))
	for _, i := range p.loose {
		cross[i] = make([]float64, n)
		for _, s := range [2]int{1, -1} {
			y, err := p.moved(map[int]float64{i: float64(s)})
			if err != nil {
				return nil, nil, err
			}
			single[[2]int{i, s}] = less(y, p.base)
		}
	}
	for a, i := range p.loose {
		for _, j := range p.loose[a+1:] {
			if apart(p.rs[i], p.rs[j], reach, ring) {
				continue
			}
			most, mixed := make([]float64, n), make([]float64, n)
			for _, s := range [4][2]int{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
				y, err := p.moved(map[int]float64{i: float64(s[0]), j: float64(s[1])})
				if err != nil {
					return nil, nil, err
				}
				for k := range y {
					d := y[k] - p.base[k] - single[[2]int{i, s[0]}][k] - single[[2]int{j, s[1]}][k]
					most[k] = max(most[k], math.Abs(d))
					mixed[k] += float64(s[0]*s[1]) * d / 4
				}
			}
			for k := range most {
				bound[k] += most[k]
				cross[i][k] += most[k]
				cross[j][k] += most[k]
				if k >= p.boxes {
					p.out[k].sigma += nano.Square(mixed[k]) / 9
				}
			}
		}
	}
	for _, i := range p.loose {
		up, down := single[[2]int{i, 1}], single[[2]int{i, -1}]
		for k := p.boxes; k < n; k++ {
			bound[k] += max(math.Abs(up[k]), math.Abs(down[k]))
			second := up[k] + down[k]
			p.out[k].bias += second / 6
			p.out[k].sigma += nano.Square(second) / 45
			// A parabola is furthest from zero between the ends only where its slope
			// can vanish there, and then by an eighth of its second difference.
			if math.Abs(up[k]-down[k])/2 <= math.Abs(second)+cross[i][k] {
				bend[k] += math.Abs(second) / 8
			}
		}
	}
	for k := range p.out {
		p.out[k].sigma += nano.Square(p.out[k].bias)
	}
	return bound, bend, nil
}

// apart tells whether two readings do not change a size together.
func apart(a, b reading, reach, ring int) bool {
	d := max(a.near-b.near, b.near-a.near)
	if ring > 0 {
		d = min(d, ring-d)
	}
	return a.near >= 0 && b.near >= 0 && d > reach
}

// corners finds the largest change over the corners of the box of tolerances.
func (p *propagation) corners(bend []float64) error {
	n := len(p.loose)
	steps := map[int]float64{}
	for c := range 1 << n {
		for b, i := range p.loose {
			steps[i] = float64(2*(c>>b&1) - 1)
		}
		y, err := p.moved(steps)
		if err != nil {
			return err
		}
		for k := range y {
			p.out[k].worst = max(p.out[k].worst, math.Abs(y[k]-p.base[k]))
		}
	}
	for k := range p.out {
		p.out[k].worst += bend[k]
	}
	return nil
}

func less(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] - b[i]
	}
	return out
}
