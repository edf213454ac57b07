package thread

import (
	"encoding/json"
	"iter"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Need asks for thread, needle and stitch.
type Need struct {
	// Goods the seam goes through. Required.
	Goods Goods `json:"goods"`
	// Layers the needle passes, 1 to 20. Required.
	Layers int `json:"layers"`
	// Purpose of the stitching; the zero value is a seam.
	Purpose Purpose `json:"purpose"`
	// Exposure is where the piece will live; it chooses the fibre. The zero
	// value is indoors.
	Exposure Exposure `json:"exposure"`
	// Strength is what the seam must carry per length; zero asks for nothing.
	// It is met on paper only: see Strength for what the estimate is worth.
	Strength LineForce `json:"strength,omitempty"`
	// Size of the thread when it is given; zero lets Recommend choose.
	Size Size `json:"size,omitempty"`
	// Fibre of the thread when it is given; zero lets Recommend choose.
	Fibre Fibre `json:"fibre,omitempty"`
	// Needle in the machine when it is given; zero lets Recommend choose.
	Needle Needle `json:"needle,omitempty"`
}

// Purpose is what stitching is for. The zero value is a seam.
//
// Its values: JoinSeam, TopStitch.
type Purpose uint8

// Purposes of stitching.
const (
	// JoinSeam joins panels and welt.
	JoinSeam Purpose = iota
	// TopStitch lies on the face and is meant to be seen.
	TopStitch
)

var purposeNames = []string{"seam", "top-stitch"}

// String names the purpose.
func (p Purpose) String() string { return enum.Name(p, "Purpose", purposeNames) }

// MarshalText writes the name. It wraps unit.ErrUnknown.
func (p Purpose) MarshalText() ([]byte, error) { return enum.Text(p, "purpose", purposeNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (p *Purpose) UnmarshalText(text []byte) error {
	return enum.Read(p, text, "purpose", purposeNames)
}

// Recommendation is one choice of thread, needle and stitch.
type Recommendation struct {
	Thread Thread `json:"thread"`
	// FibreReason says why its fibre, FibreBasis what founds that; zero when
	// the fibre was given.
	FibreReason string     `json:"fibre_reason"`
	FibreBasis  cite.Basis `json:"fibre_basis,omitzero"`
	// Bobbin is the thread on the bobbin, as in the needle. BobbinFrom is the
	// lightest that will do: one size less in top-stitching.
	Bobbin     Thread `json:"bobbin"`
	BobbinFrom Size   `json:"bobbin_from"`
	// Layers the needle passes.
	Layers int `json:"layers"`
	// Needle is the size to start with, Needles what may be tried.
	Needle  Needle      `json:"needle"`
	Needles NeedleRange `json:"needles"`
	// Point is the family of points to start with, see NeedlePointFor.
	Point      NeedlePoint `json:"point"`
	PointBasis cite.Basis  `json:"point_basis"`
	// RoundWillDo says that a round point will do as well: all but leather.
	RoundWillDo bool `json:"round_will_do,omitempty"`
	// StitchLength is the length to start with, Density what is usual.
	StitchLength unit.Length `json:"stitch_length"`
	Density      StitchRange `json:"density"`
	// SeamStrength is an estimate with the cautious strength of the thread
	// and its loop factor, 1.25 for polyester.
	SeamStrength LineForce `json:"seam_strength"`
	// Reason says in one line why this size, Basis what founds it.
	Reason string     `json:"reason"`
	Basis  cite.Basis `json:"basis"`
	// Flags are bad matches; none is good.
	Flags Flags `json:"flags"`
}

// Advice is a ranked list of recommendations, best first. The zero value is
// empty.
type Advice struct {
	picks [maxPicks]Recommendation
	n     int
}

const maxPicks = 3

// Len gives the number of recommendations.
func (a *Advice) Len() int { return a.n }

// Best gives the first recommendation; its zero value when there is none.
func (a *Advice) Best() Recommendation { return a.picks[0] }

// All ranges over the recommendations, best first.
func (a *Advice) All() iter.Seq2[int, Recommendation] {
	return func(yield func(int, Recommendation) bool) {
		for i := range a.n {
			if !yield(i, a.picks[i]) {
				return
			}
		}
	}
}

// MarshalJSON writes the list of recommendations.
func (a Advice) MarshalJSON() ([]byte, error) { return json.Marshal(a.picks[:a.n]) }

// UnmarshalJSON reads a list of recommendations, three at the most; a longer
// one wraps unit.ErrRange.
func (a *Advice) UnmarshalJSON(data []byte) error {
	var picks []Recommendation
	if err := json.Unmarshal(data, &picks); err != nil {
		return err
	}
	if err := check.Count("number of recommendations", len(picks), 0, maxPicks); err != nil {
		return err
	}
	*a = Advice{n: len(picks)}
	copy(a.picks[:], picks)
	return nil
}

// choice is a size for goods with its reason.
type choice struct {
	size   Size
	reason string
}

// choices ranks sizes by goods, for seams and for top-stitching.
var choices = [...][2][maxPicks]choice{
	LightWoven - 1: {
		{{Size46, "light cloth puckers under heavier thread"}, {Size69, "one thread for the whole piece"}, {Size33, "finest lining and muslin"}},
		{{Size69, "one step over the seam thread, to be seen"}, {Size46, "plain edge"}, {Size92, "bold edge"}},
	},
	Woven - 1: {
		{{Size69, "usual size for upholstery cloth"}, {Size92, "heavy wear and thick weaves"}, {Size46, "thin cloth that shows needle holes"}},
		{{Size92, "one step over the seam thread, to be seen"}, {Size69, "plain edge"}, {Size138, "bold edge"}},
	},
	Canvas - 1: {
		{{Size92, "usual size for duck"}, {Size138, "heavy duck and long wear"}, {Size69, "light duck"}},
		{{Size138, "one step over the seam thread, to be seen"}, {Size92, "plain edge"}, {Size207, "bold edge"}},
	},
	Vinyl - 1: {
		{{Size69, "small holes keep coated goods from tearing along the seam"}, {Size92, "heavy wear"}, {Size138, "marine and vehicle seats"}},
		{{Size92, "one step over the seam thread, to be seen"}, {Size138, "bold edge"}, {Size69, "plain edge"}},
	},
	Leather - 1: {
		{{Size92, "usual size for upholstery leather"}, {Size69, "thin leather"}, {Size138, "thick leather and heavy wear"}},
		{{Size138, "one step over the seam thread, to be seen"}, {Size92, "plain edge"}, {Size207, "bold edge"}},
	},
	HeavyLeather - 1: {
		{{Size138, "lightest size that suits strap leather"}, {Size207, "thick leather"}, {Size277, "very thick leather"}},
		{{Size207, "one step over the seam thread, to be seen"}, {Size138, "plain edge"}, {Size277, "bold edge"}},
	},
}

const manyLayers = 5

// Recommend ranks thread, needle and stitch length for goods and layers. When
// the request gives a size, fibre or needle, every recommendation keeps it
// and Flags says what does not go together; what has fewer flags ranks first.
// Five layers or more take the coarse end of the needle range and the long end
// of the stitch range. Heavier thread never gets a finer needle. Errors are
// *unit.InputError values that wrap unit.ErrUnknown, unit.ErrRange or
// unit.ErrNotFinite.
//
// Recommend does not allocate unless it fails.
func Recommend(r Need) (Advice, error) {
	var a Advice
	if err := r.check(); err != nil {
		return a, err
	}
	for i := range choices[r.Goods-1][r.Purpose] {
		c := &choices[r.Goods-1][r.Purpose][i]
		if r.Size == 0 || r.Size == c.size {
			a.insert(&r, c)
		}
	}
	if a.n == 0 { // a size given that is not among the choices
		a.insert(&r, &choice{r.Size, "size as given"})
	}
	return a, nil
}

// insert puts a choice behind those that have no more flags.
func (a *Advice) insert(r *Need, c *choice) {
	p := &a.picks[a.n]
	a.n++
	r.pick(p, c)
	for i := a.n - 1; i > 0 && a.picks[i].Flags.count() < a.picks[i-1].Flags.count(); i-- {
		a.picks[i], a.picks[i-1] = a.picks[i-1], a.picks[i]
	}
}

var choiceBasis = practice("")

// pick fills in the recommendation for one choice of size.
func (r *Need) pick(p *Recommendation, c *choice) {
	p.Reason, p.Basis = c.reason, choiceBasis
	e := &exposureLines[r.Exposure]
	p.Thread, p.FibreReason, p.FibreBasis = Thread{e.fibre, c.size}, e.reason, e.basis
	if r.Fibre != 0 {
		p.Thread.Fibre, p.FibreReason, p.FibreBasis = r.Fibre, "fibre as given", cite.Basis{}
	}
	p.Bobbin, p.BobbinFrom, p.Layers = p.Thread, c.size, r.Layers
	if r.Purpose == TopStitch {
		p.BobbinFrom = max(c.size-1, lightest)
	}
	p.Needles = *fit(c.size, r.Goods)
	p.Needle = p.Needles.From
	if r.Layers >= manyLayers {
		p.Needle = p.Needles.To
	}
	if r.Needle != 0 {
		p.Needle = r.Needle
	}
	p.Point, p.PointBasis = usualPoints[r.Goods-1].point, usualPoints[r.Goods-1].basis
	p.RoundWillDo = !r.Goods.leathery()
	d := &densities[r.Goods-1]
	p.stitch(d.StitchRange, d.length(r.Purpose, r.Layers))
	p.Flags |= r.flags(p)
}

// stitch sets the stitch length, for goods whose usual density is d.
func (p *Recommendation) stitch(d StitchRange, length unit.Length) {
	p.Density, p.StitchLength = d, length
	p.SeamStrength = cautiousSeam(p.Thread, length)
	switch d.compare(length) {
	case -1:
		p.Flags |= StitchesTooClose
	case 1:
		p.Flags |= StitchesTooFar
	}
}

// cautiousSeam estimates a lockstitch with the cautious strength of the
// thread.
func cautiousSeam(t Thread, stitch unit.Length) LineForce {
	k := unit.Ratio(1.5)
	if t.Fibre == Polyester {
		k = 1.25
	}
	return stitching(k, stitch, sizeTable[t.Fibre-1][t.Size-1].Cautious.value)
}

// length is the stitch length that the goods ask for.
func (d *densityLine) length(p Purpose, layers int) unit.Length {
	if p == TopStitch || layers >= manyLayers {
		return d.longer()
	}
	return d.usual
}

// longer gives the long end of the range, down to a tenth of a millimetre.
func (d *densityLine) longer() unit.Length {
	const step = 100 * unit.Micrometre
	return unit.Length(float64(unit.Inch)/float64(d.From)) / step * step
}

func (r *Need) flags(p *Recommendation) Flags {
	var f Flags
	if p.Needle < finestNeedle(p.Thread.Size) {
		f |= NeedleTooFine
	} else if p.Needle < p.Needles.From {
		f |= NeedleFine
	}
	if p.Needle > p.Needles.To {
		f |= NeedleTooCoarse
	}
	if p.Thread.Fibre == Nylon {
		f |= exposureLines[r.Exposure].nylon
	}
	if p.SeamStrength < r.Strength {
		f |= ThreadTooWeak
	}
	lo, hi := heaviest, lightest
	for i := range choices[r.Goods-1][r.Purpose] {
		c := &choices[r.Goods-1][r.Purpose][i]
		lo, hi = min(lo, c.size), max(hi, c.size)
	}
	if p.Thread.Size < lo {
		f |= ThreadTooLight
	}
	if p.Thread.Size > hi {
		f |= ThreadTooHeavy
	}
	return f
}

func (r *Need) check() error {
	if err := r.Goods.check("goods"); err != nil {
		return err
	}
	if err := check.Count("layers", r.Layers, 1, 20); err != nil {
		return err
	}
	if err := enum.Check(r.Purpose, "purpose", purposeNames); err != nil {
		return err
	}
	if err := enum.Check(r.Exposure, "exposure", exposureNames); err != nil {
		return err
	}
	if err := check.Between("strength", r.Strength, 0, strongest); err != nil {
		return err
	}
	if r.Size != 0 {
		if err := r.Size.check("size"); err != nil {
			return err
		}
	}
	if r.Fibre != 0 {
		if err := r.Fibre.check("fibre"); err != nil {
			return err
		}
	}
	if r.Needle != 0 {
		return r.Needle.check("needle")
	}
	return nil
}
