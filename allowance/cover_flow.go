package allowance

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// MotifWish wants a motif on a point of a panel. The zero value is refused.
type MotifWish struct {
	// Panel is a name of the cover, as that of an [EdgePart]; without hand or
	// number the wish is for each, of the right hand at the mirrored point.
	Panel string `json:"panel"`
	// At is the point of the finished panel, from the lower left corner of the box
	// round it. It may lie outside, up to 50 m.
	At shape.Point `json:"at"`
	// Or are other points that will do, on a panel that no crossing is at. At most
	// 63.
	Or []shape.Point `json:"or,omitempty"`
	// Way is how the motif binds; the zero value does not, AcrossOnly puts a stripe
	// on the point.
	Way PatternWay `json:"way"`
	// Alike is a name that wishes share whose points are to show the same part of
	// the pattern, whichever that is. Without it they show a motif.
	Alike string `json:"alike,omitempty"`
}

// Flow is how a pattern runs over the pieces of a cover. Points are from the lower
// left corner of the box round the seam line of a piece, as its face is seen; of a
// right hand, of the mirrored piece.
type Flow struct {
	Pieces    []PieceFlow `json:"pieces"` // as CoverWork.Pieces
	Crossings []Crossed   `json:"crossings,omitempty"`
	// Unmet are wishes that give way to the seams that the pattern crosses, or to
	// an earlier wish, unless Off comes to whole repeats.
	Unmet []UnmetWish `json:"unmet,omitempty"`
}

// PieceFlow is where the pattern lies on a piece.
type PieceFlow struct {
	Name   string    `json:"name"`
	Across FlowGroup `json:"across,omitzero"`
	Along  FlowGroup `json:"along,omitzero"`
	// Motif is the point that shows the motif; in a direction in which the group is
	// not placed, the one that shows what the same point of its others does.
	Motif shape.Point `json:"motif"`
	// Or are other points that may show it.
	Or    []shape.Point `json:"or,omitempty"`
	Wish  int           `json:"wish,omitzero"` // the first that is for this piece, from 1
	Width unit.Length   `json:"width"`         // of the box round the seam line
}

// FlowGroup is the pieces that the pattern runs over as one in one direction.
type FlowGroup struct {
	Number int  `json:"number,omitzero"` // from 1; 0 for none
	Placed bool `json:"placed,omitzero"` // on the motifs, by a wish
}

// Crossed is a seam or a meet of two pieces that the pattern runs across.
type Crossed struct {
	Seam     string      `json:"seam,omitempty"` // its letter; none of a meet
	Meet     int         `json:"meet,omitzero"`  // number of Cover.Meets, from 1; 0 of a seam
	From     int         `json:"from"`           // of CoverWork.Pieces
	To       int         `json:"to"`
	FromAt   shape.Point `json:"from_at"` // where the two agree
	ToAt     shape.Point `json:"to_at"`
	FromEdge []string    `json:"from_edge"`
	ToEdge   []string    `json:"to_edge"`
	FromIn   unit.Length `json:"from_in,omitzero"` // of a meet: the finished distance of the line inside the edge
	ToIn     unit.Length `json:"to_in,omitzero"`
	Lost     shape.Point `json:"lost,omitzero"` // of the pattern between the two: a gap
	// FromOut and ToOut are 1 m square out of the edges, at these points.
	FromOut shape.Point `json:"from_out"`
	ToOut   shape.Point `json:"to_out"`
	Way     PatternWay  `json:"way"`
	Hidden  bool        `json:"hidden,omitzero"`
	// Turned says that the two lines do not run along each other in the way of the
	// pattern, so that it agrees at that point alone.
	Turned bool `json:"turned,omitzero"`
	// Off is how far the second piece shows the pattern from where the first runs
	// on to: nothing, unless the pattern closes a ring here. Whole repeats do not
	// show.
	Off shape.Point `json:"off,omitzero"`
}

// UnmetWish is a wish and the piece on which it gives way.
type UnmetWish struct {
	Wish  int `json:"wish"`  // of those given
	Piece int `json:"piece"` // of CoverWork.Pieces
	// Off is from the point asked for to the motif.
	Off shape.Point `json:"off"`
}

// Flow carries a pattern from the wishes over every seam and meet that it runs
// across. With a and b the points of pieces P and Q that lie together, e the part
// of the pattern that is lost between them, square out from P, and m the point of
// each that shows the motif,
//
//	m_Q = m_P - a + b - e
//
// in the directions of the crossing. Where ways of the pattern meet in a ring it
// cannot close but by chance: first all that is seen is joined, in the order of
// the cover, seams before meets, then wishes are met, then what is hidden is
// joined. What is left over says by how much it is off.
//
// Both sides of a crossing must be of the same goods and lie face up. Errors are
// those of [Cover.Check] and *unit.InputError values that name
// wishes[i].panel, wishes[i].at, wishes[i].way or the side of a seam or meet.
func (c Cover) Flow(goods map[string]SewnGoods, wishes []MotifWish) (Flow, error) {
	g, err := c.checked(goods)
	if err != nil {
		return Flow{}, err
	}
	f := flowing{graph: g, ground: map[string]int{}, or: map[int][]shape.Point{}}
	f.crossings()
	f.wishes(wishes)
	if err := g.faults.err(); err != nil {
		return Flow{}, err
	}
	return f.solve(), nil
}

// flowing is a flow in the making. Grounds stand behind the pieces: the motifs of
// each goods, and what wishes that are alike show.
type flowing struct {
	*graph
	links  []link
	ground map[string]int
	wished []int // from 1
	or     map[int][]shape.Point
	out    Flow
}

// link says that the motif lies by off further on q than on p.
type link struct {
	p, q   int
	off    shape.Point
	way    PatternWay
	rank   int // seen, wished, hidden, and last what a wish leaves open
	number int // of the crossing or the wish
	wish   bool
}

// crossings gathers what the pattern runs across.
func (f *flowing) crossings() {
	g := f.graph
	labels := g.letters(g.order)
	for i, s := range g.cover.Seams {
		if s.Pattern.Way == NoPattern || g.taken[i] {
			continue
		}
		at := unit.Path("seams").At(i)
		if len(s.Sides) != 2 {
			g.faults.add(at.Dot("pattern"), check.Refuse("way", s.Pattern.Way.String(), unit.ErrRange, "a seam of two sides"))
			continue
		}
		sides := [2]MeetSide{{Side: s.Sides[0]}, {Side: s.Sides[1]}}
		f.cross(at, sides, s.Pattern, func(from int) Crossed {
			for k, j := range g.joints {
				if j.seam == i && slices.ContainsFunc(j.sides[0], func(s span) bool { return s.node == from }) {
					return Crossed{Seam: labels[k]}
				}
			}
			return Crossed{}
		})
	}
	for i, m := range g.cover.Meets {
		if m.Pattern.Way != NoPattern && len(m.Sides) == 2 {
			f.cross(unit.Path("meets").At(i), [2]MeetSide(m.Sides), m.Pattern, func(int) Crossed { return Crossed{Meet: i + 1} })
		}
	}
}

// cross links the pieces of every hand and copy that a crossing stands for.
func (f *flowing) cross(at unit.Path, sides [2]MeetSide, c Crossing, called func(from int) Crossed) {
	g := f.graph
	if len(f.links) > mostRelations {
		g.faults.add(at, check.Count("", len(f.links), 0, mostRelations))
		return
	}
	r := relation{seam: -1, fastening: -1, at: at}
	for k, s := range sides {
		here := at.Dot("sides").At(k)
		found, ok := g.side(here, s.Side)
		if !ok {
			return // told already
		}
		r.sides = append(r.sides, found)
	}
	g.each(r, func(hand Hand, number int) {
		var ends [2]flowEnd
		for k, s := range sides {
			e, err := f.end(r.sides[k], hand, number, c.Point, k == 1, s.In)
			if err != nil {
				g.faults.add(at.Dot("sides").At(k), err)
				return
			}
			ends[k] = e
		}
		a, b := ends[0], ends[1]
		if x, y := g.cover.Panels[g.nodes[a.node].panel].Goods, g.cover.Panels[g.nodes[b.node].panel].Goods; x != y {
			g.faults.add(at.Dot("pattern"), check.Refuse("way", c.Way.String(), unit.ErrRange, fmt.Sprintf("two sides of the same goods: %s and %s are not", x, y)))
			return
		}
		x := called(a.node)
		x.From, x.To, x.FromAt, x.ToAt, x.FromEdge, x.ToEdge = a.node, b.node, a.at, b.at, a.edges, b.edges
		x.FromIn, x.ToIn, x.Way, x.Hidden = sides[0].In, sides[1].In, c.Way, c.Hidden
		x.FromOut, x.ToOut = a.out(), b.out()
		size := geom.Hypot(a.outX, a.outY)
		x.Turned = c.Way.across() && math.Abs(a.outY+b.outY) > inLine*size || c.Way.along() && math.Abs(a.outX+b.outX) > inLine*size
		x.Lost = shape.Point{X: unit.Length(math.Round(float64(c.Gap) * a.outX / size)), Y: unit.Length(math.Round(float64(c.Gap) * a.outY / size))}
		l := link{p: a.node, q: b.node, way: c.Way, number: len(f.out.Crossings),
			off: shape.Point{X: b.at.X - a.at.X - x.Lost.X, Y: b.at.Y - a.at.Y - x.Lost.Y}}
		if c.Hidden {
			l.rank = 2
		}
		f.links = append(f.links, l)
		f.out.Crossings = append(f.out.Crossings, x)
	})
}

// inLine is the sine of 3 degrees: so far the two lines may be off running along each
// other.
const inLine = 0.0523

// flowEnd is where a crossing lies on one piece.
type flowEnd struct {
	node       int
	at         shape.Point // from the corner of the box round the seam line
	outX, outY float64
	edges      []string
}

// out gives the way out of the edge, 1 m long but for what Mark rounds.
func (e flowEnd) out() shape.Point {
	return shape.Point{X: unit.Length(math.Round(e.outX)), Y: unit.Length(math.Round(e.outY))}
}

// end finds the point of a side at which the pattern agrees.
func (f *flowing) end(side []part, hand Hand, number int, point CrossingPoint, second bool, in unit.Length) (flowEnd, error) {
	var out flowEnd
	type run struct {
		part
		from, length unit.Length
	}
	var runs []run
	var all unit.Length
	for _, p := range side {
		if p.Reversed {
			return out, check.Refuse("side", p.String(), unit.ErrRange, "the face of the panel up: its back shows no pattern")
		}
		o := f.cover.Panels[p.panel].Outline
		from, to := p.From, p.To
		if to == 0 {
			var err error
			if to, err = f.finished(p); err != nil {
				return out, err
			}
		}
		if o.IsZero() || to <= from {
			return out, check.Required("side", "a part of an edge")
		}
		runs = append(runs, run{p, from, to - from})
		all += to - from
	}
	// The start of the first side meets the end of the second. Places of a pair are
	// those of the left, mirrored for the right.
	at := all / 2
	if point != MiddlePoint {
		at = 0
		if (point == EndPoint) != second {
			at = all
		}
	}
	for i, r := range runs {
		if at > r.length && i < len(runs)-1 {
			at -= r.length
			continue
		}
		n := f.pieceOf(r.part, hand, number)
		if r.hand == RightHand { // named, its edges run the other way than as drawn
			at = r.length - at
		}
		x, err := f.pointOn(r.part, r.from+at, in, f.nodes[n].hand == RightHand)
		if err != nil {
			return out, err
		}
		out, out.node = x, n
		break
	}
	for _, r := range runs {
		p := r.EdgePart
		p.Panel = f.nodes[f.pieceOf(r.part, hand, number)].name
		out.edges = append(out.edges, p.String())
	}
	return out, nil
}

// finished gives the finished length of an edge or inner line.
func (f *flowing) finished(p part) (unit.Length, error) {
	panel := f.cover.Panels[p.panel]
	for _, l := range panel.Lines {
		if l.Name == p.Edge {
			return unit.Length(math.Round(geom.Hypot(float64(l.To.X-l.From.X), float64(l.To.Y-l.From.Y)))), nil
		}
	}
	return panel.Outline.EdgeLength(p.Edge)
}

// pointOn gives a place on an edge, or inside it, of the piece as it is cut.
func (f *flowing) pointOn(p part, at, in unit.Length, mirrored bool) (flowEnd, error) {
	panel := f.cover.Panels[p.panel]
	var on, off shape.Point
	line := slices.IndexFunc(panel.Lines, func(l InnerLine) bool { return l.Name == p.Edge })
	if line >= 0 {
		l := panel.Lines[line]
		long, err := f.finished(p)
		if err != nil {
			return flowEnd{}, err
		}
		dx, dy := float64(l.To.X-l.From.X)/float64(long), float64(l.To.Y-l.From.Y)/float64(long)
		on = shape.Point{X: l.From.X + unit.Length(math.Round(dx*float64(at))), Y: l.From.Y + unit.Length(math.Round(dy*float64(at)))}
		off = shape.Point{X: on.X + unit.Length(math.Round(dy*float64(unit.Metre))), Y: on.Y - unit.Length(math.Round(dx*float64(unit.Metre)))}
	} else {
		var err error
		if on, off, err = panel.Outline.Mark(p.Edge, at, unit.Metre); err != nil {
			return flowEnd{}, err
		}
	}
	out := flowEnd{outX: float64(off.X - on.X), outY: float64(off.Y - on.Y)}
	size := geom.Hypot(out.outX, out.outY)
	low, high := panel.Outline.Bounds()
	at2 := shape.Point{X: on.X - low.X - unit.Length(math.Round(float64(in)*out.outX/size)), Y: on.Y - low.Y - unit.Length(math.Round(float64(in)*out.outY/size))}
	if mirrored {
		at2.X, out.outX = high.X-low.X-at2.X, -out.outX
	}
	var err error
	out.at, err = panel.onSeamLine(at2)
	return out, err
}

// onSeamLine takes a point of the finished panel, from the lower left corner of the
// box round it, to the seam line, which the fit makes smaller or larger.
func (p Panel) onSeamLine(at shape.Point) (shape.Point, error) {
	across, along, _, err := p.fitted()
	if err != nil {
		return at, err
	}
	x, _ := at.X.MulDiv(int(across.Seam), int(across.Finished), unit.Nearest) //nolint:errcheck // a place of the size of a panel
	y, _ := at.Y.MulDiv(int(along.Seam), int(along.Finished), unit.Nearest)   //nolint:errcheck // and so this
	return shape.Point{X: x, Y: y}, nil
}

// wishes links the pieces that wishes are for to the motifs.
func (f *flowing) wishes(wishes []MotifWish) {
	f.wished = make([]int, len(f.nodes))
	for i, w := range wishes {
		at := unit.Path("wishes").At(i)
		r, ok := f.refs[w.Panel]
		if !ok {
			f.faults.add(at.Dot("panel"), check.Refuse("", w.Panel, unit.ErrUnknown, f.wanted(w.Panel)))
			continue
		}
		if err := check.OneOf("way", w.Way.String(), patternNames[1:]...); err != nil {
			f.faults.add(at, err)
			continue
		}
		points := append([]shape.Point{w.At}, w.Or...)
		if err := f.checkPoints(points); err != nil {
			f.faults.add(at, err)
			continue
		}
		p := f.cover.Panels[r.panel]
		ground := f.groundOf(p.Goods, w.Alike)
		for n, of := range f.nodes {
			if of.panel != r.panel || r.hand != Either && of.hand != r.hand || r.number != 0 && of.number != r.number {
				continue
			}
			own := slices.Clone(points)
			for k := range own {
				if of.hand == RightHand {
					width, _ := p.Outline.Size()
					own[k].X = width - own[k].X
				}
				var err error
				if own[k], err = p.onSeamLine(own[k]); err != nil {
					f.faults.add(at, err)
					return
				}
			}
			if len(w.Or) > 0 && slices.ContainsFunc(f.out.Crossings, func(x Crossed) bool { return x.From == n || x.To == n }) {
				f.faults.add(at.Dot("or"), check.Refuse("", fmt.Sprint(len(w.Or)), unit.ErrRange, "one point, on a panel that the pattern runs into or out of"))
			}
			if f.wished[n] == 0 {
				f.wished[n] = i + 1
			}
			f.or[n] = append([]shape.Point(nil), own[1:]...)
			l := link{p: ground, q: n, off: own[0], way: w.Way, rank: 1, number: i, wish: true}
			f.links = append(f.links, l)
			if rest := w.Way.other(); rest != NoPattern {
				l.way, l.rank = rest, 3
				f.links = append(f.links, l)
			}
		}
	}
}

func (f *flowing) checkPoints(points []shape.Point) error {
	if err := check.Count("or", len(points)-1, 0, 63); err != nil {
		return err
	}
	for i, p := range points {
		field := "at"
		if i > 0 {
			field = check.At("or", i-1)
		}
		if max(p.X, -p.X, p.Y, -p.Y) > 50*unit.Metre {
			return check.Refuse(field, p.String(), unit.ErrRange, "a point within 50 m")
		}
	}
	return nil
}

// other gives the direction that the way leaves open.
func (w PatternWay) other() PatternWay {
	switch w {
	case AcrossOnly:
		return AlongOnly
	case AlongOnly:
		return AcrossOnly
	}
	return NoPattern
}

// across and along tell in which directions the pattern runs on.
func (w PatternWay) across() bool { return w == AcrossOnly || w == BothWays }
func (w PatternWay) along() bool  { return w == AlongOnly || w == BothWays }

// groundOf gives the number of the ground of goods, or of wishes that are alike.
func (f *flowing) groundOf(goods, alike string) int {
	key := goods + "\x00" + alike
	n, ok := f.ground[key]
	if !ok {
		n = len(f.nodes) + len(f.ground)
		f.ground[key] = n
	}
	return n
}

// forest joins pieces in one direction: each has its place from the root of its
// tree.
type forest struct {
	root []int
	at   []unit.Length
	size []int
}

func newForest(n int) *forest {
	t := &forest{root: make([]int, n), at: make([]unit.Length, n), size: make([]int, n)}
	for i := range n {
		t.root[i], t.size[i] = i, 1
	}
	return t
}

// join puts q by off further than p, if nothing says yet where it lies from p;
// else it gives by how much that is further than the forest has it.
func (t *forest) join(p, q int, off unit.Length) (over unit.Length) {
	from, to := t.root[p], t.root[q]
	shift := t.at[p] + off - t.at[q]
	if from == to {
		return shift
	}
	for i, r := range t.root {
		if r == to {
			t.root[i], t.at[i] = from, t.at[i]+shift
		}
	}
	t.size[from] += t.size[to]
	return 0
}

// solve joins by rank, and gives every piece its place.
func (f *flowing) solve() Flow {
	n := len(f.nodes)
	across, along := newForest(n+len(f.ground)), newForest(n+len(f.ground))
	slices.SortStableFunc(f.links, func(a, b link) int { return cmp.Compare(a.rank, b.rank) })
	for _, l := range f.links {
		var off shape.Point
		if l.way.across() && (l.rank < 3 || across.size[across.root[l.q]] > 1) {
			off.X = across.join(l.p, l.q, l.off.X)
		}
		if l.way.along() && (l.rank < 3 || along.size[along.root[l.q]] > 1) {
			off.Y = along.join(l.p, l.q, l.off.Y)
		}
		switch {
		case off == (shape.Point{}) || l.rank == 3:
		case l.wish:
			f.out.Unmet = append(f.out.Unmet, UnmetWish{Wish: l.number, Piece: l.q, Off: shape.Point{X: -off.X, Y: -off.Y}})
		default:
			f.out.Crossings[l.number].Off = shape.Point{X: -off.X, Y: -off.Y}
		}
	}
	placed := func(t *forest, root int) bool {
		for key, g := range f.ground { // any of them: the order does not matter
			if key[len(key)-1] == 0 && t.root[g] == root {
				return true
			}
		}
		return false
	}
	number := map[int]int{}
	group := func(t *forest, i, axis int) FlowGroup {
		root := t.root[i]
		if t.size[root] == 1 {
			return FlowGroup{}
		}
		key := 2*root + axis
		if number[key] == 0 {
			number[key] = len(number) + 1
		}
		return FlowGroup{number[key], placed(t, root)}
	}
	// Where the motifs of the goods are in the tree, points are from them.
	base := func(t *forest, i int) unit.Length {
		for key, g := range f.ground {
			if key[len(key)-1] == 0 && t.root[g] == t.root[i] {
				return t.at[i] - t.at[g]
			}
		}
		return t.at[i]
	}
	for i := range n {
		p := PieceFlow{Name: f.nodes[i].name, Across: group(across, i, 0), Along: group(along, i, 1), Motif: shape.Point{X: base(across, i), Y: base(along, i)},
			Or: f.or[i], Wish: f.wished[i]}
		if fit, _, _, err := f.cover.Panels[f.nodes[i].panel].fitted(); err == nil { // it was drawn
			p.Width = fit.Seam
		}
		f.out.Pieces = append(f.out.Pieces, p)
	}
	return f.out
}
