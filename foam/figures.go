package foam

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// The figures behind Select. Firmness is in lbf, density in lb/ft³, thickness
// in inches, as the sources print them; newtons and kilograms come out at the
// edge. Most are custom of the trade and disagree: none is dropped or averaged.

var (
	custom = cite.Basis{Status: cite.CommonPractice}
	memory = cite.Basis{Status: cite.FromMemory}
	noText = cite.Basis{Status: cite.CommonPractice, Note: "custom; no text was read for it"}
)

// firmness is one figure of IFD25 and the case it speaks of. An empty list
// means every value.
type firmness struct {
	about    string
	lo, hi   float64 // lbf
	uses     []Use
	duties   []Duty
	bases    []Base
	from, to float64 // thickness in inches; to 0 means no upper end
	basis    cite.Basis
}

var (
	domestic = []Duty{LightDuty, NormalDuty, HeavyDuty}
	contract = []Duty{SevereDuty}
	seats    = []Use{Seat, Bench}
)

var firmnessFigures = []firmness{
	{about: "sofa seat, plush", lo: 25, hi: 30, uses: seats, duties: domestic, from: thickSeat, basis: custom},
	{about: "sofa seat, typical", lo: 30, hi: 30, uses: seats, duties: domestic, from: thickSeat, basis: custom},
	{about: "sofa seat", lo: 30, hi: 40, uses: seats, duties: domestic, from: thickSeat, basis: custom},
	{about: "sofa seat, another guide", lo: 25, hi: 35, uses: seats, duties: domestic, from: thickSeat, basis: custom},
	{about: "thin seat, 1 to 2 in", lo: 45, hi: 65, uses: seats, to: thinSeat, basis: custom},
	{about: "seat 2 in thick", lo: 65, hi: 65, uses: seats, from: 1.75, to: 2.25, basis: custom},
	{about: "seat 3 in thick", lo: 40, hi: 40, uses: seats, duties: domestic, from: 2.5, to: 3.5, basis: custom},
	{about: "seat 4 in thick", lo: 34, hi: 34, uses: seats, duties: domestic, from: 3.5, to: 4.5, basis: custom},
	{about: "seat 5 in thick", lo: 30, hi: 34, uses: seats, duties: domestic, from: 4.5, to: 5.5, basis: custom},
	{about: "seat 6 in thick", lo: 26, hi: 30, uses: seats, duties: domestic, from: 5.5, to: 6.5, basis: custom},
	{about: "office seat", lo: 45, hi: 45, uses: seats, duties: []Duty{HeavyDuty, SevereDuty}, basis: custom},
	{about: "bar or diner stool", lo: 60, hi: 60, uses: seats, duties: contract, basis: custom},
	{about: "back cushion, 20 lbf or less", lo: softest, hi: 20, uses: []Use{Back}, basis: custom},
	{about: "back cushion, another guide", lo: 15, hi: 22, uses: []Use{Back}, basis: custom},
	{about: "inside arm and wraps", lo: 20, hi: 40, uses: []Use{Arm}, basis: custom},
	{about: "headrest", lo: 10, hi: 20, uses: []Use{Headrest}, basis: noText},
	{about: "mattress core", lo: 25, hi: 40, uses: []Use{Bed}, basis: custom},
	{about: "day bed", lo: 20, hi: 28, uses: []Use{Bed}, basis: custom},
	{about: "stretcher mattress", lo: 31, hi: 36, uses: []Use{Bed}, basis: stretcher},
	{about: "boat berth", lo: 30, hi: 40, uses: []Use{Berth}, basis: noText},
	{about: "booth on webbing or springs", lo: 45, hi: 60, uses: []Use{Booth}, bases: []Base{Webbing, Springs}, basis: noText},
	{about: "booth on board", lo: 50, hi: 70, uses: []Use{Booth}, bases: []Base{Board}, basis: noText},
	{about: "diner seating", lo: 60, hi: 60, uses: []Use{Booth}, bases: []Base{Board}, basis: custom},
}

const (
	softest   = 10.0 // lbf, the softest foam sold
	thinSeat  = 2.0  // in, up to which the thin-seat figure was given
	thickSeat = 4.0  // in, from which the sofa figures were given
)

// seatByThickness is the firmness usual for a seat of a thickness.
var seatByThickness = []struct{ inches, lbf float64 }{
	{1, 60}, {2, 50}, {3, 40}, {4, 33}, {5, 30}, {6, 28},
}

// weight is one figure of density and the case it speaks of.
type weight struct {
	about  string
	lo, hi float64 // lb/ft³
	uses   []Use
	duties []Duty
	basis  cite.Basis
}

var loaded = []Use{Seat, Bench, Booth, Bed, Berth}

// metric gives figures that stand in kg/m³ in lb/ft³.
func metric(kgm3 float64) float64 { return kgm3 / float64(unit.PoundPerCubicFoot) }

var weightFigures = []weight{
	{about: "seat, at least", lo: 1.8, hi: 1.8, uses: []Use{Seat, Bench, Booth}, basis: custom},
	{about: "seat", lo: 1.8, hi: 3.2, uses: []Use{Seat, Bench, Booth}, basis: custom},
	{about: "seat, daily use", lo: 1.9, hi: 2.2, uses: []Use{Seat, Bench, Booth}, duties: []Duty{NormalDuty, HeavyDuty}, basis: custom},
	{about: "seat, never below", lo: 1.75, hi: 1.75, uses: []Use{Seat, Bench, Booth}, basis: custom},
	{about: "seat, another guide", lo: 2.4, hi: 2.8, uses: []Use{Seat, Bench, Booth}, basis: custom},
	{about: "bar and diner seating", lo: 1.6, hi: 2.8, uses: []Use{Seat, Booth}, duties: contract, basis: custom},
	{about: "back cushion", lo: 1.2, hi: 1.5, uses: []Use{Back}, basis: custom},
	{about: "back and arm", lo: 1.25, hi: 1.56, uses: []Use{Back, Arm}, basis: custom},
	{about: "inside arm and wraps", lo: 1.2, hi: 1.5, uses: []Use{Arm}, basis: custom},
	{about: "boat seating, never below", lo: 1.8, hi: 1.8, uses: []Use{Berth}, basis: custom},
	{about: "boat seating, preferred", lo: 2.6, hi: 2.88, uses: []Use{Berth}, basis: custom},
	{about: "relief mattress, medium grade", lo: metric(22), hi: metric(27), uses: []Use{Bed}, basis: reliefMattress},
	{about: "stretcher mattress, at least", lo: 3.0, hi: 3.0, uses: []Use{Bed}, basis: stretcher},
	{about: "relief mattress, at least", lo: metric(22), hi: metric(22), uses: []Use{Bed}, basis: reliefMattress},
}

var stretcher = cite.Basis{Status: cite.Published, Source: "CID-A-A-51305", Note: "government purchase description, 3 to 3 1/2 in thick"}

var reliefMattress = cite.Basis{Status: cite.Published, Source: "IFRC-MATTRESS", Note: "aid-agency specification"}

// dutyWeight is the package's default density by duty, drawn from the figures
// above. No standard maps duty to density: BS 3379 and ISO 5999 class foam by
// its loss under pounding.
var dutyWeight = map[Duty]struct{ lo, hi float64 }{
	LightDuty:  {1.2, 1.5},
	NormalDuty: {1.8, 2.0},
	HeavyDuty:  {2.2, 2.5},
	SevereDuty: {2.6, 3.2},
}

var dutyWeightBasis = cite.Basis{Status: cite.CommonPractice, Note: "default of this package drawn from the figures listed; no standard maps duty to density"}

// supportRange is the support factor called good, 1.8 to 3.5.
var supportRange = Range[unit.Ratio]{Low: 1.8, High: 3.5}

func (f firmness) speaksOf(r Request) bool {
	in := r.Thickness.Inches()
	return slices.Contains(f.uses, r.Use) &&
		(f.duties == nil || slices.Contains(f.duties, r.Duty)) &&
		(f.bases == nil || slices.Contains(f.bases, r.Base)) &&
		in >= f.from && (f.to == 0 || in <= f.to)
}

func (f firmness) figure() Figure[IFD25] {
	return Figure[IFD25]{About: f.about, Range: poundsForce(f.lo, f.hi), Basis: f.basis}
}

func (w weight) speaksOf(r Request) bool {
	return slices.Contains(w.uses, r.Use) && (w.duties == nil || slices.Contains(w.duties, r.Duty))
}

func (w weight) figure() Figure[unit.Density] {
	return Figure[unit.Density]{About: w.about, Range: poundsPerCubicFoot(w.lo, w.hi), Basis: w.basis}
}

func poundsForce(lo, hi float64) Range[IFD25] {
	return Range[IFD25]{Low: IFD25(lo * float64(unit.PoundForce)), High: IFD25(hi * float64(unit.PoundForce))}
}

func poundsPerCubicFoot(lo, hi float64) Range[unit.Density] {
	return Range[unit.Density]{
		Low:  unit.Density(lo * float64(unit.PoundPerCubicFoot)),
		High: unit.Density(hi * float64(unit.PoundPerCubicFoot)),
	}
}
