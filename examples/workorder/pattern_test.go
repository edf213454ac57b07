package main

import (
	"bytes"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Every pattern has the outline that was worked out: the area inside the cut
// line and its size.
func TestPatternsHaveTheArea(t *testing.T) {
	for name, o := range orders(t) {
		shaped := 0
		for _, p := range patternsOf(o) {
			// The line is drawn in chords, the size is that of the curves.
			const chords = float64(shape.DefaultTolerance)
			low, high := p.bounds()
			assert.InDelta(t, float64(p.cut.Cut.Width), float64(high.X-low.X), chords, p.name())
			assert.InDelta(t, float64(p.cut.Cut.Length), float64(high.Y-low.Y), chords, p.name())
			each, err := p.area.Times(p.cut.Count)
			require.NoError(t, err)
			assert.InDelta(t, squareMM(p.cut.Area), squareMM(each), 0.01*float64(p.cut.Count), p.name())
			if p.shaped {
				shaped++
			}
		}
		if name == "shapes" {
			assert.GreaterOrEqual(t, shaped, 8)
		}
	}
}

func TestPatternSVG(t *testing.T) {
	for _, o := range orders(t) {
		for _, metric := range []bool{false, true} {
			s := &sheet{metric: metric}
			for _, p := range patternsOf(o) {
				root := parse(t, []byte(s.patternSVG(p)))
				svg := root.kids[0]
				assert.Equal(t, "img", svg.attrs["role"])
				assert.Equal(t, p.name(), svg.all("title", "")[0].text)
				// True size: width and height are in mm, and so is the view box.
				box := strings.Fields(svg.attrs["viewBox"])
				assert.Equal(t, box[2]+"mm", svg.attrs["width"])
				assert.Equal(t, box[3]+"mm", svg.attrs["height"])
				cut := svg.all("path", "cut")
				require.Len(t, cut, 1)
				assert.InDelta(t, squareMM(p.area), shoelace(cut[0].polygons(t)), slack(p), p.name())
				if q := p.cut.Panel; q != nil {
					assert.InDelta(t, squareMM(q.SeamArea), shoelace(svg.all("path", "seam")[0].polygons(t)), slack(p), p.name())
				}
				if len(p.trimLine.Outer) > 0 {
					assert.InDelta(t, squareMM(p.cut.Panel.TrimArea), shoelace(svg.all("path", "trim")[0].polygons(t)), slack(p), p.name())
				}
				assert.Len(t, svg.all("polyline", "notch"), len(p.notches))
				assert.Contains(t, svg.words(), p.cut.Part)
			}
		}
	}
}

// dxfLine is a polyline of a drawing exchange file.
type dxfLine struct {
	layer  string
	closed bool
	points []spot
}

// readDXF is a reader of its own for the parts of DXF R12 that patterns use.
func readDXF(t testing.TB, file string) (lines []dxfLine, texts []string, layers map[string]bool) {
	t.Helper()
	require.True(t, strings.HasSuffix(file, "\r\n"))
	rows := strings.Split(strings.TrimSuffix(file, "\r\n"), "\r\n")
	require.Zero(t, len(rows)%2, "pairs of code and value")
	layers = map[string]bool{}
	var entity, section, table string
	var line *dxfLine
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return x
	}
	var ended bool
	for i := 0; i < len(rows); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(rows[i]))
		require.NoError(t, err)
		value := rows[i+1]
		for _, r := range value {
			require.True(t, r >= ' ' && r < 0x7f, "ASCII: %q", value)
		}
		require.False(t, ended, "after the end of the file")
		switch code {
		case 0:
			if value == "SEQEND" {
				require.NotNil(t, line)
				lines = append(lines, *line)
			}
			if value == "POLYLINE" {
				line = &dxfLine{}
			}
			if value == "VERTEX" {
				require.NotNil(t, line)
				line.points = append(line.points, spot{})
			}
			entity, ended = value, value == "EOF"
		case 2:
			switch entity {
			case "SECTION":
				section = value
			case "TABLE":
				table = value
			case "LAYER":
				require.Equal(t, "LAYER", table)
				layers[value] = true
			}
		case 8:
			require.Equal(t, "ENTITIES", section)
			require.True(t, layers[value], "layer %s is in the table", value)
			if entity == "POLYLINE" {
				line.layer = value
			} else if entity != "TEXT" {
				require.Equal(t, line.layer, value)
			}
		case 10, 20:
			if entity == "VERTEX" {
				q := &line.points[len(line.points)-1]
				if code == 10 {
					q.x = number(value)
				} else {
					q.y = number(value)
				}
			}
		case 70:
			if entity == "POLYLINE" {
				line.closed = value == "1"
			}
		case 1:
			if entity == "TEXT" {
				texts = append(texts, value)
			}
			if section == "HEADER" {
				require.Equal(t, "AC1009", value)
			}
		}
	}
	require.True(t, ended, "the file ends with EOF")
	return lines, texts, layers
}

func TestPatternDXF(t *testing.T) {
	for _, o := range orders(t) {
		s := &sheet{metric: true}
		for _, p := range patternsOf(o) {
			lines, texts, _ := readDXF(t, s.patternDXF(p))
			area := map[string]float64{}
			notches := 0
			for _, l := range lines {
				switch l.layer {
				case "CUT", "SEAM", "TRIM":
					require.True(t, l.closed, p.name())
					require.GreaterOrEqual(t, len(l.points), 3)
					require.NotEqual(t, l.points[0], l.points[len(l.points)-1], "no corner twice")
					area[l.layer] += shoelace([][]spot{l.points})
				default:
					require.False(t, l.closed)
					if l.layer == "NOTCH" {
						notches++
					}
				}
				for _, q := range l.points {
					assert.GreaterOrEqual(t, q.x, -0.001)
					assert.GreaterOrEqual(t, q.y, -0.001)
				}
			}
			// Corners are rounded to a micrometre.
			round := perimeter(p.cutLine.Outer) * 0.001
			assert.InDelta(t, squareMM(p.area), area["CUT"], slack(p)+round, p.name())
			if q := p.cut.Panel; q != nil {
				assert.InDelta(t, squareMM(q.SeamArea), area["SEAM"], slack(p)+round, p.name())
			}
			assert.Equal(t, len(p.notches), notches)
			assert.NotEmpty(t, texts)
		}
	}
}

// Text in a drawing file stays on its line and in ASCII, whatever it holds.
func TestPatternDXFText(t *testing.T) {
	o := orders(t)["demo"]
	p := patternsOf(o)[0]
	p.cut.Part = "chaise \u00e9t\u00e9\r\n  0\r\nEOF \U0001F600"
	_, texts, _ := readDXF(t, (&sheet{}).patternDXF(p))
	assert.Contains(t, texts[0], `chaise \U+00E9t\U+00E9    0  EOF ?`)
}

func TestSlug(t *testing.T) {
	for name, want := range map[string]string{
		"wing chair: inside back":    "007-wing-chair-inside-back",
		"../../etc/passwd":           "007-etc-passwd",
		`C:\windows\*?"<>|`:          "007-c-windows",
		"":                           "007",
		"\u202efdp.exe\x00":          "007-fdp-exe",
		"Sessel Größe Ä":             "007-sessel-gr-e",
		strings.Repeat("long ", 50):  "007-long-long-long-long-long-long-long-long-long-long-long-long-l",
		"\U0001F6CB \U0001F6CB":      "007",
		"con":                        "007-con",
		"a---b...c":                  "007-a-b-c",
		"<script>alert(1)</script>é": "007-script-alert-1-script",
	} {
		assert.Equal(t, want, slug(7, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		name := slug(rapid.IntRange(0, 99999).Draw(t, "number"), rapid.String().Draw(t, "name"))
		assert.Regexp(t, `^[0-9]{3,5}(-[a-z0-9]+)*$`, name)
		assert.LessOrEqual(t, len(name), 70)
		assert.True(t, filepath.IsLocal(name))
	})
}

// star draws a polygon round a middle that does not cross itself.
func star(t *rapid.T) []shape.Point {
	n := rapid.IntRange(3, 24).Draw(t, "corners")
	wide := rapid.IntRange(10, 900).Draw(t, "wide, mm")
	long := rapid.IntRange(10, 900).Draw(t, "long, mm")
	at := rapid.Custom(func(t *rapid.T) float64 { return rapid.Float64Range(0.2, 1).Draw(t, "reach") })
	var out []shape.Point
	for i := range n {
		a, r := 2*math.Pi*float64(i)/float64(n), at.Draw(t, "corner")
		out = append(out, shape.Point{X: unit.Length(r * math.Cos(a) * float64(wide) * 1e6), Y: unit.Length(r * math.Sin(a) * float64(long) * 1e6)})
	}
	return out
}

// The pages of a pattern show all of it: whatever the outline, the parts that
// the pages answer for put together are the outline, once each.
func TestTilesCoverThePattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := star(t)
		p := pattern{cutLine: shape.Contour{Outer: outline}}
		on := papers[rapid.IntRange(0, len(papers)-1).Draw(t, "paper")]
		plan := tileOn(p, on)
		require.NotEmpty(t, plan.tiles)
		var area, long float64
		for _, q := range plan.tiles {
			low, high := plan.reach(q)
			for _, run := range clipLine(patternLine{closed: true, points: outline}, low, high) {
				for i := range len(run) - 1 {
					a, b := run[i], run[i+1]
					area += (a.X.Millimetres()*b.Y.Millimetres() - a.Y.Millimetres()*b.X.Millimetres()) / 2
					long += math.Hypot((b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres())
				}
			}
			// What a page shows fits between its white edges.
			fl, fh := q.frame()
			assert.Equal(t, plan.paper.width-2*pageEdge, fh.X-fl.X)
			assert.Equal(t, plan.paper.height-2*pageEdge-pageFoot, fh.Y-fl.Y)
			assert.True(t, low.X >= fl.X && low.Y >= fl.Y && high.X <= fh.X && high.Y <= fh.Y, "a page answers for what it shows")
			// Neighbours show the same lap.
			for _, r := range plan.tiles {
				if r.row == q.row && r.column == q.column+1 {
					rl, _ := r.frame()
					assert.Equal(t, 2*halfLap, fh.X-rl.X)
				}
			}
		}
		var want float64
		for i, a := range outline {
			b := outline[(i+1)%len(outline)]
			want += (a.X.Millimetres()*b.Y.Millimetres() - a.Y.Millimetres()*b.X.Millimetres()) / 2
		}
		assert.InDelta(t, perimeter(outline), long, 1e-3)
		assert.InDelta(t, want, area, 1e-2)
	})
}

// The outer pages keep lines clear of the white edge of the paper.
func TestTilesKeepClearOfTheEdge(t *testing.T) {
	for _, o := range orders(t) {
		for _, p := range patternsOf(o) {
			for _, on := range papers {
				plan := tileOn(p, on)
				low, high := p.bounds()
				first, last := plan.origin, shape.Point{X: plan.origin.X + unit.Length(plan.columns)*plan.cell.X, Y: plan.origin.Y + unit.Length(plan.rows)*plan.cell.Y}
				assert.GreaterOrEqual(t, low.X-(first.X-halfLap), frameInset)
				assert.GreaterOrEqual(t, low.Y-(first.Y-halfLap), frameInset)
				assert.GreaterOrEqual(t, last.X+halfLap-high.X, frameInset)
				assert.GreaterOrEqual(t, last.Y+halfLap-high.Y, frameInset)
			}
		}
	}
}

func TestTileLabels(t *testing.T) {
	for want, at := range map[string][2]int{"A1": {0, 0}, "B3": {1, 2}, "Z10": {25, 9}, "AA1": {26, 0}, "AZ2": {51, 1}, "BA1": {52, 0}} {
		assert.Equal(t, want, tileLabel(at[0], at[1]))
	}
}

// The same job gives the same files, and no day or machine gets into them.
func TestPatternFilesAreTheSame(t *testing.T) {
	o := orders(t)["shapes"]
	a, err := patternFiles(o, false, papers[0], false)
	require.NoError(t, err)
	b, err := patternFiles(o, false, papers[0], false)
	require.NoError(t, err)
	require.Len(t, b, len(a))
	seen := map[string]bool{}
	for i := range a {
		assert.Equal(t, a[i].name, b[i].name)
		assert.True(t, bytes.Equal(a[i].data, b[i].data), a[i].name)
		assert.True(t, isPatternFile(a[i].name), a[i].name)
		assert.False(t, seen[a[i].name], "a name twice")
		seen[a[i].name] = true
	}
	assert.Len(t, a, 1+2*len(o.Cuts))
	assert.True(t, bytes.HasPrefix(a[0].data, []byte("%PDF-")))
	assert.NotContains(t, string(a[0].data), "Date (D:")
}

// One pattern serves for pieces of the same shape, and straight pieces have
// none unless they are asked for.
func TestPatternsSavePaper(t *testing.T) {
	o := orders(t)["shapes"]
	some, few := planBook(patternsOf(o), papers[0], false)
	all, many := planBook(patternsOf(o), papers[0], true)
	assert.Less(t, few, many)
	twins := 0
	for i, p := range some {
		if !p.shaped {
			assert.Empty(t, p.tiles, p.name())
			assert.Contains(t, p.why, "straight")
		}
		if strings.HasPrefix(p.why, "as no.") {
			twins++
		}
		assert.True(t, len(all[i].tiles) > 0 || strings.HasPrefix(all[i].why, "as no."), all[i].name())
	}
	assert.Equal(t, 1, twins, "top and bottom plate of the round cushion")
}

// Beyond a size a plotter is the tool.
func TestPatternTooLargeForPages(t *testing.T) {
	big := pattern{cutLine: rectangle(0, 0, 40*unit.Metre, 40*unit.Metre), shaped: true}
	book, tiles := planBook([]pattern{big}, papers[0], false)
	assert.Zero(t, tiles)
	assert.Contains(t, book[0].why, "too large")
}

// Text that the type face has no picture of does not break the patterns.
func TestPatternPDFText(t *testing.T) {
	o := orders(t)["shapes"]
	o.Name = "椅子 \U0001F6CB \x00\xff\nlong " + strings.Repeat("name ", 200)
	patterns := patternsOf(o)[:2]
	for i := range patterns {
		patterns[i].cut.Part, patterns[i].cut.Piece, patterns[i].cut.Goods = "\U0001F6CB椅", strings.Repeat("W", 500), ") Tj ("
	}
	out, err := (&sheet{}).patternPDF(o, patterns, papers[1], false)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(out, []byte("%PDF-")))
}
