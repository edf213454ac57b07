package main

import (
	"bytes"
	"fmt"
	"io"
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
	a, err := patternFiles(o, false, patternSet{paper: pattern.A4()})
	require.NoError(t, err)
	b, err := patternFiles(o, false, patternSet{paper: pattern.A4()})
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
// none unless they are asked for. Halves, sheets left out and shared ones save paper.
func TestPatternsSavePaper(t *testing.T) {
	o := orders(t)["shapes"]
	cuts := cutsOf(t, o)
	curved := slices.IndexFunc(cuts, func(p drawnCut) bool { return !p.Straight() })
	cuts = append(cuts, cuts[curved])
	some, err := planBook(cuts, patternSet{paper: pattern.A4()})
	require.NoError(t, err)
	all, err := planBook(cuts, patternSet{paper: pattern.A4(), all: true})
	require.NoError(t, err)
	whole, err := planBook(cuts, patternSet{paper: pattern.A4(), whole: true})
	require.NoError(t, err)
	sheets := func(b bookPlan) int { return len(b.shared) + b.tiles }
	assert.Less(t, sheets(some), sheets(all))
	assert.Less(t, 3*sheets(some), 2*sheets(whole))
	twins, halves := 0, 0
	for i, p := range some.drawn {
		if p.Straight() {
			assert.Empty(t, p.Tiles, p.name())
			assert.Contains(t, p.why, "straight")
		}
		if strings.HasPrefix(p.why, "as no.") {
			twins++
		}
		if p.half() {
			halves++
		}
		assert.False(t, whole.drawn[i].half())
		assert.Empty(t, whole.drawn[i].Gaps)
		q := all.drawn[i]
		assert.True(t, len(q.Tiles) > 0 || q.share > 0 || strings.HasPrefix(q.why, "as no."), q.name())
		assert.True(t, q.share == 0 || len(q.Tiles) == 0)
	}
	assert.Equal(t, 1, twins, "the plates of the round cushion are lettered apart, a piece cut again is not")
	assert.Positive(t, halves)
}

// The inside back of the demo took 18 sheets of A4.
func TestDemoPatternsTakeFewSheets(t *testing.T) {
	for on, most := range map[string][2]int{"a4": {6, 24}, "letter": {6, 23}} {
		paper, err := paperNamed(on)
		require.NoError(t, err)
		plan, err := planBook(cutsOf(t, orders(t)["demo"]), patternSet{paper: paper})
		require.NoError(t, err)
		for _, p := range plan.drawn {
			if p.cut.Part == "inside back" {
				assert.LessOrEqual(t, len(p.Tiles), most[0])
			}
		}
		assert.LessOrEqual(t, len(plan.shared)+plan.tiles, most[1])
	}
}

// Flags of the patterns are refused where they do nothing.
func TestPatternFlags(t *testing.T) {
	for _, args := range [][]string{{"-all"}, {"-whole"}, {"-roll", "36 in"}, {"-roll", "36 in", "-format", "html", "-out", t.TempDir()}} {
		var stderr bytes.Buffer
		assert.Equal(t, exitInput, run(t.Context(), args, io.Discard, &stderr))
		assert.Contains(t, stderr.String(), "are for -format patterns")
	}
	var stderr bytes.Buffer
	assert.Equal(t, exitInput, run(t.Context(), []string{"-format", "patterns", "-out", t.TempDir(), "-roll", "wide"}, io.Discard, &stderr))
	assert.Contains(t, stderr.String(), `-roll "wide": want the width of the paper`)
}

// Tufted goods say how many buttons are marked on them.
func TestPatternSaysTheButtons(t *testing.T) {
	marked := 0
	for _, p := range cutsOf(t, orders(t)["shapes"]) {
		if n := len(p.Marks); n > 0 {
			marked++
			assert.Equal(t, p.cut.Tufting.Buttons, n)
			assert.Contains(t, p.Texts(pattern.Inches), fmt.Sprintf("%d buttons, at the crosses", n))
		}
	}
	assert.Positive(t, marked)
}

// Beyond a size a plotter is the tool; on its paper every piece of a shop has room.
func TestPatternTooLargeForPages(t *testing.T) {
	big, err := pattern.Strip(40*unit.Metre, 40*unit.Metre)
	require.NoError(t, err)
	plan, err := planBook([]drawnCut{{Pattern: big}}, patternSet{paper: pattern.A4(), all: true, whole: true})
	require.NoError(t, err)
	assert.Zero(t, plan.tiles)
	assert.Contains(t, plan.drawn[0].why, "too large")
}

// On paper from a roll pieces lie whole beside each other, with a test square, and
// what is wider than the paper goes on a second length.
func TestPatternsOnARoll(t *testing.T) {
	cuts := cutsOf(t, orders(t)["shapes"])
	set, err := patternFlags{all: true, roll: "36 in"}.set(pattern.A4())
	require.NoError(t, err)
	plan, err := planBook(cuts, set)
	require.NoError(t, err)
	placed := 0
	for _, s := range plan.shared {
		assert.Equal(t, 36*unit.Inch, s.Sheet.Width)
		assert.LessOrEqual(t, s.Sheet.Height, 5*unit.Metre)
		placed += len(s.Places)
	}
	assert.Equal(t, len(plan.lie)+1, placed, "the test square too")
	for _, p := range plan.drawn {
		assert.NotContains(t, p.why, "too large", p.name())
		for _, q := range p.Tiles {
			assert.Zero(t, q.Row, p.name())
		}
	}
	for _, bad := range []string{"3 in", "six feet", "6 m"} {
		_, err := patternFlags{roll: bad}.set(pattern.A4())
		require.ErrorContains(t, err, "-roll")
	}
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
	out, err := (&sheet{}).patternPDF(o, patterns, patternSet{paper: pattern.Letter()})
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
	b.bookPlan, err = planBook(cutsOf(t, o), patternSet{paper: b.paper})
	require.NoError(t, err)
	b.start("")
	var rows [][]string
	for _, p := range b.drawn {
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
