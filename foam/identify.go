package foam

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// Weighing is a block of foam measured with a tape and put on a scale.
type Weighing struct {
	Block Block     `json:"block"`
	Mass  unit.Mass `json:"mass"`
	// TapeError and ScaleError are how far a reading may be off; zero means it
	// is taken as exact.
	TapeError  unit.Length `json:"tape_error,omitzero"`
	ScaleError unit.Mass   `json:"scale_error,omitzero"`
}

// WeighedDensity gives the density of a weighed block, mass / volume, with the
// extremes that the errors of tape and scale allow. A block must be larger than
// the tape error in every direction and heavier than the scale error.
func WeighedDensity(w Weighing) (Estimated[unit.Density], error) {
	none := Estimated[unit.Density]{}
	if err := w.Block.Check(); err != nil {
		return none, unit.InField("block", err)
	}
	if err := check.Above("mass", w.Mass, 1000*unit.Kilogram); err != nil {
		return none, err
	}
	least := min(w.Block.Length, w.Block.Width, w.Block.Thickness)
	if err := check.Length("tape_error", w.TapeError, 0, least/2); err != nil {
		return none, err
	}
	if err := check.Between("scale_error", w.ScaleError, 0, w.Mass/2); err != nil {
		return none, err
	}
	at := func(m unit.Mass, by unit.Length) (unit.Density, error) {
		b := Block{Length: w.Block.Length + by, Width: w.Block.Width + by, Thickness: w.Block.Thickness + by}
		v, err := b.Volume()
		if err != nil {
			return 0, unit.InField("block", err)
		}
		d, err := m.Over(v)
		if err != nil {
			return 0, unit.InField("block", err)
		}
		return d, nil
	}
	d, err := at(w.Mass, 0)
	if err != nil {
		return none, err
	}
	if err := checkDensity("density", d); err != nil {
		return none, err
	}
	lo, err := at(w.Mass-w.ScaleError, w.TapeError)
	if err != nil {
		return none, err
	}
	hi, err := at(w.Mass+w.ScaleError, -w.TapeError)
	if err != nil {
		return none, err
	}
	kind := cite.Estimate
	if w.TapeError == 0 && w.ScaleError == 0 {
		kind = cite.Exact
	}
	return Estimated[unit.Density]{Value: d, Low: lo, High: hi, Kind: kind, Basis: cite.Basis{Status: cite.Derived}}, nil
}

// BenchTest is a home-made indentation test: a flat round disc laid on the middle of
// the foam, a known weight on it, and the sink read after a minute. Press the
// foam down to three quarters twice and let it rest six minutes first.
type BenchTest struct {
	Disc      unit.Length `json:"disc"`      // diameter, 10 to 35 cm; the test plate has 202.7 mm
	Weight    unit.Mass   `json:"weight"`    // disc and all
	Sink      unit.Length `json:"sink"`      // 5 to 65 % of the thickness
	Thickness unit.Length `json:"thickness"` // of the foam, at least 1 in
	SinkError unit.Length `json:"sink_error,omitzero"`
	// Support is the support factor when known; zero means it may be anything
	// from 1.8 to 3.5.
	Support unit.Ratio `json:"support,omitzero"`
}

// methodSpread is the error of a home-made test beside that of its readings.
// Laboratories testing one foam have differed by 10 to 30 %.
const methodSpread = 0.25

// IdentifyIFD25 estimates IFD25 from a bench test. The disc's pressure is put on
// the 50 in² plate and the load-deflection curve run back to 25 %:
//
//	F = weight·g · 50 in² / (π/4·disc²)
//	IFD25 = F · 0.25/ε             for ε = sink/thickness up to 0.25
//	IFD25 = F / S^((ε−0.25)/0.40)  beyond
//
// The bars hold the reading error, the unknown support factor and 25 % for the
// method. A sink near a quarter of the thickness gives the narrowest bars: change
// the weight until it is. A disc much smaller than the plate reads firm, since
// the stretched surface round it pulls.
func IdentifyIFD25(b BenchTest) (Estimated[IFD25], error) {
	none := Estimated[IFD25]{}
	if err := check.Length("disc", b.Disc, 100*unit.Millimetre, 350*unit.Millimetre); err != nil {
		return none, err
	}
	if err := check.Above("weight", b.Weight, 200*unit.Kilogram); err != nil {
		return none, err
	}
	if err := check.Length("thickness", b.Thickness, unit.Inch, unit.Metre); err != nil {
		return none, err
	}
	if err := check.Length("sink", b.Sink, 0, b.Thickness); err != nil {
		return none, err
	}
	if err := check.Length("sink_error", b.SinkError, 0, b.Thickness/20); err != nil {
		return none, err
	}
	slo, shi, s := float64(supportRange.Low), float64(supportRange.High), usualSupport
	if b.Support != 0 {
		if err := check.Ratio("support", b.Support, 1, 10); err != nil {
			return none, err
		}
		s = float64(b.Support)
		slo, shi = s, s
	}
	e := float64(b.Sink) / float64(b.Thickness)
	if e < leastBenchStrain {
		return none, check.Refuse("sink", b.Sink.String(), unit.ErrRange, "at least 5 % of the thickness: use more weight")
	}
	if e > deep {
		return none, check.Refuse("sink", b.Sink.String(), ErrBeyondCurve, "at most 65 % of the thickness: use less weight")
	}
	p, err := discPressure(b.Weight, 1, b.Disc)
	if err != nil {
		return none, err
	}
	f := float64(p) * Plate.SquareMetres()
	de := float64(b.SinkError) / float64(b.Thickness)
	at := func(e, s float64) float64 {
		c := Curve{IFD25: 1, IFD65: IFD65(s)}
		return f / c.force(math.Min(e, deep))
	}
	// IFD25 falls with the sink and with the support factor.
	lo := at(e+de, shi) * (1 - methodSpread)
	hi := at(e-de, slo) * (1 + methodSpread)
	return Estimated[IFD25]{
		Value: IFD25(at(e, s)), Low: IFD25(lo), High: IFD25(hi), Kind: cite.Estimate,
		Basis: cite.Basis{Status: cite.Derived, Note: fmt.Sprintf("bench test at %.0f %%; the method alone may be off by 25 %%", 100*e)},
	}, nil
}

const (
	// usualSupport is taken between the ends of the usual range when nothing
	// is known; the bars hold the whole range.
	usualSupport = 2.2
	// leastBenchStrain is the shallowest sink that can be read.
	leastBenchStrain = 0.05
)

// Reuse says what to do with old foam. The zero value is none.
//
// Its values: Keep, Doubt, Replace.
type Reuse uint8

// The verdicts.
const (
	Keep    Reuse = iota + 1 // sound: it can be used again
	Doubt                    // between sound and worn: show the customer
	Replace                  // worn
)

var reuseNames = []string{"", "keep", "doubt", "replace"}

// String gives the name in lower case.
func (v Reuse) String() string { return enum.Name(v, "Reuse", reuseNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (v Reuse) MarshalText() ([]byte, error) { return enum.Text(v, "reuse", reuseNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (v *Reuse) UnmarshalText(text []byte) error {
	return enum.Read(v, text, "reuse", reuseNames)
}

// The thresholds of height loss: up to a tenth is called desirable, more than
// 15 % poor.
const (
	SoundSet unit.Ratio = 0.10
	PoorSet  unit.Ratio = 0.15
)

// OldFoam is what was found out about foam from an old piece. Zero fields were
// not measured; at least one pair must be.
type OldFoam struct {
	// New and Now are the thickness it was made with and has now, where the
	// sitter sat.
	New unit.Length `json:"new,omitzero"`
	Now unit.Length `json:"now,omitzero"`
	// Crumbles says it sheds crumbs or stays dented when pinched.
	Crumbles bool `json:"crumbles,omitempty"`
	// Density as weighed, for the duty it is to serve.
	Density unit.Density `json:"density,omitzero"`
	Duty    Duty         `json:"duty,omitzero"`
	Use     Use          `json:"use,omitzero"`
}

// Judgement is a verdict with what it rests on.
type Judgement struct {
	Verdict  Reuse             `json:"verdict"`
	Set      unit.Ratio        `json:"set"` // height loss; zero when not measured
	Reasons  []Reason          `json:"reasons"`
	Cautions []caution.Caution `json:"cautions"`
	Basis    cite.Basis        `json:"basis"`
}

// Judge says whether old foam may be used again: by its height loss against the
// thresholds SoundSet and PoorSet, by whether it crumbles, and by its density
// against that usual for the duty. Old foam carries no certificate: where a fire
// rule applies it must be replaced or tested whatever the verdict.
func Judge(o OldFoam) (Judgement, error) {
	j := Judgement{Verdict: Keep, Basis: cite.Basis{Status: cite.CommonPractice, Note: "thresholds of the 90 % laboratory test, used for height lost in service"}}
	worse := func(v Reuse, r Reason) {
		j.Verdict = max(j.Verdict, v)
		j.Reasons = append(j.Reasons, r)
	}
	if o.New != 0 || o.Now != 0 {
		if err := check.Positive("new", o.New); err != nil {
			return Judgement{}, err
		}
		if err := check.Length("now", o.Now, 0, o.New); err != nil {
			return Judgement{}, err
		}
		var err error
		if j.Set, err = CompressionSet(o.New, o.Now); err != nil {
			return Judgement{}, err
		}
		switch {
		case j.Set > PoorSet:
			worse(Replace, Reason{Kind: HeightPoor, Ratio: j.Set})
		case j.Set > SoundSet:
			worse(Doubt, Reason{Kind: HeightDoubtful, Ratio: j.Set})
		default:
			worse(Keep, Reason{Kind: HeightSound, Ratio: j.Set})
		}
	}
	if o.Crumbles {
		worse(Replace, Reason{Kind: Crumbling})
	}
	if o.Density != 0 {
		v, why, err := o.dense()
		if err != nil {
			return Judgement{}, err
		}
		worse(v, why)
	}
	if len(j.Reasons) == 0 {
		return Judgement{}, check.Required("new", "thickness new and now, crumbling, or density with use and duty")
	}
	var err error
	if j.Cautions, err = caution.ByID("F12", "H4"); err != nil {
		return Judgement{}, err
	}
	j.Reasons = append(j.Reasons, Reason{Kind: NoCertificate})
	return j, nil
}

// dense holds the density against that usual for the use and duty.
func (o OldFoam) dense() (Reuse, Reason, error) {
	if err := checkDensity("density", o.Density); err != nil {
		return 0, Reason{}, err
	}
	if err := given("use", o.Use, useNames); err != nil {
		return 0, Reason{}, err
	}
	if err := given("duty", o.Duty, dutyNames); err != nil {
		return 0, Reason{}, err
	}
	usual, _ := usualDensity(o.Use, o.Duty)
	if o.Density < usual.Low*(1-densitySlack) {
		return Doubt, Reason{Kind: OldDensityLight, Density: usual, Use: o.Use, Duty: o.Duty}, nil
	}
	return Keep, Reason{Kind: OldDensityUsual, Use: o.Use, Duty: o.Duty}, nil
}
