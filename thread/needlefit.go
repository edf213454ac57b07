package thread

import (
	"github.com/coverwright/coverwright/unit"
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

var (
	fitPractice = practice("")
	fitMemory   = memory("350 × diameter in mm, snapped to sizes made")
)

var fitTable = [sizeCount]needleFit{
	{NeedleRange{60, 70, fitMemory}, NeedleRange{60, 70, fitMemory}},
	{NeedleRange{80, 90, fitPractice}, NeedleRange{80, 90, fitPractice}},
	{NeedleRange{80, 90, fitPractice}, NeedleRange{90, 100, fitPractice}},
	{NeedleRange{100, 110, fitPractice}, NeedleRange{110, 120, fitPractice}},
	{NeedleRange{110, 120, fitPractice}, NeedleRange{120, 125, practice("number 19 or 20; saddlery goes one or two sizes finer")}},
	{NeedleRange{130, 140, fitPractice}, NeedleRange{140, 160, fitPractice}},
	{NeedleRange{160, 180, fitPractice}, NeedleRange{160, 180, fitPractice}},
	{NeedleRange{200, 200, fitPractice}, NeedleRange{200, 200, fitPractice}},
	{NeedleRange{230, 230, fitPractice}, NeedleRange{230, 230, fitPractice}},
	{NeedleRange{250, 250, fitPractice}, NeedleRange{250, 250, fitPractice}},
	{NeedleRange{280, 300, fitMemory}, NeedleRange{280, 300, fitMemory}},
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
	return *fit(s, g), nil
}

func fit(s Size, g Goods) *NeedleRange {
	if g.leathery() {
		return &fitTable[s-1].leather
	}
	return &fitTable[s-1].cloth
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

func finestNeedle(s Size) Needle { return finestTable[s-1] }

var finestTable = buildFinest()

func buildFinest() (t [sizeCount]Needle) {
	for i := range t {
		d, _ := sizeTable[0][i].Diameter.Value()
		for _, l := range needleLines {
			t[i] = l.metric
			if 2*l.metric.Blade() >= 5*d {
				break
			}
		}
	}
	return t
}

// EyeFor gives the width of eye a thread runs freely through: 40 % more than
// its diameter, common practice. It wraps unit.ErrUnknown for no size.
func EyeFor(s Size) (unit.Length, error) {
	if err := s.check("size"); err != nil {
		return 0, err
	}
	d, _ := sizeTable[0][s-1].Diameter.Value()
	return d.MulDiv(7, 5, unit.Up)
}

// NeedleAdvice is a published choice of needle, kept beside the table of
// NeedlesFor where the two differ.
type NeedleAdvice struct {
	// Goods and plies in the document's terms.
	Goods string `json:"goods"`
	// Letter is the government letter of the thread; empty when the document
	// names none.
	Letter string `json:"letter,omitempty"`
	// Number of the needle.
	Number NeedleNumber `json:"number"`
	Basis  cite.Basis   `json:"basis"`
}

var navyNeedles = published("NAVEDTRA-14218", "sewing machine needle, figure 9-10")

// PublishedNeedles lists published choices of needle.
func PublishedNeedles() []NeedleAdvice {
	return []NeedleAdvice{
		{"thin material, 2 to 4 plies", "E", 180, navyNeedles},
		{"thin material, 5 plies or more", "E", 200, navyNeedles},
		{"faux leather, strongest joint of a test", "", 140, published("MATERIALS-15-6585", "needle LR 90")},
		{"medium cloth, 12-oz duck, light leather, 2 to 4 plies", "", 210, navyNeedles},
	}
}
