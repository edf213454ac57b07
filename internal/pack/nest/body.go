package nest

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"github.com/coverwright/coverwright/internal/geom"
)

// body is a piece prepared for free turning: a distance map, samples and
// radii about its centre.
type body struct {
	piece  int
	ring   geom.Ring
	centre geom.Point
	f      *field
	discs  []disc  // the largest circle first; relative to centre
	groups []group // of the other samples
	radius float64
	reach  float64 // farthest point of the outline from the first disc
	inner  float64 // radius of the first disc
	size   float64
	area2  int64
	class  int // of the pieces that take the same kinds of zones
	turn   Turn
	mirror Mirroring
	roomy  bool
	nodes  int // of the map, along the longer side
}

func newBody(pi int, p *Piece) *body {
	b := &body{piece: pi, ring: p.Ring, turn: p.Turn, mirror: p.Mirror, area2: twiceArea(p.Ring), roomy: roomy(p.Ring)}
	bx := p.Ring.Bounds()
	b.centre = geom.Pt((bx.Min.X+bx.Max.X)/2, (bx.Min.Y+bx.Max.Y)/2)
	return b
}

// fineness is how many nodes the map of the body wants along its longer side.
func (b *body) fineness() int {
	bx := b.ring.Bounds()
	span := float64(max(bx.Max.X-bx.Min.X, bx.Max.Y-bx.Min.Y))
	// Half the mean width says how fine the map must be.
	return int(min(max(6*span*b.ring.Perimeter()/float64(b.area2), 80), 400))
}

// prepare makes the map and the samples, with that many nodes along the longer
// side. It returns the steps it took.
func (b *body) prepare(nodes int) int64 {
	local := b.ring.Translate(geom.Pt(-b.centre.X, -b.centre.Y))
	bx := local.Bounds()
	span := float64(max(bx.Max.X-bx.Min.X, bx.Max.Y-bx.Min.Y))
	width := float64(b.area2) / local.Perimeter() // it takes more circles to fill a narrow piece
	circles := int(min(max(4+span/width, 12), 40))
	b.f = newField(bx, max(span*0.03, 3*span/float64(nodes)), nodes, ringEdges(local), func(f *field) []bool { return f.filled(local) })
	b.discs = samples(b.f, local, circles, 40, span/1500)
	b.groups = grouped(b.discs)
	first := b.discs[0]
	b.inner = first.r
	b.radius, b.reach = 0, 0
	for _, q := range local {
		b.radius = max(b.radius, geom.Hypot(float64(q.X), float64(q.Y)))
		b.reach = max(b.reach, geom.Hypot(float64(q.X)-first.x, float64(q.Y)-first.y))
	}
	if b.inner == 0 { // too thin for the map: a sliver
		b.inner = math.Sqrt(float64(b.area2)) / 8
	}
	b.size = math.Sqrt(math.Sqrt(float64(twiceArea(geom.Hull(local)))))
	return int64(len(b.f.v)) * bodyNodeWork
}

// nodeWork is the steps that a node of a map takes to find its nearest edge, and
// bodyNodeWork with its share of the search for circles.
const (
	nodeWork     = 2
	bodyNodeWork = 5
)

// group is a run of samples that lie close together.
type group struct {
	from, to int
	round    disc    // holds all of them
	far      float64 // farthest reach from the middle of the first sample
}

// grouped sorts the samples after the first into groups of up to six, by
// halving the set across its longer side.
func grouped(discs []disc) []group {
	var out []group
	var halve func(from, to int)
	halve = func(from, to int) {
		if to <= from {
			return
		}
		set := discs[from:to]
		x0, x1, y0, y1 := set[0].x, set[0].x, set[0].y, set[0].y
		for _, d := range set {
			x0, x1 = min(x0, d.x), max(x1, d.x)
			y0, y1 = min(y0, d.y), max(y1, d.y)
		}
		if len(set) <= 6 {
			g := group{from: from, to: to, round: disc{x: (x0 + x1) / 2, y: (y0 + y1) / 2}}
			for _, d := range set {
				g.round.r = max(g.round.r, geom.Hypot(d.x-g.round.x, d.y-g.round.y)+d.r)
				g.far = max(g.far, geom.Hypot(d.x-discs[0].x, d.y-discs[0].y)+d.r)
			}
			out = append(out, g)
			return
		}
		wide := x1-x0 > y1-y0
		slices.SortStableFunc(set, func(a, b disc) int {
			if wide {
				return cmp.Compare(a.x, b.x)
			}
			return cmp.Compare(a.y, b.y)
		})
		mid := (from + to) / 2
		halve(from, mid)
		halve(mid, to)
	}
	halve(1, len(discs))
	return out
}

// ringAt is the outline with its centre at (x, y).
func (b *body) ringAt(x, y int64, a Angle, mirrored bool) (geom.Ring, geom.Point) {
	c := turned(geom.Ring{b.centre}, a, mirrored)[0]
	at := geom.Pt(x-c.X, y-c.Y)
	return turned(b.ring, a, mirrored).Translate(at), at
}

// keeps reports whether the outline is still simple once turned by a and
// rounded to ring.
func (b *body) keeps(ring geom.Ring, a Angle) bool {
	return b.roomy || a%(90*Degree) == 0 || whole(ring)
}

// feature is a hole or a zone that blocks a class of pieces.
type feature struct {
	x, y, radius float64
	discs        []disc // absolute
	parts        []feature
}

// rimOf cuts the corners of an outline into short stretches and those into
// longer ones: points of the outline that stick into a straight edge of a
// piece, where no sample of the piece is near.
func rimOf(r geom.Ring, tol float64) []feature {
	const most = 8
	keep := coarse(r, tol)
	var short, long []feature
	for at := 0; at < len(keep); at += most {
		ft := feature{}
		for _, i := range keep[at:min(at+most, len(keep))] {
			ft.discs = append(ft.discs, disc{float64(r[i].X), float64(r[i].Y), 0})
		}
		ft.enclose()
		short = append(short, ft)
	}
	for at := 0; at < len(short); at += most {
		ft := feature{parts: short[at:min(at+most, len(short))]}
		for _, p := range ft.parts {
			ft.discs = append(ft.discs, p.discs...)
		}
		ft.enclose()
		ft.discs = nil
		long = append(long, ft)
	}
	return long
}

// enclose sets the circle about the samples.
func (ft *feature) enclose() {
	x0, x1, y0, y1 := ft.discs[0].x, ft.discs[0].x, ft.discs[0].y, ft.discs[0].y
	for _, d := range ft.discs {
		x0, x1 = min(x0, d.x), max(x1, d.x)
		y0, y1 = min(y0, d.y), max(y1, d.y)
	}
	ft.x, ft.y = (x0+x1)/2, (y0+y1)/2
	for _, d := range ft.discs {
		ft.radius = max(ft.radius, geom.Hypot(d.x-ft.x, d.y-ft.y)+d.r)
	}
}

// land is a container as one class of pieces sees it: the map is above 0
// where it is blocked.
type land struct {
	work     int64 // steps it took
	f        *field
	features []feature
	rim      []feature // stretches of the outline, each with shorter ones
}

// ground is one container of the search.
type ground struct {
	hide  int
	outer geom.Ring
	holes []geom.Ring
	zones []Zone
	box   geom.Box
	net2  int64 // twice the outline less the holes
	lands []*land
	once  []sync.Once
	kinds []Kinds // that the pieces of a class take
	plain bool    // a rectangle: no map needed
	nodes int     // of a map, along the longer side
	again bool    // like the ground before: they share maps
}

func (g *ground) blocked(class int) []geom.Ring {
	out := append([]geom.Ring(nil), g.holes...)
	for _, z := range g.zones {
		if !g.kinds[class].Has(z.Kind) {
			out = append(out, z.Ring)
		}
	}
	return out
}

// like tells whether another ground has the same border, holes and zones.
func (g *ground) like(o *ground) bool {
	return slices.Equal(g.outer, o.outer) &&
		slices.EqualFunc(g.holes, o.holes, slices.Equal) &&
		slices.EqualFunc(g.zones, o.zones, func(a, b Zone) bool { return a.Kind == b.Kind && slices.Equal(a.Ring, b.Ring) })
}

// land returns the map for a class, built when first asked for. Grounds that are
// like each other share it.
func (g *ground) land(class int) *land {
	g.once[class].Do(func() {
		l := &land{}
		bad := g.blocked(class)
		if g.plain && len(bad) == 0 {
			g.lands[class] = l
			return
		}
		edges := ringEdges(append([]geom.Ring{g.outer}, bad...)...)
		span := float64(max(g.box.Max.X-g.box.Min.X, g.box.Max.Y-g.box.Min.Y))
		l.f = newField(g.box, span*0.02, g.nodes, edges, func(f *field) []bool {
			in := f.filled(g.outer)
			for i, v := range in {
				in[i] = !v
			}
			for _, r := range bad {
				for i, v := range f.filled(r) {
					if v {
						in[i] = true
					}
				}
			}
			return in
		})
		l.work = int64(len(l.f.v)) * nodeWork
		if !g.plain {
			l.rim = rimOf(g.outer, span/4000)
		}
		for _, r := range bad {
			b := r.Bounds()
			cx, cy := (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2
			ft := feature{x: float64(cx), y: float64(cy)}
			for _, p := range r {
				ft.radius = max(ft.radius, geom.Hypot(float64(p.X-cx), float64(p.Y-cy)))
			}
			local := r.Translate(geom.Pt(-cx, -cy))
			l.work += 24 * 24 * nodeWork
			f := newField(local.Bounds(), ft.radius*0.1, 24, ringEdges(local), func(f *field) []bool { return f.filled(local) })
			for _, d := range samples(f, local, 6, 16, ft.radius/50) {
				ft.discs = append(ft.discs, disc{d.x + ft.x, d.y + ft.y, d.r})
			}
			l.features = append(l.features, ft)
		}
		g.lands[class] = l
	})
	return g.lands[class]
}

// touches is the engine's own strict test of whole-number outlines: it
// calls touching, or coming within gap, a collision. The referee of
// package verify has the last word.
func touches(a, b geom.Ring, gap int64) bool {
	ba, bb := a.Bounds(), b.Bounds()
	if ba.Max.X+gap < bb.Min.X || bb.Max.X+gap < ba.Min.X || ba.Max.Y+gap < bb.Min.Y || bb.Max.Y+gap < ba.Min.Y {
		return false
	}
	if meets(a, b) {
		return true
	}
	if b.Locate(a[0]) == geom.Inside || a.Locate(b[0]) == geom.Inside {
		return true
	}
	if gap > 0 {
		lim := float64(gap+1) * float64(gap+1)
		for range 2 {
			for _, p := range a {
				for j := range b {
					e := straightOf([2]geom.Point{b[j], b[(j+1)%len(b)]})
					if e.dist2(float64(p.X), float64(p.Y)) < lim {
						return true
					}
				}
			}
			a, b = b, a
		}
	}
	return false
}

// meets reports edges with a common point.
func meets(a, b geom.Ring) bool {
	if len(b) < len(a) {
		a, b = b, a
	}
	ba := a.Bounds()
	for j, u := range b { // the longer ring once, against the box of the other
		v := b[(j+1)%len(b)]
		x0, x1 := min(u.X, v.X), max(u.X, v.X)
		if x1 < ba.Min.X || x0 > ba.Max.X {
			continue
		}
		y0, y1 := min(u.Y, v.Y), max(u.Y, v.Y)
		if y1 < ba.Min.Y || y0 > ba.Max.Y {
			continue
		}
		p := a[len(a)-1]
		for _, q := range a {
			if max(p.X, q.X) >= x0 && min(p.X, q.X) <= x1 && max(p.Y, q.Y) >= y0 && min(p.Y, q.Y) <= y1 &&
				cmp.Compare(orient(p, q, u), 0)*cmp.Compare(orient(p, q, v), 0) <= 0 && cmp.Compare(orient(u, v, p), 0)*cmp.Compare(orient(u, v, q), 0) <= 0 {
				return true
			}
			p = q
		}
	}
	return false
}

// takes reports that the outline lies inside the ground, clear of its
// border and of what is blocked for the class.
func (g *ground) takes(r geom.Ring, class int) bool {
	b := r.Bounds()
	if b.Min.X < g.box.Min.X || b.Min.Y < g.box.Min.Y || b.Max.X > g.box.Max.X || b.Max.Y > g.box.Max.Y {
		return false
	}
	if !g.plain && (meets(r, g.outer) || g.outer.Locate(r[0]) != geom.Inside) {
		return false
	}
	for _, h := range g.holes {
		if touches(r, h, 0) {
			return false
		}
	}
	for _, z := range g.zones {
		if !g.kinds[class].Has(z.Kind) && touches(r, z.Ring, 0) {
			return false
		}
	}
	return true
}
