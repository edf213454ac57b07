package foam

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Reason is one step of a recommendation, a verdict or an estimate as data:
// what it says, and the values it speaks of. A value that the kind does not
// name is zero. String words it in inch-pound units, Metric in metric ones.
type Reason struct {
	Kind ReasonKind `json:"kind"`
	Use  Use        `json:"use,omitzero"`
	Duty Duty       `json:"duty,omitzero"`
	Base Base       `json:"base,omitzero"`
	// About names a figure, Count counts figures or layers.
	About string `json:"about,omitempty"`
	Count int    `json:"count,omitzero"`
	// Firmness and Density are what the reason is about, Wanted and Limits
	// what they are held against.
	Firmness Range[IFD25]        `json:"firmness,omitzero"`
	Wanted   Range[IFD25]        `json:"wanted,omitzero"`
	Density  Range[unit.Density] `json:"density,omitzero"`
	Limits   Range[unit.Density] `json:"limits,omitzero"`
	// Thickness is of the foam, Sink and Remaining under the sitter.
	Thickness Range[unit.Length] `json:"thickness,omitzero"`
	Sink      unit.Length        `json:"sink,omitzero"`
	Remaining unit.Length        `json:"remaining,omitzero"`
	Sitter    unit.Mass          `json:"sitter,omitzero"`
	// Ratio is a margin, a support factor or a share of the height.
	Ratio unit.Ratio `json:"ratio,omitzero"`
}

// ReasonKind is what a [Reason] says. The zero value says nothing. The kinds,
// with the values each carries:
//
//	of the firmness asked for
//	  UsualFirmness      Thickness, Firmness
//	  SharedOnly         Firmness
//	  NearerEnd          Firmness, Wanted
//	  MiddleOfShared     Use, Firmness
//	  MiddleOfFigures    Use, Firmness
//	  BetweenThicknesses Thickness
//	  FirmnessWanted     Wanted, Firmness
//	  WantedIsUnusual    Firmness
//	  NothingShared      Count, Firmness
//	  PartlyShared       Count, Firmness, Wanted
//	of the density asked for
//	  LoadedDensity, ContractDensity
//	  LittleCarried      Use
//	  UsualDensity       Duty
//	  DensityDiffers     About, Density, Limits
//	of base, stock and sitter
//	  OnBoard, DrainsUsual
//	  OnGivingBase       Base
//	  ExampleStock
//	  NoneFits           About
//	  TargetBottomsOut   Firmness, Sitter
//	  TargetSinks        Sitter, Sink, Thickness, Remaining, Ratio
//	of a grade of the stock
//	  TooSoft, TooFirm, FirmEnough                Firmness
//	  FirmnessOff                                 Firmness, Wanted
//	  TooLight, DenserThanAsked, DenseEnough      Density
//	  SupportUnknown
//	  SupportOutside                              Ratio
//	  GradeDrains, GradeHoldsWater
//	  GradeBottomsOut                             Sitter
//	  GradeSinks                                  Sink, Sitter, Ratio
//	of old foam
//	  HeightSound, HeightDoubtful, HeightPoor     Ratio
//	  Crumbling
//	  OldDensityLight                             Density, Use, Duty
//	  OldDensityUsual                             Use, Duty
//	  NoCertificate
//	of a sitting
//	  RigidBase, ShallowSink
//	  LayerBottomsOut                             Count
//	  ThinnerThanTest, ThickerThanTest
type ReasonKind uint8

// The kinds of reason; see [ReasonKind].
const (
	UsualFirmness ReasonKind = iota + 1
	SharedOnly
	NearerEnd
	MiddleOfShared
	MiddleOfFigures
	BetweenThicknesses
	FirmnessWanted
	WantedIsUnusual
	NothingShared
	PartlyShared
	LoadedDensity
	ContractDensity
	LittleCarried
	UsualDensity
	DensityDiffers
	OnBoard
	OnGivingBase
	ExampleStock
	NoneFits
	TargetBottomsOut
	TargetSinks
	TooSoft
	TooFirm
	FirmEnough
	FirmnessOff
	TooLight
	DenserThanAsked
	DenseEnough
	SupportUnknown
	SupportOutside
	GradeBottomsOut
	GradeSinks
	HeightSound
	HeightDoubtful
	HeightPoor
	Crumbling
	OldDensityLight
	OldDensityUsual
	NoCertificate
	RigidBase
	ShallowSink
	LayerBottomsOut
	ThinnerThanTest
	ThickerThanTest
	DrainsUsual
	GradeDrains
	GradeHoldsWater
)

// wordings are the name of a kind in JSON and its sentence; what stands in braces
// is filled in with a value.
var wordings = [...]struct{ name, text string }{
	{"", ""},
	{"usual firmness", "a seat {thickness} thick usually takes about {firmness} at 25 %: the thinner the foam, the firmer it must be to keep the sitter off the base"},
	{"shared only", "the figures have only {firmness} in common; ask for that to satisfy them all"},
	{"nearer end", "that lies outside the {firmness} given for this use and duty, so the nearer end, {wanted}, is taken"},
	{"middle of shared", "the middle of what the figures for {a use} have in common, {firmness}"},
	{"middle of figures", "the middle of the figures for {a use}, {firmness}"},
	{"between thicknesses", "no figure was read for seats of {thickness}; the span is taken evenly between those for thin and for thick seats"},
	{"firmness wanted", "{wanted} is wanted, so the usual is not asked for; what lies within {firmness} passes for the same"},
	{"wanted is unusual", "that lies outside the {firmness} of the figures for this use and duty: ask whether it was right for the piece"},
	{"nothing shared", "firmness: the {count} figures run from {firmness} and have no value in common"},
	{"partly shared", "firmness: the {count} figures run from {firmness}; all of them allow only {wanted}"},
	{"loaded density", "density: what is sat or slept on takes at least the density for normal duty, however light the use"},
	{"contract density", "density: backs and arms in contract use stand in the service class of domestic seats"},
	{"little carried", "density: {a use} carries little, so the density for light duty does"},
	{"usual density", "density: the usual for {duty} duty; density is what makes foam last, not what makes it firm"},
	{"density differs", "density: {about} is given as {density}, this package takes {limits}"},
	{"on board", "board gives nothing: the foam carries alone, so prefer the firmer of two grades"},
	{"on giving base", "{base} give under load and share the work, so the softer of two grades will do"},
	{"example stock", "no stock was given: the grades ranked are examples"},
	{"none fits", "no grade of the stock fits; {about} comes nearest"},
	{"target bottoms out", "{firmness} bottoms out under {sitter}: take thicker foam, or firmer than the figures"},
	{"target sinks", "under {sitter} the target sinks about {sink} of {thickness} and leaves {remaining}; the foam would carry {times} times that"},
	{"too soft", "softer than {firmness}"},
	{"too firm", "firmer than {firmness}"},
	{"firm enough", "firmness within {firmness}"},
	{"firmness off", "{firmness} where {wanted} is wanted"},
	{"too light", "lighter than {density}, will soften sooner"},
	{"denser than asked", "denser than {density}: lasts longer, costs more"},
	{"dense enough", "density within {density}"},
	{"support unknown", "support factor not given: ask for IFD at 65 %"},
	{"support outside", "support factor {factor} outside 1.8 to 3.5"},
	{"grade bottoms out", "bottoms out under {sitter}"},
	{"grade sinks", "sinks about {sink} under {sitter}, bottoms out at {times} times that"},
	{"height sound", "{percent} of the height is lost; up to 10 % is called good"},
	{"height doubtful", "{percent} of the height is lost; up to 10 % is called good, more than 15 % poor"},
	{"height poor", "{percent} of the height is lost; more than 15 % is called poor"},
	{"crumbling", "it crumbles: the cell walls have perished"},
	{"old density light", "its density is under the {density} usual for {a use} in {duty} duty"},
	{"old density usual", "its density is that usual for {a use} in {duty} duty or more"},
	{"no certificate", "old foam has no certificate: where a fire rule applies, replace it or have it tested"},
	{"rigid base", "at rest on a rigid base; springs and webbing add their own give"},
	{"shallow sink", "at small depths such predictions have been far off; the sink may be twice or half this"},
	{"layer bottoms out", "layer {count} is pressed to 65 % or more: it bottoms out, take firmer or thicker foam"},
	{"thinner than test", "IFD is tested {test} thick: thinner foam reads lower in the test, and no factor is applied here"},
	{"thicker than test", "IFD is tested {test} thick: thicker foam reads higher in the test, and no factor is applied here"},
	{"drains usual", "it gets wet: reticulated foam, which lets water through, or closed-cell foam, which takes none up, is usual; ordinary foam holds it. The figures here are for ordinary foam: ask the merchant what the draining foam has"},
	{"grade drains", "it is for places that get wet"},
	{"grade holds water", "it is not listed as draining or closed-cell: in a place that gets wet it holds water"},
}

var reasonNames = func() []string {
	names := make([]string, len(wordings))
	for i, w := range wordings {
		names[i] = w.name
	}
	return names
}()

// String gives the name in lower case.
func (k ReasonKind) String() string { return enum.Name(k, "ReasonKind", reasonNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (k ReasonKind) MarshalText() ([]byte, error) {
	return enum.Text(k, "kind", reasonNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (k *ReasonKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "kind", reasonNames)
}

// String words the reason in inches, pounds and pounds-force; a kind that is
// not known gives its number.
func (r Reason) String() string { return r.words(inchPound) }

// Metric words the reason in millimetres, kilograms and newtons.
func (r Reason) Metric() string { return r.words(millimetres) }

// system is how quantities are written.
type system struct {
	length  func(unit.Length) string
	mass    unit.Mass
	force   unit.Force
	density unit.Density
	places  int // of a density
}

var (
	inchPound = system{
		length: func(l unit.Length) string { return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) },
		mass:   unit.Pound, force: unit.PoundForce, density: unit.PoundPerCubicFoot, places: 2,
	}
	millimetres = system{
		length: func(l unit.Length) string { return l.Decimal(unit.Millimetre, 0, unit.Nearest) },
		mass:   unit.Kilogram, force: unit.Newton, density: unit.KilogramPerCubicMetre,
	}
)

func (r Reason) words(s system) string {
	if int(r.Kind) >= len(wordings) {
		return r.Kind.String()
	}
	var b strings.Builder
	text := wordings[r.Kind].text
	for {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		name, after, _ := strings.Cut(rest, "}")
		b.WriteString(r.value(name, s))
		text = after
	}
}

func (r Reason) value(name string, s system) string {
	force := func(i IFD25) string { return i.Force().Decimal(s.force, 0, unit.Nearest) }
	density := func(d unit.Density) string { return d.Decimal(s.density, s.places, unit.Nearest) }
	switch name {
	case "use":
		return r.Use.String()
	case "a use":
		if r.Use == Arm {
			return "an " + r.Use.String()
		}
		return "a " + r.Use.String()
	case "duty":
		return r.Duty.String()
	case "base":
		return r.Base.String()
	case "about":
		return r.About
	case "count":
		return strconv.Itoa(r.Count)
	case "firmness":
		return spanOf(r.Firmness, force)
	case "wanted":
		return spanOf(r.Wanted, force)
	case "density":
		return spanOf(r.Density, density)
	case "limits":
		return spanOf(r.Limits, density)
	case "thickness":
		return spanOf(r.Thickness, s.length)
	case "sink":
		return s.length(r.Sink)
	case "remaining":
		return s.length(r.Remaining)
	case "test":
		return s.length(testThickness)
	case "sitter":
		return r.Sitter.Decimal(s.mass, 0, unit.Nearest)
	case "times":
		return strconv.FormatFloat(float64(r.Ratio), 'f', 1, 64)
	case "factor":
		return strconv.FormatFloat(float64(r.Ratio), 'f', 2, 64)
	case "percent":
		return r.Ratio.PercentText(1, unit.Nearest)
	}
	return "{" + name + "}"
}

// spanOf writes a range, or one value where both ends read alike.
func spanOf[Q ~int64 | ~float64](r Range[Q], text func(Q) string) string {
	lo, hi := text(r.Low), text(r.High)
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}

// only is a range of one value.
func only[Q ~int64 | ~float64](q Q) Range[Q] { return Range[Q]{Low: q, High: q} }
