package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Leftovers gives what a plan on a roll leaves of a length of goods as goods at hand,
// so that a later job can be laid out on them: clear rectangles as of RollOffcuts, the
// largest first, at least minWidth across and minLength along, or the other way round,
// both from 10 in. The length is that of the goods which the plan is cut from, such as
// those at hand; zero is that ordered.
//
// Each has the pattern where it lies on the rectangle, the selvage, flaws and increment
// off. What the cloth shrinks and what is spare for the start of the bolt count as used,
// so the rest is of goods that have shrunk. Of a margin nothing is known here: what was
// cut off to square the ends, or for a test, is taken off the length by the caller.
//
// A length that the plan does not go on wraps unit.ErrRange; other errors are those of
// RollOffcuts.
func (p Plan) Leftovers(of, minWidth, minLength unit.Length) ([]material.Stock, error) {
	if p.Job.Roll == nil {
		return nil, check.Required("roll", "a plan on a roll; that on hides lists its offcuts")
	}
	if of == 0 {
		of = p.Order
	}
	if err := check.Length("of", of, 0, check.Longest); err != nil {
		return nil, err
	}
	length, err := p.laid(of)
	if err != nil {
		return nil, err
	}
	if length -= p.Spare; length < p.Need {
		return nil, check.Refuse("of", of.String(), unit.ErrRange, fmt.Sprintf("a length that %v go on, with what shrinks and is spare", p.Need))
	}
	const least = 10 * unit.Inch // the least width of a roll
	if err := check.Length("min_width", minWidth, least, check.Longest); err != nil {
		return nil, err
	}
	if err := check.Length("min_length", minLength, least, check.Longest); err != nil {
		return nil, err
	}
	cuts, err := p.clear(length, minWidth, minLength)
	if err != nil || len(cuts) == 0 {
		return nil, err
	}
	whole := material.Stock{Roll: *p.Job.Roll, Length: length}
	whole.Roll.Shrinkage = 0
	if p.Spare > 0 { // the bolt was cut back to the motif
		m := whole.Roll.Motifs()
		m.First = p.motif(0)
		whole.Roll.First, whole.Roll.UnknownStart = m.After(0, 0), false
	}
	out := make([]material.Stock, len(cuts))
	for i, c := range cuts {
		if out[i], err = whole.Part(c.X, c.Y, c.Width, c.Length); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// LeftoverSkins gives the offcuts of a plan on hides as skins at hand, in their order:
// each a rectangle with the backbone along it. Those under half a square foot are left
// out: no skin is smaller. A rectangle that a zone reaches, or the box round one, has the
// poorer grade. Stretch is that of the skin where one region is the whole of it, else
// unknown. A plan on a roll wraps unit.ErrRequired.
func (p Plan) LeftoverSkins() ([]material.Skin, error) {
	if p.Job.Hides == nil {
		return nil, check.Required("hides", "a plan on hides; that on a roll gives goods by the length")
	}
	var out []material.Skin
	for i, c := range p.Offcuts {
		at := check.At("offcuts", i)
		if err := check.Count(at+".hide", c.Hide, 0, len(p.Hides)-1); err != nil {
			return nil, err
		}
		outline, err := shape.Rectangle(c.Width, c.Length)
		if err != nil {
			return nil, unit.InField(at, err)
		}
		from := p.Hides[c.Hide]
		rest := material.Skin{ID: from.ID, Outline: outline, Thickness: from.Thickness, Grade: from.Grade, PriceFactor: from.PriceFactor}
		for _, z := range from.Zones {
			low, high := z.Outline.Bounds()
			if low.X < c.X+c.Width && high.X > c.X && low.Y < c.Y+c.Length && high.Y > c.Y {
				rest.Grade = max(rest.Grade, z.Grade)
			}
		}
		if len(from.Stretch) == 1 && from.Stretch[0].Outline.IsZero() {
			rest.Stretch = from.Stretch[:1:1]
		}
		if outline.Area() < unit.SquareFoot/2 { // less than any skin
			continue
		}
		if err := rest.Check(); err != nil {
			return nil, unit.InField(at, err)
		}
		out = append(out, rest)
	}
	return out, nil
}
