package shape

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// HalfTaken is which half of a panel is taken for both: [BothHalves],
// [RightHalf] or [LeftHalf]. The zero value takes the mean of the two.
type HalfTaken uint8

const (
	// BothHalves takes the mean of the two.
	BothHalves HalfTaken = iota
	// RightHalf takes the right one, as seen along the axis from its lower point.
	RightHalf
	// LeftHalf takes the left one.
	LeftHalf
)

var halfNames = [...]string{"both", "right", "left"}

// String gives the name, such as "right".
func (h HalfTaken) String() string { return enum.Name(h, "half", halfNames[:]) }

// MarshalText writes the name.
func (h HalfTaken) MarshalText() ([]byte, error) { return enum.Text(h, "half", halfNames[:]) }

// UnmarshalText reads a name as String writes it.
func (h *HalfTaken) UnmarshalText(text []byte) error {
	return enum.Read(h, text, "half", halfNames[:])
}

// Halves is an outline made its own mirror image, and how far the two halves were
// from that. Each half moves by Most at the most where the mean is taken, and by
// twice that where the other half is.
type Halves struct {
	Outline Outline     `json:"outline"`
	Low     Point       `json:"low"`  // of the axis
	High    Point       `json:"high"` // of the axis
	Taken   HalfTaken   `json:"taken,omitzero"`
	Edges   []HalfEdges `json:"edges"` // from the low end of the axis up
	Most    unit.Length `json:"most"`  // half of the largest distance of the two halves
	Edge    string      `json:"edge"`  // of the right half, where that is
	RMS     unit.Length `json:"rms"`   // root mean square of half the distance, by length
	Width   unit.Length `json:"width"` // of the outline, square to the axis
	Share   unit.Ratio  `json:"share"` // Most / Width
}

// HalfEdges are two edges that mirror each other, or both halves of one that
// crosses the axis.
type HalfEdges struct {
	Right       string      `json:"right"`
	Left        string      `json:"left"`
	RightLength unit.Length `json:"right_length"`
	LeftLength  unit.Length `json:"left_length"`
	Most        unit.Length `json:"most"` // half of the largest distance of the two
}

// Halved makes an outline its own mirror image about the axis through two points,
// seen from the first, low, to the second. The edges of both halves are brought together by their
// order from the axis, within an edge by the share of its length: with the right
// half R and the mirror image L of the left one
//
//	P(t) = (R(t) + L(t)) / 2,  d(t) = |R(t) - L(t)| / 2
//
// or R or L itself, by what is taken. A corner within 0.5 % of the width from where
// the axis crosses counts as lying on it. Edges keep their names.
//
// Errors are *unit.InputError values: for low and high, where the axis does not
// cross the outline just twice, and for halves that have not the same number of
// edges.
func (o Outline) Halved(low, high Point, taken HalfTaken) (Halves, error) {
	if o.IsZero() {
		return Halves{}, check.Required("outline", "one of the outlines of this package")
	}
	if err := enum.Check(taken, "taken", halfNames[:]); err != nil {
		return Halves{}, err
	}
	if err := firstError(checkPlace(low), checkPlace(high)); err != nil {
		return Halves{}, err
	}
	if geom.Distance(low.grid(), high.grid()) < float64(unit.Millimetre) {
		return Halves{}, check.Refuse("high", high.String(), unit.ErrRange, "a point of the axis away from "+low.String())
	}
	a := axisThrough(low, high)
	right, left, err := o.halves(a)
	if err != nil {
		return Halves{}, err
	}
	if len(right) != len(left) {
		return Halves{}, check.Refuse("outline", o.String(), unit.ErrRange, "as many edges to the right of the axis as to the left")
	}
	h := Halves{Low: low, High: high, Taken: taken}
	h.Width = unit.Length(math.Round(o.across(a)))
	var made []side
	sum, weight := 0.0, 0.0
	for i := range right {
		m := meanOf(right[i].path, left[i].path, taken)
		if i == 0 {
			m.path = a.onto(m.path, true)
		}
		if i == len(right)-1 {
			m.path = a.onto(m.path, false)
		}
		made = append(made, side{right[i].name, m.path})
		e := HalfEdges{right[i].name, left[i].name, right[i].length(), left[i].length(), unit.Length(math.Round(m.most))}
		h.Edges = append(h.Edges, e)
		if e.Most >= h.Most {
			h.Most, h.Edge = e.Most, e.Right
		}
		l := float64(e.RightLength + e.LeftLength)
		sum, weight = sum+float64(m.square*l), weight+l
	}
	h.RMS = unit.Length(math.Round(math.Sqrt(sum / weight)))
	h.Share = unit.Ratio(float64(h.Most) / float64(h.Width))
	h.Outline, err = a.whole(made, left)
	return h, err
}

// axis is the line a panel is folded on.
type axis struct {
	at geom.Point
	e  geom.Vec // up
}

func axisThrough(low, high Point) axis {
	p, q := low.grid(), high.grid()
	l := geom.Distance(p, q)
	return axis{p, geom.Vec{X: float64(q.X-p.X) / l, Y: float64(q.Y-p.Y) / l}}
}

// off gives how far right of the axis a point lies.
func (a axis) off(p geom.Vec) float64 {
	return float64((p.X-float64(a.at.X))*a.e.Y) - float64((p.Y-float64(a.at.Y))*a.e.X)
}

// mirror turns a path over at the axis and runs it the other way.
func (a axis) mirror(path []geom.Segment) []geom.Segment {
	m := geom.Reflection(a.e)
	return geom.Path{Segments: mapped(path, func(s geom.Segment) geom.Segment { return m.About(a.at, s) })}.Reverse().Segments
}

// onto brings the start or the end of a path that stops just short of the axis
// onto it.
func (a axis) onto(path []geom.Segment, start bool) []geom.Segment {
	p := path[len(path)-1].To
	if start {
		p = path[0].From
	}
	far := a.off(p.Vec())
	foot := geom.Vec{X: float64(p.X) - float64(far*a.e.Y), Y: float64(p.Y) + float64(far*a.e.X)}.Point()
	if foot == p {
		return path
	}
	out := slices.Clone(path)
	first, last := &out[0], &out[len(out)-1]
	switch {
	case start && (first.Kind == geom.Line || geom.Distance(p, foot) < 100):
		first.From = foot
	case start:
		return append([]geom.Segment{geom.LineTo(foot, p)}, out...)
	case last.Kind == geom.Line || geom.Distance(p, foot) < 100:
		last.To = foot
	default:
		return append(out, geom.LineTo(p, foot))
	}
	return out
}

// across gives the width square to the axis.
func (o Outline) across(a axis) float64 {
	l, r := math.Inf(1), math.Inf(-1)
	for _, s := range o.whole {
		p := geom.Parallel{Segment: s}
		for i := range 17 {
			d := a.off(p.At(float64(i) / 16))
			l, r = min(l, d), max(r, d)
		}
	}
	return r - l
}

// crossing is where the outline crosses the axis: a parameter of a segment.
type crossing struct {
	segment int
	t       float64
	right   bool // the outline goes to the right there
}

func (o Outline) crossings(a axis) []crossing {
	var out []crossing
	const parts = 32
	for k, s := range o.whole {
		// Ends are exact, so that neighbours agree on which side they lie.
		off := func(t float64) float64 {
			switch t {
			case 0:
				return a.off(s.From.Vec())
			case 1:
				return a.off(s.To.Vec())
			}
			return a.off(geom.Parallel{Segment: s}.At(t))
		}
		n := parts
		if s.Kind == geom.Line {
			n = 1
		}
		for i := range n {
			lo, hi := float64(i)/float64(n), float64(i+1)/float64(n)
			from, to := off(lo), off(hi)
			if (from >= 0) == (to >= 0) {
				continue
			}
			for range 60 {
				m := (lo + hi) / 2
				if (off(m) >= 0) == (from >= 0) {
					lo = m
				} else {
					hi = m
				}
			}
			out = append(out, crossing{k, hi, to >= 0})
		}
	}
	return out
}

// halves gives the edges right of the axis, from its lower crossing up, and the
// mirror images of those left of it, from the lower crossing up too.
func (o Outline) halves(a axis) (right, left []side, err error) {
	x := o.crossings(a)
	if len(x) != 2 || x[0].right == x[1].right {
		return nil, nil, check.Refuse("low", fromGrid(a.at).String(), unit.ErrRange, "an axis that crosses the outline twice")
	}
	if !x[0].right {
		x[0], x[1] = x[1], x[0]
	}
	width := o.across(a)
	bottom, top := o.place(x[0], width/200), o.place(x[1], width/200)
	right = o.between(bottom, top)
	for _, s := range slices.Backward(o.between(top, bottom)) {
		left = append(left, side{s.name, a.mirror(s.path)})
	}
	return right, left, nil
}

// place gives a crossing as edge and length from its start; one near a corner as
// the start of the edge that begins there.
func (o Outline) place(x crossing, near float64) (where [2]float64) {
	k := x.segment
	for i, s := range o.sides {
		if k >= len(s.path) {
			k -= len(s.path)
			continue
		}
		before := geom.Path{Segments: s.path[:k]}.Length()
		at, whole := before+s.path[k].LengthTo(x.t), geom.Path{Segments: s.path}.Length()
		switch n := len(o.sides); {
		case n > 1 && at < near:
			return [2]float64{float64(i), 0}
		case n > 1 && whole-at < near:
			return [2]float64{float64((i + 1) % n), 0}
		}
		return [2]float64{float64(i), at}
	}
	return where
}

// between gives the edges from one place to another, cut at both.
func (o Outline) between(from, to [2]float64) []side {
	n := len(o.sides)
	i, last := int(from[0]), int(to[0])
	var out []side
	skip := from[1]
	for {
		s := o.sides[i]
		path := s.path
		end := math.Inf(1)
		if i == last && (len(out) > 0 || to[1] > from[1] || i != int(from[0])) {
			end = to[1]
		}
		if end < math.Inf(1) && end > 0.5 {
			path, _ = splitPath(path, end)
		}
		if skip > 0.5 {
			_, path = splitPath(path, skip)
			skip = 0
		}
		switch n := len(out); {
		case end <= 0.5 || len(path) == 0:
		case n > 0 && out[n-1].name == s.name: // the one edge there is
			out[n-1].path = append(slices.Clone(out[n-1].path), path...)
		default:
			out = append(out, side{s.name, path})
		}
		if end < math.Inf(1) {
			return out
		}
		i = (i + 1) % n
	}
}

// whole joins the new right half and its mirror image; names of the left edges
// are as they were.
func (a axis) whole(made, left []side) (Outline, error) {
	sides := slices.Clone(made)
	for i, m := range slices.Backward(made) {
		back := a.mirror(m.path)
		last := &sides[len(sides)-1]
		switch {
		case i == len(made)-1 && left[i].name == last.name:
			last.path = joinStraight(last.path, back)
		case i == 0 && left[i].name == sides[0].name:
			sides[0].path = joinStraight(back, sides[0].path)
		default:
			sides = append(sides, side{left[i].name, back})
		}
	}
	// Points near the axis are brought together.
	for i := range sides {
		next := &sides[(i+1)%len(sides)]
		end := &sides[i].path[len(sides[i].path)-1]
		if geom.Distance(end.To, next.path[0].From) < 100 {
			end.To = next.path[0].From
		}
	}
	return newOutline(sides)
}

// joinStraight puts one path after another, two lines that run on as one.
func joinStraight(p, q []geom.Segment) []geom.Segment {
	out := slices.Clone(p)
	last, next := &out[len(out)-1], q[0]
	if geom.Distance(last.To, next.From) < 100 {
		next.From = last.To
	}
	if last.Kind == geom.Line && next.Kind == geom.Line && bend(last.Tangent(1), next.Tangent(0)) < 1e-6 {
		last.To = next.To
		return append(out, q[1:]...)
	}
	return append(append(out, next), q[1:]...)
}
