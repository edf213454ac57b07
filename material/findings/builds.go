package findings

import (
	"strings"

	"github.com/coverwright/coverwright/internal/enum"
)

// Build is how a seat or cushion is built. The zero value is none.
//
// Its values: BoardSeat, WebbedSeat, ZigzagSeat, CoilSeat, LooseCushion,
// TuftedBack, Booth, Boat.
type Build uint8

// The builds known.
const (
	BoardSeat    Build = iota + 1 // on a board
	WebbedSeat                    // on webbing
	ZigzagSeat                    // on zigzag springs
	CoilSeat                      // on coil springs
	LooseCushion                  // a cushion by itself
	TuftedBack                    // a back with deep buttons
	Booth                         // fixed public seating
	Boat                          // berths and cushions aboard
)

var buildNames = []string{"", "board seat", "webbed seat", "zigzag seat", "coil seat", "loose cushion", "tufted back", "booth", "boat"}

// String gives the name of the build, and none for the zero value.
func (b Build) String() string { return enum.Name(b, "Build", buildNames) }

// MarshalText writes the name; a build that is not known is an error.
func (b Build) MarshalText() ([]byte, error) { return enum.Text(b, "build", buildNames) }

// UnmarshalText reads what MarshalText writes.
func (b *Build) UnmarshalText(text []byte) error { return enum.Read(b, text, "build", buildNames) }

// Place is whether a finding goes into a build. The zero value is that it does
// not.
//
// Its values: Sometimes, Usual, Never.
type Place uint8

// The places known.
const (
	Sometimes Place = iota + 1
	Usual
	Never // it holds water, and rots outdoors and in boats
)

var placeNames = []string{"", "sometimes", "usual", "never"}

// String gives the name of the place, and none for the zero value.
func (p Place) String() string { return enum.Name(p, "Place", placeNames) }

// MarshalText writes the name; a place that is not known is an error.
func (p Place) MarshalText() ([]byte, error) { return enum.Text(p, "place", placeNames) }

// UnmarshalText reads what MarshalText writes.
func (p *Place) UnmarshalText(text []byte) error { return enum.Read(p, text, "place", placeNames) }

// InBuild says whether findings go into a build.
type InBuild struct {
	Findings string `json:"findings"`
	Build    Build  `json:"build"`
	Place    Place  `json:"place"`
	Note     string `json:"note,omitempty"`
}

// Builds lists which findings go into which build, those that do not left out:
// common practice, for a check of an order and not for a count.
func Builds() []InBuild {
	var out []InBuild
	for _, line := range strings.Split(strings.TrimSpace(builds), "\n") {
		name, marks, _ := strings.Cut(line, ":")
		for i, mark := range strings.Fields(marks) {
			place := Place(strings.Index(".oxnsp", mark))
			note := ""
			switch mark {
			case "s":
				place, note = Usual, "stainless"
			case "p":
				place, note = Usual, "plastic"
			}
			if place != 0 {
				out = append(out, InBuild{name, Build(i + 1), place, note})
			}
		}
	}
	return out
}

// builds has a column for each build: . no, o sometimes, x usual, n never,
// s stainless, p plastic.
const builds = `
webbing and fasteners:      . x o x . o o .
springs, clips or twine:    . . x x . . o .
burlap or spring cover:     . x x x . x o .
edge roll:                  o o x x . . . .
cotton felt:                o x x x . x o n
polyester wrap:             x x x x x x x o
decking cloth:              . . x x . . . .
staples:                    x x x x . x x s
tack strip, curve strip:    . . x x . x x .
dust cover:                 o x x x . x o n
cord, zip, sliders:         . . o o x . o p
buttons, twine:             . . o o o x o o
snaps, hook-and-loop:       . . . . o . o x
`
