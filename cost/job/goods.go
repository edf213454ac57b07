package job

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
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
		b.fail(field+".id", check.Refuse("", g.ID, unit.ErrUnknown, "an id that no other goods have"))
	}
	b.fail(field+".material", check.OneOf("", g.Material.String(), goodsNames()...))
	b.fail(field+".thickness", check.Length("", unit.Length(g.Thickness), 0, 20*unit.Millimetre))
	b.fail(field+".longest_strip", check.Length("", g.LongestStrip, 0, maxSide))
	if g.Stretch != nil {
		b.fail(field+".stretch", check.Ratio("", *g.Stretch, 0, 0.2))
	}
	var p price
	switch g.Kind {
	case RollGoods:
		b.fail(field, trimField("roll", g.roll().Check()))
		p.length, _ = parsePrice[unit.Length](b, field+".price", g.Price)
		b.unwanted(field, map[string]bool{"hide_area": g.HideArea != 0, "waste": g.Waste != nil}, "hides")
	case Hides:
		b.failAs(field+".hide_area", material.Hide{Area: g.HideArea}.Check())
		if g.Waste != nil {
			b.fail(field+".waste", check.Ratio("", *g.Waste, 0, 0.9))
		}
		p.area, _ = parsePrice[unit.Area](b, field+".price", g.Price)
		b.unwanted(field, map[string]bool{"width": g.Width != 0, "selvage": g.Selvage != 0, "repeat": g.Repeat != 0,
			"nap": g.Nap, "increment": g.Increment != 0}, "a roll")
	default:
		b.fail(field+".kind", check.OneOf("", string(g.Kind), string(RollGoods), string(Hides)))
	}
	if len(b.errs) == before {
		b.goods = append(b.goods, g)
		b.money[g.ID] = p
	}
}

// unwanted refuses fields that mean nothing for the kind of goods, so that a
// mistaken kind is seen.
func (b *builder) unwanted(field string, given map[string]bool, of string) {
	for _, name := range []string{"width", "selvage", "repeat", "nap", "increment", "hide_area", "waste"} {
		if given[name] {
			b.fail(field+"."+name, check.Refuse("", "", unit.ErrUnknown, "no such field here; it belongs to "+of))
		}
	}
}

func goodsNames() []string {
	var out []string
	for _, g := range thread.AllGoods() {
		out = append(out, g.String())
	}
	return out
}

func (g Goods) roll() material.Roll {
	return material.Roll{Name: g.Name, Width: g.Width, Selvage: g.Selvage, Repeat: g.Repeat, Nap: g.Nap, Increment: g.Increment}
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
	return 54 * unit.Inch
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
	case g.Repeat != 0:
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
	if !slices.ContainsFunc(b.spec.Goods, func(g Goods) bool { return g.ID == id }) {
		var ids []string
		for _, g := range b.spec.Goods {
			ids = append(ids, g.ID)
		}
		b.fail(field, check.OneOf("", id, ids...))
	}
	return Goods{}, false
}

// purchases works out what to buy of each kind of goods, and its lines.
func (b *builder) purchases(ctx context.Context) {
	for i, g := range b.goods {
		var cuts []Cut
		for _, c := range b.out.Cuts {
			if c.Goods == g.ID {
				cuts = append(cuts, c)
			}
		}
		if len(cuts) == 0 {
			continue
		}
		p := Purchase{Goods: g.ID, Name: g.Name}
		var err error
		for _, c := range cuts {
			if p.Net, err = p.Net.Plus(c.Area); err != nil {
				b.fail(at("goods", i), err)
				return
			}
		}
		var line cost.Line
		uplift := cost.Markup(b.spec.Quote.Markup)
		if g.Kind == RollGoods {
			if err = p.ofRoll(ctx, g, cuts); err == nil {
				line, err = cost.Item[unit.Length]{ID: g.ID, Kind: cost.Goods, What: g.Name, Quantity: p.Length,
					Price: b.money[g.ID].length, Uplift: uplift}.Line()
			}
		} else if err = p.ofHides(g); err == nil {
			line, err = cost.Item[unit.Area]{ID: g.ID, Kind: cost.Goods, What: g.Name, Quantity: p.Area, Net: min(p.Net, p.Area),
				Price: b.money[g.ID].area, Uplift: uplift}.Line()
		}
		if errors.Is(err, material.ErrTooWide) || errors.Is(err, material.ErrTooMany) {
			b.fail("", err)
			continue
		}
		if err != nil {
			b.fail(at("goods", i), err)
			continue
		}
		b.lines = append(b.lines, line)
		b.out.Purchases = append(b.out.Purchases, p)
	}
}

func (p *Purchase) ofRoll(ctx context.Context, g Goods, cuts []Cut) error {
	pieces := make([]material.Piece, len(cuts))
	for i, c := range cuts {
		pieces[i] = material.Piece{Name: c.Piece + ": " + c.Part, Width: c.Cut.Width, Length: c.Cut.Length, Count: c.Count, Turn: c.turn, Unmatched: c.free}
	}
	l, err := material.LayOut(ctx, g.roll(), pieces, material.Options{})
	if err != nil {
		return cutError(err, cuts)
	}
	p.Length, p.Layout = l.Order, &l
	derived := cite.Basis{Status: cite.Derived}
	p.Answers = []Answer{
		{Kind: cite.Bound, Text: "no layout can need less", Length: l.Bound, Basis: derived},
		{Kind: cite.Layout, Text: "every piece placed and checked; " + howGood(l), Length: l.Need, Basis: derived},
	}
	return nil
}

// howGood says how far a layout may be from the best one.
func howGood(l material.Layout) string {
	if l.Proved {
		return "proved shortest"
	}
	return "at most " + l.GapShare().PercentText(1, unit.Up) + " longer than the best"
}

// cutError names the field of the spec that a layout cannot place, and the
// part it belongs to.
func cutError(err error, cuts []Cut) error {
	var e *unit.InputError
	var i int
	if !errors.As(err, &e) {
		return err
	}
	if n, err := fmt.Sscanf(e.Field, "pieces[%d]", &i); err != nil || n != 1 || i < 0 || i >= len(cuts) {
		return err
	}
	return &unit.InputError{Field: cuts[i].field, Value: cuts[i].Part + ", cut " + e.Value, Err: e.Err, Want: e.Want}
}

func (p *Purchase) ofHides(g Goods) error {
	hide := material.Hide{Name: g.Name, Area: g.HideArea}
	least, err := material.HidesToBuy(p.Net, hide, material.WasteFactor{})
	if err != nil {
		return err
	}
	w := material.WholeHideWaste
	if g.Waste != nil {
		w = material.WasteFactor{Waste: *g.Waste, Basis: cite.Basis{Status: cite.CommonPractice, Note: "waste factor as given in the job"}}
	}
	e, err := material.HidesToBuy(p.Net, hide, w)
	if err != nil {
		return err
	}
	p.Hides = e.Hides
	if p.Area, err = hide.Area.Times(e.Hides); err != nil {
		return err
	}
	p.Answers = []Answer{
		{Kind: cite.Bound, Text: "area of the panels alone; no layout can need less", Area: p.Net, Hides: least.Hides,
			Basis: cite.Basis{Status: cite.Derived}},
		{Kind: cite.RuleOfThumb, Text: "panels plus " + w.Waste.String() + " waste, in whole hides; not proved by a layout",
			Area: e.Gross, Hides: e.Hides, Basis: w.Basis},
	}
	return nil
}
