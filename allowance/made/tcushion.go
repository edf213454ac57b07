package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// TCushion is a boxed cushion whose front runs out into ears before the arms:
// a T with two ears, an L with one. The zero value is refused.
type TCushion struct {
	Width     unit.Length        `json:"width"` // of the filling at the front, ears included
	Depth     unit.Length        `json:"depth"` // front to back
	Thickness unit.Length        `json:"thickness"`
	LeftEar   unit.Length        `json:"left_ear"`  // how far the ear stands out; zero for none
	RightEar  unit.Length        `json:"right_ear"` //
	EarDepth  unit.Length        `json:"ear_depth"` // front to back of the ears
	Fit       CushionFit         `json:"fit,omitzero"`
	Welted    bool               `json:"welted,omitempty"`
	Seam      allowance.Override `json:"seam,omitzero"`
	Longest   unit.Length        `json:"longest,omitzero"`
	// Zip puts a zip strip across the back, between the ears; see ZipStrip.
	Zip     bool               `json:"zip,omitempty"`
	Wrap    allowance.Override `json:"wrap,omitzero"`
	ZipSeam allowance.Override `json:"zip_seam,omitzero"`
}

// TCut is a T cushion cover as it is cut.
type TCut struct {
	// The plate, cut two: the box round it and the ears, as cut.
	Width    unit.Length `json:"width"`
	Depth    unit.Length `json:"depth"`
	LeftEar  unit.Length `json:"left_ear"`
	RightEar unit.Length `json:"right_ear"`
	EarDepth unit.Length `json:"ear_depth"`

	Plates       int           `json:"plates"`
	PlateArea    unit.Area     `json:"plate_area"`    // inside the cut line, of one
	FinishedArea unit.Area     `json:"finished_area"` // inside the seam line
	Perimeter    unit.Length   `json:"perimeter"`     // of a plate at the stitch line
	Back         unit.Length   `json:"back"`          // stitch line across the back
	Boxing       BoxingCut     `json:"boxing"`
	Welt         []unit.Length `json:"welt"`
}

// Cut gives the plates and the boxing. The outline has right angles only, so
// with A, P the area and perimeter inside the seam line
//
//	P = 2 (width + depth)
//	A = width × depth - (left + right ear) × (depth - ear depth)
//	plate area = A + P s + 4 s²
//
// The ears keep how far they stand out and grow 2 s in depth. Snug fit shrinks
// the seam line by s all round, so that the plates are cut to the filling.
func (t TCushion) Cut() (TCut, error) {
	if err := t.Fit.check(); err != nil {
		return TCut{}, err
	}
	s, err := seamOr(t.Seam, allowance.BoxedSeam)
	if err != nil {
		return TCut{}, err
	}
	var seam [4]unit.Length
	for i, x := range []struct {
		field string
		l     unit.Length
	}{{"width", t.Width}, {"depth", t.Depth}, {"thickness", t.Thickness}, {"ear_depth", t.EarDepth}} {
		if seam[i], err = t.Fit.squeezed(x.field, x.l, s); err != nil {
			return TCut{}, err
		}
	}
	w, d, thick, ear := seam[0], seam[1], seam[2], seam[3]
	if err := check.Length("ear_depth", t.EarDepth, 0, t.Depth); err != nil {
		return TCut{}, err
	}
	if err := check.Length("left_ear", t.LeftEar, 0, t.Width); err != nil {
		return TCut{}, err
	}
	if err := check.Length("right_ear", t.RightEar, 0, t.Width); err != nil {
		return TCut{}, err
	}
	back := w - t.LeftEar - t.RightEar
	if back < unit.Millimetre {
		return TCut{}, check.Refuse("width", t.Width.String(), unit.ErrRange, "a width that leaves a back between the ears")
	}
	c := TCut{
		Width: w + 2*s, Depth: d + 2*s, LeftEar: t.LeftEar, RightEar: t.RightEar, EarDepth: ear + 2*s,
		Plates: 2, Perimeter: 2 * (w + d), Back: back,
	}
	box, err := w.By(d)
	if err != nil {
		return TCut{}, err
	}
	notch, err := (t.LeftEar + t.RightEar).By(d - ear)
	if err != nil {
		return TCut{}, err
	}
	c.FinishedArea = box - notch
	band, err := (c.Perimeter + 4*s).By(s)
	if err != nil {
		return TCut{}, err
	}
	if c.PlateArea, err = c.FinishedArea.Plus(band); err != nil {
		return TCut{}, err
	}
	strip := Boxing{Perimeter: c.Perimeter, Depth: thick, Seam: allowance.Exactly(s), Longest: t.Longest}
	if t.Zip {
		strip.Zip = ZipStrip{Back: back, Wrap: t.Wrap, Seam: t.ZipSeam}
	}
	if c.Boxing, err = strip.Cut(); err != nil {
		return TCut{}, unit.InField("boxing", err)
	}
	if t.Welted {
		c.Welt = []unit.Length{c.Perimeter, c.Perimeter}
	}
	return c, nil
}
