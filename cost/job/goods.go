package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// catalog is the goods of a job: all of them, and those without a fault.
type catalog struct {
	all   []GoodsSpec
	sound []GoodsSpec
	// What the pattern is to do was said of other goods, in an option, or by a kind:
	// it means nothing where the goods have none.
	option bool
	from   origins
}

// lenient tells whether a relation was said of other goods.
func (c catalog) lenient(at unit.Path) bool {
	_, piece, _, rest := at.Head()
	list, i, indexed, _ := rest.Head()
	places := c.from.pieces[piece][list]
	return c.option || indexed && i < len(places) && places[i] < 0
}

// goodsOf checks the goods of a job.
func goodsOf(s Spec) (catalog, faults) {
	var f faults
	c := catalog{all: s.Goods}
	if len(s.Goods) > maxCount {
		f.add("goods", check.Count("", len(s.Goods), 1, maxCount))
		return c, f
	}
	for i, g := range s.Goods {
		at := unit.Path("goods").At(i)
		own := g.check(at)
		if !own.touch(at.Dot("price")) {
			own = append(own, g.checkMoney(at, s)...)
		}
		if slices.ContainsFunc(c.sound, func(o GoodsSpec) bool { return o.ID == g.ID }) {
			own.add(at.Dot("id"), check.Refuse("", g.ID, ErrTwice, "an id that no other goods have"))
		}
		if len(own) == 0 {
			c.sound = append(c.sound, g)
		}
		f = append(f, own...)
	}
	return c, f
}

// find gives goods by id. Where goods themselves have faults, an id that is
// not found is no further fault.
func (c catalog) find(id string) (GoodsSpec, bool, error) {
	i := slices.IndexFunc(c.sound, func(g GoodsSpec) bool { return g.ID == id })
	if i >= 0 {
		return c.sound[i], true, nil
	}
	if len(c.all) > 0 && !slices.ContainsFunc(c.all, func(g GoodsSpec) bool { return g.ID == id }) {
		ids := make([]string, len(c.all))
		for i, g := range c.all {
			ids[i] = g.ID
		}
		return GoodsSpec{}, false, check.OneOf("", id, ids...)
	}
	return GoodsSpec{}, false, nil
}

// check gives what is wrong with the goods by themselves.
func (g GoodsSpec) check(at unit.Path) faults {
	var f faults
	f.add(at.Dot("id"), checkName(g.ID))
	f.add(at.Dot("name"), checkName(g.Name))
	f.add(at.Dot("material"), check.OneOf("", g.Material.String(), goodsNames()...))
	f.add(at.Dot("thickness"), check.Length("", unit.Length(g.Thickness), 0, 20*unit.Millimetre))
	if g.Ease != nil {
		_, err := g.Ease.MarshalText()
		f.add(at.Dot("ease"), err)
	}
	f.add(at.Dot("longest_strip"), check.Length("", g.LongestStrip, 0, maxSide))
	f.add(at.Dot("gap"), check.Length("", g.Gap, 0, 100*unit.Millimetre))
	if g.Stretch != nil {
		f.add(at.Dot("stretch"), check.Ratio("", *g.Stretch, 0, 0.2))
	}
	switch g.Kind {
	case RollGoods:
		// The fields of a roll, in the words of a spec.
		f.add(at, check.Renamed(check.Inner(g.roll().Check(), "roll"), map[string]string{"across": "repeat_across", "across_level": "repeat_level", "first": "first_motif"}))
		f.add(at.Dot("margin"), g.margin().Check())
		for i, s := range g.Shades {
			at := at.Dot("shades").At(i)
			f.add(at.Dot("name"), checkName(s.Name))
			f.add(at.Dot("window"), check.Length("", s.Window, unit.Inch, check.Longest))
			if slices.ContainsFunc(g.Shades[:i], func(o ShadeSpec) bool { return o.Name == s.Name }) {
				f.add(at.Dot("name"), check.Refuse("", s.Name, ErrTwice, "a name that no other shade group has"))
			}
		}
	case HideGoods:
		f = append(f, g.checkHides(at)...)
	default:
		f.add(at.Dot("kind"), check.OneOf("", string(g.Kind), string(RollGoods), string(HideGoods)))
	}
	if !g.Price.IsZero() || !g.customers() {
		f.add(at.Dot("price"), g.Price.ofKind(g.Kind))
	}
	f.add(at.Dot("actual"), g.Actual.check(g.Kind))
	f = append(f, g.checkStock(at)...)
	return append(f, g.unwanted(at)...)
}

// unwanted refuses fields that mean nothing for the kind of goods, so that a
// mistaken kind is seen.
func (g GoodsSpec) unwanted(at unit.Path) faults {
	var f faults
	for _, x := range []struct {
		name  unit.Path
		given bool
		kind  GoodsKind
		of    string
	}{
		{"width", g.Width != 0, RollGoods, "a roll"}, {"selvage", g.Selvage != 0, RollGoods, "a roll"}, {"repeat", g.Repeat != 0, RollGoods, "a roll"},
		{"repeat_across", g.RepeatAcross != 0, RollGoods, "a roll"}, {"drop", g.Drop != Drop{}, RollGoods, "a roll"}, {"nap", g.Nap, RollGoods, "a roll"},
		{"repeat_level", g.RepeatLevel != 0, RollGoods, "a roll"}, {"first_motif", g.FirstMotif != shape.Point{}, RollGoods, "a roll"},
		{"unknown_start", g.UnknownStart, RollGoods, "a roll"}, {"up", g.Up != 0, RollGoods, "a roll"}, {"one_way", g.OneWay, RollGoods, "a roll"},
		{"even", g.Even, RollGoods, "a roll"},
		{"shrinkage", g.Shrinkage != 0, RollGoods, "a roll"}, {"increment", g.Increment != 0, RollGoods, "a roll"},
		{"at_hand", g.AtHand != nil, RollGoods, "a roll"}, {"margin", g.Margin != nil, RollGoods, "a roll"}, {"flaws", g.Flaws != nil, RollGoods, "a roll"}, {"shades", g.Shades != nil, RollGoods, "a roll"},
		{"skin", g.Skin != 0, HideGoods, "hides"}, {"hide_area", g.HideArea != 0, HideGoods, "hides"}, {"hide_spread", g.HideSpread != 0, HideGoods, "hides"},
		{"hides", g.Hides != nil, HideGoods, "hides"}, {"waste", g.Waste != nil, HideGoods, "hides"}, {"confidence", g.Confidence != nil, HideGoods, "hides"},
		{"buy_by", g.BuyBy != "", HideGoods, "hides"},
	} {
		if x.given && g.Kind != x.kind && (g.Kind == RollGoods || g.Kind == HideGoods) {
			f.misplaced(at.Dot(x.name), "only fields of this kind of goods; this one belongs to "+x.of)
		}
	}
	return f
}

func goodsNames() []string {
	var out []string
	for _, g := range thread.AllGoods() {
		out = append(out, g.String())
	}
	return out
}

func (g GoodsSpec) roll() material.Roll {
	r := material.Roll{Name: g.Name, Width: g.Width, Selvage: g.Selvage, Repeat: g.Repeat, Across: g.RepeatAcross, AcrossLevel: g.RepeatLevel, Drop: g.Drop.Drop,
		First: g.FirstMotif, UnknownStart: g.UnknownStart, Up: g.Up, Nap: g.Nap, OneWay: g.OneWay, Even: g.Even, Shrinkage: g.Shrinkage, Increment: g.Increment}
	for _, f := range g.Flaws {
		r.Flaws = append(r.Flaws, material.Flaw(f))
	}
	return r
}

func (g GoodsSpec) thickness() unit.Length {
	if g.Thickness == 0 {
		return unit.Millimetre
	}
	return unit.Length(g.Thickness)
}

// sewn gives what covers must know of the goods, by their ids.
func (c catalog) sewn() map[string]allowance.SewnGoods {
	out := map[string]allowance.SewnGoods{}
	for _, g := range c.sound {
		out[g.ID] = g.sewn()
	}
	return out
}

func (g GoodsSpec) sewn() allowance.SewnGoods {
	limits, _ := g.ease().Limits()
	out := allowance.SewnGoods{Thickness: g.thickness(), Ease: limits, TwoFaced: g.TwoFaced}
	if advice, err := thread.Recommend(thread.Need{Goods: g.Material, Layers: allowance.SeamLayers}); err == nil {
		out.Heft = int(advice.Best().Thread.Size)
	}
	return out
}

// ease gives how much fullness the goods take: as they say, or as is usual for
// their kind.
func (g GoodsSpec) ease() allowance.EaseClass {
	switch {
	case g.Ease != nil:
		return *g.Ease
	case g.Material == thread.Leather:
		return allowance.SoftLeather
	case g.Material == thread.HeavyLeather || g.Material == thread.Vinyl:
		return allowance.FirmLeather
	case g.Material == thread.Canvas:
		return allowance.CoatedWoven
	}
	return allowance.FirmWoven
}

// longest gives the longest strip that may be cut.
func (g GoodsSpec) longest() unit.Length {
	switch {
	case g.LongestStrip != 0:
		return g.LongestStrip
	case g.Kind == RollGoods:
		return g.roll().Usable()
	}
	return 72 * unit.Inch
}

func (g GoodsSpec) stretch() allowance.Stretch {
	switch {
	case g.Stretch != nil:
		return allowance.Stretch{TakeOut: *g.Stretch}
	case g.Material == thread.Leather || g.Material == thread.HeavyLeather:
		s, _ := allowance.LeatherStretch()
		return s
	}
	return allowance.Stretch{}
}

func (g GoodsSpec) grain() string {
	switch {
	case g.Kind == HideGoods:
		return "along the backbone"
	case g.Nap:
		return g.Up.String() + ", nap one way"
	case g.roll().Patterned():
		return g.Up.String() + ", on the repeat"
	}
	return g.Up.String()
}

// forParts gives what made-up parts must know of the goods.
func (g GoodsSpec) forParts() made.Goods {
	out := made.Goods{ID: g.ID, Across: g.longest(), Directed: g.directed(), Thickness: g.thickness()}
	if !g.Up.Sideways() {
		out.Repeat = g.roll().Columns()
	}
	switch {
	case g.LongestStrip != 0 || g.Kind != RollGoods:
		out.Along = out.Across
	case g.Up.Sideways(): // strips across the pattern run along the roll
		out.Across, out.Along = 0, out.Across
	}
	return out
}

// withIncrement gives the goods the seller's step where the job has none: an
// eighth of a yard, or 10 cm where they are priced by the metre.
func (g GoodsSpec) withIncrement(priced unit.Length) GoodsSpec {
	if g.Increment != 0 {
		return g
	}
	g.Increment = unit.Yard / 8
	if priced != 0 && priced%unit.Centimetre == 0 {
		g.Increment = 10 * unit.Centimetre
	}
	return g
}

// directed tells whether the goods must not be turned a quarter.
func (g GoodsSpec) directed() bool { return g.roll().Directed() || g.roll().Patterned() }
