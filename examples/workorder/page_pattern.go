package main

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
)

// landingView is a cut with a motif on it.
type landingView struct {
	Number  int
	Name    string
	Count   string // of the pieces, where they differ
	Words   string
	Picture template.HTML
}

// viewPattern shows how the pattern runs over each piece of furniture, and where a
// motif falls on each cut.
func (s *sheet) viewPattern(v *benchCopy, o job.WorkOrder, cuts []drawnCut) error {
	cloths := clothsOf(o, s.photos)
	for i, a := range o.Assembly {
		if a.Pattern == nil {
			continue
		}
		flow, off := flowLaid(o, i+1, cuts)
		front := pattern.Front{Title: assembled(a), Units: s.units(), Width: frontWide, Numbers: pieceNumbers(o, i+1), Cloths: cloths, Off: off}
		bound := slices.ContainsFunc(a.Work.Pieces, func(p allowance.CoverPiece) bool {
			k := slices.IndexFunc(flow.Pieces, func(f allowance.PieceFlow) bool { return f.Name == p.Name })
			_, patterned := cloths[p.Goods]
			return patterned && k >= 0 && (flow.Pieces[k].Across.Number > 0 || flow.Pieces[k].Along.Number > 0)
		})
		if !bound {
			continue
		}
		picture, err := front.Draw(a.Work, flow)
		if err != nil {
			return err
		}
		v.Fronts = append(v.Fronts, drawing(picture))
	}
	one := !slices.ContainsFunc(o.Cuts, func(c job.Cut) bool { return c.Piece != o.Cuts[0].Piece })
	for _, c := range cuts {
		name := c.name()
		if one {
			name = c.cut.Part
		}
		for _, m := range c.cut.Motifs {
			l := pattern.Landing{At: m.At, Way: m.Way}
			picture, err := l.Draw(c.Pattern, s.units())
			if err != nil {
				return err
			}
			w := landingView{Number: c.number, Name: name, Words: l.Words(c.Pattern, s.units()), Picture: drawing(picture)}
			if len(c.cut.Motifs) > 1 {
				w.Count = fmt.Sprintf("%d of %d", m.Count, c.cut.Count)
			}
			v.Landings = append(v.Landings, w)
		}
	}
	return nil
}

// flowLaid is the flow of a cover as the layout has it, with how far its crossings are
// off: pieces that only lie on the pattern alike show what the goods have there, those
// that may show a motif at several points the one they got, and what had no room on the
// goods only what it follows.
func flowLaid(o job.WorkOrder, number int, cuts []drawnCut) (allowance.Flow, []shape.Point) {
	a := o.Assembly[number-1]
	flow := a.Pattern.Flow
	flow.Pieces = slices.Clone(flow.Pieces)
	for _, c := range cuts {
		if c.cut.Assembly != number {
			continue
		}
		for _, i := range c.cut.Pieces {
			p := &flow.Pieces[i]
			if len(c.cut.Motifs) == 0 || len(c.Seam.Outer) == 0 {
				p.Across, p.Along = allowance.FlowGroup{}, allowance.FlowGroup{}
				continue
			}
			m, seam := c.cut.Motifs[0], c.seamCorner()
			x, y := m.At.X-seam.X, m.At.Y-seam.Y
			if a.Work.Pieces[i].Hand != c.cut.Hand {
				x = p.Width - x
			}
			switch {
			case m.Way == allowance.AlongOnly:
				p.Across = allowance.FlowGroup{}
			case !p.Across.Placed || len(p.Or) > 0:
				p.Motif.X = x
			}
			switch {
			case m.Way == allowance.AcrossOnly:
				p.Along = allowance.FlowGroup{}
			case !p.Along.Placed || len(p.Or) > 0:
				p.Motif.Y = y
			}
		}
	}
	var off []shape.Point
	flow.Crossings = nil
	for i, x := range a.Pattern.Crossings {
		if slices.Contains(a.Pattern.Apart, i+1) && x.Way == allowance.AcrossOnly {
			continue // nothing of it is left
		}
		var by shape.Point
		for _, b := range a.Pattern.Breaks {
			if b.Crossing == i+1 {
				by = b.Off
			}
		}
		flow.Crossings, off = append(flow.Crossings, x), append(off, by)
	}
	return flow, off
}

// seamCorner is the lower left corner of the box round the seam line, from that of the
// cut line.
func (p drawnCut) seamCorner() shape.Point {
	low, cut := p.Seam.Outer[0], p.Bounds().Low
	for _, q := range p.Seam.Outer {
		low = shape.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
	}
	return shape.Point{X: low.X - cut.X, Y: low.Y - cut.Y}
}

// pieceNumbers gives the numbers that the pieces of an assembly have in the cut list.
func pieceNumbers(o job.WorkOrder, assembly int) []string {
	out := make([]string, len(o.Assembly[assembly-1].Work.Pieces))
	for k, c := range o.Cuts {
		if c.Assembly != assembly {
			continue
		}
		for _, p := range c.Pieces {
			out[p] = fmt.Sprint(k + 1)
		}
	}
	return out
}

// landings says in words where a motif falls on the cuts of some goods; cuts that say
// the same are one line.
func (s *sheet) landings(o job.WorkOrder, goods string) []string {
	var words []string
	where := map[string][]string{}
	for _, c := range o.Cuts {
		if c.Goods != goods || len(c.Motifs) == 0 {
			continue
		}
		p, err := patternOf(c)
		if err != nil {
			words = append(words, c.Part+": "+err.Error())
			continue
		}
		for _, m := range c.Motifs {
			text := pattern.Landing{At: m.At, Way: m.Way}.Words(p, s.units())
			name := c.Part
			if len(c.Motifs) > 1 {
				name += fmt.Sprintf(" (%d of %d)", m.Count, c.Count)
			}
			if where[text] == nil {
				words = append(words, text)
			}
			where[text] = append(where[text], name)
		}
	}
	for i, w := range words {
		if where[w] != nil {
			words[i] = w + ": " + strings.Join(where[w], ", ")
		}
	}
	return words
}
