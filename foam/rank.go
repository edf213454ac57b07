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
	var few [32]place // most stocks are no longer
	order := few[:]
	if len(stock) > len(few) {
		order = make([]place, len(stock))
	}
	order = order[:len(stock)]
	for i := range stock {
		p := &order[i]
		p.index, p.distance = i, s.distance(&stock[i])
		x, err := bench.sit(&stock[i])
		if err != nil {
			return unit.InField(unit.Path("stock").At(i), err)
		}
		if x != nil {
			p.sitting = len(bench.sittings)
		}
	}
	reasons := make([]Reason, 0, s.gradeReasons()*len(stock)+bench.room())
	for i := range stock {
		p := &order[i]
		p.from = len(reasons)
		reasons, p.fits = s.judge(reasons, &stock[i], bench.sitting(p.sitting))
		p.to = len(reasons)
	}
	bench.note(reasons)
	slices.SortStableFunc(order, func(a, b place) int {
		if a.fits != b.fits {
			if a.fits {
				return -1
			}
			return 1
		}
		if c := cmp.Compare(a.distance, b.distance); c != 0 {
			return c
		}
		ga, gb := &stock[a.index], &stock[b.index]
		return cmp.Or(s.firmer(ga, gb), cmp.Compare(ga.Density, gb.Density))
	})
	s.Grades = make([]Ranked, len(stock))
	for i := range order {
		p, g := &order[i], &s.Grades[i]
		g.Grade, g.Fits, g.Reasons, g.Sitting = stock[p.index], p.fits, reasons[p.from:p.to:p.to], bench.sitting(p.sitting)
	}
	if best := &s.Grades[0]; !best.Fits && !examples {
		s.because(Reason{Kind: NoneFits, About: best.Grade.Name})
	}
	return nil
}

// place is what a grade is ranked by, and where its verdict stands. It points to
// nothing, so that sorting is cheap.
type place struct {
	index    int
	fits     bool
	distance float64
	from, to int // its reasons
	sitting  int // how many sittings there are up to its own; 0 for none
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
	if s.Request.Wet {
		n++
	}
	return n
}

// judge adds the reasons for and against a grade and tells whether it fits.
func (s *Selection) judge(reasons []Reason, g *Grade, x *Sitting) ([]Reason, bool) {
	fits := true
	say := func(ok bool, kind ReasonKind) *Reason {
		reasons = oneMore(reasons, kind)
		fits = fits && ok
		return &reasons[len(reasons)-1]
	}
	switch {
	case g.IFD25 < s.Accepted.Range.Low:
		say(false, TooSoft).Firmness = s.Accepted.Range
	case g.IFD25 > s.Accepted.Range.High:
		say(false, TooFirm).Firmness = s.Accepted.Range
	default:
		say(true, FirmEnough).Firmness = s.Accepted.Range
	}
	if w := s.Request.Wanted.IFD25; w != 0 {
		r := say(true, FirmnessOff)
		r.Firmness, r.Wanted = only(g.IFD25), only(w)
	}
	switch {
	case g.Density < s.Density.Low*(1-densitySlack):
		say(false, TooLight).Density = s.Density
	case g.Density > s.Density.High*(1+densitySlack):
		say(true, DenserThanAsked).Density = s.Density
	default:
		say(true, DenseEnough).Density = s.Density
	}
	if s.Request.Wet {
		if g.Drains {
			say(true, GradeDrains)
		} else {
			say(false, GradeHoldsWater)
		}
	}
	if f, assumed := g.support(); assumed {
		say(true, SupportUnknown)
	} else if !s.Support.Has(f) {
		say(true, SupportOutside).Ratio = f
	}
	if x != nil {
		if x.BottomsOut() {
			say(false, GradeBottomsOut).Sitter = s.Request.Sitter
		} else {
			r := say(true, GradeSinks)
			r.Sink, r.Sitter, r.Ratio = x.Sink.Value, s.Request.Sitter, x.Margin
		}
	}
	return reasons, fits
}

// oneMore adds a reason to a list whose room was never used, without a copy
// where there is room.
func oneMore(reasons []Reason, kind ReasonKind) []Reason {
	if n := len(reasons); n < cap(reasons) {
		reasons = reasons[:n+1]
		reasons[n].Kind = kind
		return reasons
	}
	return append(reasons, Reason{Kind: kind})
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
// lists, so that a long stock takes no more allocations than a short one.
type trial struct {
	thickness unit.Length
	load      load
	sittings  []Sitting
	layers    []PressedLayer
}

// seat gives the trial of the request, for at most so many grades; an empty one
// when there is no sitter or the foam is not sat on.
func (s *Selection) seat(grades int) (trial, error) {
	r := &s.Request
	if r.Sitter == 0 || !r.Use.Carries() {
		return trial{}, nil
	}
	l, err := Sitter{Mass: r.Sitter}.load()
	if err != nil {
		return trial{}, unit.InField("sitter", err)
	}
	return trial{
		thickness: r.Thickness, load: l,
		sittings: make([]Sitting, 0, grades),
		layers:   make([]PressedLayer, 0, grades),
	}, nil
}

// sit gives the sitting on a grade, still without notes, or nil when nobody sits
// or the curve is flat and says nothing about sinking.
func (t *trial) sit(g *Grade) (*Sitting, error) {
	c := g.curve()
	if cap(t.sittings) == 0 || c.factor() == 1 {
		return nil, nil //nolint:nilnil // nothing to work out
	}
	one := [1]Layer{{Name: g.Name, Thickness: t.thickness, Curve: c}}
	n := len(t.sittings)
	x := &t.sittings[:n+1][n]
	if err := Stack(one[:]).sit(x, &t.load, t.layers[n:n:n+1]); err != nil {
		return nil, err
	}
	t.sittings = t.sittings[:n+1]
	return x, nil
}

// sitting is the n-th sitting, or nil for 0.
func (t *trial) sitting(n int) *Sitting {
	if n == 0 {
		return nil
	}
	return &t.sittings[n-1]
}

// room is how many notes the sittings have.
func (t *trial) room() int {
	n := len(t.sittings)
	if _, ok := ThicknessNote(t.thickness); ok {
		n *= 2
	}
	for i := range t.sittings {
		if p := &t.sittings[i].Pressed; p.Bottomed || p.Strain < shallow {
			n++
		}
	}
	return n
}

// note puts the notes of the sittings behind a list with room for them.
func (t *trial) note(list []Reason) {
	for i := range t.sittings {
		x, from := &t.sittings[i], len(list)
		list = x.notes(list)
		x.Notes = list[from:len(list):len(list)]
	}
}
