package foam

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Sitter is a person on a cushion, as a flat disc that carries a share of the
// body's weight. Zero Share and Disc stand for [UsualShare] and [UsualDisc].
type Sitter struct {
	Mass  unit.Mass   `json:"mass"`           // 10 to 250 kg
	Share unit.Ratio  `json:"share,omitzero"` // of the weight on the seat, 0.3 to 1
	Disc  unit.Length `json:"disc,omitzero"`  // diameter of the contact, 15 to 70 cm
}

const (
	// UsualShare is the share of the body's weight on the seat of an upright
	// sitter, usually given as 70 to 80 %; from memory.
	UsualShare unit.Ratio = 0.75
	// UsualDisc is the diameter of the disc that stands for the contact.
	// Discs of 20 to 58 cm have been used in research on seat foam; 36 cm is
	// the third of six. See ContactDiscs, and RigidSeat for a measured 38 cm.
	UsualDisc = 360 * unit.Millimetre
)

// The spread taken for error bars: share of weight, disc, firmness as delivered.
const (
	leastShare, mostShare = 0.70, 0.80
	leastDisc, mostDisc   = 300 * unit.Millimetre, 410 * unit.Millimetre
	firmnessSpread        = 0.10
)

// ContactDiscs gives the disc diameters used to stand for sitters of different
// build in a study of seat foundations.
func ContactDiscs() ([]unit.Length, cite.Basis) {
	var out []unit.Length
	for _, cm := range []int{20, 30, 36, 41, 51, 58} {
		out = append(out, unit.Length(cm)*unit.Centimetre)
	}
	return out, cite.Basis{Status: cite.Published, Source: "BIORES-15-7992", Note: "indenters on spring and panel bases"}
}

// PredictionErrors gives how far a finite-element prediction of a covered
// double layer, made from tests of the single layers, was off in stress at a
// depth: a measure of what to expect of such predictions, ours included.
func PredictionErrors() []PredictionError {
	b := cite.Basis{Status: cite.Published, Source: "BIORES-18-7731"}
	return []PredictionError{{Strain: 0.10, Error: 0.9568, Basis: b}, {Strain: 0.65, Error: -0.0508, Basis: b}}
}

// PredictionError is the error of a prediction at one depth.
type PredictionError struct {
	Strain unit.Ratio `json:"strain"`
	Error  unit.Ratio `json:"error"`
	Basis  cite.Basis `json:"basis"`
}

// Posture is how the load on the seat changes from upright sitting without
// back support: Change is a share of that load, negative when it falls.
type Posture struct {
	Name   string            `json:"name"`
	Change Range[unit.Ratio] `json:"change"`
	Basis  cite.Basis        `json:"basis"`
}

// Postures gives measured changes of the load on the seat.
func Postures() []Posture {
	b := cite.Basis{Status: cite.Published, Source: "SEAT-LOAD", Note: "fifteen volunteers on force plates"}
	at := func(lo, hi float64) Range[unit.Ratio] {
		return Range[unit.Ratio]{Low: unit.Ratio(lo), High: unit.Ratio(hi)}
	}
	return []Posture{
		{Name: "back support inclined", Change: at(-0.12, -0.10), Basis: b},
		{Name: "back reclined to 115 degrees", Change: at(-0.09, -0.09), Basis: b},
		{Name: "armrests 68 cm high", Change: at(-0.12, -0.12), Basis: b},
		{Name: "footrest, arms and a slightly sloping back", Change: at(-1./3, -1./3),
			Basis: cite.Basis{Status: cite.Published, Source: faaSitting, Note: "104 men on a rigid seat: by more than a third"}},
	}
}

const faaSitting = "FAA-AM-62-1"

// RigidSeat gives the mean area and the mean pressure of contact of 104 men on a
// flat rigid seat. A disc of that area has a diameter of 38 cm; nearly half the
// weight lay on 8 % of the area, so the pressure under the bones is about six times the mean.
func RigidSeat() (unit.Area, unit.Pressure, cite.Basis) {
	return unit.Area(179.4 * float64(unit.SquareInch)), unit.Pressure(0.92 * float64(unit.PoundPerSquareInch)),
		cite.Basis{Status: cite.Published, Source: faaSitting, Note: "104 men without back, arms or footrest"}
}

// Check gives nil for a sitter within the ranges of the fields.
func (s Sitter) Check() error {
	if err := check.Between("mass", s.Mass, 10*unit.Kilogram, 250*unit.Kilogram); err != nil {
		return err
	}
	if s.Share != 0 {
		if err := check.Ratio("share", s.Share, 0.3, 1); err != nil {
			return err
		}
	}
	if s.Disc != 0 {
		return check.Length("disc", s.Disc, 150*unit.Millimetre, 700*unit.Millimetre)
	}
	return nil
}

// Pressure gives the mean pressure under the sitter:
//
//	p = share · mass · g / (π/4 · disc²)
func (s Sitter) Pressure() (unit.Pressure, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	share, disc := s.Share, s.Disc
	if share == 0 {
		share = UsualShare
	}
	if disc == 0 {
		disc = UsualDisc
	}
	return discPressure(s.Mass, float64(share), disc)
}

func discPressure(m unit.Mass, share float64, disc unit.Length) (unit.Pressure, error) {
	d := disc.Metres()
	p := unit.Pressure(share * float64(m.Weight()) / (math.Pi / 4 * d * d))
	return p, p.Check()
}

// extremes gives the lowest and highest pressure the sitter may make: the share
// and the disc vary unless they were given.
func (s Sitter) extremes() (lo, hi unit.Pressure, err error) {
	shareLo, shareHi := leastShare, mostShare
	if s.Share != 0 {
		shareLo, shareHi = float64(s.Share), float64(s.Share)
	}
	discLo, discHi := leastDisc, mostDisc
	if s.Disc != 0 {
		discLo, discHi = s.Disc, s.Disc
	}
	if lo, err = discPressure(s.Mass, shareLo, discHi); err != nil {
		return 0, 0, err
	}
	hi, err = discPressure(s.Mass, shareHi, discLo)
	return lo, hi, err
}

// Sitting is what a cushion does under a sitter.
type Sitting struct {
	Sitter   Sitter        `json:"sitter"`
	Load     unit.Force    `json:"load"`
	Pressure unit.Pressure `json:"pressure"`
	// Pressed is the cushion at that pressure, layer by layer.
	Pressed Pressed `json:"pressed"`
	// Sink and Remaining carry error bars from the spread of the sitter's
	// share and contact and from foam 10 % softer or firmer than ordered.
	Sink      Estimated[unit.Length] `json:"sink"`
	Remaining Estimated[unit.Length] `json:"remaining"`
	// Margin is the pressure at which the first layer reaches 65 %, divided by
	// the sitter's: under 1 the cushion bottoms out.
	Margin unit.Ratio `json:"margin"`
	Notes  []Reason   `json:"notes"`
}

// BottomsOut tells whether the first layer is at the end of its curve.
func (s Sitting) BottomsOut() bool { return s.Margin < 1 }

// BelowCover gives how far the sitter sinks below a cover of the given height
// that holds the foam down: the height less what remains, not less than
// nothing.
func (s Sitting) BelowCover(height unit.Length) (unit.Length, error) {
	if err := check.Positive("height", height); err != nil {
		return 0, err
	}
	return max(0, height-s.Remaining.Value), nil
}

// Sit gives the sink, the foam left under the sitter and the margin against
// bottoming out. It is an estimate for a sitter at rest on a rigid base: springs
// and webbing add their own give, dropping into a seat loads it more, and a
// trial sit decides.
func Sit(s Stack, who Sitter) (Sitting, error) {
	if err := s.Check(); err != nil {
		return Sitting{}, err
	}
	l, err := who.load()
	if err != nil {
		return Sitting{}, unit.InField("sitter", err)
	}
	var out Sitting
	if err := s.sit(&out, &l, make([]PressedLayer, 0, len(s))); err != nil {
		return Sitting{}, err
	}
	out.Notes = out.notes(make([]Reason, 0, mostNotes+len(s)))
	return out, nil
}

// load is what a sitter puts on a cushion: the pressure, and the lowest and
// highest it may be.
type load struct {
	sitter    Sitter
	force     unit.Force
	p, lo, hi unit.Pressure
}

func (s Sitter) load() (load, error) {
	l := load{sitter: s}
	var err error
	if l.p, err = s.Pressure(); err != nil {
		return load{}, err
	}
	share := s.Share
	if share == 0 {
		share = UsualShare
	}
	l.force = unit.Force(float64(share) * float64(s.Mass.Weight()))
	l.lo, l.hi, err = s.extremes()
	return l, err
}

var sittingBasis = cite.Basis{Status: cite.FromMemory, Note: "series mechanics; share of weight and contact from memory, so an estimate only"}

// sit fills in a sitting but for its notes, and puts layers behind those of a
// list with room for them. The stack is a checked one.
func (s Stack) sit(out *Sitting, l *load, layers []PressedLayer) error {
	first, err := s.firstBottoms()
	if err != nil {
		return err
	}
	out.Sitter, out.Load, out.Pressure, out.Margin = l.sitter, l.force, l.p, unit.Ratio(first/l.p)
	if out.Pressed, err = s.under(float64(l.p), layers); err != nil {
		return err
	}
	least, err := s.sinkAt(float64(l.lo), 1+firmnessSpread)
	if err != nil {
		return err
	}
	most, err := s.sinkAt(float64(l.hi), 1-firmnessSpread)
	if err != nil {
		return err
	}
	t, kind := s.Thickness(), out.Pressed.Kind
	out.Sink = Estimated[unit.Length]{Value: out.Pressed.Sink, Low: least, High: most, Kind: kind, Basis: sittingBasis}
	out.Remaining = Estimated[unit.Length]{Value: out.Pressed.Remaining, Low: t - most, High: t - least, Kind: kind, Basis: sittingBasis}
	return nil
}

// sinkAt gives the sink under a pressure with every force multiplied.
func (s Stack) sinkAt(p, firmer float64) (unit.Length, error) {
	f := p * Plate.SquareMetres()
	var sum unit.Length
	for i := range s {
		c := s[i].Curve
		c.IFD25, c.IFD65 = IFD25(float64(c.IFD25)*firmer), IFD65(float64(c.IFD65)*firmer)
		sink, err := metres(float64(c.strain(f) * s[i].Thickness.Metres()))
		if err != nil {
			return 0, err
		}
		sum += sink
	}
	return sum, nil
}

// mostNotes is room for the notes of a sitting on one layer.
const mostNotes = 3

// notes puts what is to be said of a sitting behind a list whose room was never
// used.
func (s *Sitting) notes(notes []Reason) []Reason {
	notes = oneMore(notes, RigidBase)
	for i := range s.Pressed.Layers {
		if s.Pressed.Layers[i].Bottomed {
			notes = oneMore(notes, LayerBottomsOut)
			notes[len(notes)-1].Count = i + 1
		}
	}
	if s.Pressed.Strain < shallow {
		notes = oneMore(notes, ShallowSink)
	}
	if n, ok := ThicknessNote(s.Pressed.Sink + s.Pressed.Remaining); ok {
		notes = append(notes, n)
	}
	return notes
}

// testThickness is the thickness of the sample in the IFD test.
const testThickness = 4 * unit.Inch

// ThicknessNote gives a caution when foam is not of the thickness of the test,
// 4 in: the same foam reads lower when thinner and higher when thicker, but no
// factor could be found, so none is applied. It gives false at 4 in, give or
// take 1/4 in.
func ThicknessNote(t unit.Length) (Reason, bool) {
	switch {
	case t < testThickness-unit.Inch/4:
		return Reason{Kind: ThinnerThanTest}, true
	case t > testThickness+unit.Inch/4:
		return Reason{Kind: ThickerThanTest}, true
	}
	return Reason{}, false
}

// ThicknessEffect is one row of CompareThickness.
type ThicknessEffect struct {
	Thickness unit.Length `json:"thickness"`
	Sitting   Sitting     `json:"sitting"`
}

// CompareThickness sits the same person on the same foam in several
// thicknesses. By the curve the depth is the same share of each, so a thin pad
// leaves little between the sitter and the base.
func CompareThickness(c Curve, who Sitter, thicknesses ...unit.Length) ([]ThicknessEffect, error) {
	if len(thicknesses) == 0 {
		return nil, check.Required("thicknesses", "at least one thickness")
	}
	out := make([]ThicknessEffect, len(thicknesses))
	for i, t := range thicknesses {
		s, err := Sit(Stack{{Thickness: t, Curve: c}}, who)
		if err != nil {
			return nil, unit.InField(unit.Path("thicknesses").At(i), err)
		}
		out[i] = ThicknessEffect{Thickness: t, Sitting: s}
	}
	return out, nil
}
