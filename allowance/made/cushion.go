package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// CushionFit is how a cover sits on its filling: [NeutralFit] or [SnugFit]. Both
// customs are in use, and they differ by two seam allowances in every direction.
// The zero value is the neutral fit.
type CushionFit uint8

const (
	// NeutralFit makes the cover, seam to seam, the size of the filling: plates
	// are cut to the filling and two allowances.
	NeutralFit CushionFit = iota
	// SnugFit cuts the pieces to the size of the filling, so that the cover is
	// two allowances smaller and squeezes it.
	SnugFit
)

var fitNames = [...]string{"neutral fit", "snug fit"}

// String gives the name.
func (f CushionFit) String() string { return enum.Name(f, "fit", fitNames[:]) }

// MarshalText writes the name.
func (f CushionFit) MarshalText() ([]byte, error) { return enum.Text(f, "fit", fitNames[:]) }

// UnmarshalText reads a name as String writes it.
func (f *CushionFit) UnmarshalText(text []byte) error {
	return enum.Read(f, text, "fit", fitNames[:])
}

func (f CushionFit) check() error {
	if f > SnugFit {
		return check.OneOf("fit", f.String(), fitNames[:]...)
	}
	return nil
}

// squeezed gives the seam-line size of a filling of the given size when the
// cover is cut with allowance s at both ends.
func (f CushionFit) squeezed(field string, filling, s unit.Length) (unit.Length, error) {
	if err := check.Positive(field, filling); err != nil {
		return 0, err
	}
	if f == NeutralFit {
		return filling, nil
	}
	l, err := allowance.FinishedFromCut(filling, s, s)
	return l, check.Renamed(err, map[string]string{"cut": field, "first": "seam", "second": "seam"})
}

// seamOr resolves an override against the default of a finish.
func seamOr(o allowance.Override, f allowance.Finish) (unit.Length, error) {
	def, _ := f.Default()
	return given(o, "seam", def)
}

// KnifeEdgeCushion is two equal panels sewn together all round. The zero
// value is refused.
type KnifeEdgeCushion struct {
	Width  unit.Length        `json:"width"` // of the filling, flat
	Height unit.Length        `json:"height"`
	Fit    CushionFit         `json:"fit,omitzero"`
	Finish allowance.Finish   `json:"finish,omitzero"` // of the seam: plain or welted
	Seam   allowance.Override `json:"seam,omitzero"`   // by default that of Finish
	Across allowance.Stretch  `json:"across,omitzero"`
	Along  allowance.Stretch  `json:"along,omitzero"`
}

// KnifeEdgeCut is a knife-edge cover as it is cut.
type KnifeEdgeCut struct {
	Panel     allowance.RectCut `json:"panel"` // cut two
	Panels    int               `json:"panels"`
	Perimeter unit.Length       `json:"perimeter"` // of the stitch line
	Welt      []unit.Length     `json:"welt"`      // runs of welt; none for a plain seam
}

// Cut gives the two panels. Neutral fit: filling + 2 s. Snug fit: cut to the
// filling, so that it ends 2 s smaller.
func (k KnifeEdgeCushion) Cut() (KnifeEdgeCut, error) {
	if err := k.Fit.check(); err != nil {
		return KnifeEdgeCut{}, err
	}
	if !k.Finish.Seam() {
		return KnifeEdgeCut{}, check.Refuse("finish", k.Finish.String(), unit.ErrRange, "a seam")
	}
	s, err := seamOr(k.Seam, k.Finish)
	if err != nil {
		return KnifeEdgeCut{}, err
	}
	w, err := k.Fit.squeezed("width", k.Width, s)
	if err != nil {
		return KnifeEdgeCut{}, err
	}
	h, err := k.Fit.squeezed("height", k.Height, s)
	if err != nil {
		return KnifeEdgeCut{}, err
	}
	p := allowance.RectPanel{Width: w, Height: h, Across: k.Across, Along: k.Along}.AllEdges(allowance.Edge{Finish: k.Finish, Allowance: allowance.Exactly(s)})
	c := KnifeEdgeCut{Panels: 2}
	if c.Panel, err = p.Cut(); err != nil {
		return KnifeEdgeCut{}, err
	}
	c.Perimeter = 2 * (c.Panel.SeamWidth + c.Panel.SeamHeight)
	if k.Finish == allowance.WeltedSeam {
		c.Welt = []unit.Length{c.Perimeter}
	}
	return c, nil
}

// BoxedCushion is two plates with a boxing strip between. The zero value is
// refused.
type BoxedCushion struct {
	Width     unit.Length `json:"width"` // of the filling, side to side
	Depth     unit.Length `json:"depth"` // of the filling, front to back
	Thickness unit.Length `json:"thickness"`
	Fit       CushionFit  `json:"fit,omitzero"`
	Welted    bool        `json:"welted,omitempty"`
	// Seam is the allowance of every seam but the zip; by default that of a
	// boxed seam.
	Seam    allowance.Override `json:"seam,omitzero"`
	Longest unit.Length        `json:"longest,omitzero"` // see Boxing
	// Zip puts a zip strip across the back; see ZipStrip for Wrap and ZipSeam.
	Zip     bool               `json:"zip,omitempty"`
	Wrap    allowance.Override `json:"wrap,omitzero"`
	ZipSeam allowance.Override `json:"zip_seam,omitzero"`
	Across  allowance.Stretch  `json:"across,omitzero"` // of the plates
	Along   allowance.Stretch  `json:"along,omitzero"`
}

// BoxedCut is a boxed cover as it is cut.
type BoxedCut struct {
	Plate     allowance.RectCut `json:"plate"` // cut two
	Plates    int               `json:"plates"`
	Perimeter unit.Length       `json:"perimeter"` // of a plate at the stitch line
	Boxing    BoxingCut         `json:"boxing"`
	Welt      []unit.Length     `json:"welt"` // two runs round the plates when welted
}

// Cut gives the plates and the boxing. Neutral fit: plates are filling + 2 s,
// the boxing thickness + 2 s wide. Snug fit: plates and boxing are cut to the
// filling.
func (b BoxedCushion) Cut() (BoxedCut, error) {
	if err := b.Fit.check(); err != nil {
		return BoxedCut{}, err
	}
	s, err := seamOr(b.Seam, allowance.BoxedSeam)
	if err != nil {
		return BoxedCut{}, err
	}
	w, err := b.Fit.squeezed("width", b.Width, s)
	if err != nil {
		return BoxedCut{}, err
	}
	d, err := b.Fit.squeezed("depth", b.Depth, s)
	if err != nil {
		return BoxedCut{}, err
	}
	t, err := b.Fit.squeezed("thickness", b.Thickness, s)
	if err != nil {
		return BoxedCut{}, err
	}
	finish := allowance.BoxedSeam
	if b.Welted {
		finish = allowance.WeltedSeam
	}
	p := allowance.RectPanel{Width: w, Height: d, Across: b.Across, Along: b.Along}.AllEdges(allowance.Edge{Finish: finish, Allowance: allowance.Exactly(s)})
	c := BoxedCut{Plates: 2}
	if c.Plate, err = p.Cut(); err != nil {
		return BoxedCut{}, check.Renamed(err, map[string]string{"height": "depth"})
	}
	c.Perimeter = 2 * (c.Plate.SeamWidth + c.Plate.SeamHeight)
	box := Boxing{Perimeter: c.Perimeter, Depth: t, Seam: allowance.Exactly(s), Longest: b.Longest}
	if b.Zip {
		box.Zip = ZipStrip{Back: c.Plate.SeamWidth, Wrap: b.Wrap, Seam: b.ZipSeam}
	}
	if c.Boxing, err = box.Cut(); err != nil {
		return BoxedCut{}, unit.InField("boxing", err)
	}
	if b.Welted {
		c.Welt = []unit.Length{c.Perimeter, c.Perimeter}
	}
	return c, nil
}

// RoundCushion is a boxed cushion with round plates. The zero value is
// refused.
type RoundCushion struct {
	Diameter  unit.Length        `json:"diameter"` // of the filling
	Thickness unit.Length        `json:"thickness"`
	Fit       CushionFit         `json:"fit,omitzero"`
	Welted    bool               `json:"welted,omitempty"`
	Seam      allowance.Override `json:"seam,omitzero"`
	Longest   unit.Length        `json:"longest,omitzero"`
	Zip       ZipStrip           `json:"zip,omitzero"` // Back is the part of the ring that opens
}

// RoundCut is a round cover as it is cut.
type RoundCut struct {
	Plate     unit.Length   `json:"plate"` // cut diameter, cut two
	Plates    int           `json:"plates"`
	PlateArea unit.Area     `json:"plate_area"` // of one
	Perimeter unit.Length   `json:"perimeter"`  // of a plate at the stitch line
	Boxing    BoxingCut     `json:"boxing"`
	Welt      []unit.Length `json:"welt"`
}

// Cut gives the plates, of diameter d + 2 s, and the boxing round π d.
func (r RoundCushion) Cut() (RoundCut, error) {
	if err := r.Fit.check(); err != nil {
		return RoundCut{}, err
	}
	s, err := seamOr(r.Seam, allowance.BoxedSeam)
	if err != nil {
		return RoundCut{}, err
	}
	d, err := r.Fit.squeezed("diameter", r.Diameter, s)
	if err != nil {
		return RoundCut{}, err
	}
	t, err := r.Fit.squeezed("thickness", r.Thickness, s)
	if err != nil {
		return RoundCut{}, err
	}
	c := RoundCut{Plate: d + 2*s, Plates: 2}
	if c.PlateArea, err = shape.CircleArea(c.Plate); err != nil {
		return RoundCut{}, err
	}
	if c.Perimeter, err = shape.CircleCircumference(d); err != nil {
		return RoundCut{}, err
	}
	if c.Boxing, err = (Boxing{Perimeter: c.Perimeter, Depth: t, Seam: allowance.Exactly(s), Longest: r.Longest, Zip: r.Zip}).Cut(); err != nil {
		return RoundCut{}, unit.InField("boxing", err)
	}
	if r.Welted {
		c.Welt = []unit.Length{c.Perimeter, c.Perimeter}
	}
	return c, nil
}
