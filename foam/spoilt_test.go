package foam_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/spoil"
	"github.com/coverwright/coverwright/unit"
)

func TestEverySpoiltNumberIsNamed(t *testing.T) {
	const in = unit.Inch
	curve := foam.Curve{IFD25: lbfIFD(35), IFD65: foam.IFD65(lbfIFD(80))}
	block := foam.Block{Length: 24 * in, Width: 22 * in, Thickness: 4 * in}
	spoil.Named(t, "block", block, func(b foam.Block) error { return b.Check() })
	spoil.Named(t, "face", block, func(b foam.Block) error { _, err := b.Face(); return err })
	spoil.Named(t, "volume", block, func(b foam.Block) error { _, err := b.Volume(); return err })
	spoil.Named(t, "envelope", block, func(b foam.Block) error { _, err := b.Envelope(); return err })
	spoil.Named(t, "wedge", foam.Wedge{Length: 20 * in, Width: 18 * in, Front: 4 * in, Rear: 2 * in}, func(w foam.Wedge) error {
		_, err := w.Volume()
		if _, e := w.Envelope(); (err == nil) != (e == nil) {
			return e
		}
		return err
	})
	spoil.Named(t, "cylinder", foam.Cylinder{Diameter: 7 * in, Length: 40 * in}, func(c foam.Cylinder) error { _, err := c.Volume(); return err })
	spoil.Named(t, "cylinder's envelope", foam.Cylinder{Diameter: 7 * in, Length: 40 * in}, func(c foam.Cylinder) error { _, err := c.Envelope(); return err })
	spoil.Named(t, "rounded", foam.Rounded{Block: block, Radius: 3 * in, Corners: 2}, func(r foam.Rounded) error { _, err := r.Volume(); return err })
	spoil.Named(t, "rounded's envelope", foam.Rounded{Block: block, Radius: 3 * in, Corners: 2}, func(r foam.Rounded) error { _, err := r.Envelope(); return err })
	tee := foam.Tee{Width: 24 * in, Depth: 22 * in, Stem: 18 * in, Ear: 4 * in, Thickness: 4 * in}
	spoil.Named(t, "tee", tee, func(x foam.Tee) error { _, err := x.Volume(); return err })
	spoil.Named(t, "tee's envelope", tee, func(x foam.Tee) error { _, err := x.Envelope(); return err })
	spoil.Named(t, "curve", curve, func(c foam.Curve) error { return c.Check() })
	spoil.Named(t, "grade", foam.Grade{Density: 30, IFD25: lbfIFD(35), IFD65: foam.IFD65(lbfIFD(80))}, func(g foam.Grade) error { _, _, err := g.Curve(); return err })
	spoil.Named(t, "sitter", foam.Sitter{Mass: 70 * unit.Kilogram, Share: 0.75, Disc: 360 * unit.Millimetre}, func(s foam.Sitter) error { _, err := s.Pressure(); return err })
	spoil.Named(t, "fill", foam.Fill{Cut: foam.Block{Length: 25 * in, Width: 23 * in, Thickness: 5 * in}, Cover: block, Curve: curve, Density: 30},
		func(f foam.Fill) error { _, err := foam.FillCover(f); return err })
	spoil.Named(t, "weighing", foam.Weighing{Block: block, Mass: 2 * unit.Pound, TapeError: in / 8, ScaleError: unit.Pound / 50},
		func(w foam.Weighing) error { _, err := foam.WeighedDensity(w); return err })
	test := bench(20 * unit.Millimetre)
	test.SinkError, test.Support = unit.Millimetre, 2.2
	spoil.Named(t, "bench test", test, func(b foam.BenchTest) error { _, err := foam.IdentifyIFD25(b); return err })
	spoil.Named(t, "slab", block, func(b foam.Block) error { _, err := foam.SlabTolerance(b); return err })
	spoil.Named(t, "roll", foam.Block{Length: 100 * in, Width: 60 * in, Thickness: in / 2}, func(b foam.Block) error { _, err := foam.RollTolerance(b); return err })
	spoil.Named(t, "convoluted", block, func(b foam.Block) error { _, err := foam.ConvolutedTolerance(b); return err })
}

// args are what a calculator takes beside a struct, by the names of its errors.
type args struct {
	Before    unit.Length  `json:"before"`
	After     unit.Length  `json:"after"`
	Was       unit.Force   `json:"was"`
	Is        unit.Force   `json:"is"`
	IFD25     foam.IFD25   `json:"ifd25"`
	Back      foam.IFD25   `json:"back"`
	Density   unit.Density `json:"density"`
	Thickness unit.Length  `json:"thickness"`
	Sink      unit.Length  `json:"sink"`
	Strain    unit.Ratio   `json:"strain"`
}

// spoilsOnly calls a calculator with those arguments made wrong that it takes.
func spoilsOnly(t *testing.T, name string, call func(args) error, taken ...unit.Path) {
	t.Helper()
	a := args{4 * unit.Inch, 3 * unit.Inch, 100, 90, lbfIFD(35), lbfIFD(30), 30, 4 * unit.Inch, unit.Inch, 0.4}
	require.NoError(t, call(a), name)
	spoil.Each(&a, func(path unit.Path) {
		var e *unit.InputError
		if slices.Contains(taken, path) {
			assert.ErrorAs(t, call(a), &e, "%s: %s", name, path)
		}
	})
}

func TestEverySpoiltArgumentIsRefused(t *testing.T) {
	stack := foam.Stack{{Thickness: 4 * unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(35), IFD65: foam.IFD65(lbfIFD(80))}}}
	curve := stack[0].Curve
	spoilsOnly(t, "set", func(a args) error { _, err := foam.CompressionSet(a.Before, a.After); return err }, "before", "after")
	spoilsOnly(t, "loss", func(a args) error { _, err := foam.HardnessLoss(a.Was, a.Is); return err }, "was", "is")
	spoilsOnly(t, "recovery", func(a args) error { _, err := foam.Recovery(a.IFD25, a.Back); return err }, "ifd25", "back")
	spoilsOnly(t, "hysteresis", func(a args) error { _, err := foam.HysteresisLoss(a.IFD25, a.Back); return err }, "ifd25", "back")
	spoilsOnly(t, "guide factor", func(a args) error { _, err := foam.GuideFactor(a.IFD25, a.Density); return err }, "ifd25", "density")
	spoilsOnly(t, "tolerance", func(a args) error { _, err := foam.IFDTolerance(a.IFD25); return err }, "ifd25")
	spoilsOnly(t, "hardness", func(a args) error { _, err := foam.EstimateHardnessA(a.IFD25); return err }, "ifd25")
	spoilsOnly(t, "model", func(a args) error { _, err := foam.CellularModel(a.Density); return err }, "density")
	spoilsOnly(t, "bun", func(a args) error { _, err := foam.BunHeightTolerance(a.Thickness); return err }, "thickness")
	spoilsOnly(t, "height", func(a args) error { _, err := foam.HeightAt(a.Thickness, a.Strain); return err }, "thickness", "strain")
	spoilsOnly(t, "one inch", func(a args) error { _, err := foam.OneInchStrain(a.Thickness); return err }, "thickness")
	spoilsOnly(t, "at sink", func(a args) error { _, err := stack.AtSink(a.Sink); return err }, "sink")
	spoilsOnly(t, "force", func(a args) error { _, err := curve.Force(a.Strain); return err }, "strain")
	spoilsOnly(t, "pressure", func(a args) error { _, err := curve.Pressure(a.Strain); return err }, "strain")
	spoilsOnly(t, "energy", func(a args) error { _, err := curve.Energy(a.Strain); return err }, "strain")
	spoilsOnly(t, "strain", func(a args) error { _, err := curve.Strain(a.Was); return err }, "was")
	spoilsOnly(t, "below cover", func(a args) error { _, err := foam.Sitting{}.BelowCover(a.Thickness); return err }, "thickness")
	spoilsOnly(t, "mass", func(a args) error {
		_, err := foam.MassOf(foam.Block{Length: a.Before, Width: a.After, Thickness: a.Thickness}, a.Density)
		return err
	},
		"before", "after", "thickness", "density")
	spoilsOnly(t, "supply", func(a args) error {
		_, err := foam.SupplyOf(foam.Block{Length: a.Before, Width: a.After, Thickness: a.Thickness}, a.Density)
		return err
	},
		"before", "after", "thickness", "density")

	// What does not check its curve first is no calculator.
	var zero foam.Curve
	for name, err := range map[string]error{
		"force":  second(zero.Force(0.4)),
		"strain": second(zero.Strain(10)),
		"energy": second(zero.Energy(0.4)),
		"stack":  second(foam.Stack{}.EquivalentIFD25()),
		"whole":  second(foam.Stack{}.HarmonicIFD25()),
		"bottom": second(foam.Stack{}.FirstBottoms()),
		"sink":   second(foam.Stack{}.AtSink(unit.Inch)),
		"sit":    second(foam.Sit(foam.Stack{}, foam.Sitter{Mass: 70 * unit.Kilogram})),
		"sitter": second(foam.Sit(stack, foam.Sitter{})),
		"draw":   second(foam.DrawCurves()),
	} {
		assert.Error(t, err, name)
	}
}

func second[T any](_ T, err error) error { return err }
