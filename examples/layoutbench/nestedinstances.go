package main

import (
	"fmt"
	"math"
	"math/rand/v2"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
)

// halfTurn allows a piece as it is drawn and upside down, as on goods with a grain.
var halfTurn = nest.TurnSet(0, 180*nest.Degree)

// ownStrip is an instance of our own on a strip.
type ownStrip struct {
	name string
	best float64 // density that is known to be possible, 0 where none is
	job  nest.StripJob
}

// ownHides is one on hides.
type ownHides struct {
	name string
	job  nest.HideJob
}

// ownStrips are the instances on strips, in tenths of a millimetre.
func ownStrips() []ownStrip {
	out := []ownStrip{
		{name: "smooth-30", job: smooth(30, 0.12, 11)},
		{name: "smooth-60", job: smooth(60, 0.12, 12)},
		{name: "bent-24", job: smooth(24, 0.38, 13)},
		{name: "bent-48", job: smooth(48, 0.38, 14)},
		{name: "shop-36", job: shopJob(36, 21)},
		{name: "shop-90", job: shopJob(90, 22)},
	}
	for _, n := range []int{10, 16, 24} {
		out = append(out, ownStrip{name: fmt.Sprintf("jigsaw-%d", n), best: 1, job: jigsaw(n, uint64(30+n))})
	}
	return out
}

// wavy is a closed smooth outline of up to 36 corners about a middle; amount is how
// far it may leave the ellipse.
func wavy(r *rand.Rand, a, b, amount float64) geom.Ring {
	const corners = 36
	var amp, phase [4]float64
	for k := range amp {
		amp[k] = amount * r.Float64() / float64(1+k/2)
		phase[k] = 2 * math.Pi * r.Float64()
	}
	out := make(geom.Ring, corners)
	for i := range out {
		t := 2 * math.Pi * float64(i) / corners
		f := 1.0
		for k := range amp {
			f += float64(amp[k] * math.Sin(float64(float64(k+2)*t)+phase[k]))
		}
		f = max(f, 0.25)
		out[i] = geom.Pt(int64(float64(a*f)*math.Cos(t)), int64(float64(b*f)*math.Sin(t)))
	}
	return out
}

// smooth is a strip of different smooth outlines.
func smooth(n int, amount float64, seed uint64) nest.StripJob {
	r := rand.New(rand.NewPCG(seed, 1))
	job := nest.StripJob{Width: 14_000}
	for i := range n {
		ring := wavy(r, 800+2200*r.Float64(), 800+1800*r.Float64(), amount)
		job.Pieces = append(job.Pieces, nest.Piece{ID: fmt.Sprint(i), Ring: ring, Turn: halfTurn})
	}
	return job
}

// shopJob is what a shop lays on plain goods of 54 in: half of it rectangles such as
// borders and plates, the rest crowned backs, tapered seats and arms with a curve.
func shopJob(n int, seed uint64) nest.StripJob {
	r := rand.New(rand.NewPCG(seed, 2))
	job := nest.StripJob{Width: 13_716}
	between := func(a, b int64) int64 { return a + r.Int64N(b-a+1) }
	for left := n; left > 0; {
		count := min(left, []int{1, 2, 2, 4}[r.IntN(4)])
		var ring geom.Ring
		switch w, h := between(3000, 7600), between(3000, 7600); {
		case left*2 > n && r.IntN(2) == 0:
			ring = geom.Box{Max: geom.Pt(w, between(1000, 1800))}.Ring()
		case left*2 > n:
			ring = geom.Box{Max: geom.Pt(w, h)}.Ring()
		case r.IntN(3) == 0: // tapered
			d := between(200, 900)
			ring = geom.Ring{geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w-d, h), geom.Pt(d, h)}
		case r.IntN(2) == 0: // crowned
			ring = geom.Ring{geom.Pt(0, 0), geom.Pt(w, 0)}
			rise := between(300, 1500)
			for k := int64(12); k >= 0; k-- {
				ring = append(ring, geom.Pt(w*k/12, h+rise*4*k*(12-k)/144))
			}
		default: // an arm: high in front, hollow behind
			ring = geom.Ring{geom.Pt(0, 0), geom.Pt(w, 0)}
			for k := range int64(11) {
				ring = append(ring, geom.Pt(w-w*k/10, h/2+h/2*k*k/100))
			}
		}
		job.Pieces = append(job.Pieces, nest.Piece{ID: fmt.Sprint(len(job.Pieces)), Ring: ring, Count: count, Turn: halfTurn})
		left -= count
	}
	return job
}

// jigsaw is a square cut by straight cuts: without waste it is as long as wide.
func jigsaw(n int, seed uint64) nest.StripJob {
	const side = 1 << 14
	r := rand.New(rand.NewPCG(seed, 3))
	parts := []geom.Ring{geom.Box{Max: geom.Pt(side, side)}.Ring()}
	for len(parts) < n {
		k := 0 // the largest
		for i := range parts {
			if parts[i].TwiceArea().Cmp(parts[k].TwiceArea()) > 0 {
				k = i
			}
		}
		if one, two, ok := cutInTwo(r, parts[k]); ok {
			parts[k] = one
			parts = append(parts, two)
		}
	}
	job := nest.StripJob{Width: side}
	for i, p := range parts {
		job.Pieces = append(job.Pieces, nest.Piece{ID: fmt.Sprint(i), Ring: p})
	}
	return job
}

// cutInTwo cuts a ring between whole points of two of its sides.
func cutInTwo(r *rand.Rand, p geom.Ring) (one, two geom.Ring, ok bool) {
	i, j := r.IntN(len(p)), r.IntN(len(p))
	if i == j {
		return nil, nil, false
	}
	on := func(i int) (geom.Point, bool) {
		a, b := p[i], p[(i+1)%len(p)]
		t := 1 + r.Int64N(3)
		return geom.Pt(a.X+(b.X-a.X)/4*t, a.Y+(b.Y-a.Y)/4*t), (b.X-a.X)%4 == 0 && (b.Y-a.Y)%4 == 0
	}
	a, okA := on(i)
	b, okB := on(j)
	if !okA || !okB {
		return nil, nil, false
	}
	around := func(from, to int, start, end geom.Point) geom.Ring {
		out := geom.Ring{start}
		for q := (from + 1) % len(p); q != (to+1)%len(p); q = (q + 1) % len(p) {
			out = append(out, p[q])
		}
		return append(out, end).Tidy()
	}
	one, two = around(i, j, a, b), around(j, i, b, a)
	if len(one) < 3 || len(two) < 3 {
		return nil, nil, false
	}
	x, y := one.TwiceArea().Int64(), two.TwiceArea().Int64()
	return one, two, x > 0 && y > 0 && x < 4*y && y < 4*x && x+y == p.TwiceArea().Int64()
}

// ownHideJobs are the instances on hides, in tenths of a millimetre.
func ownHideJobs() []ownHides {
	var out []ownHides
	for k, n := range []int{24, 36, 48, 60} {
		out = append(out, ownHides{fmt.Sprintf("hides-%d", n), hidesOf(n, uint64(41+k))})
	}
	return out
}

// hidesOf is a dozen hides of about 4.6 m2 with legs, a neck, holes and a poorer
// edge, and panels that turn freely, some of which take the edge.
func hidesOf(n int, seed uint64) nest.HideJob {
	r := rand.New(rand.NewPCG(seed, 4))
	var job nest.HideJob
	for h := range 12 {
		job.Hides = append(job.Hides, ownHide(r, fmt.Sprint("H", h+1)))
	}
	for i := range n {
		var ring geom.Ring
		if i%3 == 0 {
			ring = geom.Box{Max: geom.Pt(2500+r.Int64N(4000), 900+r.Int64N(3000))}.Ring()
		} else {
			ring = wavy(r, 1200+2300*r.Float64(), 1000+1800*r.Float64(), 0.15)
		}
		p := nest.Piece{ID: fmt.Sprint(i), Ring: ring, Turn: nest.TurnAny()}
		if i%4 == 0 {
			p.Takes = nest.KindsOf(0)
		}
		job.Pieces = append(job.Pieces, p)
	}
	return job
}

// ownHide is one hide: a trunk with four legs and a neck, drawn round its middle.
func ownHide(r *rand.Rand, id string) nest.Hide {
	const corners = 120
	size := 0.94 + 0.12*r.Float64()
	h := nest.Hide{ID: id}
	at := func(t, f float64) geom.Point {
		return geom.Pt(int64(float64(12_000*size*f)*math.Cos(t)), int64(float64(10_500*size*f)*math.Sin(t)))
	}
	bump := func(t, mid, wide, high float64) float64 {
		d := math.Abs(math.Remainder(t-mid, 2*math.Pi)) / wide
		return high * math.Exp(-float64(d*d))
	}
	wobble := 2 * math.Pi * r.Float64()
	edge := func(t float64) float64 {
		return 0.92 + float64(0.03*math.Sin(float64(5*t)+wobble)) + bump(t, 0, 0.25, 0.3) + bump(t, 0.75, 0.14, 0.35) + bump(t, -0.75, 0.14, 0.35) + bump(t, 2.4, 0.16, 0.3) + bump(t, -2.4, 0.16, 0.3)
	}
	var inner geom.Ring
	for k := range corners {
		t := 2 * math.Pi * float64(k) / corners
		h.Outer = append(h.Outer, at(t, edge(t)))
	}
	// The flank of one side is poorer.
	for k := range 13 {
		t := 1.1 + 0.9*float64(k)/12
		inner = append(inner, at(t, 0.62))
	}
	var zone geom.Ring
	for k := range 13 {
		t := 1.1 + 0.9*float64(k)/12
		zone = append(zone, at(t, edge(t)*0.97))
	}
	for k := len(inner) - 1; k >= 0; k-- {
		zone = append(zone, inner[k])
	}
	h.Zones = []nest.Zone{{Kind: 0, Ring: zone}}
	for range 3 + r.IntN(6) {
		mid := at(2*math.Pi*r.Float64(), 0.75*math.Sqrt(r.Float64()))
		h.Holes = append(h.Holes, wavy(r, 60+240*r.Float64(), 60+240*r.Float64(), 0.1).Translate(mid))
	}
	return h
}
