package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// foamWords is what the text and the page say of a block of foam: the order first,
// the evidence when it is asked for.
type foamWords struct {
	Title    string
	Ask, Cut string   // what to ask for, and how many of what size
	Notes    []string // how it is cut, fitted, wrapped and sat on
	Evidence []string
}

// foamWords words all blocks; that foam must drain is explained once.
func (s *sheet) foamWords(blocks []job.FoamBlock) []foamWords {
	var out []foamWords
	told := false
	for _, f := range blocks {
		out = append(out, s.wordsOf(f, !told))
		told = told || f.Selection.Request.Wet
	}
	return out
}

// wordsOf words a block; drains says why foam must drain.
func (s *sheet) wordsOf(f job.FoamBlock, drains bool) foamWords {
	sel := f.Selection
	w := foamWords{Title: f.Piece + ": " + f.Name()}
	if sel.Request.Wet {
		w.Ask = "reticulated or closed-cell (drain) foam, "
	}
	w.Ask += s.force(sel.Target.Force()) + " at 25 % (IFD25, ASTM D3574), " + s.densities(sel.Density.Low, sel.Density.High)
	w.Cut = fmt.Sprintf("%d to cut, %s each, %s in all", f.Count, s.box(f.Cut), s.volume(f.Volume))
	w.Notes = s.foamNotes(f)
	note := func(r foam.Reason) { w.Notes = append(w.Notes, s.reason(r)) }
	for _, r := range sel.Reasons {
		switch r.Kind {
		case foam.ExampleStock, foam.TargetSinks: // no stock is in a job file, and the sitter is in the notes
		case foam.TargetBottomsOut:
			note(r)
		case foam.FirmnessWanted, foam.WantedIsUnusual:
			if f.Layer == "" { // a layer may well be softer or firmer than the whole
				note(r)
			}
		case foam.DrainsUsual:
			if drains {
				w.Notes = append(w.Notes, s.reason(r)+" ("+foam.Draining().Status.String()+")")
			}
		default:
			w.Evidence = append(w.Evidence, s.reason(r))
		}
	}
	for _, r := range sel.Disagreements {
		w.Evidence = append(w.Evidence, "sources differ: "+s.reason(r))
	}
	w.Evidence = append(w.Evidence, sel.Kind.String()+", "+sel.DensityBasis.String())
	if t := f.Sitting(); t != nil {
		for _, r := range t.Notes {
			if r.Kind == foam.LayerBottomsOut {
				note(r)
			} else {
				w.Evidence = append(w.Evidence, s.reason(r))
			}
		}
	}
	return w
}

// foamNotes says how a block is shaped, paid, fitted, wrapped and sat on.
func (s *sheet) foamNotes(f job.FoamBlock) []string {
	var out []string
	if text := s.shaped(f); text != "" {
		out = append(out, text)
	}
	if f.TakeUp != 0 {
		more := " larger each way"
		if f.Slanting() {
			more += ", further at its corners"
		}
		out = append(out, fmt.Sprintf("for a cover of %s: %s, %s%s (%s)", s.box(f.Finished), f.Fit, s.len(f.TakeUp), more, f.Basis.Status))
	}
	if w := f.Wrap; w != nil {
		out = append(out, s.batting(*w)...)
	}
	if p := f.Pressed; p != nil {
		out = append(out, fmt.Sprintf("the old foam was pressed and read as %s (%s to %s), %s, %s", s.force(p.Value.Force()), s.force(p.Low.Force()), s.force(p.High.Force()), p.Kind, p.Basis))
	}
	if t := f.Sitting(); t != nil {
		into, first := "it", "it"
		if f.Stack != nil {
			into, first = "all layers together", "the first of them"
		}
		out = append(out, fmt.Sprintf("a sitter of %s sinks %s (%s to %s) into %s, %s remain (%s); that is %s of the load at which %s bottoms out", s.mass(t.Sitter.Mass),
			s.len(t.Sink.Value), s.len(t.Sink.Low), s.len(t.Sink.High), into, s.len(t.Remaining.Value), t.Sink.Kind, (1/t.Margin).PercentText(0, unit.Nearest), first))
	}
	return out
}

// shaped says what is cut from the box, and which of the two is paid.
func (s *sheet) shaped(f job.FoamBlock) string {
	var how string
	switch f.Form {
	case job.FoamOutline:
		how = "cut to the outline of the part"
	case job.FoamWedge:
		how = fmt.Sprintf("cut as a wedge, %s at the front and %s at the back", s.len(f.Finished.Thickness), s.len(f.Back))
	case job.FoamRoundFront:
		how = "the front rounded to a half circle"
	case job.FoamCylinder:
		how = fmt.Sprintf("cut as a cylinder of %s", s.len(f.Cut.Thickness))
	case job.FoamRolled:
		return fmt.Sprintf("a sheet %s thick, rolled up along its %s (common practice)", s.len(f.Cut.Thickness), s.len(f.Cut.Width))
	case job.FoamCrown:
		return "bevelled to nothing all round, centred under the wrap (" + f.Basis.Status.String() + ")"
	default:
		return ""
	}
	switch f.PricedBy {
	case job.ByOutline:
		return how + "; paid by what is in it"
	case job.BySheet:
		return how + "; cut from the box, on sheets that are paid whole"
	}
	return how + fmt.Sprintf("; paid by the box, of which %s are used", s.volume(f.Shaped))
}

// batting says what to cut of a wrap.
func (s *sheet) batting(w job.FoamWrap) []string {
	name := s.len(w.Rule.Batting.Loft) + " thick"
	if w.Rule.Batting.Name != "" {
		name += " (" + w.Rule.Batting.Name + ")"
	}
	text := fmt.Sprintf("batting %s: %s %s x %s", name, plural(w.Sheets, "sheet"), s.len(w.Cut.Length), s.len(w.Cut.Around))
	switch {
	case w.Sides == 0:
	case w.Round:
		text += fmt.Sprintf(", %d round of %s for the ends", w.Sides, s.len(w.Cut.Side.Length))
	default:
		text += fmt.Sprintf(", %d of %s x %s for the sides", w.Sides, s.len(w.Cut.Side.Length), s.len(w.Cut.Side.Width))
	}
	text += ", " + s.area(w.Area, unit.Up)
	if w.Length != 0 {
		text += fmt.Sprintf(" or %s off a roll %s wide", s.buyLen(w.Length), s.len(w.Width))
	}
	out := []string{text + "; it raises the middle by about " + s.len(w.Cut.Crown) + " (" + w.Cut.Basis.Status.String() + ")"}
	if !w.TakesUp {
		out = append(out, "so thin a wrap counts as bare foam (common practice)")
	}
	return out
}

// sheets says which sheets of foam to buy, and what is cut from them.
func (s *sheet) sheets(o job.WorkOrder) []string {
	var out []string
	for _, x := range o.Sheets {
		k := x.Order.Stock
		text := fmt.Sprintf("buy %s of %s: ", plural(x.Order.Count, "sheet"), s.box(foam.Block{Length: k.Length, Width: k.Width, Thickness: k.Thickness}))
		for i, b := range x.Blocks {
			if i > 0 {
				text += ", "
			}
			text += fmt.Sprintf("%d of %s: %s", o.Foam[b].Count, o.Foam[b].Piece, o.Foam[b].Name())
		}
		text += "; " + x.Waste.PercentText(0, unit.Nearest) + " left over"
		if x.Order.Count == x.Order.Bound {
			text += ", and no fewer will do"
		}
		if x.Glued > 0 {
			text += "; " + plural(x.Glued, "glued join")
		}
		out = append(out, text)
	}
	return out
}

func (s *sheet) box(b foam.Block) string {
	return strings.Join([]string{s.len(b.Length), s.len(b.Width), s.len(b.Thickness)}, " x ")
}

func (s *sheet) foam(o job.WorkOrder) {
	if len(o.Foam) == 0 {
		return
	}
	s.head("Foam")
	for _, t := range s.sheets(o) {
		s.wrap(t, 100)
	}
	for _, w := range s.foamWords(o.Foam) {
		s.line("  %s", w.Title)
		for _, t := range wrapped("ask for "+w.Ask, 96) {
			s.line("    %s", t)
		}
		s.line("    %s", w.Cut)
		for _, t := range w.Notes {
			s.wrapIn("      ", t, 100)
		}
		if s.why {
			for _, t := range w.Evidence {
				s.wrapIn("      ", t, 100)
			}
		}
	}
}

// roundedUp says how quantities of a quote are printed.
const roundedUp = "quantities are rounded up as a shop writes them; amounts come from the exact ones"
