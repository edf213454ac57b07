package bound

import (
	"cmp"
	"slices"
)

// Method is the argument that proves a bound.
type Method int

// The methods, the simplest first.
const (
	ByArea        Method = iota // area of the pieces over the width, or over the largest hides
	ByLongest                   // the longest piece, where the pattern lets it lie
	ByChords                    // chords through a dual feasible function, all along the roll
	ByLine                      // chords on one pattern line against the width
	ByWeighedLine               // chords on one pattern line through a dual feasible function
	ByColumns                   // places of the columns on one pattern line
	ByRows                      // rows of one pattern line, with the places the pattern allows
	BySequence                  // pieces that follow one another on lines along the roll
	BySplit                     // the same of equal pieces, split over the columns
	ByLarge                     // pieces so large that a hide holds only so many
	ByPairs                     // pieces no two of which lie on one hide
)

// String says the method in words for a page.
func (m Method) String() string {
	switch m {
	case ByArea:
		return "area of the pieces"
	case ByLongest:
		return "longest piece"
	case ByChords:
		return "widths of the pieces side by side"
	case ByLine:
		return "chords on one pattern line"
	case ByWeighedLine:
		return "chords that fit side by side on one pattern line"
	case ByColumns:
		return "places of the columns on one pattern line"
	case ByRows:
		return "rows of one pattern line"
	case BySequence:
		return "pieces one after another in the columns"
	case BySplit:
		return "equal pieces split over the columns"
	case ByLarge:
		return "large pieces"
	case ByPairs:
		return "pieces that cannot share a hide"
	}
	return "unknown method"
}

// Claim is a proved bound: no layout of the job is shorter than Length.
type Claim struct {
	Length int64
	Method Method
	// Piece is the index of the piece of ByLongest, otherwise -1.
	Piece int
	// Phase is the height of the pattern line above the motifs of column 0,
	// from 0 to Along; Lines is the number of such lines a layout needs, and
	// Line the height on the roll of the last of them, 0 with a free start. All
	// are 0 for methods that look at no single line. ByRows may look at further
	// lines.
	Phase int64
	Lines int64
	Line  int64
	// Weigh is the dual feasible function of ByChords and ByWeighedLine.
	Weigh Weighing
}

// byStrength sorts the best claims first, among equals the simplest method.
func byStrength(cs []Claim) {
	slices.SortStableFunc(cs, func(a, b Claim) int {
		return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(a.Method, b.Method))
	})
}
