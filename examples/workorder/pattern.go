package main

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// drawnCut is one line of the cut list with its pattern.
type drawnCut struct {
	pattern.Pattern
	number int // in the cut list, from 1
	cut    job.Cut
}

func (p drawnCut) name() string { return p.cut.Piece + ": " + p.cut.Part }

// drawn tells whether the piece needs a drawing on the page: it is no rectangle, or
// places are marked inside it.
func (p drawnCut) drawn() bool {
	return p.cut.Panel != nil && !p.cut.Rectangular() || len(p.Marks) > 0
}

// drawnCuts draws up every line of the cut list.
func drawnCuts(o job.WorkOrder) ([]drawnCut, error) {
	out := make([]drawnCut, len(o.Cuts))
	for i, c := range o.Cuts {
		p, err := patternOf(c)
		if err != nil {
			return nil, unit.InField(fmt.Sprintf("cuts[%d]", i), err)
		}
		p.Name = fmt.Sprintf("%d  %s", i+1, c.Part)
		p.Notes, p.Goods, p.Count, p.Pair = []string{c.Piece, c.Grain}, goodsName(o.Purchases, c.Goods), c.Count, c.Pair
		if len(p.Marks) > 0 {
			p.Notes = append(p.Notes, fmt.Sprintf("%d buttons, at the crosses", len(p.Marks)))
		}
		out[i] = drawnCut{p, i + 1, c}
	}
	return out, nil
}

func patternOf(c job.Cut) (pattern.Pattern, error) {
	var p pattern.Pattern
	if q := c.Panel; q != nil {
		p = pattern.Of(*q)
		p.Hand, p.Letters, p.Uses = c.Hand, c.Letters, c.Uses
		// Where the cover is stretched on, the panel in place is larger than
		// what lies between the seam lines.
		if q.FinishedArea != q.SeamArea {
			points, err := c.Outline.Flatten(q.Tolerance)
			if err != nil {
				return p, err
			}
			p.Finished.Outer = points
		}
	} else {
		var err error
		if p, err = pattern.Strip(c.Cut.Width, c.Cut.Length); err != nil {
			return p, err
		}
	}
	if c.Tufting != nil && c.Cut.Width >= c.Tufting.NetWidth { // not joined from several
		p.Marks = buttons(*c.Tufting, p.Bounds())
	}
	return p, nil
}

// buttons finds the places of the buttons on the cloth. Rows are measured from
// the top left corner of the net panel, inside the tack edge.
func buttons(t made.TuftPlan, b pattern.Box) []shape.Point {
	left, top := b.Low.X+(b.High.X-b.Low.X-t.NetWidth)/2, b.High.Y-(b.High.Y-b.Low.Y-t.NetHeight)/2
	var out []shape.Point
	for _, r := range t.Rows {
		for _, x := range r.ClothX {
			out = append(out, shape.Point{X: left + x, Y: top - r.ClothY})
		}
	}
	return out
}

// sameShape tells whether one pattern serves for both pieces: the same lines, and
// the same along its edges.
func (p drawnCut) sameShape(q drawnCut) bool {
	return p.Pair == q.Pair && reflect.DeepEqual(p.Lines(), q.Lines()) && slices.Equal(p.Lettering(), q.Lettering())
}

// slug makes a file name of a name that anyone may have written: small letters,
// digits and hyphens, never empty, never long, never a path. Names that differ
// may give one slug, so a number goes before it.
func slug(number int, name string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		if b.Len() >= 60 {
			break
		}
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		} else {
			gap = true
		}
	}
	if b.Len() == 0 {
		return fmt.Sprintf("%03d", number)
	}
	return fmt.Sprintf("%03d-%s", number, b.String())
}
