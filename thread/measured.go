package thread

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// UnpickedSample is thread drawn out of a sample of the seam: the method of
// measuring consumption. The zero value is no sample.
type UnpickedSample struct {
	Sample unit.Length `json:"sample"` // length of seam unpicked
	Needle unit.Length `json:"needle"` // needle thread drawn out
	Under  unit.Length `json:"under"`  // bobbin or looper thread drawn out
}

func (u UnpickedSample) check() error {
	if err := check.Length("unpicked.sample", u.Sample, unit.Centimetre, 100*unit.Metre); err != nil {
		return err
	}
	for _, x := range []struct {
		field string
		l     unit.Length
	}{{"unpicked.needle", u.Needle}, {"unpicked.under", u.Under}} {
		// A stitch cannot take more than its way there and back through the
		// thickest goods.
		if err := check.Length(x.field, x.l, 0, 500*u.Sample); err != nil {
			return err
		}
	}
	if u.Needle == 0 {
		return check.Required("unpicked.needle", "the needle thread drawn out of the sample")
	}
	return nil
}

// UsageRatio is a stitch's usual thread per length of seam.
type UsageRatio struct {
	Stitch Stitch     `json:"stitch"`
	Total  unit.Ratio `json:"total"`
	// Needle is the part of it that is needle thread.
	Needle unit.Ratio `json:"needle"`
	Basis  cite.Basis `json:"basis"`
}

// ratios lists what is used first for each stitch. Measured and tabled
// figures disagree: a seam's own sample is better than any of them.
var ratios = [...]UsageRatio{
	{Chainstitch101, 5, 5, practice("the square path gives little over 3")},
	{Lockstitch301, 2.5, 1.25, practice("the square path gives this at a thickness of a quarter of a stitch")},
	{Zigzag304, 5.5, 2.75, practice("equal split from memory")},
	{Chainstitch401, 5.67, 3, practice("measured: 3.00 and 2.67")},
	{Chainstitch401, 5.4, 1.3, practice("measured: 1.3 and 4.1")},
	{Overedge503, 12, 6.6, memory("")},
	{Overedge504, 14, 2.8, memory("")},
}

// UsageRatios lists ratios of thread to seam; where a stitch has two, the first is
// the one Consume uses.
func UsageRatios() []UsageRatio { return slices.Clone(ratios[:]) }

func (s Seam) measuredRate() (rate, error) {
	if s.Unpicked != (UnpickedSample{}) {
		if err := s.Unpicked.check(); err != nil {
			return rate{}, err
		}
		return rate{uint64(s.Unpicked.Needle), uint64(s.Unpicked.Under), uint64(s.Unpicked.Sample),
			cite.Estimate, derived("the shop's own sample")}, nil
	}
	const parts = 1_000_000
	for _, r := range ratios {
		if r.Stitch == s.Stitch {
			return rate{whole(float64(r.Needle) * parts), whole(float64(r.Total-r.Needle) * parts), parts,
				cite.RuleOfThumb, r.Basis}, nil
		}
	}
	return rate{}, check.Required("unpicked", "a sample, since no ratio is known for "+s.Stitch.String())
}
