package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// runsOn says that the pattern of a boxed cushion runs on from the front edge of
// its upper plate over the boxing there, in every piece of it.
func (c Cushion) runsOn(p plate, b Boxing, pieces []BoxingPiece) ([]allowance.Meet, error) {
	if c.Pattern == allowance.NoPattern {
		return nil, nil
	}
	from, to := b.front()
	if to-from < nearEnd {
		return nil, check.Refuse("pattern", c.Pattern.String(), unit.ErrRange, "a cushion with a straight front")
	}
	var out []allowance.Meet
	for _, turn := range []unit.Length{-b.Perimeter, 0, b.Perimeter} {
		for _, q := range pieces {
			a, z := max(from, q.From+turn), min(to, q.To+turn)
			if z-a < nearEnd {
				continue
			}
			e := edgeOf(q.Name, "top") // from its right end
			if in := q.To + turn - z; in >= nearEnd {
				e.From = in
			}
			if a-q.From-turn >= nearEnd {
				e.To = q.To + turn - a
			}
			out = append(out, c.runsOver(p.run("top plate", a, z), e))
		}
	}
	return out, nil
}

// runsOver says that the pattern runs on from a side to an edge.
func (c Cushion) runsOver(side allowance.Side, e allowance.EdgePart) allowance.Meet {
	return allowance.Meet{Sides: []allowance.MeetSide{{Side: side}, {Side: allowance.Side{e}}}, Pattern: allowance.Crossing{Way: c.Pattern}}
}
