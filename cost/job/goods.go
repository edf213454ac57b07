package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// price of goods: one of the two, by their kind.
type price struct {
	length cost.LengthPrice
	area   cost.AreaPrice
}

func (b *builder) checkGoods(field string, g Goods) {
	before := len(b.errs)
	b.name(field+".id", g.ID)
	b.name(field+".name", g.Name)
	if slices.ContainsFunc(b.goods, func(o Goods) bool { return o.ID == g.ID }) {
		b.fail(field+".id", check.Refuse("", g.ID, ErrTwice, "an id that no other goods have"))
	}
	b.fail(field+".material", check.OneOf("", g.Material.String(), goodsNames()...))
	b.fail(field+".thickness", check.Length("", unit.Length(g.Thickness), 0, 20*unit.Millimetre))
	b.fail(field+".longest_strip", check.Length("", g.LongestStrip, 0, maxSide))
	b.fail(field+".gap", check.Length("", g.Gap, 0, 100*unit.Millimetre))
	if g.Stretch != nil {
		b.fail(field+".stretch", check.Ratio("", *g.Stretch, 0, 0.2))
	}
	var p price
	switch g.Kind {
	case RollGoods:
		b.fail(field, rollField(g.roll().Check()))
		for i, s := range g.Shades {
			b.name(field+"."+at("shades", i)+".name", s.Name)
			b.fail(field+"."+at("shades", i)+".window", check.Length("", s.Window, unit.Inch, check.Longest))
			if slices.ContainsFunc(g.Shades[:i], func(o Shade) bool { return o.Name == s.Name }) {
				b.fail(field+"."+at("shades", i)+".name", check.Refuse("", s.Name, ErrTwice, "a name that no other shade group has"))
			}
		}
		p.length, _ = parsePrice[unit.Length](b, field+".price", g.Price, "a price per length such as \"68.00 USD/yd\"")
	case Hides:
		b.checkHides(field, g)
		p.area, _ = parsePrice[unit.Area](b, field+".price", g.Price, "a price per area such as \"9.50 USD/sq ft\"")
	default:
		b.fail(field+".kind", check.OneOf("", string(g.Kind), string(RollGoods), string(Hides)))
	}
	b.unwanted(field, g)
	if len(b.errs) == before {
		b.goods = append(b.goods, g)
		b.money[g.ID] = p
	}
}

// checkHides checks what only goods that are hides have.
func (b *builder) checkHides(field string, g Goods) {
	if g.HideArea != 0 || len(g.Hides) == 0 {
		b.failAs(field+".hide_area", material.Hide{Area: g.HideArea}.Check())
	}
	if g.Waste != nil {
		b.fail(field+".waste", check.Ratio("", *g.Waste, 0, 0.9))
	}
	if g.Confidence != nil {
		b.fail(field+".confidence", check.Ratio("", *g.Confidence, 0.5, 0.999))
	}
	b.fail(field+".hide_spread", check.Between("", g.HideSpread, 0, g.HideArea/4))
	if g.Skin != material.MeasuredSkin {
		b.fail(field+".skin", check.OneOf("", g.Skin.String(), names(material.WholeHide, material.Sheep)...))
	}
	b.fail(field+".hides", check.Count("", len(g.Hides), 0, layout.MostSkins))
	for i, h := range g.Hides {
		f := field + "." + at("hides", i)
		b.name(f+".name", h.Name)
		if slices.ContainsFunc(g.Hides[:i], func(o Hide) bool { return o.Name == h.Name }) {
			b.fail(f+".name", check.Refuse("", h.Name, ErrTwice, "a name that no other hide has"))
		}
		s, err := h.skin()
		if err == nil {
			err = s.Check()
		}
		b.fail(f, err)
	}
}

// skin gives the hide to the layout. Errors name the field.
func (h Hide) skin() (material.Skin, error) {
	s := material.Skin{ID: h.Name, Kind: h.Skin, Area: h.Area, Border: h.Border, Grade: h.Grade}
	if h.Outline == nil && h.Skin == material.MeasuredSkin {
		s.Kind = material.WholeHide
	}
	place := func(field string, form *shape.Form) (shape.Outline, error) {
		if form == nil {
			return shape.Outline{}, nil
		}
		o, err := form.Outline()
		return o, unit.InField(field, err)
	}
	var err error
	if s.Outline, err = place("outline", h.Outline); err != nil {
		return s, err
	}
	if h.Outline == nil && h.Area == 0 {
		return s, check.Required("area", "the area marked on the hide, or its outline")
	}
	for i, x := range h.Holes {
		o, err := place(at("holes", i), &x)
		if err != nil {
			return s, err
		}
		s.Holes = append(s.Holes, o)
	}
	for i, x := range h.Defects {
		f := at("defects", i)
		d := material.Defect{Kind: x.Kind, Severity: x.Severity, Across: x.Across, Note: x.Note}
		if d.Outline, err = place(f+".outline", x.Outline); err != nil {
			return s, err
		}
		switch {
		case x.Outline != nil && (x.At != nil || x.Across != 0):
			return s, check.Refuse(f+".at", "", ErrMisplaced, "an outline, or at and across of a round mark, not both")
		case x.Outline == nil && x.At == nil:
			return s, check.Required(f+".at", "the middle of a round mark, or an outline")
		case x.Outline == nil && x.Across == 0:
			return s, check.Required(f+".across", "the diameter of a round mark")
		case x.At != nil:
			d.At = *x.At
		}
		s.Defects = append(s.Defects, d)
	}
	for i, x := range h.Zones {
		o, err := place(at("zones", i)+".outline", &x.Outline)
		if err != nil {
			return s, err
		}
		s.Zones = append(s.Zones, material.QualityZone{Name: x.Name, Grade: x.Grade, Outline: o})
	}
	for i, x := range h.Stretch {
		o, err := place(at("stretch", i)+".outline", x.Outline)
		if err != nil {
			return s, err
		}
		s.Stretch = append(s.Stretch, material.StretchRegion{Outline: o, Direction: x.Direction})
	}
	return s, nil
}

// unwanted refuses fields that mean nothing for the kind of goods, so that a
// mistaken kind is seen.
func (b *builder) unwanted(field string, g Goods) {
	for _, x := range []struct {
		name  string
		given bool
		kind  GoodsKind
		of    string
	}{
		{"width", g.Width != 0, RollGoods, "a roll"}, {"selvage", g.Selvage != 0, RollGoods, "a roll"}, {"repeat", g.Repeat != 0, RollGoods, "a roll"},
		{"repeat_across", g.RepeatAcross != 0, RollGoods, "a roll"}, {"drop", g.Drop != Drop{}, RollGoods, "a roll"}, {"nap", g.Nap, RollGoods, "a roll"},
		{"shrinkage", g.Shrinkage != 0, RollGoods, "a roll"}, {"increment", g.Increment != 0, RollGoods, "a roll"},
		{"flaws", g.Flaws != nil, RollGoods, "a roll"}, {"shades", g.Shades != nil, RollGoods, "a roll"},
		{"skin", g.Skin != 0, Hides, "hides"}, {"hide_area", g.HideArea != 0, Hides, "hides"}, {"hide_spread", g.HideSpread != 0, Hides, "hides"},
		{"hides", g.Hides != nil, Hides, "hides"}, {"waste", g.Waste != nil, Hides, "hides"}, {"confidence", g.Confidence != nil, Hides, "hides"},
		{"buy_by", g.BuyBy != "", Hides, "hides"},
	} {
		if x.given && g.Kind != x.kind && (g.Kind == RollGoods || g.Kind == Hides) {
			b.fail(field+"."+x.name, check.Refuse("", "", ErrMisplaced, "only fields of this kind of goods; this one belongs to "+x.of))
		}
	}
}

// rollField renames the fields of a roll to those of a spec.
func rollField(err error) error {
	err = trimField("roll", err)
	return renameField(err, "across", "repeat_across")
}

func goodsNames() []string {
	var out []string
	for _, g := range thread.AllGoods() {
		out = append(out, g.String())
	}
	return out
}

func (g Goods) roll() material.Roll {
	r := material.Roll{Name: g.Name, Width: g.Width, Selvage: g.Selvage, Repeat: g.Repeat, Across: g.RepeatAcross, Drop: g.Drop.Drop, Nap: g.Nap,
		Shrinkage: g.Shrinkage, Increment: g.Increment}
	for _, f := range g.Flaws {
		r.Flaws = append(r.Flaws, material.Flaw(f))
	}
	return r
}

func (g Goods) thickness() unit.Length {
	if g.Thickness == 0 {
		return unit.Millimetre
	}
	return unit.Length(g.Thickness)
}

// longest gives the longest strip that may be cut.
func (g Goods) longest() unit.Length {
	switch {
	case g.LongestStrip != 0:
		return g.LongestStrip
	case g.Kind == RollGoods:
		return g.roll().Usable()
	}
	return 72 * unit.Inch
}

func (g Goods) stretch() allowance.Stretch {
	switch {
	case g.Stretch != nil:
		return allowance.Stretch{TakeOut: *g.Stretch}
	case g.Material == thread.Leather || g.Material == thread.HeavyLeather:
		s, _ := allowance.LeatherStretch()
		return s
	}
	return allowance.Stretch{}
}

func (g Goods) grain() string {
	switch {
	case g.Kind == Hides:
		return "along the backbone"
	case g.Nap:
		return "up the roll, nap one way"
	case g.Repeat != 0 || g.RepeatAcross != 0:
		return "up the roll, on the repeat"
	}
	return "up the roll"
}

// find gives goods by id. Where goods themselves have faults, an id that is
// not found is no further fault.
func (b *builder) find(field, id string) (Goods, bool) {
	i := slices.IndexFunc(b.goods, func(g Goods) bool { return g.ID == id })
	if i >= 0 {
		return b.goods[i], true
	}
	if len(b.spec.Goods) > 0 && !slices.ContainsFunc(b.spec.Goods, func(g Goods) bool { return g.ID == id }) {
		var ids []string
		for _, g := range b.spec.Goods {
			ids = append(ids, g.ID)
		}
		b.fail(field, check.OneOf("", id, ids...))
	}
	return Goods{}, false
}

// withIncrement gives the goods the seller's step where the job has none: an
// eighth of a yard, or 10 cm where they are priced by the metre.
func (g Goods) withIncrement(priced unit.Length) Goods {
	if g.Increment != 0 {
		return g
	}
	g.Increment = unit.Yard / 8
	if priced%unit.Centimetre == 0 {
		g.Increment = 10 * unit.Centimetre
	}
	return g
}

// directed tells whether the goods must not be turned a quarter.
func (g Goods) directed() bool { return g.Nap || g.Repeat != 0 || g.RepeatAcross != 0 }
