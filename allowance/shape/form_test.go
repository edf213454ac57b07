package shape_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/generate"
	"github.com/coverwright/coverwright/unit"
)

func parseOutline(text string) (shape.Outline, error) {
	var o shape.Outline
	err := json.Unmarshal([]byte(text), &o)
	return o, err
}

// Every constructor can be written in a file, and gives what the constructor
// gives.
func TestShapeWritesEveryConstructor(t *testing.T) {
	type maker func() (shape.Outline, error)
	for text, want := range map[string]maker{
		`{"rectangle": {"width": "22 in", "height": "20 in"}}`: func() (shape.Outline, error) { return shape.Rectangle(22*in, 20*in) },
		`{"rounded_rectangle": {"width": "22 in", "height": "20 in", "radius": "2 in"}}`: func() (shape.Outline, error) {
			return shape.RoundedRectangle(22*in, 20*in, shape.SameRadii(2*in))
		},
		`{"rounded_rectangle": {"width": "22 in", "height": "20 in", "radii": {"top_left": "2 in"}}}`: func() (shape.Outline, error) {
			return shape.RoundedRectangle(22*in, 20*in, shape.CornerRadii{TopLeft: 2 * in})
		},
		`{"trapezoid": {"bottom": "20 in", "top": "16 in", "height": "15 in"}}`: func() (shape.Outline, error) {
			return shape.Trapezoid(20*in, 16*in, 15*in, 2*in)
		},
		`{"trapezoid": {"bottom": "20 in", "top": "16 in", "height": "15 in", "shift": "-1 in"}}`: func() (shape.Outline, error) {
			return shape.Trapezoid(20*in, 16*in, 15*in, -in)
		},
		`{"triangle": {"base": "30 mm", "right": "40 mm", "left": "50 mm"}}`: func() (shape.Outline, error) { return shape.Triangle(30*mm, 40*mm, 50*mm) },
		`{"circle": {"diameter": "16 in"}}`:                                  func() (shape.Outline, error) { return shape.Circle(16 * in) },
		`{"ellipse": {"width": "16 in", "height": "10 in"}}`:                 func() (shape.Outline, error) { return shape.Ellipse(16*in, 10*in) },
		`{"stadium": {"length": "40 in", "width": "10 in"}}`:                 func() (shape.Outline, error) { return shape.Stadium(40*in, 10*in) },
		`{"regular_polygon": {"sides": 8, "side_length": "7 in"}}`:           func() (shape.Outline, error) { return shape.RegularPolygon(8, 7*in) },
		`{"polygon": {"corners": ["0 in, 0 in", "3 in, 0 in", "0 in, 4 in"]}}`: func() (shape.Outline, error) {
			return shape.Polygon(pt(0, 0), pt(3*in, 0), pt(0, 4*in))
		},
		`{"chord": {"chord": "20 in", "rise": "3 in"}}`:                          func() (shape.Outline, error) { return shape.Chord(20*in, 3*in) },
		`{"crowned": {"width": "20 in", "height": "25 in", "rise": "1 1/2 in"}}`: func() (shape.Outline, error) { return shape.Crowned(20*in, 25*in, 3*in/2) },
		`{"stations": {"smooth": true, "at": [{"along": "0 in", "width": "18 in"}, {"along": "9 in", "left": "10 in", "right": "11 in"}, {"along": "20 in", "width": "12 in"}]}}`: func() (shape.Outline, error) {
			return shape.Stations([]shape.Station{shape.CentredStation(0, 18*in), {At: 9 * in, Left: 10 * in, Right: 11 * in},
				shape.CentredStation(20*in, 12*in)}, true)
		},
		`{"offsets": {"step": "5 in", "right": ["6 in", "7 in", "5 in"]}}`: func() (shape.Outline, error) {
			return shape.Stations([]shape.Station{{Right: 6 * in}, {At: 5 * in, Right: 7 * in}, {At: 10 * in, Right: 5 * in}}, false)
		},
		`{"baseline": {"length": "30 mm", "points": [{"from_start": "50 mm", "from_end": "40 mm"}]}, "names": ["base", "right", "left"]}`: func() (shape.Outline, error) {
			return shape.Triangle(30*mm, 40*mm, 50*mm)
		},
		`{"quadrilateral": {"bottom": "40 mm", "right": "30 mm", "top": "40 mm", "left": "30 mm", "diagonal": "50 mm"}}`: func() (shape.Outline, error) {
			return shape.Rectangle(40*mm, 30*mm)
		},
		`{"chord": {"chord": "6 in", "through": "3 in, 3 in"}}`: func() (shape.Outline, error) { return shape.Chord(6*in, 3*in) },
		`{"path": {"data": "M 0 0 h 22 v -20 q -11 -4 -22 0 z", "unit": "1 in"}}`: func() (shape.Outline, error) {
			return shape.Path("M 0 0 h 22 v -20 q -11 -4 -22 0 z", in)
		},
		`{"trace": {"from": "0 in, 0 in", "edges": [
			{"name": "front", "pieces": [{"to": "20 in, 0 in", "rise": "1 in"}]},
			{"name": "side", "pieces": [{"to": "20 in, 10 in"}, {"to": "18 in, 16 in", "by": ["20 in, 15 in"]}]},
			{"name": "back", "pieces": [{"to": "0 in, 16 in", "by": ["12 in, 18 in", "6 in, 18 in"]}]}]}}`: func() (shape.Outline, error) {
			return shape.TraceFrom(pt(0, 0)).Edge("front").Arc(pt(20*in, 0), in).Edge("side").Line(pt(20*in, 10*in)).
				Quadratic(pt(20*in, 15*in), pt(18*in, 16*in)).Edge("back").Cubic(pt(12*in, 18*in), pt(6*in, 18*in), pt(0, 16*in)).Close()
		},
		`{"half": {"from": "0 in, 0 in", "edges": [
			{"name": "front", "pieces": [{"to": "11 in, 0 in"}]}, {"name": "side", "pieces": [{"to": "9 in, 16 in", "rise": "1/2 in"}]},
			{"name": "back", "pieces": [{"to": "0 in, 17 in", "by": ["5 in, 17 in"]}]}]}}`: func() (shape.Outline, error) {
			return shape.Half(shape.TraceFrom(pt(0, 0)).Edge("front").Line(pt(11*in, 0)).Edge("side").Arc(pt(9*in, 16*in), in/2).
				Edge("back").Quadratic(pt(5*in, 17*in), pt(0, 17*in)))
		},
		`{"rectangle": {"width": "2 in", "height": "3 in"}, "names": ["a", "b", "c", "a"], "mirrored": true, "quarter_turns": -1}`: func() (shape.Outline, error) {
			o, err := shape.Rectangle(2*in, 3*in)
			if err == nil {
				o, err = o.Renamed("a", "b", "c", "d")
			}
			if err == nil {
				o, err = o.Joined("a", "d", "a")
			}
			return o.Mirrored().Turned(-1), err
		},
	} {
		w, err := want()
		require.NoError(t, err, text)
		got, err := parseOutline(text)
		require.NoError(t, err, text)
		requireSameOutline(t, w, got, text)
	}
}

// requireSameOutline compares all there is: edges, pieces and the cut that
// follows. Which edge comes first may differ.
func requireSameOutline(t require.TestingT, want, got shape.Outline, msg string) {
	require.ElementsMatch(t, want.Edges(), got.Edges(), msg)
	for _, name := range want.Edges() {
		a, err := want.EdgeLength(name)
		require.NoError(t, err, msg)
		b, err := got.EdgeLength(name)
		require.NoError(t, err, msg)
		require.Equal(t, a, b, "%s: %s", msg, name)
	}
	a, err := want.Flatten(0)
	require.NoError(t, err, msg)
	b, err := got.Flatten(0)
	require.NoError(t, err, msg)
	require.ElementsMatch(t, a, b, msg)
	require.Equal(t, want.Area(), got.Area(), msg)
}

// An outline in JSON reads back as it was, to the last bit, however it was
// made and moved; so does its cut.
func TestOutlineJSONIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := generate.Outline(t)
		if rapid.Bool().Draw(t, "mirrored") {
			o = o.Mirrored()
		}
		o = o.Turned(rapid.IntRange(0, 3).Draw(t, "turns"))
		text, err := json.Marshal(o)
		require.NoError(t, err)
		back, err := parseOutline(string(text))
		require.NoError(t, err, string(text))
		require.Equal(t, o, back)
		again, err := json.Marshal(back)
		require.NoError(t, err)
		require.Equal(t, string(text), string(again))
	})
}

// A path's names go with the pieces as drawn, whichever way round.
func TestShapeNamesFollowTheDrawing(t *testing.T) {
	names := `, "names": ["first", "second", "second", "last"]}`
	for _, data := range []string{"M 0 0 h 22 v 20 h -22 z", "M 0 0 v 20 h 22 v -20 z"} {
		o, err := parseOutline(`{"path": {"data": "` + data + `", "unit": "1 mm"}` + names)
		require.NoError(t, err)
		first, err := o.EdgeLength("first")
		require.NoError(t, err)
		last, err := o.EdgeLength("last")
		require.NoError(t, err)
		if data[6] == 'h' {
			require.Equal(t, []unit.Length{22 * mm, 20 * mm}, []unit.Length{first, last})
		} else {
			require.Equal(t, []unit.Length{20 * mm, 22 * mm}, []unit.Length{first, last})
		}
		second, err := o.EdgeLength("second")
		require.NoError(t, err)
		require.Equal(t, 42*mm, second)
	}
	o, err := parseOutline(`{"rectangle": {"width": "2 in", "height": "3 in"}, "quarter_turns": 1, "at": "5 in, -1 in"}`)
	require.NoError(t, err)
	low, high := o.Bounds()
	require.Equal(t, pt(5*in, -in), low)
	require.Equal(t, pt(8*in, in), high)
	o, err = parseOutline(`{"rectangle": {"width": "2 in", "height": "3 in"}, "names": ["rim", "rim", "rim", "rim"]}`)
	require.NoError(t, err)
	require.Equal(t, []string{"rim"}, o.Edges())
}

func TestShapeFaultsNameTheField(t *testing.T) {
	rect := `"rectangle": {"width": "22 in", "height": "20 in"}`
	trace := func(pieces string) string {
		return `{"trace": {"from": "0 in, 0 in", "edges": [{"name": "a", "pieces": [{"to": "9 in, 0 in"}]}, {"name": "b", "pieces": [` + pieces + `]}]}}`
	}
	for _, c := range []struct {
		text, field string
		want        error
	}{
		{`{}`, "", unit.ErrRequired},
		{`[]`, "", nil},
		{`{"heptagon": {}}`, "heptagon", nil},
		{`{"rectangle": {"width": "22 in"}}`, "rectangle.height", unit.ErrRequired},
		{`{"rectangle": {"width": "22", "height": "20 in"}}`, "rectangle.width", unit.ErrMissingUnit},
		{`{"rectangle": {"width": "0 in", "height": "20 in"}}`, "rectangle.width", unit.ErrRange},
		{`{"rectangle": null}`, "rectangle", nil},
		{`{` + rect + `, "circle": {"diameter": "3 in"}}`, "circle", unit.ErrRange},
		{`{` + rect + `, "names": ["a", "b"]}`, "names", unit.ErrRange},
		{`{` + rect + `, "names": ["a", "b", "a", "b"]}`, "names", unit.ErrRange},
		{`{` + rect + `, "names": ["a", "b", "", "c"]}`, "names[2]", unit.ErrRequired},
		{`{` + rect + `, "quarter_turns": 4}`, "quarter_turns", unit.ErrRange},
		{`{"rounded_rectangle": {"width": "22 in", "height": "20 in", "radius": "11 in"}}`, "rounded_rectangle.radius", unit.ErrRange},
		{`{"rounded_rectangle": {"width": "22 in", "height": "20 in", "radius": "1 in", "radii": {}}}`, "rounded_rectangle.radius", unit.ErrRange},
		{`{"rounded_rectangle": {"width": "22 in", "height": "20 in", "radii": {"top_left": "21 in"}}}`, "rounded_rectangle.radii.top_left", unit.ErrRange},
		{`{"trapezoid": {"bottom": "20 in", "top": "-1 in", "height": "15 in"}}`, "trapezoid.top", unit.ErrRange},
		{`{"regular_polygon": {"sides": 2, "side_length": "7 in"}}`, "regular_polygon.sides", unit.ErrRange},
		{`{"polygon": {"corners": ["0 in, 0 in", "3 in"]}}`, "polygon.corners[1]", unit.ErrSyntax},
		{`{"polygon": {"corners": ["0 in, 0 in", "3 in, 4"]}}`, "polygon.corners[1]", unit.ErrMissingUnit},
		{`{"polygon": {"corners": ["0 in, 0 in", "3 in, 4 in"]}}`, "polygon.corners", unit.ErrRange},
		{`{"polygon": {"corners": ["0 in, 0 in", "9 in, 9 in", "9 in, 0 in", "0 in, 9 in"]}}`, "polygon", shape.ErrCrossing},
		{`{"stations": {"at": [{"along": "0 in", "width": "3 in"}]}}`, "stations.at", unit.ErrRange},
		{`{"stations": {"at": [{"along": "0 in", "width": "3 in"}, {"along": "4 in"}]}}`, "stations.at[1].width", unit.ErrRequired},
		{`{"stations": {"at": [{"along": "0 in", "width": "3 in"}, {"along": "4 in", "width": "1 in", "left": "1 in"}]}}`, "stations.at[1].width", unit.ErrRange},
		{`{"stations": {"at": [{"along": "4 in", "width": "3 in"}, {"along": "4 in", "width": "1 in"}]}}`, "stations.at[1].along", unit.ErrRange},
		{`{"stations": {"at": [{"along": "0 in", "width": "3 in"}, {"along": "4 in", "width": "-1 in"}]}}`, "stations.at[1].width", unit.ErrRange},
		{`{"path": {"data": "M 0 0 L", "unit": "1 mm"}}`, "path.data", shape.ErrPathSyntax},
		{`{"path": {"data": "M0 0h9v9z", "unit": "1 nm"}}`, "path.unit", unit.ErrRange},
		{`{"path": {"data": "M0 0h9v9z"}}`, "path.unit", unit.ErrRequired},
		{trace(`{"to": "9 in, 60 m"}`), "trace.edges[1].pieces[0].to", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "rise": "1 in", "bulge": "10 %"}`), "trace.edges[1].pieces[0]", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "rise": "49 m"}, {"to": "9 in, 9.001 in", "rise": "9 m"}`), "trace.edges[1].pieces[1].rise", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "by": []}`), "trace.edges[1].pieces[0].by", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "bulge": "1e9"}`), "trace.edges[1].pieces[0].bulge", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "ellipse": "1 2 3"}`), "trace.edges[1].pieces[0].ellipse", unit.ErrSyntax},
		{trace(`{"to": "9 in, 9 in", "ellipse": "1 2 3 4 5 x"}`), "trace.edges[1].pieces[0].ellipse", unit.ErrSyntax},
		{trace(`{"to": "9 in, 9 in", "ellipse": "1 2 3 4 5 600"}`), "trace.edges[1].pieces[0].ellipse", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "ellipse": "1e8 0 0 1e8 0 1"}`), "trace.edges[1].pieces[0].ellipse", unit.ErrRange},
		{trace(`{"to": "9 in, 9 in", "by": ["99 m, 0 m"]}`), "trace.edges[1].pieces[0].to", unit.ErrRange},
		{`{"trace": {"from": "99 m, 0 m", "edges": []}}`, "trace.from", unit.ErrRange},
		{`{"trace": {"from": "0 m, 0 m", "edges": []}}`, "trace", unit.ErrRange},
		{`{"half": {"from": "0 in, 0 in", "edges": [{"name": "a", "pieces": [{"to": "9 in, 0 in"}]}]}}`, "half", unit.ErrRange},
		{`{` + rect + `, "at": "99 m, 0 in"}`, "at", unit.ErrRange},
		{`{` + rect + `, "at": "49.9 m, 0 in"}`, "at", unit.ErrRange},
		{`{"half": {"from": "0 in, 0 in", "edges": []}}`, "half", unit.ErrRequired},
		{`{"trace": {"from": "0 m, 0 m", "edges": [{"name": "", "pieces": [{"to": "9 in, 0 in"}, {"to": "9 in, 9 in"}]}]}}`, "trace.edges[0].name", unit.ErrRequired},
	} {
		_, err := parseOutline(c.text)
		var input *unit.InputError
		require.ErrorAs(t, err, &input, c.text)
		require.Equal(t, c.field, string(input.Field), "%s: %v", c.text, err)
		if c.want != nil {
			require.ErrorIs(t, err, c.want, c.text)
		}
		require.NotContains(t, err.Error(), "%!", c.text)
	}
	_, err := parseOutline(`{"circle": {"diameter": "3", "radius": "1 in"}, "name": "x"}`)
	require.ErrorContains(t, err, "circle.diameter")
	require.ErrorContains(t, err, "circle.radius")
	require.ErrorContains(t, err, "name")
	_, err = parseOutline(`{"circle": {"diameter": "3 in"}`)
	require.Error(t, err)
	require.Error(t, new(shape.Outline).UnmarshalJSON([]byte(strings.Repeat("[", 9))))
}

// What has a tolerance says it in figures that go together, and an outline that
// cannot be told from its measures is refused.
func FuzzTaped(f *testing.F) {
	f.Add(`{"quadrilateral": {"bottom": "24 in", "right": "18 1/4 in", "top": "21 1/2 in", "left": "18 in", "diagonal": "29 1/2 in", "second_diagonal": "28 5/8 in"}, "tolerance": "1/8 in"}`)
	f.Add(`{"baseline": {"length": "24 in", "points": [{"from_start": "22 in", "from_end": "13 in"}, {"from_start": "13 in", "from_end": "22 in"}]}, "names": ["a", "b", "c", "d"]}`)
	f.Add(`{"baseline": {"length": "24 in", "apart": true, "points": [{"from_start": "20 in", "from_end": "20 in"}, {"from_start": "15 in", "from_end": "15 in", "below": true}, {"from_start": "20 in", "from_end": "8 in"}]}}`)
	f.Add(`{"offsets": {"step": "4 in", "right": ["9 in", "10 in", "8 in"], "left": ["9 in", "0 in", "8 in"], "smooth": true, "along_tolerance": "0 in"}, "quarter_turns": 1, "mirrored": true}`)
	f.Add(`{"stations": {"at": [{"along": "0 in", "width": "0 in"}, {"along": "9 in", "width": "8 in"}, {"along": "12 in", "left": "3 in", "right": "1/16 in"}]}}`)
	f.Add(`{"chord": {"chord": "24 in", "through": "9 in, 2 7/8 in"}, "tolerance": "1/16 in"}`)
	f.Add(`{"crowned": {"width": "24 in", "height": "20 in", "rise": "0 in"}, "tolerance": "1/4 in"}`)
	f.Add(`{"polygon": {"corners": ["0 in, 0 in", "3 in, 0 in", "0 in, 4 in"]}, "tolerance": "1 in"}`)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1000 {
			return
		}
		var form shape.Form
		if json.Unmarshal([]byte(text), &form) != nil {
			return
		}
		got, err := form.Taped()
		if err != nil {
			return
		}
		if got.Tolerance.IsZero() {
			require.Empty(t, got.Measures)
			return
		}
		ls := []shape.TapedLength{got.Tolerance.Width, got.Tolerance.Height, got.Tolerance.Perimeter}
		for i, e := range got.Tolerance.Edges {
			require.Equal(t, got.Outline.Edges()[i], e.Name)
			ls = append(ls, e.Length)
		}
		for _, l := range ls {
			require.GreaterOrEqual(t, l.Sigma, unit.Length(0))
			require.LessOrEqual(t, l.Likely(), l.Worst)
			require.Less(t, l.Worst, 100*unit.Metre)
		}
		require.LessOrEqual(t, got.Tolerance.Area.Likely(), got.Tolerance.Area.Worst)
		require.Len(t, got.Tolerance.Edges, len(got.Outline.Edges()))
	})
}

// What reads as an outline has an area and reads back from its exact form.
func FuzzOutlineJSON(f *testing.F) {
	f.Add(`{"rectangle": {"width": "22 in", "height": "20 in"}, "names": ["a", "a", "b", "c"], "mirrored": true, "quarter_turns": 1}`)
	f.Add(`{"ellipse": {"width": "22 in", "height": "20 in"}}`)
	f.Add(`{"path": {"data": "M100 200 h200 v-150 a100 50 0 0 0 -200 0 z", "unit": "1 mm"}}`)
	f.Add(`{"half": {"from": "0 in, 0 in", "edges": [{"name": "f", "pieces": [{"to": "11 in, 0 in"}]}, {"name": "s", "pieces": [{"to": "0 in, 16 in", "rise": "1/2 in"}]}]}}`)
	f.Add(`{"trace": {"from": "0 in, 0 in", "edges": [{"name": "a", "pieces": [{"to": "9 in, 0 in", "bulge": "41 %"}, {"to": "9 in, 9 in", "ellipse": "1e8 0 0 2e8 0 1", "reversed": true}]}]}}`)
	f.Add(`{"stations": {"smooth": true, "at": [{"along": "0 in", "width": "18 in"}, {"along": "9 in", "left": "10 in", "right": "11 in"}, {"along": "20 in", "width": "0 in"}]}}`)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			return
		}
		o, err := parseOutline(text)
		if err != nil || o.IsZero() {
			return
		}
		require.Positive(t, o.Area())
		exact, err := json.Marshal(o)
		require.NoError(t, err)
		back, err := parseOutline(string(exact))
		require.NoError(t, err, string(exact))
		require.Equal(t, o, back)
	})
}

func pt(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
