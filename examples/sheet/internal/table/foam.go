package table

import (
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/sheet"
	"github.com/coverwright/coverwright/unit"
)

const foamGroup = "Foam"

func names[T interface{ String() string }](of []T) string {
	var out []string
	for _, x := range of {
		out = append(out, x.String())
	}
	return strings.Join(out, ", ")
}

var (
	blockArgs = []Arg{num("length_in", "length of the block"), num("width_in", "its width"), num("thickness_in", "its thickness")}
	wantArgs  = []Arg{
		word("use", names(foam.Uses())), word("duty", names(foam.Duties())), num("thickness_in", "thickness of the foam, 1/2 to 12 in"),
		word("base", "what it lies on: "+names(foam.Bases())),
	}
	wantExample = []any{"seat", "heavy", 4.0, "springs"}
	wantBad     = []Bad{{Value, []any{"seat", "heavy", 4.0}}, {Num, []any{"seat", "heavy", 40.0, "springs"}}, {Missing, []any{"seat", "idle", 4.0, "springs"}}}
	sitArgs     = []Arg{
		num("thickness_in", "thickness of the foam"), num("ifd25_lbf", "IFD (ILD) at 25 %"), num("ifd65_lbf", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken"),
		num("sitter_lb", "weight of the sitter, 22 to 551 lb"),
	}
	sitExample = []any{4.0, 35.0, 80.0, 180.0}
	sitBad     = []Bad{{Value, []any{4.0, 35.0, 80.0}}, {Num, []any{4.0, 35.0, 20.0, 180.0}}}
)

func (a *args) block() foam.Block {
	return foam.Block{Length: a.length("length_in"), Width: a.length("width_in"), Thickness: a.length("thickness_in")}
}

func (a *args) sel() (foam.Selection, error) {
	r := foam.Request{Thickness: a.length("thickness_in")}
	a.into("use", &r.Use)
	a.into("duty", &r.Duty)
	a.into("base", &r.Base)
	if a.fault != nil {
		return foam.Selection{}, a.fault
	}
	return foam.Select(r)
}

func (a *args) sit() (foam.Sitting, error) {
	// The density says nothing about the curve; any will do.
	g := foam.Grade{Name: "foam", Density: 30 * unit.KilogramPerCubicMetre, IFD25: foam.IFD25(a.force("ifd25_lbf")), IFD65: foam.IFD65(a.force("ifd65_lbf"))}
	c, _, err := g.Curve()
	if err != nil {
		return foam.Sitting{}, err
	}
	return foam.Sit(foam.Stack{{Thickness: a.length("thickness_in"), Curve: c}}, foam.Sitter{Mass: a.mass("sitter_lb")})
}

var foamFunctions = []Function{
	{
		Method: "boardFeet", Twin: "foamLitres", Group: foamGroup, Result: Number, Unit: "bd ft",
		Help:    "Board feet of a block of foam: 144 cubic inches each.",
		Args:    append(append([]Arg{}, blockArgs...), num("count", "blocks alike").or("1")),
		Example: []any{24.0, 24.0, 4.0, 2.0},
		Bad:     []Bad{{Value, []any{24.0, 24.0}}, {Num, []any{24.0, 24.0, 0.0}}},
		call: func(a *args) (Result, error) {
			n := 1
			if a.given("count") {
				if n = a.count("count"); n < 0 {
					a.fail(Num, "count", "must not be negative")
				}
			}
			b := a.block()
			if err := b.Check(); err != nil {
				return Result{}, err
			}
			v, err := b.Volume()
			if err == nil {
				v, err = v.Times(n)
			}
			return a.volumeResult(v, err)
		},
	},
	{
		Method: "foamDensityPcf", Group: foamGroup, Result: Number, Unit: "lb/cu ft",
		Help:    "Density of a block of foam that was weighed.",
		Args:    append([]Arg{num("mass_lb", "weight of the block")}, blockArgs...),
		Example: []any{2.5, 24.0, 24.0, 4.0},
		Bad:     []Bad{{Value, []any{2.5, 24.0, 24.0}}, {Num, []any{2.5, 24.0, 24.0, 0.0}}},
		call: func(a *args) (Result, error) {
			d, err := foam.WeighedDensity(foam.Weighing{Block: a.block(), Mass: a.mass("mass_lb")})
			return a.densityResult(d.Value, err)
		},
	},
	{
		Method: "foamMassLb", Group: foamGroup, Result: Number, Unit: "lb",
		Help:    "Weight of a block of foam.",
		Args:    append(append([]Arg{}, blockArgs...), num("density_pcf", "density of the foam")),
		Example: []any{24.0, 24.0, 4.0, 2.8},
		Bad:     []Bad{{Value, []any{24.0, 24.0, 4.0}}, {Num, []any{24.0, 24.0, 4.0, 0.0}}},
		call: func(a *args) (Result, error) {
			m, err := foam.MassOf(a.block(), a.density("density_pcf"))
			return a.massResult(m, err)
		},
	},
	{
		Method: "sheetThicknessIn", Group: foamGroup, Result: Number, Unit: "in",
		Help:    "Thickness of sheet for a boxing: down by a quarter inch or less over a whole inch, else up. Common practice.",
		Args:    []Arg{num("boxing_in", "finished height of the boxing, 1 to 24 in")},
		Example: []any{4.25},
		Bad:     []Bad{{Value, []any{"4"}}, {Num, []any{0.5}}},
		call: func(a *args) (Result, error) {
			t, err := sheet.ThicknessFor(a.length("boxing_in"))
			return a.lengthResult(t, err)
		},
	},
	{
		Method: "supportFactor", Group: foamGroup, Result: Number,
		Help:    "IFD at 65 % over IFD at 25 %.",
		Args:    []Arg{num("ifd25_lbf", "IFD (ILD) at 25 %"), num("ifd65_lbf", "IFD at 65 %")},
		Example: []any{35.0, 84.0},
		Bad:     []Bad{{Value, []any{35.0}}, {Num, []any{35.0, 20.0}}},
		call: func(a *args) (Result, error) {
			s, err := foam.SupportFactor(foam.IFD25(a.force("ifd25_lbf")), foam.IFD65(a.force("ifd65_lbf")))
			return number(float64(s)), err
		},
	},
	{
		Method: "ildLowLbf", Group: foamGroup, Result: Number, Unit: "lbf",
		Help: "Softest firmness any source names for the use. A rule of thumb: a trial sit decides.", Args: wantArgs, Example: wantExample, Bad: wantBad,
		call: func(a *args) (Result, error) {
			s, err := a.sel()
			return a.forceResult(unit.Force(s.IFD.Low), err)
		},
	},
	{
		Method: "ildHighLbf", Group: foamGroup, Result: Number, Unit: "lbf",
		Help: "Firmest firmness any source names for the use. A rule of thumb: a trial sit decides.", Args: wantArgs, Example: wantExample, Bad: wantBad,
		call: func(a *args) (Result, error) {
			s, err := a.sel()
			return a.forceResult(unit.Force(s.IFD.High), err)
		},
	},
	{
		Method: "ildTargetLbf", Group: foamGroup, Result: Number, Unit: "lbf",
		Help: "Firmness to ask for. A rule of thumb: a trial sit decides. Mind the fire rules of the place.", Args: wantArgs, Example: wantExample, Bad: wantBad,
		call: func(a *args) (Result, error) {
			s, err := a.sel()
			return a.forceResult(unit.Force(s.Target), err)
		},
	},
	{
		Method: "foamDensityLowPcf", Group: foamGroup, Result: Number, Unit: "lb/cu ft",
		Help: "Least density to ask for. Mind the fire rules of the place.", Args: wantArgs, Example: wantExample, Bad: wantBad,
		call: func(a *args) (Result, error) {
			s, err := a.sel()
			return a.densityResult(s.Density.Low, err)
		},
	},
	{
		Method: "sinkIn", Group: foamGroup, Result: Number, Unit: "in",
		Help: "How far a sitter presses the foam in, on a rigid base. An estimate.", Args: sitArgs, Example: sitExample, Bad: sitBad,
		call: func(a *args) (Result, error) {
			s, err := a.sit()
			return a.lengthResult(s.Pressed.Sink, err)
		},
	},
	{
		Method: "bottomsOut", Group: foamGroup, Result: Number,
		Help: "1 when the sitter presses the foam to the end of its curve (65 %), else 0. An estimate.", Args: sitArgs, Example: sitExample, Bad: sitBad,
		call: func(a *args) (Result, error) {
			s, err := a.sit()
			return yes(s.BottomsOut()), err
		},
	},
}
