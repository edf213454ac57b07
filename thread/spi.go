package thread

import (
	"math"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// StitchesPerInch is a stitch density. The zero value is none.
type StitchesPerInch float64

// StitchLength gives the length of one stitch,
//
//	L = 25.4 mm / SPI
//
// to the nearest nanometre. The density is from 1 to 60 per inch; it wraps
// unit.ErrRange or unit.ErrNotFinite.
func (s StitchesPerInch) StitchLength() (unit.Length, error) {
	if err := check.Between("stitches per inch", s, 1, 60); err != nil {
		return 0, err
	}
	return unit.Length(math.Round(float64(unit.Inch) / float64(s))), nil
}

// String writes the density, such as "6 per inch".
func (s StitchesPerInch) String() string {
	return strconv.FormatFloat(float64(s), 'g', -1, 64) + " per inch"
}

// StitchesPerInchOf gives the density of stitches of length l, which is from
// 0.4 mm to 1 in. It wraps unit.ErrRange or unit.ErrForgottenUnit.
func StitchesPerInchOf(l unit.Length) (StitchesPerInch, error) {
	if err := check.Length("stitch length", l, shortestStitch, longestStitch); err != nil {
		return 0, err
	}
	return StitchesPerInch(float64(unit.Inch) / float64(l)), nil
}

const (
	shortestStitch = 400 * unit.Micrometre
	longestStitch  = unit.Inch
)

// MarshalText writes the density as String does. It wraps unit.ErrNotFinite.
func (s StitchesPerInch) MarshalText() ([]byte, error) {
	if math.IsNaN(float64(s)) || math.IsInf(float64(s), 0) {
		return nil, check.Refuse("stitches per inch", floatText(float64(s)), unit.ErrNotFinite, "a finite density")
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads a density such as "6 per inch". It wraps
// unit.ErrMissingUnit or unit.ErrSyntax.
func (s *StitchesPerInch) UnmarshalText(text []byte) error {
	x, err := parseUnit("stitches per inch", string(text), " per inch")
	if err == nil {
		*s = StitchesPerInch(x)
	}
	return err
}
