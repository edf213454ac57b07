//go:build gnuunits

package unit_test

import (
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// The conversions of this package against an independent engine with its own
// table of units: the program units (GNU Units). The test fails when the
// program is missing.

type engineRow struct {
	kind       string
	ours       string // as this package reads it
	from, into string // as the program reads it
	got        func(string) (float64, error)
}

// in converts text with a parser and gives it in a unit read by the same
// parser. Both are taken a hundred thousand times over, so that the quantum of the
// exact types stays under the digits that are compared.
func in[Q ~int64 | ~float64](parse func(string) (Q, error), into string) func(string) (float64, error) {
	return func(text string) (float64, error) {
		count, name, _ := strings.Cut(text, " ")
		q, err := parse(count + "e5 " + name)
		if err != nil {
			return 0, err
		}
		one, err := parse("1e5 " + into)
		if err != nil {
			return 0, err
		}
		return float64(q) / float64(one), nil
	}
}

func engineRows() []engineRow {
	var rows []engineRow
	pairs := func(kind string, conv func(into string) func(string) (float64, error), names ...[2]string) {
		counts := []string{"1", "25.625", "0.37"}
		n := 0
		for _, a := range names {
			for _, b := range names {
				if a == b {
					continue
				}
				c := counts[n%len(counts)]
				n++
				rows = append(rows, engineRow{kind, c + " " + a[0], c + " " + a[1], b[1], conv(b[0])})
			}
		}
	}
	pairs("length", func(s string) func(string) (float64, error) { return in(unit.ParseLength, s) },
		[2]string{"in", "inch"}, [2]string{"ft", "foot"}, [2]string{"yd", "yard"}, [2]string{"mm", "mm"}, [2]string{"cm", "cm"}, [2]string{"m", "m"}, [2]string{"mil", "mil"})
	pairs("area", func(s string) func(string) (float64, error) { return in(unit.ParseArea, s) },
		[2]string{"sq in", "inch^2"}, [2]string{"sq ft", "ft^2"}, [2]string{"sq yd", "yd^2"}, [2]string{"dm2", "dm^2"}, [2]string{"cm2", "cm^2"}, [2]string{"m2", "m^2"})
	pairs("volume", func(s string) func(string) (float64, error) { return in(unit.ParseVolume, s) },
		[2]string{"bd ft", "boardfoot"}, [2]string{"cu in", "in^3"}, [2]string{"cu ft", "ft^3"}, [2]string{"cu yd", "yd^3"}, [2]string{"l", "liter"}, [2]string{"m3", "m^3"}, [2]string{"gal", "gallon"})
	pairs("mass", func(s string) func(string) (float64, error) { return in(unit.ParseMass, s) },
		[2]string{"lb", "pound"}, [2]string{"oz", "ounce"}, [2]string{"kg", "kg"}, [2]string{"g", "gram"}, [2]string{"gr", "grain"})
	pairs("time", func(s string) func(string) (float64, error) { return in(unit.ParseDuration, s) },
		[2]string{"h", "hour"}, [2]string{"min", "minute"}, [2]string{"s", "second"})
	pairs("force", func(s string) func(string) (float64, error) { return in(unit.ParseForce, s) },
		[2]string{"lbf", "lbf"}, [2]string{"N", "newton"}, [2]string{"kgf", "kgf"}, [2]string{"cN", "centinewton"}, [2]string{"ozf", "ounce force"})
	pairs("pressure", func(s string) func(string) (float64, error) { return in(unit.ParsePressure, s) },
		[2]string{"psi", "psi"}, [2]string{"kPa", "kPa"}, [2]string{"Pa", "Pa"}, [2]string{"MPa", "MPa"}, [2]string{"psf", "lbf/ft^2"}, [2]string{"kgf/cm2", "kgf/cm^2"})
	pairs("density", func(s string) func(string) (float64, error) { return in(unit.ParseDensity, s) },
		[2]string{"lb/ft3", "lb/ft^3"}, [2]string{"kg/m3", "kg/m^3"}, [2]string{"g/cm3", "g/cm^3"}, [2]string{"lb/in3", "lb/in^3"})
	pairs("mass per area", func(s string) func(string) (float64, error) { return in(unit.ParseAreaDensity, s) },
		[2]string{"oz/yd2", "oz/yd^2"}, [2]string{"g/m2", "g/m^2"}, [2]string{"oz/ft2", "oz/ft^2"})
	pairs("yarn count", func(s string) func(string) (float64, error) { return in(unit.ParseLinearDensity, s) },
		[2]string{"tex", "tex"}, [2]string{"den", "denier"}, [2]string{"dtex", "decitex"}, [2]string{"kg/m", "kg/m"})
	pairs("angle", func(s string) func(string) (float64, error) { return in(unit.ParseAngle, s) },
		[2]string{"deg", "degree"}, [2]string{"rad", "radian"}, [2]string{"turn", "turn"})

	// Counts that shrink as the thread grows: n units of length per mass, so
	// the program is asked for the reciprocal.
	inverse := func(name, from string) {
		for _, count := range []string{"10", "36.5"} {
			rows = append(rows, engineRow{"yarn count", count + " " + name, "1/(" + count + " " + from + ")", "tex", func(text string) (float64, error) {
				d, err := unit.ParseLinearDensity(text)
				return d.Tex(), err
			}})
		}
	}
	inverse("Nm", "m/g")
	inverse("Ne", "840 yd/lb")
	inverse("yd/lb", "yd/lb")

	// Thickness of leather and soles; many of them is exact enough.
	thickness := func(count, name, from string) {
		rows = append(rows, engineRow{"thickness", count + " " + name, count + " " + from, "mm", func(text string) (float64, error) {
			c, n, _ := strings.Cut(text, " ")
			l, err := unit.ParseThickness(c + "e5 " + n)
			return l.Millimetres() / 1e5, err
		}})
	}
	thickness("3.5", "oz", "inch/64")
	thickness("9", "iron", "inch/48")
	return rows
}

func TestAgreesWithGNUUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	require.NoError(t, err, "install the Debian package units")
	rows := engineRows()
	kinds := map[string]bool{}
	for _, r := range rows {
		kinds[r.kind] = true
		out, err := exec.Command(program, "-o", "%.15g", "--terse", "-1", r.from, r.into).CombinedOutput()
		require.NoError(t, err, "%s in %s: %s", r.from, r.into, out)
		theirs, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		require.NoError(t, err, "%s in %s: %s", r.from, r.into, out)
		ours, err := r.got(r.ours)
		require.NoError(t, err, r.ours)
		// Fifteen digits are printed; the last one may be off on either side.
		if limit := 2e-14 * math.Abs(theirs); math.Abs(ours-theirs) > limit {
			t.Errorf("%s in %s: ours %.17g, theirs %.17g, allowed %.2g", r.from, r.into, ours, theirs, limit)
		}
	}
	require.GreaterOrEqual(t, len(rows), 60)
	require.Len(t, kinds, 12, fmt.Sprint(kinds))
	t.Logf("%d conversions of %d kinds", len(rows), len(kinds))
}
