package foam

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Layer is one sheet of foam in a cushion.
type Layer struct {
	Name      string      `json:"name,omitempty"`
	Thickness unit.Length `json:"thickness"`
	Curve     Curve       `json:"curve"`
}

// Stack is a cushion of one or more layers glued face to face, the top one
// first. Every layer carries the same pressure and the deflections add:
//
//	sink = Σ tᵢ·εᵢ(p)
//
// A layer at 65 % is bottomed out: it is held there and marked, since its curve
// ends. The order of the layers does not matter to the sum. Glue lines are
// taken as nothing, and the load as wide enough to press the layers evenly.
type Stack []Layer

// mostLayers is the highest number of layers accepted.
const mostLayers = 20

// Check gives nil for 1 to 20 layers of positive thickness with valid curves
// that rise (S above 1).
func (s Stack) Check() error {
	if len(s) == 0 {
		return check.Required("layers", "at least one layer")
	}
	if err := check.Count("layers", len(s), 1, mostLayers); err != nil {
		return err
	}
	for i, l := range s {
		if err := l.check(); err != nil {
			return unit.InField(unit.Path("layers").At(i), err)
		}
	}
	return nil
}

func (l Layer) check() error {
	if err := check.Positive("thickness", l.Thickness); err != nil {
		return err
	}
	if err := l.Curve.Check(); err != nil {
		return err
	}
	if l.Curve.factor() == 1 {
		return check.Refuse("curve", l.Curve.IFD65.String(), ErrFlatCurve, "a support factor above 1")
	}
	return nil
}

// Thickness gives T = Σ tᵢ.
func (s Stack) Thickness() unit.Length {
	var t unit.Length
	for _, l := range s {
		t += l.Thickness // at most 20 km, far from overflow
	}
	return t
}

// PressedLayer is a layer under load.
type PressedLayer struct {
	Name      string      `json:"name,omitempty"`
	Strain    unit.Ratio  `json:"strain"`
	Sink      unit.Length `json:"sink"`
	Remaining unit.Length `json:"remaining"`
	Bottomed  bool        `json:"bottomed"` // at 65 %: pressed at least this far
}

// Pressed is a stack under load. When Bottomed is set, a layer is at the end of
// its curve, Sink is the least it may be, and Kind says bound.
type Pressed struct {
	Pressure  unit.Pressure  `json:"pressure"`
	Strain    unit.Ratio     `json:"strain"` // Sink / thickness
	Sink      unit.Length    `json:"sink"`
	Remaining unit.Length    `json:"remaining"`
	Bottomed  bool           `json:"bottomed"`
	Layers    []PressedLayer `json:"layers"`
	Kind      cite.Kind      `json:"kind"`
}

// Under gives the stack under an even pressure of 0 to 1 MPa. Lengths are
// rounded to a micrometre.
func (s Stack) Under(p unit.Pressure) (Pressed, error) {
	if err := s.Check(); err != nil {
		return Pressed{}, err
	}
	if err := check.Between("pressure", p, 0, unit.Megapascal); err != nil {
		return Pressed{}, err
	}
	return s.under(float64(p), nil)
}

// under puts the layers behind those of a list with room for them.
func (s Stack) under(p float64, layers []PressedLayer) (Pressed, error) {
	if layers == nil {
		layers = make([]PressedLayer, 0, len(s))
	}
	out := Pressed{Pressure: unit.Pressure(p), Kind: cite.Estimate, Layers: layers}
	f := p * Plate.SquareMetres()
	var total float64
	for _, l := range s {
		e := l.Curve.strain(f)
		total += float64(e * l.Thickness.Metres())
		sink, err := metres(float64(e * l.Thickness.Metres()))
		if err != nil {
			return Pressed{}, err
		}
		b := f >= float64(l.Curve.IFD65)
		out.Layers = append(out.Layers, PressedLayer{
			Name: l.Name, Strain: unit.Ratio(e), Sink: sink, Remaining: l.Thickness - sink, Bottomed: b,
		})
		out.Sink += sink
		if b {
			out.Bottomed, out.Kind = true, cite.Bound
		}
	}
	t := s.Thickness()
	out.Strain = unit.Ratio(total / t.Metres())
	out.Remaining = t - out.Sink
	return out, nil
}

// AtSink gives the stack pressed in by a depth of 0 to 65 % of its thickness:
// the shared pressure is found numerically, since the layers share one load
// but not one depth.
func (s Stack) AtSink(sink unit.Length) (Pressed, error) {
	if err := s.Check(); err != nil {
		return Pressed{}, err
	}
	most, err := s.Thickness().Scale(deep, unit.Down)
	if err != nil {
		return Pressed{}, err
	}
	if err := check.Length("sink", sink, 0, s.Thickness()); err != nil {
		return Pressed{}, err
	}
	if sink > most {
		return Pressed{}, check.Refuse("sink", sink.String(), ErrBeyondCurve, "at most 65 % of the thickness, "+most.String())
	}
	return s.under(s.pressureAt(sink.Metres()), nil)
}

// pressureAt solves Σ tᵢ·εᵢ(p) = sink for p by halving the interval: the sum
// rises with p and never falls, so it cannot miss.
func (s Stack) pressureAt(sink float64) float64 {
	lo, hi := 0.0, 0.0
	for _, l := range s {
		hi = max(hi, float64(l.Curve.IFD65)/Plate.SquareMetres())
	}
	for range 200 {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			break
		}
		if s.sinkUnder(mid) < sink {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

func (s Stack) sinkUnder(p float64) float64 {
	f := p * Plate.SquareMetres()
	var total float64
	for _, l := range s {
		total += float64(l.Thickness.Metres() * l.Curve.strain(f))
	}
	return total
}

// FirstBottoms gives the pressure at which the first layer reaches 65 %.
func (s Stack) FirstBottoms() (unit.Pressure, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	return s.firstBottoms()
}

func (s Stack) firstBottoms() (unit.Pressure, error) {
	least := math.Inf(1)
	for _, l := range s {
		least = min(least, float64(l.Curve.IFD65))
	}
	return unit.Force(least).Over(Plate)
}

// EquivalentIFD25 gives the IFD25 of a single foam that sinks as far as the
// stack at 25 % of the thickness, by the curves of the layers. It is an
// estimate: no test of the stack.
func (s Stack) EquivalentIFD25() (IFD25, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	return IFD25(s.pressureAt(shallow*s.Thickness().Metres()) * Plate.SquareMetres()), nil
}

// HarmonicIFD25 gives the closed form for layers that all stay on the straight
// part of their curves: T / Σ(tᵢ/IFD25ᵢ), the harmonic mean weighted by
// thickness. At 25 % of the stack a soft layer may be past its straight part;
// then EquivalentIFD25 is lower.
func (s Stack) HarmonicIFD25() (IFD25, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	var sum float64
	for _, l := range s {
		sum += l.Thickness.Metres() / float64(l.Curve.IFD25)
	}
	return IFD25(s.Thickness().Metres() / sum), nil
}

// metres gives a computed length, rounded to a micrometre; a tie goes away from
// zero. What no length can hold is an error of unit.LengthOf.
func metres(m float64) (unit.Length, error) {
	um := math.Round(m * 1e6)
	if math.Abs(um) < 1<<53 {
		return unit.Length(um) * unit.Micrometre, nil
	}
	return unit.LengthOf(m, unit.Metre)
}
