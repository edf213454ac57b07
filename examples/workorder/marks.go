package main

import (
	"bytes"
	"fmt"
	"strconv"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/examples/internal/markpage"
	"github.com/coverwright/coverwright/unit/caution"
)

// marksFile is what -format marks writes.
const marksFile = "marks.pdf"

// renderMarks writes the pages of marks that are laid beside a panel and
// photographed with it. It needs no order.
func renderMarks(_ job.WorkOrder, set settings) error {
	book, err := marksPDF(set.paper)
	if err != nil {
		return err
	}
	notice, err := fontNotice(marksFile)
	if err != nil {
		return err
	}
	return folder.Write(set.out, "marks", []folder.File{{Name: marksFile, Data: book}, notice}, set.force)
}

// marksPDF draws two pages, as many as a panel needs at least.
func marksPDF(on pattern.Sheet) ([]byte, error) {
	glyphs, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	b := &patternBook{sheet: &sheet{}, glyphs: glyphs, paper: on}
	b.start("Page of marks")
	for range 2 {
		b.markPage()
	}
	var out bytes.Buffer
	if err := b.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("%s: %w", marksFile, err)
	}
	return undated(out.Bytes()), nil
}

// measured are the lines on the page to check the printer by, and their lengths in
// words.
func measured(on pattern.Sheet) (l markpage.Lines, across, up string) {
	a4, letter := markpage.Measured()
	if on.Name == pattern.Letter().Name {
		return letter, letter.Across.String(), letter.Up.String()
	}
	return a4, fmt.Sprintf("%.0f mm", a4.Across.Millimetres()), fmt.Sprintf("%.0f mm", a4.Up.Millimetres())
}

// markPage draws one page: the marks in the middle of the paper, the words between
// their columns, and the two lines to measure.
func (b *patternBook) markPage() {
	w, h := b.paper.Width.Millimetres(), b.paper.Height.Millimetres()
	b.pdf.AddPage()
	b.page++
	b.marks(w/2, h/2)
	lines, across, up := measured(b.paper)
	b.ruled(w/2-lines.Across.Millimetres()/2, h/2, lines.Across.Millimetres(), false, across)
	const column = 51 // the line up the page, right of the words
	b.ruled(w/2+column, h/2+lines.Up.Millimetres()/2, lines.Up.Millimetres(), true, up)

	left, right := w/2-56, w/2+column-9
	mid := (left + right) / 2
	y := h/2 - 105
	b.text(mid, y, 15, "B", "C", "Page of marks", right-left)
	y = b.paragraph(left, y+8, right-left, 9, "Laid beside a panel and photographed with it, it tells size and slant. "+
		"Print it at 100 %, “actual size”, never “fit to page”.") + 4
	b.pdf.SetLineWidth(1.2)
	b.pdf.SetDashPattern(nil, 0)
	b.pdf.Line(mid, y+16, mid, y+1)
	b.pdf.Line(mid-4, y+6, mid, y)
	b.pdf.Line(mid+4, y+6, mid, y)
	y = b.paragraph(left, y+23, right-left, 9, "This way lies the top of the panel: along the grain, up the goods.") + 2
	for i, s := range []string{
		"Two pages on opposite sides of the panel. Four, at its corners, where it is longer than 1.2 m, or where a small camera is used.",
		"Panel pressed flat, on a plain ground much lighter or darker than itself. Pages flat, whole, a finger's breadth from everything.",
		"Thick goods: lay the pages on scraps of them.",
	} {
		y = b.numbered(left, y, right, i+1, s)
	}
	y = max(y+3, h/2+12)
	for i, s := range []string{
		"Everything in view with a strip of ground all round, and as large as that allows. Straight from above is best; never more slanted than 45°.",
		"Even light from above or two sides. No flash, no shadow along the edge, no shine. Hold still.",
		"An ordinary photo: no panorama, portrait or scan mode, no filter. Send the file itself; chat programs make it small.",
		"Measure the two lines on this page with a steel rule, to half a millimetre, and give both lengths with the photo. Where the printer " +
			"made them longer or shorter, the panel comes out right all the same.",
		"The mark without a dot tells the reader which way the page lies. Cover no mark, and cut none off.",
	} {
		y = b.numbered(left, y, right, i+4, s)
	}
	b.paragraph(left, y+1, right-left, 7.5, caution.Pointer)
}

// numbered writes a step.
func (b *patternBook) numbered(x, y, right float64, n int, s string) float64 {
	b.text(x, y, 9, "B", "L", strconv.Itoa(n), 0)
	return b.paragraph(x+5, y, right-x-5, 9, s) + 1.4
}

// marks draws the marks about the middle of the paper.
func (b *patternBook) marks(x, y float64) {
	across, up := (markpage.Columns-1)*markpage.Across.Millimetres(), (markpage.Rows-1)*markpage.Up.Millimetres()
	r := markpage.Radius.Millimetres()
	for _, m := range markpage.Marks() {
		mx, my := x-across/2+m.At.X.Millimetres(), y+up/2-m.At.Y.Millimetres()
		b.pdf.SetFillColor(0, 0, 0)
		b.pdf.Circle(mx, my, r, "F")
		b.pdf.SetFillColor(255, 255, 255)
		b.pdf.Circle(mx, my, markpage.Inner*r, "F")
		if !m.Odd {
			b.pdf.SetFillColor(0, 0, 0)
			b.pdf.Circle(mx, my, markpage.Dot*r, "F")
		}
	}
}

// ruled draws a line between two ticks, to be measured; the ticks' middles are its
// ends.
func (b *patternBook) ruled(x, y, long float64, upright bool, words string) {
	const tick = 3
	thin := stroke{width: 0.2}
	if upright {
		b.line(thin, 1, [2]float64{x, y}, [2]float64{x, y - long})
		for _, e := range []float64{y, y - long} {
			b.line(thin, 1, [2]float64{x - tick, e}, [2]float64{x + tick, e})
		}
		b.pdf.TransformBegin()
		b.pdf.TransformRotate(90, x-1.5, y-long/2+25)
		b.text(x-1.5, y-long/2+25, 8, "", "L", "measure: "+words, 0)
		b.pdf.TransformEnd()
		return
	}
	b.line(thin, 1, [2]float64{x, y}, [2]float64{x + long, y})
	for _, e := range []float64{x, x + long} {
		b.line(thin, 1, [2]float64{e, y - tick}, [2]float64{e, y + tick})
	}
	b.text(x+long/2, y-1.5, 8, "", "C", "measure: "+words, 0)
}
