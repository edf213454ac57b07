package foam

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var isoBasis = cite.Basis{Status: cite.CommonPractice,
	Note: "interpolated between 25 and 65 % by the usual support factors; the tests also differ in hold, conditioning and sample, and no published factor was found"}

// isoFactor is the force at 40 % over that at 25 % on the [Curve] of a foam
// with this support factor.
func isoFactor(support float64) float64 {
	return Curve{IFD25: 1, IFD65: IFD65(support)}.force(isoDepth)
}

// isoDepth is the depth of ISO 2439 method A, as a share of the thickness.
const isoDepth = 0.40

// EstimateHardnessA estimates the ISO 2439 method A index from an IFD25 by the
// [Curve] at 40 %, with S the support factor IFD65 / IFD25:
//
//	hardness = IFD25 · S^((0.40 − 0.25)/0.40)
//
// The value is that of S = 2.2, the bars those of 1.8 and 3.5: 1.34 times the
// force, 1.25 to 1.60. It leaves out all other differences between the tests, is
// no conversion and must not be used for a certificate or an order.
func EstimateHardnessA(i IFD25) (Estimated[HardnessA], error) {
	if err := checkForce("ifd25", i); err != nil {
		return Estimated[HardnessA]{}, err
	}
	at := func(support float64) HardnessA { return HardnessA(float64(i) * isoFactor(support)) }
	return Estimated[HardnessA]{
		Value: at(usualSupport), Low: at(float64(supportRange.Low)), High: at(float64(supportRange.High)),
		Kind: cite.Estimate, Basis: isoBasis,
	}, nil
}

// EstimateIFD25 estimates an IFD25 from an ISO 2439 method A index, the other
// way round and with the same warning.
func EstimateIFD25(h HardnessA) (Estimated[IFD25], error) {
	if err := checkForce("hardness", h); err != nil {
		return Estimated[IFD25]{}, err
	}
	at := func(support float64) IFD25 { return IFD25(float64(h) / isoFactor(support)) }
	return Estimated[IFD25]{
		Value: at(usualSupport), Low: at(float64(supportRange.High)), High: at(float64(supportRange.Low)),
		Kind: cite.Estimate, Basis: isoBasis,
	}, nil
}

// TestMethod says what a firmness test measures, to show why its figure is not
// another's.
type TestMethod struct {
	Name   string        `json:"name"`
	Depths []unit.Ratio  `json:"depths"` // where the force is read
	Hold   unit.Duration `json:"hold"`   // before the reading; zero when not held
	Gives  string        `json:"gives"`
	Basis  cite.Basis    `json:"basis"`
}

// TestMethods lists the tests whose figures this package knows.
func TestMethods() []TestMethod {
	iso := cite.Basis{Status: cite.Standard, Source: "EN-ISO-2439"}
	return []TestMethod{
		{Name: "ASTM D3574 B1", Depths: []unit.Ratio{0.25, 0.65}, Hold: 60 * unit.Second, Gives: "IFD25 and IFD65", Basis: custom},
		{Name: "ISO 2439 A", Depths: []unit.Ratio{0.40}, Hold: 30 * unit.Second, Gives: "hardness index", Basis: iso},
		{Name: "ISO 2439 B", Depths: []unit.Ratio{0.25, 0.40, 0.65}, Hold: 30 * unit.Second, Gives: "hardness characteristics", Basis: iso},
		{Name: "ISO 2439 C", Depths: []unit.Ratio{0.40}, Gives: "hardness check", Basis: iso},
		{Name: "ISO 2439 D", Depths: []unit.Ratio{0.25}, Hold: 20 * unit.Second, Gives: "low indentation hardness index", Basis: iso},
	}
}

// IndexGrades gives the firmness grades of a national standard by their 25 %
// index, firmest first. The test is of the ISO kind, so the figures are not
// IFD25. The edition read has been replaced in 2023.
func IndexGrades() ([]unit.Force, cite.Basis) {
	var out []unit.Force
	for _, n := range []float64{245, 196, 151, 120, 93, 67, 40, 22} {
		out = append(out, unit.Force(n)*unit.Newton)
	}
	return out, cite.Basis{Status: cite.Standard, Source: "GB-T-10802", Note: "2006 edition, replaced in 2023"}
}

// FirmnessTerms gives the words for firmness with their spans at 25 %. The
// spans overlap; the words are no grade to order by.
func FirmnessTerms() []Figure[IFD25] {
	b := cite.Basis{Status: cite.Published, Source: "MIL-PRF-20092", Note: "shipboard synthetic-rubber foam, read after 5 s"}
	return []Figure[IFD25]{
		{About: "soft", Range: poundsForce(10, 25), Basis: b},
		{About: "medium", Range: poundsForce(25, 42), Basis: b},
		{About: "medium, of polyurethane", Range: poundsForce(35, 40), Basis: custom},
		{About: "medium firm", Range: poundsForce(30, 55), Basis: b},
		{About: "firm", Range: poundsForce(42, 60), Basis: b},
	}
}
