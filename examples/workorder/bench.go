package main

import (
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

//go:embed bench.html.tmpl
var benchPage string

// benchCopy is what the bench copy shows. Figures are text already; drawings are SVG
// made by package svg.
type (
	benchCopy struct {
		copyHead
		Groups   []cutGroup
		Notes    []string
		Strips   []string // for pulling
		Layouts  []layoutView
		Fronts   []template.HTML // with the pattern through them
		Landings []landingView
		Panels   []panelView
		TakeOff  []takeOffView
		Assembly []assemblyView
		Fibres   []string
		SetUps   []setUpView
		Threads  []string
		Seams    []seamView
		Foam     []foamView
		Stock    []string // sheets of foam to buy
		Why      bool     // with the evidence
		Forms    []string
		Sheets   string // how the sizes are rounded
	}
	cutGroup struct {
		Piece string
		Rows  []cutRow
	}
	cutRow struct {
		Number, Count, Part, Goods, Finished, Cut, Grain, Details string
		Picture                                                   template.HTML
	}
	panelView struct {
		Number      int
		Name, Sizes string
		Count       string
		Picture     template.HTML
		Edges       []edgeView
		Buttons     []gridRow
	}
	assemblyView struct {
		Title           string
		Map             template.HTML
		Rings           []template.HTML // boxings as strips
		Seams           []seamRow
		Sewing, Fitting []string
		Pattern         []string
		Hands           string // whose left and right they are; none of a cover without
	}
	edgeView struct{ Mark, Edges, Finish, Added, Length string }
	seamView struct{ Number, Part, Edges, Finish, Allowance, Length, Count, Goods string }
	foamView struct {
		foamWords
		Plan, Curve template.HTML
	}
)

func viewBench(s *sheet, head copyHead, o job.WorkOrder) (any, error) {
	v := benchCopy{copyHead: head}
	v.Sheets = "to 1/16 in, cut sizes rounded up and others to the nearest"
	if s.metric {
		v.Sheets = "to the millimetre, cut sizes rounded up and others to the nearest"
	}
	patterns, err := drawnCuts(o)
	if err != nil {
		return v, err
	}
	v.TakeOff, v.Strips, v.Forms = s.takeOffs(o), s.pullStrips(o), s.formLines(o)
	s.viewSewing(&v, o, patterns)
	return v, errors.Join(s.viewCuts(&v, o, patterns), s.viewLayouts(&v, o, patterns), s.viewPattern(&v, o, patterns),
		s.viewPanels(&v, patterns), s.viewAssembly(&v, o), s.viewFoam(&v, o))
}

func (s *sheet) viewCuts(v *benchCopy, o job.WorkOrder, patterns []drawnCut) error {
	scales, err := thumbScales(patterns)
	if err != nil {
		return err
	}
	for _, l := range o.CutLines() {
		p := patterns[l.Cuts[0]]
		c := p.cut
		thumb, err := p.thumb(scales[c.Piece])
		if err != nil {
			return err
		}
		i := slices.IndexFunc(v.Groups, func(g cutGroup) bool { return g.Piece == c.Piece })
		if i < 0 {
			i = len(v.Groups)
			v.Groups = append(v.Groups, cutGroup{Piece: c.Piece})
		}
		v.Groups[i].Rows = append(v.Groups[i].Rows, cutRow{Number: numbersOf(l), Count: hands(l.Count, c.Pair), Part: l.Part, Goods: goodsName(o.Purchases, c.Goods), Finished: s.across(c.Finished),
			Cut: s.nbSize(s.cutSize(c.Cut)), Grain: c.Grain, Details: s.lineNote(o, l), Picture: drawing(thumb)})
	}
	v.Notes = s.basisNotes(o)
	return nil
}

// numbersOf gives the numbers that the cuts of a line have on layouts and patterns.
func numbersOf(l job.CutLine) string {
	var out []string
	for _, k := range l.Cuts {
		out = append(out, strconv.Itoa(k+1))
	}
	return strings.Join(out, ", ")
}

// lineNote gives the notes of the cuts of a line, each by its number where they
// differ.
func (s *sheet) lineNote(o job.WorkOrder, l job.CutLine) string {
	var notes []string
	for _, k := range l.Cuts {
		notes = append(notes, s.note(o.Cuts[k]))
	}
	if len(slices.Compact(slices.Clone(notes))) == 1 {
		return notes[0]
	}
	for i, k := range l.Cuts {
		notes[i] = strconv.Itoa(k+1) + ": " + notes[i]
	}
	return strings.Join(notes, ". ")
}

func (s *sheet) viewPanels(v *benchCopy, patterns []drawnCut) error {
	for _, p := range patterns {
		if p.strip() && len(p.Marks) == 0 {
			continue
		}
		c := p.cut
		sizes := "cut " + s.nbSize(s.cutSize(c.Cut))
		if c.Trim != (job.Size{}) && c.Trim != c.Cut {
			sizes += ", trim line " + s.nbSize(s.cutSize(c.Trim))
		}
		if c.Finished != (job.Size{}) {
			sizes += ", finished " + s.across(c.Finished)
		}
		picture, err := s.panelDrawing(p)
		if err != nil {
			return err
		}
		w := panelView{Number: p.number, Name: p.name(), Sizes: sizes, Count: p.Tally(), Picture: drawing(picture), Buttons: s.grid(c)}
		groups := p.edgeGroups()
		for i, g := range groups {
			e := edgeView{Mark: letter(i), Edges: strings.Join(g.names, ", "), Finish: finishOf(p.cut, g.edge), Added: s.margins(g.edge), Length: s.nb(g.long)}
			if len(groups) == 1 {
				e.Mark, e.Edges = "", "all round"
			}
			w.Edges = append(w.Edges, e)
		}
		v.Panels = append(v.Panels, w)
	}
	return nil
}

func (s *sheet) viewSewing(v *benchCopy, o job.WorkOrder, patterns []drawnCut) {
	for _, x := range o.Sewing.SetUps {
		v.SetUps = append(v.SetUps, s.setUp(x))
	}
	if len(v.SetUps) > 0 {
		v.Fibres, v.Threads = s.fibres(o.Sewing), s.threads(o.Sewing)
	}
	for _, p := range patterns {
		if p.cut.Assembly != 0 {
			continue // its seams stand with how it goes together
		}
		groups := p.edgeGroups()
		for _, g := range groups {
			if !g.edge.Finish.Sewn() {
				continue
			}
			edges := strings.Join(g.names, ", ")
			if len(groups) == 1 {
				edges = "all round"
			}
			v.Seams = append(v.Seams, seamView{Number: fmt.Sprint(p.number), Part: p.name(), Edges: edges, Finish: g.edge.Finish.String(),
				Allowance: s.nb(g.edge.Allowance), Length: s.nb(g.long), Count: hands(p.cut.Count, p.cut.Pair), Goods: goodsName(o.Purchases, p.cut.Goods)})
		}
	}
}

func (s *sheet) viewFoam(v *benchCopy, o job.WorkOrder) error {
	v.Why, v.Stock = s.why, s.sheets(o)
	for i, words := range s.foamWords(o.Foam) {
		f, w := o.Foam[i], foamView{foamWords: words}
		plan, err := s.foamPlan(f)
		if err != nil {
			return err
		}
		if plan != "" {
			w.Plan = drawing(plan)
		}
		if s.why {
			curve, err := s.foamDrawing(f)
			if err != nil {
				return err
			}
			w.Curve = drawing(curve)
		} else {
			w.Evidence = nil
		}
		v.Foam = append(v.Foam, w)
	}
	return nil
}
