package pattern

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Fold is the edge of a half pattern that lies on a fold of the goods. The cut, trim
// and seam line of the half each begin and end on it, and are not drawn along it. The zero value is no fold.
type Fold struct {
	From shape.Point `json:"from"` // the last point of the cut line
	To   shape.Point `json:"to"`   // its first
	// Of the other half: the letters of the notches that lie on those with Letters,
	// and the edges that lie on Edges.
	Letters []allowance.PieceMark `json:"letters,omitempty"`
	Edges   []string              `json:"edges,omitempty"`
}

// folded tells whether a pattern is half of a piece.
func (p Pattern) folded() bool { return p.Fold.From != p.Fold.To }

// checkFold finds a fold that is not where the lines end.
func (p Pattern) checkFold() error {
	if !p.folded() {
		return nil
	}
	if err := inRange("fold", p.Fold.From, p.Fold.To); err != nil {
		return err
	}
	if p.Fold.From != p.Cut.Outer[len(p.Cut.Outer)-1] || p.Fold.To != p.Cut.Outer[0] {
		return check.Refuse("fold", p.Fold.From.String()+" to "+p.Fold.To.String(), unit.ErrRange, "the last and the first point of the cut line")
	}
	if err := check.Count("fold.letters", len(p.Fold.Letters), len(p.Letters), len(p.Letters)); err != nil {
		return err
	}
	return check.Count("fold.edges", len(p.Fold.Edges), len(p.Edges), len(p.Edges))
}

// mirrorSlack is how far a line may be off its mirror image, which is worked out
// from the other end.
const mirrorSlack = unit.Micrometre

// Half gives the left half of a pattern, as it is drawn, to be laid on a fold of the
// goods, or drawn round, turned over along the fold and drawn round again. Its lines
// with their mirror image are those of the whole; Width and Length stay those of the
// whole, the grain arrow moves into the half. Where the halves are lettered apart or
// have edges that are sewn to other things, Fold has both.
//
// It gives false for a pattern that is not its own mirror image about its upright
// middle: its lines and marks to a micrometre, notches to a tenth of a millimetre,
// each with a letter where its like has one. So it does for one with cut-outs, and
// for one that the fold would meet more than twice.
func (p Pattern) Half() (Pattern, bool) {
	if p.Check() != nil || p.folded() || len(p.Cut.Holes)+len(p.Trim.Holes)+len(p.Seam.Holes) > 0 {
		return Pattern{}, false
	}
	b := p.Bounds()
	m := mirror{b.Low.X + b.High.X}
	half := p
	half.Finished = shape.Contour{}
	for _, l := range []struct {
		whole shape.Contour
		half  *shape.Contour
	}{{p.Cut, &half.Cut}, {p.Trim, &half.Trim}, {p.Seam, &half.Seam}} {
		if len(l.whole.Outer) == 0 {
			continue
		}
		ring := m.left(l.whole.Outer)
		if ring == nil || !m.same(l.whole.Outer) {
			return Pattern{}, false
		}
		*l.half = shape.Contour{Outer: ring}
	}
	n := len(half.Cut.Outer)
	half.Fold = Fold{From: half.Cut.Outer[n-1], To: half.Cut.Outer[0]}
	half.Width, half.Length = p.size()
	if !p.halfNotches(m, &half) || !p.halfMarks(m, &half) {
		return Pattern{}, false
	}
	p.halfEdges(&half)
	half.Grain = half.arrowInside(p.Grain)
	return half, true
}

// mirror turns left and right about an upright line, whose distance from zero is
// half of twice.
type mirror struct{ twice unit.Length }

func (m mirror) of(q shape.Point) shape.Point { return shape.Point{X: m.twice - q.X, Y: q.Y} }

// side is below zero left of the line, zero on it.
func (m mirror) side(q shape.Point) int {
	if d := 2*q.X - m.twice; max(d, -d) > 2*mirrorSlack {
		return cmp.Compare(d, 0)
	}
	return 0
}

// same tells whether a ring is its own mirror image, point for point.
func (m mirror) same(ring []shape.Point) bool {
	n := len(ring)
	for k := range ring {
		if !near(m.of(ring[0]), ring[k], mirrorSlack) {
			continue
		}
		fits := true
		for i := 1; i < n && fits; i++ {
			fits = near(m.of(ring[i]), ring[(k-i+n)%n], mirrorSlack)
		}
		if fits {
			return true
		}
	}
	return false
}

func near(p, q shape.Point, slack unit.Length) bool {
	return max(p.X-q.X, q.X-p.X, p.Y-q.Y, q.Y-p.Y) <= slack
}

// left gives the half of a ring left of the line, from its head round to its foot;
// nil where the ring meets the line more than twice.
func (m mirror) left(ring []shape.Point) []shape.Point {
	var starts []int
	for i := range ring {
		if m.side(ring[i]) < 0 && m.side(ring[(i+len(ring)-1)%len(ring)]) >= 0 {
			starts = append(starts, i)
		}
	}
	if len(starts) != 1 {
		return nil
	}
	n, at := len(ring), starts[0]
	out := []shape.Point{m.cross(ring[(at+n-1)%n], ring[at])}
	for m.side(ring[at%n]) < 0 {
		out = append(out, ring[at%n])
		at++
	}
	return append(out, m.cross(ring[(at-1)%n], ring[at%n]))
}

// cross gives the place where a line meets the middle, or ends on it.
func (m mirror) cross(a, b shape.Point) shape.Point {
	middle := unit.Length(math.Floor(float64(m.twice) / 2))
	for _, q := range []shape.Point{a, b} {
		if m.side(q) == 0 {
			return shape.Point{X: middle, Y: q.Y}
		}
	}
	t := float64(middle-a.X) / float64(b.X-a.X)
	return shape.Point{X: middle, Y: a.Y + unit.Length(math.Round(t*float64(b.Y-a.Y)))}
}

// halfNotches keeps the notches of the half, with the letters of those that lie on
// them.
func (p Pattern) halfNotches(m mirror, half *Pattern) bool {
	half.Notches, half.Letters = nil, nil
	for i, n := range p.Notches {
		like := slices.IndexFunc(p.Notches, func(o allowance.CutNotch) bool {
			return near(m.of(n.Seam), o.Seam, slack) && near(m.of(n.Cut), o.Cut, slack)
		})
		if like < 0 || (i < len(p.Letters)) != (like < len(p.Letters)) {
			return false
		}
		if m.side(n.Seam) > 0 && like != i {
			continue
		}
		half.Notches = append(half.Notches, n)
		if i < len(p.Letters) {
			half.Letters = append(half.Letters, p.Letters[i])
			half.Fold.Letters = append(half.Fold.Letters, p.Letters[like])
		}
	}
	return true
}

func (p Pattern) halfMarks(m mirror, half *Pattern) bool {
	half.Marks = nil
	for _, q := range p.Marks {
		if !slices.ContainsFunc(p.Marks, func(o shape.Point) bool { return near(m.of(q), o, mirrorSlack) }) {
			return false
		}
		if m.side(q) <= 0 {
			half.Marks = append(half.Marks, q)
		}
	}
	return true
}

// halfEdges finds the edges of the half along its seam line, and those of the other
// half that lie on them.
func (p Pattern) halfEdges(half *Pattern) {
	half.Edges = nil
	starts := p.edgeStarts()
	if len(starts) < 2 {
		return
	}
	total := starts[len(starts)-1]
	head := alongTo(p.Seam.Outer, half.Seam.Outer[0])
	long := openLength(half.Seam.Outer)
	for turn := range 2 {
		for i, e := range p.Edges {
			whole := starts[i+1] - starts[i]
			from, to := max(starts[i]+float64(float64(turn)*total)-head, 0), min(starts[i+1]+float64(float64(turn)*total)-head, long)
			if to-from <= float64(slack) || whole <= 0 {
				continue
			}
			gone := (from - (starts[i] + float64(float64(turn)*total) - head)) / whole // before the fold
			for k, n := range half.Notches {
				if n.Edge == e.Name {
					half.Notches[k].At -= unit.Length(math.Round(float64(gone * float64(e.Length))))
				}
			}
			// The mirror image of a place as far before the head as this is behind it.
			back := math.Mod(head-(from+to)/2+float64(2*total), total)
			k := 0
			for k+2 < len(starts) && starts[k+1] < back {
				k++
			}
			e.Length = unit.Length(math.Round(float64((to - from) / whole * float64(e.Length))))
			half.Edges = append(half.Edges, e)
			half.Fold.Edges = append(half.Fold.Edges, p.Edges[k].Name)
		}
	}
}

// alongTo gives how far along a closed line the point of it is that is nearest to q.
func alongTo(line []shape.Point, q shape.Point) float64 {
	var before, at float64
	best := math.Inf(1)
	for i, a := range line {
		b := line[(i+1)%len(line)]
		if far := distance(q, a, b); far < best {
			best, at = far, before+geom.Hypot(float64(q.X-a.X), float64(q.Y-a.Y))
		}
		before += geom.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	}
	return at
}

func openLength(line []shape.Point) float64 {
	var sum float64
	for i := 1; i < len(line); i++ {
		sum += geom.Hypot(float64(line[i].X-line[i-1].X), float64(line[i].Y-line[i-1].Y))
	}
	return sum
}

// arrowInside moves a grain arrow off the fold to where it lies inside the half.
func (p Pattern) arrowInside(g allowance.GrainArrow) allowance.GrainArrow {
	if g.Foot == g.Head {
		return g
	}
	b := p.Bounds()
	for _, part := range []unit.Length{6, 5, 7, 4, 8, 3, 9} {
		x := b.Low.X + (b.High.X-b.Low.X)*part/12
		moved := allowance.GrainArrow{Foot: shape.Point{X: x + g.Foot.X - g.Head.X, Y: g.Foot.Y}, Head: shape.Point{X: x, Y: g.Head.Y}}
		if inside(moved.Foot, rings(p.Cut)) && inside(moved.Head, rings(p.Cut)) {
			return moved
		}
	}
	at, room := p.Room(b)
	return allowance.GrainArrow{Foot: shape.Point{X: at.X, Y: at.Y - room}, Head: shape.Point{X: at.X, Y: at.Y + room}}
}
