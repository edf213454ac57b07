package thread

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Stitch is a stitch type by its standard number (ISO 4915, ASTM D6193). The
// zero value is none.
//
// Its values: Chainstitch101, Saddle209, Lockstitch301, Zigzag304,
// Chainstitch401, Overedge503, Overedge504, Safety516.
type Stitch uint16

// Stitch types of upholstery.
const (
	// Chainstitch101 is the chainstitch of one thread.
	Chainstitch101 Stitch = 101
	// Saddle209 is the running stitch sewn by hand.
	Saddle209 Stitch = 209
	// Lockstitch301 is the lockstitch: needle and bobbin thread lock once in
	// each stitch.
	Lockstitch301 Stitch = 301
	// Zigzag304 is the lockstitch sewn in zig-zag.
	Zigzag304 Stitch = 304
	// Chainstitch401 is the chainstitch of two threads, needle and looper.
	Chainstitch401 Stitch = 401
	// Overedge503 is the overedge stitch of two threads.
	Overedge503 Stitch = 503
	// Overedge504 is the overedge stitch of three threads.
	Overedge504 Stitch = 504
	// Safety516 is an overedge stitch and a row of 401 sewn together.
	Safety516 Stitch = 516
)

// StitchType is what is known of a stitch type.
type StitchType struct {
	Stitch  Stitch `json:"stitch"`
	Name    string `json:"name"`
	Needles int    `json:"needles"` // needle threads
	Under   int    `json:"under"`   // bobbin and looper threads
	Use     string `json:"use"`
	// Basis of number and name.
	Basis cite.Basis `json:"basis"`
}

var stitchTypes = [...]StitchType{
	{Chainstitch101, "chainstitch, one thread", 1, 0, "basting and bag closing; runs out from its end", armyStitches},
	{Saddle209, "saddle stitch by hand", 1, 0, "hand-sewn edges and handles", memory("")},
	{Lockstitch301, "lockstitch", 1, 1, "seams, welts and top-stitching: the stitch of upholstery", armyStitches},
	{Zigzag304, "zig-zag lockstitch", 1, 1, "elastic edges and appliqué", practice("")},
	{Chainstitch401, "chainstitch, two threads", 1, 1, "long seams and elastic goods", armyStitches},
	{Overedge503, "overedge, two threads", 1, 1, "serged edges", armyStitches},
	{Overedge504, "overedge, three threads", 1, 2, "serged edges that must not fray", armyStitches},
	{Safety516, "overedge and chainstitch together", 2, 3, "seams joined and serged in one pass", armyStitches},
}

var armyStitches = published("TM-10-8400-201", "Table 3-1")

// StitchTypes lists the stitch types of upholstery by number.
func StitchTypes() []StitchType { return slices.Clone(stitchTypes[:]) }

// Type gives what is known of a stitch type. It wraps unit.ErrUnknown.
func (s Stitch) Type() (StitchType, error) {
	for _, t := range stitchTypes {
		if t.Stitch == s {
			return t, nil
		}
	}
	return StitchType{}, s.unknown("stitch")
}

func (s Stitch) unknown(field string) error {
	return check.Refuse(field, strconv.Itoa(int(s)), unit.ErrUnknown, "a stitch type of upholstery: 101, 209, 301, 304, 401, 503, 504 or 516")
}

// String gives number and name, such as "301 lockstitch".
func (s Stitch) String() string {
	t, err := s.Type()
	if err != nil {
		return "Stitch(" + strconv.Itoa(int(s)) + ")"
	}
	return strconv.Itoa(int(s)) + " " + t.Name
}
