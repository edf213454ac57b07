package thread

import "github.com/coverwright/coverwright/internal/check"

// Goods is the kind of material a seam goes through. The zero value is none.
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

var goodsNames = names{"light woven", "woven", "canvas", "vinyl", "leather", "heavy leather"}

// AllGoods lists the kinds of goods.
func AllGoods() []Goods { return []Goods{LightWoven, Woven, Canvas, Vinyl, Leather, HeavyLeather} }

// String names the goods.
func (g Goods) String() string { return goodsNames.text("Goods", int(g)) }

// MarshalText writes the name. It wraps unit.ErrUnknown for no goods.
func (g Goods) MarshalText() ([]byte, error) { return goodsNames.marshal("goods", int(g)) }

// UnmarshalText reads a name as String writes it. It wraps unit.ErrUnknown.
func (g *Goods) UnmarshalText(text []byte) error { return goodsNames.unmarshal("goods", text, g.set) }

func (g *Goods) set(i int) { *g = Goods(i) }

func (g Goods) check(field string) error {
	if g < LightWoven || g > HeavyLeather {
		return check.OneOf(field, g.String(), goodsNames...)
	}
	return nil
}

// leathery tells whether the goods are not woven through and keep the hole a
// needle makes.
func (g Goods) leathery() bool { return g == Leather || g == HeavyLeather }
