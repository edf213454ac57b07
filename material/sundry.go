package material

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Sundries are what goes with the cover. Their rules are custom of the shop;
// every default is common practice and can be replaced.

// practice is the basis of every default of this file and its neighbours.
// mostRuns bounds the runs of one calculation.
const mostRuns = 10_000

// Running is a sundry that is used by length: welt cord, tack strip, card
// strip, gimp, braid. The zero value is refused.
type Running struct {
	Runs []unit.Length `json:"runs"` // each run in place; at least one
	// Ends is added to each run for finishing; zero for butted strips.
	Ends unit.Length `json:"ends,omitzero"`
	// Waste is added to the whole, 0 to 100 %.
	Waste unit.Ratio `json:"waste,omitzero"`
	// Stock is the length it is sold in: a step for goods off a reel, the
	// stick for tack strip. Zero when it is cut to any length.
	Stock unit.Length `json:"stock,omitzero"`
}

// RunningOrder is what to buy of a running sundry.
type RunningOrder struct {
	Net    unit.Length `json:"net"`             // all runs in place
	Gross  unit.Length `json:"gross"`           // with ends and waste
	Buy    unit.Length `json:"buy"`             // Gross rounded up to whole stock
	Pieces int         `json:"pieces,omitzero"` // stock lengths; zero without Stock
}

// Order gives the length to buy:
//
//	gross = (sum of runs + ends × runs) × (1 + waste)
//
// rounded up to whole stock lengths. Runs may be joined, so short remainders
// are used up. Errors name the field and wrap unit.ErrRequired, unit.ErrRange,
// unit.ErrForgottenUnit or unit.ErrNotFinite.
func (r Running) Order() (RunningOrder, error) {
	if len(r.Runs) == 0 {
		return RunningOrder{}, check.Required("runs", "at least one length")
	}
	if err := check.Count("runs", len(r.Runs), 1, mostRuns); err != nil {
		return RunningOrder{}, err
	}
	if err := check.NotNegative("ends", r.Ends); err != nil {
		return RunningOrder{}, err
	}
	if err := check.NotNegative("stock", r.Stock); err != nil {
		return RunningOrder{}, err
	}
	if err := check.Ratio("waste", r.Waste, 0, 1); err != nil {
		return RunningOrder{}, err
	}
	var out RunningOrder
	for i, l := range r.Runs {
		if err := check.Positive(fmt.Sprintf("runs[%d]", i), l); err != nil {
			return RunningOrder{}, err
		}
		out.Net += l // 10 000 runs of at most 1 km fit
	}
	var err error
	out.Gross = out.Net + unit.Length(len(r.Runs))*r.Ends
	if out.Gross, err = out.Gross.Scale(1+r.Waste, unit.Up); err != nil {
		return RunningOrder{}, err
	}
	out.Buy = out.Gross
	if r.Stock > 0 {
		if out.Buy, err = out.Gross.RoundTo(r.Stock, unit.Up); err != nil {
			return RunningOrder{}, err
		}
		out.Pieces = int(out.Buy / r.Stock)
	}
	return out, nil
}

// Zips are zips cut from a chain by length. The zero value is refused.
type Zips struct {
	Openings []unit.Length `json:"openings"` // finished length of each
	// Ends is the chain beyond each end of an opening; zero takes 1 in.
	Ends unit.Length `json:"ends,omitzero"`
	// Sliders on each zip; zero takes 1.
	Sliders int `json:"sliders,omitzero"`
}

// ZipOrder is the chain and the sliders to buy.
type ZipOrder struct {
	Chain   unit.Length `json:"chain"`
	Sliders int         `json:"sliders"`
	Basis   cite.Basis  `json:"basis"`
}

// Order gives chain and sliders: chain = sum of (opening + 2 × ends). Errors
// name the field and wrap unit.ErrRequired, unit.ErrRange or
// unit.ErrForgottenUnit.
func (z Zips) Order() (ZipOrder, error) {
	ends := z.Ends
	if ends == 0 {
		ends = unit.Inch
	}
	o, err := Running{Runs: z.Openings, Ends: 2 * min(ends, check.Longest/2)}.Order()
	if err != nil {
		return ZipOrder{}, unit.InField("openings", err)
	}
	if err := check.NotNegative("ends", z.Ends); err != nil {
		return ZipOrder{}, err
	}
	n := z.Sliders
	if n == 0 {
		n = 1
	}
	if err := check.Count("sliders", n, 1, 4); err != nil {
		return ZipOrder{}, err
	}
	return ZipOrder{Chain: o.Gross, Sliders: n * len(z.Openings), Basis: cite.Practice("an inch of chain beyond each end")}, nil
}

// Sheet is a flat cloth under a piece: dust cover, burlap, decking, slip film.
// The zero value is refused.
type Sheet struct {
	Width unit.Length `json:"width"` // of the opening or the face
	Depth unit.Length `json:"depth"`
	// Turn is added on every edge to fold under and staple; zero takes 1 in.
	Turn unit.Length `json:"turn,omitzero"`
}

// SheetCut is a flat cloth as it is cut.
type SheetCut struct {
	Width unit.Length `json:"width"`
	Depth unit.Length `json:"depth"`
	Basis cite.Basis  `json:"basis"`
}

// Cut gives the cloth to cut, opening + 2 × turn each way. Errors name the field
// and wrap unit.ErrRange or unit.ErrForgottenUnit.
func (s Sheet) Cut() (SheetCut, error) {
	turn := s.Turn
	if turn == 0 {
		turn = unit.Inch
	}
	if err := check.Positives([]string{"width", "depth", "turn"}, s.Width, s.Depth, turn); err != nil {
		return SheetCut{}, err
	}
	return SheetCut{Width: s.Width + 2*turn, Depth: s.Depth + 2*turn, Basis: cite.Practice("an inch on every edge to fold under")}, nil
}
