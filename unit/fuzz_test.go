package unit_test

import (
	"encoding"
	"errors"
	"testing"

	"github.com/coverwright/coverwright/unit"
)

// fuzzParse holds every parser to one law: it never panics, what it refuses
// it refuses with an *InputError, and what it accepts it writes in a form
// that reads back to the same value. Seeds stand in testdata/fuzz.
func fuzzParse[Q interface {
	comparable
	encoding.TextMarshaler
}](f *testing.F, parse func(string) (Q, error)) {
	f.Helper()
	f.Fuzz(func(t *testing.T, text string) {
		q, err := parse(text)
		if err != nil {
			var in *unit.InputError
			if !errors.As(err, &in) || in.Err == nil {
				t.Fatalf("%q: error %v is no InputError", text, err)
			}
			var zero Q
			if q != zero {
				t.Fatalf("%q: value %v beside error %v", text, q, err)
			}
			return
		}
		written, err := q.MarshalText()
		if err != nil {
			t.Fatalf("%q is not written: %v", text, err)
		}
		back, err := parse(string(written))
		if err != nil || back != q {
			t.Fatalf("%q is written as %s, which reads as %v, %v", text, written, back, err)
		}
	})
}

func FuzzParseLength(f *testing.F)        { fuzzParse(f, unit.ParseLength) }
func FuzzParseThickness(f *testing.F)     { fuzzParse(f, unit.ParseThickness) }
func FuzzParseArea(f *testing.F)          { fuzzParse(f, unit.ParseArea) }
func FuzzParseVolume(f *testing.F)        { fuzzParse(f, unit.ParseVolume) }
func FuzzParseMass(f *testing.F)          { fuzzParse(f, unit.ParseMass) }
func FuzzParseDuration(f *testing.F)      { fuzzParse(f, unit.ParseDuration) }
func FuzzParseForce(f *testing.F)         { fuzzParse(f, unit.ParseForce) }
func FuzzParsePressure(f *testing.F)      { fuzzParse(f, unit.ParsePressure) }
func FuzzParseDensity(f *testing.F)       { fuzzParse(f, unit.ParseDensity) }
func FuzzParseAreaDensity(f *testing.F)   { fuzzParse(f, unit.ParseAreaDensity) }
func FuzzParseLinearDensity(f *testing.F) { fuzzParse(f, unit.ParseLinearDensity) }
func FuzzParseAngle(f *testing.F)         { fuzzParse(f, unit.ParseAngle) }
func FuzzParseRatio(f *testing.F)         { fuzzParse(f, unit.ParseRatio) }
