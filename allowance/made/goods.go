package made

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Goods is what a made-up part must know of the goods it is cut from.
type Goods struct {
	ID string `json:"id"`
	// Across and Along are the longest strips they allow, across the roll and
	// along it; zero means no limit. Strips lie along the goods where they are
	// not directed and no other way would do.
	Across   unit.Length `json:"across,omitzero"`
	Along    unit.Length `json:"along,omitzero"`
	Directed bool        `json:"directed,omitempty"` // by nap or pattern
	// Repeat is the distance across from motif to motif: a strip that must match can
	// be moved by as much. Zero for goods without.
	Repeat unit.Length `json:"repeat,omitzero"`
	// Thickness is that of one layer, for welt; from zero to 20 mm.
	Thickness unit.Length `json:"thickness,omitzero"`
}

// reach gives the longest finished piece between two seams of s.
func reach(longest, s unit.Length) unit.Length {
	if longest == 0 {
		return noLimit
	}
	return longest - 2*s
}

// noLimit is longer than any strip.
const noLimit = unit.Length(1) << 60

// onTape rounds a length to what is measured: 1/16 in where the others are in
// inches, else 1 mm.
func onTape(l unit.Length, r unit.Rounding, beside ...unit.Length) unit.Length {
	step := unit.Inch / 16
	for _, b := range beside {
		if b%(unit.Inch/64) != 0 {
			step = unit.Millimetre
		}
	}
	out, err := l.RoundTo(step, r)
	if err != nil {
		return l
	}
	return out
}

// inRange holds a length to a range whose limits are worded as the length is, in
// inches or in millimetres.
func inRange[F ~string](field F, l, least, most unit.Length) error {
	return check.Length(field, l, onTape(least, unit.Up, l), onTape(most, unit.Down, l))
}
