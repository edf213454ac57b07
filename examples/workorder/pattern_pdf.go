package main

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// mostTiles is the largest number of pages one piece is spread over; beyond it
// a plotter is the tool, and the SVG and DXF files serve that.
const mostTiles = 150

// patternBook is the PDF of the patterns of a job.
type patternBook struct {
	*sheet
	pdf    *fpdf.Fpdf
	glyphs *sfnt.Font
	buf    sfnt.Buffer
	paper  pattern.Sheet
	name   string
	pages  []tiledCut
	page   int // written so far
	total  int
}

// tiledCut is a piece with its pages.
type tiledCut struct {
	drawnCut
	pattern.Tiling
	first int        // number of its first page in the book; 0 when it has none
	why   string     // why it has none
	also  []drawnCut // others cut by the same pattern
}

// planBook spreads the patterns over pages. Plain rectangles are listed to be
// ruled on the goods, unless all is set.
func planBook(cuts []drawnCut, on pattern.Sheet, all bool) (book []tiledCut, tiles int, err error) {
	for _, p := range cuts {
		t := tiledCut{drawnCut: p}
		twin := slices.IndexFunc(book, func(q tiledCut) bool { return len(q.Tiles) > 0 && p.sameShape(q.drawnCut) })
		switch b := p.Bounds(); {
		case !all && p.Straight():
			t.why = "straight: use a rule"
		case twin >= 0:
			book[twin].also = append(book[twin].also, p)
			t.why = fmt.Sprintf("as no. %d", book[twin].number)
		case float64(b.High.X-b.Low.X)*float64(b.High.Y-b.Low.Y) > mostTiles*float64(on.Width)*float64(on.Height):
			t.why = "too large: use a plotter"
		default:
			if t.Tiling, err = p.Tile(on); err != nil {
				return nil, 0, unit.InField(fmt.Sprintf("cuts[%d]", p.number-1), err)
			}
			tiles += len(t.Tiles)
		}
		book = append(book, t)
	}
	return book, tiles, nil
}

// patternPDF draws the patterns at full size over pages of a paper. The first
// page has the test square, the list and how to put the pages together; then
// come maps of the pages, then the pages. The same job gives the same bytes.
func (s *sheet) patternPDF(o job.WorkOrder, cuts []drawnCut, on pattern.Sheet, all bool) ([]byte, error) {
	glyphs, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	b := &patternBook{sheet: s, glyphs: glyphs, paper: on, name: o.Name}
	var tiles int
	if b.pages, tiles, err = planBook(cuts, on, all); err != nil {
		return nil, err
	}
	// Pages before the first tile are counted by drawing them once.
	front := 0
	for range 2 {
		b.total, b.page = front+tiles, 0
		b.start("Full-size patterns: " + b.name)
		next := front + 1
		for i := range b.pages {
			if p := &b.pages[i]; len(p.Tiles) > 0 {
				p.first = next
				next += len(p.Tiles)
			}
		}
		b.cover()
		b.maps()
		front = b.page
	}
	for _, p := range b.pages {
		b.tiles(p)
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

// clean replaces what the font has no picture of.
func (b *patternBook) clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		if g, err := b.glyphs.GlyphIndex(&b.buf, r); r > 0xffff || err != nil || g == 0 {
			return '?'
		}
		return r
	}, s)
}

// text writes one line at a baseline; align is L, C or R. It is shortened to
// the width it may take.
func (b *patternBook) text(x, y, size float64, style, align, s string, most float64) {
	s = b.clean(s)
	b.pdf.SetFont("go", style, size)
	if most > 0 && b.pdf.GetStringWidth(s) > most {
		r := []rune(s)
		for len(r) > 1 && b.pdf.GetStringWidth(string(r)+"…") > most {
			r = r[:len(r)-1]
		}
		s = string(r) + "…"
	}
	switch align {
	case "C":
		x -= b.pdf.GetStringWidth(s) / 2
	case "R":
		x -= b.pdf.GetStringWidth(s)
	}
	b.pdf.Text(x, y, s)
}

// paragraph writes wrapped text and gives the y below it.
func (b *patternBook) paragraph(x, y, width, size float64, s string) float64 {
	for _, line := range b.wrapped(width, size, "", s) {
		b.pdf.Text(x, y, line)
		y += size * 0.47
	}
	return y
}

// wrapped breaks text into lines of at most a width, between words and, where
// one is too long for a line, inside it. The font stays set.
func (b *patternBook) wrapped(width, size float64, style, s string) []string {
	b.pdf.SetFont("go", style, size)
	var lines []string
	line := ""
	for _, word := range strings.Fields(b.clean(s)) {
		if next := strings.TrimSpace(line + " " + word); b.pdf.GetStringWidth(next) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		r := []rune(word)
		for b.pdf.GetStringWidth(string(r)) > width && len(r) > 1 {
			k := len(r) - 1
			for k > 1 && b.pdf.GetStringWidth(string(r[:k])) > width {
				k--
			}
			lines, r = append(lines, string(r[:k])), r[k:]
		}
		line = string(r)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// stroke is how a line is drawn, in mm.
type stroke struct {
	width float64
	dash  []float64
}

// strokeOf gives the pen of a line of a pattern.
func strokeOf(k pattern.Kind) stroke {
	width, dash := k.Pen()
	s := stroke{width: width.Millimetres()}
	for _, d := range dash {
		s.dash = append(s.dash, d.Millimetres())
	}
	return s
}

var (
	hair = stroke{width: 0.15}
	join = stroke{width: 0.15, dash: []float64{0.5, 1.5}}
)

func (b *patternBook) line(pen stroke, scale float64, points ...[2]float64) {
	b.pdf.SetLineWidth(pen.width * scale)
	dash := make([]float64, len(pen.dash))
	for i, d := range pen.dash {
		dash[i] = d * scale
	}
	b.pdf.SetDashPattern(dash, 0)
	for i, q := range points {
		if i == 0 {
			b.pdf.MoveTo(q[0], q[1])
		} else {
			b.pdf.LineTo(q[0], q[1])
		}
	}
	b.pdf.DrawPath("D")
}

// outline draws a line of a pattern where at puts its points.
func (b *patternBook) outline(l pattern.Line, scale float64, at func(shape.Point) [2]float64) {
	points := make([][2]float64, 0, len(l.Points)+1)
	for _, q := range l.Points {
		points = append(points, at(q))
	}
	if l.Closed {
		points = append(points, points[0])
	}
	b.line(strokeOf(l.Kind), scale, points...)
}

// newPage begins a page with its foot line.
func (b *patternBook) newPage(landscape bool, foot string) (w, h float64) {
	w, h = b.paper.Width.Millimetres(), b.paper.Height.Millimetres()
	if landscape {
		w, h = h, w
	}
	b.pdf.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h})
	b.page++
	y := h - b.paper.Margin.Millimetres() - 1.5
	n := fmt.Sprintf("sheet %d of %d", b.page, b.total)
	b.text(w-b.paper.Margin.Millimetres(), y, 9, "", "R", n, 0)
	b.text(b.paper.Margin.Millimetres(), y, 9, "B", "L", foot, w-2*b.paper.Margin.Millimetres()-b.pdf.GetStringWidth(n)-6)
	return w, h
}

// cover has the test square, the key to the lines and the list of pieces.
func (b *patternBook) cover() {
	const left, top = 15.0, 18.0
	w, h := b.newPage(false, "Full-size patterns: "+b.name)
	width := w - 2*left
	b.text(left, top, 16, "B", "L", "Full-size patterns", width)
	b.text(left, top+7, 11, "", "L", b.name, width)
	b.text(left, top+12, 8.5, "", "L", caution.Pointer, width)
	y := top + 16
	side := b.paper.TestSquare().Millimetres()
	b.testSquare(left, y, side)
	// The key and the steps, right of the square.
	b.steps(left+side+9, b.key(left+side+9, y+3, left+width)+2, left+width)
	b.list(left, y+side+24, width, h-b.paper.Margin.Millimetres()-b.paper.Foot.Millimetres()-2)
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
		{pattern.NotchLine, "notch, from cut to seam line"},
	} {
		if k.kind == pattern.NotchLine {
			b.line(strokeOf(k.kind), 1, [2]float64{x + 6, y - 3.2}, [2]float64{x + 6, y + 1})
		} else {
			b.line(strokeOf(k.kind), 1, [2]float64{x, y - 1}, [2]float64{x + 13, y - 1})
		}
		y = b.paragraph(x+16, y, right-x-16, 8.5, k.text) + 2.6
	}
	b.line(join, 1, [2]float64{x, y - 1}, [2]float64{x + 13, y - 1})
	b.register(x+6, y-1)
	return b.paragraph(x+16, y, right-x-16, 8.5, "pages join here") + 2.6
}

// steps says how to go about it.
func (b *patternBook) steps(x, y, right float64) {
	steps := []string{
		"Print every sheet at 100 %. Measure the square.",
		"The foot of a sheet says the piece and the place: rows A, B, … from the top, columns 1, 2, … from the left. The maps show them.",
		"Trim one of two neighbours along the dotted line and lay it on the other, ring on ring, line on line. Tape.",
		"Cut out along the thick line. The arrow lies along the grain: up the roll, or along the backbone of a hide.",
	}
	if len(b.pages) > 0 && !slices.ContainsFunc(b.pages, func(p tiledCut) bool { return len(p.Tiles) > 0 }) {
		steps = []string{"Every piece of this job is straight: rule it on the goods by its size. With -all they are printed here too."}
	}
	for i, t := range steps {
		b.text(x, y, 8.5, "B", "L", strconv.Itoa(i+1), 0)
		y = b.paragraph(x+5, y, right-x-5, 8.5, t) + 1.4
	}
}

// listRow is the height of a line of the list, in mm; its type has 8.5 pt.
const (
	listType = 8.5
	listLine = 4.0
	listGap  = 4.0 // between columns
)

// list writes the pieces with their sheets, on further pages where they are
// many. Nothing in it is cut short: it is what straight pieces are ruled by.
func (b *patternBook) list(left, y, width, bottom float64) {
	head := []string{"no.", "piece", "cut", "goods", "cut size", "sheets"}
	rows := make([][]string, len(b.pages))
	for i, p := range b.pages {
		rows[i] = b.row(p)
	}
	wide := b.columns(append([][]string{head}, rows...), width)
	write := func(style string, cells [][]string) {
		b.pdf.SetFont("go", style, listType)
		x, high := left, 0
		for i, lines := range cells {
			for k, l := range lines {
				b.pdf.Text(x, y+float64(k)*listLine, l)
			}
			x, high = x+wide[i]+listGap, max(high, len(lines))
		}
		y += float64(high)*listLine + 0.6
	}
	cells := func(style string, row []string) [][]string {
		out := make([][]string, len(row))
		for i, c := range row {
			out[i] = b.wrapped(wide[i], listType, style, c)
		}
		return out
	}
	begin := func() {
		write("B", cells("B", head))
		b.line(hair, 1, [2]float64{left, y - 3.5}, [2]float64{left + width, y - 3.5})
		y++
	}
	begin()
	for _, r := range rows {
		c, high := cells("", r), 0
		for _, lines := range c {
			high = max(high, len(lines))
		}
		if y+float64(high-1)*listLine > bottom {
			b.newPage(false, "Full-size patterns: "+b.name)
			y = 18
			begin()
		}
		write("", c)
	}
}

// row is what the list says of a piece.
func (b *patternBook) row(p tiledCut) []string {
	sheets := p.why
	switch n := len(p.Tiles); {
	case n == 1:
		sheets = strconv.Itoa(p.first)
	case n > 1:
		sheets = fmt.Sprintf("%d to %d (%d × %d)", p.first, p.first+n-1, p.Rows, p.Columns)
	}
	return []string{strconv.Itoa(p.number), p.name(), hands(p.cut.Count, p.Pair), p.cut.Goods, b.cutSize(p.cut.Cut), sheets}
}

// columns shares the width of the list out: columns of figures take what they
// need, and those of names what they need or their part of the rest.
func (b *patternBook) columns(rows [][]string, width float64) []float64 {
	const piece, goods = 1, 3
	wide := make([]float64, len(rows[0]))
	for i, r := range rows {
		style := ""
		if i == 0 {
			style = "B"
		}
		b.pdf.SetFont("go", style, listType)
		for k, c := range r {
			wide[k] = max(wide[k], b.pdf.GetStringWidth(b.clean(c))+0.1)
		}
	}
	rest := width - listGap*float64(len(wide)-1)
	for i, w := range wide {
		if i != piece && i != goods {
			rest -= w
		}
	}
	rest = max(rest, 20)
	if wide[piece]+wide[goods] > rest {
		wide[goods] = min(wide[goods], max(rest/3, rest-wide[piece]))
		wide[piece] = rest - wide[goods]
	}
	return wide
}

// maps shows each tiled piece with the grid of its pages.
func (b *patternBook) maps() {
	const left, top, across, down, gap = 15.0, 15.0, 2, 3, 8.0
	k := 0
	for _, p := range b.pages {
		if len(p.Tiles) < 2 {
			continue
		}
		var w, h float64
		if k%(across*down) == 0 {
			w, h = b.newPage(false, "Page maps: "+b.name)
		} else {
			w, h = b.paper.Width.Millimetres(), b.paper.Height.Millimetres()
		}
		cw := (w - 2*left - (across-1)*gap) / across
		ch := (h - 2*top - b.paper.Foot.Millimetres() - (down-1)*gap) / down
		i := k % (across * down)
		b.pageMap(p, left+float64(i%across)*(cw+gap), top+float64(i/across)*(ch+gap), cw, ch)
		k++
	}
}

func (b *patternBook) pageMap(p tiledCut, x, y, w, h float64) {
	b.text(x, y+3.5, 9, "B", "L", fmt.Sprintf("%d  %s", p.number, p.name()), w)
	sheets := fmt.Sprintf("sheets %d to %d, %s", p.first, p.first+len(p.Tiles)-1, p.Tally())
	b.text(x, y+8, 8, "", "L", sheets, w)
	y, h = y+11, h-11
	low, high := p.Grid.Low, p.Grid.High
	gw, gh := (high.X - low.X).Millimetres(), (high.Y - low.Y).Millimetres()
	lap := p.Sheet.Overlap.Millimetres()
	scale := min(w/(gw+lap), h/(gh+lap))
	x0, y0 := x+(w-gw*scale)/2, y+(h-gh*scale)/2
	at := func(q shape.Point) [2]float64 {
		return [2]float64{x0 + (q.X-low.X).Millimetres()*scale, y0 + (high.Y-q.Y).Millimetres()*scale}
	}
	for _, t := range p.Tiles {
		c, d := at(t.Cell.Low), at(t.Cell.High)
		cw, ch := d[0]-c[0], c[1]-d[1]
		b.pdf.SetLineWidth(0.15)
		b.pdf.SetDashPattern(nil, 0)
		b.pdf.SetDrawColor(130, 130, 130)
		b.pdf.Rect(c[0], d[1], cw, ch, "D")
		b.pdf.SetDrawColor(0, 0, 0)
		b.pdf.SetTextColor(110, 110, 110)
		b.text(c[0]+cw/2, d[1]+ch/2+1.2, min(9, ch*1.2), "", "C", t.Label, 0)
		b.pdf.SetTextColor(0, 0, 0)
	}
	for _, l := range p.Lines() {
		b.outline(l, 0.6, at)
	}
}

// register draws a ring with a cross, which comes to lie on its like.
func (b *patternBook) register(x, y float64) {
	const arm, ring = 4.0, 2.0
	b.line(hair, 1, [2]float64{x - arm, y}, [2]float64{x + arm, y})
	b.line(hair, 1, [2]float64{x, y - arm}, [2]float64{x, y + arm})
	b.pdf.Circle(x, y, ring, "D")
}

// tiles writes the pages of a pattern.
func (b *patternBook) tiles(p tiledCut) {
	letters := p.Lettering()
	named := p.labelTile()
	for i, t := range p.Tiles {
		b.tile(p, t, letters, i == named)
	}
}

// tile writes one page of a pattern.
func (b *patternBook) tile(p tiledCut, t pattern.Tile, letters []pattern.Lettering, named bool) {
	foot := fmt.Sprintf("%d %s   %s", p.number, p.name(), p.Tally())
	if len(p.Tiles) > 1 {
		foot = t.Label + "   " + foot
	}
	b.newPage(p.Across, foot)
	at := func(q shape.Point) [2]float64 {
		return [2]float64{q.X.Millimetres(), (p.Sheet.Height - q.Y).Millimetres()}
	}
	b.joins(t, at)
	for _, l := range t.Lines(p.Lines()) {
		b.outline(l, 1, at)
	}
	b.lettering(letters, t, at)
	if named {
		place, room := p.Room(t.Cell)
		b.label(p, at(shape.Point{X: place.X + t.Shift.X, Y: place.Y + t.Shift.Y}), room.Millimetres())
	}
}

// lettering writes what stands along the edges, as far as the page shows them.
func (b *patternBook) lettering(letters []pattern.Lettering, t pattern.Tile, at func(shape.Point) [2]float64) {
	low, high := at(shape.Point{X: t.Window.Low.X + t.Shift.X, Y: t.Window.Low.Y + t.Shift.Y}), at(shape.Point{X: t.Window.High.X + t.Shift.X, Y: t.Window.High.Y + t.Shift.Y})
	b.pdf.ClipRect(low[0], high[1], high[0]-low[0], low[1]-high[1], false)
	for _, l := range letters {
		// A text that the window only touches is left to the next page.
		if reach := l.Long/2 + l.Size; l.At.X < t.Window.Low.X-reach || l.At.X > t.Window.High.X+reach || l.At.Y < t.Window.Low.Y-reach || l.At.Y > t.Window.High.Y+reach {
			continue
		}
		c := at(shape.Point{X: l.At.X + t.Shift.X, Y: l.At.Y + t.Shift.Y})
		size := l.Size.Millimetres()
		b.pdf.TransformBegin()
		b.pdf.TransformRotate(float64(l.Turn), c[0], c[1])
		b.text(c[0], c[1]+0.35*size, size/25.4*72, "", "C", l.Text, 0)
		b.pdf.TransformEnd()
	}
	b.pdf.ClipEnd()
}

// label writes what is on the piece, and on others that it serves for.
func (b *patternBook) label(p tiledCut, at [2]float64, room float64) {
	texts := p.Texts(b.units())
	for _, q := range p.also {
		texts = append(texts, fmt.Sprintf("%s, %s", q.Name, q.Tally()))
	}
	size := min(14, room*2.83/(0.8*float64(len(texts))))
	b.pdf.SetFont("go", "", 10)
	for _, s := range texts {
		size = min(size, 10*1.9*room/math.Max(b.pdf.GetStringWidth(b.clean(s)), 1))
	}
	size = max(size, 4) // better across a line than left out
	for i, s := range texts {
		style := ""
		if i == 0 {
			style = "B"
		}
		b.text(at[0], at[1]+size*(0.45*(float64(i)-float64(len(texts)-1)/2)+0.12), size, style, "C", s, 0)
	}
}

// labelTile is the page with the most room for the name of the piece.
func (p tiledCut) labelTile() int {
	best := 0
	var most unit.Length = -1
	for i, t := range p.Tiles {
		if _, room := p.Room(t.Cell); room > most+most/20 {
			best, most = i, room
		}
	}
	return best
}

// joins draws the lines along which a page meets its neighbours, the rings that
// come to lie on each other, and which page goes on there.
func (b *patternBook) joins(t pattern.Tile, at func(shape.Point) [2]float64) {
	for _, j := range t.Joins {
		from, to := at(j.From), at(j.To)
		b.line(join, 1, from, to)
		dx, dy := to[0]-from[0], to[1]-from[1]
		for _, f := range []float64{0.25, 0.75} {
			b.register(from[0]+f*dx, from[1]+f*dy)
		}
		// Inwards is on the left; the page runs down.
		long := math.Hypot(dx, dy)
		b.text((from[0]+to[0])/2+4*dy/long, (from[1]+to[1])/2-4*dx/long+1.2, 9, "", "C", j.Label, 0)
	}
}
