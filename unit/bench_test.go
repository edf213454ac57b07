package unit_test

import (
	"testing"

	"github.com/coverwright/coverwright/unit"
)

// smallOp is something a calculator does thousands of times, and the
// allocations it may cost.
type smallOp struct {
	name string
	most int
	do   func() error
}

// written keeps a text from being optimised away.
var written string

func text(s string) error { written = s; return nil }

var marshalled []byte

func bytes(b []byte, err error) error { marshalled = b; return err }

func only[Q any](_ Q, err error) error { return err }

// smallOps is the table of what the small arithmetic costs.
func smallOps() []smallOp {
	l, w := 25*unit.Inch+5*unit.Inch/8, 24*unit.Inch
	metric := 652*unit.Millimetre + 400*unit.Micrometre
	a, v, m, d := 48*unit.SquareFoot, 16*unit.BoardFoot, 250*unit.Gram, 90*unit.Minute
	rho, thread, force := 2.8*unit.PoundPerCubicFoot, 90*unit.Tex, 33*unit.PoundForce
	buf := make([]byte, 0, 64)
	var read unit.Length
	return []smallOp{
		{"Length.Plus", 0, func() error { return only(l.Plus(w)) }},
		{"Length.Times", 0, func() error { return only(l.Times(7)) }},
		{"Length.Scale", 0, func() error { return only(l.Scale(1.1, unit.Up)) }},
		{"Length.Scale by a third", 0, func() error { return only(l.Scale(1.0/3, unit.Nearest)) }},
		{"Length.MulDiv", 0, func() error { return only(l.MulDiv(2, 3, unit.Down)) }},
		{"Length.By", 0, func() error { return only(l.By(w)) }},
		{"Length.Per", 0, func() error { return only(l.Per(w)) }},
		{"Length.Fits", 0, func() error { _, _, err := l.Fits(w); return err }},
		{"Length.RoundTo", 0, func() error { return only(l.RoundTo(unit.Inch/8, unit.Up)) }},
		{"LengthOf", 0, func() error { return only(unit.LengthOf(25.625, unit.Inch)) }},
		{"IronsOf", 0, func() error { return only(unit.IronsOf(9)) }},
		{"SumLengths", 0, func() error { return only(unit.SumLengths(l, w, metric)) }},
		{"Area.Over", 0, func() error { return only(a.Over(w, unit.Up)) }},
		{"Area.Deep", 0, func() error { return only(a.Deep(4 * unit.Inch)) }},
		{"Area.Scale", 0, func() error { return only(a.Scale(1.43, unit.Up)) }},
		{"Volume.MulDiv", 0, func() error { return only(v.MulDiv(1, 3, unit.Nearest)) }},
		{"Mass.Over", 0, func() error { return only(m.Over(v)) }},
		{"Mass.RoundTo", 0, func() error { return only(m.RoundTo(unit.Gram, unit.Nearest)) }},
		{"Duration.Scale", 0, func() error { return only(d.Scale(1.25, unit.Nearest)) }},
		{"Density.Mass", 0, func() error { return only(rho.Mass(v)) }},
		{"LinearDensity.Mass", 0, func() error { return only(thread.Mass(l)) }},
		{"LinearDensity.Length", 0, func() error { return only(thread.Length(m)) }},
		{"Force.Over", 0, func() error { return only(force.Over(unit.SquareInch)) }},

		{"ParseLength 25 5/8 in", 0, func() error { return only(unit.ParseLength("25 5/8 in")) }},
		{"ParseLength feet and inches", 0, func() error { return only(unit.ParseLength(`2' 1 5/8"`)) }},
		{"ParseLength 652.4 mm", 0, func() error { return only(unit.ParseLength("652.4 mm")) }},
		{"ParseLength 25 5/8 IN", 1, func() error { return only(unit.ParseLength("25 5/8 IN")) }},
		{"ParseLength 25⅝″", 3, func() error { return only(unit.ParseLength("25⅝″")) }},
		{"Length.UnmarshalText", 1, func() error { return read.UnmarshalText([]byte("25 5/8 in")) }},
		{"ParseArea", 0, func() error { return only(unit.ParseArea("48 sq ft")) }},
		{"ParseDensity", 0, func() error { return only(unit.ParseDensity("2.8 lb/ft3")) }},
		{"ParseRatio", 0, func() error { return only(unit.ParseRatio("12.5 %")) }},
		{"ParseLinearDensity", 1, func() error { return only(unit.ParseLinearDensity("Nm 40/2")) }},

		{"Length.String", 1, func() error { return text(l.String()) }},
		{"Length.String metric", 1, func() error { return text(metric.String()) }},
		{"Length.Mixed", 1, func() error { return text(l.Mixed(unit.Yard, unit.Eighths, unit.Up)) }},
		{"Length.FeetInches", 1, func() error { return text(l.FeetInches(unit.Eighths, unit.Nearest)) }},
		{"Length.Decimal", 1, func() error { return text(l.Decimal(unit.Centimetre, 1, unit.Up)) }},
		{"Length.AppendDecimal", 0, func() error { return only(l.AppendDecimal(buf, unit.Centimetre, 1, unit.Up), nil) }},
		{"Area.AppendDecimal", 0, func() error { return only(a.AppendDecimal(buf, unit.SquareFoot, 2, unit.Nearest), nil) }},
		{"Length.MarshalText", 1, func() error { return bytes(l.MarshalText()) }},
		{"Length.AppendText", 0, func() error { return only(l.AppendText(buf)) }},
		{"Area.String", 1, func() error { return text(a.String()) }},
		{"Mass.String", 1, func() error { return text(m.String()) }},
		{"Duration.String", 1, func() error { return text(d.String()) }},
		{"Force.String", 1, func() error { return text(force.String()) }},
		{"Force.Decimal", 1, func() error { return text(force.Decimal(unit.PoundForce, 1, unit.Nearest)) }},
		{"Force.AppendText", 0, func() error { return only(force.AppendText(buf)) }},
		{"Ratio.String", 1, func() error { return text(unit.Ratio(0.125).String()) }},
		{"Ratio.PercentText", 1, func() error { return text(unit.Ratio(1.0/3).PercentText(1, unit.Nearest)) }},
	}
}

func BenchmarkSmall(b *testing.B) {
	for _, op := range smallOps() {
		b.Run(op.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := op.do(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
