package foam

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Request says what foam is wanted for.
type Request struct {
	Use       Use         `json:"use"`
	Duty      Duty        `json:"duty"`
	Thickness unit.Length `json:"thickness"` // of the foam, 1/2 in to 12 in
	Base      Base        `json:"base"`
	// Sitter is the mass of the heaviest usual occupant, 10 to 250 kg; zero
	// when it is not known.
	Sitter unit.Mass `json:"sitter,omitzero"`
	// Stock lists the grades to rank; when empty, [ExampleGrades].
	Stock []Grade `json:"stock,omitempty"`
	// Jurisdictions are those whose fire rules are wanted; when empty, all.
	Jurisdictions []Jurisdiction `json:"jurisdictions,omitempty"`
}

// Check gives nil for a request Select can answer, else an error that names
// the field.
func (r Request) Check() error {
	if err := checkName("use", uint8(r.Use), useNames); err != nil {
		return err
	}
	if err := checkName("duty", uint8(r.Duty), dutyNames); err != nil {
		return err
	}
	if err := checkName("base", uint8(r.Base), baseNames); err != nil {
		return err
	}
	if err := check.Length("thickness", r.Thickness, unit.Inch/2, 12*unit.Inch); err != nil {
		return err
	}
	if r.Sitter != 0 {
		if err := check.Between("sitter", r.Sitter, 10*unit.Kilogram, 250*unit.Kilogram); err != nil {
			return err
		}
	}
	for i, g := range r.Stock {
		if err := g.Check(); err != nil {
			return unit.InField(fmt.Sprintf("stock[%d]", i), err)
		}
	}
	for i, j := range r.Jurisdictions {
		if err := checkName(fmt.Sprintf("jurisdictions[%d]", i), uint8(j), jurisdictionNames); err != nil {
			return err
		}
	}
	return nil
}

// Selection is what Select recommends and why.
type Selection struct {
	Request Request `json:"request"`
	// IFD is the span of every figure that speaks of this case.
	IFD Range[IFD25] `json:"ifd"`
	// Shared is what all those figures have in common; nil when nothing.
	Shared *Range[IFD25] `json:"shared,omitempty"`
	// Target is the firmness to ask for, and Delivered what an order of it
	// may turn out to be.
	Target    IFD25         `json:"target"`
	Delivered Figure[IFD25] `json:"delivered"`
	// Density is the range to ask for.
	Density      Range[unit.Density] `json:"density"`
	DensityBasis cite.Basis          `json:"density_basis"`
	// Support is the range of support factors called good.
	Support Range[unit.Ratio] `json:"support"`
	// Figures of every source that speaks of this case.
	IFDFigures     []Figure[IFD25]        `json:"ifd_figures"`
	DensityFigures []Figure[unit.Density] `json:"density_figures"`
	// Grades holds the stock, best first.
	Grades []Ranked `json:"grades"`
	// Class is the service class that suits the use and duty.
	Class ServiceClass `json:"class"`
	// Sitting is what the target firmness does under the sitter, with the
	// cautious support factor; nil without a sitter or when not sat on.
	Sitting *Sitting `json:"sitting,omitempty"`
	// Reasons says how the recommendation came about, Disagreements where the
	// sources differ, Cautions what can hurt someone.
	Reasons       []string  `json:"reasons"`
	Disagreements []string  `json:"disagreements"`
	Cautions      []Caution `json:"cautions"`
	Kind          cite.Kind `json:"kind"`
}

// Ranked is a grade with its verdict.
type Ranked struct {
	Grade   Grade    `json:"grade"`
	Fits    bool     `json:"fits"` // firmness and density in range, and no bottoming out
	Reasons []string `json:"reasons"`
	// Sitting is nil without a sitter or when the foam is not sat on.
	Sitting *Sitting `json:"sitting,omitempty"`
}

// Select recommends firmness and density for a use, with the figures of every
// source, the reason, and the stock ranked. It is a rule of thumb, not a
// calculation: a trial sit decides. Errors name the field of the request.
func Select(r Request) (Selection, error) {
	if err := r.Check(); err != nil {
		return Selection{}, err
	}
	s := Selection{Request: r, Support: supportRange, Kind: cite.RuleOfThumb, Disagreements: []string{}}
	s.firmness()
	s.weight()
	s.base()
	var err error
	if s.Delivered, err = IFDTolerance(s.Target); err != nil {
		return Selection{}, err
	}
	if s.Class, err = ServiceClassFor(r.Use, r.Duty); err != nil {
		return Selection{}, err
	}
	if err = s.sit(); err != nil {
		return Selection{}, err
	}
	if err = s.rank(); err != nil {
		return Selection{}, err
	}
	if s.Cautions, err = Cautions(r.Jurisdictions...); err != nil {
		return Selection{}, err
	}
	return s, nil
}

func (s *Selection) because(format string, args ...any) {
	s.Reasons = append(s.Reasons, fmt.Sprintf(format, args...))
}

// firmness gathers the figures and sets IFD, Shared and Target.
func (s *Selection) firmness() {
	r := s.Request
	for _, f := range firmnessFigures {
		if f.speaksOf(r) {
			s.IFDFigures = append(s.IFDFigures, f.figure())
		}
	}
	seat := slices.Contains(seats, r.Use)
	usual := seatFirmness(r.Thickness)
	if seat && r.Thickness.Inches() > thinSeat && r.Thickness.Inches() < thickSeat && r.Duty != SevereDuty {
		// No figure was read for 2 to 4 in: both neighbours are shown, and the
		// span runs evenly from the one to the other.
		s.between()
	} else {
		s.IFD = s.IFDFigures[0].Range
		shared, ok := s.IFD, true
		for _, f := range s.IFDFigures[1:] {
			s.IFD = s.IFD.span(f.Range)
			if ok {
				shared, ok = shared.overlap(f.Range)
			}
		}
		if ok {
			s.Shared = &shared
		}
	}
	s.disagree()
	switch {
	case seat:
		s.Target = usual
		s.because("a seat %s thick usually takes about %s at 25 %%: the thinner the foam, the firmer it must be to keep the sitter off the base",
			inches(r.Thickness), lbf(usual))
		if s.Shared != nil && s.IFD.Has(usual) && !s.Shared.Has(usual) {
			s.because("the figures have only %s in common; ask for that to satisfy them all", spanText(*s.Shared))
		}
		if !s.IFD.Has(usual) {
			s.Target = min(max(usual, s.IFD.Low), s.IFD.High)
			s.because("that lies outside the %s given for this use and duty, so the nearer end, %s, is taken", spanText(s.IFD), lbf(s.Target))
		}
	case s.Shared != nil:
		s.Target = s.Shared.Middle()
		s.because("the middle of what the figures for a %s have in common, %s", r.Use, spanText(*s.Shared))
	default:
		s.Target = s.IFD.Middle()
		s.because("the middle of the figures for a %s, %s", r.Use, spanText(s.IFD))
	}
}

// between fills in a seat between the thin and the thick figures.
func (s *Selection) between() {
	r := s.Request
	at := func(t float64) Range[IFD25] {
		near := r
		near.Thickness = unit.Length(t * float64(unit.Inch))
		var span Range[IFD25]
		found := false
		for _, f := range firmnessFigures {
			if !f.speaksOf(near) {
				continue
			}
			g := f.figure()
			if !f.speaksOf(r) {
				s.IFDFigures = append(s.IFDFigures, g)
			}
			if !found {
				span, found = g.Range, true
			}
			span = span.span(g.Range)
		}
		return span
	}
	thin, thick := at(thinSeat), at(thickSeat)
	w := IFD25((r.Thickness.Inches() - thinSeat) / (thickSeat - thinSeat))
	s.IFD = Range[IFD25]{
		Low:  thin.Low + IFD25(float64(w)*float64(thick.Low-thin.Low)),
		High: thin.High + IFD25(float64(w)*float64(thick.High-thin.High)),
	}
	s.because("no figure was read for seats between %g and %g in; the span is taken evenly between those for thin and for thick seats", thinSeat, thickSeat)
}

// seatFirmness interpolates seatByThickness; outside it the end value holds.
func seatFirmness(t unit.Length) IFD25 {
	in := t.Inches()
	rows := seatByThickness
	if in <= rows[0].inches {
		return poundsForce(rows[0].lbf, 0).Low
	}
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		if in <= b.inches {
			w := (in - a.inches) / (b.inches - a.inches)
			return poundsForce(a.lbf+float64(w*(b.lbf-a.lbf)), 0).Low
		}
	}
	return poundsForce(rows[len(rows)-1].lbf, 0).Low
}

func (s *Selection) disagree() {
	if len(s.IFDFigures) < 2 {
		return
	}
	switch {
	case s.Shared == nil:
		s.Disagreements = append(s.Disagreements,
			fmt.Sprintf("firmness: the %d figures run from %s and have no value in common", len(s.IFDFigures), spanText(s.IFD)))
	case *s.Shared != s.IFD:
		s.Disagreements = append(s.Disagreements,
			fmt.Sprintf("firmness: the %d figures run from %s; all of them allow only %s", len(s.IFDFigures), spanText(s.IFD), spanText(*s.Shared)))
	}
}

// weight sets Density from the duty and gathers the figures.
func (s *Selection) weight() {
	r := s.Request
	duty := r.Duty
	switch {
	case slices.Contains(loaded, r.Use) && duty == LightDuty:
		duty = NormalDuty
		s.because("density: what is sat or slept on takes at least the density for normal duty, however light the use")
	case !slices.Contains(loaded, r.Use) && duty == SevereDuty:
		duty = NormalDuty
		s.because("density: backs and arms in contract use stand in the service class of domestic seats")
	case !slices.Contains(loaded, r.Use):
		duty = LightDuty
		s.because("density: a %s carries little, so the density for light duty does", r.Use)
	default:
		s.because("density: the usual for %s duty; density is what makes foam last, not what makes it firm", duty)
	}
	d := dutyWeight[duty]
	s.Density = poundsPerCubicFoot(d.lo, d.hi)
	s.DensityBasis = dutyWeightBasis
	for _, w := range weightFigures {
		if !w.speaksOf(r) {
			continue
		}
		f := w.figure()
		s.DensityFigures = append(s.DensityFigures, f)
		_, ok := s.Density.overlap(f.Range)
		least := f.Range.Low == f.Range.High && f.Range.High <= s.Density.Low
		if !ok && !least {
			s.Disagreements = append(s.Disagreements,
				fmt.Sprintf("density: %s is given as %s, this package takes %s", f.About, densityText(f.Range), densityText(s.Density)))
		}
	}
}

func (s *Selection) base() {
	if !slices.Contains(loaded, s.Request.Use) {
		return
	}
	switch s.Request.Base {
	case Board:
		s.because("board gives nothing: the foam carries alone, so prefer the firmer of two grades")
	case Webbing, Springs:
		s.because("%s give under load and share the work, so the softer of two grades will do", s.Request.Base)
	}
}

// rank orders the stock: grades in both ranges first, then by how far the
// firmness is from the target, then by how far the density is from its range.
func (s *Selection) rank() error {
	stock := s.Request.Stock
	if len(stock) == 0 {
		stock = ExampleGrades()
		s.because("no stock was given: the grades ranked are examples")
	}
	s.Grades = make([]Ranked, len(stock))
	for i, g := range stock {
		var err error
		if s.Grades[i], err = s.judge(g); err != nil {
			return unit.InField(fmt.Sprintf("stock[%d]", i), err)
		}
	}
	slices.SortStableFunc(s.Grades, func(a, b Ranked) int {
		if a.Fits != b.Fits {
			if a.Fits {
				return -1
			}
			return 1
		}
		return cmp.Or(
			cmp.Compare(s.distance(a.Grade), s.distance(b.Grade)),
			s.firmer(a.Grade, b.Grade),
			cmp.Compare(a.Grade.Density, b.Grade.Density),
		)
	})
	return nil
}

// sit works out what the target firmness does under the sitter.
func (s *Selection) sit() error {
	var err error
	target := Grade{Density: s.Density.Low, IFD25: s.Target}
	if s.Sitting, err = s.sitOn(target); err != nil || s.Sitting == nil {
		return err
	}
	if s.Sitting.BottomsOut() {
		s.because("%s bottoms out under %s: take thicker foam, or firmer than the figures", lbf(s.Target), kilograms(s.Request.Sitter))
		return nil
	}
	s.because("under %s the target sinks about %s of %s and leaves %s; the foam would carry %.1f times that",
		kilograms(s.Request.Sitter), inches(s.Sitting.Sink.Value), inches(s.Request.Thickness), inches(s.Sitting.Remaining.Value), float64(s.Sitting.Margin))
	return nil
}

// sitOn gives the sitting on one layer of a grade, or nil when there is no
// sitter or nothing to sit on.
func (s *Selection) sitOn(g Grade) (*Sitting, error) {
	r := s.Request
	if r.Sitter == 0 || !slices.Contains([]Use{Seat, Bench, Booth, Berth}, r.Use) {
		return nil, nil //nolint:nilnil // nothing to work out
	}
	c, _, err := g.Curve()
	if err != nil {
		return nil, err
	}
	if c.factor() == 1 {
		return nil, nil //nolint:nilnil // a flat curve says nothing about sinking
	}
	x, err := Sit(Stack{{Name: g.Name, Thickness: r.Thickness, Curve: c}}, Sitter{Mass: r.Sitter})
	if err != nil {
		return nil, err
	}
	return &x, nil
}

func (s *Selection) judge(g Grade) (Ranked, error) {
	k := Ranked{Grade: g, Fits: true, Reasons: []string{}}
	say := func(ok bool, format string, args ...any) {
		k.Reasons = append(k.Reasons, fmt.Sprintf(format, args...))
		k.Fits = k.Fits && ok
	}
	switch {
	case g.IFD25 < s.IFD.Low:
		say(false, "softer than %s", spanText(s.IFD))
	case g.IFD25 > s.IFD.High:
		say(false, "firmer than %s", spanText(s.IFD))
	default:
		say(true, "firmness within %s", spanText(s.IFD))
	}
	switch {
	case g.Density < s.Density.Low*(1-densitySlack):
		say(false, "lighter than %s, will soften sooner", densityText(s.Density))
	case g.Density > s.Density.High*(1+densitySlack):
		say(true, "denser than %s: lasts longer, costs more", densityText(s.Density))
	default:
		say(true, "density within %s", densityText(s.Density))
	}
	if f, assumed := g.support(); assumed {
		k.Reasons = append(k.Reasons, "support factor not given: ask for IFD at 65 %")
	} else if !s.Support.Has(f) {
		k.Reasons = append(k.Reasons, fmt.Sprintf("support factor %.2f outside %.1f to %.1f", float64(f), float64(s.Support.Low), float64(s.Support.High)))
	}
	var err error
	if k.Sitting, err = s.sitOn(g); err != nil {
		return Ranked{}, err
	}
	if k.Sitting != nil {
		if k.Sitting.BottomsOut() {
			say(false, "bottoms out under %s", kilograms(s.Request.Sitter))
		} else {
			say(true, "sinks about %s under %s, bottoms out at %.1f times that", inches(k.Sitting.Sink.Value), kilograms(s.Request.Sitter), float64(k.Sitting.Margin))
		}
	}
	return k, nil
}

// densitySlack keeps the last bit of a unit conversion from failing a grade.
const densitySlack = 1e-9

// distance is how far a grade is from what is asked, as a sum of two relative
// distances: of firmness from the target, of density from its range.
func (s *Selection) distance(g Grade) float64 {
	firm := math.Abs(float64(g.IFD25-s.Target)) / float64(s.Target)
	var heavy float64
	switch {
	case g.Density < s.Density.Low:
		heavy = float64((s.Density.Low - g.Density) / s.Density.Low)
	case g.Density > s.Density.High:
		heavy = float64((g.Density - s.Density.High) / s.Density.High)
	}
	// Rounded, so that two grades equally far on paper stay equal in float64.
	return math.Round((firm+heavy)*1e9) / 1e9
}

// firmer prefers the firmer grade on board and the softer one elsewhere.
func (s *Selection) firmer(a, b Grade) int {
	if s.Request.Base == Board {
		return cmp.Compare(b.IFD25, a.IFD25)
	}
	return cmp.Compare(a.IFD25, b.IFD25)
}

func inches(l unit.Length) string { return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) }

func kilograms(m unit.Mass) string { return m.Decimal(unit.Kilogram, 0, unit.Nearest) }

func lbf(i IFD25) string { return i.Force().Decimal(unit.PoundForce, 0, unit.Nearest) }

func spanText(r Range[IFD25]) string {
	lo := r.Low.Force().Decimal(unit.PoundForce, 0, unit.Nearest)
	hi := r.High.Force().Decimal(unit.PoundForce, 0, unit.Nearest)
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}

func densityText(r Range[unit.Density]) string {
	lo := r.Low.Decimal(unit.PoundPerCubicFoot, 2, unit.Nearest)
	hi := r.High.Decimal(unit.PoundPerCubicFoot, 2, unit.Nearest)
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}
