package pattern

import (
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

var update = flag.Bool("update", false, "rewrite the golden drawings")

// kidney is a small panel with curves, a handling margin, a notch and marks.
func kidney(t testing.TB) Pattern {
	o, err := shape.Path("M 0 0 C 3 -1 7 -1 10 0 C 12 3 10 6 7 5 C 5 4 4 4 3 5 C 0 6 -2 3 0 0 Z", unit.Inch)
	require.NoError(t, err)
	names := o.Edges()
	c, err := allowance.Panel{
		Name: "kidney pad", Outline: o, Tolerance: unit.Millimetre,
		Edges:   map[string]allowance.Edge{names[0]: {Finish: allowance.PullOver, Handling: unit.Inch / 2}},
		Notches: []allowance.Notch{{Edge: names[1], At: 2 * unit.Inch}},
	}.Cut()
	require.NoError(t, err)
	p := Of(c)
	p.Count, p.Pair, p.Goods, p.Notes = 6, true, "hide", []string{"drop-in seat", "along the backbone"}
	p.Marks = []shape.Point{{X: 3 * unit.Inch, Y: 2 * unit.Inch}}
	return p
}

// The drawings are those that were looked at. After -update, look at
// them again.
func TestGolden(t *testing.T) {
	p := kidney(t)
	var letters = map[string]string{}
	for _, e := range p.Edges {
		letters[e.Name] = "b"
	}
	letters[p.Edges[0].Name] = "a"
	for name, draw := range map[string]func() (string, error){
		"kidney.svg":          func() (string, error) { return p.SVG(Inches) },
		"kidney.dxf":          func() (string, error) { return p.DXF(Inches) },
		"kidney-mirrored.svg": func() (string, error) { return p.Mirror().SVG(Metric) },
		"kidney-picture.svg":  func() (string, error) { return p.Picture(Picture{Letters: letters}) },
		"kidney-plain.svg":    func() (string, error) { return p.Picture(Picture{Plain: true}) },
	} {
		got, err := draw()
		require.NoError(t, err)
		again, err := draw()
		require.NoError(t, err)
		require.Equal(t, got, again, "the same bytes every time")
		file := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(got), 0o600))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(want), got, name)
	}
}

func TestCheck(t *testing.T) {
	good := kidney(t)
	require.NoError(t, good.Check())
	far := shape.Point{X: 2000 * unit.Metre}
	for field, spoil := range map[string]func(*Pattern){
		"cut":          func(p *Pattern) { *p = Pattern{} },
		"cut.outer":    func(p *Pattern) { p.Cut.Outer = p.Cut.Outer[:2] },
		"cut.holes[0]": func(p *Pattern) { p.Cut.Holes = [][]shape.Point{{far}} },
		"trim.outer[1].x": func(p *Pattern) {
			p.Trim.Outer = append([]shape.Point{{}, far}, p.Trim.Outer...)
		},
		"seam.outer":      func(p *Pattern) { p.Seam.Outer = make([]shape.Point, 1) },
		"finished.outer":  func(p *Pattern) { p.Finished.Outer = make([]shape.Point, 2) },
		"notches[0][0].y": func(p *Pattern) { p.Notches = []allowance.CutNotch{{Seam: shape.Point{Y: math.MinInt64}}} },
		"marks[0].x":      func(p *Pattern) { p.Marks = []shape.Point{far} },
		"grain[1].x":      func(p *Pattern) { p.Grain.Head = far },
		"width":           func(p *Pattern) { p.Width = -unit.Inch },
		"length":          func(p *Pattern) { p.Length = 1 },
		"count":           func(p *Pattern) { p.Count = -1 },
	} {
		p := kidney(t)
		spoil(&p)
		for _, err := range []error{p.Check(), second(p.SVG(Inches)), second(p.DXF(Metric)), second(p.Picture(Picture{})), second(p.Tile(A4()))} {
			var input *unit.InputError
			require.ErrorAs(t, err, &input, field)
			assert.Equal(t, unit.Path(field), input.Field)
		}
	}
	for field, err := range map[string]error{
		"units":          second(good.SVG(7)),
		"picture.width":  second(good.Picture(Picture{Width: -1})),
		"picture.height": second(good.Picture(Picture{Height: 20_000})),
		"picture.scale":  second(good.Picture(Picture{Scale: 0.9})),
		"sheet.width":    second(good.Tile(Sheet{})),
		"sheet.foot":     second(good.Tile(Sheet{Foot: -1})),
		"sheet.margin":   second(good.Tile(Sheet{Margin: -unit.Inch})),
		"sheet.overlap":  second(good.Tile(Sheet{Width: unit.Metre, Height: unit.Metre, Overlap: 3000 * unit.Metre})),
		"sheet.height":   second(good.Tile(Sheet{Width: unit.Metre, Height: 30 * unit.Millimetre, Margin: 10 * unit.Millimetre})),
		"length":         second(Strip(unit.Inch, 0)),
	} {
		var input *unit.InputError
		require.ErrorAs(t, err, &input, field)
		assert.Equal(t, unit.Path(field), input.Field)
	}
	_, err := good.Picture(Picture{Scale: unit.Ratio(math.NaN())})
	require.ErrorIs(t, err, unit.ErrNotFinite)
	// A kilometre of A4 is no pattern.
	long, err := Strip(unit.Metre, 1000*unit.Metre)
	require.NoError(t, err)
	_, err = long.Tile(A4())
	require.ErrorIs(t, err, unit.ErrRange)
}

func second[T any](_ T, err error) error { return err }

func TestTally(t *testing.T) {
	for want, p := range map[string]Pattern{
		"cut 1":                        {},
		"cut 4 of hide":                {Count: 4, Goods: "hide"},
		"cut 4 mirrored":               {Count: 4, Mirrored: true},
		"cut 2 and 1 mirrored of hide": {Count: 3, Pair: true, Goods: "hide"},
		"cut 1 mirrored of hide":       {Count: 3, Pair: true, Mirrored: true, Goods: "hide"},
	} {
		assert.Equal(t, want, p.Tally())
	}
}

func TestStraight(t *testing.T) {
	strip, err := Strip(unit.Inch, unit.Metre)
	require.NoError(t, err)
	assert.True(t, strip.Straight())
	marked := strip
	marked.Marks = []shape.Point{{X: 1, Y: 1}}
	assert.False(t, marked.Straight())
	assert.False(t, kidney(t).Straight())
	assert.False(t, Pattern{}.Straight())
	slanted := strip
	slanted.Cut.Outer = []shape.Point{{}, {X: 4}, {X: 5, Y: 5}, {Y: 5}}
	assert.False(t, slanted.Straight())
}

// What a tiling shows goes through JSON.
func TestJSON(t *testing.T) {
	p := kidney(t)
	tiling, err := p.Tile(Letter())
	require.NoError(t, err)
	for _, pair := range [][2]any{{p, &Pattern{}}, {tiling, &Tiling{}}, {p.Lines(), &[]Line{}}, {Metric, new(Units)}} {
		data, err := json.Marshal(pair[0])
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(data, pair[1]))
		assert.Equal(t, pair[0], reflect.ValueOf(pair[1]).Elem().Interface())
	}
	_, err = json.Marshal(Kind(9))
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.ErrorIs(t, new(Units).UnmarshalText([]byte("ell")), unit.ErrUnknown)
}

func TestTileLabels(t *testing.T) {
	for want, at := range map[string][2]int{"A1": {0, 0}, "B3": {1, 2}, "Z10": {25, 9}, "AA1": {26, 0}, "AZ2": {51, 1}, "BA1": {52, 0}} {
		assert.Equal(t, want, tileLabel(at[0], at[1]))
	}
}

// The test square fits the window however the sheet lies.
func TestTestSquare(t *testing.T) {
	for want, s := range map[unit.Length]Sheet{
		100 * unit.Millimetre: A4(),
		50 * unit.Millimetre:  {Width: 100 * unit.Millimetre, Height: unit.Metre, Margin: 5 * unit.Millimetre},
		10 * unit.Millimetre:  {Width: 40 * unit.Millimetre, Height: 40 * unit.Millimetre, Margin: 5 * unit.Millimetre},
	} {
		assert.Equal(t, want, s.TestSquare())
	}
}

// A hole is part of the cut line in every drawing.
func TestHoles(t *testing.T) {
	p, err := Strip(200*unit.Millimetre, 300*unit.Millimetre)
	require.NoError(t, err)
	p.Cut.Holes = [][]shape.Point{{{X: 50e6, Y: 50e6}, {X: 50e6, Y: 90e6}, {X: 90e6, Y: 90e6}}}
	dxf, err := p.DXF(Inches)
	require.NoError(t, err)
	svg, err := p.SVG(Inches)
	require.NoError(t, err)
	for _, lines := range [][]fileLine{readDXF(t, dxf).lines, readSVG(t, svg).lines} {
		assert.InDelta(t, 200*300-40*40/2, shoelace(lines[0].points, lines[1].points), 1e-9)
	}
	assert.False(t, p.Straight())
	assert.False(t, inside(shape.Point{X: 60e6, Y: 80e6}, rings(p.Cut)))
}

// A place to write lies inside the cut line, as far from every line as it says.
func TestRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		at, room := p.Room(p.Bounds(), p.Lettering()...)
		require.Positive(t, room)
		for _, l := range p.Lines() {
			if l.Kind == NotchLine || l.Kind == MarkLine || l.Kind == GrainLine && len(l.Points) > 2 {
				continue
			}
			for i := range l.Points {
				if i+1 < len(l.Points) || l.Closed {
					assert.GreaterOrEqual(t, distance(at, l.Points[i], l.Points[(i+1)%len(l.Points)])+1, float64(room))
				}
			}
		}
		for _, m := range p.Marks {
			assert.GreaterOrEqual(t, distance(at, m, m)+1, float64(room))
		}
	})
	_, room := kidney(t).Room(Box{shape.Point{X: unit.Metre}, shape.Point{X: 2 * unit.Metre, Y: unit.Metre}})
	assert.Zero(t, room, "none of the piece is there")
}

// square is a panel of few lines.
func square(t testing.TB) Pattern {
	o, err := shape.Rectangle(20*unit.Inch, 24*unit.Inch)
	require.NoError(t, err)
	c, err := allowance.Panel{Outline: o, Notches: []allowance.Notch{{Edge: "top", At: 10 * unit.Inch}}}.Cut()
	require.NoError(t, err)
	return Of(c)
}

// hostile names try to end a text, to add to the drawing, or to bring in what a
// reader acts on.
var hostile = []string{
	"<script>alert(1)</script>", `"/><image href="x" onload="y"/>`, "]]>", "&lt;&amp;", "<!-- --", "a\r\n  0\r\nEOF\r\n  0\r\nLINE", "^J^M  0^JEOF",
	"%%u%%d%%%", `\U+000A\M+1`, `\\U+0041\P{\C1;x}`, "\x00\x1b\xff\xfe", "\u202e\u2028\u0085\u009b", "\U0001F6CB椅 Größe", strings.Repeat("long ", 200), strings.Repeat("^%%\\U+", 80), "", "  ",
}

func FuzzNames(f *testing.F) {
	for i, h := range hostile {
		f.Add(h, hostile[len(hostile)-1-i], h)
	}
	plain := square(f)
	want, err := plain.SVG(Inches)
	if err != nil {
		f.Fatal(err)
	}
	wantPicture, err := plain.Picture(Picture{})
	if err != nil {
		f.Fatal(err)
	}
	lines, before, small := readDXF(f, firstOf(plain.DXF(Inches))).lines, readSVG(f, want), readSVG(f, wantPicture).lines
	f.Fuzz(func(t *testing.T, name, note, goods string) {
		p := plain
		p.Name, p.Notes, p.Goods = name, []string{note, "along the backbone"}, goods
		texts := p.Texts(Inches)
		// DXF: the same lines, and the texts as they are but for control
		// characters.
		file, err := p.DXF(Inches)
		require.NoError(t, err)
		d := readDXF(t, file)
		require.Equal(t, lines, d.lines)
		var all strings.Builder
		for _, s := range d.texts {
			all.WriteString(decodeDXF(t, s))
		}
		blank := strings.Map(func(r rune) rune {
			if r < ' ' || r >= 0x7f && r < 0xa0 {
				return ' '
			}
			return r
		}, strings.ToValidUTF8(strings.Join(texts, ""), "\ufffd"))
		require.Equal(t, strings.ReplaceAll(blank, "\ufffd", ""), strings.ReplaceAll(all.String(), "\ufffd", ""))
		// SVG: the same elements and attributes.
		file, err = p.SVG(Inches)
		require.NoError(t, err)
		got := readSVG(t, file)
		require.Equal(t, before.attrs, got.attrs)
		require.Equal(t, before.lines, got.lines)
		require.Equal(t, before.groups, got.groups)
		for _, e := range []string{"svg", "title", "g", "path", "polyline"} {
			require.Equal(t, before.names[e], got.names[e])
		}
		require.Len(t, got.names, len(before.names))
		clean := func(s string) string {
			return strings.Map(func(r rune) rune {
				if r < ' ' && r != '\t' && r != '\n' || r == 0x7f || r == 0xfffe || r == 0xffff || r == 0xfffd {
					return -1
				}
				return r
			}, s)
		}
		var written []string
		for _, s := range texts {
			if s != "" {
				written = append(written, clean(strings.ToValidUTF8(s, "\ufffd")))
			}
		}
		for i := range got.texts {
			got.texts[i] = clean(got.texts[i])
		}
		require.Equal(t, written, got.texts)
		// The small drawing.
		file, err = p.Picture(Picture{Title: name, Letters: map[string]string{p.Edges[0].Name: note}})
		require.NoError(t, err)
		require.Equal(t, small, readSVG(t, file).lines)
	})
}

func firstOf[T any](v T, _ error) T { return v }

// FuzzTile lays any rectangle on any sheet: it is refused, or the sheets that
// show it hold its corners.
func FuzzTile(f *testing.F) {
	mm := int64(unit.Millimetre)
	f.Add(600*mm, 800*mm, 210*mm, 297*mm, 10*mm, 7*mm, 10*mm)
	f.Add(mm, 900_000*mm, 50*mm, 40*mm, mm, int64(0), int64(0))
	f.Add(int64(math.MaxInt64), int64(math.MinInt64), int64(math.MaxInt64), int64(1), int64(math.MaxInt64), int64(-1), int64(math.MaxInt64))
	f.Fuzz(func(t *testing.T, w, l, width, height, margin, foot, overlap int64) {
		p, err := Strip(unit.Length(w), unit.Length(l))
		var input *unit.InputError
		if err != nil {
			require.ErrorAs(t, err, &input)
			return
		}
		tiling, err := p.Tile(Sheet{Width: unit.Length(width), Height: unit.Length(height), Margin: unit.Length(margin), Foot: unit.Length(foot), Overlap: unit.Length(overlap)})
		if err != nil {
			require.ErrorAs(t, err, &input)
			require.True(t, strings.HasPrefix(string(input.Field), "sheet"), input.Field)
			return
		}
		require.LessOrEqual(t, len(tiling.Tiles), mostSheets)
		for _, c := range p.Cut.Outer {
			shown := 0
			for _, q := range tiling.Tiles {
				if q.Own.holds([]shape.Point{c}) {
					shown++
				}
			}
			require.Positive(t, shown)
		}
	})
}

func BenchmarkDXF(b *testing.B) {
	p := kidney(b)
	for b.Loop() {
		if _, err := p.DXF(Inches); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTile(b *testing.B) {
	p := kidney(b)
	for b.Loop() {
		if _, err := p.Tile(A4()); err != nil {
			b.Fatal(err)
		}
	}
}
