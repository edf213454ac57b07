package thread

import (
	"math"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Stitch is a stitch type by its standard number (ISO 4915, ASTM D6193). The
// zero value is none.
type Stitch uint16

// Stitch types of upholstery.
const (
	// Chainstitch101 is the chainstitch of one thread.
	Chainstitch101 Stitch = 101
	// Lockstitch301 is the lockstitch: needle and bobbin thread lock once in
	// each stitch.
	Lockstitch301 Stitch = 301
	// Chainstitch401 is the chainstitch of two threads, needle and looper.
	Chainstitch401 Stitch = 401
	// Overedge504 is the overedge stitch of three threads.
	Overedge504 Stitch = 504
)

var stitchNames = map[Stitch]string{
	Chainstitch101: "101 chainstitch, one thread",
	Lockstitch301:  "301 lockstitch",
	Chainstitch401: "401 chainstitch, two threads",
	Overedge504:    "504 overedge, three threads",
}

// String gives number and name, such as "301 lockstitch".
func (s Stitch) String() string {
	if n, ok := stitchNames[s]; ok {
		return n
	}
	return "Stitch(" + strconv.Itoa(int(s)) + ")"
}

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
