package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// GoodsKind is how goods are sold: RollGoods or HideGoods. The zero value is
// none.
type GoodsKind string

// The kinds of goods.
const (
	RollGoods GoodsKind = "roll"
	HideGoods GoodsKind = "hide"
)

// UnmarshalText reads a kind. It wraps unit.ErrUnknown.
func (k *GoodsKind) UnmarshalText(text []byte) error { return word(k, text, RollGoods, HideGoods) }

// BuyBy is what an order of hides follows: BuyByLayout or BuyByRule. The zero
// value is the layout. By the
// rule of thumb no layout is made.
type BuyBy string

// What an order may follow.
const (
	BuyByLayout BuyBy = "layout"
	BuyByRule   BuyBy = "rule of thumb"
)

// UnmarshalText reads what an order follows. It wraps unit.ErrUnknown.
func (b *BuyBy) UnmarshalText(text []byte) error { return word(b, text, BuyByLayout, BuyByRule) }

// FoamMeasure is what of foam is paid: ByBox, ByOutline or BySheet. The zero value
// is the box, or sheets where there are any.
type FoamMeasure string

// What may be paid of foam.
const (
	ByBox     FoamMeasure = "box"     // the box that it is cut from
	ByOutline FoamMeasure = "outline" // what is in the piece: the merchant cuts it nested with others
	BySheet   FoamMeasure = "sheet"   // whole sheets of stock
)

// UnmarshalText reads what is paid. It wraps unit.ErrUnknown.
func (m *FoamMeasure) UnmarshalText(text []byte) error {
	return word(m, text, ByBox, ByOutline, BySheet)
}

// FoamForm is what is cut from a box of foam: FoamBox, FoamOutline, FoamWedge,
// FoamRoundFront, FoamCylinder, FoamRolled or FoamCrown.
type FoamForm string

// The forms of foam.
const (
	FoamBox        FoamForm = "box"
	FoamOutline    FoamForm = "outline"     // a T, an L, a round or any other outline from above
	FoamWedge      FoamForm = "wedge"       // thicker at one end
	FoamRoundFront FoamForm = "round front" // a half circle along the front
	FoamCylinder   FoamForm = "cylinder"    // of a bolster
	FoamRolled     FoamForm = "rolled"      // a sheet that is rolled up in a bolster
	FoamCrown      FoamForm = "crown"       // bevelled to nothing all round
)

// UnmarshalText reads a form. It wraps unit.ErrUnknown.
func (m *FoamForm) UnmarshalText(text []byte) error {
	return word(m, text, FoamBox, FoamOutline, FoamWedge, FoamRoundFront, FoamCylinder, FoamRolled, FoamCrown)
}

// word reads one of some words, or none, which is the zero value.
func word[T ~string](to *T, text []byte, words ...T) error {
	if len(text) == 0 || slices.Contains(words, T(text)) {
		*to = T(text)
		return nil
	}
	names := make([]string, len(words))
	for i, w := range words {
		names[i] = string(w)
	}
	return check.OneOf("", string(text), names...)
}

// Drop is how far a pattern falls from one column of motifs to the next, as a
// part of the vertical repeat: "1/2" is a half drop.
type Drop struct{ material.Drop }

// GrainWay is which way the top of a panel may point on a hide.
type GrainWay uint8

const (
	// EitherWay lets it point to either end of the backbone.
	EitherWay GrainWay = iota
	// OneWay keeps it to the neck.
	OneWay
	// AnyWay lets the panel lie at any angle.
	AnyWay
)

var grainWays = []string{"either way", "one way", "any way"}

// Grain is which way a panel may lie on a hide, and how far it may be off: "one
// way", "either way within 10 deg", "any way". The zero value is either way
// along the backbone.
type Grain struct {
	Way    GrainWay
	Within unit.Angle // from 0 to 90 degrees; not with AnyWay
}

// String writes the grain for people.
func (g Grain) String() string {
	if int(g.Way) >= len(grainWays) {
		return fmt.Sprintf("Grain(%d)", g.Way)
	}
	if g.Within != 0 {
		return grainWays[g.Way] + " within " + g.Within.String()
	}
	return grainWays[g.Way]
}

// MarshalText writes the grain as String does, with every digit of its angle.
// It wraps unit.ErrNotFinite.
func (g Grain) MarshalText() ([]byte, error) {
	if int(g.Way) >= len(grainWays) || g.Within == 0 {
		return []byte(g.String()), nil
	}
	return g.Within.AppendText([]byte(grainWays[g.Way] + " within "))
}

// UnmarshalText reads a grain. It wraps unit.ErrUnknown, unit.ErrRange or the
// errors of unit.ParseAngle.
func (g *Grain) UnmarshalText(text []byte) error {
	way, within, off := strings.Cut(string(text), " within ")
	i := slices.Index(grainWays, way)
	if i < 0 {
		return check.OneOf("", way, grainWays...)
	}
	out := Grain{Way: GrainWay(i)}
	if off {
		a, err := unit.ParseAngle(within)
		if err != nil {
			return err
		}
		out.Within = a
	}
	if err := out.check(); err != nil {
		return err
	}
	*g = out
	return nil
}

func (g Grain) check() error {
	if int(g.Way) >= len(grainWays) {
		return check.OneOf("", g.String(), grainWays...)
	}
	if g.Way == AnyWay && g.Within != 0 {
		return check.Refuse("", g.String(), unit.ErrRange, "any way, without an angle")
	}
	return check.Between("", g.Within, 0, 90*unit.Degree)
}

// rule gives the grain to the layout.
func (g Grain) rule() layout.Grain {
	switch g.Way {
	case AnyWay:
		return layout.FreeGrain()
	case OneWay:
		return layout.Grain{Tolerance: g.Within}
	}
	return layout.EitherWay(g.Within)
}

// Thickness is a length that may also be written in leather ounces.
type Thickness unit.Length

// UnmarshalText reads a thickness as unit.ParseThickness does.
func (t *Thickness) UnmarshalText(text []byte) error {
	l, err := unit.ParseThickness(string(text))
	if err == nil {
		*t = Thickness(l)
	}
	return err
}

// MarshalText writes the thickness as a length.
func (t Thickness) MarshalText() ([]byte, error) { return unit.Length(t).MarshalText() }
