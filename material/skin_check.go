package material

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/unit"
)

const mostMarks = 500

// areaSlack is how far the marked area may be off that inside the outline.
const areaSlack unit.Ratio = 0.10

// Check gives nil for a skin that a plan accepts, else an error that names the
// field and wraps unit.ErrRange, unit.ErrRequired, unit.ErrForgottenUnit,
// unit.ErrUnknown or unit.ErrNotFinite.
func (s Skin) Check() error {
	if err := enum.Check(s.Kind, "kind", skinKindNames); err != nil {
		return err
	}
	if s.Outline.IsZero() && (s.Kind == MeasuredSkin || s.Area == 0) {
		return check.Required("outline", "an outline, or a kind and an area")
	}
	if err := s.checkArea(); err != nil {
		return err
	}
	if err := s.checkBackbone(); err != nil {
		return err
	}
	if s.Thickness != 0 {
		if err := check.Length("thickness", s.Thickness, 300*unit.Micrometre, 6*unit.Millimetre); err != nil {
			return err
		}
	}
	if err := check.Length("border", s.Border, 0, 300*unit.Millimetre); err != nil {
		return err
	}
	if err := enum.Check(s.Grade, "grade", gradeNames); err != nil {
		return err
	}
	if s.PriceFactor != 0 {
		if err := check.Ratio("price_factor", s.PriceFactor, 0.01, 100); err != nil {
			return err
		}
	}
	return s.checkMarks()
}

// checkBackbone checks that the backbone runs over the skin as measured.
func (s Skin) checkBackbone() error {
	if s.Backbone == nil {
		return nil
	}
	if s.Outline.IsZero() {
		return check.Required("outline", "an outline beside the backbone")
	}
	low, high := s.Outline.Bounds()
	return check.Between("backbone", *s.Backbone, low.X, high.X)
}

// checkArea checks the marked area and the outline, each alone and together.
func (s Skin) checkArea() error {
	if s.Area != 0 {
		if err := check.Between("area", s.Area, leastSkin, mostSkin); err != nil {
			return err
		}
	}
	if s.Outline.IsZero() {
		return nil
	}
	inside := s.Outline.Area()
	if err := check.Between("outline", inside, leastSkin, mostSkin); err != nil {
		return err
	}
	if off, err := (s.Area - inside).Per(inside); err != nil || s.Area != 0 && (off > areaSlack || off < -areaSlack) {
		return check.Refuse("area", s.Area.String(), unit.ErrRange, fmt.Sprintf("within %v of the %v inside the outline", areaSlack, inside.Decimal(unit.SquareFoot, 1, unit.Nearest)))
	}
	return nil
}

// checkMarks checks holes, defects, zones and regions of stretch.
func (s Skin) checkMarks() error {
	n := len(s.Holes) + len(s.Defects) + len(s.Zones) + len(s.Stretch)
	if err := check.Count("holes, defects and zones", n, 0, mostMarks); err != nil || n == 0 {
		return err
	}
	border, err := s.Shape()
	if err != nil {
		return err
	}
	on, err := newSkinPlace(border)
	if err != nil {
		return err
	}
	for i, h := range s.Holes {
		if err := on.check(check.At("holes", i), h); err != nil {
			return err
		}
	}
	for i, d := range s.Defects {
		at := check.At("defects", i)
		if err := d.check(); err != nil {
			return unit.InField(at, err)
		}
		b, err := d.Border()
		if err != nil {
			return unit.InField(at, err)
		}
		if d.Outline.IsZero() {
			at += ".at"
		}
		if err := on.check(at, b); err != nil {
			return err
		}
	}
	for i, z := range s.Zones {
		at := check.At("zones", i)
		if err := enum.Check(z.Grade, "grade", gradeNames); err != nil {
			return unit.InField(at, err)
		}
		if err := on.check(at+".outline", z.Outline); err != nil {
			return err
		}
	}
	return s.checkStretch(on)
}

func (s Skin) checkStretch(on skinPlace) error {
	rest := false
	for i, r := range s.Stretch {
		at := check.At("stretch", i)
		if err := check.Angle(at+".direction", r.Direction); err != nil {
			return err
		}
		if !r.Outline.IsZero() {
			if err := on.check(at+".outline", r.Outline); err != nil {
				return err
			}
			continue
		}
		if rest {
			return check.Refuse(at+".outline", "", unit.ErrRange, "one region without an outline at most")
		}
		rest = true
	}
	return nil
}

// check refuses what is no mark, apart from its place.
func (d Defect) check() error {
	if err := enum.Check(d.Kind, "kind", defectNames); err != nil {
		return err
	}
	return enum.Check(d.Severity, "severity", severityNames)
}

// skinPlace is the border of a skin, to find out what lies on it.
type skinPlace struct {
	box  geom.Box
	ring geom.Ring
}

func newSkinPlace(border shape.Outline) (skinPlace, error) {
	ring, err := chordsOf(border)
	return skinPlace{ring.Bounds(), ring}, err
}

// chordsOf gives the chords of an outline in whole micrometres, which are small
// enough numbers for the referee.
func chordsOf(o shape.Outline) (geom.Ring, error) {
	pts, err := o.Flatten(0)
	ring := make(geom.Ring, len(pts))
	for i, p := range pts {
		ring[i] = geom.Point{X: int64(p.X / unit.Micrometre), Y: int64(p.Y / unit.Micrometre)}
	}
	return ring, err
}

// check refuses an outline that is none, or lies wholly off the skin.
func (s skinPlace) check(field string, o shape.Outline) error {
	if o.IsZero() {
		return check.Required(field, "an outline")
	}
	ring, err := chordsOf(o)
	if err != nil {
		return unit.InField(field, check.Inner(err, "outline"))
	}
	if b := ring.Bounds(); !b.Overlaps(s.box) || !verify.Overlap(s.ring, ring) {
		low, high := o.Bounds()
		return check.Refuse(field, fmt.Sprintf("%v to %v", low, high), unit.ErrRange, "a place on the skin, in the axes of its outline")
	}
	return nil
}
