package foam_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/exported"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct goes through JSON and back, its zero value too.
func TestThroughJSON(t *testing.T) {
	selected, err := foam.Select(foam.Request{
		Use: foam.Seat, Duty: foam.HeavyDuty, Base: foam.Springs, Thickness: 3 * unit.Inch, Sitter: 90 * unit.Kilogram,
		Wanted: foam.Wanted{IFD25: foam.IFD25(33 * unit.PoundForce)},
		Stock:  []foam.Grade{{Name: "own", Density: 40, IFD25: 150, IFD65: 360}},
	})
	require.NoError(t, err)
	sat := *selected.Sitting
	judged, err := foam.Judge(foam.OldFoam{New: 4 * unit.Inch, Now: 3 * unit.Inch, Density: 30, Use: foam.Seat, Duty: foam.NormalDuty})
	require.NoError(t, err)
	filled, err := foam.FillCover(foam.Fill{Cut: pad, Cover: foam.Block{pad.Length, pad.Width, 3 * unit.Inch}, Curve: seat, Density: 30})
	require.NoError(t, err)
	model, err := foam.CellularModel(30)
	require.NoError(t, err)
	slab, err := foam.SlabTolerance(pad)
	require.NoError(t, err)
	supply, err := foam.SupplyOf(pad, 30)
	require.NoError(t, err)
	code, err := foam.ParseGradeCode(foam.EuropeanBedding, "HR3530")
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		pad, model, seat, foam.DefaultOversize(), foam.NamedCurve{Name: "a", Curve: seat},
		foam.Fill{Cut: pad, Cover: pad, Curve: seat, Density: 30}, filled, selected.Grades[0].Grade, code,
		foam.TestMethods()[0], foam.Weighing{Block: pad, Mass: unit.Kilogram}, foam.BenchTest{Disc: unit.Foot},
		foam.OldFoam{Crumbles: true, Use: foam.Seat, Duty: foam.LightDuty}, judged, foam.HardnessB{100, 120, 200},
		selected.Request, selected.Request.Wanted, selected, selected.Grades[0], selected.Reasons[0],
		selected.Class, foam.Wedge{Length: unit.Foot}, foam.Cylinder{Length: unit.Foot}, foam.Rounded{Block: pad}, foam.Tee{Width: unit.Foot}, supply,
		foam.Sitter{Mass: 80 * unit.Kilogram}, foam.PredictionErrors()[0], foam.Postures()[0], sat, foam.ThicknessEffect{unit.Inch, sat}, slab,
		selected.IFD, selected.Density, selected.IFDFigures[0], selected.DensityFigures[0], sat.Sink,
		foam.Layer{"a", unit.Inch, seat}, sat.Pressed.Layers[0], sat.Pressed,
	})
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestEnumsAreListed(t *testing.T) { exported.EnumsListed(t, ".") }
