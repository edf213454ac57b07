package foam

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Wedge is a block whose thickness runs evenly from one end of its width to the
// other. One end may be zero.
type Wedge struct {
	Length unit.Length `json:"length"`
	Width  unit.Length `json:"width"`
	Front  unit.Length `json:"front"` // thickness at the front of the width
	Rear   unit.Length `json:"rear"`  // thickness at the rear
}

// Check gives nil for positive length and width and thicknesses of which one at
// least is above zero.
func (w Wedge) Check() error {
	if err := check.Positive("length", w.Length); err != nil {
		return err
	}
	if err := check.Positive("width", w.Width); err != nil {
		return err
	}
	if err := check.NotNegative("front", w.Front); err != nil {
		return err
	}
	if err := check.NotNegative("rear", w.Rear); err != nil {
		return err
	}
	return check.Positive("front", max(w.Front, w.Rear))
}

// Volume gives V = length · width · (front + rear) / 2.
func (w Wedge) Volume() (unit.Volume, error) {
	if err := w.Check(); err != nil {
		return 0, err
	}
	a, err := w.Length.By(w.Width)
	if err != nil {
		return 0, err
	}
	twice, err := a.Deep(w.Front + w.Rear)
	if err != nil {
		return 0, err
	}
	return twice.MulDiv(1, 2, unit.Nearest)
}

// Envelope gives the block the wedge is cut from, as thick as its thicker end.
// Two equal wedges come out of a block of thickness front + rear.
func (w Wedge) Envelope() (Block, error) {
	return Block{Length: w.Length, Width: w.Width, Thickness: max(w.Front, w.Rear)}, w.Check()
}

// Cylinder is a bolster core.
type Cylinder struct {
	Diameter unit.Length `json:"diameter"`
	Length   unit.Length `json:"length"`
}

// Check gives nil for positive sizes.
func (c Cylinder) Check() error {
	if err := check.Positive("diameter", c.Diameter); err != nil {
		return err
	}
	return check.Positive("length", c.Length)
}

// Volume gives V = π/4 · diameter² · length.
func (c Cylinder) Volume() (unit.Volume, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	d := c.Diameter.Metres()
	return unit.VolumeOf(math.Pi/4*d*d*c.Length.Metres(), unit.CubicMetre)
}

// Envelope gives the block the cylinder is cut from.
func (c Cylinder) Envelope() (Block, error) {
	return Block{Length: c.Length, Width: c.Diameter, Thickness: c.Diameter}, c.Check()
}

// Rounded is a block with one to four of its corners rounded in plan.
type Rounded struct {
	Block
	Radius  unit.Length `json:"radius"`  // at most half the shorter side
	Corners int         `json:"corners"` // 1 to 4
}

// Check gives nil for a block whose corners can be rounded so.
func (r Rounded) Check() error {
	if err := r.Block.Check(); err != nil {
		return err
	}
	if err := check.Positive("radius", r.Radius); err != nil {
		return err
	}
	if err := check.Length("radius", r.Radius, 0, min(r.Length, r.Width)/2); err != nil {
		return err
	}
	return check.Count("corners", r.Corners, 1, 4)
}

// Volume gives V = (length · width − corners · (1 − π/4) · radius²) · thickness.
func (r Rounded) Volume() (unit.Volume, error) {
	if err := r.Check(); err != nil {
		return 0, err
	}
	v, err := r.Block.Volume()
	if err != nil {
		return 0, err
	}
	q := r.Radius.Metres()
	off, err := unit.VolumeOf(float64(r.Corners)*(1-math.Pi/4)*q*q*r.Thickness.Metres(), unit.CubicMetre)
	if err != nil {
		return 0, err
	}
	return v.Minus(off)
}

// Envelope gives the block before its corners are rounded.
func (r Rounded) Envelope() (Block, error) { return r.Block, r.Check() }

// Tee is a T cushion: a seat that reaches round the arms in front.
//
//	┌──────────────┐  ─┬─        ─┬─
//	│     ears     │   Ear        │
//	└──┐        ┌──┘  ─┴─         Depth
//	   │  stem  │                 │
//	   └────────┘                ─┴─
type Tee struct {
	Width     unit.Length `json:"width"` // across the ears
	Stem      unit.Length `json:"stem"`  // between the arms
	Depth     unit.Length `json:"depth"` // front to back
	Ear       unit.Length `json:"ear"`   // front to back of the ears
	Thickness unit.Length `json:"thickness"`
}

// Check gives nil for positive sizes with the stem not wider than the ears and
// the ears not deeper than the whole.
func (t Tee) Check() error {
	for _, s := range []struct {
		name string
		l    unit.Length
	}{{"width", t.Width}, {"depth", t.Depth}, {"stem", t.Stem}, {"ear", t.Ear}, {"thickness", t.Thickness}} {
		if err := check.Positive(s.name, s.l); err != nil {
			return err
		}
	}
	if err := check.Length("stem", t.Stem, 0, t.Width); err != nil {
		return err
	}
	return check.Length("ear", t.Ear, 0, t.Depth)
}

// Volume gives V = (width · ear + stem · (depth − ear)) · thickness.
func (t Tee) Volume() (unit.Volume, error) {
	if err := t.Check(); err != nil {
		return 0, err
	}
	ears, err := t.Width.By(t.Ear)
	if err != nil {
		return 0, err
	}
	stem, err := t.Stem.By(t.Depth - t.Ear)
	if err != nil {
		return 0, err
	}
	face, err := ears.Plus(stem)
	if err != nil {
		return 0, err
	}
	return face.Deep(t.Thickness)
}

// Envelope gives the block the T is cut from.
func (t Tee) Envelope() (Block, error) {
	return Block{Length: t.Width, Width: t.Depth, Thickness: t.Thickness}, t.Check()
}

// Supply is what a shape takes from a merchant who sells by the board foot:
// the envelope, its volume, and the mass of the finished shape.
type Supply struct {
	Envelope Block       `json:"envelope"`
	Bought   unit.Volume `json:"bought"`   // of the envelope
	Finished unit.Volume `json:"finished"` // of the shape
	Waste    unit.Ratio  `json:"waste"`    // 1 − finished / bought
	Mass     unit.Mass   `json:"mass"`     // of the finished shape
}

// SupplyOf gives the envelope, volumes and mass of a shape.
func SupplyOf(s Shape, d unit.Density) (Supply, error) {
	m, err := MassOf(s, d)
	if err != nil {
		return Supply{}, err
	}
	out := Supply{Mass: m}
	if out.Finished, err = s.Volume(); err != nil {
		return Supply{}, unit.InField("shape", err)
	}
	if out.Envelope, err = s.Envelope(); err != nil {
		return Supply{}, unit.InField("shape", err)
	}
	if out.Bought, err = out.Envelope.Volume(); err != nil {
		return Supply{}, unit.InField("shape", err)
	}
	share, err := out.Finished.Per(out.Bought)
	if err != nil {
		return Supply{}, err
	}
	out.Waste = max(0, 1-share)
	return out, nil
}
