package foam

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/unit"
)

// rank judges the stock and orders it: grades that fit first, then by the sum
// of two relative distances, of firmness from the target and of density from
// its range; of equals the one that suits the base, then the lighter. It also
// sits on the target.
func (s *Selection) rank() error {
	stock, examples := s.Request.Stock, false
	if len(stock) == 0 {
		stock, examples = exampleGrades[:], true
	}
	bench, err := s.seat(len(stock) + 1)
	if err != nil {
		return err
	}
	if s.Sitting, err = bench.sit(&Grade{Density: s.Density.Low, IFD25: s.Target}); err != nil {
		return err
	}
	s.sink()
	if examples {
		s.because(Reason{Kind: ExampleStock})
	}
	order := make([]place, len(stock))
	reasons := make([]Reason, 0, s.gradeReasons()*len(stock))
	for i := range stock {
		p := &order[i]
		p.index, p.distance = i, s.distance(&stock[i])
		if p.sitting, err = bench.sit(&stock[i]); err != nil {
			return unit.InField(unit.Path("stock").At(i), err)
		}
		from := len(reasons)
		reasons, p.fits = s.judge(reasons, &stock[i], p.sitting)
		p.reasons = reasons[from:len(reasons):len(reasons)]
	}
	slices.SortStableFunc(order, func(a, b place) int {
		if a.fits != b.fits {
			if a.fits {
				return -1
			}
			return 1
		}
		ga, gb := &stock[a.index], &stock[b.index]
		return cmp.Or(cmp.Compare(a.distance, b.distance), s.firmer(ga, gb), cmp.Compare(ga.Density, gb.Density))
	})
	s.Grades = make([]Ranked, len(stock))
	for i, p := range order {
		s.Grades[i] = Ranked{Grade: stock[p.index], Fits: p.fits, Reasons: p.reasons, Sitting: p.sitting}
	}
	if best := &s.Grades[0]; !best.Fits && !examples {
		s.because(Reason{Kind: NoneFits, About: best.Grade.Name})
	}
	return nil
}

// place is what a grade is ranked by, and its verdict.
type place struct {
	index    int
	fits     bool
	distance float64
	reasons  []Reason
	sitting  *Sitting
}

// gradeReasons is room for the reasons of any grade.
func (s *Selection) gradeReasons() int {
	n := 3 // of firmness, density and support
	if s.Request.Wanted != (Wanted{}) {
		n++
	}
	if s.Sitting != nil {
		n++
	}
	return n
}

// judge adds the reasons for and against a grade and tells whether it fits.
func (s *Selection) judge(reasons []Reason, g *Grade, x *Sitting) ([]Reason, bool) {
	fits := true
	say := func(ok bool, r Reason) {
		reasons = append(reasons, r)
		fits = fits && ok
	}
	switch {
	case g.IFD25 < s.Accepted.Range.Low:
		say(false, Reason{Kind: TooSoft, Firmness: s.Accepted.Range})
	case g.IFD25 > s.Accepted.Range.High:
		say(false, Reason{Kind: TooFirm, Firmness: s.Accepted.Range})
	default:
		say(true, Reason{Kind: FirmEnough, Firmness: s.Accepted.Range})
	}
	if w := s.Request.Wanted.IFD25; w != 0 {
		say(true, Reason{Kind: FirmnessOff, Firmness: only(g.IFD25), Wanted: only(w)})
	}
	switch {
	case g.Density < s.Density.Low*(1-densitySlack):
		say(false, Reason{Kind: TooLight, Density: s.Density})
	case g.Density > s.Density.High*(1+densitySlack):
		say(true, Reason{Kind: DenserThanAsked, Density: s.Density})
	default:
		say(true, Reason{Kind: DenseEnough, Density: s.Density})
	}
	if f, assumed := g.support(); assumed {
		say(true, Reason{Kind: SupportUnknown})
	} else if !s.Support.Has(f) {
		say(true, Reason{Kind: SupportOutside, Ratio: f})
	}
	if x != nil {
		if x.BottomsOut() {
			say(false, Reason{Kind: GradeBottomsOut, Sitter: s.Request.Sitter})
		} else {
			say(true, Reason{Kind: GradeSinks, Sink: x.Sink.Value, Sitter: s.Request.Sitter, Ratio: x.Margin})
		}
	}
	return reasons, fits
}

// distance is how far a grade is from what is asked, as a sum of two relative
// distances: of firmness from the target, of density from its range.
func (s *Selection) distance(g *Grade) float64 {
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
func (s *Selection) firmer(a, b *Grade) int {
	if s.Request.Base == Board {
		return cmp.Compare(b.IFD25, a.IFD25)
	}
	return cmp.Compare(a.IFD25, b.IFD25)
}

// sink says what the target does under the sitter.
func (s *Selection) sink() {
	x, who := s.Sitting, s.Request.Sitter
	switch {
	case x == nil:
	case x.BottomsOut():
		s.because(Reason{Kind: TargetBottomsOut, Firmness: only(s.Target), Sitter: who})
	default:
		s.because(Reason{Kind: TargetSinks, Sitter: who, Sink: x.Sink.Value, Thickness: only(s.Request.Thickness),
			Remaining: x.Remaining.Value, Ratio: x.Margin})
	}
}

// trial sits one sitter on single layers of many grades. The sittings share
// three lists, so that a long stock takes no more allocations than a short one.
type trial struct {
	thickness unit.Length
	load      load
	sittings  []Sitting
	layers    []PressedLayer
	notes     []Reason
}

// seat gives the trial of the request, for at most so many grades; nil when
// there is no sitter or the foam is not sat on.
func (s *Selection) seat(grades int) (*trial, error) {
	r := &s.Request
	if r.Sitter == 0 || !(satOn | one(Berth)).has(uint8(r.Use)) {
		return nil, nil //nolint:nilnil // nothing to work out
	}
	l, err := Sitter{Mass: r.Sitter}.load()
	if err != nil {
		return nil, unit.InField("sitter", err)
	}
	return &trial{
		thickness: r.Thickness, load: l,
		sittings: make([]Sitting, 0, grades),
		layers:   make([]PressedLayer, 0, grades),
		notes:    make([]Reason, 0, mostNotes*grades),
	}, nil
}

// sit gives the sitting on a grade, or nil without a trial or when the curve is
// flat and says nothing about sinking.
func (t *trial) sit(g *Grade) (*Sitting, error) {
	if t == nil {
		return nil, nil //nolint:nilnil // nothing to work out
	}
	c := g.curve()
	if c.factor() == 1 {
		return nil, nil //nolint:nilnil // nothing to work out
	}
	one := [1]Layer{{Name: g.Name, Thickness: t.thickness, Curve: c}}
	layer, note := len(t.layers), len(t.notes)
	x, err := Stack(one[:]).sit(&t.load, t.layers[layer:], t.notes[note:])
	if err != nil {
		return nil, err
	}
	t.layers, t.notes = t.layers[:layer+len(x.Pressed.Layers)], t.notes[:note+len(x.Notes)]
	x.Pressed.Layers = slices.Clip(x.Pressed.Layers)
	x.Notes = slices.Clip(x.Notes)
	t.sittings = append(t.sittings, x)
	return &t.sittings[len(t.sittings)-1], nil
}
