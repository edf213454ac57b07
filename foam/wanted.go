package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
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

// accepted gives what passes for the firmness wanted.
func (w Wanted) accepted() (Range[IFD25], error) {
	f, err := tolerance("ifd25", w.IFD25)
	if err != nil {
		return Range[IFD25]{}, err
	}
	if w.Range == (Range[IFD25]{}) {
		return f.Range, nil
	}
	if err := check.Between("range.low", w.Range.Low, IFD25(faintest), w.IFD25); err != nil {
		return Range[IFD25]{}, err
	}
	return w.Range, check.Between("range.high", w.Range.High, w.IFD25, IFD25(firmest))
}

// want puts the firmness wanted in place of the usual one.
func (s *Selection) want() error {
	s.Accepted = s.IFD
	w := s.Request.Wanted
	if w == (Wanted{}) {
		return nil
	}
	var err error
	if s.Accepted, err = w.accepted(); err != nil {
		return unit.InField("wanted", err)
	}
	s.Target = w.IFD25
	s.because(Reason{Kind: FirmnessWanted, Wanted: only(w.IFD25), Firmness: s.Accepted})
	if !s.IFD.Has(w.IFD25) {
		s.because(Reason{Kind: WantedIsUnusual, Firmness: s.IFD})
	}
	return nil
}
