package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// SkinPanel is a panel of any shape to cut from skins, with what it asks of the
// leather. The zero value is refused; without further fields a panel lies as
// drawn, on prime leather without a mark.
type SkinPanel struct {
	Name    string        `json:"name,omitempty"`
	Outline shape.Outline `json:"outline"` // the cut line
	Count   int           `json:"count"`   // at least 1
	Grain   Grain         `json:"grain,omitzero"`
	Hand    Hand          `json:"hand,omitzero"`
	// Least is the poorest grade the panel may lie on.
	Least material.Grade `json:"least,omitzero"`
	// Worst is the worst mark that may lie on the panel; ThroughMark is never
	// allowed.
	Worst material.Severity `json:"worst,omitzero"`
	// Stretch is the wished direction of stretch; nil for none.
	Stretch *StretchWish `json:"stretch,omitempty"`
}

// NetArea gives the area of panels, copies counted. Errors name the panel and
// wrap unit.ErrRange, unit.ErrRequired or unit.ErrOverflow.
func NetArea(panels []SkinPanel) (unit.Area, error) {
	var sum unit.Area
	for i, p := range panels {
		at := fmt.Sprintf("panels[%d]", i)
		if err := p.check(); err != nil {
			return 0, unit.InField(at, err)
		}
		a, err := p.Outline.Area().Times(p.Count)
		if err == nil {
			sum, err = sum.Plus(a)
		}
		if err != nil {
			return 0, unit.InField(at, err)
		}
	}
	return sum, nil
}

// Grain says which way the top of a panel may point: anticlockwise from the
// neck end of the backbone, or from up the roll. The zero value keeps it as
// drawn.
type Grain struct {
	// Free lets the panel lie at any angle; then Angles and Tolerance are
	// empty.
	Free bool `json:"free,omitempty"`
	// Angles are the directions allowed; none means 0 alone. At most 72.
	Angles []unit.Angle `json:"angles,omitempty"`
	// Tolerance is how far the panel may be off them, either way; from 0 to
	// 90 degrees.
	Tolerance unit.Angle `json:"tolerance,omitzero"`
}

// FreeGrain lets a panel lie at any angle.
func FreeGrain() Grain { return Grain{Free: true} }

// EitherWay lets a panel lie along the backbone with its top to either end,
// off by a tolerance.
func EitherWay(tolerance unit.Angle) Grain {
	return Grain{Angles: []unit.Angle{0, 180}, Tolerance: tolerance}
}

func (g Grain) check() error {
	if g.Free && (len(g.Angles) > 0 || g.Tolerance != 0) {
		return check.Refuse("free", "true", unit.ErrRange, "no angles or tolerance beside it")
	}
	if err := check.Count("angles", len(g.Angles), 0, 72); err != nil {
		return err
	}
	for i, a := range g.Angles {
		if err := check.Angle(fmt.Sprintf("angles[%d]", i), a); err != nil {
			return err
		}
	}
	if err := g.Tolerance.Check(); err != nil {
		return unit.InField("tolerance", err)
	}
	return check.Between("tolerance", g.Tolerance, 0, 90)
}

// Hand says whether a panel may be turned over: [AsDrawn], [EitherHand] or
// [Paired]. The zero value keeps it as drawn.
type Hand uint8

const (
	// AsDrawn keeps the hand of the drawing.
	AsDrawn Hand = iota
	// EitherHand lets the panel be cut as drawn or mirrored.
	EitherHand
	// Paired cuts every second copy mirrored: copies 0, 2, 4 … as drawn,
	// 1, 3, 5 … mirrored.
	Paired
)

var handNames = []string{"as drawn", "either hand", "paired"}

// String gives the name.
func (h Hand) String() string { return enum.Name(h, "hand", handNames) }

// MarshalText writes the name; an unknown hand wraps unit.ErrUnknown.
func (h Hand) MarshalText() ([]byte, error) { return enum.Text(h, "hand", handNames) }

// UnmarshalText reads a name as String writes it.
func (h *Hand) UnmarshalText(text []byte) error { return enum.Read(h, text, "hand", handNames) }

// StretchWish asks that a direction of the panel lies along the stretch of the
// leather under it. A panel with a wish lies only where every angle that it may
// take meets the wish; ground whose stretch is not known counts as met.
type StretchWish struct {
	// Axis is the direction of the panel that shall stretch most,
	// anticlockwise from across the panel: 0 across, 90 degrees along.
	Axis      unit.Angle `json:"axis"`
	Tolerance unit.Angle `json:"tolerance"` // from 0 to 90 degrees
}

// MostPanels is the largest number of panels, copies counted, in one plan.
const MostPanels = 2000

func (p SkinPanel) check() error {
	if p.Outline.IsZero() {
		return check.Required("outline", "an outline")
	}
	if err := check.Count("count", p.Count, 1, MostPanels); err != nil {
		return err
	}
	if err := p.Grain.check(); err != nil {
		return unit.InField("grain", err)
	}
	if p.Hand > Paired {
		return check.Refuse("hand", fmt.Sprint(uint8(p.Hand)), unit.ErrUnknown, "AsDrawn, EitherHand or Paired")
	}
	if p.Least > material.RoughGrade {
		return check.Refuse("least", fmt.Sprint(uint8(p.Least)), unit.ErrUnknown, "a grade")
	}
	if p.Worst >= material.ThroughMark {
		return check.Refuse("worst", p.Worst.String(), unit.ErrRange, "deep at most: nothing lies on holes")
	}
	if w := p.Stretch; w != nil {
		if err := check.Angle("stretch.axis", w.Axis); err != nil {
			return err
		}
		if err := w.Tolerance.Check(); err != nil {
			return unit.InField("stretch.tolerance", err)
		}
		return check.Between("stretch.tolerance", w.Tolerance, 0, 90)
	}
	return nil
}
