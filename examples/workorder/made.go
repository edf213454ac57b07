package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// made prints what the bench must know of made-up parts beside their sizes: the
// marks of a boxing, strip by strip, and where buttons lie.
func (s *sheet) made(o job.WorkOrder) {
	for _, c := range o.Cuts {
		if c.Boxing != nil {
			s.line("\n  Boxing of %s, upper edge up, places from the left seam%s", ofPart(c), ofHand(c))
			for _, l := range s.strips(o, c) {
				s.wrapIn("    ", l, 100)
			}
		}
		if c.Tufting != nil {
			s.line("\n  Buttons of %s, places from the top left corner inside the tack edge", ofPart(c))
			s.table(func(row func(...string)) {
				row("  row", "down", "on the face", "down", "on the cloth")
				for i, r := range c.Tufting.Rows {
					row(fmt.Sprintf("  %d", i+1), s.len(r.FaceY), s.places(r.FaceX), s.len(r.ClothY), s.places(r.ClothX))
				}
			})
		}
	}
}

// ofPart names the made-up part that a cut belongs to.
func ofPart(c job.Cut) string {
	part, _, _ := strings.Cut(c.Part, ", ")
	return c.Piece + ", " + part
}

// ofHand says of what hand the boxing of a pair is told.
func ofHand(c job.Cut) string {
	switch {
	case c.Pair:
		return "; the left one, the right is its mirror image"
	case c.Hand != allowance.Either:
		return "; the left one"
	}
	return ""
}

// places lists lengths, the unit once.
func (s *sheet) places(ls []unit.Length) string {
	out := make([]string, len(ls))
	for i, l := range ls {
		out[i] = s.len(l)
		if i < len(ls)-1 {
			out[i] = strings.TrimSuffix(strings.TrimSuffix(out[i], " in"), " mm")
		}
	}
	return strings.Join(out, ", ")
}

// strips gives a line for each piece of a boxing: its length, and the corners that
// it is marked with, with their letters.
func (s *sheet) strips(o job.WorkOrder, c job.Cut) []string {
	var out []string
	add := func(p made.BoxingPiece, panel, more string) {
		text := p.Name + ": " + s.len(p.To-p.From) + " between seams" + more
		for i, k := range p.Corners {
			text += map[bool]string{true: "; corners at ", false: ", "}[i == 0] + s.len(k.At) + " (" + k.Name
			if letter := letterAt(o, c, panel, k.At); letter != "" {
				text += ", " + letter
			}
			text += ")"
		}
		out = append(out, text)
	}
	for i, p := range c.Boxing.ZipPieces {
		panel := "zip panel lower"
		if len(c.Boxing.ZipPieces) > 1 {
			panel = fmt.Sprintf("%s %d", panel, i+1)
		}
		add(p, panel, ", two halves")
	}
	for _, p := range c.Boxing.Pieces {
		add(p, p.Name, "")
	}
	return out
}

// letterAt finds the notch of a seam at a place of the lower edge of a strip.
func letterAt(o job.WorkOrder, c job.Cut, panel string, at unit.Length) string {
	if c.Assembly == 0 {
		return ""
	}
	prefix := ""
	if a := o.Assembly[c.Assembly-1]; a.Part == "" { // it is nested
		prefix, _, _ = strings.Cut(c.Part, ", ")
		prefix += "."
	}
	for _, p := range o.Assembly[c.Assembly-1].Work.Pieces {
		if p.Of != prefix+panel || p.Number > 1 {
			continue
		}
		for i, m := range p.Marks {
			n := p.Panel.Notches[i]
			if d := n.At - at; n.Edge == "bottom" && d > -unit.Millimetre && d < unit.Millimetre {
				return m.Label
			}
		}
	}
	return ""
}

// gridRow is a row of buttons.
type gridRow struct{ Row, FaceDown, Face, ClothDown, Cloth string }

// grid gives the table of buttons of a tufted panel.
func (s *sheet) grid(c job.Cut) []gridRow {
	if c.Tufting == nil {
		return nil
	}
	var out []gridRow
	for i, r := range c.Tufting.Rows {
		out = append(out, gridRow{fmt.Sprint(i + 1), s.nb(r.FaceY), s.places(r.FaceX), s.nb(r.ClothY), s.places(r.ClothX)})
	}
	return out
}

// pullStrips says what strips sewn on to do the pulling save, and where one would.
func (s *sheet) pullStrips(o job.WorkOrder) []string {
	var out []string
	for _, a := range o.Assembly {
		for _, x := range a.PullStrips {
			where := a.Piece + ", " + x.Panel + ": " + strings.Join(x.Edges, " + ")
			saved := s.area(x.Saved, unit.Nearest) + " of " + x.Goods + " in the cut pieces"
			if x.With != "" {
				out = append(out, where+" ends in a strip of "+x.With+", which saves "+saved+" (an "+x.Kind.String()+": what is bought follows the layout)")
			} else {
				out = append(out, where+" takes "+s.len(x.Pulled)+" to pull; ending it in a strip of other goods would save "+saved+" (an "+x.Kind.String()+": what is bought follows the layout)")
			}
		}
	}
	return out
}
