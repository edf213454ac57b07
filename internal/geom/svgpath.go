package geom

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// ErrPathSyntax: path data does not follow the grammar.
var ErrPathSyntax = errors.New("path data malformed")

// PathError says what is wrong with path data, and where.
type PathError struct {
	Offset int    // byte position in the data, from 0
	Want   string // what is accepted there
	Err    error  // ErrPathSyntax, ErrRange or ErrTooComplex
}

func (e *PathError) Error() string {
	return fmt.Sprintf("path data, byte %d: %v; want %s", e.Offset, e.Err, e.Want)
}

// Unwrap returns the sentinel.
func (e *PathError) Unwrap() error { return e.Err }

// maxPathData is the longest path data in bytes that is read.
const maxPathData = 1 << 20

// ParsePath reads path data as defined by the W3C in Scalable Vector Graphics,
// chapter "Paths" (all of M L H V C S Q T A Z, absolute and relative, repeated
// arguments, arc flags without separators). Coordinates are multiplied by
// scale, in nanometres per user unit, and each point is rounded to the grid
// once; relative coordinates are added up unrounded. The y axis is taken as
// written: mirror the result if the drawing's y points down.
//
// It returns one path for each subpath that has at least one segment; a
// subpath ended by Z is closed, with a straight segment where needed. Data that
// breaks the grammar is refused whole, with a *PathError.
func ParsePath(data string, scale float64) ([]Path, error) {
	if !(scale > 0 && scale <= float64(MaxCoord)) {
		return nil, &ParameterError{"scale", scale, "over 0 and at most 1e11 nm per unit"}
	}
	if len(data) > maxPathData {
		return nil, &PathError{maxPathData, "at most 1 MiB of data", ErrTooComplex}
	}
	p := pathParser{data: data, scale: scale}
	p.parse()
	if p.err != nil {
		return nil, p.err
	}
	p.finish()
	return p.paths, nil
}

type pathParser struct {
	data  string
	pos   int
	scale float64
	err   error

	paths []Path
	segs  []Segment
	// Current point, start of the subpath and last control point in user
	// units, with the grid points of the first two.
	cur, start, ctrl Vec
	at, startAt      Point
	last             byte // last command, upper case, for S and T
}

func (p *pathParser) fail(at int, want string, err error) {
	if p.err == nil {
		p.err = &PathError{at, want, err}
	}
}

func (p *pathParser) space() {
	for p.pos < len(p.data) {
		switch p.data[p.pos] {
		case ' ', '\t', '\n', '\r', '\f':
			p.pos++
		default:
			return
		}
	}
}

// separator skips white space with at most one comma and reports whether there
// was a comma.
func (p *pathParser) separator() bool {
	p.space()
	if p.pos < len(p.data) && p.data[p.pos] == ',' {
		p.pos++
		p.space()
		return true
	}
	return false
}

func (p *pathParser) digits() int {
	from := p.pos
	for p.pos < len(p.data) && p.data[p.pos] >= '0' && p.data[p.pos] <= '9' {
		p.pos++
	}
	return p.pos - from
}

// number reads sign? (digits ("." digits?)? | "." digits) exponent?.
func (p *pathParser) number() float64 {
	from := p.pos
	if p.pos < len(p.data) && (p.data[p.pos] == '+' || p.data[p.pos] == '-') {
		p.pos++
	}
	n := p.digits()
	if p.pos < len(p.data) && p.data[p.pos] == '.' {
		p.pos++
		n += p.digits()
	}
	if n == 0 {
		p.fail(from, "a number", ErrPathSyntax)
		return 0
	}
	if p.pos < len(p.data) && (p.data[p.pos] == 'e' || p.data[p.pos] == 'E') {
		mark := p.pos
		p.pos++
		if p.pos < len(p.data) && (p.data[p.pos] == '+' || p.data[p.pos] == '-') {
			p.pos++
		}
		if p.digits() == 0 {
			p.fail(mark, "digits in the exponent", ErrPathSyntax)
			return 0
		}
	}
	v, err := strconv.ParseFloat(p.data[from:p.pos], 64)
	if err != nil || math.Abs(v*p.scale) > float64(MaxCoord) {
		p.fail(from, "a number of at most 100 m", ErrRange)
		return 0
	}
	return v
}

// angle reads a number that is not a length.
func (p *pathParser) angle() float64 {
	s := p.scale
	p.scale = 1
	v := p.number()
	p.scale = s
	return v
}

func (p *pathParser) flag() bool {
	if p.pos < len(p.data) && (p.data[p.pos] == '0' || p.data[p.pos] == '1') {
		p.pos++
		return p.data[p.pos-1] == '1'
	}
	p.fail(p.pos, "a flag, 0 or 1", ErrPathSyntax)
	return false
}

// more reports whether another set of arguments follows the last one.
func (p *pathParser) more() bool {
	if p.err != nil {
		return false
	}
	from := p.pos
	comma := p.separator()
	if p.pos < len(p.data) {
		switch c := p.data[p.pos]; {
		case c >= '0' && c <= '9', c == '+', c == '-', c == '.':
			return true
		}
	}
	if comma {
		p.fail(from, "a number after the comma", ErrPathSyntax)
	}
	return false
}

func (p *pathParser) parse() {
	p.space()
	for p.pos < len(p.data) && p.err == nil {
		c := p.data[p.pos]
		if p.last == 0 && c != 'M' && c != 'm' {
			p.fail(p.pos, "M or m to begin with", ErrPathSyntax)
			return
		}
		from := p.pos
		p.pos++
		p.command(c, from)
		p.space()
	}
}

func (p *pathParser) command(c byte, from int) {
	rel := c >= 'a'
	up := c
	if rel {
		up -= 'a' - 'A'
	}
	switch up {
	case 'Z':
		p.close()
		p.last = 'Z'
		return
	case 'M', 'L', 'H', 'V', 'C', 'S', 'Q', 'T', 'A':
	default:
		p.fail(from, "one of the commands M L H V C S Q T A Z", ErrPathSyntax)
		return
	}
	p.space()
	for {
		p.arguments(up, rel)
		if p.err != nil {
			return
		}
		p.last = up
		if up == 'M' {
			up = 'L' // further pairs are lines
		}
		if !p.more() {
			return
		}
	}
}

// pair reads two coordinates; rel makes them relative to the current point.
func (p *pathParser) pair(rel bool) Vec {
	x := p.number()
	p.separator()
	y := p.number()
	if rel {
		return Vec{p.cur.X + x, p.cur.Y + y}
	}
	return Vec{x, y}
}

// grid rounds a point in user units to the grid.
func (p *pathParser) grid(v Vec) Point {
	w := v.scale(p.scale)
	if !(math.Abs(w.X) <= float64(MaxCoord) && math.Abs(w.Y) <= float64(MaxCoord)) {
		p.fail(p.pos, "a point within 100 m of the origin", ErrRange)
		return Point{}
	}
	return w.round()
}

func (p *pathParser) add(s Segment) {
	if p.err == nil {
		p.segs = append(p.segs, s)
	}
}

// moveOn makes v the current point.
func (p *pathParser) moveOn(v Vec, at Point) { p.cur, p.at = v, at }

func (p *pathParser) arguments(up byte, rel bool) {
	switch up {
	case 'M':
		v := p.pair(rel)
		at := p.grid(v)
		p.finish()
		p.start, p.startAt = v, at
		p.moveOn(v, at)
	case 'L', 'H', 'V':
		v := p.cur
		switch up {
		case 'L':
			v = p.pair(rel)
		case 'H':
			x := p.number()
			if rel {
				x += p.cur.X
			}
			v.X = x
		case 'V':
			y := p.number()
			if rel {
				y += p.cur.Y
			}
			v.Y = y
		}
		at := p.grid(v)
		p.add(LineTo(p.at, at))
		p.moveOn(v, at)
	case 'C', 'S':
		c1 := p.cur
		if up == 'C' {
			c1 = p.pair(rel)
			p.separator()
		} else if p.last == 'C' || p.last == 'S' {
			c1 = p.reflected()
		}
		c2 := p.pair(rel)
		p.separator()
		v := p.pair(rel)
		at := p.grid(v)
		p.add(CubicTo(p.at, p.grid(c1), p.grid(c2), at))
		p.ctrl = c2
		p.moveOn(v, at)
	case 'Q', 'T':
		c := p.cur
		if up == 'Q' {
			c = p.pair(rel)
			p.separator()
		} else if p.last == 'Q' || p.last == 'T' {
			c = p.reflected()
		}
		v := p.pair(rel)
		at := p.grid(v)
		p.add(QuadraticTo(p.at, p.grid(c), at))
		p.ctrl = c
		p.moveOn(v, at)
	case 'A':
		p.arc(rel)
	}
}

func (p *pathParser) arc(rel bool) {
	from := p.pos
	rx := p.number()
	p.separator()
	ry := p.number()
	p.separator()
	phi := p.angle()
	p.separator()
	large := p.flag()
	p.separator()
	sweep := p.flag()
	p.separator()
	v := p.pair(rel)
	at := p.grid(v)
	if p.err == nil && at != p.at {
		s := svgArc(p.at, at, math.Abs(rx)*p.scale, math.Abs(ry)*p.scale, phi, large, sweep)
		if s.check() != nil {
			p.fail(from, "an arc that is not so flat", ErrRange)
		}
		p.add(s)
	}
	p.moveOn(v, at)
}

// reflected returns the last control point mirrored in the current point.
func (p *pathParser) reflected() Vec {
	return Vec{2*p.cur.X - p.ctrl.X, 2*p.cur.Y - p.ctrl.Y}
}

func (p *pathParser) close() {
	if len(p.segs) > 0 && p.at != p.startAt {
		p.add(LineTo(p.at, p.startAt))
	}
	p.finish()
	// The next subpath begins here unless a move follows.
	p.moveOn(p.start, p.startAt)
}

func (p *pathParser) finish() {
	if len(p.segs) > 0 {
		p.paths = append(p.paths, Path{p.segs})
		p.segs = nil
	}
}

// svgArc converts from the end points to the centre, by the steps of the SVG
// standard, appendix "Elliptical arc implementation notes". Radii too small for
// the chord are scaled up; a radius of zero gives a straight line.
func svgArc(from, to Point, rx, ry, phiDeg float64, large, sweep bool) Segment {
	if rx == 0 || ry == 0 {
		return LineTo(from, to)
	}
	sn, cs := sincos(math.Mod(phiDeg, 360) * math.Pi / 180)
	half := from.Sub(to).vec().scale(0.5)
	// Step 1: half the chord in the frame of the ellipse.
	x := float64(cs*half.X) + float64(sn*half.Y)
	y := float64(cs*half.Y) - float64(sn*half.X)
	// Radii that cannot reach are scaled up.
	qx, qy := x/rx, y/ry
	l := float64(qx*qx) + float64(qy*qy)
	if l > 1 {
		f := math.Sqrt(l)
		rx, ry = rx*f, ry*f
		qx, qy, l = qx/f, qy/f, 1
	}
	// Step 2, on the unit circle: the centre lies at right angles to the half
	// chord q, at distance sqrt(1 - q^2).
	f := math.Sqrt((1 - l) / l)
	if large == sweep {
		f = -f
	}
	cx, cy := float64(f*qy), float64(-f*qx)
	// Step 3: the angles of both ends.
	t0 := atan2(qy-cy, qx-cx)
	d := atan2(-qy-cy, -qx-cx) - t0
	if sweep && d < 0 {
		d += 2 * math.Pi
	} else if !sweep && d > 0 {
		d -= 2 * math.Pi
	}
	if rx == ry {
		if s, c := sincos(d / 4); math.Abs(s) < 100*c {
			return ArcTo(from, to, s/c)
		}
	}
	return Segment{
		Kind: EllipticArc, From: from, To: to,
		U: Vec{float64(rx * cs), float64(rx * sn)}, V: Vec{float64(-ry * sn), float64(ry * cs)},
		T0: t0, T1: t0 + d,
	}
}
