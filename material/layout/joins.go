package layout

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// evenCuts says where a piece that may be joined is cut when its outline is
// nested: not at all where it fits across the goods as it is, else into the
// fewest equal segments that fit. ok is false where its rule allows none.
func evenCuts(p Piece, roll material.Roll) (cuts []unit.Length, ok bool) {
	w, h := p.Outline.Size()
	if w <= roll.Usable() || p.mayQuarter(roll) && h <= roll.Usable() {
		return nil, true
	}
	j := p.Join
	if !j.AlongWidth {
		return nil, false
	}
	for n := 2; n <= j.Most+1; n++ {
		cuts = nil
		widest, from := unit.Length(0), unit.Length(0)
		for k := 1; k <= n; k++ {
			to := w * unit.Length(k) / unit.Length(n)
			if to-from < j.Least {
				return nil, false
			}
			if k < n {
				cuts = append(cuts, to)
			}
			widest, from = max(widest, to-from), to
		}
		if n > 2 {
			widest += j.Allowance
		}
		if widest+j.Allowance <= roll.Usable() {
			return cuts, true
		}
	}
	return nil, false
}

// joinSeldom leaves a piece whole that fits across the goods, and gives one that does
// not, off the pattern, no more joins than the fewest equal parts that fit have.
func (p *Piece) joinSeldom(roll material.Roll) {
	if p.Join == nil || !p.Join.AlongWidth || p.matched(roll) {
		return
	}
	cuts, ok := evenCuts(*p, roll)
	switch {
	case ok && len(cuts) == 0:
		p.Join = nil
	case ok:
		join := *p.Join
		join.Most = len(cuts)
		p.Join = &join
	}
}

// segmentsOf gives the sizes of the segments of a joined piece as they are cut,
// and refuses cuts that break its rule.
func segmentsOf(p Piece, cuts []unit.Length) ([]shape.Point, error) {
	bad := func(format string, args ...any) error { return badPlan("join: "+format, args...) }
	j := p.Join
	if j == nil {
		return nil, bad("the piece must not be joined")
	}
	w, h := p.Outline.Size()
	long := h
	if j.AlongWidth {
		long = w
	}
	if len(cuts) > j.Most {
		return nil, bad("%d joins, more than %d", len(cuts), j.Most)
	}
	var out []shape.Point
	from := unit.Length(0)
	for k := range len(cuts) + 1 {
		to, add := long, j.Allowance
		if k < len(cuts) {
			to = cuts[k]
		}
		if k > 0 && k < len(cuts) {
			add *= 2
		}
		if to-from < j.Least {
			return nil, bad("a segment of %v, less than %v", to-from, j.Least)
		}
		s := shape.Point{X: w, Y: to - from + add}
		if j.AlongWidth {
			s = shape.Point{X: to - from + add, Y: h}
		}
		out, from = append(out, s), to
	}
	return out, nil
}

// cutsOf gives the joins of a plan by piece, which must be alike for all copies.
func (p Plan) cutsOf() (map[int][]unit.Length, error) {
	each := map[Copy][]unit.Length{}
	for i, j := range p.Joins {
		if j.Piece < 0 || j.Piece >= len(p.Job.Pieces) || j.Copy < 0 || j.Copy >= p.Job.Pieces[j.Piece].Count {
			return nil, badPlan("join %d: no such piece or copy", i)
		}
		at := Copy{j.Piece, j.Copy}
		each[at] = append(each[at], j.At)
	}
	out := map[int][]unit.Length{}
	for i, piece := range p.Job.Pieces {
		for c := range piece.Count {
			cuts := each[Copy{i, c}]
			slices.Sort(cuts) // a job stood upright has them from the other end
			if c == 0 {
				if len(cuts) > 0 {
					out[i] = cuts
				}
				continue
			}
			if fmt.Sprint(cuts) != fmt.Sprint(out[i]) {
				return nil, badPlan("copies of %s are joined in different ways", check.At("piece", i))
			}
		}
	}
	return out, nil
}
