package shape

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// cuts finds the cuts of corners in a traced outline.
type cuts struct {
	outline Outline
	edges   []TracedEdge
	side    []int  // of each segment
	step    []bool // segments that are steps between two allowances
	found   []cut
}

// cut is some segments, from one on, that only cut a corner.
type cut struct {
	from, n int
	corner  CornerCut
	s, t    float64 // where the edges before and after it meet
	misfit  float64 // how far it is from the cut it is taken for
}

func (c *cuts) segment(k int) geom.Segment {
	n := len(c.outline.whole)
	return c.outline.whole[(k+n)%n]
}

// find looks for cuts everywhere and keeps those that fit best, none of which
// may stand where another has an edge.
func (c *cuts) find() {
	n := len(c.side)
	var all []cut
	for k := range n {
		all = append(all, c.at(k, min(mostCutPieces, n-2))...)
	}
	slices.SortStableFunc(all, func(x, y cut) int { return cmp.Compare(x.misfit, y.misfit) })
	gone, edge := make([]bool, n), make([]bool, n)
	for _, x := range all {
		free := !gone[(x.from+n-1)%n] && !gone[(x.from+x.n)%n]
		for i := range x.n {
			k := (x.from + i) % n
			free = free && !gone[k] && !edge[k]
		}
		if !free {
			continue
		}
		for i := range x.n {
			gone[(x.from+i)%n] = true
		}
		edge[(x.from+n-1)%n], edge[(x.from+x.n)%n] = true, true
		c.found = append(c.found, x)
	}
	slices.SortFunc(c.found, func(x, y cut) int { return cmp.Compare(x.from, y.from) })
}

// at gives the cuts that may begin at segment k, of at most so many segments.
func (c *cuts) at(k, most int) []cut {
	reach := 0.0
	for _, e := range c.edges {
		reach = max(reach, float64(e.Allowance))
	}
	reach *= 4 * float64(DefaultMitreLimit)
	length := 0.0
	var out []cut
	for n := 1; n <= most; n++ {
		s := c.segment(k + n - 1)
		length += s.Length()
		if turn := turnTo(c.segment(k+n-2).Tangent(1), s.Tangent(0)); turn < -0.02 || length > reach && !c.given(k) {
			break
		}
		if x, fits := c.fits(cut{from: k, n: n}, length); fits {
			out = append(out, x)
		}
	}
	return out
}

// given tells whether a segment is of an edge that is given as the cut of a
// corner.
func (c *cuts) given(k int) bool {
	return c.edges[c.side[(k+len(c.side))%len(c.side)]].Corner
}

// fits tells whether some segments are the cut of a corner.
func (c *cuts) fits(x cut, length float64) (cut, bool) {
	before, after := c.segment(x.from-1), c.segment(x.from+x.n)
	given, whole := c.sides(x)
	if !whole {
		return x, false
	}
	for i := -1; i <= x.n; i++ {
		if c.step[(x.from+i+len(c.step))%len(c.step)] {
			return x, false
		}
	}
	e, f := before.Tangent(1), after.Tangent(0)
	turn := turnTo(e, f)
	if turn < leastTurn || turn > math.Pi-0.05 || turnTo(e, c.segment(x.from).Tangent(0)) < -0.02 || turnTo(c.segment(x.from+x.n-1).Tangent(1), f) < -0.02 {
		return x, false
	}
	var ok bool
	x.s, x.t, ok = geom.Parallel{Segment: before}.Meet(geom.Parallel{Segment: after}, 1, 0)
	if !ok || x.s < 1-1e-9 || x.t > 1e-9 {
		return x, false
	}
	n := len(c.side)
	first, second := c.side[(x.from-1+n)%n], c.side[(x.from+x.n)%n]
	a, b := float64(c.edges[first].Allowance), float64(c.edges[second].Allowance)
	x.corner = CornerCut{First: c.outline.sides[first].name, Second: c.outline.sides[second].name, Length: unit.Length(math.Round(length)),
		At: fromGrid(geom.Parallel{Segment: before}.At(x.s).Point())}
	w := wedge{e: e, f: f, turn: turn, a: a, b: b}
	w.tip = geom.Parallel{Segment: before}.At(x.s)
	known := c.style(&x, w, length)
	if given {
		x.misfit = float64(-x.n)
		return x, !c.given(x.from-1) && !c.given(x.from+x.n)
	}
	return x, known && length >= leastCut && c.runsFor(x.from-1, -1, length, turn) && c.runsFor(x.from+x.n, 1, length, turn)
}

// sides tells whether the segments are all of an edge given as a corner, and
// whether they leave alone the edges that are to be kept.
func (c *cuts) sides(x cut) (given, whole bool) {
	given, whole = true, true
	n := len(c.side)
	in := map[int]int{}
	for i := range x.n {
		in[c.side[(x.from+i)%n]]++
	}
	for k, count := range in {
		all := count == len(c.outline.sides[k].path)
		given = given && all && c.edges[k].Corner
		whole = whole && !(all && c.edges[k].Kept)
	}
	return given, whole
}

// runsFor tells whether the outline runs on for twice the length of a cut, with
// no more than a quarter of the turn of the corner: where it bends as the cut
// does, that is a chord of a curve.
func (c *cuts) runsFor(k, step int, length, turn float64) bool {
	bent := 0.0
	s := c.segment(k)
	run := s.Length()
	for i := 0; run < 2*length && i < len(c.side); i++ {
		next := c.segment(k + step)
		if step > 0 {
			bent += bend(s.Tangent(1), next.Tangent(0))
		} else {
			bent += bend(next.Tangent(1), s.Tangent(0))
		}
		if bent > turn/4 {
			return run >= length
		}
		k += step
		s = next
		run += s.Length()
	}
	return true
}

// wedge is the corner that two edges make once they are carried on to their tip,
// the first along e, the second along f.
type wedge struct {
	e, f geom.Vec
	turn float64
	tip  geom.Vec
	a, b float64 // allowances
}

// finished gives the corner of the finished lines.
func (w wedge) finished() geom.Vec {
	sin, _ := geom.SinCos(w.turn)
	// Back along f by a / sin t and forward along e by b / sin t, crosswise.
	p, q := w.a/sin, w.b/sin
	return geom.Vec{X: w.tip.X + float64(p*w.f.X) - float64(q*w.e.X), Y: w.tip.Y + float64(p*w.f.Y) - float64(q*w.e.Y)}
}

// clipped gives the length of a straight cut from strip to strip.
func (w wedge) clipped() float64 {
	_, cos := geom.SinCos(w.turn)
	return math.Sqrt(float64(w.a*w.a) + float64(w.b*w.b) - float64(float64(2*w.a*w.b)*cos))
}

// square gives the length of a cut square to the bisector, limit times the
// larger allowance from the finished corner; zero where the tip is nearer.
func (w wedge) square(limit float64) float64 {
	at := w.finished()
	sin, cos := geom.SinCos(w.turn / 2) // of e and f with the bisector
	u := geom.Vec{X: w.e.X - w.f.X, Y: w.e.Y - w.f.Y}
	l := geom.Hypot(u.X, u.Y)
	deep := (float64((w.tip.X-at.X)*u.X)+float64((w.tip.Y-at.Y)*u.Y))/l - float64(limit*max(w.a, w.b))
	if deep <= 0 {
		return 0
	}
	return 2 * deep * cos / sin
}

// round gives the length of the arc about the finished corner, from line to line:
// that of the lesser allowance meets it ahead of the end of its strip.
func (w wedge) round() float64 {
	return float64(max(w.a, w.b) * (w.turn - w.lead()))
}

// lead is the angle by which the line of the lesser allowance meets the arc ahead.
func (w wedge) lead() float64 {
	r, s := max(w.a, w.b), min(w.a, w.b)
	return geom.Atan2(math.Sqrt((r-s)*(r+s)), s)
}

// style says how a corner was cut, if in any known way.
func (c *cuts) style(x *cut, w wedge, length float64) bool {
	if w.a == 0 && w.b == 0 {
		return false
	}
	agrees := func(want float64) bool {
		x.misfit = math.Abs(length-want) / want
		return want > leastCut && x.misfit <= cutAgreement
	}
	first := c.segment(x.from)
	if x.n == 1 && first.Kind == geom.Line && turnTo(w.e, first.Tangent(0)) > 0.01 && turnTo(first.Tangent(1), w.f) > 0.01 {
		switch {
		case agrees(w.clipped()):
			x.corner.Style = ClippedCorner
			return true
		case agrees(w.square(1)) || agrees(w.square(float64(DefaultMitreLimit))):
			x.corner.Style = SquareCorner
			return true
		}
	}
	if off, ok := c.knife(*x, w); ok {
		x.corner.Style, x.corner.Off, x.misfit = RoundCorner, unit.Length(math.Round(off)), 0
		return true
	}
	if !agrees(w.round()) || !c.round(x, w) {
		return false
	}
	x.corner.Style = RoundCorner
	return true
}

// round tells whether a cut lies round the finished corner, and bends all along:
// a point is no round corner.
func (c *cuts) round(x *cut, w wedge) bool {
	at, r := w.finished(), max(w.a, w.b)
	lead := w.lead()
	far := 0.0
	before := w.e
	for i := range x.n + 1 {
		s := c.segment(x.from + i)
		most := float64(0.6 * (w.turn - lead))
		if i == 0 && w.a < w.b || i == x.n && w.b < w.a {
			most += lead
		}
		if bend(before, s.Tangent(0)) > most {
			return false
		}
		before = s.Tangent(1)
		p := s.From.Vec()
		far = max(far, math.Abs(geom.Hypot(p.X-at.X, p.Y-at.Y)-r)/r)
		if s.Kind != geom.Line && i < x.n {
			p = s.At(0.5).Vec()
			far = max(far, math.Abs(geom.Hypot(p.X-at.X, p.Y-at.Y)-r)/r)
		}
	}
	x.misfit += far
	return far <= cutAgreement
}

// knife tells whether a corner was rounded with less than its allowance, and by
// how much it is off.
func (c *cuts) knife(x cut, w wedge) (float64, bool) {
	s, lesser := c.segment(x.from), min(w.a, w.b)
	if x.n != 1 || s.Kind != geom.Arc || bend(w.e, s.Tangent(0)) > 0.2 || bend(s.Tangent(1), w.f) > 0.2 {
		return 0, false
	}
	r := s.Length() / w.turn
	if r >= (1-cutAgreement)*lesser {
		return 0, false
	}
	_, cos := geom.SinCos(w.turn / 2)
	return (lesser - r) * (1/cos - 1), true
}

// joined draws the outline without its cuts.
func (c *cuts) joined() (Outline, []CornerCut, error) {
	if len(c.found) == 0 {
		return c.outline, nil, nil
	}
	n := len(c.side)
	runs := make([]run, n)
	gone := make([]bool, n)
	for k, s := range c.outline.whole {
		runs[k] = run{segment: k, hi: 1, start: s.From}
	}
	var corners []CornerCut
	for _, x := range c.found {
		for i := range x.n {
			gone[(x.from+i)%n] = true
		}
		before, after := &runs[(x.from-1+n)%n], &runs[(x.from+x.n)%n]
		before.hi, after.lo, after.start = x.s, x.t, x.corner.At.grid()
		corners = append(corners, x.corner)
	}
	var left []run
	for k, r := range runs {
		if !gone[k] {
			left = append(left, r)
		}
	}
	of := func(r run) geom.Parallel { return geom.Parallel{Segment: c.outline.whole[r.segment]} }
	o, err := newOutline(drawn(left, c.outline.sideOf, of, 2000))
	var ce *CrossingError
	if errors.As(err, &ce) {
		return o, nil, insetError(ce.First, ce.Second, ErrNoInverse, "corners that can be carried on until their edges meet")
	}
	return o, corners, err
}
