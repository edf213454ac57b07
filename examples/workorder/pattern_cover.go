package main

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit/caution"
)

// cover has the test square, the key to the lines and the list of pieces.
func (b *patternBook) cover() {
	const left, top = 15.0, 18.0
	w, h := b.newPage("Full-size patterns: " + b.name)
	width := w - 2*left
	b.text(left, top, 16, "B", "L", "Full-size patterns", width)
	b.text(left, top+7, 11, "", "L", b.name, width)
	b.text(left, top+12, 8.5, "", "L", caution.Pointer, width)
	y := top + 16
	side := b.paper.TestSquare().Millimetres()
	b.testSquare(left, y, side)
	// The key and the steps, right of the square.
	end := b.steps(left+side+9, b.key(left+side+9, y+3, left+width)+2, left+width)
	b.list(left, max(y+side+24, end+3), width, h-b.paper.Margin.Millimetres()-b.paper.Foot.Millimetres()-2)
}

// testSquare draws the square and a ruler of four inches under it.
func (b *patternBook) testSquare(left, y, side float64) {
	b.pdf.SetDashPattern(nil, 0)
	b.pdf.SetLineWidth(0.3)
	b.pdf.Rect(left, y, side, side, "D")
	b.text(left+side/2, y+46, 12, "B", "C", "Test square", 0)
	b.text(left+side/2, y+52, 9, "", "C", fmt.Sprintf("Each side must measure %.0f mm.", side), 0)
	b.text(left+side/2, y+57, 9, "", "C", "If not, print again at 100 %", 0)
	b.text(left+side/2, y+62, 9, "", "C", "(“actual size”, not “fit to page”).", 0)
	const inch = 25.4
	for i := range 4*8 + 1 {
		long := 2.0
		switch {
		case i%8 == 0:
			long = 5
		case i%4 == 0:
			long = 3.5
		}
		x := left + float64(i)*inch/8
		b.line(hair, 1, [2]float64{x, y + side + 4}, [2]float64{x, y + side + 4 + long})
		if i%8 == 0 {
			b.text(x, y+side+13, 8, "", "C", strconv.Itoa(i/8), 0)
		}
	}
	b.line(hair, 1, [2]float64{left, y + side + 4}, [2]float64{left + 4*inch, y + side + 4})
	b.text(left+4*inch+4, y+side+8.5, 8, "", "L", "in", 0)
}

// key explains the lines and gives the y below.
func (b *patternBook) key(x, y, right float64) float64 {
	for _, k := range []struct {
		kind pattern.Kind
		text string
	}{
		{pattern.CutLine, "cut line"}, {pattern.TrimLine, "trim line: cut back to it in place"}, {pattern.SeamLine, "seam line or finished edge"},
		{pattern.FoldLine, "fold line of a half"}, {pattern.NotchLine, "notch, from cut to seam line"},
	} {
		if k.kind == pattern.FoldLine && !slices.ContainsFunc(b.drawn, tiledCut.half) {
			continue
		}
		if k.kind == pattern.NotchLine {
			b.line(strokeOf(k.kind), 1, [2]float64{x + 6, y - 3.2}, [2]float64{x + 6, y + 1})
		} else {
			b.line(strokeOf(k.kind), 1, [2]float64{x, y - 1}, [2]float64{x + 13, y - 1})
		}
		y = b.paragraph(x+16, y, right-x-16, 8.5, k.text) + 2.6
	}
	y += 2
	b.line(join, 1, [2]float64{x, y - 1}, [2]float64{x + 13, y - 1})
	b.register(x+6, y-1)
	return b.paragraph(x+16, y, right-x-16, 8.5, "pages join here") + 2.6
}

// steps says how to go about it, and gives the y below.
func (b *patternBook) steps(x, y, right float64) float64 {
	steps := []string{"Print every sheet at 100 %. Measure the square."}
	tiled := slices.ContainsFunc(b.drawn, func(p tiledCut) bool { return len(p.Tiles) > 1 })
	if tiled {
		steps = append(steps, "The foot of a sheet says the piece and the place: rows A, B, … from the top, columns 1, 2, … from the left. The maps show them.",
			"Trim one of two neighbours along the dotted line and lay it on the other, ring on ring, line on line. Tape.")
	}
	if slices.ContainsFunc(b.drawn, func(p tiledCut) bool { return len(p.Gaps) > 0 }) {
		steps = append(steps, "“Rule … on to C2”: straight lines have no sheets. Lay a rule along the line, from tick to tick as far as it says, fix sheet C2 there, and draw every line through.")
	}
	if slices.ContainsFunc(b.drawn, tiledCut.half) {
		steps = append(steps, "A half has its fold line on a fold of the goods. On leather, and on goods with a pattern to match, draw round it, turn it over along the fold line, and draw round it again.")
	}
	steps = append(steps, "Cut out along the thick line. The grain runs along the arrow, and up the sheets of a piece that is on several: up the roll of goods, or along the backbone of a hide.")
	if len(b.drawn) > 0 && !slices.ContainsFunc(b.drawn, func(p tiledCut) bool { return !p.Straight() }) && len(b.shared)+b.tiles == 0 {
		steps = []string{"Every piece of this job is straight: rule it on the goods by its size. With -all they are printed here too."}
	}
	for i, t := range steps {
		b.text(x, y, 8.5, "B", "L", strconv.Itoa(i+1), 0)
		y = b.paragraph(x+5, y, right-x-5, 8.5, t) + 1.2
	}
	return y
}
