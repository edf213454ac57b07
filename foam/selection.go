package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Request says what foam is wanted for.
type Request struct {
	Use       Use         `json:"use"`
	Duty      Duty        `json:"duty"`
	Thickness unit.Length `json:"thickness"` // of the foam, 1/2 in to 12 in
	Base      Base        `json:"base"`
	// Sitter is the mass of the heaviest usual occupant, 10 to 250 kg; zero
	// when it is not known. It counts for the uses that carry one, [Use.Carries].
	Sitter unit.Mass `json:"sitter,omitzero"`
	// Wet says that rain or spray reaches the foam, outdoors or on a boat: foam
	// that drains is then usual, and ordinary foam of the stock does not fit.
	Wet bool `json:"wet,omitempty"`
	// Wanted is the firmness wanted, say that of the old foam; zero asks for
	// what is usual.
	Wanted Wanted `json:"wanted,omitzero"`
	// Stock lists the grades to rank; when empty, [ExampleGrades].
	Stock []Grade `json:"stock,omitempty"`
}

// Check gives nil for a request Select can answer, else an error that names
// the field.
func (r Request) Check() error {
	if err := given("use", r.Use, useNames); err != nil {
		return err
	}
	if err := given("duty", r.Duty, dutyNames); err != nil {
		return err
	}
	if err := given("base", r.Base, baseNames); err != nil {
		return err
	}
	if err := check.Length("thickness", r.Thickness, inch/2, 12*inch); err != nil {
		return err
	}
	if r.Sitter != 0 {
		if err := check.Between("sitter", r.Sitter, 10*unit.Kilogram, 250*unit.Kilogram); err != nil {
			return err
		}
	}
	if r.Wanted != (Wanted{}) {
		if _, err := r.Wanted.accepted(); err != nil {
			return unit.InField("wanted", err)
		}
	}
	for i := range r.Stock {
		if err := r.Stock[i].Check(); err != nil {
			return unit.InField(unit.Path("stock").At(i), err)
		}
	}
	return nil
}

// Selection is what Select recommends and why.
type Selection struct {
	Request Request `json:"request"`
	// IFD is the span of every figure that speaks of this case.
	IFD Range[IFD25] `json:"ifd"`
	// Shared is what all those figures have in common; nil when nothing.
	Shared *Range[IFD25] `json:"shared,omitempty"`
	// Target is the firmness to ask for, Accepted what passes for it: IFD, or
	// the range of the firmness wanted. Delivered is what an order of Target
	// may turn out to be.
	Target    IFD25         `json:"target"`
	Accepted  Figure[IFD25] `json:"accepted"`
	Delivered Figure[IFD25] `json:"delivered"`
	// Density is the range to ask for.
	Density      Range[unit.Density] `json:"density"`
	DensityBasis cite.Basis          `json:"density_basis"`
	// Support is the range of support factors called good.
	Support Range[unit.Ratio] `json:"support"`
	// Figures of every source that speaks of this case.
	IFDFigures     []Figure[IFD25]        `json:"ifd_figures"`
	DensityFigures []Figure[unit.Density] `json:"density_figures"`
	// Grades holds the stock, best first.
	Grades []Ranked `json:"grades"`
	// Class is the service class that suits the use and duty.
	Class ServiceClass `json:"class"`
	// Sitting is what the target firmness does under the sitter, with the
	// cautious support factor; nil without a sitter or when not sat on.
	Sitting *Sitting `json:"sitting,omitempty"`
	// Reasons says how the recommendation came about, Disagreements where the
	// sources differ. What can hurt someone is in package caution.
	Reasons       []Reason  `json:"reasons"`
	Disagreements []Reason  `json:"disagreements"`
	Kind          cite.Kind `json:"kind"`
}

// Ranked is a grade with its verdict.
type Ranked struct {
	Grade   Grade    `json:"grade"`
	Fits    bool     `json:"fits"` // firmness accepted, not too light, draining where wet, and no bottoming out
	Reasons []Reason `json:"reasons"`
	// Sitting is nil without a sitter or when the foam is not sat on.
	Sitting *Sitting `json:"sitting,omitempty"`
}

// Select recommends firmness and density for a use, with the figures of every
// source, the reason, and the stock ranked. With a firmness wanted it answers
// which grade of the stock comes nearest to it. It is a rule of thumb, not a
// calculation: a trial sit decides. Errors name the field of the request.
func Select(r Request) (Selection, error) {
	if err := r.Check(); err != nil {
		return Selection{}, err
	}
	s := Selection{Request: r, Support: supportRange, Kind: cite.RuleOfThumb,
		Reasons: make([]Reason, 0, mostReasons), Disagreements: []Reason{}}
	s.figures()
	s.firmness()
	var err error
	if err = s.want(); err != nil {
		return Selection{}, err
	}
	s.weight()
	s.base()
	s.wet()
	if s.Delivered, err = IFDTolerance(s.Target); err != nil {
		return Selection{}, err
	}
	if s.Class, err = ServiceClassFor(r.Use, r.Duty); err != nil {
		return Selection{}, err
	}
	if err = s.rank(); err != nil {
		return Selection{}, err
	}
	return s, nil
}

// mostReasons is room for the reasons of any selection.
const mostReasons = 8

func (s *Selection) because(r Reason) { s.Reasons = append(s.Reasons, r) }

// Layer gives a sheet of what the selection asks for, for a [Stack]: by its
// firmness alone, with the cautious support factor, as its own Sitting has it.
func (s Selection) Layer(name string, thickness unit.Length) Layer {
	g := Grade{Density: s.Density.Low, IFD25: s.Target}
	return Layer{Name: name, Thickness: thickness, Curve: g.curve()}
}
