package foam

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/exported"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct goes through JSON and back, its zero value too.
func TestThroughJSON(t *testing.T) {
	selected, err := Select(Request{
		Use: Seat, Duty: HeavyDuty, Base: Springs, Thickness: 3 * unit.Inch, Sitter: 90 * unit.Kilogram,
		Wanted: Wanted{IFD25: IFD25(33 * unit.PoundForce)},
		Stock:  []Grade{{Name: "own", Density: 40, IFD25: 150, IFD65: 360}},
	})
	require.NoError(t, err)
	sat := *selected.Sitting
	judged, err := Judge(OldFoam{New: 4 * unit.Inch, Now: 3 * unit.Inch, Density: 30, Use: Seat, Duty: NormalDuty})
	require.NoError(t, err)
	filled, err := FillCover(Fill{Cut: pad, Cover: Block{pad.Length, pad.Width, 3 * unit.Inch}, Curve: seat, Density: 30})
	require.NoError(t, err)
	model, err := CellularModel(30)
	require.NoError(t, err)
	slab, err := SlabTolerance(pad)
	require.NoError(t, err)
	supply, err := SupplyOf(pad, 30)
	require.NoError(t, err)
	code, err := ParseGradeCode(EuropeanBedding, "HR3530")
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		pad, selected.Cautions[0], model, seat, DefaultOversize(), NamedCurve{Name: "a", Curve: seat},
		Fill{Cut: pad, Cover: pad, Curve: seat, Density: 30}, filled, selected.Grades[0].Grade, code,
		TestMethods()[0], Weighing{Block: pad, Mass: unit.Kilogram}, BenchTest{Disc: unit.Foot},
		OldFoam{Crumbles: true, Use: Seat, Duty: LightDuty}, judged, HardnessB{100, 120, 200},
		selected.Request, selected.Request.Wanted, selected, selected.Grades[0], selected.Reasons[0],
		selected.Class, Wedge{Length: unit.Foot}, Cylinder{Length: unit.Foot}, Rounded{Block: pad}, Tee{Width: unit.Foot}, supply,
		Sitter{Mass: 80 * unit.Kilogram}, PredictionErrors()[0], Postures()[0], sat, ThicknessEffect{unit.Inch, sat}, slab,
		selected.IFD, selected.Density, selected.IFDFigures[0], selected.DensityFigures[0], sat.Sink,
		Layer{"a", unit.Inch, seat}, sat.Pressed.Layers[0], sat.Pressed,
	})
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestEnumsAreListed(t *testing.T) { exported.EnumsListed(t, ".") }
