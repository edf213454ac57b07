package foam

import (
	"testing"

	"github.com/coverwright/coverwright/unit"
)

func BenchmarkSit(b *testing.B) {
	s := Stack{{Thickness: unit.Inch, Curve: seat}, {Thickness: 3 * unit.Inch, Curve: seat}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Sit(s, Sitter{Mass: 80 * unit.Kilogram}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSelect(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Select(Request{Use: Seat, Duty: NormalDuty, Base: Webbing, Thickness: 4 * unit.Inch, Sitter: 80 * unit.Kilogram}); err != nil {
			b.Fatal(err)
		}
	}
}
