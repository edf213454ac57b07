package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job"
)

// assembly prints how each cover whose edges are joined goes together.
func (s *sheet) assembly(o job.WorkOrder) {
	for _, a := range o.Assembly {
		if len(a.Work.Seams) == 0 && len(a.Work.Pieces) == 1 {
			continue // the notes say what becomes of its edges
		}
		s.head("Sewing and fitting: " + assembled(a))
		s.table(func(row func(...string)) {
			for i, r := range s.seamRows(a, func(panel string) string { return panel + "." }) {
				if i == 0 {
					row("seam", "finish", "seam line", "edges")
				}
				row(r.Letter, r.Finish, r.Length, r.Edges)
			}
		})
		for _, list := range []struct {
			title string
			steps []string
		}{{"Order of sewing", s.sewingSteps(a)}, {"Order of fitting", s.fittingSteps(a)}} {
			if len(list.steps) > 0 {
				s.line("  %s", list.title)
			}
			for i, step := range list.steps {
				for k, l := range wrapped(step, 105) {
					number := ""
					if k == 0 {
						number = fmt.Sprintf("%d.", i+1)
					}
					s.line("    %3s %s", number, l)
				}
			}
		}
		if notes := a.PatternNotes(s.units()); len(notes) > 0 {
			s.line("  The pattern")
			s.dashes(notes)
		}
		if hasHands(a) {
			s.line("  %s", whoseHands(o))
		}
	}
}

// assembled names the cover.
func assembled(a job.Assembly) string {
	name := a.Piece
	if a.Part != "" {
		name += ", " + a.Part
	}
	if a.Count > 1 {
		name += fmt.Sprintf(" (%d alike)", a.Count)
	}
	return name
}

// seamRow is a seam as it is listed; the seams of both hands are one row.
type seamRow struct{ Letter, Finish, Length, Edges string }

// seamRows lists the seams; named gives the name of a panel before its edge.
func (s *sheet) seamRows(a job.Assembly, named func(panel string) string) []seamRow {
	a.Work.Seams = slices.SortedStableFunc(slices.Values(a.Work.Seams), func(x, y allowance.CoverSeam) int {
		return byLetter(x.Letter, y.Letter)
	})
	var out []seamRow
	for i := 0; i < len(a.Work.Seams); i++ {
		seam := a.Work.Seams[i]
		r := seamRow{Letter: seam.Letter, Finish: seam.Kind.String(), Length: s.len(seam.Match.First), Edges: s.sides(a.Cover.Seams[seam.Seam], named)}
		if len(seam.Sides) == 1 {
			r.Length = ""
			tape := a.Cover.Seams[seam.Seam].Tape
			if k := slices.IndexFunc(a.Work.Zips, func(z allowance.ZipRun) bool { return z.Of == tape || strings.HasPrefix(z.Of, tape+"-") }); tape != "" && k >= 0 {
				r.Length = s.len(a.Work.Zips[k].Opening)
			}
		}
		if seam.Match.Verdict != allowance.SewsFlat && seam.Eased >= 0 && seam.Eased < len(seam.Sides) {
			r.Edges += fmt.Sprintf("; %s: %s longer, %s", s.side(a.Cover.Seams[seam.Seam].Sides[seam.Eased], named), s.len(seam.Match.Difference), takenUp(seam))
		}
		base, left := strings.CutSuffix(seam.Letter, "-L")
		if left && i+1 < len(a.Work.Seams) && a.Work.Seams[i+1].Letter == base+"-R" {
			r.Letter += ", " + a.Work.Seams[i+1].Letter
			i++
		}
		out = append(out, r)
	}
	return out
}

// takenUp says what becomes of the longer side of a seam.
func takenUp(seam allowance.CoverSeam) string {
	switch {
	case seam.Kind == allowance.GatheredJoin:
		return "gathered"
	case seam.Fullness > 1:
		return "folded up in its pleats"
	}
	return seam.Match.Verdict.String()
}

// sides writes the sides of a seam as the cover has them: names of a pair
// without a hand stand for both. A panel is named once for a run of its edges.
func (s *sheet) sides(seam allowance.Seam, named func(panel string) string) string {
	var sides []string
	for _, side := range seam.Sides {
		sides = append(sides, s.side(side, named))
	}
	if seam.Tape != "" {
		sides = append(sides, seam.Tape)
	}
	return strings.Join(sides, " with ")
}

// side writes a side of a seam.
func (s *sheet) side(side allowance.Side, named func(panel string) string) string {
	edges := make([]string, len(side))
	for k, e := range side {
		edges[k] = s.edgePart(e)
		if k == 0 || e.Panel != side[k-1].Panel {
			edges[k] = named(e.Panel) + edges[k]
		}
	}
	return strings.Join(edges, " + ")
}

// edgePart writes an edge or a part of it in the units of the sheet.
func (s *sheet) edgePart(e allowance.EdgePart) string {
	text := e.Edge
	if e.From != 0 {
		text += " from " + s.len(e.From)
	}
	if e.To != 0 {
		text += " to " + s.len(e.To)
	}
	if e.Reversed {
		text += " reversed"
	}
	return text
}

// partOf writes an edge of a piece, and of a divided one which part of it is fastened:
// "outside back.left from 37 in".
func (s *sheet) partOf(a job.Assembly, name string) string {
	for _, f := range a.Work.Fastenings {
		if side := a.Cover.Fastenings[f.Fastening].Side; len(side) == 1 && len(f.Side) == 1 && f.Side[0] == name {
			piece, _ := panelAndEdge(name)
			return piece + "." + s.edgePart(side[0])
		}
	}
	return name
}

// sewingSteps words the order of sewing; what is done in one go is one step.
func (s *sheet) sewingSteps(a job.Assembly) []string {
	words := map[allowance.SewKind]string{
		allowance.SewSeam: "sew ", allowance.MakeWelt: "make welt: ", allowance.PutWelt: "welt on the first edge of ", allowance.GatherSide: "gather for ",
		allowance.SetZip: "set zip ", allowance.TopStitch: "top-stitch ", allowance.CloseByHand: "close by hand ",
		allowance.HemEdge: "hem ",
	}
	var out []string
	for i := 0; i < len(a.Work.Sewing); {
		step := a.Work.Sewing[i]
		var seams, why []string
		first := map[string][]string{}
		for ; i < len(a.Work.Sewing) && a.Work.Sewing[i].Do == step.Do; i++ {
			next := a.Work.Sewing[i]
			seams = append(seams, s.partOf(a, next.Seam))
			if next.Why == "" {
				continue
			}
			if first[next.Why] == nil {
				why = append(why, next.Why)
			}
			if !slices.Contains(first[next.Why], next.After) {
				first[next.Why] = append(first[next.Why], next.After)
			}
		}
		for k, w := range why {
			slices.SortFunc(first[w], byLetter)
			if after := strings.Join(first[w], ", "); after != "" {
				why[k] = after + " first: " + w
			}
		}
		text := words[step.Do] + strings.Join(seams, ", ")
		if len(why) > 0 {
			text += " (" + strings.Join(why, "; ") + ")"
		}
		out = append(out, text)
	}
	return out
}

// fittingSteps words the order of fitting, panel by panel.
func (s *sheet) fittingSteps(a job.Assembly) []string {
	var out []string
	for i := 0; i < len(a.Work.Fitting); {
		panel, _ := panelAndEdge(a.Work.Fitting[i].What[0])
		text, why := panel, a.Work.Fitting[i].Why
		for k := i; i < len(a.Work.Fitting); i++ {
			step := a.Work.Fitting[i]
			name, _ := panelAndEdge(step.What[0])
			if name != panel {
				break
			}
			text += map[bool]string{true: ": ", false: "; "}[i == k]
			var edges []string
			for _, w := range step.What {
				if _, edge := panelAndEdge(s.partOf(a, w)); edge != "" {
					edges = append(edges, edge)
				}
			}
			text += strings.TrimSpace(strings.Join(edges, " + ") + " " + step.How)
			if step.To != "" {
				text += " (" + step.To + ")"
			}
		}
		if why != "" {
			text += ". " + strings.ToUpper(why[:1]) + why[1:]
		}
		out = append(out, text)
	}
	return out
}

// panelAndEdge takes the name of an edge apart; a trim has no edge.
func panelAndEdge(name string) (panel, edge string) {
	i := strings.LastIndexByte(name, '.')
	if i < 0 {
		return name, ""
	}
	return name[:i], name[i+1:]
}

// handsOf says so of a cover that has both.
func handsOf(o job.WorkOrder, a job.Assembly) string {
	if !hasHands(a) {
		return ""
	}
	text := whoseHands(o)
	return strings.ToUpper(text[:1]) + text[1:] + "."
}

// whoseHands says whose left and right they are.
func whoseHands(o job.WorkOrder) string {
	if o.Facing {
		return "left and right of a piece are the sitter's: as you stand before it, its left is on your right; edges are named as drawn, face up"
	}
	return "left and right of a piece are the sitter's; edges are named as drawn, face up"
}

// hasHands tells whether the cover has a left and a right.
func hasHands(a job.Assembly) bool {
	return slices.ContainsFunc(a.Work.Seams, func(s allowance.CoverSeam) bool { return strings.Contains(s.Letter, "-L") }) ||
		slices.ContainsFunc(a.Work.Fastenings, func(f allowance.CoverFastening) bool { return strings.Contains(strings.Join(f.Side, " "), " left.") })
}
