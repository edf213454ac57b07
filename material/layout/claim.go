package layout

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/pack/bound"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Method is the way in which a claim about a layout was made.
type Method uint8

// The methods that lay pieces, and those that prove what no layout can stay
// under. Bounds are about the true outlines.
const (
	BoxesInRows      Method = iota // boxes round the pieces, in rows
	BoxesSearched                  // boxes round the pieces, searched from many starts
	OutlinesNested                 // outlines nested, some simplified where they are too intricate
	ByArea                         // area of the pieces
	ByLongest                      // longest piece
	ByBoxes                        // pieces that are all rectangles, by the search of boxes
	ByChords                       // widths side by side, all along the roll
	ByLine                         // widths on one pattern line
	ByWeighedLine                  // widths that fit side by side on one pattern line
	ByColumns                      // places of the columns on one pattern line
	ByRows                         // rows of one pattern line
	BySequence                     // pieces one after another in the columns
	BySplit                        // equal pieces split over the columns
	ByFitArea                      // area of demanding pieces against the ground fit for them
	ByLarge                        // large pieces, of which a hide holds only so many
	ByPairs                        // pieces that cannot share a hide
	BySomethingToCut               // a hide at least
)

var methodNames = [...]string{
	"boxes in rows", "boxes round the panels", "outlines nested", "area of the pieces", "longest piece", "search of the rectangles",
	"widths of the pieces side by side", "widths on one pattern line", "widths that fit side by side on one pattern line",
	"places of the columns on one pattern line", "rows of one pattern line",
	"pieces one after another in the columns", "equal pieces split over the columns",
	"area of demanding pieces against the ground fit for them", "large pieces", "pieces that cannot share a hide", "there is something to cut",
}

// String says the method in words.
func (m Method) String() string { return enum.Name(m, "method", methodNames[:]) }

// MarshalText writes the name; an unknown method wraps unit.ErrUnknown.
func (m Method) MarshalText() ([]byte, error) { return enum.Text(m, "method", methodNames[:]) }

// UnmarshalText reads a name as String writes it.
func (m *Method) UnmarshalText(text []byte) error {
	return enum.Read(m, text, "method", methodNames[:])
}

// Lays tells whether the method lays pieces; the others prove bounds.
func (m Method) Lays() bool { return m <= OutlinesNested }

// Claim is what one method says of a job: a layout that was found, or a bound
// that no layout of the true outlines can stay under.
type Claim struct {
	Kind   cite.Kind `json:"kind"` // cite.Layout or cite.Bound
	Method Method    `json:"method"`
	// On a roll, the length; on hides, how many.
	Length unit.Length `json:"length,omitzero"`
	Hides  int         `json:"hides,omitzero"`
	// What decides: the pieces, by index, where it is some of them; on
	// patterned goods the pattern line, its height above the motifs, how many
	// such lines a layout needs, and where on the roll the last of them lies.
	Pieces []int       `json:"pieces,omitempty"`
	Phase  unit.Length `json:"phase,omitzero"`
	Lines  int         `json:"lines,omitzero"`
	Line   unit.Length `json:"line,omitzero"`
}

// methodOf names a method of package bound.
func methodOf(m bound.Method) Method {
	return map[bound.Method]Method{bound.ByArea: ByArea, bound.ByLongest: ByLongest, bound.ByChords: ByChords, bound.ByLine: ByLine,
		bound.ByWeighedLine: ByWeighedLine, bound.ByColumns: ByColumns, bound.ByRows: ByRows,
		bound.BySequence: BySequence, bound.BySplit: BySplit, bound.ByLarge: ByLarge, bound.ByPairs: ByPairs}[m]
}
