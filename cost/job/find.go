package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/unit"
)

// found is what the stage find gives.
type found struct {
	findings  []build.Line
	questions []build.Question
	lines     []cost.Line // of the quote
	used      []cost.Entry
}

// unpriced counts the findings that are not on the quote.
func (f found) unpriced() int {
	n := 0
	for _, x := range f.findings {
		if x.Paid == build.Unpriced {
			n++
		}
	}
	return n
}

// need is what a piece of furniture needs of a finding, so many times.
type need struct {
	build.Need
	piece int // of the job
	times int
}

// find works out the findings: what the cover tells, what the builds take, thread
// and batting, each added up over the job, rounded once and priced.
func find(s Spec, c catalog, cut cutting, foam []FoamBlock, sewing Sewing) (found, faults) {
	f := s.checkFindings()
	var out found
	var needs []need
	if len(s.Pieces) > maxCount {
		return out, f
	}
	for i, p := range s.Pieces {
		x := finder{spec: s, goods: c, cut: cut, foam: foam, piece: i, of: p, at: unit.Path("pieces").At(i)}
		x.cover()
		x.built()
		x.unfilled()
		x.filled()
		needs, out.questions, f = append(needs, x.needs...), append(out.questions, x.asks...), append(f, x.faults...)
	}
	needs = append(needs, s.threads(sewing)...)
	if len(f) > 0 {
		return out, f
	}
	sums, own := s.summed(needs)
	f = append(f, own...)
	for _, x := range sums {
		line, own := s.priced(&x, len(out.findings))
		f = append(f, own...)
		out.findings = append(out.findings, x.Line)
		if line != nil {
			out.lines = append(out.lines, *line)
			out.used = append(out.used, x.entry)
		}
	}
	freight, err := cost.Freight(out.used...)
	f.addAs("prices", err)
	for _, l := range freight {
		l.Uplift = s.upliftOf(l.Uplift, l.Kind, l.Sells)
		out.lines = append(out.lines, l)
	}
	return out, f
}

// upliftOf gives that of an entry, or the markup of the job for its kind of line.
func (s Spec) upliftOf(own cost.Uplift, kind cost.Kind, sells cost.Selling) cost.Uplift {
	if own == (cost.Uplift{}) && sells != cost.AsListed {
		return s.Quote.uplift(kind)
	}
	return own
}

// summed adds the needs up by finding, in the order of the list of findings and
// then of their variants.
func (s Spec) summed(needs []need) ([]sum, faults) {
	var f faults
	needs, f = s.settled(needs)
	if len(f) > 0 {
		return nil, f
	}
	var out []sum
	by := map[string]int{}
	for _, n := range needs {
		k, known := by[n.ID]
		if !known {
			of, err := build.Named(n.ID)
			if err != nil {
				f.add(unit.Path("pieces").At(n.piece), err)
				continue
			}
			k, by[n.ID] = len(out), len(out)
			out = append(out, sum{Line: build.Line{ID: n.ID}, of: of})
		}
		if err := out[k].add(n, s.Pieces[n.piece].Name); err != nil {
			f.add(unit.Path("pieces").At(n.piece), err)
		}
	}
	slices.SortStableFunc(out, sum.compare)
	for i := range out {
		f.add("findings", out[i].round(s.Findings[out[i].of.ID]))
	}
	return out, f
}
