package job

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// want is goods to buy: their cuts, and the number of their layout.
type want struct {
	field string // of the spec
	goods Goods
	cuts  []Cut
	task  int // -1 where no layout is made
	rule  material.HideEstimate
}

// wants finds what to buy and notes the layouts to make.
func (b *builder) wants(p *planner) {
	for i, g := range b.spec.Goods {
		var cuts []Cut
		for _, c := range b.out.Cuts {
			if c.Goods == g.ID {
				cuts = append(cuts, c)
			}
		}
		if len(cuts) == 0 {
			continue
		}
		w := want{field: at("goods", i), goods: g, cuts: cuts, task: -1}
		if g.Kind == RollGoods {
			w.goods = g.withIncrement(b.money[g.ID].length.Unit())
			if b.tooWide(w.goods, cuts) {
				continue
			}
		} else if !b.byRule(&w) {
			continue
		}
		t, err := newTask(w.goods, cuts)
		if err != nil {
			b.fail("", err)
			continue
		}
		if t.panels != nil {
			t.start = max(1, min(w.rule.Hides, layout.MostSkins))
			if w.goods.BuyBy == ByRule || w.beyond() {
				b.wanted = append(b.wanted, w)
				continue
			}
		}
		w.task = p.add(t)
		b.wanted = append(b.wanted, w)
	}
}

// net adds up the area of the cuts.
func (w want) net() (unit.Area, error) {
	var sum unit.Area
	var err error
	for _, c := range w.cuts {
		if sum, err = sum.Plus(c.Area); err != nil {
			return 0, err
		}
	}
	return sum, nil
}

// mean is the area of a hide on average.
func (g Goods) mean() unit.Area {
	if len(g.Hides) == 0 {
		return g.HideArea
	}
	var sum unit.Area
	for _, a := range g.areas() {
		sum += a // at most 200 hides of 120 sq ft
	}
	return sum / unit.Area(len(g.Hides))
}

// areas gives the areas of the hides at hand.
func (g Goods) areas() []unit.Area {
	out := make([]unit.Area, 0, len(g.Hides))
	for _, h := range g.Hides {
		if s, err := h.skin(); err == nil {
			out = append(out, s.SoldArea())
		}
	}
	return out
}

// byRule works out the hides by the rule of thumb.
func (b *builder) byRule(w *want) bool {
	net, err := w.net()
	if err == nil {
		w.rule, err = material.HidesToBuy(net, material.Hide{Name: w.goods.Name, Area: w.goods.mean()}, w.goods.waste())
	}
	b.fail(w.field, err)
	return err == nil
}

func (g Goods) waste() material.WasteFactor {
	if g.Waste == nil {
		return material.WholeHideWaste()
	}
	return material.WasteFactor{Waste: *g.Waste, Basis: cite.Basis{Status: cite.Derived, Note: "from the waste share given in the job"}}
}

// beyond tells whether a job is too large for a layout on hides.
func (w want) beyond() bool {
	n := 0
	for _, c := range w.cuts {
		n += c.Count
	}
	return n > layout.MostPanels || len(w.goods.Hides) == 0 && w.rule.Hides > layout.MostSkins
}

// purchases works out what to buy of each kind of goods, and its lines.
func (b *builder) purchases(p *planner) {
	for _, w := range b.wanted {
		var r result
		if w.task >= 0 {
			if err := p.errs[w.task]; err != nil {
				b.fail("", layoutError(err, w.field, w.cuts))
				continue
			}
			r = p.results[w.task]
			b.out.Stopped = b.out.Stopped || r.stopped()
		}
		out := Purchase{Goods: w.goods.ID, Name: w.goods.Name, Layout: r.rows, Roll: r.strip, Skins: r.skins}
		var err error
		if out.Net, err = w.net(); err == nil {
			err = b.buy(w, r, &out)
		}
		if err != nil {
			b.fail(w.field, err)
			continue
		}
		b.out.Purchases = append(b.out.Purchases, out)
	}
}

var derived = cite.Basis{Status: cite.Derived}

func (b *builder) buy(w want, r result, p *Purchase) error {
	uplift := cost.Markup(b.spec.Quote.Markup)
	if w.goods.Kind == RollGoods {
		p.ofRoll(r)
		price := b.money[w.goods.ID].length
		line, err := cost.Item[unit.Length]{ID: w.goods.ID, Kind: cost.Goods, What: w.goods.Name, Quantity: p.Length, Price: price, Uplift: uplift}.Line()
		if err != nil {
			return err
		}
		b.lines = append(b.lines, line)
		p.Cost, err = price.Of(p.Length, b.rounding())
		return err
	}
	price := b.money[w.goods.ID].area
	if err := p.ofHides(w); err != nil {
		return err
	}
	if p.Skins != nil {
		if err := p.saving(w, price, b.rounding()); err != nil {
			return err
		}
	}
	line, err := cost.Item[unit.Area]{ID: w.goods.ID, Kind: cost.Goods, What: w.goods.Name, Quantity: p.Area, Net: min(p.Net, p.Area),
		Price: price, Uplift: uplift}.Line()
	if err != nil {
		return err
	}
	b.lines = append(b.lines, line)
	p.Cost, err = price.Of(p.Area, b.rounding())
	return err
}

func (p *Purchase) ofRoll(r result) {
	boxes, outlines := "boxes round the panels", "outlines nested"
	add := func(kind cite.Kind, text string, l unit.Length) {
		p.Answers = append(p.Answers, Answer{Kind: kind, Text: text, Length: l, Basis: derived})
	}
	switch l := p.Layout; {
	case l != nil && r.bound == 0:
		p.Length = l.Order
		add(cite.Bound, "no layout can need less", l.Bound)
		add(cite.Layout, "every piece placed and checked; "+howGood(*l), l.Need)
	case l != nil:
		p.Length = l.Order
		add(cite.Bound, "no layout can need less", r.bound)
		add(cite.Layout, outlines+", for comparison", r.other)
		add(cite.Layout, "every piece placed and checked, "+boxes+"; "+overBound(l.Need, r.bound), l.Need)
	default:
		p.Length = p.Roll.Order
		add(cite.Bound, "no layout can need less", r.bound)
		add(cite.Layout, boxes+", for comparison", r.other)
		add(cite.Layout, "every piece placed and checked, "+outlines+"; "+overBound(p.Roll.Need, r.bound), p.Roll.Need)
	}
}

// overBound says how far a layout may be from the best one.
func overBound(need, bound unit.Length) string {
	if over, err := (need - bound).Per(bound); err == nil && over > 0 {
		return "at most " + over.PercentText(1, unit.Up) + " longer than the best"
	}
	return "as short as can be"
}

// howGood says how far a layout may be from the best one.
func howGood(l layout.BoxPlan) string {
	if l.Proved {
		return "proved shortest"
	}
	return "at most " + l.GapShare().PercentText(1, unit.Up) + " longer than the best"
}

// ofHides gives the answers for hides, the one that is bought by last.
func (p *Purchase) ofHides(w want) error {
	g := w.goods
	thumb := Answer{Kind: cite.RuleOfThumb, Text: "panels plus " + w.rule.Waste.String() + " waste, in whole hides; not proved by a layout",
		Area: w.rule.Gross, Hides: w.rule.Hides, Basis: w.rule.Basis}
	if p.Skins == nil {
		least, err := material.HidesToBuy(p.Net, material.Hide{Name: g.Name, Area: g.mean()}, material.WasteFactor{})
		if err != nil {
			return err
		}
		p.Answers = []Answer{{Kind: cite.Bound, Text: "area of the panels alone; no layout can need less", Area: p.Net, Hides: least.Hides, Basis: derived}, thumb}
		p.Hides = w.rule.Hides
		p.Area, err = g.mean().Times(w.rule.Hides)
		return err
	}
	plan := p.Skins
	supply := material.SkinSupply{Mean: g.mean(), Spread: g.HideSpread}
	if areas := g.areas(); len(areas) > 1 {
		supply = material.SkinSupply{Sample: areas}
	}
	confidence := unit.Ratio(0.9)
	if g.Confidence != nil {
		confidence = *g.Confidence
	}
	c, err := layout.CompareBuying(*plan, g.waste(), supply, material.Yields(layout.PieceSizeOf(plan.Panels))[0], confidence)
	if err != nil {
		return err
	}
	shape := "on the hides as measured"
	switch measured := len(g.Hides); {
	case measured == 0:
		shape = "on hides of the usual shape and the area stated; real hides differ"
	case len(plan.Skins) > measured:
		shape = fmt.Sprintf("on %d hides as measured, and others of the usual shape", measured)
	}
	layout := Answer{Kind: cite.Layout, Text: "every piece placed and checked " + shape + "; " + plan.Yield().PercentText(0, unit.Nearest) + " of the leather used",
		Area: c.Layout.Area, Hides: c.Layout.Skins, Basis: derived}
	p.Answers = []Answer{
		{Kind: cite.Bound, Text: fewest(c.Bound), Area: c.Bound.Area, Hides: c.Bound.Skins, Basis: derived},
		thumb,
		{Kind: cite.Estimate, Text: c.Expect.Text, Area: c.Expect.Area, Hides: c.Expect.Skins, Basis: c.Expect.Basis},
		layout,
	}
	p.Hides, p.Area = c.Layout.Skins, c.Layout.Area
	return nil
}

// fewest says why no layout can do with fewer hides.
func fewest(bound layout.LeatherAnswer) string {
	if bound.Skins <= 1 {
		return "area of the panels alone; no layout can need less"
	}
	return "no layout can need fewer hides: " + bound.Text
}

// saving sets buying by the rule of thumb beside buying by the layout.
func (p *Purchase) saving(w want, price cost.AreaPrice, round cost.Rounding) error {
	byRule, err := w.goods.mean().Times(w.rule.Hides)
	if err != nil {
		return err
	}
	s := &Saving{RuleHides: w.rule.Hides, LayoutHides: len(p.Skins.Used), Kind: cite.Estimate}
	if s.ByRule, err = price.Of(byRule, round); err != nil {
		return err
	}
	if s.ByLayout, err = price.Of(p.Skins.Bought, round); err != nil {
		return err
	}
	if s.Saved, err = s.ByRule.Minus(s.ByLayout); err != nil {
		return err
	}
	s.Figure = cost.Figure{Name: w.goods.Name + ": saved by buying by layout", Value: s.Saved.String(),
		Formula: "hides by rule x mean area x price - area of the hides in the layout x price",
		Working: fmt.Sprintf("%d x %v x %v - %v x %v", w.rule.Hides, w.goods.mean(), price, p.Skins.Bought, price),
		Rule:    "before markup and tax; both amounts rounded to the currency", Basis: w.rule.Basis}
	p.Saving = s
	return nil
}

// tooWide reports every cut that does not fit across the goods.
func (b *builder) tooWide(g Goods, cuts []Cut) bool {
	found := false
	for _, c := range cuts {
		p := c.piece()
		if p.Fits(g.roll()) || c.part.join != nil && c.part.join.AlongWidth {
			continue
		}
		found = true
		want := "at most the usable width of " + g.roll().Usable().String() + " across the goods"
		if c.part.turn == layout.KeepGrain && c.Cut.Length <= g.roll().Usable() && !g.directed() {
			want += "; may_railroad would let it lie the other way"
		}
		b.fail(c.field, check.Refuse("", c.Part+", cut "+c.Cut.Width.String()+" wide", layout.ErrTooWide, want))
	}
	return found
}
