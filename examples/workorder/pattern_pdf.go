package main

import (
	"bytes"
	"fmt"
	"regexp"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
)

// patternBook is the PDF of the patterns of a job.
type patternBook struct {
	*sheet
	pdf    *fpdf.Fpdf
	glyphs *sfnt.Font
	buf    sfnt.Buffer
	paper  pattern.Sheet
	name   string
	bookPlan
	page  int // written so far
	total int
}

// patternPDF draws the patterns at full size. The first page has the test square, the
// list and how to put the pages together; then come maps of the pages, the sheets that
// small pieces share, and the pages of the others. The same job gives the same bytes.
func (s *sheet) patternPDF(o job.WorkOrder, cuts []drawnCut, set patternSet) ([]byte, error) {
	glyphs, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	b := &patternBook{sheet: s, glyphs: glyphs, paper: set.paper, name: o.Name}
	if b.bookPlan, err = planBook(cuts, set); err != nil {
		return nil, err
	}
	// Pages before the first pattern are counted by drawing them once.
	front := 0
	for range 2 {
		b.total, b.page = front+len(b.shared)+b.tiles, 0
		b.start("Full-size patterns: " + b.name)
		b.number(front)
		b.cover()
		if err := b.maps(); err != nil {
			return nil, err
		}
		front = b.page
	}
	for _, sh := range b.shared {
		b.sharedSheet(sh)
	}
	for _, p := range b.drawn {
		if err := b.tileAll(p); err != nil {
			return nil, err
		}
	}
	var out bytes.Buffer
	if err := b.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("%s: %w", patternsFile, err)
	}
	return undated(out.Bytes()), nil
}

// undated takes out the day of making, which is no part of what is drawn.
func undated(book []byte) []byte {
	return dates.ReplaceAllFunc(book, func(d []byte) []byte { return bytes.Repeat([]byte(" "), len(d)) })
}

var dates = regexp.MustCompile(`/(Creation|Mod)Date \(D:[0-9]{14}[^)]*\)`)

func (b *patternBook) start(title string) {
	w, h := b.paper.Width.Millimetres(), b.paper.Height.Millimetres()
	b.pdf = fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: w, Ht: h}})
	b.pdf.SetCreationDate(time.Unix(0, 0).UTC())
	b.pdf.SetModificationDate(time.Unix(0, 0).UTC())
	b.pdf.SetCatalogSort(true)
	b.pdf.SetAutoPageBreak(false, 0)
	b.pdf.SetMargins(0, 0, 0)
	b.pdf.SetCellMargin(0)
	b.pdf.SetTitle(b.clean(title), true)
	b.pdf.SetCreator("coverwright", true)
	b.pdf.SetDisplayMode("fullpage", "single")
	b.pdf.AddUTF8FontFromBytes("go", "", goregular.TTF)
	b.pdf.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	b.pdf.SetLineCapStyle("butt")
	b.pdf.SetLineJoinStyle("miter") //nolint:misspell // as the PDF library spells it
}
