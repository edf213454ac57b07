package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Wanted is a firmness to match, such as that of old foam as [IdentifyIFD25]
// or a test house read it. The zero value wants nothing.
type Wanted struct {
	// IFD25 is above 3 lbf and at most 10 kN, as [IFDTolerance] takes it.
	IFD25 IFD25 `json:"ifd25"`
	// Range is what passes for the same, say the bars of a bench test
	// ([Estimated.Range]); it holds IFD25. Zero stands for what an order of
	// IFD25 may turn out to be, [IFDTolerance]: a closer match cannot be
	// ordered.
	Range Range[IFD25] `json:"range,omitzero"`
}

// accepted gives what passes for the firmness wanted, and by what.
func (w Wanted) accepted() (Figure[IFD25], error) {
	f, err := tolerance("ifd25", w.IFD25)
	if err != nil {
		return Figure[IFD25]{}, err
	}
	f.About = "what passes for the firmness wanted"
	if w.Range == (Range[IFD25]{}) {
		return f, nil
	}
	if err := check.Between("range.low", w.Range.Low, IFD25(faintest), w.IFD25); err != nil {
		return Figure[IFD25]{}, err
	}
	f.Range, f.Basis = w.Range, cite.Basis{Status: cite.Derived, Note: "range as given"}
	return f, check.Between("range.high", w.Range.High, w.IFD25, IFD25(firmest))
}

// want puts the firmness wanted in place of the usual one.
func (s *Selection) want() error {
	w := s.Request.Wanted
	if w == (Wanted{}) {
		s.Accepted = Figure[IFD25]{About: "span of the figures", Range: s.IFD, Basis: custom}
		return nil
	}
	var err error
	if s.Accepted, err = w.accepted(); err != nil {
		return unit.InField("wanted", err)
	}
	s.Target = w.IFD25
	s.because(Reason{Kind: FirmnessWanted, Wanted: only(w.IFD25), Firmness: s.Accepted.Range})
	if !s.IFD.Has(w.IFD25) {
		s.because(Reason{Kind: WantedIsUnusual, Firmness: s.IFD})
	}
	return nil
}
