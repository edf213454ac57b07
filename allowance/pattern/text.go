package pattern

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Tally says how many to cut, and of which hand: "cut 2 and 2 mirrored of
// hide". That of the mirrored half of a pair counts that half alone.
func (p Pattern) Tally() string {
	n := max(p.Count, 1)
	text := fmt.Sprintf("cut %d", n)
	switch {
	case p.Pair && p.Mirrored:
		text = fmt.Sprintf("cut %d mirrored", n/2)
	case p.Pair:
		text = fmt.Sprintf("cut %d and %d mirrored", n-n/2, n/2)
	case p.Mirrored:
		text += " mirrored"
	}
	if p.Goods != "" {
		text += " of " + p.Goods
	}
	return text
}

// Texts is what is written on the piece, line by line: the name, how many to cut,
// the cut size of the whole, that it is a half, of a piece of a cover its hand, of a panel which side is up, and
// the notes.
func (p Pattern) Texts(u Units) []string {
	var out []string
	if p.Name != "" {
		out = append(out, p.Name)
	}
	w, l := p.size()
	size := u.Size(w, l)
	if p.folded() {
		size += " unfolded"
	}
	out = append(out, p.Tally(), size)
	if p.folded() {
		out = append(out, "half: the fold line on a fold")
	}
	switch p.Hand {
	case allowance.LeftHand:
		out = append(out, "left, as drawn")
	case allowance.RightHand:
		out = append(out, "right, mirrored")
	}
	if len(p.Edges) > 0 {
		out = append(out, "face up, grain along the arrow")
	}
	return append(out, p.Notes...)
}

// Lines of type stand 1.3 times their size apart. They are 8 mm high where there
// is room, and never too small to read: better across a line than left out.
const (
	leading     = 1.3
	largestType = 8.0 // mm
	leastType   = 2.0
)

// typeSize gives the size in mm of lines of text that fit a circle.
func typeSize(texts []string, room unit.Length) float64 {
	size := min(largestType, leading*room.Millimetres()/float64(len(texts)))
	for _, t := range texts {
		if w := svg.TextWidth(t, 1); w > 0 {
			size = min(size, 1.8*room.Millimetres()/w)
		}
	}
	return max(size, leastType)
}
