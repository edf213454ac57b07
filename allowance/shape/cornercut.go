package shape

import (
	"errors"
	"math"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// cuts finds the cuts of corners in a traced outline.
type cuts struct {
	outline Outline
	edges   []TracedEdge
	side    []int // of each segment
	found   []cut
}

// cut is some segments, from one on, that only cut a corner.
type cut struct {
	from, n int
	corner  CornerCut
	s, t    float64 // where the edges before and after it meet
}

func (c *cuts) segment(k int) geom.Segment {
	n := len(c.outline.whole)
	return c.outline.whole[(k+n)%n]
}

// find looks for cuts one after the other round the outline.
func (c *cuts) find() {
	n := len(c.outline.whole)
	start := c.longest() // no cut runs over the longest piece
	for i := 1; i < n; {
		if x, ok := c.at(start+i, min(mostCutPieces, n-i, n-2)); ok {
			c.found = append(c.found, x)
			i += x.n
			continue
		}
		i++
	}
}

func (c *cuts) longest() int {
	best := 0
	for k, s := range c.outline.whole {
		if s.Length() > c.outline.whole[best].Length() {
			best = k
		}
	}
	return best
}

// at tells whether a cut begins at segment k, of at most so many segments. The
// longest counts: part of a round cut looks like one.
func (c *cuts) at(k, most int) (cut, bool) {
	reach := 0.0
	for _, e := range c.edges {
		reach = max(reach, float64(e.Allowance))
	}
	reach *= 4 * float64(DefaultMitreLimit)
	length := 0.0
	var best cut
	ok := false
	for n := 1; n <= most; n++ {
		s := c.segment(k + n - 1)
		length += s.Length()
		if turn := turnTo(c.segment(k+n-2).Tangent(1), s.Tangent(0)); turn < -0.02 || length > reach && !c.given(k) {
			break
		}
		if x, fits := c.fits(cut{from: k, n: n}, length); fits {
			best, ok = x, true
		}
	}
	return best, ok
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
	style, off, known := c.style(x, w, length)
	x.corner.Style, x.corner.Off = style, unit.Length(math.Round(off))
	if given {
		return x, true
	}
	return x, known && length >= leastCut && c.runsFor(x.from-1, -1, length) && c.runsFor(x.from+x.n, 1, length)
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

// runsFor tells whether the outline runs on without a corner for a length.
func (c *cuts) runsFor(k, step int, length float64) bool {
	run := c.segment(k).Length()
	for i := 0; run < length && i < len(c.side); i++ {
		u, v := c.segment(k), c.segment(k+step)
		if step < 0 {
			u, v = v, u
		}
		if bend(u.Tangent(1), v.Tangent(0)) > 0.26 {
			return false
		}
		k += step
		run += c.segment(k).Length()
	}
	return run >= length
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
	return math.Sqrt(float64(w.a*w.a) + float64(w.b*w.b) - float64(2*w.a*w.b)*cos)
}

// square gives the length of a cut square to the bisector, limit times the
// larger allowance from the finished corner; zero where the tip is nearer.
func (w wedge) square(limit float64) float64 {
	at := w.finished()
	sin, cos := geom.SinCos(w.turn / 2) // of e and f with the bisector
	u := geom.Vec{X: w.e.X - w.f.X, Y: w.e.Y - w.f.Y}
	l := geom.Hypot(u.X, u.Y)
	deep := (float64((w.tip.X-at.X)*u.X)+float64((w.tip.Y-at.Y)*u.Y))/l - limit*max(w.a, w.b)
	if deep <= 0 {
		return 0
	}
	return 2 * deep * cos / sin
}

// style says how a corner was cut, if in any known way, and how far off it is.
func (c *cuts) style(x cut, w wedge, length float64) (Corner, float64, bool) {
	if w.a == 0 && w.b == 0 {
		return MitredCorner, 0, false
	}
	agrees := func(want float64) bool { return want > leastCut && math.Abs(length-want) <= cutAgreement*want }
	if first := c.segment(x.from); x.n == 1 && first.Kind == geom.Line {
		ends := turnTo(w.e, first.Tangent(0)) > 0.08 && turnTo(first.Tangent(1), w.f) > 0.08
		switch {
		case !ends:
		case agrees(w.clipped()):
			return ClippedCorner, 0, true
		case agrees(w.square(1)) || agrees(w.square(float64(DefaultMitreLimit))):
			return SquareCorner, 0, true
		}
		return MitredCorner, 0, false
	}
	if off, ok := c.knife(x, w); ok {
		return RoundCorner, off, true
	}
	at, r := w.finished(), max(w.a, w.b)
	for i := range x.n {
		s := c.segment(x.from + i)
		for _, t := range [3]float64{0, 0.5, 1} {
			p := s.At(t).Vec()
			if math.Abs(geom.Hypot(p.X-at.X, p.Y-at.Y)-r) > cutAgreement*r {
				return MitredCorner, 0, false
			}
		}
	}
	return RoundCorner, 0, true
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
