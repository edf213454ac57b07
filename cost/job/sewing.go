package job

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

const mostRows = 100

// sewing picks thread, needle and stitch for each kind of goods that is sewn,
// and adds up the thread its seams take.
func (b *builder) sewing() {
	s := b.spec.Sewing
	waste := unit.Ratio(0.15)
	if s.Waste != nil {
		waste = *s.Waste
	}
	if err := check.Ratio("sewing.waste", waste, 0, 1); err != nil {
		b.fail("", err)
		return
	}
	tail := 3 * unit.Inch
	if s.Tail != nil {
		tail = *s.Tail
	}
	if err := check.Length("sewing.tail", tail, 0, 500*unit.Millimetre); err != nil {
		b.fail("", err)
		return
	}
	if s.Bobbin != 0 {
		if err := check.Length("sewing.bobbin", s.Bobbin, unit.Metre, check.Longest); err != nil {
			b.fail("", err)
			return
		}
	}
	stitch := thread.Lockstitch301
	if s.Stitch != nil {
		stitch = *s.Stitch
	}
	for _, g := range b.goods {
		out := Stitching{Goods: g.ID, Waste: waste, Kind: cite.Estimate}
		var seams []seam
		for _, x := range b.seams {
			if x.goods == g.ID {
				seams = append(seams, x)
				out.Layers = max(out.Layers, x.layers)
			}
		}
		if len(seams) == 0 {
			continue
		}
		req := thread.Need{Goods: g.Material, Layers: out.Layers}
		if s.Size != nil {
			req.Size = *s.Size
		}
		if s.Fibre != nil {
			req.Fibre = *s.Fibre
		}
		advice, err := thread.Recommend(req)
		if err != nil {
			b.fail("sewing", err)
			return
		}
		out.Pick = advice.Best()
		out.SizeGiven = s.Size != nil
		w := thread.Sewing{Tail: tail, Waste: waste, Bobbin: s.Bobbin}
		if s.Cone != 0 {
			if w.Cone, err = thread.ConeLength(out.Pick.Thread.Size, s.Cone); err != nil {
				b.failAs("sewing.cone", err)
				return
			}
		}
		for _, x := range seams {
			// A seam of package thread has so many rows at most.
			for rows := x.rows; rows > 0; rows -= mostRows {
				one := thread.Seam{Name: x.name, Length: x.length, Thickness: g.thickness() * unit.Length(x.layers),
					Stitch: stitch, StitchLength: out.Pick.StitchLength, Rows: min(rows, mostRows)}
				u, err := thread.Consume(one)
				if err != nil {
					b.fail("sewing", err)
					return
				}
				out.Basis = u.Basis
				w.Seams = append(w.Seams, one)
			}
			out.Seams += x.length * unit.Length(x.rows) // seams of at most 1 km, counts of at most a million
		}
		if out.Thread, err = thread.Total(w); err != nil {
			b.fail("sewing", err)
			return
		}
		b.out.Sewing = append(b.out.Sewing, out)
	}
}
