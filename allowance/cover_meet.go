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

// Crossing says how the pattern runs from one side to the other. The zero value
// asks nothing.
type Crossing struct {
	Way PatternWay `json:"way,omitzero"`
	// Point names where the two sides must agree; empty is the middle of the
	// first side.
	Point string `json:"point,omitempty"`
	// Gap is the length of pattern that is lost to the eye between the two.
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
