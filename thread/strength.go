package thread

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// LoadedSeam is a seam under load across its line: two layers of cloth laid one on
// the other and sewn in one row.
type LoadedSeam struct {
	// Stitch is 301 or 401, or any type when LoopFactor is given.
	Stitch Stitch `json:"stitch"`
	// StitchLength is from 0.4 mm to 1 in.
	StitchLength unit.Length `json:"stitch_length"`
	// Needle is the breaking strength of the needle thread, Under that of
	// the bobbin or looper thread; zero Under is the same thread. Up to 5 kN.
	Needle unit.Force `json:"needle"`
	Under  unit.Force `json:"under,omitempty"`
	// LoopFactor is k, the strength of a stitch as a share of its thread's:
	// two legs carry, each weakened by the bend. Zero takes that of the
	// stitch from LoopFactors; at most 2.
	LoopFactor unit.Ratio `json:"loop_factor,omitempty"`
	// Goods is the breaking strength of the goods per width, 1 N/m to
	// 10 MN/m; zero when unknown.
	Goods LineForce `json:"goods,omitempty"`
	// Material of the goods; zero is woven cloth.
	Material Goods `json:"material,omitempty"`
}

// Governs says what breaks first. The zero value is the thread.
//
// Its values: ThreadGoverns, GoodsGovern.
type Governs uint8

// What breaks first.
const (
	// ThreadGoverns: the stitching fails before the goods, and can be sewn
	// again. Also the answer when the strength of the goods is unknown.
	ThreadGoverns Governs = iota
	// GoodsGovern: the goods tear before the stitching fails.
	GoodsGovern
)

var governsNames = []string{"thread", "goods"}

// String names what breaks first.
func (g Governs) String() string { return enum.Name(g, "Governs", governsNames) }

// MarshalText writes the name. It wraps unit.ErrUnknown.
func (g Governs) MarshalText() ([]byte, error) { return enum.Text(g, "governs", governsNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (g *Governs) UnmarshalText(text []byte) error {
	return enum.Read(g, text, "governs", governsNames)
}

// SeamStrength is an estimate of what a seam carries per length.
type SeamStrength struct {
	// Thread is what the stitching alone carries.
	Thread LineForce `json:"thread"`
	// Seam is the lesser of Thread and the goods.
	Seam    LineForce `json:"seam"`
	Governs Governs   `json:"governs"`
	// Efficiency is the strength of the stitching as a share of that of the
	// goods, 100 % or more when the goods govern; a gap when the strength of
	// the goods is unknown.
	Efficiency Cell[unit.Ratio] `json:"efficiency"`
	Kind       cite.Kind        `json:"kind"`
	Basis      cite.Basis       `json:"basis"`
	Cautions   []string         `json:"cautions"`
}

// LoopFactor is the strength of a stitch as a share of its thread's.
type LoopFactor struct {
	Stitch Stitch     `json:"stitch"`
	Thread string     `json:"thread"`
	Factor unit.Ratio `json:"factor"`
	Basis  cite.Basis `json:"basis"`
}

var loopFactors = [...]LoopFactor{
	{Lockstitch301, "any", 1.5, practice("average loop strength of sewing threads")},
	{Chainstitch401, "any", 1.7, practice("more thread per length than 301")},
	{Lockstitch301, "filament polyester, cautious", 1.25, memory("twice a loop strength of 60 to 65 %")},
	{Lockstitch301, "filament nylon 6.6", 1.5, memory("twice a loop strength of 70 to 80 %")},
	{Lockstitch301, "textured nylon 6.6", 1.85, memory("twice a loop strength of 90 to 95 %")},
	{Lockstitch301, "spun polyester", 1.3, practice("")},
	{Lockstitch301, "core-spun polyester", 1.4, practice("")},
	{Saddle209, "single thread by hand", 0.75, practice("")},
}

// LoopFactors lists loop factors; the first of a stitch is the one Strength
// uses.
func LoopFactors() []LoopFactor { return slices.Clone(loopFactors[:]) }

const (
	safetyCaution  = "An estimate. Load-bearing and safety seams need a specification by licensed practice and a test."
	leatherCaution = "The estimate is made for woven cloth: leather and coated goods tear along the line of holes, so test a sample."
	tearCaution    = "The goods tear before the stitching: longer stitches or lighter thread would let the seam fail where it can be resewn."
)

// Strength estimates what a seam carries across its line, per length:
//
//	F = k × S × min(needle thread, under thread)
//
// with S stitches per length and k the loop factor of the stitch; the weaker
// thread governs. A seam carries no more than the goods. Errors are
// *unit.InputError values that name the field and wrap unit.ErrRange,
// unit.ErrNotFinite, unit.ErrForgottenUnit, unit.ErrUnknown or
// unit.ErrRequired.
func Strength(l LoadedSeam) (SeamStrength, error) {
	if err := l.check(); err != nil {
		return SeamStrength{}, err
	}
	k, basis := l.LoopFactor, derived("loop factor as given")
	if k == 0 {
		i := slices.IndexFunc(loopFactors[:], func(f LoopFactor) bool { return f.Stitch == l.Stitch })
		if i < 0 {
			return SeamStrength{}, check.Required("loop_factor", "a loop factor, since none is known for "+l.Stitch.String())
		}
		k, basis = loopFactors[i].Factor, loopFactors[i].Basis
	}
	weaker := l.Needle
	if l.Under > 0 {
		weaker = min(weaker, l.Under)
	}
	s := SeamStrength{
		Thread:     stitching(k, l.StitchLength, weaker),
		Kind:       cite.Estimate,
		Basis:      basis,
		Efficiency: gap[unit.Ratio]("the strength of the goods is not given"),
		Cautions:   []string{safetyCaution},
	}
	s.Seam = s.Thread
	if l.Goods > 0 {
		s.Efficiency = cell(unit.Ratio(s.Thread/l.Goods), basis)
		if l.Goods < s.Thread {
			s.Seam, s.Governs = l.Goods, GoodsGovern
			s.Cautions = append(s.Cautions, tearCaution)
		}
	}
	if l.Material == Vinyl || l.Material.leathery() {
		s.Cautions = append(s.Cautions, leatherCaution)
	}
	return s, nil
}

// stitching gives k × thread / stitch length.
func stitching(k unit.Ratio, stitch unit.Length, f unit.Force) LineForce {
	return LineForce(float64(k) * f.Newtons() / stitch.Metres())
}

// SeamEfficiency gives the strength of a tested seam as a share of that of the
// goods. Both are above zero, up to 10 MN/m; it wraps unit.ErrRange or
// unit.ErrNotFinite.
func SeamEfficiency(seam, goods LineForce) (unit.Ratio, error) {
	if err := check.Above("seam", seam, strongest); err != nil {
		return 0, err
	}
	if err := check.Above("goods", goods, strongest); err != nil {
		return 0, err
	}
	r := unit.Ratio(seam / goods)
	return r, r.Check()
}

const (
	strongest       = 1e7 * NewtonPerMetre
	strongestThread = 5 * unit.Kilonewton
)

func (l LoadedSeam) check() error {
	if _, err := l.Stitch.Type(); err != nil {
		return err
	}
	if err := check.Length("stitch_length", l.StitchLength, shortestStitch, longestStitch); err != nil {
		return err
	}
	if err := check.Above("needle", l.Needle, strongestThread); err != nil {
		return err
	}
	if err := check.Between("under", l.Under, 0, strongestThread); err != nil {
		return err
	}
	if err := check.Ratio("loop_factor", l.LoopFactor, 0, 2); err != nil {
		return err
	}
	if l.Goods != 0 {
		if err := check.Between("goods", l.Goods, NewtonPerMetre, strongest); err != nil {
			return err
		}
	}
	if l.Material != 0 {
		return l.Material.check("material")
	}
	return nil
}
