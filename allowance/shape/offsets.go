package shape

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// OffsetsForm is a panel by offsets from a straight edge at even steps, taken with
// a tape: left and right of a line up the panel, or on one side of it alone when
// the line is itself the other edge. The edges are those of Stations.
//
// More steps do not give a better length of the side: the error of each offset
// adds to it, by about n σ²/h for n steps of h. Take steps of 2 in or more, and
// let the curve run smooth.
//
// Drawing: allowance/doc/offsets.svg
type OffsetsForm struct {
	Step   unit.Length   `json:"step" required:"true" hint:"the length of a step along the straight edge"`
	Left   []unit.Length `json:"left,omitempty"`   // foot first; none when the left edge is the straight one
	Right  []unit.Length `json:"right,omitempty"`  // foot first; none when the right edge is the straight one
	Smooth bool          `json:"smooth,omitempty"` // curves through the measured points
	// AlongTolerance is how far a place along the edge may be off; as far as an
	// offset when not given.
	AlongTolerance *unit.Length `json:"along_tolerance,omitempty"`
}

// stations gives what the offsets are as stations, for the same way on.
func (f OffsetsForm) stations() (StationsForm, error) {
	if err := checkSize("step", f.Step); err != nil {
		return StationsForm{}, err
	}
	n := max(len(f.Left), len(f.Right))
	given := "right"
	if len(f.Right) == 0 {
		given = "left"
	}
	if err := check.Count(given, n, 2, mostPoints); err != nil {
		return StationsForm{}, err
	}
	if len(f.Left) > 0 && len(f.Right) > 0 && len(f.Left) != len(f.Right) {
		return StationsForm{}, check.Count("left", len(f.Left), len(f.Right), len(f.Right))
	}
	s := StationsForm{Smooth: f.Smooth, AlongTolerance: f.AlongTolerance, At: make([]StationForm, n)}
	for i := range s.At {
		along, err := f.Step.Times(i)
		if err != nil {
			return s, unit.InField("step", err)
		}
		s.At[i] = StationForm{Along: along, Left: new(unit.Length), Right: new(unit.Length)}
		if len(f.Left) > 0 {
			*s.At[i].Left = f.Left[i]
		}
		if len(f.Right) > 0 {
			*s.At[i].Right = f.Right[i]
		}
	}
	return s, nil
}

// inOffsets renames the fields of stations to those of offsets.
func inOffsets(err error) error {
	return moveField(err, func(p unit.Path) unit.Path {
		name, i, indexed, rest := p.Head()
		if name != "at" || !indexed {
			return p
		}
		if rest == "along" {
			return "step"
		}
		return rest.At(i)
	})
}

func (f OffsetsForm) outline() (Outline, error) {
	s, err := f.stations()
	if err != nil {
		return Outline{}, err
	}
	o, err := s.outline()
	return o, inOffsets(err)
}

func (f OffsetsForm) taping(tolerance unit.Length) (*taping, error) {
	s, err := f.stations()
	if err != nil {
		return nil, err
	}
	tp, err := s.taping(tolerance)
	if err != nil {
		return nil, inOffsets(err)
	}
	for i := range tp.measures {
		m := &tp.measures[i]
		name, k, _, rest := m.Field.Head()
		if rest == "along" {
			m.Field = unit.Path("step").At(k)
		} else if name == "at" {
			m.Field = rest.At(k)
		}
	}
	return tp, nil
}

// TrapezoidalArea gives the area over a straight edge from offsets at even steps
// h, straight from point to point:
//
//	A = h (w_0/2 + w_1 + … + w_(n-1) + w_n/2)
//
// There are 2 to 1000 offsets, of zero and more, up to 50 m.
func TrapezoidalArea(step unit.Length, offsets ...unit.Length) (unit.Area, error) {
	return areaByOffsets(step, offsets, func(i, last int) float64 {
		if i == 0 || i == last {
			return 0.5
		}
		return 1
	})
}

// SimpsonArea gives the area over a straight edge from offsets at an even number
// of even steps h, for a side that runs smooth:
//
//	A = h/3 (w_0 + 4 w_1 + 2 w_2 + 4 w_3 + … + w_n)
//
// There are 3 to 999 offsets, an odd number, of zero and more, up to 50 m.
func SimpsonArea(step unit.Length, offsets ...unit.Length) (unit.Area, error) {
	if n := len(offsets); n < 3 || n%2 == 0 {
		return 0, check.Refuse("offsets", "", unit.ErrRange, "an odd number of offsets, from 3")
	}
	return areaByOffsets(step, offsets, func(i, last int) float64 {
		switch {
		case i == 0 || i == last:
			return 1. / 3
		case i%2 == 1:
			return 4. / 3
		}
		return 2. / 3
	})
}

func areaByOffsets(step unit.Length, offsets []unit.Length, weight func(i, last int) float64) (unit.Area, error) {
	if err := firstError(checkSize("step", step), check.Count("offsets", len(offsets), 2, 1000)); err != nil {
		return 0, err
	}
	sum := 0.0
	for i, w := range offsets {
		if err := check.Length(check.At("offsets", i), w, 0, widestShape); err != nil {
			return 0, err
		}
		sum += float64(weight(i, len(offsets)-1) * float64(w))
	}
	return nano.Area(float64(step) * sum)
}
