package made

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// Cut gives the pieces of the boxing and where they are joined. With P the
// perimeter, W the back, r the turn of the zip panel round each back corner, s the
// seam allowance, z that along the zip, o the lap of a pocket, T the depth and n
// pieces of boxing:
//
//	opening  Z = W + 2 r
//	main     M = P - Z
//	width      = T + 2 s
//	length     = M + 2 s n + 4 o
//	zip halves = (Z + 2 s) × (T / 2 + s + z)
//	tape       = Z + 2 s
//
// A zip panel without a length of its own turns 3 in round each back corner, of a
// depth over 5 in T / 2 + 1 in, never past the middle of a side; without corners,
// and where the back runs round into the sides, it is half the girth, off the
// corners of the front. Where the goods are too short for one piece:
//
//   - a front longer than they are wide is cut along them, unless they are
//     directed; else it is divided evenly
//   - pieces of a front that must match leave the repeat of the goods to be moved by
//   - the zip panel is made longer, up to the middle of each side, so that one
//     piece is left
//   - the pieces are joined at the back corners, then at others, never in the
//     front; off the corners by 2 in at least, alike on both sides, every piece as
//     long as Least; where that cannot be, in the front, and at last near a corner
//
// All of this is common practice. The error at goods says what strips would do.
//
// Drawing: allowance/doc/boxing.svg
func (b Boxing) Cut(g Goods) (BoxingCut, error) {
	if err := b.check(); err != nil {
		return BoxingCut{}, err
	}
	s, zip, least, err := b.seams()
	if err != nil {
		return BoxingCut{}, err
	}
	for _, l := range []unit.Length{g.Across, g.Along} {
		if err := check.Length("goods", l, 0, check.Longest); err != nil {
			return BoxingCut{}, err
		}
	}
	z, err := b.opening()
	if err != nil {
		return BoxingCut{}, err
	}
	r := ring{Boxing: b, most: reach(g.Across, s), least: least}
	var c BoxingCut
	widest := r.most
	from, to := b.front()
	if b.Match && r.most < noLimit {
		r.most = max(min(r.most, to-from), r.most-g.Repeat)
	}
	if along := reach(g.Along, s); !g.Directed && along > r.most && min(to, b.Perimeter-z/2)-max(from, z/2) > r.most {
		r.most, c.Along = along, true
	}
	pieces, z, ok := r.plan(z)
	if along := reach(g.Along, s); !ok && !g.Directed && along > r.most {
		r.most, c.Along = along, true
		pieces, z, ok = r.plan(z)
	}
	if !ok {
		return BoxingCut{}, check.Refuse("goods", reached(r.most, s).String(), unit.ErrRange,
			"strips of at least "+onTape(r.remedy(z)+2*s, unit.Up, b.Depth, g.Across).String()+", or a smaller least piece than "+least.String())
	}
	c.Main, c.Opening, c.Width = b.Perimeter-z, z, b.Depth+2*s
	if w, _, _ := b.back(); w > 0 && z > w {
		c.Turn = (z - w) / 2
	}
	c.Pieces, c.Joins = r.named(pieces, s), r.joined(pieces)
	if z > 0 {
		c.Tape, c.Zips = z+2*s, (b.Depth+1)/2+s+zip
		zipMost := max(widest, r.most)
		if !g.Directed {
			zipMost = max(zipMost, reach(g.Along, s))
		}
		at := -(z - z/2)
		for i, l := range share(z, int(nano.CeilDiv(z, max(zipMost, unit.Centimetre)))) {
			c.ZipPieces = append(c.ZipPieces, BoxingPiece{"zip panel " + strconv.Itoa(i+1), at, at + l, l + 2*s, b.covered(at, at+l)})
			at += l
		}
		if len(c.ZipPieces) == 1 {
			c.ZipPieces[0].Name = "zip panel"
		}
	}
	return c, c.measure()
}

// reached gives the strip of a finished piece; zero without limit.
func reached(most, s unit.Length) unit.Length {
	if most == noLimit {
		return 0
	}
	return most + 2*s
}

// measure adds up lengths and areas.
func (c *BoxingCut) measure() error {
	for _, p := range c.Pieces {
		c.Length += p.Cut
	}
	zips := unit.Length(0)
	for _, p := range c.ZipPieces {
		zips += 2 * p.Cut
	}
	a, err := c.Width.By(c.Length)
	if err != nil {
		return unit.InField("area", err)
	}
	z, err := c.Zips.By(zips)
	if err != nil {
		return unit.InField("area", err)
	}
	c.Area, err = a.Plus(z)
	return unit.InField("area", err)
}

// Strips gives the pieces to cut, equal neighbours together.
func (c BoxingCut) Strips() []Strip {
	cut := func(ps []BoxingPiece, times int) []unit.Length {
		var out []unit.Length
		for _, p := range ps {
			for range times {
				out = append(out, p.Cut)
			}
		}
		slices.Sort(out)
		slices.Reverse(out)
		return out
	}
	return append(grouped("boxing", c.Width, cut(c.Pieces, 1)), grouped("zip panel", c.Zips, cut(c.ZipPieces, 2))...)
}

// ring is a boxing with the longest and the least finished piece.
type ring struct {
	Boxing
	most, least unit.Length
}

// stretch is a piece of the ring, its ends on it.
type stretch struct{ from, to unit.Length }

// plan gives the pieces beside the zip panel, which may be made longer.
func (r ring) plan(z unit.Length) ([]stretch, unit.Length, bool) {
	p := r.Perimeter
	w, left, right := r.back()
	if !r.Zip {
		ps, ok := r.closed(w)
		return ps, 0, ok
	}
	main := func(z unit.Length) (unit.Length, unit.Length) { return z / 2, p - (z - z/2) }
	one := r.most - 4*r.Pocket
	if p-z <= one {
		a, b := main(z)
		return []stretch{{a, b}}, z, true
	}
	longer := p-one-w <= min(left, right) && r.turn() > 0
	if r.rounded() {
		longer = p-one <= w-2*clearCorner
	}
	if r.ZipLength == 0 && w > 0 && one > 0 && longer {
		a, b := main(p - one)
		return []stretch{{a, b}}, p - one, true
	}
	a, b := main(z)
	ps, ok := r.between(a, b, 2*r.Pocket)
	return ps, z, ok
}

// closed gives the pieces of a ring without a zip: joined at a back corner, or in
// the middle of the back where there is none.
func (r ring) closed(w unit.Length) ([]stretch, bool) {
	p := r.Perimeter
	switch {
	case (w == 0 || r.rounded()) && p <= r.most:
		return []stretch{{0, p}}, true
	case w == 0:
		return r.evenly()
	case r.rounded():
		return r.between(0, p, 0)
	}
	first := r.Corners[0].At
	if p <= r.most {
		return []stretch{{first, first + p}}, true
	}
	if w <= r.most && w >= r.least {
		ps, ok := r.between(first, first+p-w, 0)
		return append(ps, stretch{first + p - w, first + p}), ok
	}
	return r.between(first, first+p, 0)
}

// evenly divides a ring without corners into equal pieces, one of them over the
// middle of the front.
func (r ring) evenly() ([]stretch, bool) {
	p := r.Perimeter
	if r.most < r.least || p/r.most >= mostBoxing {
		return nil, false
	}
	n := int(nano.CeilDiv(p, r.most))
	if p/unit.Length(n) < r.least {
		return nil, false
	}
	at := unit.Length(0)
	if n%2 == 0 {
		at = p / unit.Length(2*n)
	}
	var out []stretch
	for _, l := range share(p, n) {
		out = append(out, stretch{at, at + l})
		at += l
	}
	return out, true
}

// remedy gives the shortest reach with which the pieces fit, near enough.
func (r ring) remedy(z unit.Length) unit.Length {
	for l := max(2*r.least, r.most); l < r.Perimeter; l += max(l/8, unit.Inch) {
		r.most = l
		if _, _, ok := r.plan(z); ok {
			return l
		}
	}
	return r.Perimeter
}

// named names the pieces and gives their cut lengths.
func (r ring) named(ps []stretch, s unit.Length) []BoxingPiece {
	from, to := r.front()
	half := r.Perimeter / 2
	kind := func(p stretch) string {
		switch {
		case len(ps) == 1:
			return "boxing"
		case p.from < half && half < p.to || p.from >= from-same && p.to <= to+same:
			return "boxing front"
		case p.from < r.Perimeter && r.Perimeter < p.to:
			return "boxing back"
		}
		return "boxing side"
	}
	of, seen := map[string]int{}, map[string]int{}
	for _, p := range ps {
		of[kind(p)]++
	}
	out := make([]BoxingPiece, len(ps))
	for i, p := range ps {
		k := kind(p)
		out[i] = BoxingPiece{Name: numbered(k, seen[k], of[k]), From: p.from, To: p.to, Cut: p.to - p.from + 2*s, Corners: r.covered(p.from, p.to)}
		seen[k]++
		if i == 0 {
			out[i].Cut += 2 * r.Pocket
		}
		if i == len(ps)-1 {
			out[i].Cut += 2 * r.Pocket
		}
	}
	return out
}

// covered lists the corners between two places by how far they lie from the first.
func (b Boxing) covered(from, to unit.Length) []RingCorner {
	var out []RingCorner
	for _, turn := range []unit.Length{-b.Perimeter, 0, b.Perimeter} {
		for i, c := range b.Corners {
			if in := c.At + turn - from; in > same && in < to-from-same {
				if c.Name == "" {
					c.Name = strconv.Itoa(i + 1)
				}
				out = append(out, RingCorner{c.Name, in})
			}
		}
	}
	return out
}

// joined says where the joins are.
func (r ring) joined(ps []stretch) []BoxingJoin {
	var at []unit.Length
	for _, p := range ps {
		at = append(at, p.from)
	}
	if r.Zip {
		at = append(at, ps[len(ps)-1].to)
	}
	from, to := r.front()
	var out []BoxingJoin
	for _, a := range at {
		a %= r.Perimeter
		j := BoxingJoin{At: a, Front: from < a && a < to}
		for i, c := range r.Corners {
			d := a - c.At
			if d > r.Perimeter/2 {
				d -= r.Perimeter
			} else if d < -r.Perimeter/2 {
				d += r.Perimeter
			}
			if i == 0 || max(d, -d) < max(j.Beyond, -j.Beyond) {
				j.Corner, j.Beyond = c.Name, d
				if j.Corner == "" {
					j.Corner = strconv.Itoa(i + 1)
				}
			}
		}
		if max(j.Beyond, -j.Beyond) < unit.Micrometre {
			j.Beyond = 0
		}
		out = append(out, j)
	}
	slices.SortFunc(out, func(x, y BoxingJoin) int { return cmp.Compare(x.At, y.At) })
	return out
}
