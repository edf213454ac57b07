//go:build poppler

package main

// The pattern book is read back with the programs of poppler-utils: what is on
// the paper is measured, not what we meant to draw.

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/examples/internal/markpage"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

const pointMM = 25.4 / 72

// poppler runs one of its programs; that it is missing is a failure.
func poppler(t *testing.T, program string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	require.NoError(t, err, "this check needs %s of the Debian package poppler-utils", program)
	out, err := exec.Command(path, args...).CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// stroked is a line on a page, in mm from its upper left corner.
type stroked struct {
	width  float64 // of the pen, mm
	dashed bool
	round  bool // has curves
	closed bool
	points []spot
}

var command = regexp.MustCompile(`[MLCZ]|-?[0-9.]+(?:e-?[0-9]+)?`)

// strokesOf reads the lines of a page as pdftocairo draws them.
func strokesOf(t *testing.T, file string, page int) (lines []stroked, wide, high float64) {
	t.Helper()
	svg := filepath.Join(t.TempDir(), "page.svg")
	n := strconv.Itoa(page)
	// Without these two it fits the page to a paper size of its own.
	poppler(t, "pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", n, "-l", n, file, svg)
	data, err := os.ReadFile(svg)
	require.NoError(t, err)
	root := parse(t, data)
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(strings.TrimSuffix(s, "pt"), 64)
		require.NoError(t, err, s)
		return x
	}
	box := strings.Fields(root.kids[0].attrs["viewBox"])
	wide, high = number(box[2])*pointMM, number(box[3])*pointMM
	for _, e := range root.all("path", "") {
		// Older versions write a style, newer ones attributes.
		set := map[string]string{}
		for k, v := range e.attrs {
			set[k] = v
		}
		for _, d := range strings.Split(e.attrs["style"], ";") {
			if k, v, found := strings.Cut(d, ":"); found {
				set[strings.TrimSpace(k)] = strings.TrimSpace(v)
			}
		}
		if set["stroke"] == "" || set["stroke"] == "none" {
			continue
		}
		m := []float64{1, 0, 0, 1, 0, 0}
		if tr := set["transform"]; tr != "" {
			for i, x := range regexp.MustCompile(`-?[0-9.]+`).FindAllString(tr, -1) {
				m[i] = number(x)
			}
		}
		pen := number(set["stroke-width"]) * math.Sqrt(math.Abs(m[0]*m[3]-m[1]*m[2])) * pointMM
		dash := set["stroke-dasharray"]
		var line *stroked
		var args []float64
		var last byte
		flush := func() {
			switch last {
			case 'M':
				lines = append(lines, stroked{width: pen, dashed: dash != "" && dash != "none"})
				line = &lines[len(lines)-1]
			case 'C':
				line.round = true
			case 'Z':
				line.closed = true
			}
			for i := 0; i+1 < len(args); i += 2 {
				x, y := args[i], args[i+1]
				line.points = append(line.points, spot{(m[0]*x + m[2]*y + m[4]) * pointMM, (m[1]*x + m[3]*y + m[5]) * pointMM})
			}
			args, last = nil, 0
		}
		for _, c := range command.FindAllString(set["d"], -1) {
			switch c {
			case "M", "L", "C", "Z":
				flush()
				last = c[0]
			default:
				args = append(args, number(c))
			}
		}
		flush()
	}
	// A Z is followed by an M to the same place.
	kept := lines[:0]
	for _, l := range lines {
		if len(l.points) > 1 {
			kept = append(kept, l)
		}
	}
	return kept, wide, high
}

func extent(points []spot) (x, y, w, h float64) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range points {
		x0, y0, x1, y1 = min(x0, p.x), min(y0, p.y), max(x1, p.x), max(y1, p.y)
	}
	return x0, y0, x1 - x0, y1 - y0
}

func book(t *testing.T, set patternSet) (file string, patterns []drawnCut, plan bookPlan) {
	t.Helper()
	o := orders(t)["shapes"]
	patterns = cutsOf(t, o)
	data, err := (&sheet{}).patternPDF(o, patterns, set)
	require.NoError(t, err)
	file = filepath.Join(t.TempDir(), "patterns.pdf")
	require.NoError(t, os.WriteFile(file, data, 0o600))
	plan, err = planBook(patterns, set)
	require.NoError(t, err)
	return file, patterns, plan
}

// The test square is 100 mm each way, the rule 4 in.
func TestTestSquare(t *testing.T) {
	for _, on := range papers() {
		file, _, _ := book(t, patternSet{paper: on})
		words := strings.Join(strings.Fields(poppler(t, "pdftotext", "-f", "1", "-l", "1", file, "-")), " ")
		assert.Contains(t, words, caution.Pointer)
		lines, wide, high := strokesOf(t, file, 1)
		assert.InDelta(t, on.Width.Millimetres(), wide, 0.1, on.Name)
		assert.InDelta(t, on.Height.Millimetres(), high, 0.1, on.Name)
		squares, rules := 0, 0
		for _, l := range lines {
			x, y, w, h := extent(l.points)
			if l.closed && len(l.points) >= 4 && w > 90 {
				squares++
				assert.InDelta(t, 100, w, 0.1, on.Name)
				assert.InDelta(t, 100, h, 0.1, on.Name)
				assert.True(t, x > 6.4 && y > 6.4 && x+w < wide-6.4, "on the part of the paper that prints")
				for _, p := range l.points { // all of them corners
					assert.True(t, (math.Abs(p.x-x) < 0.01 || math.Abs(p.x-x-w) < 0.01) && (math.Abs(p.y-y) < 0.01 || math.Abs(p.y-y-h) < 0.01))
				}
			}
			if !l.closed && len(l.points) == 2 && h < 0.01 && math.Abs(w-101.6) < 0.1 {
				rules++
			}
		}
		assert.Equal(t, 1, squares)
		assert.Equal(t, 1, rules)
	}
}

// The list says the whole size of every piece, and what straight ones are cut by.
func TestPatternList(t *testing.T) {
	file, cuts, plan := book(t, patternSet{paper: pattern.A4()})
	text := poppler(t, "pdftotext", "-layout", "-f", "1", "-l", "1", file, "-")
	assert.Equal(t, 1, strings.Count(text, caution.Pointer))
	_, text, found := strings.Cut(text, "cut size")
	require.True(t, found)
	assert.NotContains(t, text, "…", "nothing is cut short")
	straight := 0
	for i, p := range cuts {
		assert.Contains(t, text, (&sheet{}).cutSize(p.cut.Cut), p.name())
		if plan.drawn[i].why != "" {
			straight++
		}
	}
	assert.Equal(t, straight, strings.Count(text, "straight: use a rule")+strings.Count(text, "as no. "))
}

// As many pages as were planned, each of its size.
func TestPatternPages(t *testing.T) {
	for _, on := range papers() {
		for _, all := range []bool{false, true} {
			file, _, plan := book(t, patternSet{paper: on, all: all})
			maps := 0
			for _, p := range plan.drawn {
				if len(p.Tiles) > 1 {
					maps++
				}
			}
			want := 1 + (maps+5)/6 + len(plan.shared) + plan.tiles
			info := poppler(t, "pdfinfo", "-f", "1", "-l", "9999", file)
			assert.Regexp(t, `Pages: +`+strconv.Itoa(want)+`\n`, info)
			assert.NotContains(t, info, "CreationDate")
			text := poppler(t, "pdftotext", "-f", "1", "-l", "1", file, "-")
			assert.Contains(t, text, "sheet 1 of "+strconv.Itoa(want))
			sizes := regexp.MustCompile(`size: +([0-9.]+) x ([0-9.]+) pts`).FindAllStringSubmatch(info, -1)
			require.Len(t, sizes, want)
			for _, s := range sizes {
				a, _ := strconv.ParseFloat(s[1], 64)
				b, _ := strconv.ParseFloat(s[2], 64)
				assert.InDelta(t, on.Width.Millimetres(), min(a, b)*pointMM, 0.1)
				assert.InDelta(t, on.Height.Millimetres(), max(a, b)*pointMM, 0.1)
			}
		}
	}
}

var footLine = regexp.MustCompile(`(?m)^ *(?:([A-Z]+)([0-9]+)\s+)?([0-9]+) (\S.*?)\s+cut `)

// The pages, put together by what is printed on their foot, and the straight lines
// ruled that have no page, give back the cut line of every piece, of a half with its
// fold: area and length. The rings of neighbours fall together.
func TestTilesGiveThePatternBack(t *testing.T) {
	gaps, halves := 0, 0
	for _, set := range []patternSet{{paper: pattern.A4()}, {paper: pattern.Letter()}, {paper: pattern.A4(), all: true}, {paper: pattern.A4(), whole: true}} {
		on := set.paper
		file, _, plan := book(t, set)
		pages := plan.tiles
		info := poppler(t, "pdfinfo", file)
		total, err := strconv.Atoi(regexp.MustCompile(`Pages: +([0-9]+)`).FindStringSubmatch(info)[1])
		require.NoError(t, err)
		type sum struct {
			area, long float64
			rings      []spot
			pages      int
			kinds      map[string]bool
		}
		sums := map[int]*sum{}
		texts := strings.Split(poppler(t, "pdftotext", "-layout", file, "-"), "\f")
		for page := total - pages + 1; page <= total; page++ {
			text := texts[page-1]
			foot := footLine.FindAllStringSubmatch(text, -1)
			require.NotEmpty(t, foot, text)
			f := foot[len(foot)-1]
			number, err := strconv.Atoi(f[3])
			require.NoError(t, err)
			row, column := 0, 0
			if f[1] != "" {
				for _, r := range f[1] {
					row = 26*row + int(r-'A') + 1
				}
				row--
				column, err = strconv.Atoi(f[2])
				require.NoError(t, err)
				column--
			}
			lines, wide, high := strokesOf(t, file, page)
			// Cells of the grid follow from the size of the paper and what the
			// sheets have in common: white edges of 10 mm, a foot of 7 mm, and
			// laps of 5 mm.
			cellX, cellY := wide-30, high-37
			s := sums[number]
			if s == nil {
				s = &sum{kinds: map[string]bool{}}
				sums[number] = s
			}
			s.pages++
			place := func(q spot) spot { return spot{q.x - 15 + float64(column)*cellX, q.y - 15 + float64(row)*cellY} }
			lowest, highest := neighbours(plan, number, row, column)
			for _, l := range lines {
				for _, q := range l.points {
					assert.True(t, q.x > 9.5 && q.y > 9.5 && q.x < wide-9.5 && q.y < high-9.5, "on the part of the paper that prints")
				}
				switch {
				case l.round: // a ring
					x, y, w, _ := extent(l.points)
					if math.Abs(w-4) < 0.1 {
						s.rings = append(s.rings, place(spot{x + w/2, y + w/2}))
					}
				case math.Abs(l.width-strokeOf(pattern.CutLine).width) < 0.01 && !l.dashed, math.Abs(l.width-strokeOf(pattern.FoldLine).width) < 0.01 && l.dashed:
					s.kinds["cut"] = true
					// What a neighbour shows too counts once.
					lo, hi := spot{float64(column)*cellX - lowest.x, float64(row)*cellY - lowest.y}, spot{float64(column+1)*cellX + highest.x, float64(row+1)*cellY + highest.y}
					var points []shape.Point
					for _, q := range l.points {
						q = place(q)
						points = append(points, shape.Point{X: unit.Length(q.x * 1e6), Y: unit.Length(q.y * 1e6)})
					}
					if l.closed {
						points = append(points, points[0])
					}
					own := pattern.Box{Low: shape.Point{X: unit.Length(lo.x * 1e6), Y: unit.Length(lo.y * 1e6)}, High: shape.Point{X: unit.Length(hi.x * 1e6), Y: unit.Length(hi.y * 1e6)}}
					for _, run := range (pattern.Tile{Window: own}).Lines([]pattern.Line{{Points: points}}) {
						for i := range len(run.Points) - 1 {
							a, b := run.Points[i], run.Points[i+1]
							s.area += (a.X.Millimetres()*b.Y.Millimetres() - a.Y.Millimetres()*b.X.Millimetres()) / 2
							s.long += math.Hypot((b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres())
						}
					}
				case l.dashed && math.Abs(l.width-strokeOf(pattern.SeamLine).width) < 0.01:
					s.kinds["dashed"] = true
				case math.Abs(l.width-strokeOf(pattern.NotchLine).width) < 0.01:
					s.kinds["notch"] = true
				}
			}
		}
		for _, p := range plan.drawn {
			if len(p.Tiles) == 0 {
				assert.NotContains(t, sums, p.number)
				continue
			}
			s := sums[p.number]
			require.NotNil(t, s, p.name())
			assert.Equal(t, len(p.Tiles), s.pages)
			for _, g := range p.Gaps {
				if g.Kind == pattern.CutLine || g.Kind == pattern.FoldLine {
					gaps++
					a, b := g.From, g.To
					s.area += ((a.X-p.Grid.Low.X).Millimetres()*(p.Grid.High.Y-b.Y).Millimetres() - (p.Grid.High.Y-a.Y).Millimetres()*(b.X-p.Grid.Low.X).Millimetres()) / 2
					s.long += math.Hypot((b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres())
				}
			}
			area := squareMM(p.cut.Area) / float64(p.cut.Count)
			if p.half() {
				area /= 2
				halves++
			}
			long := perimeter(p.Cut.Outer)
			assert.InDelta(t, long, s.long, 0.01+long*1e-4, "%s on %s: length of the cut line", p.name(), on.Name)
			assert.InDelta(t, area, math.Abs(s.area), slack(p.drawnCut)+long*0.01, "%s on %s: area", p.name(), on.Name)
			assert.True(t, s.kinds["cut"], p.name())
			assert.True(t, s.kinds["dashed"] || len(p.Seam.Outer) == 0, p.name())
			if len(p.Notches) > 0 {
				assert.True(t, s.kinds["notch"], p.name())
			}
			// Two rings on each side where pages join, each printed twice.
			joins := 0
			for _, a := range p.Tiles {
				for _, b := range p.Tiles {
					if a.Row == b.Row && b.Column == a.Column+1 || a.Column == b.Column && b.Row == a.Row+1 {
						joins++
					}
				}
			}
			require.Len(t, s.rings, 4*joins, p.name())
			for i, a := range s.rings {
				twins := 0
				for k, b := range s.rings {
					if i != k && math.Hypot(a.x-b.x, a.y-b.y) < 0.05 {
						twins++
					}
				}
				assert.Equal(t, 1, twins, "a ring of %s has its like", p.name())
			}
		}
	}
	assert.Positive(t, gaps)
	assert.Positive(t, halves)
}

// Whole pieces on common sheets, of paper and from a roll, have the cut lines of the
// pieces of which the plan says so, at full size, and paper from a roll has a test
// square.
func TestSharedSheets(t *testing.T) {
	roll, err := patternFlags{all: true, roll: "36 in"}.set(pattern.A4())
	require.NoError(t, err)
	for _, set := range []patternSet{{paper: pattern.A4(), all: true}, roll} {
		file, _, plan := book(t, set)
		require.NotEmpty(t, plan.shared)
		info := poppler(t, "pdfinfo", file)
		total, err := strconv.Atoi(regexp.MustCompile(`Pages: +([0-9]+)`).FindStringSubmatch(info)[1])
		require.NoError(t, err)
		squares := 0
		for n, s := range plan.shared {
			lines, wide, high := strokesOf(t, file, total-plan.tiles-len(plan.shared)+n+1)
			assert.InDelta(t, s.Sheet.Width.Millimetres(), wide, 0.1)
			assert.InDelta(t, s.Sheet.Height.Millimetres(), high, 0.1)
			var want, got float64
			for _, p := range s.Places {
				if p.Of == len(plan.lie) {
					squares++
					continue
				}
				piece := plan.drawn[plan.lie[p.Of]]
				want += perimeter(piece.Cut.Outer)
			}
			for _, l := range lines {
				if cut := math.Abs(l.width-strokeOf(pattern.CutLine).width) < 0.01 && !l.dashed; cut || math.Abs(l.width-strokeOf(pattern.FoldLine).width) < 0.01 && l.dashed {
					for i := 1; i < len(l.points); i++ {
						got += math.Hypot(l.points[i].x-l.points[i-1].x, l.points[i].y-l.points[i-1].y)
					}
				}
				for _, q := range l.points {
					assert.True(t, q.x > 9.5 && q.y > 9.5 && q.x < wide-9.5 && q.y < high-9.5, "on the part of the paper that prints")
				}
			}
			assert.InDelta(t, want, got, 0.1+want*1e-4)
		}
		assert.Equal(t, set.roll.Width > 0, squares == 1)
	}
}

// neighbours says how far a page answers beyond its cell: the lap, at the
// outside of the grid.
func neighbours(plan bookPlan, number, row, column int) (low, high spot) {
	for _, p := range plan.drawn {
		if p.number != number || len(p.Tiles) == 0 {
			continue
		}
		if column == 0 {
			low.x = 5
		}
		if row == 0 {
			low.y = 5
		}
		if column == p.Columns-1 {
			high.x = 5
		}
		if row == p.Rows-1 {
			high.y = 5
		}
	}
	return low, high
}

// On the page of marks the two lines have the lengths they say, and the marks lie
// where the reader of photos believes them to be.
func TestMarksPage(t *testing.T) {
	for _, on := range papers() {
		book, err := marksPDF(on)
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "marks.pdf")
		require.NoError(t, os.WriteFile(file, book, 0o600))
		lines, wide, high := strokesOf(t, file, 1)
		assert.InDelta(t, on.Width.Millimetres(), wide, 0.1)
		want, _, _ := measured(on)
		across, up := 0, 0
		for _, l := range lines {
			if len(l.points) != 2 {
				continue
			}
			dx, dy := math.Abs(l.points[1].x-l.points[0].x), math.Abs(l.points[1].y-l.points[0].y)
			if math.Abs(dx-want.Across.Millimetres()) < 0.02 && dy < 0.01 {
				across++
			}
			if math.Abs(dy-want.Up.Millimetres()) < 0.02 && dx < 0.01 {
				up++
			}
		}
		assert.Equal(t, [2]int{1, 1}, [2]int{across, up}, on.Name)
		// The picture of the page, a tenth of a millimetre to a pixel.
		base := filepath.Join(t.TempDir(), "page")
		poppler(t, "pdftoppm", "-r", "254", "-gray", "-singlefile", file, base)
		data, err := os.ReadFile(base + ".pgm")
		require.NoError(t, err)
		var w, h, most int
		_, err = fmt.Sscanf(string(data[:40]), "P5\n%d %d\n%d", &w, &h, &most)
		require.NoError(t, err)
		pix := data[len(data)-w*h:]
		for _, m := range markpage.Marks() {
			x := 10 * (wide/2 + m.At.X.Millimetres() - markpage.Across.Millimetres()/2)
			y := 10 * (high/2 - m.At.Y.Millimetres() + (markpage.Rows-1)*markpage.Up.Millimetres()/2)
			dark := func(mm float64) bool { return pix[int(y)*w+int(x+10*mm)] < 128 }
			r := markpage.Radius.Millimetres()
			assert.Equal(t, !m.Odd, dark(0), "the dot")
			assert.False(t, dark((markpage.Dot+0.03)*r))
			assert.False(t, dark((markpage.Inner-0.03)*r))
			assert.True(t, dark((markpage.Inner+0.03)*r))
			assert.True(t, dark(0.98*r))
			assert.False(t, dark(1.02*r))
		}
	}
}
