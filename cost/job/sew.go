package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// mostRows bounds the rows of one seam of package thread.
const mostRows = 100

// sewnRow is a row with its thread.
type sewnRow struct {
	row
	thickness unit.Length // of all layers
	pick      thread.Recommendation
}

// byHand tells whether the row needs no machine.
func (r sewnRow) byHand() bool { return r.Kind == allowance.HandRow }

// length is that of all of them.
func (r sewnRow) length() unit.Length {
	return r.Length * unit.Length(r.times) // seams of at most 1 km, counts of at most a million
}

// sew gives every row the thread of its heaviest member, sews rows that may be
// sewn alike with one set-up, and adds up the thread.
func sew(c catalog, rows []row, s SewingSpec) (Sewing, faults) {
	w, stitch, f := s.settings()
	if len(f) > 0 || len(rows) == 0 {
		return Sewing{}, f
	}
	sewn, f := c.threaded(rows, s)
	if len(f) > 0 {
		return Sewing{}, f
	}
	share(sewn)
	out := Sewing{Fibres: fibresOf(sewn, s), SetUps: setUpsOf(sewn), Waste: w.Waste, Kind: cite.Estimate}
	var order []thread.SetUp
	for _, r := range sewn {
		if r.inOrder && !r.byHand() {
			order = append(order, r.pick.SetUp())
		}
	}
	out.Changes = thread.CountSetUps(order)
	f = out.count(sewn, w, stitch, s)
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
	if s.Fibre != nil {
		_, err := s.Fibre.MarshalText()
		f.addAs("sewing.fibre", err)
	}
	f = append(f, s.StitchWish.check("sewing")...)
	f = append(f, s.TopStitch.check("sewing.top_stitch")...)
	stitch := thread.Lockstitch301
	if s.Stitch != nil {
		stitch = *s.Stitch
		_, err := stitch.Type()
		f.addAs("sewing.stitch", err)
	}
	return w, stitch, f
}

func (x StitchWish) check(at unit.Path) faults {
	var f faults
	if x.Size != nil {
		_, err := x.Size.MarshalText()
		f.addAs(at.Dot("size"), err)
	}
	if x.StitchLength != 0 {
		_, err := thread.StitchesPerInchOf(x.StitchLength)
		f.addAs(at.Dot("stitch_length"), err)
	}
	return f
}

// threaded gives each row its thread: seams first, for the top-stitching of a
// seam takes the next size up.
func (c catalog) threaded(rows []row, s SewingSpec) ([]sewnRow, faults) {
	var f faults
	out := make([]sewnRow, len(rows))
	type seam struct {
		at unit.Path
		of string
	}
	sizes := map[seam]thread.Size{}
	for _, top := range []bool{false, true} {
		for i, r := range rows {
			if (r.Kind == allowance.TopRow) != top {
				continue
			}
			need := c.need(r, s)
			of := seam{r.at, r.Of}
			if top {
				need.SeamSize = sizes[of]
			}
			var err error
			out[i].row = r
			if out[i].pick, err = thread.RecommendSeam(need); err != nil {
				f.addAs(r.at, err)
				continue
			}
			out[i].thickness = r.Thickness
			for k, m := range need.Members {
				if r.Thickness == 0 {
					out[i].thickness += m.Thickness * unit.Length(r.Members[k].Layers)
				}
			}
			if !top {
				sizes[of] = max(sizes[of], out[i].pick.Thread.Size)
			}
		}
	}
	return out, f
}

// need asks for the thread of a row.
func (c catalog) need(r row, s SewingSpec) thread.SeamNeed {
	n := thread.SeamNeed{Layers: r.Layers, Exposure: r.lives}
	for _, m := range r.Members {
		g, _, _ := c.find(m.Goods) //nolint:errcheck // the row was made with it
		n.Members = append(n.Members, thread.Member{Goods: g.Material, Layers: m.Layers, Thickness: g.thickness()})
	}
	own := s.StitchWish
	if r.Kind == allowance.TopRow {
		n.Purpose, own = thread.TopStitch, s.TopStitch
	}
	n.StitchLength = own.StitchLength
	if own.Size != nil {
		n.Size = *own.Size
	}
	if s.Fibre != nil {
		n.Fibre = *s.Fibre
	}
	return n
}

// share sews rows with the set-up of others, as far as the rules allow: again and
// again the set-up that the greatest length of the rows left can be sewn with.
func share(rows []sewnRow) {
	var offered []thread.SetUp
	left := 0
	for _, r := range rows {
		if r.byHand() {
			continue
		}
		left++
		if s := r.pick.SetUp(); !slices.Contains(offered, s) {
			offered = append(offered, s)
		}
	}
	done := make([]bool, len(rows))
	for left > 0 {
		best, most, found := thread.SetUp{}, unit.Length(0), false
		for _, s := range offered {
			sum, some := unit.Length(0), false
			for i, r := range rows {
				if _, ok := r.pick.On(s); ok && !done[i] && !r.byHand() {
					sum, some = sum+r.length(), true
				}
			}
			if some && (!found || sum > most) {
				best, most, found = s, sum, true
			}
		}
		for i, r := range rows {
			if p, ok := r.pick.On(best); ok && !done[i] && !r.byHand() {
				rows[i].pick, done[i] = p, true
				left--
			}
		}
	}
}

// setUpsOf groups rows by their set-up, those of the machine first, in the order
// of the rows.
func setUpsOf(rows []sewnRow) []SetUp {
	var out []SetUp
	for _, hand := range []bool{false, true} {
		for _, r := range rows {
			if r.byHand() != hand {
				continue
			}
			s := SetUp{SetUp: r.pick.SetUp()}
			if hand {
				s = SetUp{SetUp: thread.SetUp{Thread: r.pick.Thread}, ByHand: true}
			}
			i := slices.IndexFunc(out, func(o SetUp) bool { return o.SetUp == s.SetUp && o.ByHand == hand })
			if i < 0 {
				i, out = len(out), append(out, s)
			}
			out[i].sew(r)
		}
	}
	return out
}

// sew adds a row.
func (s *SetUp) sew(r sewnRow) {
	s.Rows = append(s.Rows, SewnRow{Piece: r.piece, Part: r.part, Of: r.Of, Kind: r.Kind, Share: r.share, Count: r.times, Length: r.Length, Layers: r.Layers})
	s.Length += r.length()
	s.Layers = max(s.Layers, r.Layers)
	why := Reason{r.pick.Reason, r.pick.Basis}
	if !slices.Contains(s.Why, why) {
		s.Why = append(s.Why, why)
	}
	if s.ByHand {
		s.Care |= r.pick.Flags & (thread.ThreadTooLight | thread.ThreadTooHeavy | thread.NylonInSun | thread.NylonInDamp)
		return
	}
	s.Care |= r.pick.Flags
	for _, b := range []cite.Basis{r.pick.Needles.Basis, r.pick.PointBasis, r.pick.Density.Basis} {
		if !slices.Contains(s.Basis, b) {
			s.Basis = append(s.Basis, b)
		}
	}
}

// fibresOf gives the fibre for each place where pieces live.
func fibresOf(rows []sewnRow, s SewingSpec) []FibreChoice {
	var out []FibreChoice
	for _, r := range rows {
		i := slices.IndexFunc(out, func(c FibreChoice) bool { return c.Lives == r.lives })
		if i < 0 {
			c := FibreChoice{Lives: r.lives, Given: s.Fibre != nil && *s.Fibre != 0, Fibre: r.pick.Thread.Fibre}
			c.Usual, c.Reason, c.Basis, _ = r.lives.Fibre() //nolint:errcheck // the row was sewn for it
			i, out = len(out), append(out, c)
		}
		if !slices.Contains(out[i].Pieces, r.piece) {
			out[i].Pieces = append(out[i].Pieces, r.piece)
		}
	}
	return out
}

// count adds up the thread, one after the other.
func (o *Sewing) count(rows []sewnRow, w thread.Sewing, stitch thread.Stitch, s SewingSpec) faults {
	var f faults
	for _, r := range rows {
		if slices.ContainsFunc(o.Threads, func(t ThreadUse) bool { return t.Thread == r.pick.Thread }) {
			continue
		}
		use := ThreadUse{Thread: r.pick.Thread}
		own := w
		for _, r := range rows {
			if r.pick.Thread != use.Thread {
				continue
			}
			use.Length += r.length()
			seam := thread.Seam{Name: r.name(), Length: r.Length, Thickness: r.thickness, Stitch: stitch, StitchLength: r.pick.StitchLength}
			if r.byHand() {
				seam.Stitch = thread.Saddle209
			}
			u, err := thread.Consume(seam)
			if err != nil {
				f.addAs(r.at, err)
				return f
			}
			o.note(u.Basis)
			for left := r.times; left > 0; left -= mostRows {
				seam.Rows = min(left, mostRows)
				own.Seams = append(own.Seams, seam)
			}
		}
		var err error
		if s.Cone != 0 {
			if own.Cone, err = thread.ConeLength(use.Thread.Size, s.Cone); err != nil {
				f.addAs("sewing.cone", err)
				return f
			}
		}
		if use.Consumption, err = thread.Total(own); err != nil {
			f.add("sewing", err)
			return f
		}
		o.Threads = append(o.Threads, use)
	}
	return f
}

// note keeps what founds the thread the rows take.
func (o *Sewing) note(b cite.Basis) {
	if !slices.Contains(o.Basis, b) {
		o.Basis = append(o.Basis, b)
	}
}
