package thread

import (
	"github.com/coverwright/coverwright/unit/cite"
)

// NeedleRange is the needle sizes that suit a thread in goods.
type NeedleRange struct {
	From  Needle     `json:"from"`
	To    Needle     `json:"to"`
	Basis cite.Basis `json:"basis"`
}

// Contains tells whether n lies in the range.
func (r NeedleRange) Contains(n Needle) bool { return n >= r.From && n <= r.To }

// needleFit is the fit for one size: cloth and vinyl take the finer needle,
// leather the coarser.
type needleFit struct {
	cloth, leather NeedleRange
}

var fitTable = [sizeCount]needleFit{
	{NeedleRange{60, 70, memory("")}, NeedleRange{60, 70, memory("")}},
	{NeedleRange{80, 90, practice("")}, NeedleRange{80, 90, practice("")}},
	{NeedleRange{80, 90, practice("")}, NeedleRange{90, 100, practice("")}},
	{NeedleRange{100, 110, practice("")}, NeedleRange{110, 120, practice("")}},
	{NeedleRange{110, 120, practice("")}, NeedleRange{120, 125, practice("number 19 or 20")}},
	{NeedleRange{130, 140, practice("")}, NeedleRange{140, 160, practice("")}},
	{NeedleRange{160, 180, practice("")}, NeedleRange{160, 180, practice("")}},
	{NeedleRange{200, 200, practice("")}, NeedleRange{200, 200, practice("")}},
	{NeedleRange{230, 230, practice("")}, NeedleRange{230, 230, practice("")}},
	{NeedleRange{250, 250, practice("")}, NeedleRange{250, 250, practice("")}},
	{NeedleRange{280, 300, memory("")}, NeedleRange{280, 300, memory("")}},
}

// NeedlesFor gives the needle sizes for a size of thread in goods. It wraps
// unit.ErrUnknown for no size or no goods.
func NeedlesFor(s Size, g Goods) (NeedleRange, error) {
	if err := s.check("size"); err != nil {
		return NeedleRange{}, err
	}
	if err := g.check("goods"); err != nil {
		return NeedleRange{}, err
	}
	return fit(s, g), nil
}

func fit(s Size, g Goods) NeedleRange {
	if g.leathery() {
		return fitTable[s-1].leather
	}
	return fitTable[s-1].cloth
}

// FinestNeedle gives the finest needle whose long groove still holds the
// thread: the groove is about 40 % of the blade, so
//
//	metric size ≥ 250 × d / mm
//
// with d the nominal diameter, rounded up to a size made. It wraps
// unit.ErrUnknown for no size. The rule is common practice and a lower bound:
// stiff bonded thread wants the sizes of NeedlesFor.
func FinestNeedle(s Size) (Needle, error) {
	if err := s.check("size"); err != nil {
		return 0, err
	}
	return finestNeedle(s), nil
}

func finestNeedle(s Size) Needle {
	d, _ := sizeTable[0][s-1].Diameter.Value()
	for _, l := range needleLines {
		if 2*l.metric.Blade() >= 5*d {
			return l.metric
		}
	}
	return needleLines[len(needleLines)-1].metric
}
