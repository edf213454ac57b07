package main

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

func cutsOf(t testing.TB, o job.WorkOrder) []drawnCut {
	t.Helper()
	cuts, err := drawnCuts(o)
	require.NoError(t, err)
	return cuts
}

// Every file has the outline that was worked out: its size, the area inside the
// cut line of all copies, and the lines of the panel.
func TestPatternsHaveTheArea(t *testing.T) {
	for name, o := range orders(t) {
		shaped := 0
		for _, p := range cutsOf(t, o) {
			// The line is drawn in chords, the size is that of the curves.
			const chords = float64(shape.DefaultTolerance)
			b := p.Bounds()
			assert.InDelta(t, float64(p.cut.Cut.Width), float64(b.High.X-b.Low.X), chords, p.name())
			assert.InDelta(t, float64(p.cut.Cut.Length), float64(b.High.Y-b.Low.Y), chords, p.name())
			file, err := p.SVG((&sheet{}).units())
			require.NoError(t, err)
			root := parse(t, []byte(file))
			each := squareMM(p.cut.Area) / float64(p.cut.Count)
			assert.InDelta(t, each, shoelace(root.all("path", "cut")[0].polygons(t)), slack(p), p.name())
			if q := p.cut.Panel; q != nil {
				assert.InDelta(t, squareMM(q.SeamArea), shoelace(root.all("path", "seam")[0].polygons(t)), slack(p), p.name())
				lines := len(q.Notches)
				for _, m := range p.cut.Letters {
					if m.Double {
						lines++
					}
				}
				assert.Len(t, root.all("polyline", "notch"), lines)
			}
			words := root.words()
			assert.Contains(t, words, p.cut.Part)
			assert.Contains(t, words, p.cut.Piece)
			if !p.Straight() {
				shaped++
			}
		}
		if name == "shapes" {
			assert.GreaterOrEqual(t, shaped, 8)
		}
	}
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

// The same job gives the same files, and no day or machine gets into them.
func TestPatternFilesAreTheSame(t *testing.T) {
	o := orders(t)["shapes"]
	a, err := patternFiles(o, false, pattern.A4(), false)
	require.NoError(t, err)
	b, err := patternFiles(o, false, pattern.A4(), false)
	require.NoError(t, err)
	require.Len(t, b, len(a))
	seen := map[string]bool{}
	for i := range a {
		assert.Equal(t, a[i].Name, b[i].Name)
		assert.True(t, bytes.Equal(a[i].Data, b[i].Data), a[i].Name)
		assert.False(t, seen[a[i].Name], "a name twice")
		seen[a[i].Name] = true
	}
	pairs := 0
	for _, c := range o.Cuts {
		if c.Pair {
			pairs++
		}
	}
	require.Positive(t, pairs)
	assert.Len(t, a, 2+2*len(o.Cuts)+2*pairs, "both hands of a pair")
	assert.True(t, bytes.HasPrefix(a[0].Data, []byte("%PDF-")))
	assert.NotContains(t, string(a[0].Data), "Date (D:")
}

// One pattern serves for pieces of the same shape, and straight pieces have
// none unless they are asked for.
func TestPatternsSavePaper(t *testing.T) {
	o := orders(t)["shapes"]
	cuts := cutsOf(t, o)
	curved := slices.IndexFunc(cuts, func(p drawnCut) bool { return !p.Straight() })
	cuts = append(cuts, cuts[curved])
	some, few, err := planBook(cuts, pattern.A4(), false)
	require.NoError(t, err)
	all, many, err := planBook(cuts, pattern.A4(), true)
	require.NoError(t, err)
	assert.Less(t, few, many)
	twins := 0
	for i, p := range some {
		if p.Straight() {
			assert.Empty(t, p.Tiles, p.name())
			assert.Contains(t, p.why, "straight")
		}
		if strings.HasPrefix(p.why, "as no.") {
			twins++
		}
		assert.True(t, len(all[i].Tiles) > 0 || strings.HasPrefix(all[i].why, "as no."), all[i].name())
	}
	assert.Equal(t, 1, twins, "the plates of the round cushion are lettered apart, a piece cut again is not")
}

// Beyond a size a plotter is the tool.
func TestPatternTooLargeForPages(t *testing.T) {
	big, err := pattern.Strip(40*unit.Metre, 40*unit.Metre)
	require.NoError(t, err)
	book, tiles, err := planBook([]drawnCut{{Pattern: big}}, pattern.A4(), true)
	require.NoError(t, err)
	assert.Zero(t, tiles)
	assert.Contains(t, book[0].why, "too large")
}

// Text that the type face has no picture of does not break the patterns.
func TestPatternPDFText(t *testing.T) {
	o := orders(t)["shapes"]
	o.Name = "椅子 \U0001F6CB \x00\xff\nlong " + strings.Repeat("name ", 200)
	o.Cuts = slices.Clone(o.Cuts[:2])
	for i := range o.Cuts {
		o.Cuts[i].Part, o.Cuts[i].Piece, o.Cuts[i].Goods = "\U0001F6CB椅", strings.Repeat("W", 500), ") Tj ("
	}
	patterns := cutsOf(t, o)
	out, err := (&sheet{}).patternPDF(o, patterns, pattern.Letter(), false)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(out, []byte("%PDF-")))
}

// The list of the cover cuts nothing short, whatever the names: figures stay on
// one line, names go on in the next, and the columns fit the page.
func TestPatternListIsWhole(t *testing.T) {
	o := orders(t)["shapes"]
	o.Cuts = slices.Clone(o.Cuts)
	for i := range o.Cuts {
		o.Cuts[i].Piece += strings.Repeat(" and another", i)
		o.Cuts[i].Goods += strings.Repeat("-dyed", i)
	}
	glyphs, err := sfnt.Parse(goregular.TTF)
	require.NoError(t, err)
	b := &patternBook{sheet: &sheet{}, glyphs: glyphs, paper: pattern.A4()}
	b.pages, _, err = planBook(cutsOf(t, o), b.paper, false)
	require.NoError(t, err)
	b.start("")
	var rows [][]string
	for _, p := range b.pages {
		rows = append(rows, b.row(p))
	}
	const width = 180.0
	wide := b.columns(rows, width)
	sum := listGap * float64(len(wide)-1)
	for _, w := range wide {
		sum += w
	}
	assert.LessOrEqual(t, sum, width+1e-9)
	for _, r := range rows {
		for i, c := range r {
			lines := b.wrapped(wide[i], listType, "", c)
			assert.Equal(t, strings.ReplaceAll(c, " ", ""), strings.ReplaceAll(strings.Join(lines, ""), " ", ""))
			for _, l := range lines {
				assert.LessOrEqual(t, b.pdf.GetStringWidth(l), wide[i])
			}
			if i != 1 && i != 3 {
				assert.Len(t, lines, 1, c)
			}
		}
	}
}
