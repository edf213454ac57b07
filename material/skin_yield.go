package material

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PieceSize is the size of most of the panels of a job, which decides how much
// of a skin can be used: [MixedPieces], [SmallPieces], [LargePieces] or
// [SeamlessPieces]. The zero value is mixed pieces.
type PieceSize uint8

const (
	// MixedPieces are the usual mix of furniture: none of the others.
	MixedPieces PieceSize = iota
	// SmallPieces are small articles and strips, under 12 in.
	SmallPieces
	// LargePieces are seat cushions and seamless backs of 30 in and more.
	LargePieces
	// SeamlessPieces are single faces of 60 in and more.
	SeamlessPieces
)

var pieceSizeNames = []string{"mixed pieces", "small pieces", "large pieces", "seamless faces"}

// String gives the name.
func (s PieceSize) String() string { return enum.Name(s, "piece size", pieceSizeNames) }

// MarshalText writes the name; an unknown size wraps unit.ErrUnknown.
func (s PieceSize) MarshalText() ([]byte, error) { return enum.Text(s, "piece size", pieceSizeNames) }

// UnmarshalText reads a name as String writes it.
func (s *PieceSize) UnmarshalText(text []byte) error {
	return enum.Read(s, text, "piece size", pieceSizeNames)
}

// YieldRange is the share of skins that ends in the work, as one source puts
// it.
type YieldRange struct {
	Size  PieceSize  `json:"size"`
	Kind  SkinKind   `json:"kind,omitzero"` // the kind it was stated for; zero for any
	From  unit.Ratio `json:"from"`
	To    unit.Ratio `json:"to"` // as From where one figure is given
	Basis cite.Basis `json:"basis"`
}

var yieldRanges = []YieldRange{
	{MixedPieces, MeasuredSkin, 0.55, 0.70, cite.Practice("furniture and vehicles: 30 to 45 % waste")},
	{MixedPieces, WholeHide, 0.67, 0.67, cite.Practice("about a third of a whole hide is lost")},
	{MixedPieces, MeasuredSkin, 0.70, 0.70, cite.Practice("factory at its best: small mixed pieces, many seams")},
	{MixedPieces, MeasuredSkin, 0.75, 0.75, cite.Practice("rule of thumb behind 18 sq ft for a yard")},
	{SmallPieces, MeasuredSkin, 0.80, 0.80, cite.Practice("small articles: about 20 % waste")},
	{LargePieces, WholeHide, 0.50, 0.50, cite.Practice("seat cushions of 30 to 40 in and seamless backs: half is lost")},
	{SeamlessPieces, WholeHide, 0.20, 0.50, cite.Practice("large single faces: up to 80 % waste")},
}

// Yields gives the figures in use for a size of pieces, one for each statement,
// the one to reckon with first; sources disagree. No figure by defect grade or
// for parts of a hide was found.
func Yields(s PieceSize) []YieldRange {
	var out []YieldRange
	for _, y := range yieldRanges {
		if y.Size == s {
			out = append(out, y)
		}
	}
	return out
}
