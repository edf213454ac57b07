package layout

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var update = flag.Bool("update", false, "rewrite the golden drawings")

// place says where the lower left corner of a copy goes, by hand.
type place struct {
	panel, copy, skin, quarters int
	x, y                        unit.Length // inches
}

// byHand makes a plan without a search, so that its drawing depends on the
// drawing alone.
func byHand(t *testing.T, skins []material.Skin, panels []SkinPanel, places ...place) SkinPlan {
	t.Helper()
	tab, err := newTable(skins, panels, NestOptions{})
	require.NoError(t, err)
	p := SkinPlan{Skins: skins, Panels: panels, Tolerance: DefaultNestTolerance, Kind: cite.Layout, Least: 1}
	for i := range skins {
		p.Used = append(p.Used, i)
	}
	for _, w := range places {
		for _, c := range tab.pieces {
			if c.panel != w.panel || (w.copy-c.first)%c.stepping != 0 {
				continue
			}
			ring := c.ring
			if c.mirrored() {
				m := make(geom.Ring, len(ring))
				for i, q := range ring {
					q.X = -q.X
					m[len(ring)-1-i] = q
				}
				ring = m
			}
			ring = turnedQuarters(ring, w.quarters)
			b := ring.Bounds()
			dx, dy := int64(w.x*in)/nestStep-b.Min.X, int64(w.y*in)/nestStep-b.Min.Y
			for i := range ring {
				ring[i].X += dx
				ring[i].Y += dy
			}
			p.Placements = append(p.Placements, SkinPlacement{Panel: w.panel, Copy: w.copy, Skin: w.skin, Angle: unit.Angle(90 * w.quarters), Mirrored: c.mirrored(),
				X: unit.Length(dx * nestStep), Y: unit.Length(dy * nestStep), Outline: pointsOf(ring, nestStep)})
			p.Placed += panels[w.panel].Outline.Area()
		}
	}
	for i := range skins {
		u, err := tab.usable(i)
		require.NoError(t, err)
		p.Usable, p.Gross, p.Bought = p.Usable+u, p.Gross+tab.ground[i].gross, p.Bought+tab.soldArea(i)
	}
	p.Offcuts = p.offcuts(tab, 6*in, 8*in)
	require.NoError(t, p.Verify())
	return p
}

// markedHide is a hide with everything that a drawing shows.
func markedHide(t *testing.T) (material.Skin, []SkinPanel) {
	hide, err := material.NaturalShape(material.WholeHide, 52*unit.SquareFoot)
	require.NoError(t, err)
	tear, err := shape.Ellipse(2*in, 3*in)
	require.NoError(t, err)
	tear, err = tear.Moved(inches(60, 58))
	require.NoError(t, err)
	skin := material.Skin{ID: "H1", Kind: material.WholeHide, Outline: hide, Thickness: 12 * unit.Millimetre / 10, Border: in, Holes: []shape.Outline{tear},
		Defects: []material.Defect{{Kind: material.Brand, At: inches(86, 27), Across: 5 * in}, {Kind: material.HealedScratch, At: inches(40, 32), Across: 3 * in},
			{Kind: material.GrowthMark, At: inches(50, 70), Across: 6 * in}},
		Zones: []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: polygon(t, inches(0, 5), inches(14, 5), inches(19, 45), inches(14, 100), inches(0, 100))},
			{Name: "neck", Grade: material.RoughGrade, Outline: polygon(t, inches(25, 92), inches(75, 92), inches(70, 110), inches(30, 110))},
			{Name: "flank", Grade: material.GoodGrade, Outline: polygon(t, inches(80, 34), inches(110, 34), inches(110, 80), inches(80, 80))}}}
	skin.Stretch = []material.StretchRegion{{Outline: polygon(t, inches(0, 0), inches(30, 0), inches(30, 30), inches(0, 30)), Direction: 30}, {Direction: 0}}
	wing := wingChair(t)
	panels := append(readingRoom(t), SkinPanel{Name: "wing", Outline: wing[2].Outline, Count: 2, Hand: Paired, Least: material.FairGrade},
		SkinPanel{Name: "facing", Outline: wing[5].Outline, Count: 2, Grain: Grain{Angles: []unit.Angle{0, 90}}},
		SkinPanel{Name: "welt strip", Outline: box(t, 0, 0, 1, 30), Count: 2, Grain: Grain{Angles: []unit.Angle{0, 90}}, Least: material.RoughGrade, Worst: material.DeepMark},
		SkinPanel{Name: "button", Outline: func() shape.Outline {
			o, err := shape.Circle(2 * in)
			require.NoError(t, err)
			return o
		}(), Count: 3, Worst: material.PlainMark})
	panels[0].Count, panels[1].Count, panels[2].Count = 1, 1, 4
	return skin, panels
}

func TestSkinDrawing(t *testing.T) {
	skin, panels := markedHide(t)
	p := byHand(t, []material.Skin{skin}, panels,
		place{0, 0, 0, 0, 19, 35}, place{1, 0, 0, 1, 24, 86},
		place{2, 0, 0, 0, 22, 58}, place{2, 1, 0, 2, 34, 9}, place{2, 2, 0, 0, 58, 9}, place{2, 3, 0, 0, 56, 62},
		place{3, 0, 0, 0, 18, 10}, place{3, 1, 0, 0, 69, 36}, place{4, 0, 0, 0, 47, 74}, place{4, 1, 0, 1, 46, 58},
		place{5, 0, 0, 0, 18, 45}, place{5, 1, 0, 1, 24, 84},
		place{6, 0, 0, 0, 47, 65}, place{6, 1, 0, 0, 50, 65}, place{6, 2, 0, 0, 53, 65})
	for _, c := range []struct {
		file string
		in   unit.System
	}{{"skin.svg", unit.Inches}, {"skin-metric.svg", unit.Metric}} {
		s, err := p.SVG(0, c.in)
		require.NoError(t, err)
		golden(t, c.file, s)
	}
}

func TestRollDrawing(t *testing.T) {
	tri := polygon(t, inches(0, 0), inches(20, 0), inches(20, 12), inches(8, 18), inches(0, 12))
	roll := material.Roll{Name: "green stripe", Width: 54 * in, Selvage: in / 2, Repeat: 9 * in, Across: 53 * in / 4, Drop: material.Drop{Num: 1, Den: 2}, Increment: unit.Yard / 4,
		Flaws: []material.Flaw{{X: 20 * in, Y: 3 * in, Width: 2 * in, Length: in}, {X: 5 * in, Y: 26 * in, Width: 9 * in, Length: 40 * in}, {Y: 30 * in, Length: in}}}
	panels := []RollPanel{{Name: "gusset", Outline: tri, Count: 2, Paired: true, Match: inches(10, 6)}, {Name: "tab", Outline: box(t, 0, 0, 2, 4), Count: 2, Unmatched: true}}
	p, err := NestRoll(t.Context(), roll, panels, light)
	require.NoError(t, err)
	s, err := p.SVG(unit.Inches)
	require.NoError(t, err)
	golden(t, "roll.svg", s)
}

// A flaw behind the goods that are bought is not drawn.
func TestFlawsBehindTheOrder(t *testing.T) {
	roll := material.Roll{Width: 54 * in}
	pieces := []Box{{Name: "seat", Width: 20 * in, Length: 20 * in, Count: 2}}
	want, err := Boxes(t.Context(), roll, pieces, quick)
	require.NoError(t, err)
	roll.Flaws = []material.Flaw{{Y: 20 * in, Length: in}, {X: 3 * in, Y: 30 * in, Width: in, Length: in}}
	got, err := Boxes(t.Context(), roll, pieces, quick)
	require.NoError(t, err)
	assert.Equal(t, want.Placements, got.Placements)
	plain, err := want.SVG(unit.Inches)
	require.NoError(t, err)
	flawed, err := got.SVG(unit.Inches)
	require.NoError(t, err)
	assert.Equal(t, plain, flawed)
}

// golden compares a drawing with its file, and holds it to being well formed
// with every text inside the sheet.
func golden(t *testing.T, file, got string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(got))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
	}
	path := filepath.Join("testdata", file)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.True(t, string(want) == got, "%s differs; look at it and run go test ./material/layout -update", file)
}

// A label stands inside its panel, whatever the panel's shape and turn: the
// corners of its box lie within the outline.
func TestLabelsStandInside(t *testing.T) {
	shapes := [][]svg.Point{
		{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 30}, {X: 30, Y: 30}, {X: 30, Y: 150}, {X: 0, Y: 150}},
		{{X: 0, Y: 0}, {X: 120, Y: 100}, {X: 90, Y: 130}, {X: -30, Y: 30}},
		{{X: 50, Y: 0}, {X: 100, Y: 90}, {X: 0, Y: 90}},
		{{X: 0, Y: 0}, {X: 18, Y: 0}, {X: 18, Y: 300}, {X: 0, Y: 300}},
	}
	for i, pts := range shapes {
		for _, up := range []float64{-90, 0, 37, 180, 200.5} {
			for _, lines := range [][]string{{"seat 1", "23 x 21 in"}, {"arm"}, {"4"}} {
				b, ok := newMask(pts, up).room(lines, true)
				if !ok {
					continue
				}
				long := 0
				for _, l := range lines {
					long = max(long, len(l))
				}
				sin, cos := math.Sincos(b.turn * math.Pi / 180)
				w, h := b.w/2, float64(len(lines))*b.pt*0.6
				for _, c := range [][2]float64{{-w, -h}, {w, -h}, {w, h}, {-w, h}} {
					p := svg.Point{X: b.mid.X + c[0]*cos - c[1]*sin, Y: b.mid.Y + c[0]*sin + c[1]*cos}
					assert.True(t, within(pts, p), "shape %d up %v %v", i, up, lines)
				}
				assert.GreaterOrEqual(t, b.w, float64(long)*b.pt*charWidth)
			}
		}
	}
}

func TestWordsAreHalved(t *testing.T) {
	assert.Empty(t, words("seat", 0))
	assert.Equal(t, "outside", words("outside back", 0))
	assert.Equal(t, "back", words("outside back", 1))
	assert.Equal(t, "a long", words("a long inside back", 0))
}
