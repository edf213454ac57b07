package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	zipEnds = one("zip chain", "beyond each end of an opening", unit.Inch, cite.Practice(""))
	zipLong = one("zip chain", "opening to which one slider serves", 48*unit.Inch, cite.Practice("about; two above, meeting in the middle"))
	// The number of a chain is about its closed width in millimetres.
	zipLengths = []Figure[unit.Length]{
		zipEnds, zipLong,
		{"zip chain", "width closed, indoors", 0, 9 * unit.Millimetre / 2, 5 * unit.Millimetre, cite.Practice("numbers 4 1/2 and 5")},
		{"zip chain", "width closed, boats", 0, 5 * unit.Millimetre, 10 * unit.Millimetre, cite.Practice("numbers 5 to 10; no metal")},
	}
)

// Zips are zips cut from a chain by length. The zero value is refused.
type Zips struct {
	Openings []unit.Length `json:"openings"` // finished length of each, to 1 km
	// Ends is the chain beyond each end of an opening, to 500 mm; zero takes
	// 1 in.
	Ends unit.Length `json:"ends,omitzero"`
	// Sliders on each zip, to 4; zero takes 1, and 2 on openings above 48 in.
	Sliders int `json:"sliders,omitzero"`
}

// ZipOrder is the chain, the sliders and the stops.
type ZipOrder struct {
	Chain   Steps[unit.Length] `json:"chain"`
	Sliders int                `json:"sliders"`
	Stops   int                `json:"stops"` // or ends sewn over
	Basis   cite.Basis         `json:"basis"`
}

// Order gives chain, sliders and stops, the chain bought by b:
//
//	chain = sum of (opening + 2 × ends)
//	stops = 2 a zip
//
// Errors are those of [Buying.Steps], and of fields openings, ends and sliders,
// and may wrap unit.ErrRequired.
func (z Zips) Order(b Buying[unit.Length]) (ZipOrder, error) {
	if err := each("openings", z.Openings, unit.Millimetre, check.Longest); err != nil {
		return ZipOrder{}, err
	}
	var on founded
	z.Ends = or(&on, z.Ends, zipEnds)
	if err := check.Length("ends", z.Ends, unit.Millimetre, 500*unit.Millimetre); err != nil {
		return ZipOrder{}, err
	}
	if err := check.Count("sliders", z.Sliders, 0, 4); err != nil {
		return ZipOrder{}, err
	}
	chain, err := Running{z.Openings, 2 * z.Ends}.Order(b)
	if err != nil {
		return ZipOrder{}, err
	}
	o := ZipOrder{Chain: chain, Stops: 2 * len(z.Openings), Basis: on.by("an inch of chain beyond each end", zipLong.Basis)}
	for _, l := range z.Openings {
		switch {
		case z.Sliders > 0:
			o.Sliders += z.Sliders
		case l > zipLong.Usual:
			o.Sliders += 2
		default:
			o.Sliders++
		}
	}
	return o, nil
}
