package layout

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Sections follow each other and are no longer than a page is wide.
func TestRollSections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rollView{roll: material.Roll{Width: unit.Length(rapid.Int64Range(30, 300).Draw(t, "width")) * unit.Centimetre}}
		y := unit.Length(0)
		for range rapid.IntRange(0, 40).Draw(t, "pieces") {
			long := unit.Length(rapid.Int64Range(1, 400).Draw(t, "long")) * unit.Centimetre
			v.placed = append(v.placed, placedView{low: shape.Point{Y: y}, high: shape.Point{X: unit.Centimetre, Y: y + long}})
			y += long * unit.Length(rapid.IntRange(0, 1).Draw(t, "beside"))
			v.order = max(v.order, y, v.placed[len(v.placed)-1].high.Y)
		}
		v.order = max(v.order, unit.Centimetre)
		cuts := v.sections()
		assert.Equal(t, unit.Length(0), cuts[0])
		assert.Equal(t, v.order, cuts[len(cuts)-1])
		for i := range len(cuts) - 1 {
			assert.Less(t, cuts[i], cuts[i+1])
			assert.LessOrEqual(t, float64(cuts[i+1]-cuts[i]), 2.3*1.16*float64(v.roll.Usable()))
		}
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

// Cutting a polygon at lines along the roll loses nothing and makes nothing.
func TestBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := star(t)
		at := unit.Length(rapid.Int64Range(-1000, 1000).Draw(t, "cut, mm")) * unit.Millimetre
		area := func(points []shape.Point) float64 {
			sum := 0.0
			for i, p := range points {
				q := points[(i+1)%len(points)]
				sum += p.X.Millimetres()*q.Y.Millimetres() - q.X.Millimetres()*p.Y.Millimetres()
			}
			return math.Abs(sum) / 2
		}
		const far = 10 * unit.Metre
		assert.InDelta(t, area(outline), area(between(outline, -far, at))+area(between(outline, at, far)), 1e-2)
	})
}

// Angles of placements are anticlockwise from the neck.
func TestTopOf(t *testing.T) {
	for _, c := range []struct {
		angle unit.Angle
		lie   bool
		x, y  float64 // on the page, y down
	}{{0, false, 0, -1}, {90, false, -1, 0}, {180, false, 0, 1}, {0, true, 1, 0}, {90, true, 0, -1}, {270, true, 0, 1}, {45, true, math.Sqrt2 / 2, -math.Sqrt2 / 2}} {
		got := topOf(c.angle, c.lie)
		assert.InDelta(t, c.x, got.X, 1e-12)
		assert.InDelta(t, c.y, got.Y, 1e-12)
	}
}

// Rows are never wider than they may be, and hold all words.
func TestWrapWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide := rapid.Float64Range(0, 200).Draw(t, "wide")
		text := rapid.StringMatching(`[a-z]{1,9}( [a-z]{1,9}){0,6}`).Draw(t, "text")
		if rows, ok := wrapWords(text, wide, noteType); ok {
			for _, r := range rows {
				assert.LessOrEqual(t, svg.TextWidth(r, noteType), wide)
			}
			assert.Equal(t, text, strings.Join(rows, " "))
		}
		most := rapid.IntRange(1, 4).Draw(t, "rows")
		rows := rowsOf(text, most)
		assert.LessOrEqual(t, len(rows), most)
		assert.Equal(t, text, strings.Join(rows, " "))
	})
}

// Lines along the columns of motifs and, where they are level, across them; a
// cross on every motif where the pattern repeats both ways; what is too close to be told apart is left out.
func TestRepeatLines(t *testing.T) {
	in := unit.Inch
	half := material.Drop{Num: 1, Den: 2}
	for _, c := range []struct {
		roll                 material.Roll
		lines, motifs, names int
	}{
		{material.Roll{}, 0, 0, 0},
		{material.Roll{Repeat: 10 * in}, 3, 0, 3},
		{material.Roll{Across: 10 * in}, 1, 0, 0},
		{material.Roll{Repeat: 10 * in, Across: 10 * in}, 4, 3 * 4, 3},
		{material.Roll{Repeat: 10 * in, Across: 10 * in, Drop: half}, 1, 4 + 3 + 4, 3},
		{material.Roll{Repeat: 10 * in, Across: 10 * in, First: shape.Point{X: 5 * in, Y: 2 * in}}, 2 + 3, 2 * 3, 2},
		{material.Roll{Repeat: 2 * in, Across: in / 8}, 15, 0, 4}, // every third has a name, but the last would stand on another
		{material.Roll{Repeat: in / 8}, 0, 0, 0},
	} {
		c.roll.Width = 20 * in
		px := func(l unit.Length) float64 { return float64(l) / float64(in) * 8 }
		at := func(x, y unit.Length) svg.Point { return svg.Point{X: px(y), Y: px(x)} }
		d := svg.New(400, 400, "t")
		v, letters := rollView{roll: c.roll, plan: Plan{Job: Job{Roll: &c.roll}}}, &lettering{}
		repeatNames(v, letters, at, px, 0, 30*in)
		repeatLines(d, v, &lettering{}, at, px, 0, 30*in)
		letters.draw(d)
		assert.Equal(t, c.lines, strings.Count(d.String(), `class="repeat"`), "%+v", c.roll)
		assert.Equal(t, 2*c.motifs, strings.Count(d.String(), `class="motif"`), "%+v", c.roll)
		assert.Equal(t, c.names, strings.Count(d.String(), ">repeat "), "%+v", c.roll)
	}
}

var update = flag.Bool("update", false, "write the pictures in testdata anew")

func golden(t *testing.T, file, got string) {
	t.Helper()
	file = filepath.Join("testdata", file)
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644)) //nolint:gosec // a document
	}
	want, err := os.ReadFile(file) //nolint:gosec // named in the test
	require.NoError(t, err)
	require.True(t, string(want) == got, "run with -update after looking at the change")
}

// A hide with everything that a drawing shows.
func TestHidePicture(t *testing.T) {
	hide, err := material.NaturalShape(material.WholeHide, 52*unit.SquareFoot)
	require.NoError(t, err)
	tear, err := shape.Ellipse(2*in, 3*in)
	require.NoError(t, err)
	tear, err = tear.Moved(inches(60, 58))
	require.NoError(t, err)
	skin := material.Skin{ID: "H1", Kind: material.WholeHide, Outline: hide, Border: in, Holes: []shape.Outline{tear},
		Defects: []material.Defect{{Kind: material.Brand, At: inches(86, 27), Across: 5 * in}, {Kind: material.HealedScratch, At: inches(40, 32), Across: 3 * in}},
		Zones: []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: polygon(t, inches(0, 5), inches(14, 5), inches(19, 45), inches(14, 100), inches(0, 100))},
			{Name: "neck", Grade: material.RoughGrade, Outline: polygon(t, inches(25, 92), inches(75, 92), inches(70, 110), inches(30, 110))}}}
	wing := wingChair(t)
	ps := readingRoom(t)
	ps[0].Count, ps[1].Count, ps[2].Count = 1, 1, 4
	ps = append(ps, Piece{Name: "wing", Outline: wing[2].Outline, Count: 2, Hand: Paired, Least: material.FairGrade})
	p := solved(t, Job{Hides: &Hides{AtHand: []material.Skin{skin}}, Pieces: ps}, Options{Effort: 0.1})
	require.True(t, p.Complete())
	drawn, err := p.Draw(Picture{Title: "brown leather", Labels: []Label{{"1", "cushion top"}, {"2", "boxing"}, {"3", "seat"}, {"4", "wing"}}})
	require.NoError(t, err)
	golden(t, "hide.svg", drawn[0].SVG)
	assertReadable(t, drawn[0].SVG)
	// As the engine lays them: the middle of the top lies that way from the middle
	// of the bottom.
	turned := 0
	for _, q := range p.Places {
		if q.Piece != 0 && q.Piece != 1 {
			continue
		}
		low, high := p.Job.Pieces[q.Piece].Outline.Bounds()
		up := topOf(q.Turned, false)
		reach, least := math.Inf(-1), math.Inf(1)
		for _, a := range q.Outline {
			r := a.X.Millimetres()*up.X - a.Y.Millimetres()*up.Y
			reach, least = max(reach, r), min(least, r)
		}
		if math.Mod(float64(q.Turned), 90) != 0 {
			turned++
		}
		assert.InDelta(t, (high.Y - low.Y).Millimetres(), reach-least, 0.5, "%v", q.Turned)
	}
	assert.Positive(t, turned)
}

func TestRollPicture(t *testing.T) {
	tri := polygon(t, inches(0, 0), inches(20, 0), inches(20, 12), inches(8, 18), inches(0, 12))
	roll := material.Roll{Width: 54 * in, Selvage: in / 2, Repeat: 9 * in, Across: 53 * in / 4, Drop: material.Drop{Num: 1, Den: 2}, Increment: unit.Yard / 4,
		Flaws: []material.Flaw{{X: 20 * in, Y: 3 * in, Width: 2 * in, Length: in}, {X: 5 * in, Y: 26 * in, Width: 9 * in, Length: 40 * in}, {Y: 300 * in, Length: in}}}
	ps := []Piece{{Name: "gusset", Outline: tri, Count: 2, Hand: Paired, Phase: OnMotif(inches(10, 6))}, {Name: "tab", Outline: boxAt(t, 0, 0, 6, 8), Count: 2, Phase: Phase{Axes: Unbound}}}
	p, err := onRoll(roll, ps, light)
	require.NoError(t, err)
	drawn, err := p.Draw(Picture{Title: "green stripe"})
	require.NoError(t, err)
	golden(t, "roll.svg", drawn[0].SVG)
	assertReadable(t, drawn[0].SVG)
	assert.Equal(t, 2, strings.Count(drawn[0].SVG, `class="flaw"`), "a flaw behind the goods that are bought is not drawn")
	for _, o := range []Picture{{Width: 10}, {Labels: []Label{{}}}} {
		_, err = p.Draw(o)
		require.ErrorIs(t, err, unit.ErrRange)
	}
}

// A roll is drawn as it lies, not as its mirror image: seen from above, a hook
// whose foot points to the right of the roll has its foot below on the page, and
// a piece turned anticlockwise has its top at the left edge, which is above.
func TestRollIsNotDrawnMirrored(t *testing.T) {
	hook := polygon(t, inches(0, 0), inches(12, 0), inches(12, 3), inches(3, 3), inches(3, 20), inches(0, 20))
	p, err := onRoll(material.Roll{Width: 54 * in}, []Piece{{Name: "hook", Outline: hook, Count: 1}}, light)
	require.NoError(t, err)
	drawn, err := p.Draw(Picture{})
	require.NoError(t, err)
	_, points, found := strings.Cut(drawn[0].SVG, `<polygon points="`)
	require.True(t, found)
	points, _, _ = strings.Cut(points, `"`)
	sum := 0.0
	var page []svg.Point
	for _, f := range strings.Fields(points) {
		x, y, _ := strings.Cut(f, ",")
		px, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		page = append(page, svg.Point{X: px, Y: -py})
	}
	for i, a := range page {
		b := page[(i+1)%len(page)]
		sum += a.X*b.Y - b.X*a.Y
	}
	require.Len(t, page, 6)
	assert.Positive(t, sum, "anticlockwise as the outline of the place")
	up := topOf(90, true)
	assert.InDelta(t, -1, up.Y, 1e-12)
}
