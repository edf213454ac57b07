package photo

import (
	"math"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/camera"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// FitOptions say how closely Fit follows a border. The zero value takes what suits
// its size L, the longer side of the box round it.
type FitOptions struct {
	// Tolerance is how far the outline may lie from the border; zero is 0.25 mm,
	// 0.03 % of L or five times the noise of the border, whichever is most. Less
	// than five times the noise is raised to that.
	Tolerance unit.Length `json:"tolerance,omitzero"`
	// Arm is how far to both sides of a point the border is looked at to tell a
	// corner from a curve; zero is 12 mm or 2 % of L, whichever is more. It is never
	// more than a twelfth of the way round.
	Arm unit.Length `json:"arm,omitzero"`
	// CornerTurn is by how much a border turns at a corner at least; zero is 30 deg.
	CornerTurn unit.Angle `json:"corner_turn,omitzero"`
	// Names are names for the sides, one for each; "side 1" and on when not given.
	Names []string `json:"names,omitempty"`
}

// FitReport says what Fit did.
type FitReport struct {
	Tolerance unit.Length `json:"tolerance"` // that was kept to
	Noise     unit.Length `json:"noise"`     // standard deviation of the border from a smooth line
	Raised    bool        `json:"raised"`    // the tolerance asked for was less than five times the noise
	// Worst is how far the border, evened out, lies from the outline at most; its
	// last bit before a corner is not looked at.
	Worst   unit.Length   `json:"worst"`
	Corners []shape.Point `json:"corners"` // where the sides begin
	Lines   int           `json:"lines"`   // straight pieces
	Curves  int           `json:"curves"`  // cubic curves
}

const (
	armSteps  = 12 // steps of the border in an arm
	nearSteps = 4  // and in the shorter arm that tells a corner from a round one
	trimSteps = 3  // what a side leaves out before a corner: there a picture is blurred
	// keepsTurn is the least share of its turn that a corner shows over the shorter
	// arm; what is rounder is part of a curve.
	keepsTurn = 0.7
)

// Fit makes an outline of the points of a border, in order and close together,
// either way round. Corners are kept: a side's own line is carried on to where it
// meets the next one's, which also undoes what blur takes off a corner. Between
// corners a side is one straight line when that is within the tolerance, else
// cubic curves that run smoothly into each other.
//
// Sides run anticlockwise from the corner that lies furthest to the lower left, the
// one of least X + Y. A border without a corner gives one side.
//
// The border is first evened out over steps of a twelfth of the arm. A corner is
// where it turns by CornerTurn over the arm, by most near there, and by 70 % of
// that over a third of the arm. Curves are fitted by least squares over their
// control points and the places along them in turn, and split where they miss by
// most (Schneider's method, second-hand).
//
// There must be 8 to 1 000 000 points within 50 m, round an area. Errors are
// *unit.InputError values; a border that crosses itself gives a *shape.CrossingError.
func Fit(points []shape.Point, o FitOptions) (shape.Outline, FitReport, error) {
	raw, err := o.border(points)
	if err != nil {
		return shape.Outline{}, FitReport{}, err
	}
	low, high := boxOf(raw)
	extent := math.Max(high.X-low.X, high.Y-low.Y)
	arm := float64(o.Arm) / 1e6
	if arm == 0 {
		arm = math.Max(12, 0.02*extent)
	}
	arm = math.Min(arm, lengthRound(raw)/armSteps)
	noise := noiseOf(raw, arm)
	tolerance, report := float64(o.Tolerance)/1e6, FitReport{Noise: lengthOf(noise)}
	if tolerance == 0 {
		tolerance = math.Max(math.Max(0.25, 0.0003*extent), 5*noise)
	} else if tolerance < 5*noise {
		tolerance, report.Raised = 5*noise, true
	}
	report.Tolerance = lengthOf(tolerance)
	turn := o.CornerTurn
	if turn == 0 {
		turn = 30
	}
	b := border{evened(raw, arm/armSteps), tolerance}
	sides := b.sides(b.corners(turn.Radians()))
	names := o.Names
	if names == nil {
		for i := range sides {
			names = append(names, "side "+strconv.Itoa(i+1))
		}
	} else if len(names) != len(sides) {
		return shape.Outline{}, report, check.Count("names", len(names), len(sides), len(sides))
	}
	trace := shape.TraceFrom(point(sides[0].start))
	for i, s := range sides {
		trace.Edge(names[i])
		report.Corners = append(report.Corners, point(s.start))
		for _, c := range s.pieces {
			if c.line {
				trace.Line(point(c.p[3]))
				report.Lines++
			} else {
				trace.Cubic(point(c.p[1]), point(c.p[2]), point(c.p[3]))
				report.Curves++
			}
			report.Worst = max(report.Worst, lengthOf(c.worst))
		}
	}
	out, err := trace.Close()
	return out, report, err
}

// border checks the options and gives the points in millimetres, anticlockwise.
func (o FitOptions) border(points []shape.Point) ([]camera.Point, error) {
	if err := check.Count("points", len(points), 8, 1_000_000); err != nil {
		return nil, err
	}
	if err := check.Length("tolerance", o.Tolerance, 0, unit.Metre); err != nil {
		return nil, err
	}
	if err := check.Length("arm", o.Arm, 0, unit.Metre); err != nil {
		return nil, err
	}
	if err := check.Between("corner_turn", o.CornerTurn, 0, 170*unit.Degree); err != nil {
		return nil, err
	}
	out := make([]camera.Point, 0, len(points))
	for i, p := range points {
		const far = 50 * unit.Metre
		if p.X < -far || p.X > far || p.Y < -far || p.Y > far {
			return nil, check.Refuse(check.At("points", i), p.String(), unit.ErrRange, "a point within 50 m")
		}
		if q := millimetres(p); len(out) == 0 || q != out[len(out)-1] {
			out = append(out, q)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	area := 0.0
	for i, p := range out {
		area += p.Sub(out[0]).Cross(out[(i+1)%len(out)].Sub(out[0])) / 2
	}
	low, high := boxOf(out)
	if size := high.Sub(low); len(out) < 8 || math.Abs(area) < 1e-3*math.Max(1, size.Dot(size)) {
		return nil, check.Refuse("points", "", unit.ErrRange, "the border of an area, once round")
	}
	if area < 0 {
		slices.Reverse(out)
	}
	return out, nil
}

func boxOf(ps []camera.Point) (low, high camera.Point) {
	low, high = ps[0], ps[0]
	for _, p := range ps {
		low = camera.Point{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
		high = camera.Point{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
	}
	return low, high
}

func lengthRound(ps []camera.Point) float64 {
	sum := 0.0
	for i, p := range ps {
		sum += p.Away(ps[(i+1)%len(ps)])
	}
	return sum
}

// noiseOf is the standard deviation of the points from a smooth line, from the
// third differences of their places, of which the variance is twenty times that of
// a place; the median does not see corners. Points that lie too far apart for that
// are taken as exact.
func noiseOf(ps []camera.Point, arm float64) float64 {
	n := len(ps)
	if lengthRound(ps)/float64(n) > arm/6 {
		return 0
	}
	ds := make([]float64, n)
	for i := range ps {
		a, b, c, d := ps[i], ps[(i+1)%n], ps[(i+2)%n], ps[(i+3)%n]
		third := d.Sub(a).Sub(c.Sub(b).Scale(3))
		along := d.Sub(a)
		if l := along.Norm(); l > 0 {
			ds[i] = math.Abs(along.Cross(third)) / l
		}
	}
	slices.Sort(ds)
	return ds[n/2] / 0.67449 / math.Sqrt(20)
}

// evened gives points evenly round the border, each the mean of the border over a
// step.
func evened(ps []camera.Point, step float64) []camera.Point {
	n := len(ps)
	// passed is the way to each point, mass the integral of the place along it.
	passed, mass := make([]float64, n+1), make([]camera.Point, n+1)
	for i := range n {
		q := ps[(i+1)%n]
		l := ps[i].Away(q)
		passed[i+1] = passed[i] + l
		mass[i+1] = mass[i].Add(ps[i].Add(q).Scale(l / 2))
	}
	total := passed[n]
	count := max(48, int(math.Round(total/step)))
	step = total / float64(count)
	upTo := func(i int, s float64) camera.Point { // the integral up to s, beyond point i
		a, b := ps[i], ps[(i+1)%n]
		d := s - passed[i]
		f := d / (passed[i+1] - passed[i])
		return mass[i].Add(a.Add(b.Sub(a).Scale(f / 2)).Scale(d))
	}
	out := make([]camera.Point, count)
	i := 0
	before := camera.Point{}
	for k := range out {
		s := float64(step * float64(k+1))
		for i < n-1 && passed[i+1] < s {
			i++
		}
		m := upTo(i, math.Min(s, total))
		out[k] = m.Sub(before).Scale(1 / step)
		before = m
	}
	return out
}
