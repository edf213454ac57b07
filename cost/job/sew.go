package job

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// mostRows bounds the rows of one seam of package thread.
const mostRows = 100

// sew picks thread, needle and stitch for each kind of goods that is sewn, and
// adds up the thread its rows take.
func sew(c catalog, rows []row, s SewingSpec) ([]Stitching, faults) {
	w, stitch, f := s.settings()
	if len(f) > 0 {
		return nil, f
	}
	var out []Stitching
	for _, g := range c.sound {
		var own []row
		layers := 0
		for _, r := range rows {
			if r.Heaviest == g.ID {
				own = append(own, r)
				layers = max(layers, r.Layers)
			}
		}
		if len(own) == 0 {
			continue
		}
		st := Stitching{Goods: g.ID, Layers: layers, SizeGiven: s.Size != nil, Waste: w.Waste, Kind: cite.Estimate}
		var err error
		if st.Pick, err = s.pick(g, layers); err != nil {
			f.add("sewing", err)
			return nil, f
		}
		use := w
		if s.Cone != 0 {
			if use.Cone, err = thread.ConeLength(st.Pick.Thread.Size, s.Cone); err != nil {
				f.addAs("sewing.cone", err)
				return nil, f
			}
		}
		if err := st.count(own, g, use, stitch); err != nil {
			f.add("sewing", err)
			return nil, f
		}
		out = append(out, st)
	}
	return out, f
}

// settings gives what holds for all thread of the job.
func (s SewingSpec) settings() (thread.Sewing, thread.Stitch, faults) {
	var f faults
	w := thread.Sewing{Waste: 0.15, Tail: 3 * unit.Inch, Bobbin: s.Bobbin}
	if s.Waste != nil {
		w.Waste = *s.Waste
	}
	if s.Tail != nil {
		w.Tail = *s.Tail
	}
	f.add("sewing.waste", check.Ratio("", w.Waste, 0, 1))
	f.add("sewing.tail", check.Length("", w.Tail, 0, 500*unit.Millimetre))
	if s.Bobbin != 0 {
		f.add("sewing.bobbin", check.Length("", s.Bobbin, unit.Metre, check.Longest))
	}
	stitch := thread.Lockstitch301
	if s.Stitch != nil {
		stitch = *s.Stitch
	}
	return w, stitch, f
}

// pick recommends thread, needle and stitch for some goods.
func (s SewingSpec) pick(g GoodsSpec, layers int) (thread.Recommendation, error) {
	req := thread.Need{Goods: g.Material, Layers: layers}
	if s.Size != nil {
		req.Size = *s.Size
	}
	if s.Fibre != nil {
		req.Fibre = *s.Fibre
	}
	advice, err := thread.Recommend(req)
	if err != nil {
		return thread.Recommendation{}, err
	}
	return advice.Best(), nil
}

// count adds up the thread of the rows.
func (st *Stitching) count(rows []row, g GoodsSpec, w thread.Sewing, stitch thread.Stitch) error {
	for _, r := range rows {
		for left := r.times; left > 0; left -= mostRows {
			seam := thread.Seam{Name: r.name(), Length: r.Length, Thickness: g.thickness() * unit.Length(r.Layers),
				Stitch: stitch, StitchLength: st.Pick.StitchLength, Rows: min(left, mostRows)}
			u, err := thread.Consume(seam)
			if err != nil {
				return err
			}
			st.Basis = u.Basis
			w.Seams = append(w.Seams, seam)
		}
		st.Seams += r.Length * unit.Length(r.times) // seams of at most 1 km, counts of at most a million
	}
	var err error
	st.Thread, err = thread.Total(w)
	return err
}
