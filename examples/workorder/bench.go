package main

import (
	_ "embed"
	"errors"
	"fmt"
	"html/template"

	"github.com/coverwright/coverwright/cost/job"
)

//go:embed bench.html.tmpl
var benchPage string

//go:embed bench.css
var benchStyle string

// benchCopy is what the bench copy shows, in the order of the work: nothing of it is
// money. Figures are text already; drawings are SVG made by package svg.
type benchCopy struct {
	copyHead
	First    firstPage
	Groups   []cutGroup
	Apart    bool // the cut list begins a page
	Sorts    bool // there is more than one piece of furniture
	Notes    []string
	Strips   []string // for pulling
	Layouts  []layoutView
	Fronts   []template.HTML // with the pattern through them
	Landings []landingView
	Panels   []panelView
	TakeOff  []takeOffView
	Covers   []joinedView
	Fibres   []string
	SetUps   []setUpView
	Threads  []string
	Seams    []seamView
	Foam     []foamView
	Stock    []string // sheets of foam to cut from
	Why      bool     // with the evidence
	Forms    []string
	Findings []findingRow
	Sheets   string // how the sizes are rounded
}

// What is longer than this is folded on a screen.
const (
	shortList  = 12 // lines
	longList   = 40
	manyThings = 3 // drawings of a layout, ways to sew a cover
)

func viewBench(s *sheet, head copyHead, o job.WorkOrder) (any, error) {
	head.Style += template.CSS("\n" + benchStyle) //nolint:gosec // our own style sheet
	v := benchCopy{copyHead: head}
	v.Sheets = "to 1/16 in, cut sizes rounded up and others to the nearest"
	if s.metric {
		v.Sheets = "to the millimetre, cut sizes rounded up and others to the nearest"
	}
	cuts, err := drawnCuts(o)
	if err != nil {
		return v, err
	}
	v.TakeOff, v.Strips, v.Findings = s.takeOffs(o), s.pullStrips(o), s.useFindings(o)
	for _, f := range o.Forms {
		v.Forms = append(v.Forms, s.formLine(f))
	}
	s.viewSewing(&v, o, cuts)
	err = errors.Join(s.viewCuts(&v, o, cuts), s.viewLayouts(&v, o, cuts), s.viewPattern(&v, o, cuts), s.viewPanels(&v, o, cuts), s.viewCovers(&v, o), s.viewFoam(&v, o))
	if err == nil {
		v.First, err = s.firstPage(v, o, cuts)
	}
	return v, err
}

// each says how many there are of each of several things, where it is more than one.
func each(names []string, counts map[string]int) string {
	if len(names) == 1 {
		return names[0]
	}
	same := true
	for _, n := range names {
		same = same && counts[n] == counts[names[0]]
	}
	switch {
	case same && counts[names[0]] == 1:
		return together(names)
	case same:
		return fmt.Sprintf("%s: %d each", together(names), counts[names[0]])
	}
	text := ""
	for i, n := range names {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%s %d", n, counts[n])
	}
	return text
}
