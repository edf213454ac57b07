package thread_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// good is a seam that every model accepts.
func good() thread.Seam {
	return thread.Seam{Length: unit.Metre, Thickness: 3 * unit.Millimetre, Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre}
}

func TestSeamErrors(t *testing.T) {
	nan := unit.Ratio(math.NaN())
	for name, c := range map[string]struct {
		spoil func(*thread.Seam)
		field string
		want  error
	}{
		"no length":            {func(s *thread.Seam) { s.Length = 0 }, "length", unit.ErrRange},
		"negative length":      {func(s *thread.Seam) { s.Length = -unit.Inch }, "length", unit.ErrRange},
		"length without unit":  {func(s *thread.Seam) { s.Length = 22 }, "length", unit.ErrForgottenUnit},
		"length beyond a bolt": {func(s *thread.Seam) { s.Length = 2000 * unit.Metre }, "length", unit.ErrRange},
		"no thickness":         {func(s *thread.Seam) { s.Thickness = 0 }, "thickness", unit.ErrRange},
		"thick as a cushion":   {func(s *thread.Seam) { s.Thickness = 4 * unit.Inch }, "thickness", unit.ErrRange},
		"thickness no unit":    {func(s *thread.Seam) { s.Thickness = 3 }, "thickness", unit.ErrForgottenUnit},
		"full compression":     {func(s *thread.Seam) { s.Compression = 1 }, "compression", unit.ErrRange},
		"compression NaN":      {func(s *thread.Seam) { s.Compression = nan }, "compression", unit.ErrNotFinite},
		"no stitch":            {func(s *thread.Seam) { s.Stitch = 0 }, "stitch", unit.ErrUnknown},
		"unknown stitch":       {func(s *thread.Seam) { s.Stitch = 999 }, "stitch", unit.ErrUnknown},
		"no stitch length":     {func(s *thread.Seam) { s.StitchLength = 0 }, "stitch_length", unit.ErrRange},
		"stitch of six":        {func(s *thread.Seam) { s.StitchLength = 6 }, "stitch_length", unit.ErrForgottenUnit},
		"negative width":       {func(s *thread.Seam) { s.Width = -unit.Inch }, "width", unit.ErrRange},
		"unknown thread":       {func(s *thread.Seam) { s.Thread = 99 }, "thread", unit.ErrUnknown},
		"balance over one":     {func(s *thread.Seam) { s.Balance = 1.5 }, "balance", unit.ErrRange},
		"unknown model":        {func(s *thread.Seam) { s.Model = 7 }, "model", unit.ErrUnknown},
		"negative rows":        {func(s *thread.Seam) { s.Rows = -1 }, "rows", unit.ErrRange},
		"endless rows":         {func(s *thread.Seam) { s.Rows = 1000 }, "rows", unit.ErrRange},
		"negative tack":        {func(s *thread.Seam) { s.BackTack = -unit.Inch }, "back_tack", unit.ErrRange},
		"zig-zag, no width":    {func(s *thread.Seam) { s.Stitch = thread.Zigzag304 }, "width", unit.ErrRequired},
		"503 has no path":      {func(s *thread.Seam) { s.Stitch = thread.Overedge503 }, "stitch", unit.ErrUnknown},
		"elliptic chain":       {func(s *thread.Seam) { s.Stitch, s.Model = 401, thread.EllipticPath }, "stitch", unit.ErrUnknown},
		"516 not measured":     {func(s *thread.Seam) { s.Stitch, s.Model = 516, thread.Measured }, "unpicked", unit.ErrRequired},
		"sample without needle": {func(s *thread.Seam) {
			s.Model, s.Unpicked = thread.Measured, thread.UnpickedSample{Sample: 3 * unit.Inch}
		}, "unpicked.needle", unit.ErrRequired},
		"sample too short": {func(s *thread.Seam) {
			s.Model, s.Unpicked = thread.Measured, thread.UnpickedSample{Sample: unit.Millimetre, Needle: unit.Metre}
		}, "unpicked.sample", unit.ErrRange},
		"sample out of all reason": {func(s *thread.Seam) {
			s.Model, s.Unpicked = thread.Measured, thread.UnpickedSample{Sample: unit.Inch, Needle: 1000 * unit.Inch}
		}, "unpicked.needle", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			s := good()
			c.spoil(&s)
			u, err := thread.Consume(s)
			assert.Zero(t, u)
			assertField(t, err, c.field, c.want)
			_, err = thread.Total(thread.Sewing{Seams: []thread.Seam{good(), s}})
			assertField(t, err, "seams[1]."+c.field, c.want)
		})
	}
}

func assertField(t *testing.T, err error, field string, want error) {
	t.Helper()
	require.ErrorIs(t, err, want)
	var in *unit.InputError
	require.True(t, errors.As(err, &in), "%v", err)
	assert.Equal(t, field, string(in.Field))
	assert.NotEmpty(t, in.Want)
}

func TestSewingErrors(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*thread.Sewing)
		field string
		want  error
	}{
		"nothing to sew":    {func(w *thread.Sewing) { w.Seams = nil }, "number of seams", unit.ErrRange},
		"negative tail":     {func(w *thread.Sewing) { w.Tail = -unit.Inch }, "tail", unit.ErrRange},
		"tail without unit": {func(w *thread.Sewing) { w.Tail = 75 }, "tail", unit.ErrForgottenUnit},
		"waste of 15":       {func(w *thread.Sewing) { w.Waste = 15 }, "waste", unit.ErrRange},
		"negative restart":  {func(w *thread.Sewing) { w.Restart = -unit.Inch }, "restart", unit.ErrRange},
		"tiny bobbin":       {func(w *thread.Sewing) { w.Bobbin = unit.Centimetre }, "bobbin", unit.ErrRange},
		"tiny cone":         {func(w *thread.Sewing) { w.Cone = unit.Centimetre }, "cone", unit.ErrRange},
		"bobbins without end": {func(w *thread.Sewing) {
			w.Bobbin = unit.Metre
			w.Seams[0].Length, w.Seams[0].Rows = 1000*unit.Metre, 100
		}, "seams[0].bobbin", unit.ErrRange},
		"cones without end": {func(w *thread.Sewing) {
			w.Cone = unit.Metre
			s := w.Seams[0]
			s.Length, s.Rows = 1000*unit.Metre, 100
			s.Thickness, s.StitchLength = 50*unit.Millimetre, 400*unit.Micrometre
			w.Seams = slices.Repeat([]thread.Seam{s}, 50)
		}, "cone", unit.ErrRange},
		"bobbin all tails": {func(w *thread.Sewing) {
			w.Bobbin, w.Tail, w.Seams[0].Length = unit.Metre, 500*unit.Millimetre, 10*unit.Metre
		}, "seams[0].bobbin", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			w := thread.Sewing{Seams: []thread.Seam{good()}}
			c.spoil(&w)
			_, err := thread.Total(w)
			assertField(t, err, c.field, c.want)
		})
	}
}

func TestTotalOverflows(t *testing.T) {
	s := good()
	s.Length, s.Rows = 1000*unit.Metre, 100
	s.Thickness, s.StitchLength = 50*unit.Millimetre, 400*unit.Micrometre
	seams := make([]thread.Seam, 10_000)
	for i := range seams {
		seams[i] = s
	}
	_, err := thread.Total(thread.Sewing{Seams: seams})
	require.ErrorIs(t, err, unit.ErrOverflow)
}

func TestRequestErrors(t *testing.T) {
	for name, c := range map[string]struct {
		r     thread.Need
		field string
		want  error
	}{
		"nothing":         {thread.Need{}, "goods", unit.ErrUnknown},
		"unknown goods":   {thread.Need{Goods: 77, Layers: 2}, "goods", unit.ErrUnknown},
		"no layers":       {thread.Need{Goods: thread.Woven}, "layers", unit.ErrRange},
		"many layers":     {thread.Need{Goods: thread.Woven, Layers: 21}, "layers", unit.ErrRange},
		"unknown purpose": {thread.Need{Goods: thread.Woven, Layers: 2, Purpose: 9}, "purpose", unit.ErrUnknown},
		"unknown size":    {thread.Need{Goods: thread.Woven, Layers: 2, Size: 12}, "size", unit.ErrUnknown},
		"unknown fibre":   {thread.Need{Goods: thread.Woven, Layers: 2, Fibre: 3}, "fibre", unit.ErrUnknown},
		"needle not made": {thread.Need{Goods: thread.Woven, Layers: 2, Needle: 111}, "needle", unit.ErrUnknown},
		"strength NaN":    {thread.Need{Goods: thread.Woven, Layers: 2, Strength: thread.LineForce(math.NaN())}, "strength", unit.ErrNotFinite},
		"strength below":  {thread.Need{Goods: thread.Woven, Layers: 2, Strength: -1}, "strength", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			a, err := thread.Recommend(c.r)
			assert.Zero(t, a.Len())
			assertField(t, err, c.field, c.want)
		})
	}
}

func TestStrengthErrors(t *testing.T) {
	ok := thread.LoadedSeam{Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre, Needle: 40 * unit.Newton}
	_, err := thread.Strength(ok)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		spoil func(*thread.LoadedSeam)
		field string
		want  error
	}{
		"no stitch":        {func(l *thread.LoadedSeam) { l.Stitch = 0 }, "stitch", unit.ErrUnknown},
		"no stitch length": {func(l *thread.LoadedSeam) { l.StitchLength = 0 }, "stitch_length", unit.ErrRange},
		"no thread":        {func(l *thread.LoadedSeam) { l.Needle = 0 }, "needle", unit.ErrRange},
		"thread NaN":       {func(l *thread.LoadedSeam) { l.Needle = unit.Force(math.NaN()) }, "needle", unit.ErrNotFinite},
		"thread infinite":  {func(l *thread.LoadedSeam) { l.Needle = unit.Force(math.Inf(1)) }, "needle", unit.ErrRange},
		"under below":      {func(l *thread.LoadedSeam) { l.Under = -1 }, "under", unit.ErrRange},
		"factor of 150":    {func(l *thread.LoadedSeam) { l.LoopFactor = 150 }, "loop_factor", unit.ErrRange},
		"no factor known":  {func(l *thread.LoadedSeam) { l.Stitch = thread.Overedge504 }, "loop_factor", unit.ErrRequired},
		"goods of nothing": {func(l *thread.LoadedSeam) { l.Goods = 1e-300 }, "goods", unit.ErrRange},
		"unknown material": {func(l *thread.LoadedSeam) { l.Material = 50 }, "material", unit.ErrUnknown},
	} {
		t.Run(name, func(t *testing.T) {
			l := ok
			c.spoil(&l)
			_, err := thread.Strength(l)
			assertField(t, err, c.field, c.want)
		})
	}
}

// What is not a size, a count or a needle is refused and never guessed.
func TestRefusals(t *testing.T) {
	for _, text := range []string{"", " ", "0", "93", "tex 92", "G", "2 cord", "M31", "921 den", "280/4", "280/33", "280/", "280z3", "280 den", "280 den 33", "T-", "9999999999999999999", "V-90", "92 92", "ninety-two", "00 00", "3 cords of wood"} {
		_, err := thread.ParseSize(text)
		assert.ErrorIs(t, err, unit.ErrUnknown, "%q", text)
	}
	for _, text := range []string{"30", "5", "a", "180", "T30 "} {
		_, err := thread.ParseSize(text)
		switch text {
		case "180", "T30 ":
			assert.NoError(t, err, text)
		default:
			assert.ErrorIs(t, err, thread.ErrAmbiguous, "%q", text)
		}
	}
	for _, text := range []string{"", "7", "31", "112", "110/19", "110/110", "18/18", "Nm 18", "#110", "22.4", "x", "110/"} {
		_, err := thread.ParseNeedle(text)
		assert.ErrorIs(t, err, unit.ErrUnknown, "%q", text)
	}
	for text, want := range map[string]thread.Needle{"110": 110, "110/18": 110, "18/110": 110, "Nm 110": 110, "#18": 110, "22.5": 150, "140/22": 140, "150/22": 150, "23.5": 170} {
		got, err := thread.ParseNeedle(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	_, err := thread.ParseNeedle("23")
	assert.ErrorIs(t, err, thread.ErrAmbiguous)

	for _, x := range []float64{0, -1, math.NaN(), math.Inf(1), 1e300, 1e-320} {
		for _, c := range append(thread.CountSystems(), 0) {
			d, err := c.Of(x)
			if err == nil {
				assert.NoError(t, d.Check())
				continue
			}
			assert.Zero(t, d)
			_, err = c.In(unit.LinearDensity(x))
			if x != 1e-320 {
				assert.Error(t, err)
			}
		}
	}
	_, _, err = thread.SizesAround(0)
	assert.ErrorIs(t, err, unit.ErrRange)
	_, err = thread.Ply(unit.Tex, 0)
	assert.ErrorIs(t, err, unit.ErrRange)
	_, err = thread.StitchesPerInch(0).StitchLength()
	assert.ErrorIs(t, err, unit.ErrRange)
	_, err = thread.StitchesPerInch(math.NaN()).StitchLength()
	assert.ErrorIs(t, err, unit.ErrNotFinite)
	for _, r := range []thread.StitchRange{{From: 6}, {To: 8}} {
		_, _, err = r.Lengths()
		assertField(t, err, "stitches per inch", unit.ErrRange)
	}
	_, err = thread.StitchesPerInchOf(6)
	assert.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = thread.LineForceOf(unit.Newton, 0)
	assert.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = thread.FahrenheitOf(math.Inf(1))
	assert.ErrorIs(t, err, unit.ErrNotFinite)
	_, err = thread.SeamEfficiency(0, 1)
	assertField(t, err, "seam", unit.ErrRange)
	_, err = thread.SeamEfficiency(1, 0)
	assertField(t, err, "goods", unit.ErrRange)
	_, err = thread.SeamEfficiency(1e7, 1e-310)
	assert.ErrorIs(t, err, unit.ErrNotFinite)
	_, err = thread.SpecFor("FAA-PRH", "nylon", "letter Z")
	assert.ErrorIs(t, err, unit.ErrUnknown)
	_, err = thread.NeedlesByNumber(7)
	assert.ErrorIs(t, err, unit.ErrUnknown)
	_, err = thread.ConeLength(0, unit.Kilogram)
	assert.ErrorIs(t, err, unit.ErrUnknown)
	_, err = thread.ConeLength(thread.Size92, 0)
	assert.ErrorIs(t, err, unit.ErrRange)
	_, err = thread.Bobbin{Outer: 20 * unit.Millimetre, Core: 20 * unit.Millimetre, Width: unit.Centimetre}.Volume()
	assert.ErrorIs(t, err, unit.ErrRange)
	_, err = thread.Bobbin{Outer: 20 * unit.Millimetre, Core: 8 * unit.Millimetre, Width: unit.Centimetre}.Holds(thread.Size92)
	assert.ErrorIs(t, err, unit.ErrRange, "no density")
	_, err = thread.Bobbin{}.Holds(0)
	assertField(t, err, "size", unit.ErrUnknown)
	for name, b := range map[string]thread.Bobbin{
		"outer": {Core: 8 * unit.Millimetre, Width: unit.Centimetre}, "width": {Outer: 20 * unit.Millimetre},
		"core": {Outer: 20 * unit.Millimetre, Core: -8 * unit.Millimetre, Width: unit.Centimetre},
	} {
		_, err = b.Volume()
		assertField(t, err, name, unit.ErrRange)
		b.Wound = 500
		_, err = b.Holds(thread.Size92)
		assertField(t, err, name, unit.ErrRange)
	}
	_, err = thread.Bobbin{Outer: 2 * unit.Metre, Core: 8 * unit.Millimetre, Width: unit.Centimetre}.Volume()
	assertField(t, err, "outer", unit.ErrRange)
	for _, c := range []thread.CountSystem{0, 99} {
		_, err = c.In(90 * unit.Tex)
		assertField(t, err, "count system", unit.ErrUnknown)
	}
	for _, single := range []unit.LinearDensity{0, 4001 * unit.Tex} {
		_, err = thread.Ply(single, 2)
		assertField(t, err, "single", unit.ErrRange)
	}
	_, err = thread.CountMetric.In(5e-324)
	assertField(t, err, "tex", unit.ErrOverflow)
	for _, text := range []string{"M30 den", "tkt 30 cord", "v 92 x", "T-90 den"} {
		_, err = thread.ParseSize(text)
		assert.ErrorIs(t, err, unit.ErrUnknown, text)
	}
	_, err = thread.NeedlesFor(thread.Size69, 99)
	assertField(t, err, "goods", unit.ErrUnknown)
	_, err = thread.NeedlesFor(0, thread.Vinyl)
	assertField(t, err, "size", unit.ErrUnknown)
	_, _, err = thread.BackTackFor(0)
	assertField(t, err, "goods", unit.ErrUnknown)
	_, err = thread.CountSystem(0).Of(90)
	assertField(t, err, "count system", unit.ErrUnknown)
	_, err = thread.FinestNeedle(0)
	assertField(t, err, "size", unit.ErrUnknown)
	_, _, err = thread.NeedlePointFor(0)
	assertField(t, err, "goods", unit.ErrUnknown)
	assert.Zero(t, thread.Needle(115).Basis(), "not made")
	_, err = thread.EyeFor(0)
	assertField(t, err, "size", unit.ErrUnknown)
	_, err = thread.EyeFor(99)
	assertField(t, err, "size", unit.ErrUnknown)
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err = thread.Temperature(x).MarshalText()
		assertField(t, err, "temperature", unit.ErrNotFinite)
		_, err = thread.StitchesPerInch(x).MarshalText()
		assertField(t, err, "stitches per inch", unit.ErrNotFinite)
	}
	_, err = thread.Thread{}.Row()
	assertField(t, err, "thread.fibre", unit.ErrUnknown)
	_, err = thread.Thread{Fibre: thread.Nylon}.Row()
	assertField(t, err, "thread.size", unit.ErrUnknown)
	_, err = thread.Fibre(0).Properties()
	assert.ErrorIs(t, err, unit.ErrUnknown)
}

// Goods that tear along a line of holes carry the caution of their own, cloth
// does not, and goods weaker than the stitching govern.
func TestCautionsOfASeam(t *testing.T) {
	l := thread.LoadedSeam{Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre, Needle: 40 * unit.Newton}
	for g, want := range map[thread.Goods]int{0: 1, thread.Woven: 1, thread.Vinyl: 2, thread.Leather: 2} {
		l.Material = g
		s, err := thread.Strength(l)
		require.NoError(t, err)
		assert.Len(t, s.Cautions, want, g)
		l.Goods = s.Thread
		s, err = thread.Strength(l)
		require.NoError(t, err)
		assert.Len(t, s.Cautions, want, "as strong as the stitching: %v", g)
		assert.Zero(t, s.Governs)
		l.Goods = s.Thread * 0.999
		s, err = thread.Strength(l)
		require.NoError(t, err)
		assert.Len(t, s.Cautions, want+1, g)
		assert.Equal(t, thread.GoodsGovern, s.Governs)
		l.Goods = 0
	}
}
