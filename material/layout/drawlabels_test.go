package layout

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// drawnText is a text of a finished drawing with the place that it takes, read from the
// file alone.
type drawnText struct {
	words string
	bold  bool
	size  float64
	box   quad
}

// drawnShape is an element of a finished drawing.
type drawnShape struct {
	class  string
	points []svg.Point
}

// readDrawing reads the texts and polygons of a drawing.
func readDrawing(t require.TestingT, drawing string) (texts []drawnText, shapes []drawnShape) {
	dec := xml.NewDecoder(strings.NewReader(drawing))
	num := func(s string) float64 {
		f, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return f
	}
	var open *drawnText
	for {
		token, err := dec.Token()
		if token == nil {
			break
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			a := map[string]string{}
			for _, x := range e.Attr {
				a[x.Name.Local] = x.Value
			}
			switch e.Name.Local {
			case "text":
				open = &drawnText{size: num(a["font-size"]), bold: a["font-weight"] == "bold"}
				open.box.mid, open.box.along = svg.Point{X: num(a["x"]), Y: num(a["y"])}, svg.Point{X: 1}
				if turn, ok := strings.CutPrefix(a["transform"], "rotate("); ok {
					f := strings.Fields(strings.TrimSuffix(turn, ")"))
					sin, cos := math.Sincos(num(f[0]) * math.Pi / 180)
					at := quad{mid: svg.Point{X: num(f[1]), Y: num(f[2])}, along: svg.Point{X: cos, Y: sin}}
					open.box = quad{mid: at.page(open.box.mid.X-at.mid.X, open.box.mid.Y-at.mid.Y), along: at.along}
				}
				open.words = a["text-anchor"]
			case "polygon":
				var points []svg.Point
				for _, f := range strings.Fields(a["points"]) {
					x, y, _ := strings.Cut(f, ",")
					points = append(points, svg.Point{X: num(x), Y: num(y)})
				}
				shapes = append(shapes, drawnShape{a["class"], points})
			}
		case xml.CharData:
			if open == nil {
				continue
			}
			anchor := open.words
			open.words = string(e)
			wide := svg.TextWidth(open.words, open.size) / 2
			if open.bold {
				wide *= 1.05
			}
			open.box.wide, open.box.high = wide, open.size*0.46
			off := map[string]float64{"": wide, "start": wide, "end": -wide}[anchor]
			open.box.mid = open.box.page(off, -0.26*open.size) // from the base line to the middle of the letters
			texts, open = append(texts, *open), nil
		}
	}
	return texts, shapes
}

// assertReadable checks a finished drawing: no type under 9 of 1/96 in, no text over
// another, and none that runs over the cut line of a piece.
func assertReadable(t require.TestingT, drawing string) {
	texts, shapes := readDrawing(t, drawing)
	sizes := map[float64]bool{}
	for i, a := range texts {
		sizes[a.size] = true
		if a.size < 9 {
			require.Fail(t, "small type", "%q at %v", a.words, a.size)
		}
		for _, b := range texts[i+1:] {
			if a.box.meets(b.box) {
				require.Fail(t, "a text over another", "%q and %q", a.words, b.words)
			}
		}
		for _, s := range shapes {
			if s.class == "piece" && a.box.grown(-0.3).cutBy(s.points) {
				require.Fail(t, "a text over a cut line", "%q", a.words)
			}
		}
	}
	require.LessOrEqual(t, len(sizes), 3, "sizes of type")
}

// someShape is a rectangle, an ellipse or a star.
func someShape(t *rapid.T) shape.Outline {
	w := unit.Length(rapid.IntRange(1, 30).Draw(t, "w")) * in
	h := unit.Length(rapid.IntRange(1, 30).Draw(t, "h")) * in
	var o shape.Outline
	var err error
	switch rapid.IntRange(0, 3).Draw(t, "shape") {
	case 0:
		o, err = shape.Ellipse(w, h)
	case 1:
		o, err = shape.Polygon(star(t)...)
	default:
		o, err = shape.Rectangle(w, h)
	}
	if err != nil {
		t.SkipNow() // a star of one line
	}
	return o
}

var someNames = []string{"", "seat", "window-seat cushion, zip panel lower 1", "inside arm", "boxing"}

// somePieces are pieces of many kinds with what is written on them.
func somePieces(t *rapid.T, most int, hands ...Hand) ([]Piece, []Label) {
	var ps []Piece
	var labels []Label
	for i := range rapid.IntRange(1, most).Draw(t, "pieces") {
		ps = append(ps, Piece{Outline: someShape(t), Count: rapid.IntRange(1, 4).Draw(t, "count"), Hand: rapid.SampledFrom(hands).Draw(t, "hand"),
			Worst: material.Severity(rapid.IntRange(0, 3).Draw(t, "worst")), Least: material.Grade(rapid.IntRange(0, 3).Draw(t, "least"))})
		labels = append(labels, Label{Name: rapid.SampledFrom(someNames).Draw(t, "name")})
		if labels[i].Number = strconv.Itoa(i * 13); rapid.IntRange(0, 4).Draw(t, "no number") == 0 {
			labels[i].Number = ""
		}
	}
	return ps, labels
}

// someHide is a hide with marks, zones and holes, traced or not, its backbone known or not.
func someHide(t *rapid.T) material.Skin {
	s := material.Skin{ID: "A", Kind: rapid.SampledFrom(material.SkinKinds()).Draw(t, "kind"), Area: unit.Area(rapid.IntRange(20, 70).Draw(t, "area")) * unit.SquareFoot}
	o, err := s.Shape()
	require.NoError(t, err)
	low, high := o.Bounds()
	spot := func(name string) shape.Point {
		return shape.Point{X: high.X * unit.Length(rapid.IntRange(30, 70).Draw(t, name+" x")) / 100, Y: high.Y * unit.Length(rapid.IntRange(30, 70).Draw(t, name+" y")) / 100}
	}
	if rapid.Bool().Draw(t, "traced") {
		s.Outline = o
		if x := (low.X + high.X) / 2; rapid.Bool().Draw(t, "backbone") {
			s.Backbone = &x
		}
	}
	for range rapid.IntRange(0, 6).Draw(t, "marks") {
		s.Defects = append(s.Defects, material.Defect{Kind: material.DefectKind(rapid.IntRange(0, 10).Draw(t, "kind")), At: spot("mark"),
			Across: unit.Length(rapid.IntRange(1, 8).Draw(t, "across")) * in, Note: rapid.SampledFrom([]string{"", "see the flesh side"}).Draw(t, "note")})
	}
	if rapid.Bool().Draw(t, "zone") {
		at := spot("zone")
		o, err := shape.Rectangle(12*in, 30*in)
		require.NoError(t, err)
		o, err = o.Moved(at)
		require.NoError(t, err)
		s.Zones = []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: o}}
	}
	if rapid.Bool().Draw(t, "rim") {
		s.Border = in
	}
	return s
}

// someHidePlan lays pieces of any grain and hand on a hide; ok is false where that is
// refused.
func someHidePlan(t *rapid.T, most int) (plan Plan, labels []Label, ok bool) {
	ps, labels := somePieces(t, most, AsDrawn, EitherHand, Paired)
	for i := range ps {
		ps[i].Grain = rapid.SampledFrom([]Grain{{}, FreeGrain(), EitherWay(15)}).Draw(t, "grain")
	}
	plan, err := hidesOf(someHide(t), ps, quick)
	if err != nil {
		require.True(t, typed(err), "%v", err)
	}
	return plan, labels, err == nil
}

// A drawing of a hide can be read: no text runs over a cut line or another text, and
// every piece is told with its hand, on the drawing or below it.
func TestHideDrawingsAreReadable(t *testing.T) { few.Check(t, 12, hideDrawingsAreReadable) }

func hideDrawingsAreReadable(t *rapid.T) {
	plan, labels, ok := someHidePlan(t, 5)
	if !ok {
		return
	}
	drawn, err := plan.Draw(Picture{Title: "leather", Labels: labels, Units: pattern.Units(rapid.IntRange(0, 1).Draw(t, "units")), Width: rapid.SampledFrom([]int{0, 400, 1000}).Draw(t, "width")})
	require.NoError(t, err)
	for _, d := range drawn {
		assertReadable(t, d.SVG)
		assertNamed(t, d.SVG, plan.On(d.Hide), labels)
		texts, _ := readDrawing(t, d.SVG)
		for _, m := range must(plan.HideMarks(d.Hide)) {
			assert.True(t, slices.ContainsFunc(texts, func(x drawnText) bool { return strings.HasPrefix(x.words, m.Letter+"  ") }), "mark %s has its line", m.Letter)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// assertNamed checks that numbers and hands of all pieces are told.
func assertNamed(t require.TestingT, drawing string, places []Place, labels []Label) {
	texts, _ := readDrawing(t, drawing)
	said := ""
	for _, x := range texts {
		said += " " + x.words
	}
	mirrored := 0
	for _, q := range places {
		l := labels[q.Piece]
		assert.Contains(t, said, " "+l.Number)
		if q.Mirrored && l.Number+l.Name != "" {
			mirrored++
		}
	}
	if mirrored > 0 {
		assert.Contains(t, said, mirroredShort)
	}
	told := strings.Count(said, mirroredShort) - strings.Count(said, mirroredShort+": mirrored")
	for k := 2; k <= mirrored; k++ { // a line below the drawing counts several
		told += (k - 1) * strings.Count(said, fmt.Sprintf("(%d of them)", k))
	}
	assert.GreaterOrEqual(t, told, mirrored, "%v %s", labels, said)
}

// A drawing of a roll can be read too.
func TestRollDrawingsAreReadable(t *testing.T) { few.Check(t, 20, rollDrawingsAreReadable) }

func rollDrawingsAreReadable(t *rapid.T) {
	ps, labels := somePieces(t, 6, AsDrawn, Paired)
	roll := material.Roll{Width: unit.Length(rapid.IntRange(36, 60).Draw(t, "width")) * in}
	if rapid.Bool().Draw(t, "patterned") {
		roll.Repeat, roll.Across = unit.Length(rapid.IntRange(2, 30).Draw(t, "repeat"))*in, unit.Length(rapid.IntRange(2, 30).Draw(t, "across"))*in
		roll.First = shape.Point{X: unit.Length(rapid.IntRange(0, 30).Draw(t, "first x")) * in, Y: unit.Length(rapid.IntRange(0, 30).Draw(t, "first y")) * in}
	}
	for range rapid.IntRange(0, 3).Draw(t, "flaws") {
		roll.Flaws = append(roll.Flaws, material.Flaw{X: unit.Length(rapid.IntRange(0, 30).Draw(t, "x")) * in, Y: unit.Length(rapid.IntRange(0, 90).Draw(t, "y")) * in,
			Width: unit.Length(rapid.IntRange(1, 6).Draw(t, "flaw width")) * in, Length: unit.Length(rapid.IntRange(1, 20).Draw(t, "flaw length")) * in})
	}
	plan, err := onRoll(roll, ps, quick)
	if err != nil {
		require.True(t, typed(err), "%v", err)
		return
	}
	drawn, err := plan.Draw(Picture{Title: "cloth", Labels: labels, Units: pattern.Units(rapid.IntRange(0, 1).Draw(t, "units"))})
	require.NoError(t, err)
	said := ""
	for _, d := range drawn {
		assertReadable(t, d.SVG)
		said += d.SVG
	}
	assertNamed(t, strings.ReplaceAll(strings.ReplaceAll(said, "</svg>", ""), "<svg", "<g><g/></g><svg")+strings.Repeat("</svg>", len(drawn)), plan.Places, labels)
}

// What is broken out of a line and what is left of it are the line.
func TestBroken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		point := rapid.Custom(func(t *rapid.T) svg.Point {
			return svg.Point{X: rapid.Float64Range(-50, 50).Draw(t, "x"), Y: rapid.Float64Range(-50, 50).Draw(t, "y")}
		})
		a, b := point.Draw(t, "a"), point.Draw(t, "b")
		var boxes []quad
		for range rapid.IntRange(0, 4).Draw(t, "boxes") {
			sin, cos := math.Sincos(rapid.Float64Range(0, 7).Draw(t, "turn"))
			boxes = append(boxes, quad{point.Draw(t, "mid"), svg.Point{X: cos, Y: sin}, rapid.Float64Range(0, 30).Draw(t, "w"), rapid.Float64Range(0, 30).Draw(t, "h")})
		}
		left := broken(a, b, boxes)
		const n = 101
		for k := range n {
			at := svg.Point{X: a.X + (b.X-a.X)*float64(k)/n, Y: a.Y + (b.Y-a.Y)*float64(k)/n}
			covered, near := false, false
			for _, q := range boxes {
				o := q.own(at)
				dx, dy := math.Abs(o.X)-q.wide, math.Abs(o.Y)-q.high
				covered = covered || dx < 0 && dy < 0
				near = near || math.Abs(dx) < 1e-6 || math.Abs(dy) < 1e-6
			}
			drawn := slices.ContainsFunc(left, func(p [2]svg.Point) bool {
				in := math.Hypot(at.X-p[0].X, at.Y-p[0].Y) + math.Hypot(at.X-p[1].X, at.Y-p[1].Y)
				return in < math.Hypot(p[1].X-p[0].X, p[1].Y-p[0].Y)+1e-9
			})
			if !near && a != b {
				assert.Equal(t, !covered, drawn, "%v", at)
			}
		}
	})
}

// BenchmarkDraw draws a roll with many pieces, most of them small.
func BenchmarkDraw(b *testing.B) {
	ps := pieces(cloth{name: "outside back", width: 34 * in, length: 28 * in, count: 10}, cloth{name: "inside back channel", width: 5 * in, length: 26 * in, count: 60}, cloth{name: "tab", width: 2 * in, length: 3 * in, count: 60})
	p, err := onRoll(material.Roll{Width: 54 * in}, ps, quick)
	require.NoError(b, err)
	for b.Loop() {
		_, err := p.Draw(Picture{})
		require.NoError(b, err)
	}
}
