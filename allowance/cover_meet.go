package allowance

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// PatternWay says how a pattern runs across a seam: [NoPattern], [AcrossOnly],
// [AlongOnly] or [BothWays]. The zero value is not at all.
type PatternWay uint8

const (
	// NoPattern leaves the two sides to themselves.
	NoPattern PatternWay = iota
	// AcrossOnly continues what repeats across the goods: stripes.
	AcrossOnly
	// AlongOnly continues what repeats along the goods: levels.
	AlongOnly
	// BothWays continues the whole pattern.
	BothWays
)

var patternNames = [...]string{"none", "across", "along", "both"}

// String gives the way in a word.
func (w PatternWay) String() string { return enum.Name(w, "way", patternNames[:]) }

// MarshalText writes the word.
func (w PatternWay) MarshalText() ([]byte, error) { return enum.Text(w, "way", patternNames[:]) }

// UnmarshalText reads what String writes.
func (w *PatternWay) UnmarshalText(text []byte) error {
	return enum.Read(w, text, "way", patternNames[:])
}

// CrossingPoint is a place on the first side at which the pattern agrees with
// what lies there on the second: [MiddlePoint], [StartPoint] or [EndPoint]. The
// zero value is the middle.
type CrossingPoint uint8

const (
	// MiddlePoint is the middle of both sides.
	MiddlePoint CrossingPoint = iota
	// StartPoint is the start of the first side and the end of the second.
	StartPoint
	// EndPoint is the end of the first side and the start of the second.
	EndPoint
)

var pointNames = [...]string{"middle", "start", "end"}

// String gives the point in a word.
func (p CrossingPoint) String() string { return enum.Name(p, "point", pointNames[:]) }

// MarshalText writes the word.
func (p CrossingPoint) MarshalText() ([]byte, error) { return enum.Text(p, "point", pointNames[:]) }

// UnmarshalText reads what String writes.
func (p *CrossingPoint) UnmarshalText(text []byte) error {
	return enum.Read(p, text, "point", pointNames[:])
}

// Crossing says how the pattern runs from one side to the other. The zero value
// asks nothing.
type Crossing struct {
	Way PatternWay `json:"way,omitzero"`
	// Point is where the two sides must agree; the middle of both when not given.
	Point CrossingPoint `json:"point,omitzero"`
	// Gap is the length of pattern that is lost to the eye between the two, up to 10 ft.
	Gap unit.Length `json:"gap,omitzero"`
	// Hidden says that the place is not seen, so that it may give way first.
	Hidden bool `json:"hidden,omitzero"`
}

// Meet says that two sides lie against each other unsewn, as a back behind a
// cushion. An edge may have any number of them beside its one seam or
// fastening.
type Meet struct {
	Sides []MeetSide `json:"sides" required:"true" hint:"two sides"`
	// Pattern says how the pattern runs on from the first to the second.
	Pattern Crossing `json:"pattern,omitzero"`
}

// MeetSide is a side, or a line at a distance inside it.
type MeetSide struct {
	Side Side        `json:"side" required:"true" hint:"an edge or several in order"`
	In   unit.Length `json:"in,omitzero"`
}
