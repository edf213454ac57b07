package bound

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/bits"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// Hide is a container of any outline. Nothing may be cut over its holes.
type Hide struct {
	Outer geom.Ring
	Holes []geom.Ring
}

// HideJob is a set of outlines to be cut from as few hides as possible. What a
// piece matches does not count. For pieces that refuse zones of a hide, ask
// again for those pieces alone with the zones as holes.
type HideJob struct {
	Hides  []Hide
	Pieces []Piece
}

// HideClaim is a proved bound: no layout takes fewer hides. One more than there
// are says that they do not suffice.
type HideClaim struct {
	Hides  int
	Method Method
	Weigh  Weighing // of ByLarge, on areas instead of widths
	Pieces []int    // the pieces of ByPairs, by index
}

const (
	mostHides = 10_000
	mostWays  = 8       // ways to lie of a piece of which more than its area counts
	mostPairs = 60      // pieces and hides looked at for pairs
	holeWork  = 1 << 24 // pairs of sides compared for all holes
)

// Hides returns what can be proved about the number of hides, the best claim
// first, among equals the simplest. The error is an [*InputError].
func Hides(ctx context.Context, j HideJob) ([]HideClaim, error) {
	if len(j.Hides) == 0 || len(j.Hides) > mostHides {
		return nil, refuse("Hides", len(j.Hides), "1 to 10000 hides")
	}
	for i, h := range j.Hides {
		if err := checkRing(fmt.Sprintf("Hides[%d].Outer", i), h.Outer); err != nil {
			return nil, err
		}
		for k, o := range h.Holes {
			if err := checkRing(fmt.Sprintf("Hides[%d].Holes[%d]", i, k), o); err != nil {
				return nil, err
			}
		}
	}
	if err := checkPieces(j.Pieces); err != nil {
		return nil, err
	}
	t := newTable(&j)
	for i, a := range t.areas {
		if len(t.nets) > 0 && a > t.nets[0] {
			return nil, refuse(fmt.Sprintf("Pieces[%d].Ways", i), "an outline larger than the largest hide", "a piece that fits on a hide")
		}
	}
	claims := []HideClaim{{Hides: t.count(Weighing{Kind: Plain, Of: max(1, t.top())}), Method: ByArea}}
	if ctx.Err() == nil {
		claims = t.keep(claims, t.byLarge())
	}
	if ctx.Err() == nil {
		claims = t.keep(claims, t.byPairs(ctx))
	}
	slices.SortStableFunc(claims, func(a, b HideClaim) int { return cmp.Or(b.Hides-a.Hides, int(a.Method-b.Method)) })
	return claims, nil
}

// table is a job as numbers. Areas are twice the true ones in a unit coarse
// enough for 61 bits, of pieces rounded down and of hides up.
type table struct {
	*HideJob
	areas []int64 // by piece
	nets  []int64 // of hides, the largest first
	rooms []room
}

func newTable(j *HideJob) *table {
	t := &table{HideJob: j}
	var nets, areas []geom.Int128
	long, work := 0, holeWork
	for i := range j.Hides {
		n := j.Hides[i].net2(&work)
		nets = append(nets, n)
		long = max(long, length(n))
		t.rooms = append(t.rooms, newRoom(j.Hides[i].Outer, n))
	}
	for i := range j.Pieces {
		areas = append(areas, j.Pieces[i].leastArea2())
		long = max(long, length(areas[i]))
	}
	shift := max(0, long-60)
	for _, n := range nets {
		t.nets = append(t.nets, divide(n, 1<<shift, true))
	}
	for _, a := range areas {
		t.areas = append(t.areas, divide(a, 1<<shift, false))
	}
	slices.SortFunc(t.nets, func(a, b int64) int { return cmp.Compare(b, a) })
	return t
}

// length is the number of bits of a number that is not negative.
func length(a geom.Int128) int {
	if a.Hi > 0 {
		return 64 + bits.Len64(uint64(a.Hi))
	}
	return bits.Len64(a.Lo)
}

// leastArea2 is twice the least area over the ways to lie.
func (p *Piece) leastArea2() geom.Int128 {
	least := p.Ways[0].Ring.TwiceArea().Abs()
	for _, w := range p.Ways[1:] {
		if a := w.Ring.TwiceArea().Abs(); !p.AnyAngle && a.Cmp(least) < 0 {
			least = a
		}
	}
	return least
}

func (t *table) top() int64 { return t.nets[0] }

// keep adds a claim that beats those before it.
func (t *table) keep(claims []HideClaim, c HideClaim) []HideClaim {
	for _, o := range claims {
		if o.Hides >= c.Hides {
			return claims
		}
	}
	return append(claims, c)
}

// count is the least number of hides whose weights reach those of the pieces:
//
//	sum of f(area of a piece) <= sum over the hides used of f(net area)
//
// the largest hides first. Proof: pieces do not overlap, so on one hide their
// areas sum to at most its net area a, and their weights to at most f(a): for
// the largest hide as f is dual feasible, for a smaller one too if f is
// superadditive, f(x) + f(y) <= f(x+y), which Few is not.
func (t *table) count(f Weighing) int {
	var need, have geom.Int128
	for i, a := range t.areas {
		need = need.Add(geom.Mul64(f.at(a), int64(t.Pieces[i].Count)))
	}
	for n, a := range t.nets {
		if f.Kind == Few {
			a = f.Of
		}
		if have = have.Add(geom.FromInt64(f.at(a))); have.Cmp(need) >= 0 {
			return n + 1
		}
	}
	return len(t.nets) + 1
}

// byLarge weighs areas by dual feasible functions of the largest hide.
func (t *table) byLarge() HideClaim {
	sizes := slices.Clone(t.areas)
	slices.Sort(sizes)
	best := HideClaim{Method: ByLarge}
	for _, f := range weighings(t.top(), slices.Compact(sizes), 120) {
		if n := t.count(f); n > best.Hides {
			best.Hides, best.Weigh = n, f
		}
	}
	return best
}

// byPairs looks for pieces no two of which lie on one hide together, whatever
// hide it is: as many hides are needed. They are gathered from the largest on,
// from several starts.
func (t *table) byPairs(ctx context.Context) HideClaim {
	large := make([]int, len(t.Pieces))
	for i := range large {
		large[i] = i
	}
	slices.SortStableFunc(large, func(a, b int) int { return cmp.Compare(t.areas[b], t.areas[a]) })
	var bodies []body
	for _, i := range large[:min(len(large), mostPairs)] {
		if ctx.Err() == nil {
			bodies = append(bodies, newBody(i, t.Pieces[i]))
		}
	}
	slices.SortStableFunc(bodies, func(a, b body) int { return cmp.Compare(b.radius, a.radius) })
	rooms := fewRooms(t.rooms)
	apart := func(a, b body) bool {
		return !slices.ContainsFunc(rooms, func(r room) bool { return !r.excludes(a, b) })
	}
	best := HideClaim{Method: ByPairs}
	for start := range bodies {
		if ctx.Err() != nil || start >= 8 {
			break
		}
		n := 0
		var chosen []int
		var with []body
		for _, b := range bodies[start:] {
			if slices.ContainsFunc(with, func(o body) bool { return !apart(o, b) }) {
				continue
			}
			with, chosen = append(with, b), append(chosen, b.piece)
			if n++; b.count > 1 && apart(b, b) {
				n += b.count - 1
			}
		}
		if n > best.Hides {
			best.Hides, best.Pieces = n, chosen
		}
	}
	slices.Sort(best.Pieces)
	best.Hides = min(best.Hides, len(t.nets)+1)
	return best
}

// net2 is twice the area of a hide less its holes, at most too large: a hole
// counts only if it lies wholly inside and its box meets no box of another one
// that counts.
func (h *Hide) net2(work *int) geom.Int128 {
	net := h.Outer.TwiceArea().Abs()
	holes := slices.Clone(h.Holes)
	slices.SortStableFunc(holes, func(a, b geom.Ring) int { return b.TwiceArea().Abs().Cmp(a.TwiceArea().Abs()) })
	var boxes []geom.Box
	for _, o := range holes {
		b := o.Bounds()
		if slices.ContainsFunc(boxes, b.Overlaps) || !within(o, h.Outer, work) {
			continue
		}
		boxes = append(boxes, b)
		net = net.Sub(o.TwiceArea().Abs())
	}
	if net.Sign() < 0 { // only of an outline that crosses itself
		return geom.Int128{}
	}
	return net
}

// within reports whether a hole lies wholly inside an outline; out of work, not.
func within(hole, outer geom.Ring, work *int) bool {
	if *work -= len(hole) * len(outer); *work < 0 || outer.Locate(hole[0]) != geom.Inside {
		return false
	}
	for i, a := range hole {
		b := hole[(i+1)%len(hole)]
		for k, c := range outer {
			if meet(a, b, c, outer[(k+1)%len(outer)]) {
				return false
			}
		}
	}
	return true
}

// meet reports whether two closed segments share a point.
func meet(a, b, c, d geom.Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) || max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	return geom.Orient(a, b, c)*geom.Orient(a, b, d) <= 0 && geom.Orient(c, d, a)*geom.Orient(c, d, b) <= 0
}

// body is what pairs look at of a piece.
type body struct {
	piece, count int
	area2        geom.Int128
	radius       float64      // of a disc inside it
	cores        []geom.Point // width and height of a rectangle inside it, by way to lie; nil at any angle
}

func newBody(i int, p Piece) body {
	b := body{piece: i, count: p.Count, area2: p.leastArea2()}
	ways := p.Ways
	if p.AnyAngle {
		ways = ways[:1]
	}
	if len(ways) > mostWays {
		return b
	}
	b.radius = math.Inf(1)
	for _, w := range ways {
		b.radius = min(b.radius, float64(innerRadius(w.Ring)))
		if !p.AnyAngle {
			b.cores = append(b.cores, newShape(w.Ring, 0).core())
		}
	}
	return b
}

// core is the width and height, rounded down, of a rectangle inside the outline
// that is large both ways against its box.
func (s *shape) core() geom.Point {
	var best geom.Point
	score := 0.0
	n := max(0, len(s.level)-1)
	stride := max(1, n/64)
	for i := 0; i < n; i += stride {
		var both []slab
		for _, q := range s.slabs[s.first[i]:s.first[i+1]] {
			both = append(both, q.upright())
		}
		for k := i; k < n; k++ {
			if k > i {
				both = common(both, s.slabs[s.first[k]:s.first[k+1]])
			}
			h := s.level[k+1] - s.level[i]
			for _, q := range both {
				w := (q.r0 - q.l0) / sub
				if v := min(float64(w)/float64(s.box.Width()), float64(h)/float64(s.box.Height())); v > score {
					score, best = v, geom.Point{X: w, Y: h}
				}
			}
		}
	}
	return best
}

// room is what pairs look at of a hide: its net area and its extents in frames
// turned step by step; the first frame is upright.
type room struct {
	net2   geom.Int128
	frames [4][2]float64
}

// directions are 0, 22.5, 45 and 67.5 degrees and those square to them.
var directions = [4][2]float64{{1, 0}, {0.9238795325112867, 0.3826834323650898}, {0.7071067811865476, 0.7071067811865476}, {0.3826834323650898, 0.9238795325112867}}

func newRoom(r geom.Ring, net2 geom.Int128) room {
	out := room{net2: net2}
	for i, d := range directions {
		for k, u := range [2][2]float64{d, {-d[1], d[0]}} {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, q := range r {
				v := float64(float64(q.X-r[0].X)*u[0]) + float64(float64(q.Y-r[0].Y)*u[1])
				lo, hi = min(lo, v), max(hi, v)
			}
			out.frames[i][k] = (hi - lo) * (1 + margin)
		}
	}
	b := r.Bounds()
	out.frames[0] = [2]float64{float64(b.Width()), float64(b.Height())}
	return out
}

// fewRooms joins rooms beyond the first: what fits in no room as large as all of
// them fits in none of them.
func fewRooms(rooms []room) []room {
	if len(rooms) <= mostPairs {
		return rooms
	}
	all := rooms[0]
	for _, r := range rooms {
		if r.net2.Cmp(all.net2) > 0 {
			all.net2 = r.net2
		}
		for i, f := range r.frames {
			all.frames[i] = [2]float64{max(all.frames[i][0], f[0]), max(all.frames[i][1], f[1])}
		}
	}
	return []room{all}
}

// excludes reports whether two pieces surely do not lie on one hide together:
//
//   - their areas sum to more than its net area; or
//   - discs of radius r and s inside them do not both fit into the box around
//     it, seen in some frame of w by h: their centres lie in it at most
//     w - r - s by h - r - s apart, and at least r + s from each other; or
//   - rectangles inside them, a by b and c by d, do not both fit into that box
//     upright, for all ways to lie: two rectangles that do not overlap are
//     apart in X or in Y, so a + c <= w or b + d <= h.
func (r room) excludes(a, b body) bool {
	if a.area2.Add(b.area2).Cmp(r.net2) > 0 {
		return true
	}
	sum := a.radius + b.radius
	for _, f := range r.frames {
		if geom.Hypot(max(0, f[0]-sum), max(0, f[1]-sum)) < sum*(1-margin) {
			return true
		}
	}
	if a.cores == nil || b.cores == nil {
		return false
	}
	for _, p := range a.cores {
		for _, q := range b.cores {
			if float64(p.X+q.X) <= r.frames[0][0] || float64(p.Y+q.Y) <= r.frames[0][1] {
				return false
			}
		}
	}
	return true
}
