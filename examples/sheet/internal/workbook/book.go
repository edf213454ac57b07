// Package workbook writes a quoting workbook from a worked-out job, reads the job
// of its tables back and brings it up to date, and fills in a shop's own.
//
// Whatever a sheet can add up itself stands there as a formula of its own, so
// that a copy goes on computing without this program: cut sizes, areas,
// quantities to buy, board feet, costs, discounts, taxes, payments. What needs
// the library (a layout, the thread of a seam, the choice of foam) stands as a
// figure. A formula is only written where it gives the library's own figure.
package workbook

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
)

// Check is a formula of the workbook with the figure the library has for it.
type Check struct {
	Sheet, Cell string
	Want        float64
	// Step is the quantum the figure must agree to: a cent, a nanometre.
	Step float64
}

// book is a workbook being written. The first error is kept.
type book struct {
	f      *excelize.File
	err    error
	styles map[style]int
	checks []Check
	still  bool // figures in the place of formulas, and no names
}

// style is the look of a cell.
type style struct {
	format string // of numbers
	kind   look
	right  bool
	wrap   bool
	gap    bool // stands off the number to its left
}

type look uint8

const (
	plain look = iota
	title
	heading
	input // a figure to change
	sum
	note
	strong
	alert // must be seen
	rule  // a line to write on
)

const font = "Liberation Sans"

func (s style) bold() bool {
	return s.kind == heading || s.kind == strong || s.kind == alert || s.kind == sum
}

func (b *book) style(s style) int {
	if id, ok := b.styles[s]; ok {
		return id
	}
	x := &excelize.Style{Font: &excelize.Font{Family: font, Size: 10}, Alignment: &excelize.Alignment{Vertical: "top", WrapText: s.wrap}}
	if s.format != "" {
		x.CustomNumFmt = &s.format
	}
	if s.gap {
		x.Alignment.Indent, x.Alignment.Horizontal = 1, "left"
	}
	if s.right {
		x.Alignment.Horizontal = "right"
	}
	line := func(side string, weight int) excelize.Border {
		return excelize.Border{Type: side, Color: "808080", Style: weight} //nolint:misspell // the library's name

	}
	switch s.kind {
	case title:
		x.Font.Size, x.Font.Bold = 16, true
	case heading:
		x.Font.Bold = true
		x.Alignment.WrapText, x.Alignment.Vertical = true, "bottom"
		x.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E4E4E4"}} //nolint:misspell // the library's name
		x.Border = []excelize.Border{line("bottom", 2)}
	case input:
		x.Protection = &excelize.Protection{Locked: false}
		x.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFF6D6"}} //nolint:misspell // the library's name
	case sum:
		x.Font.Bold = true
		x.Border = []excelize.Border{line("top", 1)}
	case strong:
		x.Font.Bold = true
	case alert:
		x.Font.Bold, x.Font.Color = true, "B00000" //nolint:misspell // the library's name
	case rule:
		x.Border = []excelize.Border{line("bottom", 1)}
	case note:
		x.Font.Color, x.Font.Size = "606060", 9 //nolint:misspell // the library's name
	}
	id, err := b.f.NewStyle(x)
	b.keep(err)
	b.styles[s] = id
	return id
}

func (b *book) keep(err error) {
	if b.err == nil && err != nil {
		b.err = err
	}
}

// sheet is one sheet being written, from the top down.
type sheet struct {
	*book
	name    string
	row     int  // the row to write next, from 1
	printed area // what is printed, where that is not all that is written
	// wrapped are the texts that may take several lines, by row.
	wrapped map[int][]wrapped
}

// wrapped is a text that may take several lines.
type wrapped struct {
	first, last int // columns
	text        string
	bold        bool
}

// at names a cell, such as D7.
func at(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return "A1"
	}
	return name
}

// fixed names a cell so that it stays when a formula is copied: $D$7.
func fixed(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row, true)
	if err != nil {
		return "$A$1"
	}
	return name
}

// span names a fixed range of one column.
func span(column, first, last int) string { return fixed(column, first) + ":" + fixed(column, last) }

// of names a cell or range of another sheet.
func (s *sheet) of(ref string) string { return "'" + s.name + "'!" + ref }

// text writes a text. It is stored as a text, whatever it begins with, and is
// never run as a formula.
func (s *sheet) text(column int, v string, st style) {
	if v == "" {
		s.blank(column, st)
		return
	}
	if st.kind == title {
		s.keep(s.f.SetRowHeight(s.name, s.row, 24))
	} else if st.wrap || st.kind == heading {
		s.wrapped[s.row] = append(s.wrapped[s.row], wrapped{column, column, v, st.bold()})
	}
	c := at(column, s.row)
	s.keep(s.f.SetCellStr(s.name, c, v))
	s.keep(s.f.SetCellStyle(s.name, c, c, s.style(st)))
}

// across writes a text over several columns.
func (s *sheet) across(first, last int, v string, st style) {
	s.text(first, v, st)
	for c := first + 1; c <= last; c++ {
		s.blank(c, st)
	}
	s.keep(s.f.MergeCell(s.name, at(first, s.row), at(last, s.row)))
	if n := len(s.wrapped[s.row]); n > 0 && s.wrapped[s.row][n-1].first == first {
		s.wrapped[s.row][n-1].last = last
	}
}

// words writes a formula that gives one text where something was changed and another
// where not; the other is stored beside it when the workbook is written.
func (s *sheet) words(column int, formula string) {
	c := at(column, s.row)
	s.keep(s.f.SetCellDefault(s.name, c, "")) // what stood there is no result
	s.keep(s.f.SetCellFormula(s.name, c, formula))
}

func (s *sheet) blank(column int, st style) {
	c := at(column, s.row)
	s.keep(s.f.SetCellStyle(s.name, c, c, s.style(st)))
}

func (s *sheet) number(column int, v float64, st style) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		s.keep(fmt.Errorf("%s %s: not a finite number", s.name, at(column, s.row)))
		return
	}
	c := at(column, s.row)
	s.keep(s.f.SetCellFloat(s.name, c, v, -1, 64))
	s.keep(s.f.SetCellStyle(s.name, c, c, s.style(st)))
}

// formula writes a formula with the figure the library has for it. The figure
// is stored beside the formula, for programs that only show.
func (s *sheet) formula(column int, formula string, want, step float64, st style) {
	s.number(column, want, st)
	if s.still {
		return
	}
	s.keep(s.f.SetCellFormula(s.name, at(column, s.row), formula))
	s.checks = append(s.checks, Check{s.name, at(column, s.row), want, step})
}

// native writes a formula when it gives the wanted figure, to half a step, as
// sheet says; else the figure alone.
func (s *sheet) native(column int, formula string, gives, want, step float64, st style) {
	if math.Abs(gives-want) < step/2 {
		s.formula(column, formula, want, step, st)
		return
	}
	s.number(column, want, st)
}

// define names the cell in a column of the row being written.
func (s *sheet) define(name string, column int) {
	if s.still {
		return
	}
	s.keep(s.f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: s.of(fixed(column, s.row))}))
}

// headings writes a row of headings; those of numbers begin with a ">".
func (s *sheet) headings(names ...string) {
	after := false // a number
	for i, n := range names {
		n, right := strings.CutPrefix(n, ">")
		s.text(i+1, n, style{kind: heading, right: right, gap: !right && after})
		after = right
	}
	s.row++
}

// page sets paper, print area and columns.
func (s *sheet) page(landscape, letter bool, heads int, widths ...float64) {
	for i, w := range widths {
		name, err := excelize.ColumnNumberToName(i + 1)
		s.keep(err)
		s.keep(s.f.SetColWidth(s.name, name, name, w))
	}
	for _, row := range slices.Sorted(maps.Keys(s.wrapped)) {
		most := 1
		for _, t := range s.wrapped[row] {
			width := 0.0
			for c := t.first; c <= min(t.last, len(widths)); c++ {
				width += widths[c-1]
			}
			most = max(most, t.lines(width))
		}
		if most > 1 {
			s.keep(s.f.SetRowHeight(s.name, row, float64(13*float64(most))+2))
		}
	}
	orientation := "portrait"
	if landscape {
		orientation = "landscape"
	}
	paper, one, many := 9, 1, 0 // A4; one page wide, as many high as it takes
	if letter {
		paper = 1
	}
	s.keep(s.f.SetPageLayout(s.name, &excelize.PageLayoutOptions{Orientation: &orientation, Size: &paper, FitToWidth: &one, FitToHeight: &many}))
	fit := true
	s.keep(s.f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	m, h := 0.6, 0.3
	s.keep(s.f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{Left: &m, Right: &m, Top: &m, Bottom: &m, Header: &h, Footer: &h}))
	s.foot("&A")
	s.guard()
	grid := false
	s.keep(s.f.SetSheetView(s.name, 0, &excelize.ViewOptions{ShowGridLines: &grid}))
	columns, rows := len(widths), max(1, s.row-1)
	if s.printed.rows > 0 {
		columns, rows = s.printed.columns, s.printed.rows
	}
	s.keep(s.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: s.name, RefersTo: s.of("$A$1:" + fixed(columns, rows))}))
	if !s.still {
		s.own(len(widths))
	}
	if heads > 0 {
		s.keep(s.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.name, RefersTo: s.of("$" + strconv.Itoa(heads) + ":$" + strconv.Itoa(heads))}))
		s.keep(s.f.SetPanes(s.name, &excelize.Panes{Freeze: true, YSplit: heads, TopLeftCell: at(1, heads+1), ActivePane: "bottomLeft"}))
	}
}

// own says what of the sheet is written by the program.
func (s *sheet) own(columns int) {
	s.keep(s.f.SetDefinedName(&excelize.DefinedName{Name: carry.OriginName, Scope: s.name, RefersTo: `"` + s.name + `"`}))
	s.keep(s.f.SetDefinedName(&excelize.DefinedName{Name: carry.AreaName, Scope: s.name, RefersTo: s.of("$A$1:" + fixed(columns, max(1, s.row-1)))}))
}

// foot sets what stands below every page, beside its number. How many pages there are
// is said where the sheet stands alone: some programs count those of all sheets.
func (s *sheet) foot(text string) {
	of := ""
	if s.still {
		of = " of &N"
	}
	s.keep(s.f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{OddFooter: "&L&8" + text + "&R&8Page &P" + of}))
}

func (b *book) add(name string) *sheet {
	_, err := b.f.NewSheet(name)
	b.keep(err)
	return newSheet(b, name)
}

func newSheet(b *book, name string) *sheet {
	return &sheet{book: b, name: name, row: 1, wrapped: map[int][]wrapped{}}
}

// lines estimates how many lines the text takes in a column, whose width is
// given in digits.
func (w wrapped) lines(width float64) int {
	// The text is smaller than the digits columns are measured in.
	width *= 1.4
	if w.bold {
		width *= 0.86
	}
	n, used := 1, 0.0
	for _, word := range strings.Fields(w.text) {
		l := float64(len([]rune(word)))
		if used > 0 && used+1+l > width {
			n++
			used = l
			continue
		}
		if used > 0 {
			used++
		}
		used += l
	}
	return n
}

func newBook() *book {
	return &book{f: excelize.NewFile(), styles: map[style]int{}}
}
