package layout

import (
	"cmp"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// rows lays the boxes in rows across the roll, the way a cutter plans on
// paper: longest pieces first, each in the first row that has room for it. On
// goods with a vertical repeat every row starts on the repeat, so that all
// pieces match; pieces that need not match go into the gaps that leaves. A
// piece that may be railroaded is turned when only that fits across, or when
// it makes its row shorter.
//
// It is quick and never good. It takes no horizontal repeat, motif points,
// flaws, shade groups, joins or gaps; ok is false then.
func (t *boxTable) rows(motifs []shape.Point) (out boxed, ok bool) {
	roll := *t.job.Roll
	if roll.Across != 0 || len(roll.Flaws) > 0 || t.job.Gap != 0 || len(t.job.Shades) > 0 {
		return boxed{}, false
	}
	for i, b := range t.boxes {
		if b.join != nil || b.bindY && !b.startsOn(motifs[b.common].Y, roll.Repeat) {
			return boxed{}, false
		}
		it := placed{box: i, width: b.width, length: b.length, segments: 1}
		if b.turn.quarter(roll) && b.length <= roll.Usable() && (b.width > roll.Usable() || b.width < b.length) {
			it.width, it.length, it.degrees = b.length, b.width, 90
		}
		for it.copy = range b.count {
			out.placed = append(out.placed, it)
		}
	}
	free := func(p placed) int {
		if roll.Repeat > 0 && !t.boxes[p.box].bindY {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(out.placed, func(a, b placed) int {
		return cmp.Or(
			// What must match comes first; the rest fills the gaps it leaves.
			cmp.Compare(free(a), free(b)), cmp.Compare(b.length, a.length), cmp.Compare(b.width, a.width))
	})
	var s shelves
	for k := range out.placed {
		if err := s.place(roll, &out.placed[k], !t.boxes[out.placed[k].box].bindY); err != nil {
			return boxed{}, false
		}
	}
	out.need, out.method = s.end, BoxesInRows
	return out, true
}

// startsOn tells whether a box may start at whole repeats from the end of the
// roll.
func (b box) startsOn(motif, repeat unit.Length) bool {
	return slices.ContainsFunc(b.spots, func(s Spot) bool { return s.holds(0) && (s.Point.Y-motif)%repeat == 0 })
}

// shelves are rows across the roll, one after the other.
type shelves struct {
	rows []shelf
	end  unit.Length // of the last row
}

type shelf struct {
	y, length, used unit.Length
	gap             bool // between the end of a row and the next repeat
}

// place puts a box into the first row that has room for it, or into a new
// one at the end.
func (s *shelves) place(roll material.Roll, it *placed, anywhere bool) error {
	k := slices.IndexFunc(s.rows, func(r shelf) bool {
		return r.used+it.width <= roll.Usable() && it.length <= r.length && (anywhere || !r.gap)
	})
	if k < 0 {
		start := s.end
		if !anywhere {
			next, err := material.RepeatLength(s.end, roll.Repeat)
			if err != nil {
				return err
			}
			if next > s.end {
				s.rows = append(s.rows, shelf{y: s.end, length: next - s.end, gap: true})
			}
			start = next
		}
		end, err := start.Plus(it.length)
		if err != nil {
			return err
		}
		k = len(s.rows)
		s.rows = append(s.rows, shelf{y: start, length: it.length, gap: anywhere})
		s.end = end
	}
	it.x, it.y = s.rows[k].used, s.rows[k].y
	s.rows[k].used += it.width
	return nil
}
