package foam_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

var (
	nan  = math.NaN()
	inf  = math.Inf(1)
	seat = foam.Curve{IFD25: foam.IFD25(30 * unit.PoundForce), IFD65: foam.IFD65(60 * unit.PoundForce)}
	pad  = foam.Block{24 * unit.Inch, 20 * unit.Inch, 4 * unit.Inch}
)

// Every calculator refuses what it cannot answer, says which field, and never
// lets a NaN or an infinity through.
func TestRefusals(t *testing.T) {
	_1 := func(_ any, err error) error { return err }
	for name, c := range map[string]struct {
		err   error
		field string
		want  error
	}{
		"IFD65 under IFD25":          {_1(foam.SupportFactor(130, 120)), "ifd65", foam.ErrImpossibleIFD},
		"no IFD25":                   {_1(foam.SupportFactor(0, 120)), "ifd25", unit.ErrRange},
		"NaN IFD25":                  {_1(foam.SupportFactor(foam.IFD25(nan), 120)), "ifd25", unit.ErrNotFinite},
		"infinite IFD65":             {_1(foam.SupportFactor(100, foam.IFD65(inf))), "ifd65", unit.ErrRange},
		"denormal IFD25":             {_1(foam.SupportFactor(5e-324, 120)), "ifd25", unit.ErrRange},
		"support under 1":            {_1(foam.IFD65Of(100, 0.9)), "support", unit.ErrRange},
		"density zero":               {_1(foam.GuideFactor(100, 0)), "density", unit.ErrRange},
		"density negative":           {_1(foam.MassOf(pad, -1)), "density", unit.ErrRange},
		"density NaN":                {_1(foam.MassOf(pad, unit.Density(nan))), "density", unit.ErrNotFinite},
		"no shape":                   {_1(foam.MassOf(nil, 30)), "shape", unit.ErrRequired},
		"flat block":                 {_1(foam.MassOf(foam.Block{1 * unit.Inch, 1 * unit.Inch, 0}, 30)), "shape.thickness", unit.ErrRange},
		"bare number":                {_1(foam.Block{24, 20, 4}.Volume()), "length", unit.ErrForgottenUnit},
		"strain beyond the curve":    {_1(seat.Force(0.66)), "strain", foam.ErrBeyondCurve},
		"energy beyond the curve":    {_1(seat.Energy(0.66)), "strain", foam.ErrBeyondCurve},
		"negative strain":            {_1(seat.Force(-0.1)), "strain", unit.ErrRange},
		"NaN strain":                 {_1(seat.Force(unit.Ratio(nan))), "", unit.ErrNotFinite},
		"force beyond the curve":     {_1(seat.Strain(61 * unit.PoundForce)), "force", foam.ErrBeyondCurve},
		"force on a flat curve":      {_1(foam.Curve{100, 100}.Strain(100)), "force", foam.ErrFlatCurve},
		"negative force":             {_1(seat.Strain(-1)), "force", unit.ErrRange},
		"impossible curve":           {_1(foam.Curve{100, 90}.Pressure(0.1)), "ifd65", foam.ErrImpossibleIFD},
		"no layers":                  {_1(foam.Stack{}.Under(1)), "layers", unit.ErrRequired},
		"too many layers":            {_1(make(foam.Stack, 21).Under(1)), "layers", unit.ErrRange},
		"layer without thickness":    {_1(foam.Stack{{Curve: seat}}.Under(1)), "layers[0].thickness", unit.ErrRange},
		"flat layer":                 {_1(foam.Stack{{Thickness: unit.Inch, Curve: foam.Curve{100, 100}}}.Under(1)), "layers[0].curve", foam.ErrFlatCurve},
		"impossible layer":           {_1(foam.Stack{{Thickness: unit.Inch, Curve: foam.Curve{100, 90}}}.Under(1)), "layers[0].ifd65", foam.ErrImpossibleIFD},
		"NaN pressure":               {_1(foam.Stack{{Thickness: unit.Inch, Curve: seat}}.Under(unit.Pressure(nan))), "pressure", unit.ErrNotFinite},
		"sink beyond":                {_1(foam.Stack{{Thickness: 100 * unit.Millimetre, Curve: seat}}.AtSink(66 * unit.Millimetre)), "sink", foam.ErrBeyondCurve},
		"no sitter":                  {_1(foam.Sit(foam.Stack{{Thickness: unit.Inch, Curve: seat}}, foam.Sitter{})), "sitter.mass", unit.ErrRange},
		"share above 1":              {_1(foam.Sitter{Mass: 80 * unit.Kilogram, Share: 1.1}.Pressure()), "share", unit.ErrRange},
		"disc forgotten":             {_1(foam.Sitter{Mass: 80 * unit.Kilogram, Disc: 36}.Pressure()), "disc", unit.ErrForgottenUnit},
		"no thicknesses":             {_1(foam.CompareThickness(seat, foam.Sitter{Mass: 80 * unit.Kilogram})), "thicknesses", unit.ErrRequired},
		"recovery above 1":           {_1(foam.Recovery(100, 110)), "back", unit.ErrRange},
		"recovery of nothing":        {_1(foam.Recovery(0, 0)), "in", unit.ErrRange},
		"foam that grew":             {_1(foam.CompressionSet(100*unit.Millimetre, 110*unit.Millimetre)), "after", unit.ErrRange},
		"one inch test on thin foam": {_1(foam.OneInchStrain(2 * unit.Inch)), "thickness", unit.ErrRange},
		"height beyond":              {_1(foam.HeightAt(unit.Inch, 1.2)), "strain", unit.ErrRange},
		"tolerance of nothing":       {_1(foam.IFDTolerance(foam.IFD25(2 * unit.PoundForce))), "nominal", unit.ErrRange},
		"thin slab":                  {_1(foam.SlabTolerance(foam.Block{unit.Foot, unit.Foot, unit.Inch / 2})), "thickness", unit.ErrRange},
		"cover without width":        {_1(foam.CutSize(foam.Block{Length: unit.Foot, Thickness: unit.Inch}, foam.DefaultOversize())), "cover.width", unit.ErrRange},
		"huge oversize":              {_1(foam.CutSize(pad, foam.Oversize{Face: unit.Foot})), "oversize.face", unit.ErrRange},
		"no hardness":                {_1(foam.EstimateHardnessA(0)), "ifd25", unit.ErrRange},
		"no index":                   {_1(foam.EstimateIFD25(0)), "hardness", unit.ErrRange},
		"weightless":                 {_1(foam.WeighedDensity(foam.Weighing{Block: pad})), "mass", unit.ErrRange},
		"tape worse than the block":  {_1(foam.WeighedDensity(foam.Weighing{Block: pad, Mass: unit.Kilogram, TapeError: 3 * unit.Inch})), "tape_error", unit.ErrRange},
		"lead, not foam":             {_1(foam.WeighedDensity(foam.Weighing{Block: pad, Mass: 100 * unit.Kilogram})), "density", unit.ErrRange},
		"no disc":                    {_1(foam.IdentifyIFD25(foam.BenchTest{})), "disc", unit.ErrRange},
		"sink forgotten":             {_1(foam.IdentifyIFD25(bench(20))), "sink", unit.ErrForgottenUnit},
		"sink too small":             {_1(foam.IdentifyIFD25(bench(4 * unit.Millimetre))), "sink", unit.ErrRange},
		"sink too deep":              {_1(foam.IdentifyIFD25(bench(66 * unit.Millimetre))), "sink", foam.ErrBeyondCurve},
		"nothing measured":           {_1(foam.Judge(foam.OldFoam{})), "new", unit.ErrRequired},
		"density without use":        {_1(foam.Judge(foam.OldFoam{Density: 30})), "use", unit.ErrRequired},
		"height now missing":         {_1(foam.Judge(foam.OldFoam{Now: 4 * unit.Inch})), "new", unit.ErrRange},
		"height grown":               {_1(foam.Judge(foam.OldFoam{New: 4 * unit.Inch, Now: 5 * unit.Inch})), "now", unit.ErrRange},
		"loss below nothing":         {_1(foam.HardnessLoss(100, 110)), "after", unit.ErrRange},
		"class without use":          {_1(foam.ServiceClassFor(0, foam.NormalDuty)), "use", unit.ErrRequired},
		"class of unknown duty":      {_1(foam.ServiceClassFor(foam.Seat, 9)), "duty", unit.ErrUnknown},
		"model without density":      {_1(foam.CellularModel(0)), "density", unit.ErrRange},
		"no curves":                  {_1(foam.DrawCurves()), "curves", unit.ErrRequired},
		"impossible curve drawn":     {_1(foam.DrawCurves(foam.NamedCurve{Curve: foam.Curve{100, 90}})), "curves[0].ifd65", foam.ErrImpossibleIFD},
		"wedge of nothing":           {_1(foam.Wedge{Length: unit.Foot, Width: unit.Foot}.Volume()), "front", unit.ErrRange},
		"cylinder of nothing":        {_1(foam.Cylinder{Length: unit.Foot}.Volume()), "diameter", unit.ErrRange},
		"corners too round":          {_1(foam.Rounded{Block: pad, Radius: unit.Foot, Corners: 4}.Volume()), "radius", unit.ErrRange},
		"no IFD25 to multiply":       {_1(foam.IFD65Of(0, 2)), "ifd25", unit.ErrRange},
		"scale worse than the block": {_1(foam.WeighedDensity(foam.Weighing{Block: pad, Mass: unit.Kilogram, ScaleError: unit.Kilogram/2 + 1})), "scale_error", unit.ErrRange},
		"density of no duty":         {_1(foam.Judge(foam.OldFoam{Density: 30, Use: foam.Seat})), "duty", unit.ErrRequired},
		"density of unknown duty":    {_1(foam.Judge(foam.OldFoam{Density: 30, Use: foam.Seat, Duty: 9})), "duty", unit.ErrUnknown},
		"range above what is wanted": {_1(foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Wanted: foam.Wanted{
			IFD25: lbfIFD(30), Range: foam.Range[foam.IFD25]{Low: lbfIFD(31), High: lbfIFD(35)}}})), "wanted.range.low", unit.ErrRange},
		"range below what is wanted": {_1(foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Wanted: foam.Wanted{
			IFD25: lbfIFD(30), Range: foam.Range[foam.IFD25]{Low: lbfIFD(25), High: lbfIFD(29)}}})), "wanted.range.high", unit.ErrRange},
		"corners of no radius":        {_1(foam.Rounded{Block: pad, Corners: 4}.Volume()), "radius", unit.ErrRange},
		"tee of nothing":              {_1(foam.Tee{}.Volume()), "width", unit.ErrRange},
		"set of no foam":              {_1(foam.CompressionSet(0, 0)), "before", unit.ErrRange},
		"too small to weigh":          {_1(foam.WeighedDensity(foam.Weighing{Block: foam.Block{20000, 20000, 20000}, Mass: unit.Gram})), "block", unit.ErrDivideByZero},
		"sink read to the nearest cm": {_1(foam.IdentifyIFD25(badly(bench(20 * unit.Millimetre)))), "sink_error", unit.ErrRange},
		"no layers to bottom out":     {_1(foam.Stack{}.FirstBottoms()), "layers", unit.ErrRequired},
		"no layers to press in":       {_1(foam.Stack{}.AtSink(unit.Inch)), "layers", unit.ErrRequired},
		"five corners":                {_1(foam.Rounded{Block: pad, Radius: unit.Inch, Corners: 5}.Volume()), "corners", unit.ErrRange},
		"stem wider than the ears":    {_1(foam.Tee{20 * unit.Inch, 24 * unit.Inch, 20 * unit.Inch, 4 * unit.Inch, 4 * unit.Inch}.Volume()), "stem", unit.ErrRange},
		"squeezed flat":               {_1(foam.FillCover(foam.Fill{Cut: pad, Cover: foam.Block{pad.Length, pad.Width, unit.Inch}, Curve: seat, Density: 30})), "cut.thickness", foam.ErrBeyondCurve},
		"fill without density":        {_1(foam.FillCover(foam.Fill{Cut: pad, Cover: pad, Curve: seat})), "density", unit.ErrRange},
		"index not rising":            {foam.HardnessB{100, 90, 200}.Check(), "at65", foam.ErrImpossibleIFD},
		"index missing":               {foam.HardnessB{100, 0, 200}.Check(), "at40", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			require.ErrorIs(t, c.err, c.want)
			var in *unit.InputError
			require.True(t, errors.As(c.err, &in))
			if c.field != "" {
				assert.Equal(t, c.field, string(in.Field))
			}
		})
	}
}

func bench(sink unit.Length) foam.BenchTest {
	return foam.BenchTest{Disc: 200 * unit.Millimetre, Weight: 15 * unit.Kilogram, Thickness: 100 * unit.Millimetre, Sink: sink}
}

// badly reads the sink to a centimetre, where 5 mm is the most for 100 mm.
func badly(b foam.BenchTest) foam.BenchTest {
	b.SinkError = 5*unit.Millimetre + 1
	return b
}

func TestGradeCodes(t *testing.T) {
	for _, c := range []struct {
		system foam.CodeSystem
		code   string
		want   error
	}{
		{0, "2535", unit.ErrRequired},
		{9, "2535", unit.ErrUnknown},
		{foam.AmericanTrade, "HR3530", foam.ErrWrongSystem},
		{foam.AmericanTrade, "T2535", foam.ErrWrongSystem},
		{foam.AmericanTrade, "25120", foam.ErrWrongSystem},
		{foam.AmericanTrade, "9530", foam.ErrWrongSystem}, // 9.5 lb/ft³ is no foam
		{foam.AmericanTrade, "2500", unit.ErrRange},
		{foam.AmericanTrade, "", unit.ErrSyntax},
		{foam.AmericanTrade, "foam", unit.ErrSyntax},
		{foam.AmericanTrade, "2.80", unit.ErrSyntax},
		{foam.AmericanTrade, "28 41", unit.ErrSyntax},
		{foam.EuropeanBedding, "2.80 41", foam.ErrWrongSystem},
		{foam.EuropeanBedding, "1235", foam.ErrWrongSystem}, // 12 kg/m³ is no foam
		{foam.EuropeanBedding, "2500", unit.ErrRange},
		{foam.EuropeanBedding, "HR35", unit.ErrSyntax},
		{foam.EuropeanBedding, "ABCD2535", unit.ErrSyntax},
		{foam.EuropeanBedding, "25 35", unit.ErrSyntax},
		{foam.EuropeanBedding, "HR35301", nil},
		{foam.EuropeanBedding, "hr3530", nil},
		{foam.EuropeanBedding, "ABC2535", nil},
		{foam.AmericanTrade, "2.800 41", nil},
		{foam.AmericanTrade, "2.8000 41", unit.ErrSyntax},
		{foam.AmericanTrade, "2.80 041", nil},
		{foam.AmericanTrade, "2.80 0041", unit.ErrSyntax},
		{foam.AmericanTrade, "/41", unit.ErrSyntax},
		{foam.AmericanTrade, "2.80/41", nil},
		{foam.AmericanTrade, " 2535 ", nil},
	} {
		_, err := foam.ParseGradeCode(c.system, c.code)
		if c.want == nil {
			require.NoError(t, err, "%v %q", c.system, c.code)
			continue
		}
		require.ErrorIs(t, err, c.want, "%v %q", c.system, c.code)
		var in *unit.InputError
		require.True(t, errors.As(err, &in))
	}
	us, err := foam.ParseGradeCode(foam.AmericanTrade, "2535")
	require.NoError(t, err)
	eu, err := foam.ParseGradeCode(foam.EuropeanBedding, "2535")
	require.NoError(t, err)
	assert.NotEqual(t, us.Density, eu.Density, "one code, two foams")
	assert.Zero(t, eu.IFD25, "no firmness of another test is made up")
	assert.Zero(t, us.Stress)
	assert.Zero(t, us.Hardness)
}

// Whatever the text, a code is refused with a typed error or read as a foam
// that can exist.
func FuzzParseGradeCode(f *testing.F) {
	for _, s := range []string{"2535", "2.80 41", "HR3530", "T25120", "1235", "", "٢٥٣٥", "99.9-999"} {
		f.Add(uint8(foam.AmericanTrade), s)
		f.Add(uint8(foam.EuropeanBedding), s)
	}
	f.Fuzz(func(t *testing.T, system uint8, code string) {
		g, err := foam.ParseGradeCode(foam.CodeSystem(system), code)
		if err != nil {
			var in *unit.InputError
			require.True(t, errors.As(err, &in))
			assert.Equal(t, foam.GradeCode{}, g)
			return
		}
		require.True(t, g.Density >= unit.KilogramPerCubicMetre && g.Density <= foam.Densest, "%v", g.Density)
		set := 0
		for _, x := range []float64{float64(g.IFD25), float64(g.Stress), float64(g.Hardness)} {
			if x != 0 {
				set++
				assert.Positive(t, x)
			}
		}
		assert.Equal(t, 1, set, "one firmness figure, of one test")
		again, err := foam.ParseGradeCode(g.System, code)
		require.NoError(t, err)
		assert.Equal(t, g, again)
	})
}

// Whatever the text, a force is refused or written back to the same force.
func FuzzIFD25Text(f *testing.F) {
	for _, s := range []string{"30 lbf", "133.4 N IFD25", "30 lbf IFD65", "180 N ISO-A40", "IFD25", "", "1e400 N"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var i, back foam.IFD25
		if i.UnmarshalText([]byte(s)) != nil {
			return
		}
		text, err := i.MarshalText()
		require.NoError(t, err)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, i, back)
		var other foam.IFD65
		require.ErrorIs(t, other.UnmarshalText(text), foam.ErrOtherTest)
	})
}
