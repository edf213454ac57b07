package foam_test

import (
	"testing"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

func BenchmarkSit(b *testing.B) {
	s := foam.Stack{{Thickness: unit.Inch, Curve: seat}, {Thickness: 3 * unit.Inch, Curve: seat}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := foam.Sit(s, foam.Sitter{Mass: 80 * unit.Kilogram}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSelect(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Sitter: 80 * unit.Kilogram}); err != nil {
			b.Fatal(err)
		}
	}
}
