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
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
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
	paper  paper
	name   string
	pages  []tiledPattern
	page   int // written so far
	total  int
}

// tiledPattern is a pattern with its pages.
type tiledPattern struct {
	pattern
	tiling
	first int       // number of its first page in the book; 0 when it has none
	why   string    // why it has none
	also  []pattern // others cut by the same pattern
}

// planBook spreads the patterns over pages. Plain rectangles are listed to be
// ruled on the goods, unless all is set.
func planBook(patterns []pattern, sheet paper, all bool) (book []tiledPattern, tiles int) {
	for _, p := range patterns {
		t := tiledPattern{pattern: p}
		twin := slices.IndexFunc(book, func(q tiledPattern) bool { return len(q.tiles) > 0 && p.sameShape(q.pattern) })
		switch low, high := p.bounds(); {
		case !all && !p.shaped:
			t.why = "straight: use a rule"
		case twin >= 0:
			book[twin].also = append(book[twin].also, p)
			t.why = fmt.Sprintf("as no. %d", book[twin].number)
		case float64(high.X-low.X)*float64(high.Y-low.Y) > mostTiles*float64(sheet.width)*float64(sheet.height):
			t.why = "too large: use a plotter"
		default:
			t.tiling = tileOn(p, sheet)
			tiles += len(t.tiles)
		}
		book = append(book, t)
	}
	return book, tiles
}

// patternPDF draws the patterns at full size over pages of a paper. The first
// page has the test square, the list and how to put the pages together; then
// come maps of the pages, then the pages. The same job gives the same bytes.
func (s *sheet) patternPDF(o job.WorkOrder, patterns []pattern, sheet paper, all bool) ([]byte, error) {
	glyphs, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	b := &patternBook{sheet: s, glyphs: glyphs, paper: sheet, name: o.Name}
	var tiles int
	b.pages, tiles = planBook(patterns, sheet, all)
	// Pages before the first tile are counted by drawing them once.
	front := 0
	for range 2 {
		b.total, b.page = front+tiles, 0
		b.start()
		next := front + 1
		for i := range b.pages {
			if p := &b.pages[i]; len(p.tiles) > 0 {
				p.first = next
				next += len(p.tiles)
			}
		}
		b.cover()
		b.maps()
		front = b.page
	}
	for _, p := range b.pages {
		for i := range p.tiles {
			b.tile(p, i)
		}
	}
	var out bytes.Buffer
	if err := b.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("patterns.pdf: %w", err)
	}
	// The day of making is no part of the patterns.
	return dates.ReplaceAllFunc(out.Bytes(), func(d []byte) []byte { return bytes.Repeat([]byte(" "), len(d)) }), nil
}

var dates = regexp.MustCompile(`/(Creation|Mod)Date \(D:[0-9]{14}[^)]*\)`)

func (b *patternBook) start() {
	w, h := b.paper.width.Millimetres(), b.paper.height.Millimetres()
	b.pdf = fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: w, Ht: h}})
	b.pdf.SetCreationDate(time.Unix(0, 0).UTC())
	b.pdf.SetModificationDate(time.Unix(0, 0).UTC())
	b.pdf.SetCatalogSort(true)
	b.pdf.SetAutoPageBreak(false, 0)
	b.pdf.SetMargins(0, 0, 0)
	b.pdf.SetCellMargin(0)
	b.pdf.SetTitle(b.clean("Full-size patterns: "+b.name), true)
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
	b.pdf.SetFont("go", "", size)
	line := ""
	flush := func() {
		if line != "" {
			b.pdf.Text(x, y, line)
			y += size * 0.47
		}
		line = ""
	}
	for _, word := range strings.Fields(b.clean(s)) {
		if line != "" && b.pdf.GetStringWidth(line+" "+word) > width {
			flush()
		}
		line = strings.TrimSpace(line + " " + word)
	}
	flush()
	return y
}

func (b *patternBook) line(kind lineKind, scale float64, points ...[2]float64) {
	b.pdf.SetLineWidth(kind.width * scale)
	dash := make([]float64, len(kind.dash))
	for i, d := range kind.dash {
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

var hairKind = lineKind{width: 0.15}

// newPage begins a page with its foot line.
func (b *patternBook) newPage(landscape bool, foot string) (w, h float64) {
	w, h = b.paper.width.Millimetres(), b.paper.height.Millimetres()
	if landscape {
		w, h = h, w
	}
	b.pdf.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h})
	b.page++
	y := h - pageEdge.Millimetres() - 1.5
	n := fmt.Sprintf("sheet %d of %d", b.page, b.total)
	b.text(w-pageEdge.Millimetres(), y, 9, "", "R", n, 0)
	b.text(pageEdge.Millimetres(), y, 9, "B", "L", foot, w-2*pageEdge.Millimetres()-b.pdf.GetStringWidth(n)-6)
	return w, h
}

// cover has the test square, the key to the lines and the list of pieces.
func (b *patternBook) cover() {
	const left, top = 15.0, 18.0
	w, h := b.newPage(false, "Full-size patterns: "+b.name)
	width := w - 2*left
	b.text(left, top, 16, "B", "L", "Full-size patterns", width)
	b.text(left, top+7, 11, "", "L", b.name, width)
	y := top + 16
	// The test square and the ruler beside it.
	const side = 100.0
	b.pdf.SetDashPattern(nil, 0)
	b.pdf.SetLineWidth(0.3)
	b.pdf.Rect(left, y, side, side, "D")
	b.text(left+side/2, y+46, 12, "B", "C", "Test square", 0)
	b.text(left+side/2, y+52, 9, "", "C", "Each side must measure 100 mm.", 0)
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
		b.line(hairKind, 1, [2]float64{x, y + side + 4}, [2]float64{x, y + side + 4 + long})
		if i%8 == 0 {
			b.text(x, y+side+13, 8, "", "C", strconv.Itoa(i/8), 0)
		}
	}
	b.line(hairKind, 1, [2]float64{left, y + side + 4}, [2]float64{left + 4*inch, y + side + 4})
	b.text(left+4*inch+4, y+side+8.5, 8, "", "L", "in", 0)
	// The key and the steps, right of the square.
	x := left + side + 9
	ky := y + 3
	for _, k := range []struct {
		kind lineKind
		text string
	}{
		{cutKind, "cut line"}, {trimKind, "trim line: cut back to it in place"}, {seamKind, "seam line or finished edge"}, {notchKind, "notch, from cut to seam line"}, {hairKind, "pages join here"},
	} {
		if k.kind.name == notchKind.name {
			b.line(notchKind, 1, [2]float64{x + 6, ky - 3.2}, [2]float64{x + 6, ky + 1})
		} else if k.kind.name == "" {
			b.line(joinKind, 1, [2]float64{x, ky - 1}, [2]float64{x + 13, ky - 1})
			b.register(x+6, ky-1)
		} else {
			b.line(k.kind, 1, [2]float64{x, ky - 1}, [2]float64{x + 13, ky - 1})
		}
		ky = b.paragraph(x+16, ky, left+width-x-16, 8.5, k.text) + 2.6
	}
	ky += 2
	steps := []string{
		"Print every sheet at 100 %. Measure the square.",
		"The foot of a sheet says the piece and the place: rows A, B, … from the top, columns 1, 2, … from the left. The maps show them.",
		"Trim one of two neighbours along the dotted line and lay it on the other, ring on ring, line on line. Tape.",
		"Cut out along the thick line. The arrow lies along the grain: up the roll, or along the backbone of a hide.",
	}
	if len(b.pages) > 0 && !slices.ContainsFunc(b.pages, func(p tiledPattern) bool { return len(p.tiles) > 0 }) {
		steps = []string{"Every piece of this job is straight: rule it on the goods by its size. With -all they are printed here too."}
	}
	for i, t := range steps {
		b.text(x, ky, 8.5, "B", "L", strconv.Itoa(i+1), 0)
		ky = b.paragraph(x+5, ky, left+width-x-5, 8.5, t) + 1.4
	}
	y += side + 24
	b.list(left, y, width, h-pageEdge.Millimetres()-pageFoot.Millimetres()-2)
}

// list writes the pieces with their sheets, on further pages where they are many.
func (b *patternBook) list(left, y, width, bottom float64) {
	columns := []float64{0, 9, 9 + 0.40*(width-9), 9 + 0.54*(width-9), 9 + 0.66*(width-9), 9 + 0.81*(width-9)}
	row := func(style string, cells ...string) {
		for i, c := range cells {
			next := width
			if i+1 < len(columns) {
				next = columns[i+1]
			}
			b.text(left+columns[i], y, 8.5, style, "L", c, next-columns[i]-2)
		}
		y += 4.6
	}
	head := func() {
		row("B", "no.", "piece", "cut", "goods", "cut size", "sheets")
		b.line(hairKind, 1, [2]float64{left, y - 3.5}, [2]float64{left + width, y - 3.5})
		y++
	}
	head()
	for _, p := range b.pages {
		if y > bottom {
			b.newPage(false, "Full-size patterns: "+b.name)
			y = 18
			head()
		}
		sheets := p.why
		switch n := len(p.tiles); {
		case n == 1:
			sheets = strconv.Itoa(p.first)
		case n > 1:
			sheets = fmt.Sprintf("%d to %d (%d × %d)", p.first, p.first+n-1, p.rows, p.columns)
		}
		count := strconv.Itoa(p.cut.Count)
		if p.cut.Pair {
			count = fmt.Sprintf("%d + %d mirrored", p.cut.Count-p.cut.Count/2, p.cut.Count/2)
		}
		row("", strconv.Itoa(p.number), p.name(), count, p.cut.Goods, b.size(p.cut.Cut), sheets)
	}
}

// maps shows each tiled piece with the grid of its pages.
func (b *patternBook) maps() {
	const left, top, across, down, gap = 15.0, 15.0, 2, 3, 8.0
	k := 0
	for _, p := range b.pages {
		if len(p.tiles) < 2 {
			continue
		}
		var w, h float64
		if k%(across*down) == 0 {
			w, h = b.newPage(false, "Page maps: "+b.name)
		} else {
			w, h = b.paper.width.Millimetres(), b.paper.height.Millimetres()
		}
		cw := (w - 2*left - (across-1)*gap) / across
		ch := (h - 2*top - pageFoot.Millimetres() - (down-1)*gap) / down
		i := k % (across * down)
		b.pageMap(p, left+float64(i%across)*(cw+gap), top+float64(i/across)*(ch+gap), cw, ch)
		k++
	}
}

func (b *patternBook) pageMap(p tiledPattern, x, y, w, h float64) {
	b.text(x, y+3.5, 9, "B", "L", fmt.Sprintf("%d  %s", p.number, p.name()), w)
	sheets := fmt.Sprintf("sheets %d to %d, %s", p.first, p.first+len(p.tiles)-1, p.count())
	b.text(x, y+8, 8, "", "L", sheets, w)
	y, h = y+11, h-11
	gw, gh := (p.cell.X * unit.Length(p.columns)).Millimetres(), (p.cell.Y * unit.Length(p.rows)).Millimetres()
	lap := 2 * halfLap.Millimetres()
	scale := min(w/(gw+lap), h/(gh+lap))
	x0 := x + (w-gw*scale)/2
	y0 := y + (h-gh*scale)/2
	at := func(q shape.Point) [2]float64 {
		return [2]float64{x0 + (q.X-p.origin.X).Millimetres()*scale, y0 + (gh-(q.Y-p.origin.Y).Millimetres())*scale}
	}
	cw, ch := p.cell.X.Millimetres()*scale, p.cell.Y.Millimetres()*scale
	for _, t := range p.tiles {
		c := at(shape.Point{X: t.low.X, Y: t.high.Y})
		b.pdf.SetLineWidth(0.15)
		b.pdf.SetDashPattern(nil, 0)
		b.pdf.SetDrawColor(130, 130, 130)
		b.pdf.Rect(c[0], c[1], cw, ch, "D")
		b.pdf.SetDrawColor(0, 0, 0)
		b.pdf.SetTextColor(110, 110, 110)
		b.text(c[0]+cw/2, c[1]+ch/2+1.2, min(9, ch*1.2), "", "C", t.label(), 0)
		b.pdf.SetTextColor(0, 0, 0)
	}
	for _, l := range p.lines() {
		var points [][2]float64
		for _, q := range l.points {
			points = append(points, at(q))
		}
		if l.closed {
			points = append(points, points[0])
		}
		b.line(l.kind, 0.6, points...)
	}
}

var joinKind = lineKind{width: 0.15, dash: []float64{0.5, 1.5}}

// register draws a ring with a cross, which comes to lie on its like.
func (b *patternBook) register(x, y float64) {
	const arm, ring = 4.0, 2.0
	b.line(hairKind, 1, [2]float64{x - arm, y}, [2]float64{x + arm, y})
	b.line(hairKind, 1, [2]float64{x, y - arm}, [2]float64{x, y + arm})
	b.pdf.Circle(x, y, ring, "D")
}

// tile writes one page of a pattern.
func (b *patternBook) tile(p tiledPattern, i int) {
	t := p.tiles[i]
	foot := fmt.Sprintf("%s   %d %s   %s", t.label(), p.number, p.name(), p.count())
	if len(p.tiles) == 1 {
		foot = strings.TrimLeft(strings.TrimPrefix(foot, t.label()), " ")
	}
	b.newPage(p.landscape, foot)
	low, high := t.frame()
	at := func(q shape.Point) [2]float64 {
		return [2]float64{(pageEdge + q.X - low.X).Millimetres(), (pageEdge + high.Y - q.Y).Millimetres()}
	}
	b.joins(p, t, at)
	for _, l := range p.lines() {
		for _, run := range clipLine(l, low, high) {
			var points [][2]float64
			for _, q := range run {
				points = append(points, at(q))
			}
			b.line(l.kind, 1, points...)
		}
	}
	if t == p.labelTile() {
		place, room := p.clear(t.low, t.high)
		c := at(place)
		texts := b.patternTexts(p.pattern)
		for _, q := range p.also {
			texts = append(texts, fmt.Sprintf("%d  %s, %s", q.number, q.cut.Part, q.count()))
		}
		size := min(14, room.Millimetres()*2.83/(0.8*float64(len(texts))))
		for _, s := range texts {
			b.pdf.SetFont("go", "", 10)
			size = min(size, 10*1.9*room.Millimetres()/math.Max(b.pdf.GetStringWidth(b.clean(s)), 1))
		}
		if size >= 4 {
			for i, s := range texts {
				style := ""
				if i == 0 {
					style = "B"
				}
				b.text(c[0], c[1]+size*(0.45*(float64(i)-float64(len(texts)-1)/2)+0.12), size, style, "C", s, 0)
			}
		}
	}
}

// labelTile is the page with the most room for the name of the piece.
func (p tiledPattern) labelTile() tile {
	var best tile
	var most unit.Length = -1
	for _, t := range p.tiles {
		if _, room := p.clear(t.low, t.high); room > most+most/20 {
			best, most = t, room
		}
	}
	return best
}

// joins draws the lines along which a page meets its neighbours, the rings that
// come to lie on each other, and which page goes on there.
func (b *patternBook) joins(p tiledPattern, t tile, at func(shape.Point) [2]float64) {
	there := map[[2]int]bool{}
	for _, q := range p.tiles {
		there[[2]int{q.row, q.column}] = true
	}
	a, z := at(shape.Point{X: t.low.X, Y: t.high.Y}), at(shape.Point{X: t.high.X, Y: t.low.Y})
	for _, side := range []struct {
		row, column    int
		x1, y1, x2, y2 float64
		dx, dy         float64 // from the line to the name of the neighbour, inwards
	}{
		{t.row - 1, t.column, a[0], a[1], z[0], a[1], 0, 5},
		{t.row + 1, t.column, a[0], z[1], z[0], z[1], 0, -2},
		{t.row, t.column - 1, a[0], a[1], a[0], z[1], 4, 1.2},
		{t.row, t.column + 1, z[0], a[1], z[0], z[1], -4, 1.2},
	} {
		if !there[[2]int{side.row, side.column}] {
			continue
		}
		b.line(joinKind, 1, [2]float64{side.x1, side.y1}, [2]float64{side.x2, side.y2})
		for _, f := range []float64{0.25, 0.75} {
			b.register(side.x1+f*(side.x2-side.x1), side.y1+f*(side.y2-side.y1))
		}
		b.text((side.x1+side.x2)/2+side.dx, (side.y1+side.y2)/2+side.dy, 9, "", "C", tileLabel(side.row, side.column), 0)
	}
}

// tileLabel names a page: rows A to Z, AA and so on, columns from 1.
func tileLabel(row, column int) string {
	letters := ""
	for n := row + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters + strconv.Itoa(column+1)
}
