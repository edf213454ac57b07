package foam

import (
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

// cases is a set of uses, duties or bases; the empty set means every one.
type cases uint16

func one[E ~uint8](list ...E) cases {
	var c cases
	for _, e := range list {
		c |= 1 << e
	}
	return c
}

// has tells whether e is in the set, or the set is empty.
func (c cases) has(e uint8) bool { return c == 0 || c&(1<<e) != 0 }

// firmness is one figure of IFD25 and the case it speaks of.
type firmness struct {
	figure   Figure[IFD25]
	uses     cases
	duties   cases
	bases    cases
	from, to unit.Length // thickness; to 0 means no upper end
}

func (f *firmness) speaksOf(r *Request, thickness unit.Length) bool {
	return f.uses.has(uint8(r.Use)) && f.duties.has(uint8(r.Duty)) && f.bases.has(uint8(r.Base)) &&
		thickness >= f.from && (f.to == 0 || thickness <= f.to)
}

// firm gives a figure in pounds-force.
func firm(about string, lo, hi float64, basis cite.Basis) Figure[IFD25] {
	return Figure[IFD25]{About: about, Range: poundsForce(lo, hi), Basis: basis}
}

var (
	domestic = one(LightDuty, NormalDuty, HeavyDuty)
	contract = one(SevereDuty)
	seats    = one(Seat, Bench)
	backs    = one(Back)
	beds     = one(Bed)
	booths   = one(Booth)
)

const inch = unit.Inch

var firmnessFigures = [...]firmness{
	{figure: firm("sofa seat, plush", 25, 30, custom), uses: seats, duties: domestic, from: thickSeat},
	{figure: firm("sofa seat, typical", 30, 30, custom), uses: seats, duties: domestic, from: thickSeat},
	{figure: firm("sofa seat", 30, 40, custom), uses: seats, duties: domestic, from: thickSeat},
	{figure: firm("sofa seat, another guide", 25, 35, custom), uses: seats, duties: domestic, from: thickSeat},
	{figure: firm("thin seat, 1 to 2 in", 45, 65, custom), uses: seats, to: thinSeat},
	{figure: firm("seat 2 in thick", 65, 65, custom), uses: seats, from: 7 * inch / 4, to: 9 * inch / 4},
	{figure: firm("seat 3 in thick", 40, 40, custom), uses: seats, duties: domestic, from: 5 * inch / 2, to: 7 * inch / 2},
	{figure: firm("seat 4 in thick", 34, 34, custom), uses: seats, duties: domestic, from: 7 * inch / 2, to: 9 * inch / 2},
	{figure: firm("seat 5 in thick", 30, 34, custom), uses: seats, duties: domestic, from: 9 * inch / 2, to: 11 * inch / 2},
	{figure: firm("seat 6 in thick", 26, 30, custom), uses: seats, duties: domestic, from: 11 * inch / 2, to: 13 * inch / 2},
	{figure: firm("office seat", 45, 45, custom), uses: seats, duties: one(HeavyDuty, SevereDuty)},
	{figure: firm("bar or diner stool", 60, 60, custom), uses: seats, duties: contract},
	{figure: firm("back cushion, 20 lbf or less", softest, 20, custom), uses: backs},
	{figure: firm("back cushion, another guide", 15, 22, custom), uses: backs},
	{figure: firm("inside arm and wraps", 20, 40, custom), uses: one(Arm)},
	{figure: firm("headrest", 10, 20, noText), uses: one(Headrest)},
	{figure: firm("mattress core", 25, 40, custom), uses: beds},
	{figure: firm("day bed", 20, 28, custom), uses: beds},
	{figure: firm("stretcher mattress", 31, 36, stretcher), uses: beds},
	{figure: firm("boat berth", 30, 40, noText), uses: one(Berth)},
	{figure: firm("booth on webbing or springs", 45, 60, noText), uses: booths, bases: one(Webbing, Springs)},
	{figure: firm("booth on board", 50, 70, noText), uses: booths, bases: one(Board)},
	{figure: firm("diner seating", 60, 60, custom), uses: booths, bases: one(Board)},
}

const (
	softest   = 10.0     // lbf, the softest foam sold
	thinSeat  = 2 * inch // up to which the thin-seat figure was given
	thickSeat = 4 * inch // from which the sofa figures were given
)

// seatByThickness is the firmness usual for a seat of a thickness.
var seatByThickness = [...]struct{ inches, lbf float64 }{
	{1, 60}, {2, 50}, {3, 40}, {4, 33}, {5, 30}, {6, 28},
}

// weight is one figure of density and the case it speaks of.
type weight struct {
	figure Figure[unit.Density]
	uses   cases
	duties cases
}

func (w *weight) speaksOf(r *Request) bool {
	return w.uses.has(uint8(r.Use)) && w.duties.has(uint8(r.Duty))
}

// heavy gives a figure in pounds per cubic foot.
func heavy(about string, lo, hi float64, basis cite.Basis) Figure[unit.Density] {
	return Figure[unit.Density]{About: about, Range: poundsPerCubicFoot(lo, hi), Basis: basis}
}

var (
	satOn  = one(Seat, Bench, Booth)
	loaded = satOn | one(Bed, Berth)
)

// metric gives figures that stand in kg/m³ in lb/ft³.
func metric(kgm3 float64) float64 { return kgm3 / float64(unit.PoundPerCubicFoot) }

var weightFigures = [...]weight{
	{figure: heavy("seat, at least", 1.8, 1.8, custom), uses: satOn},
	{figure: heavy("seat", 1.8, 3.2, custom), uses: satOn},
	{figure: heavy("seat, daily use", 1.9, 2.2, custom), uses: satOn, duties: one(NormalDuty, HeavyDuty)},
	{figure: heavy("seat, never below", 1.75, 1.75, custom), uses: satOn},
	{figure: heavy("seat, another guide", 2.4, 2.8, custom), uses: satOn},
	{figure: heavy("bar and diner seating", 1.6, 2.8, custom), uses: one(Seat, Booth), duties: contract},
	{figure: heavy("back cushion", 1.2, 1.5, custom), uses: backs},
	{figure: heavy("back and arm", 1.25, 1.56, custom), uses: one(Back, Arm)},
	{figure: heavy("inside arm and wraps", 1.2, 1.5, custom), uses: one(Arm)},
	{figure: heavy("boat seating, never below", 1.8, 1.8, custom), uses: one(Berth)},
	{figure: heavy("boat seating, preferred", 2.6, 2.88, custom), uses: one(Berth)},
	{figure: heavy("relief mattress, medium grade", metric(22), metric(27), reliefMattress), uses: beds},
	{figure: heavy("stretcher mattress, at least", 3.0, 3.0, stretcher), uses: beds},
	{figure: heavy("relief mattress, at least", metric(22), metric(22), reliefMattress), uses: beds},
}

var stretcher = cite.Basis{Status: cite.Published, Source: "CID-A-A-51305", Note: "government purchase description, 3 to 3 1/2 in thick"}

var reliefMattress = cite.Basis{Status: cite.CommonPractice, Note: "specification of an aid federation"}

// dutyWeight is the package's default density by duty, drawn from the figures
// above. No standard maps duty to density: BS 3379 and ISO 5999 class foam by
// its loss under pounding.
var dutyWeight = [...]Range[unit.Density]{
	LightDuty:  poundsPerCubicFoot(1.2, 1.5),
	NormalDuty: poundsPerCubicFoot(1.8, 2.0),
	HeavyDuty:  poundsPerCubicFoot(2.2, 2.5),
	SevereDuty: poundsPerCubicFoot(2.6, 3.2),
}

var dutyWeightBasis = cite.Basis{Status: cite.CommonPractice, Note: "default of this package drawn from the figures listed; no standard maps duty to density"}

// supportRange is the support factor called good, 1.8 to 3.5.
var supportRange = Range[unit.Ratio]{Low: 1.8, High: 3.5}

func poundsForce(lo, hi float64) Range[IFD25] {
	return Range[IFD25]{Low: IFD25(lo * float64(unit.PoundForce)), High: IFD25(hi * float64(unit.PoundForce))}
}

func poundsPerCubicFoot(lo, hi float64) Range[unit.Density] {
	return Range[unit.Density]{
		Low:  unit.Density(lo * float64(unit.PoundPerCubicFoot)),
		High: unit.Density(hi * float64(unit.PoundPerCubicFoot)),
	}
}
