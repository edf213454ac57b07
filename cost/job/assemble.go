package job

import (
	"cmp"
	"maps"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// assemble works out a cover whose edges are joined: its pieces are cut by their
// seams, and what is sewn is what its seams say.
func (o *cutting) assemble(w whole, c catalog, goods map[string]allowance.SewnGoods) faults {
	work, err := w.cover.Work(goods)
	if err != nil {
		return w.faults(err)
	}
	flow, f := o.flows(w, work, c, goods)
	if len(f) > 0 {
		return f
	}
	f = append(f, o.cutPieces(w, work, flow, c)...)
	strips, err := w.pullStrips(work, c)
	if err != nil {
		f = append(f, moved(err, w.place))
	}
	a := Assembly{Piece: w.piece, Part: w.alone(), Count: w.count, Cover: w.cover, Work: work, PullStrips: strips}
	if len(flow.Crossings)+len(w.motifs) > 0 {
		a.Pattern = &flow.PatternFlow
	}
	for _, r := range work.Rows {
		sewn := w.row(r)
		sewn.part, sewn.inOrder = a.Part, true
		o.rows = append(o.rows, sewn)
	}
	o.assembly, o.of = append(o.assembly, a), append(o.of, w.furniture())
	f = append(f, o.weltStrips(w, work, c)...)
	return append(f, o.backingStrips(w, work, c)...)
}

// tapeOn gives the length of the zips that lie on some pieces.
func tapeOn(work allowance.CoverWork, pieces []int) unit.Length {
	var tape unit.Length
	for _, z := range work.Zips {
		if slices.ContainsFunc(pieces, func(i int) bool { return work.Pieces[i].Name == z.On }) {
			tape += z.Tape
		}
	}
	return tape
}

// furniture gives the place of the piece of furniture in the job.
func (w whole) furniture() int { return furnitureAt(w.at) }

func furnitureAt(at unit.Path) int {
	_, i, _, _ := at.Head()
	return i
}

// alone names the made-up part that the cover is, if it is one.
func (w whole) alone() string {
	if len(w.of) > 0 && w.at == w.of[0].at {
		return w.of[0].part
	}
	return ""
}

// faults brings what is wrong with the cover to the words of the job file.
func (w whole) faults(err error) faults {
	many, ok := err.(interface{ Unwrap() []error })
	if !ok {
		many = joined{err}
	}
	var f faults
	said := map[string]bool{} // one entry of the file may stand for several relations
	for _, err := range many.Unwrap() {
		if err = moved(err, w.place); !said[err.Error()] {
			said[err.Error()] = true
			f = append(f, err)
		}
	}
	return f
}

type joined []error

func (j joined) Unwrap() []error { return j }

// cutPieces makes the lines of the cut list: pieces of a panel that are cut alike and
// lie alike on the pattern, left and right hands together.
func (o *cutting) cutPieces(w whole, work allowance.CoverWork, flow flowed, c catalog) faults {
	var f faults
	done := make([]bool, len(work.Pieces))
	from := 0 // the pieces stand in the order of the panels
	for i, panel := range w.cover.Panels {
		g, _, _ := c.find(panel.Goods) //nolint:errcheck // the cover was made with it
		n := panel.Copies()
		if panel.Pair {
			n *= 2
		}
		to := from + n
		for k := from; k < to; k++ {
			if done[k] {
				continue
			}
			first := work.Pieces[k]
			var alike []int
			rights := 0
			for m := k; m < to; m++ {
				p := work.Pieces[m]
				if done[m] || !first.CutLike(p) || !flow.lies[k].alike(flow.lies[m], p.Hand != first.Hand) {
					continue
				}
				done[m] = true
				alike = append(alike, m)
				if p.Hand == allowance.RightHand {
					rights++
				}
			}
			name := panel.Name
			if len(alike) < n {
				name = first.Name
			}
			if w.alone() != "" {
				name = w.of[i].nameOf(name)
			} else {
				name = w.of[i].nameIn(name)
			}
			line := w.line(i, name, g)
			line.Count, line.Pair, line.lies = len(alike)*w.count, 2*rights == len(alike), flow.lies[k]
			of := panel
			of.Panel = first.Panel
			line.Assembly, line.Pieces = len(o.assembly)+1, alike
			line.Hand, line.Letters, line.Uses = first.Hand, first.Marks, first.Uses
			line.ZipTape = tapeOn(work, alike)
			if _, err := line.size(of, w.of[i]); err != nil {
				f = append(f, moved(unit.InField(unit.Path("panels").At(i), err), w.place))
				break // its other pieces would only say the same
			}
			o.pieces = append(o.pieces, line)
		}
		from = to
	}
	return f
}

// weltOf is welt that is cut in one go.
type weltOf struct {
	goods string
	cord  unit.Length
	bias  bool
}

func (a weltOf) compare(b weltOf) int {
	bias := func(w weltOf) int {
		if w.bias {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(a.goods, b.goods), cmp.Compare(a.cord, b.cord), cmp.Compare(bias(a), bias(b)))
}

// weltStrips adds the strips for the welts of the seams and trims.
func (o *cutting) weltStrips(w whole, work allowance.CoverWork, c catalog) faults {
	runs := map[weltOf][]allowance.WeltRun{}
	for _, r := range work.Welts {
		kind := weltOf{r.Goods, r.Cord, r.Bias}
		runs[kind] = append(runs[kind], r)
	}
	var f faults
	for _, kind := range slices.SortedFunc(maps.Keys(runs), weltOf.compare) {
		g, _, _ := c.find(kind.goods) //nolint:errcheck // the cover was checked with it
		welt := made.Welt{Cord: kind.cord, Bias: kind.bias, Ends: allowance.Exactly(0)}
		var cord unit.Length
		for _, r := range runs[kind] {
			welt.Runs = append(welt.Runs, r.Strip)
			cord += r.CordLength
		}
		cover, err := welt.Cover(g.forParts())
		if err != nil {
			f.add(w.at, err)
			continue
		}
		strips := whole{at: w.at, piece: w.piece, count: w.count}
		cover.Rows = nil // closing the strips round the cord is a row of each seam
		last := &cover.Panels[len(cover.Panels)-1]
		last.Welt = cord
		part := covered{at: w.at, part: w.alone()}
		if part.bench.bias, err = biasStrip(welt, cover, g.forParts()); err != nil {
			f.add(w.at, err)
			continue
		}
		strips.add(part, cover)
		f = append(f, o.apart(strips, c, nil)...)
	}
	return f
}
