package unit_test

import (
	"testing"

	"github.com/coverwright/coverwright/unit"
)

func BenchmarkParseLength(b *testing.B) {
	for _, text := range []string{"25 5/8 in", `2' 1 5/8"`, "652.4 mm"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := unit.ParseLength(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkParseDensity(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := unit.ParseDensity("2.8 lb/ft3"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLengthString(b *testing.B) {
	b.ReportAllocs()
	l := 25*unit.Inch + 5*unit.Inch/8
	for b.Loop() {
		_ = l.String()
	}
}

func BenchmarkLengthDecimal(b *testing.B) {
	b.ReportAllocs()
	l := 25*unit.Inch + 5*unit.Inch/8
	for b.Loop() {
		_ = l.Decimal(unit.Centimetre, 1, unit.Up)
	}
}

func BenchmarkLengthBy(b *testing.B) {
	b.ReportAllocs()
	l, w := 25*unit.Inch+5*unit.Inch/8, 24*unit.Inch
	for b.Loop() {
		if _, err := l.By(w); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAreaDeep(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := unit.SquareFoot.Deep(4 * unit.Inch); err != nil {
			b.Fatal(err)
		}
	}
}
