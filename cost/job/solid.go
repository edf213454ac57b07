package job

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// solid gives the foam of a cushion: the core that its cover must have, with one
// take-up.
func (c CushionSpec) solid(at unit.Path) (FoamBlock, faults) {
	m, f := c.sized(at)
	if f = append(f, c.fitted(at)...); len(f) > 0 {
		return FoamBlock{}, f
	}
	m.Zip, m.ZipLength, m.Pocket, m.ZipSeam = false, 0, 0, allowance.Override{} // how it opens is no matter
	p, err := m.Make()
	if err != nil {
		f.add(at, err)
		return FoamBlock{}, f
	}
	core := p.Core
	_, basis := m.Fit.TakeUp()
	if c.TakeUp != nil {
		basis = cite.Basis{Status: cite.Derived, Note: "take-up as given"}
	}
	k := core.TakeUp
	b := FoamBlock{Part: c.Name, Form: FoamBox, Fit: m.Fit, TakeUp: k, Basis: basis, Back: core.BackThickness,
		Cut: foam.Block{Length: core.Width, Width: core.Depth, Thickness: core.Thickness}}
	if c.Kind == made.Bolster {
		b.Form, b.Cut.Thickness = FoamCylinder, core.Depth
	}
	b.Finished = foam.Block{Length: core.CoverWidth, Width: core.CoverDepth, Thickness: b.Cut.Thickness}
	switch {
	case b.Form == FoamCylinder:
		b.Finished.Thickness -= k
	case core.BackThickness != 0:
		b.Form = FoamWedge
		b.Cut.Thickness = max(core.Thickness, core.BackThickness)
	case core.RoundFront:
		b.Form = FoamRoundFront
	case !fills(core.Outline):
		b.Form, b.Outline = FoamOutline, core.Outline
	}
	return b, f
}

// fit gives how tight the cover sits: a wrap of 1/2 in or more is the take-up,
// under that the foam counts as bare.
func (c CushionSpec) fit() made.CushionFit {
	if c.Fit == made.SnugFit && c.Foam != nil && c.Foam.Wrap != nil && c.Foam.Wrap.takesUp() {
		return made.WrappedFit
	}
	return c.Fit
}

// fitted refuses two take-ups: one and no more.
func (c CushionSpec) fitted(at unit.Path) faults {
	var f faults
	w := c.Foam.Wrap
	switch {
	case w == nil:
	case !w.takesUp():
		if c.Fit == made.WrappedFit {
			f.add(at.Dot("fit"), check.Refuse("", c.Fit.String(), ErrMisplaced, "a wrap of 1/2 in or more; a thinner one counts as bare foam"))
		}
	case c.Fit == made.FirmFit:
		f.add(at.Dot("fit"), check.Refuse("", c.Fit.String(), ErrMisplaced, "wrapped fit: the wrap is the take-up"))
	case c.TakeUp != nil && *c.TakeUp > 0:
		f.add(at.Dot("take_up"), check.Refuse("", c.TakeUp.String(), ErrMisplaced, "none: the wrap is the take-up"))
	}
	return f
}

// solid gives a block that is in no cushion, as large as it is given.
func (x FoamSpec) solid(at unit.Path) (FoamBlock, faults) {
	var f faults
	f.add(at.Dot("name"), checkName(x.Name))
	f.add(at.Dot("count"), checkCount(x.Count))
	f.add(at.Dot("thickness"), checkSide(x.Thickness))
	o, own := outlineOf(at, x.Outline, side{"width", x.Width}, side{"depth", x.Depth})
	if f = append(f, own...); len(f) > 0 {
		return FoamBlock{}, f
	}
	w, d := o.Size()
	size := foam.Block{Length: w, Width: d, Thickness: x.Thickness}
	b := FoamBlock{Part: x.Name, Form: FoamBox, Finished: size, Cut: size, Fit: made.NeutralFit}
	square := fills(o)
	if !square {
		b.Form, b.Outline = FoamOutline, o
	}
	if x.BackThickness != 0 {
		if !square {
			f.misplaced(at.Dot("back_thickness"), "only fields of a rectangle")
		}
		f.add(at.Dot("back_thickness"), checkSide(x.BackThickness))
		b.Form, b.Back, b.Cut.Thickness = FoamWedge, x.BackThickness, max(x.Thickness, x.BackThickness)
	}
	return b, f
}

// fills tells whether an outline is the box round it, to a part in ten thousand.
func fills(o shape.Outline) bool {
	if o.IsZero() {
		return true
	}
	w, d := o.Size()
	box, err := w.By(d)
	return err == nil && box-o.Area() <= box/10000
}

// rolled gives the sheet of thickness t that fills a bolster of length L and
// diameter d when it is rolled up: as long as its end has room for,
//
//	π/4 · d² / t
//
// Common practice; the length is derived from the areas.
func rolled(l, d, t unit.Length) (foam.Block, error) {
	long, err := unit.LengthOf(math.Pi/4*d.Metres()*d.Metres()/t.Metres(), unit.Metre)
	if err == nil {
		err = checkSide(long)
	}
	return foam.Block{Length: l, Width: long, Thickness: t}, err
}

// crown gives the crown pieces of a part: of the foam of its top, on its face.
func crown(top, whole FoamBlock, faces int) (FoamBlock, error) {
	piece, err := wrap.CrownPiece(whole.Cut)
	top.Layer, top.Form, top.Count, top.Outline = "crown", FoamCrown, top.Count*faces, shape.Outline{}
	top.Finished, top.Cut, top.Fit, top.TakeUp = piece, piece, made.NeutralFit, 0
	top.Basis, top.Stack = cite.Practice("half an inch thick, two thirds of the face each way, bevelled"), nil
	top.Selection.Sitting = nil
	return top, err
}

// measure puts in the volumes. Of one block, with the box L x W x T, A the area of
// the outline, F and B the thickness of a wedge at front and back, it is
//
//	outline      A · T
//	wedge        L · W · (F + B)/2
//	round front  L · ((W - T/2) · T + π/8 · T²)
//	cylinder     π/4 · T² · L
//	else         L · W · T
func (b *FoamBlock) measure() error {
	box, err := b.Cut.Volume()
	if err != nil {
		return err
	}
	one := box
	switch b.Form {
	case FoamOutline:
		one, err = b.Outline.Area().Deep(b.Cut.Thickness)
	case FoamWedge:
		one, err = foam.Wedge{Length: b.Cut.Length, Width: b.Cut.Width, Front: b.Finished.Thickness, Rear: b.Back}.Volume()
	case FoamRoundFront:
		w, t := b.Cut.Width.Metres(), b.Cut.Thickness.Metres()
		one, err = unit.VolumeOf(b.Cut.Length.Metres()*(float64((w-t/2)*t)+float64(math.Pi/8*t*t)), unit.CubicMetre)
	case FoamCylinder:
		one, err = foam.Cylinder{Diameter: b.Cut.Thickness, Length: b.Cut.Length}.Volume()
	}
	if err != nil {
		return err
	}
	if b.Shaped, err = one.Times(b.Count); err != nil {
		return err
	}
	if b.PricedBy == ByOutline {
		b.Volume = b.Shaped
		return nil
	}
	b.Volume, err = box.Times(b.Count)
	return err
}
