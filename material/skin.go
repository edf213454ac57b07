package material

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Skin is one skin on the table, measured or of a usual shape: its border,
// holes, marks, grades and stretch. The zero value is refused.
//
// Axes are those of package allowance: Y runs along the backbone towards the
// neck, X across. The grain side is up, as the cutter sees it.
type Skin struct {
	ID   string   `json:"id,omitempty"`
	Kind SkinKind `json:"kind,omitzero"`
	// Outline is the border as measured. Without one the skin takes the usual
	// shape of its Kind, scaled to Area.
	Outline shape.Outline `json:"outline,omitzero"`
	// Area is the area the skin is sold by, as marked on it: zero takes that
	// inside the outline. From 0.5 sq ft to 120 sq ft.
	Area      unit.Area   `json:"area,omitzero"`
	Thickness unit.Length `json:"thickness,omitzero"` // from 0.3 mm to 6 mm; zero when not known
	// Border is a rim that is not used, all round; from zero to 300 mm.
	Border  unit.Length     `json:"border,omitzero"`
	Holes   []shape.Outline `json:"holes,omitempty"`
	Defects []Defect        `json:"defects,omitempty"`
	// Grade is the grade outside every zone; the zero value is prime.
	Grade Grade         `json:"grade,omitzero"`
	Zones []QualityZone `json:"zones,omitempty"` // where zones overlap, the poorer counts
	// Stretch says which way the leather gives most, region by region; empty
	// when it is not known.
	Stretch []StretchRegion `json:"stretch,omitempty"`
	// PriceFactor is the price by area against that of the other skins; zero
	// counts as 1. Between plans on equally many skins the cheaper counts.
	// From 0.01 to 100.
	PriceFactor unit.Ratio `json:"price_factor,omitzero"`
}

// Grade is the quality of a region, a scale of this package: makers grade
// by rules of their own. The zero value is prime.
type Grade uint8

const (
	// PrimeGrade is even and tight: seats, inside backs, cushion tops.
	PrimeGrade Grade = iota
	// GoodGrade has light growth lines: arms, boxing, cushion backs.
	GoodGrade
	// FairGrade is uneven or loose: outside backs, outside arms.
	FairGrade
	// RoughGrade is for hidden parts: tack strips, facings under a cover.
	RoughGrade
)

var gradeNames = []string{"prime", "good", "fair", "rough"}

// String gives the name.
func (g Grade) String() string { return enum.Name(g, "grade", gradeNames) }

// MarshalText writes the name; an unknown grade wraps unit.ErrUnknown.
func (g Grade) MarshalText() ([]byte, error) { return enum.Text(g, "grade", gradeNames) }

// UnmarshalText reads a name as String writes it.
func (g *Grade) UnmarshalText(text []byte) error { return enum.Read(g, text, "grade", gradeNames) }

// Severity is how much a mark spoils the leather, a scale of this package. As a
// demand of a panel it is the worst mark that may lie on it; the zero value
// allows none.
type Severity uint8

const (
	// NoMark is clean leather.
	NoMark Severity = iota
	// FaintMark is seen only when looked for: a vein, a healed scratch.
	FaintMark
	// PlainMark is seen at a glance but sound: a growth mark, a wrinkle.
	PlainMark
	// DeepMark can be felt or weakens the leather: an open scratch, a brand.
	DeepMark
	// ThroughMark is a hole or a cut that may open: nothing may lie on it.
	ThroughMark
)

var severityNames = []string{"none", "faint", "plain", "deep", "through"}

// String gives the name.
func (s Severity) String() string { return enum.Name(s, "severity", severityNames) }

// MarshalText writes the name; an unknown severity wraps unit.ErrUnknown.
func (s Severity) MarshalText() ([]byte, error) { return enum.Text(s, "severity", severityNames) }

// UnmarshalText reads a name as String writes it.
func (s *Severity) UnmarshalText(text []byte) error {
	return enum.Read(s, text, "severity", severityNames)
}

// DefectKind says what a mark is. The zero value is a mark of no named kind.
type DefectKind uint8

// The kinds of marks.
const (
	OtherDefect DefectKind = iota
	Vein
	HealedScratch
	OpenScratch
	GrowthMark
	Wrinkle
	InsectMark
	Brand
	Stain
	FlayCut // a slip of the knife on the flesh side
	OpenHole
)

var defectNames = []string{"other", "vein", "healed scratch", "open scratch", "growth mark", "wrinkle", "insect mark", "brand", "stain", "flay cut", "hole"}

var usualSeverity = []Severity{DeepMark, FaintMark, FaintMark, DeepMark, PlainMark, PlainMark, PlainMark, DeepMark, PlainMark, ThroughMark, ThroughMark}

// String gives the name.
func (k DefectKind) String() string { return enum.Name(k, "defect", defectNames) }

// MarshalText writes the name; an unknown kind wraps unit.ErrUnknown.
func (k DefectKind) MarshalText() ([]byte, error) { return enum.Text(k, "defect", defectNames) }

// UnmarshalText reads a name as String writes it.
func (k *DefectKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "defect", defectNames)
}

// UsualSeverity gives the severity a mark of the kind counts as when none is
// stated: an assumption of this package, for the cutter to correct.
func (k DefectKind) UsualSeverity() Severity {
	if int(k) >= len(usualSeverity) {
		return ThroughMark
	}
	return usualSeverity[k]
}

// Defect is a mark on a skin: an outline, or a round place At with a diameter.
type Defect struct {
	Kind     DefectKind    `json:"kind,omitzero"`
	Severity Severity      `json:"severity,omitzero"` // zero takes the usual severity of the kind
	Outline  shape.Outline `json:"outline,omitzero"`
	At       shape.Point   `json:"at,omitzero"`     // middle of a round mark, without Outline
	Across   unit.Length   `json:"across,omitzero"` // its diameter, from 1 mm to 1 m
	Note     string        `json:"note,omitempty"`
}

// Weight gives the severity that counts: the stated one, or the usual one.
func (d Defect) Weight() Severity {
	if d.Severity == NoMark {
		return d.Kind.UsualSeverity()
	}
	return d.Severity
}

// Border gives the outline of the mark. Errors name the field and wrap
// unit.ErrRange, unit.ErrForgottenUnit or unit.ErrRequired.
func (d Defect) Border() (shape.Outline, error) {
	if !d.Outline.IsZero() {
		return d.Outline, nil
	}
	if d.Across == 0 {
		return shape.Outline{}, check.Required("outline", "an outline, or at and across of a round mark")
	}
	if err := check.Length("across", d.Across, unit.Millimetre, unit.Metre); err != nil {
		return shape.Outline{}, err
	}
	o, err := shape.Circle(d.Across)
	if err != nil {
		return shape.Outline{}, unit.InField("across", err)
	}
	// A circle stands on its lowest point; put its middle on At.
	low, high := o.Bounds()
	o, err = o.Moved(shape.Point{X: d.At.X - (low.X+high.X)/2, Y: d.At.Y - (low.Y+high.Y)/2})
	return o, unit.InField("at", check.Inner(err, "outline"))
}

// QualityZone is a region of a grade of its own.
type QualityZone struct {
	Name    string        `json:"name,omitempty"`
	Grade   Grade         `json:"grade"`
	Outline shape.Outline `json:"outline"`
}

// StretchRegion is a region with the direction in which the leather gives most.
type StretchRegion struct {
	// Outline bounds the region; the region without one is the rest of the skin.
	Outline shape.Outline `json:"outline,omitzero"`
	// Direction is that of most stretch, anticlockwise from across; 0 is
	// across the backbone, 90 degrees along it. Turned by 180 degrees it is
	// the same.
	Direction unit.Angle `json:"direction"`
}

const mostMarks = 500

// Check gives nil for a skin that a plan accepts, else an error that names the
// field and wraps unit.ErrRange, unit.ErrRequired, unit.ErrForgottenUnit,
// unit.ErrUnknown or unit.ErrNotFinite.
func (s Skin) Check() error {
	if int(s.Kind) >= len(skinKindNames) {
		return check.Refuse("kind", fmt.Sprint(uint8(s.Kind)), unit.ErrUnknown, "a kind of skin")
	}
	if s.Outline.IsZero() && (s.Kind == MeasuredSkin || s.Area == 0) {
		return check.Required("outline", "an outline, or a kind and an area")
	}
	if s.Area != 0 {
		if err := check.Between("area", s.Area, leastSkin, mostSkin); err != nil {
			return err
		}
	}
	if !s.Outline.IsZero() {
		if err := check.Between("outline", s.Outline.Area(), leastSkin, mostSkin); err != nil {
			return err
		}
	}
	if s.Thickness != 0 {
		if err := check.Length("thickness", s.Thickness, 300*unit.Micrometre, 6*unit.Millimetre); err != nil {
			return err
		}
	}
	if err := check.Length("border", s.Border, 0, 300*unit.Millimetre); err != nil {
		return err
	}
	if s.Grade > RoughGrade {
		return check.Refuse("grade", fmt.Sprint(uint8(s.Grade)), unit.ErrUnknown, "a grade")
	}
	if s.PriceFactor != 0 {
		if err := check.Ratio("price_factor", s.PriceFactor, 0.01, 100); err != nil {
			return err
		}
	}
	return s.checkMarks()
}

func (s Skin) checkMarks() error {
	if err := check.Count("holes, defects and zones", len(s.Holes)+len(s.Defects)+len(s.Zones)+len(s.Stretch), 0, mostMarks); err != nil {
		return err
	}
	for i, h := range s.Holes {
		if h.IsZero() {
			return check.Required(fmt.Sprintf("holes[%d]", i), "an outline")
		}
	}
	for i, d := range s.Defects {
		at := fmt.Sprintf("defects[%d]", i)
		if int(d.Kind) >= len(defectNames) {
			return check.Refuse(at+".kind", fmt.Sprint(uint8(d.Kind)), unit.ErrUnknown, "a kind of mark")
		}
		if d.Severity > ThroughMark {
			return check.Refuse(at+".severity", fmt.Sprint(uint8(d.Severity)), unit.ErrUnknown, "a severity")
		}
		if _, err := d.Border(); err != nil {
			return unit.InField(at, err)
		}
	}
	for i, z := range s.Zones {
		at := fmt.Sprintf("zones[%d]", i)
		if z.Grade > RoughGrade {
			return check.Refuse(at+".grade", fmt.Sprint(uint8(z.Grade)), unit.ErrUnknown, "a grade")
		}
		if z.Outline.IsZero() {
			return check.Required(at+".outline", "an outline")
		}
	}
	rest := false
	for i, r := range s.Stretch {
		at := fmt.Sprintf("stretch[%d]", i)
		if err := check.Angle(at+".direction", r.Direction); err != nil {
			return err
		}
		if r.Outline.IsZero() {
			if rest {
				return check.Refuse(at+".outline", "", unit.ErrRange, "one region without an outline at most")
			}
			rest = true
		}
	}
	return nil
}

// Border area limits: from a small rabbit to a large bull.
const (
	leastSkin = unit.SquareFoot / 2
	mostSkin  = 120 * unit.SquareFoot
)

// Shape gives the border of the skin: as measured, or the usual shape of its
// kind at its area. Errors are those of Check.
func (s Skin) Shape() (shape.Outline, error) {
	if !s.Outline.IsZero() {
		return s.Outline, nil
	}
	return NaturalShape(s.Kind, s.Area)
}

// SoldArea gives the area the skin is bought by: the marked one, or that inside
// the outline.
func (s Skin) SoldArea() unit.Area {
	if s.Area != 0 {
		return s.Area
	}
	return s.Outline.Area()
}
