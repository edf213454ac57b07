package shape_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make. A Trace is drawn with, and is no value.
func TestEveryTypeIsJSON(t *testing.T) {
	arc, err := shape.ArcFromChord(20*in, 2*in)
	require.NoError(t, err)
	ellipse, err := shape.Ellipse(20*in, 14*in)
	require.NoError(t, err)
	traced, err := shape.TraceFrom(shape.Point{}).Edge("front").Line(shape.Point{X: 20 * in}).Edge("side").Arc(shape.Point{Y: 15 * in}, in).
		Edge("back").Quadratic(shape.Point{X: -in, Y: 8 * in}, shape.Point{}).Close()
	require.NoError(t, err)
	opt := shape.OffsetOptions{Corner: shape.RoundCorner, MitreLimit: 3, Tolerance: unit.Millimetre}
	line, moved, err := ellipse.Offsets(opt, []unit.Length{in})
	require.NoError(t, err)
	side := shape.EdgeForm{Name: "side", Pieces: []shape.PieceForm{{To: shape.Point{X: in}, Rise: in / 8}}}
	left := in
	clicked := shape.PhotoMark{Seen: shape.Pixel{X: 1.5, Y: 2}, At: &shape.Point{X: in}, Page: 1}
	corner := shape.PhotoEdge{Name: "front", Points: []shape.Pixel{{X: 1, Y: 2}}, Curve: true}
	quadrant := ellipse.Shape().Trace.Edges[0].Pieces[0]
	require.NotNil(t, quadrant.Ellipse)
	old, err := traced.Restored([]shape.TracedEdge{{Allowance: in / 2}, {Kept: true}, {Corner: true}})
	require.NoError(t, err)
	old.Corners, old.Nicks = []shape.CornerCut{{First: "front", Style: shape.RoundCorner, Off: 1}}, []shape.Nick{{Edge: "front", Depth: in / 4}}
	old.Hollows = []shape.Hollow{{First: "front", Off: in / 8}}
	halves, err := ellipse.Halved(shape.Point{X: 10 * in}, shape.Point{X: 10 * in, Y: in}, shape.LeftHalf)
	require.NoError(t, err)
	taped, err := shape.Form{Quadrilateral: &shape.QuadrilateralForm{Bottom: 24 * in, Right: 18 * in, Top: 22 * in, Left: 18 * in, Diagonal: 29 * in, SecondDiagonal: 29*in + 3*in/8}}.Taped()
	require.NoError(t, err)
	crossed := shape.BaselinePointForm{FromStart: 9 * in, FromEnd: 8 * in, Below: true}
	baseline := shape.BaselineForm{Length: 9 * in, Apart: true, Points: []shape.BaselinePointForm{crossed}}
	tapedArc, err := shape.ArcByTape(20*in, in, 0)
	require.NoError(t, err)
	circle, err := shape.ThreePointArc(shape.Point{}, shape.Point{X: in, Y: in}, shape.Point{X: 3 * in})
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		shape.Point{X: in, Y: -in}, shape.Pixel{X: 1.5, Y: 2000}, ellipse, traced, arc, shape.Station{At: in, Left: in, Right: in}, *quadrant.Ellipse, line, moved[0], opt, ellipse.Shape(),
		shape.SameRadii(in), shape.RectangleForm{Width: in, Height: in}, shape.RoundedRectangleForm{Width: in, Height: in, Radius: in / 8},
		shape.TrapezoidForm{Bottom: 2 * in, Top: in, Height: in}, shape.TriangleForm{Base: in, Right: in, Left: in}, shape.CircleForm{Diameter: in},
		shape.EllipseForm{Width: in, Height: in}, shape.StadiumForm{Length: 2 * in, Width: in}, shape.RegularPolygonForm{Sides: 6, SideLength: in},
		shape.PolygonForm{Corners: []shape.Point{{}, {X: in}, {Y: in}}}, shape.ChordForm{Chord: in, Rise: in / 8}, shape.CrownedForm{Width: in, Height: in, Rise: in / 8},
		shape.StationsForm{At: []shape.StationForm{{Along: in, Left: &left}}}, shape.StationForm{Along: in, Left: &left}, shape.PathForm{Data: "M 0 0 h 1 v 1 z", Unit: in},
		shape.PhotoForm{Width: 40, Height: 30, Marks: []shape.PhotoMark{clicked}, Edges: []shape.PhotoEdge{corner}, Straight: true, Clicked: 2, Taped: &shape.QuadrilateralForm{Bottom: in}, ScaleError: .01, Thickness: in}, clicked, corner,
		shape.PhotoError{Outline: in, Picture: in, Scale: in, Thickness: in, Lengths: .01, Known: true, Unmeasured: true},
		shape.TraceForm{Edges: []shape.EdgeForm{side}}, side, side.Pieces[0],
		shape.TracedEdge{Allowance: in, Kept: true, Corner: true}, old, old.Corners[0], old.Nicks[0], old.Hollows[0], halves, halves.Edges[0],
		shape.QuadrilateralForm{Bottom: in, Right: in, Top: in, Left: in, Diagonal: in}, baseline, crossed,
		shape.OffsetsForm{Step: in, Left: []unit.Length{in}, Right: []unit.Length{in}, Smooth: true, AlongTolerance: &left},
		taped, taped.Tolerance, taped.Tolerance.Width, taped.Tolerance.Area, taped.Tolerance.Edges[0], *taped.Tolerance.Diagonal, taped.Measures[0], taped.Corners[1],
		tapedArc, circle,
	}, "Trace")
	require.NoError(t, err)
	require.Empty(t, faults)
}
