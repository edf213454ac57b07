package main

import (
	"errors"
	"flag"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit"
)

// labelFlags are what the command line says about sheets of labels.
type labelFlags struct {
	label, margin, gap   string
	columns, rows, first int
	lines                bool
}

var noLabelFlags = labelFlags{first: 1}

func (f *labelFlags) flags(fs *flag.FlagSet) {
	fs.StringVar(&f.label, "label", "", "labels: size of one, `WIDTHxHEIGHT`; 64 mm x 34 mm on A4 and 4 in x 1 1/4 in on Letter when not given")
	fs.StringVar(&f.margin, "margin", "", "labels: `LEFTxTOP`, from the edges of the paper to the first label, or one length for both; in the middle when not given")
	fs.StringVar(&f.gap, "gap", "", "labels: `ACROSSxDOWN`, between labels, or one length for both; none when not given")
	fs.IntVar(&f.columns, "columns", 0, "labels: side by side; as many as fit when not given")
	fs.IntVar(&f.rows, "rows", 0, "labels: below each other; as many as fit when not given")
	fs.IntVar(&f.first, "first", noLabelFlags.first, "labels: the `place` of the first one, row by row, on a sheet of which some are used")
	fs.BoolVar(&f.lines, "lines", false, "labels: print a line round each, for plain paper")
}

// acrossDown is a size, or a distance both ways.
type acrossDown struct{ across, down unit.Length }

// labelGrid is how labels lie on a sheet.
type labelGrid struct {
	paper, label, margin, gap acrossDown
	columns, rows             int
	first                     int // place of the first label, from 1
	lines                     bool
}

// each is the number of labels on a sheet.
func (g labelGrid) each() int { return g.columns * g.rows }

// sheets is the number of sheets for n labels.
func (g labelGrid) sheets(n int) int { return (g.first - 1 + n + g.each() - 1) / g.each() }

// at gives the upper left corner of a place on its sheet, from the left and the upper
// edge of the paper; i counts from 0.
func (g labelGrid) at(i int) acrossDown {
	column, row := unit.Length(i%g.columns), unit.Length(i/g.columns)
	return acrossDown{g.margin.across + column*(g.label.across+g.gap.across), g.margin.down + row*(g.label.down+g.gap.down)}
}

// Limits of labels. A smaller one does not hold number, count, hand and name in type of
// 6 pt. Printers leave at least leastEdge white.
var leastLabel = acrossDown{25 * unit.Millimetre, 12 * unit.Millimetre}

const leastEdge = 4 * unit.Millimetre

// grid works the flags out for a paper.
func (f labelFlags) grid(paper pattern.Sheet) (labelGrid, error) {
	g := labelGrid{paper: acrossDown{paper.Width, paper.Height}, label: acrossDown{64 * unit.Millimetre, 34 * unit.Millimetre}, first: f.first, lines: f.lines}
	if paper.Name == pattern.Letter().Name {
		g.label = acrossDown{4 * unit.Inch, 5 * unit.Inch / 4}
	}
	if f.label != "" {
		var err error
		if g.label, err = parseAcrossDown("-label", f.label); err != nil {
			return g, err
		}
		if !strings.ContainsAny(f.label, "x×") {
			return g, fmt.Errorf("-label %q: want WIDTHxHEIGHT, such as 64 mm x 34 mm", f.label)
		}
		if g.label.across < leastLabel.across || g.label.down < leastLabel.down {
			return g, fmt.Errorf("-label %q: want at least %s x %s, which hold type that can be read", f.label, exactly(leastLabel.across), exactly(leastLabel.down))
		}
	}
	margin := acrossDown{-1, -1} // in the middle
	for _, of := range []struct {
		flag, text string
		to         *acrossDown
	}{{"-margin", f.margin, &margin}, {"-gap", f.gap, &g.gap}} {
		if of.text == "" {
			continue
		}
		var err error
		if *of.to, err = parseAcrossDown(of.flag, of.text); err != nil {
			return g, err
		}
	}
	var errs [2]error
	g.columns, g.margin.across, errs[0] = alongPaper("columns", "wide", g.paper.across, g.label.across, g.gap.across, margin.across, f.columns)
	g.rows, g.margin.down, errs[1] = alongPaper("rows", "high", g.paper.down, g.label.down, g.gap.down, margin.down, f.rows)
	if err := errors.Join(errs[:]...); err != nil {
		return g, err
	}
	if g.first < 1 || g.first > g.each() {
		return g, fmt.Errorf("-first %d: a sheet has places 1 to %d, %d columns of %d", g.first, g.each(), g.columns, g.rows)
	}
	return g, nil
}

// alongPaper finds how many labels of length l lie one after another on a paper of
// length p with gaps g between them, and the margin m before the first:
//
//	n l + (n-1) g + m ≤ p
//
// A margin below zero is chosen so that they lie in the middle; n of zero is as many as
// leave the margin on both sides, and leastEdge at least where it is chosen.
func alongPaper(what, way string, p, l, g, m unit.Length, n int) (int, unit.Length, error) {
	for _, x := range []unit.Length{l, g, m} {
		if x > p {
			return 0, 0, fmt.Errorf("-%s: a label of %s, a gap of %s, a margin of %s: the paper is %s %s", what, exactly(l), exactly(g), exactly(max(m, 0)), exactly(p), way)
		}
	}
	most := int((p - max(m, 0) + g) / (l + g))
	switch {
	case n < 0 || n > most:
		return 0, 0, fmt.Errorf("-%s %d: labels %s %s with gaps of %s after a margin of %s: the paper, %s %s, holds %d", what, n, exactly(l), way, exactly(g), exactly(max(m, 0)), exactly(p), way, most)
	case n == 0 && m < 0:
		n = int((p - 2*leastEdge + g) / (l + g))
	case n == 0:
		n = int((p - 2*m + g) / (l + g))
	}
	if n < 1 {
		return 0, 0, fmt.Errorf("-%s: no label %s %s fits on paper %s %s between margins of %s", what, exactly(l), way, exactly(p), way, exactly(max(m, leastEdge)))
	}
	if m < 0 {
		m = (p - unit.Length(n)*(l+g) + g) / 2
	}
	return n, m, nil
}

// exactly writes a length of a grid so that two that differ look different.
func exactly(l unit.Length) string {
	if l%(unit.Inch/64) == 0 && l != 0 {
		return l.Mixed(unit.Inch, unit.SixtyFourths, unit.Nearest)
	}
	return millimetres(l) + " mm"
}

// parseAcrossDown reads two lengths with an x between them, or one for both. A unit
// after the second is that of the first too where it has none.
func parseAcrossDown(name, text string) (acrossDown, error) {
	first, second, both := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	if !both {
		second = first
	}
	first, second = strings.TrimSpace(first), strings.TrimSpace(second)
	if first != "" && first[len(first)-1] >= '0' && first[len(first)-1] <= '9' {
		first += " " + strings.TrimLeft(second, "0123456789 ./")
	}
	var out acrossDown
	for _, of := range []struct {
		text string
		to   *unit.Length
	}{{first, &out.across}, {second, &out.down}} {
		l, err := unit.ParseLength(of.text)
		if err != nil {
			return out, fmt.Errorf("%s %q: %w", name, text, err)
		}
		if l < 0 {
			return out, fmt.Errorf("%s %q: want no length below zero", name, text)
		}
		*of.to = l
	}
	return out, nil
}
