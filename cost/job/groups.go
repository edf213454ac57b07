package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// forPiece says that a line is for one piece of furniture; without a name it is
// for the job as a whole.
func forPiece(piece string) []cost.Share {
	if piece == "" {
		return nil
	}
	return []cost.Share{{Group: piece, Weight: 1}}
}

// sharing adds up how much of a line is for which piece of furniture. Its shares
// are those of the line, in the order in which the pieces were named.
type sharing []cost.Share

// add notes so much of the line for a piece of furniture: an exact quantity such
// as an area, of one kind for the whole line. What is for no piece, or nothing,
// counts for none.
func (s *sharing) add(piece string, weight int64) {
	if piece == "" || weight <= 0 {
		return
	}
	for i := range *s {
		if (*s)[i].Group == piece {
			(*s)[i].Weight += weight
			return
		}
	}
	*s = append(*s, cost.Share{Group: piece, Weight: weight})
}

// shares gives whom the goods are for, by the net area of the cuts.
func (w want) shares() []cost.Share {
	var s sharing
	for _, p := range w.pieces {
		s.add(p.Piece, int64(p.Area))
	}
	return s
}

// shares gives whom sheets are for, by the boxes that are cut from them.
func (o FoamSheets) shares(blocks []FoamBlock) []cost.Share {
	var s sharing
	for _, i := range o.Blocks {
		s.add(blocks[i].Piece, int64(blocks[i].Volume))
	}
	return s
}

// groups gives the pieces of furniture of the job as groups of its quote. Pieces
// of one name are one group.
func (s Spec) groups() []cost.GroupCount {
	var out []cost.GroupCount
	at := map[string]int{}
	for _, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		i, known := at[p.Name]
		if !known && p.Name != "" {
			i = len(out)
			at[p.Name] = i
			out = append(out, cost.GroupCount{Name: p.Name})
		}
		if p.Name != "" {
			out[i].Items += copies(p.Count)
		}
	}
	return out
}

// checkPiece accepts the name of a piece of furniture of the job, or none.
func (s Spec) checkPiece(name string) error {
	if name == "" || slices.ContainsFunc(s.Pieces, func(p Furniture) bool { return p.Name == name }) {
		return nil
	}
	return check.Refuse("", name, unit.ErrUnknown, "the name of a piece of furniture")
}
