package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// WorkingMargin is what is bought of goods on a roll beyond what a layout needs. The
// zero value is no margin: the layout to the inch.
type WorkingMargin struct {
	// Squaring is cut off each end to have it square; loose or bowed goods take
	// more. From zero to 1 m.
	Squaring unit.Length `json:"squaring,omitzero"`
	// Test is cut off to try stitch, glue and cleaning on; from zero to 10 m.
	Test unit.Length `json:"test,omitzero"`
	// FlawEvery is the full length in which one flaw is reckoned with, from 1 m to 1 km;
	// none when not given.
	FlawEvery unit.Length `json:"flaw_every,omitzero"`
	// FlawLength is what a flaw costs, from zero to 10 m; in a bad place one may cost a
	// whole panel.
	FlawLength unit.Length `json:"flaw_length,omitzero"`
	// Treatment is the share that a finisher loses, from zero to 50 %.
	Treatment unit.Ratio `json:"treatment,omitzero"`
	// LeastTreatment is what a finisher loses at least; from zero to 10 m.
	LeastTreatment unit.Length `json:"least_treatment,omitzero"`
}

// MarginFigures are the margins that are in use.
type MarginFigures struct {
	Least WorkingMargin `json:"least"`
	Usual WorkingMargin `json:"usual"`
	Most  WorkingMargin `json:"most"`
	Basis cite.Basis    `json:"basis"`
}

// UsualMargins gives the margins in use, common practice all: 2 in at each end (1 to
// 4), no test piece, but 6 in of goods never used before (up to 12), and one flaw of an
// eighth of a yard in 20 yd (10 to 40), which is what sellers credit for a short one.
// Goods that go to a finisher lose 3 to 5 % there and at least 18 in, 36 in where they
// are backed. Hides that are traced with their flaws have no margin.
func UsualMargins() MarginFigures {
	with := func(squaring, test unit.Length, flaw unit.Length, treatment unit.Ratio, least unit.Length) WorkingMargin {
		return WorkingMargin{Squaring: squaring, Test: test, FlawEvery: flaw, FlawLength: unit.Yard / 8, Treatment: treatment, LeastTreatment: least}
	}
	return MarginFigures{
		Least: with(unit.Inch, 0, 40*unit.Yard, 0, 0),
		Usual: with(2*unit.Inch, 0, 20*unit.Yard, 0, 0),
		Most:  with(4*unit.Inch, 12*unit.Inch, 10*unit.Yard, 0.05, unit.Yard),
		Basis: cite.Practice(""),
	}
}

// MarginParts are a margin of a length of goods, part by part.
type MarginParts struct {
	Squaring  unit.Length `json:"squaring"` // of both ends
	Test      unit.Length `json:"test"`
	Flaws     unit.Length `json:"flaws"`
	Treatment unit.Length `json:"treatment"`
	Total     unit.Length `json:"total"`
}

// Of gives the margin M of a length N that a layout needs:
//
//	M = 2 q + t + f floor(N / F) + max(c N, c0)
//
// with q Squaring, t Test, f FlawLength, F FlawEvery, c Treatment and c0
// LeastTreatment; c N is rounded up to a whole nanometre. Where nothing is needed
// nothing is added. N is from zero to 1 km; errors name the field and wrap
// unit.ErrRange, unit.ErrNotFinite or unit.ErrForgottenUnit.
func (m WorkingMargin) Of(need unit.Length) (MarginParts, error) {
	if err := m.Check(); err != nil {
		return MarginParts{}, err
	}
	if err := check.NotNegative("need", need); err != nil || need == 0 {
		return MarginParts{}, err
	}
	p := MarginParts{Squaring: 2 * m.Squaring, Test: m.Test}
	if m.FlawEvery > 0 {
		p.Flaws = need / m.FlawEvery * m.FlawLength // at most 1000 flaws of 10 m
	}
	lost, err := need.Scale(m.Treatment, unit.Up)
	if err != nil {
		return MarginParts{}, err
	}
	p.Treatment = max(lost, m.LeastTreatment)
	p.Total = p.Squaring + p.Test + p.Flaws + p.Treatment
	return p, nil
}

// Check gives nil for a margin that Of accepts, else an error that names the field.
func (m WorkingMargin) Check() error {
	const long = 10 * unit.Metre
	for _, f := range []struct {
		name string
		l    unit.Length
		hi   unit.Length
	}{
		{"squaring", m.Squaring, unit.Metre}, {"test", m.Test, long}, {"flaw_length", m.FlawLength, long}, {"least_treatment", m.LeastTreatment, long},
	} {
		if err := check.Length(f.name, f.l, 0, f.hi); err != nil {
			return err
		}
	}
	if m.FlawEvery != 0 {
		if err := check.Length("flaw_every", m.FlawEvery, unit.Metre, check.Longest); err != nil {
			return err
		}
	}
	return check.Ratio("treatment", m.Treatment, 0, 0.5)
}

// Ordered is the way from what a layout needs to what is ordered, step by step.
type Ordered struct {
	Need   unit.Length `json:"need"`           // of the layout
	Spare  unit.Length `json:"spare,omitzero"` // to cut the bolt back to the motif
	Margin MarginParts `json:"margin"`
	Gross  unit.Length `json:"gross"` // all three, longer by what the goods shrink
	Order  unit.Length `json:"order"` // rounded up to the increment of the roll
}

// OrderWith gives the length to buy with a margin:
//
//	gross = (N + M + R) / (1 - s),   order = gross rounded up to the increment, once
//
// with N the need of a layout, M the margin of it, R what is spare for the start of the
// bolt and s the shrinkage of the roll. Errors are those of WorkingMargin.Of, and of
// Roll.Order.
//
// Drawing: material/doc/order.svg
func (r Roll) OrderWith(need, spare unit.Length, m WorkingMargin) (Ordered, error) {
	o, err := r.gross(need, spare, m)
	if err != nil {
		return Ordered{}, err
	}
	o.Order, err = r.Order(o.Need + o.Spare + o.Margin.Total)
	return o, err
}

// gross gives an order before it is rounded.
func (r Roll) gross(need, spare unit.Length, m WorkingMargin) (Ordered, error) {
	if err := check.NotNegative("spare", spare); err != nil {
		return Ordered{}, err
	}
	parts, err := m.Of(need)
	if err != nil {
		return Ordered{}, err
	}
	o := Ordered{Need: need, Spare: spare, Margin: parts}
	o.Gross, err = GrossLength(need+spare+parts.Total, r.Shrinkage)
	return o, err
}
