package thread

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
)

// Goods is the kind of material a seam goes through. The zero value is none.
//
// Its values: LightWoven, Woven, Canvas, Vinyl, Leather, HeavyLeather.
type Goods uint8

// Kinds of goods.
const (
	// LightWoven is thin cloth: lining, dust cover, muslin.
	LightWoven Goods = iota + 1
	// Woven is upholstery cloth: plain weaves, velvet, chenille, tapestry.
	Woven
	// Canvas is duck, awning and boat cloth.
	Canvas
	// Vinyl is coated cloth: vinyl, polyurethane, faux leather.
	Vinyl
	// Leather is upholstery leather, about 0.8 to 1.5 mm.
	Leather
	// HeavyLeather is saddle and strap leather and doubled hides.
	HeavyLeather
)

var goodsNames = []string{"", "light woven", "woven", "canvas", "vinyl", "leather", "heavy leather"}

// AllGoods lists the kinds of goods.
func AllGoods() []Goods { return []Goods{LightWoven, Woven, Canvas, Vinyl, Leather, HeavyLeather} }

// String names the goods.
func (g Goods) String() string { return enum.Name(g, "Goods", goodsNames) }

// MarshalText writes the name, an empty text for no goods. It wraps
// unit.ErrUnknown.
func (g Goods) MarshalText() ([]byte, error) { return enum.Text(g, "goods", goodsNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (g *Goods) UnmarshalText(text []byte) error { return enum.Read(g, text, "goods", goodsNames) }

func (g Goods) check(field string) error { return given(g, field, goodsNames) }

// given refuses none and a number outside a set of names.
func given[E ~uint8](e E, field string, names []string) error {
	if e == 0 {
		return check.OneOf(field, "", names[1:]...)
	}
	return enum.Check(e, field, names)
}

// leathery tells whether the goods are not woven through and keep the hole a
// needle makes.
func (g Goods) leathery() bool { return g == Leather || g == HeavyLeather }
