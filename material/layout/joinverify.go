package layout

import (
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// verifyRunsOn checks of every piece of an upright job that is joined to match
// that its segments lie as parts of one piece on the pattern: each is moved back
// by where it is cut from the piece, and there the piece lies on the motifs, for
// all segments alike.
func (p Plan) verifyRunsOn(near unit.Length) error {
	cuts := map[Copy][]unit.Length{}
	for _, j := range p.Joins {
		at := Copy{j.Piece, j.Copy}
		cuts[at] = append(cuts[at], j.At)
	}
	first := map[Copy]Place{}
	for i, q := range p.Places {
		piece := p.Job.Pieces[q.Piece]
		if !piece.joinedToMatch(*p.Job.Roll) {
			continue
		}
		at := Copy{q.Piece, q.Copy}
		slices.Sort(cuts[at])
		if err := piece.checkCuts(cuts[at]); err != nil {
			return err
		}
		if q.Segment < 0 || q.Segments != len(cuts[at])+1 || q.Segment >= q.Segments {
			return badPlan("place %d: segment %d of %d, with %d joins", i, q.Segment+1, q.Segments, len(cuts[at]))
		}
		if q.Segments > 1 {
			low, high := piece.Outline.Bounds()
			if q.Mirrored {
				low.X = -high.X
			}
			if q.Segment > 0 {
				low.X += cuts[at][q.Segment-1] - piece.Join.Allowance
			}
			corner := turnedPoint(low, int(q.Turned)/90)
			q.X, q.Y = q.X-corner.X, q.Y-corner.Y
		}
		if _, ok := p.onMotif(q, near); !ok {
			return badPlan("place %d: off the repeat", i)
		}
		if one, ok := first[at]; !ok {
			first[at] = q
		} else if off := p.Job.Roll.Motifs().Apart(shape.Point{X: q.X - one.X, Y: q.Y - one.Y}); one.Turned != q.Turned || off.X != 0 || max(off.Y, -off.Y) > 2*near {
			return badPlan("place %d: the pattern does not run on over the join", i)
		}
	}
	return nil
}

// checkCuts checks the joins of a piece that is joined to match: none in the
// middle, left and right alike, and no segment under its least.
func (p Piece) checkCuts(cuts []unit.Length) error {
	w, _ := p.Outline.Size()
	switch {
	case len(cuts) == 0:
		return nil
	case !p.Join.AlongWidth || len(cuts)%2 != 0 || len(cuts) > p.Join.Most:
		return badPlan("%d joins in a piece", len(cuts))
	}
	from := unit.Length(0)
	for k, to := range append(slices.Clone(cuts), w) {
		if to-from < p.Join.Least {
			return badPlan("a segment of %v, less than %v", to-from, p.Join.Least)
		}
		if k < len(cuts) && cuts[k] != w-cuts[len(cuts)-1-k] {
			return badPlan("joins that differ left and right")
		}
		from = to
	}
	return nil
}
