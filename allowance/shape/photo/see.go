package photo

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/camera"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Pixel is a place in the picture; see shape.Pixel.
type Pixel = shape.Pixel

// Mark is a reference: a thing whose true place in the plane of the panel is
// known, and where the picture shows it.
type Mark struct {
	Seen Pixel       `json:"seen"`
	At   shape.Point `json:"at"`
}

// Page is marks that were printed or measured together: where they lie on the
// page is known, where the page lies is not.
type Page []Mark

// Line is a measuring line of a printed page: the length it was drawn with, and
// the length that a rule shows.
type Line struct {
	Drawn    unit.Length `json:"drawn"`
	Measured unit.Length `json:"measured"`
}

// Printed gives the page as the printer made it: its marks scaled across and along
// by Measured / Drawn of two lines. Lines are from 20 mm to 2 m, and no printer is
// off by more than a tenth.
func (p Page) Printed(across, along Line) (Page, error) {
	var by [2]float64
	for i, l := range [2]Line{across, along} {
		f := [2]string{"across", "along"}[i]
		if err := check.Length(f+".drawn", l.Drawn, 20*unit.Millimetre, 2*unit.Metre); err != nil {
			return nil, err
		}
		if err := check.Length(f+".measured", l.Measured, l.Drawn-l.Drawn/10, l.Drawn+l.Drawn/10); err != nil {
			return nil, err
		}
		by[i] = float64(l.Measured) / float64(l.Drawn)
	}
	out := make(Page, len(p))
	for i, m := range p {
		scaled := func(x unit.Length, f float64) unit.Length { return unit.Length(math.Round(float64(float64(x) * f))) }
		out[i] = Mark{m.Seen, shape.Point{X: scaled(m.At.X, by[0]), Y: scaled(m.At.Y, by[1])}}
	}
	return out, nil
}

// UnmeasuredScale is how far the scale of a page that nobody measured may be off,
// either way: that of office printers (common practice).
const UnmeasuredScale unit.Ratio = 0.005

// Options say what is known of picture and panel beside the marks. The zero value
// is a printed page that nobody measured, and a panel as thin as the page.
type Options struct {
	// Straight says that lines are straight in the picture, as in a scan.
	Straight bool `json:"straight,omitzero"`
	// MarkSpread is the standard deviation of a mark in the picture, where it is
	// known: about 0.1 for the middle of a ring, 1 for a point clicked by eye. Zero
	// takes it from how well the marks fit.
	MarkSpread shape.Pixels `json:"mark_spread,omitzero"`
	// PlaceSpread is the standard deviation of the places of the marks, when they were
	// taped and not printed.
	PlaceSpread unit.Length `json:"place_spread,omitzero"`
	// EdgeSpread is the standard deviation of a point of the outline in the picture.
	EdgeSpread shape.Pixels `json:"edge_spread,omitzero"`
	// Circles are the radii of a round mark whose middle was read as the centre of
	// its dark parts: dark inside the first circle, light inside the second, and so
	// on. None for a point. The middle of a circle seen at an angle lies aside of
	// its picture's, which is allowed for.
	Circles []unit.Length `json:"circles,omitempty"`
	// ScaleError is how far the scale of the marks may be off, either way, at 95 %;
	// zero is UnmeasuredScale.
	ScaleError unit.Ratio `json:"scale_error,omitzero"`
	// Thickness is how far the panel's face lies above the marks.
	Thickness unit.Length `json:"thickness,omitzero"`
}

// What a picture can be refused for, beside wrong values.
var (
	ErrDegenerate error = camera.ErrDegenerate // marks in a line, or all but one
	ErrMisfit     error = camera.ErrMisfit     // marks that do not fit each other
	ErrMirrored   error = camera.ErrMirrored   // left is right
	ErrBehind     error = camera.ErrBehind     // places that no camera sees
	ErrLens       error = camera.ErrLens       // a wide-angle lens
	ErrOutside    error = camera.ErrOutside    // pixels that are not in the picture
)

// View is how a picture shows the plane of the panel.
type View struct {
	view    *camera.View
	options Options
}

// Off is a mark that was left out because it does not fit the others, and how far
// off it is. Mark is -1 when the whole page was; By is then Sigma with it.
type Off struct {
	Page int          `json:"page"`
	Mark int          `json:"mark"`
	By   shape.Pixels `json:"by"`
}

// See finds how a picture of that many pixels shows the plane of its marks. One
// page must have four marks of which no three are nearly in line, every other page
// two.
//
// A place X of the plane is seen at x = H (X, Y, 1)ᵀ, up to scale, and the lens
// moves that by
//
//	seen = c + (x - c)(1 + k r²),  r = |x - c| / half the diagonal
//
// with c the middle of the picture. H is found by the normalised direct linear
// transformation; then all its eight numbers, k, and the turn and place of every
// page after the first are improved together by damped least squares on what the
// marks are off in the picture. Before the picture is looked at, k is 0 with a
// standard deviation of 0.02, so that four marks leave it at 0 and eight find it.
//
// A mark that does not fit the others is left out, while enough are left to tell;
// so is, of three pages and more, one that is off by three times as much as the
// others. See View.Off.
//
// Errors are *unit.InputError values that name "width", "height", a field of the
// options, or a mark such as "pages[0][3].seen"; they wrap ErrDegenerate, ErrMisfit,
// ErrMirrored, ErrBehind, ErrLens or ErrOutside where the picture is to blame.
func See(width, height int, pages []Page, o Options) (View, error) {
	disc, err := o.check()
	if err != nil {
		return View{}, err
	}
	marks := make([][]camera.Mark, len(pages))
	for j, p := range pages {
		for _, m := range p {
			marks[j] = append(marks[j], camera.Mark{Seen: seen(m.Seen), At: millimetres(m.At)})
		}
	}
	v, err := camera.See(width, height, marks, camera.Options{NoLens: o.Straight, Spread: float64(o.MarkSpread), Place: float64(o.PlaceSpread) / 1e6, Disc: disc})
	if err != nil {
		return View{}, err
	}
	if t := o.Thickness; t != 0 && float64(t) > v.Camera().Height*1e6/4 {
		return View{}, check.Refuse("thickness", t.String(), unit.ErrRange, "a camera at least four times as high")
	}
	o.Circles = append([]unit.Length(nil), o.Circles...)
	return View{v, o}, nil
}

// check gives the square of the radius of the disc that stands for the circles:
// the mean of the squares, weighted with the areas between them.
func (o Options) check() (disc float64, err error) {
	for i, s := range [2]shape.Pixels{o.MarkSpread, o.EdgeSpread} {
		f := [2]string{"mark_spread", "edge_spread"}[i]
		if err := check.Ratio(f, unit.Ratio(s), 0, 100); err != nil {
			return 0, err
		}
	}
	if err := check.Ratio("scale_error", o.ScaleError, 0, 0.2); err != nil {
		return 0, err
	}
	if err := check.Length("place_spread", o.PlaceSpread, 0, 50*unit.Millimetre); err != nil {
		return 0, err
	}
	if err := check.Length("thickness", o.Thickness, 0, 200*unit.Millimetre); err != nil {
		return 0, err
	}
	sum, area, sign := 0.0, 0.0, 1.0
	for i, r := range o.Circles {
		f := check.At("circles", i)
		if err := check.Length(f, r, unit.Millimetre/10, unit.Metre); err != nil {
			return 0, err
		}
		if i > 0 && r >= o.Circles[i-1] {
			return 0, check.Refuse(f, r.String(), unit.ErrRange, "circles from the outermost inwards")
		}
		sq := float64(float64(r)/1e6) * float64(float64(r)/1e6)
		sum, area = sum+float64(sign*float64(sq*sq)), area+float64(sign*sq)
		sign = -sign
	}
	if area == 0 {
		return 0, nil
	}
	return sum / area, nil
}

func seen(p Pixel) camera.Point { return camera.Point{X: float64(p.X), Y: float64(p.Y)} }

// millimetres and point convert places.
func millimetres(p shape.Point) camera.Point {
	return camera.Point{X: float64(p.X) / 1e6, Y: float64(p.Y) / 1e6}
}

func point(p camera.Point) shape.Point {
	return shape.Point{X: lengthOf(p.X), Y: lengthOf(p.Y)}
}

func lengthOf(mm float64) unit.Length { return unit.Length(math.Round(float64(mm * 1e6))) }
