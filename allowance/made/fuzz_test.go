package made_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// No calculator panics, hangs, wraps around or lets a NaN out, whatever it is
// given.
func FuzzCalculators(f *testing.F) {
	inch := int64(unit.Inch)
	f.Add(20*inch, 18*inch, 4*inch, inch/2, 6, 1.5)
	f.Add(int64(0), int64(-1), int64(math.MinInt64), int64(math.MaxInt64), 0, math.NaN())
	f.Add(int64(math.MaxInt64), int64(math.MaxInt64), int64(math.MaxInt64), int64(math.MaxInt64), math.MaxInt, math.Inf(1))
	f.Add(int64(1000*unit.Metre), int64(10*unit.Micrometre), int64(unit.Millimetre), int64(0), 10_000, -90.0)
	f.Add(int64(unit.Metre), int64(unit.Metre), int64(unit.Metre)-1, int64(unit.Millimetre), 2, 0.5)
	f.Fuzz(func(t *testing.T, i, j, k, m int64, n int, x float64) { probe(t, i, j, k, m, n, x) })
}

// The same with lengths that are mostly accepted, and with those at the edges
// of what is.
func TestCalculatorsAtTheEdges(t *testing.T) {
	edge := rapid.SampledFrom([]unit.Length{
		0, 1, 10*unit.Micrometre - 1, 10 * unit.Micrometre, unit.Millimetre - 1, unit.Millimetre, unit.Inch / 2, unit.Metre, 2 * unit.Metre,
		2*unit.Metre + 1, 1000*unit.Metre - 1, 1000 * unit.Metre, 1000*unit.Metre + 1, -unit.Inch, math.MaxInt64, math.MinInt64,
	})
	length := rapid.OneOf(edge, drawLength(10*unit.Micrometre, unit.Metre), drawLength(unit.Millimetre, 1000*unit.Metre))
	count := rapid.OneOf(rapid.IntRange(0, 12), rapid.SampledFrom([]int{-1, 200, 500, 1000, 10_000, math.MaxInt}))
	number := rapid.OneOf(rapid.Float64Range(0, 4), rapid.SampledFrom([]float64{-90, 0, 0.5, 89, 360, 1e-300, math.NaN(), math.Inf(1)}))
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) int64 { return int64(length.Draw(t, name)) }
		probe(t, draw("a"), draw("b"), draw("c"), draw("d"), count.Draw(t, "n"), number.Draw(t, "x"))
	})
}

// faultless holds a cover that is given to have no fault, whatever its goods take.
func faultless(t require.TestingT, c allowance.Cover, err error) {
	if err == nil && len(c.Panels) < 40 {
		require.NoError(t, c.Check(sewnGoods("", "under")))
	}
}

// probe calls every calculator.
func probe(t require.TestingT, i, j, k, m int64, n int, x float64) {
	a, b, c, d := unit.Length(i), unit.Length(j), unit.Length(k), unit.Length(m)
	limits, _ := allowance.FirmWoven.Limits()
	ls := func(ls ...unit.Length) []unit.Length { return ls }
	// every call gives lengths that must not be negative, and its error
	for name, call := range map[string]func() ([]unit.Length, error){
		"boxing": func() ([]unit.Length, error) {
			x, err := made.Boxing{Perimeter: a, Depth: b, Seam: allowance.Exactly(d), Zip: true, ZipLength: d}.Cut(made.Goods{Across: c})
			return ls(x.Width, x.Length, x.Tape, x.Zips), err
		},
		"boxing plain": func() ([]unit.Length, error) {
			corner := []made.RingCorner{{At: c}, {At: d}}
			x, err := made.Boxing{Perimeter: a, Depth: b, Corners: corner, Zip: n%2 == 0, Pocket: c}.Cut(made.Goods{Across: d, Along: c, Directed: n%3 == 0})
			return ls(x.Width, x.Length), err
		},
		"welt": func() ([]unit.Length, error) {
			x, err := made.WeltRun{Runs: ls(a, b), Width: d, Longest: c, Join: made.Join(uint8(n))}.Cut()
			return ls(x.Welt, x.Length), err
		},
		"welt strip": func() ([]unit.Length, error) {
			x, err := made.WeltStrip{Cord: a, Cloth: b, Seam: allowance.Exactly(c), Step: d}.Width()
			return ls(x), err
		},
		"bias tube": func() ([]unit.Length, error) {
			_, x, err := made.BestBiasTube(made.BiasTube{Width: a, Height: b, Strip: c, Seam: d})
			return ls(x.Length), err
		},
		"bias tube for": func() ([]unit.Length, error) {
			x, err := made.BiasTubeFor(a, b, c, d, 0)
			return ls(x.Height), err
		},
		"bias square": func() ([]unit.Length, error) {
			x, err := made.BiasSquareFor(a, c, d)
			return ls(x.Side, x.Length), err
		},
		"bias strips": func() ([]unit.Length, error) {
			x, err := made.BiasStrips{Width: a, Height: b, Strip: c, Seam: d}.Yield()
			return ls(x.Length), err
		},
		"strips across": func() ([]unit.Length, error) {
			x, _, err := made.StripsAcrossFor(a, b, c)
			return ls(x.Goods), err
		},
		"channels": func() ([]unit.Length, error) {
			x, err := made.Channels{Width: a, Height: b, Rise: c, Count: n, Profile: made.ChannelProfile(uint8(m))}.Cut()
			return ls(x.Cover, x.Inner, x.Outer, x.OnePiece), err
		},
		"tufting": func() ([]unit.Length, error) {
			x, err := made.Tufting{Width: a, Height: b, Border: c, Depth: d, Across: n, Down: n, Rule: made.TuftRule(uint8(n%6 + 6))}.Plan()
			return ls(x.NetWidth, x.CutHeight), err
		},
		"tufting, known rule": func() ([]unit.Length, error) {
			x, err := made.Tufting{Width: a, Height: b, Depth: d, Across: n, Down: n, Rule: made.Groove}.Plan()
			return ls(x.NetWidth, x.CutHeight), err
		},
		"pleats": func() ([]unit.Length, error) {
			x, err := made.PleatedSkirt{Pleats: made.Pleats{Kind: made.PleatKind(uint8(m)), Finished: a, Count: n, Underfold: b}, Drop: c, Longest: d}.Cut()
			return ls(x.Sewn, x.Width), err
		},
		"gathered": func() ([]unit.Length, error) {
			x, err := made.GatheredSkirt{Base: a, Drop: b, Fullness: unit.Ratio(x), Longest: c, Seam: allowance.Exactly(d)}.Cut()
			return ls(x.Sewn, x.Width), err
		},
		"kick": func() ([]unit.Length, error) {
			x, err := made.KickPleatSkirt{Sides: ls(a, b), Drop: c, Return: allowance.Exactly(d), Lined: n%2 == 0}.Cut()
			return ls(x.Sewn, x.Width), err
		},
		"wrap": func() ([]unit.Length, error) {
			x, err := made.Wrap{Faces: ls(a, b, c), End: allowance.Edge{Handling: d}}.Cut()
			return ls(x), err
		},
		"cushion": func() ([]unit.Length, error) {
			x, err := made.Cushion{Kind: made.CushionKind(uint8(n)), Width: a, Depth: b, Thickness: c, Zip: m%2 == 0, Seam: allowance.Exactly(d), Top: made.Goods{Across: d}}.Make()
			faultless(t, x.Cover, err)
			return ls(x.Core.Width, x.Core.Depth), err
		},
		"eared cushion": func() ([]unit.Length, error) {
			x, err := made.Cushion{Width: a, Depth: b, Thickness: d, LeftEar: c, RightEar: d, EarDepth: c, Fit: made.CushionFit(uint8(n)), CoreGiven: true,
				TakeUp: allowance.Exactly(c), Top: made.Goods{Across: b, Along: c, Directed: n%2 == 0}}.Make()
			faultless(t, x.Cover, err)
			return ls(x.Core.Width, x.Core.Thickness), err
		},
		"zip by hand": func() ([]unit.Length, error) {
			x, err := made.Cushion{Kind: made.CushionKind(uint8(n)), Width: a, Depth: b, Thickness: c, Zip: true, ZipLength: d, Pocket: d, Cord: c, Top: made.Goods{ID: "cloth"}}.Make()
			faultless(t, x.Cover, err)
			return ls(x.Core.Width), err
		},
		"ottoman": func() ([]unit.Length, error) {
			x, err := made.Ottoman{Width: a, Depth: b, Height: c, Rail: allowance.Exactly(d), Top: made.Goods{Across: d}}.Make()
			faultless(t, x.Cover, err)
			return ls(x.Core.Width), err
		},
		"drop-in": func() ([]unit.Length, error) {
			x, err := made.DropInSeat{Front: a, Back: b, Depth: c, Foam: d, Frame: c, Under: made.Goods{ID: "under"}}.Make()
			faultless(t, x.Cover, err)
			return ls(x.Core.Width), err
		},
		"skirt": func() ([]unit.Length, error) {
			x, err := made.Skirt{Kind: made.SkirtKind(uint8(n)), Sides: ls(a, b), Drop: c, Fullness: unit.Ratio(x), Pleats: n, Underfold: d}.Cover(made.Goods{Across: d})
			faultless(t, x, err)
			return nil, err
		},
		"tufted cover": func() ([]unit.Length, error) {
			x, err := made.Tufting{Width: a, Height: b, Depth: d, Across: min(n, 20), Down: min(n, 20), Rule: made.TwiceDepth}.Cover(made.Goods{Across: c})
			faultless(t, x, err)
			return nil, err
		},
		"channels cover": func() ([]unit.Length, error) {
			x, err := made.Channels{Width: a, TopWidth: b, Height: c, Rise: d, Count: n, Lining: "lining", OnePiece: m%2 == 0}.Cover(made.Goods{Across: c})
			faultless(t, x, err)
			return nil, err
		},
		"dome": func() ([]unit.Length, error) {
			g, err := made.Dome{Radius: a, Gores: n, Rim: unit.Angle(x), Form: made.GoreForm(uint8(m))}.Gore()
			return ls(g.Length, g.Width), err
		},
		"frustum": func() ([]unit.Length, error) {
			s, err := made.ConeFrustum{Large: a, Small: b, Height: c, Wrap: unit.Angle(x)}.Develop()
			return ls(s.Outer, s.Inner, s.BoxHeight, s.BoxWidth), err
		},
		"tub": func() ([]unit.Length, error) {
			s, err := made.TubBand{Shape: made.ConeFrustum{Large: a, Small: b, Height: c}, Ends: allowance.Edge{Allowance: allowance.Exactly(d)}}.Cut()
			return ls(s.CutOuter, s.CutInner, s.CutSlant), err
		},
		"arc": func() ([]unit.Length, error) {
			s, err := shape.ArcFromChord(a, b)
			return ls(s.Radius, s.Length), err
		},
		"arc from length": func() ([]unit.Length, error) {
			s, err := shape.ArcFromLength(a, b)
			return ls(s.Radius, s.Rise), err
		},
		"ellipse": func() ([]unit.Length, error) {
			s, err := shape.EllipsePerimeter(a, b)
			return ls(s), err
		},
		"match": func() ([]unit.Length, error) {
			s, err := allowance.MatchSeam(a, b, limits)
			if err != nil {
				return nil, err
			}
			marks, err := s.MarksBetween(c, d, min(a, b))
			out := ls(s.Difference)
			for _, k := range marks {
				out = append(out, k.First, k.Second)
			}
			return out, err
		},
		"bend": func() ([]unit.Length, error) {
			s, err := allowance.BendOf(a, b, c)
			return ls(s.Radius), err
		},
		"stretch": func() ([]unit.Length, error) {
			s, err := allowance.Stretch{TakeOut: unit.Ratio(x), Shrinkage: unit.Ratio(x), Compression: b, Ease: c, Below: d}.Apply(a)
			return ls(s.Seam), err
		},
		"measured": func() ([]unit.Length, error) {
			s, err := allowance.MeasuredStretch(a, b)
			if err == nil {
				_, err = s.Apply(c)
			}
			return nil, err
		},
	} {
		got, err := call()
		if err != nil {
			var in *unit.InputError
			require.ErrorAs(t, err, &in, name)
			continue
		}
		for _, l := range got {
			if l < 0 {
				require.GreaterOrEqual(t, l, unit.Length(0), "%s gives %v", name, got)
			}
		}
	}
}

func FuzzNames(f *testing.F) {
	for _, s := range []string{"diagonal join", "ease in", "box pleat", "half ellipse", "snug fit", "arc form", "groove", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var (
			join    made.Join
			verdict allowance.Verdict
			pleat   made.PleatKind
			profile made.ChannelProfile
			fit     made.CushionFit
			form    made.GoreForm
			rule    made.TuftRule
		)
		for _, read := range []func([]byte) error{
			join.UnmarshalText, verdict.UnmarshalText, pleat.UnmarshalText, profile.UnmarshalText,
			fit.UnmarshalText, form.UnmarshalText, rule.UnmarshalText,
		} {
			if err := read([]byte(s)); err != nil {
				require.ErrorIs(t, err, unit.ErrUnknown)
			}
		}
		if rule != 0 {
			text, err := rule.MarshalText()
			require.NoError(t, err)
			require.Equal(t, s, string(text))
		}
	})
}
