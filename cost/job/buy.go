package job

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// buy works out what to buy by the layouts, and its lines on the quote. numbers
// gives the layout of each want, -1 for none.
func buy(s Spec, wants []want, numbers []int, results []result) ([]Purchase, []cost.Line, faults) {
	var f faults
	var out []Purchase
	var lines []cost.Line
	for i, w := range wants {
		var r result
		if numbers[i] >= 0 {
			r = results[numbers[i]]
		}
		if r.err != nil {
			f.add("", w.place(r.err))
			continue
		}
		p := Purchase{Goods: w.goods.ID, Name: w.goods.Name, Fibre: w.goods.Fibre, Supplier: w.goods.Supplier, Net: w.net, Plan: r.plan, Matching: r.matching}
		own, err := p.price(w, r.taken, s)
		if err == nil && len(own) == 0 {
			own, err = p.atNothing(s)
		}
		if err == nil {
			err = p.leave(w.goods)
		}
		if err != nil {
			f.add(w.at, err)
			continue
		}
		for k := range own {
			own[k].Shares = w.shares()
		}
		out, lines = append(out, p), append(lines, own...)
	}
	return out, lines, f
}

var derived = cite.Basis{Status: cite.Derived}

// price fills in what is bought, what is at hand, and what both cost.
func (p *Purchase) price(w want, t *taken, s Spec) ([]cost.Line, error) {
	if w.goods.Kind == RollGoods {
		if err := p.ofRoll(w.task.shaped); err != nil {
			return nil, err
		}
		return p.priceRoll(w.goods, t, s)
	}
	if err := p.ofHides(w); err != nil {
		return nil, err
	}
	return p.priceHides(w, s)
}

// priceRoll fills in the length to buy and its price.
func (p *Purchase) priceRoll(g GoodsSpec, t *taken, s Spec) ([]cost.Line, error) {
	o, err := g.ordered(*p.Plan)
	if err != nil {
		return nil, err
	}
	var lines []cost.Line
	if p.Ordered, p.Length = &o, o.Order; t != nil || g.customers() {
		if lines, err = p.fromRolls(g, t, s); err != nil {
			return nil, err
		}
	}
	if p.Length == 0 {
		p.Cost, err = cost.Zero(s.Currency)
		return lines, err
	}
	price := g.Price.PerLength
	if p.Cost, err = price.Of(p.Length, s.Quote.rounding()); err != nil {
		return nil, err
	}
	line, err := cost.Item[unit.Length]{ID: g.ID, Kind: cost.Goods, What: g.Name, Quantity: p.Length, Price: price, Uplift: s.Quote.uplift(cost.Goods)}.Line()
	return append([]cost.Line{line}, lines...), err
}

// priceHides fills in the price of the hides that are bought.
func (p *Purchase) priceHides(w want, s Spec) ([]cost.Line, error) {
	price := w.goods.Price.PerArea
	var err error
	if p.Plan != nil && len(p.Plan.Job.Hides.AtHand) == 0 && !w.goods.customers() {
		if err = p.saving(w, price, s.Quote.rounding()); err != nil {
			return nil, err
		}
	}
	lines, err := p.fromHides(w.goods, s)
	if err != nil {
		return nil, err
	}
	if p.Area == 0 {
		p.Cost, err = cost.Zero(s.Currency)
		return lines, err
	}
	if p.Cost, err = price.Of(p.Area, s.Quote.rounding()); err != nil {
		return nil, err
	}
	line, err := cost.Item[unit.Area]{ID: w.goods.ID, Kind: cost.Goods, What: w.goods.Name, Quantity: p.Area, Net: min(p.Net, p.Area),
		Price: price, Uplift: s.Quote.uplift(cost.Goods)}.Line()
	return append([]cost.Line{line}, lines...), err
}

// worthPrinting is the largest gap between a layout and its bound that says
// something of the layout: beyond, as with many hollow outlines on plain goods,
// it is the bound that is weak. On patterned goods, which are dear, it is told
// anyway.
const worthPrinting unit.Ratio = 0.25

// ofRoll gives the answers for a roll, the one that is bought by last. Of
// rectangles only the layout they lie in is told, not how it was found.
func (p *Purchase) ofRoll(shaped bool) error {
	plan := p.Plan
	add := func(kind cite.Kind, text string, l unit.Length) {
		p.Answers = append(p.Answers, Answer{Kind: kind, Text: text, Length: l, Basis: derived})
	}
	bound := plan.Bound()
	good := ""
	switch gap := plan.Gap(); {
	case plan.Proved:
		good = "proved shortest"
	case gap <= worthPrinting || plan.Job.Roll.Patterned():
		good = "at most " + gap.PercentText(1, unit.Up) + " longer than the best"
	}
	if good != "" {
		add(cite.Bound, "no layout can need less: "+bound.Method.String(), bound.Length)
	}
	rules, err := p.patternRules()
	if err != nil {
		return err
	}
	p.Answers = append(p.Answers, rules...)
	for _, c := range plan.Claims {
		if c.Kind == cite.Layout && c.Method != plan.Method {
			add(cite.Layout, c.Method.String()+", for comparison", c.Length)
		}
	}
	text := "every piece placed and checked"
	if shaped {
		text += ", " + plan.Method.String()
	}
	if good != "" {
		text += "; " + good
	}
	add(cite.Layout, text, plan.Need)
	return nil
}

// patternRules gives what rules of thumb make of the length of plain goods, where it
// was worked out.
func (p *Purchase) patternRules() ([]Answer, error) {
	if p.Matching == nil {
		return nil, nil
	}
	var widths []unit.Length
	wishes := p.Plan.Job.Wishes()
	for _, q := range p.Plan.Places { // joined pieces in their segments
		if slices.Contains(wishes, q.Piece) {
			low, high := q.Bounds()
			widths = append(widths, high.X-low.X)
		}
	}
	rules, err := material.PatternRules(p.Matching.Plain.Need, *p.Plan.Job.Roll, widths)
	var out []Answer
	for _, r := range rules {
		out = append(out, Answer{Kind: r.Kind, Text: r.Text, Length: r.Length, Basis: r.Basis})
	}
	return out, err
}

// ofHides gives the answers for hides, the one that is bought by last.
func (p *Purchase) ofHides(w want) error {
	g := w.goods
	thumb := Answer{Kind: cite.RuleOfThumb, Text: "panels plus " + w.rule.Waste.String() + " waste, in whole hides; not proved by a layout",
		Area: w.rule.Gross, Hides: w.rule.Hides, Basis: w.rule.Basis}
	if p.Plan == nil {
		least, err := material.HidesToBuy(p.Net, material.Hide{Name: g.Name, Area: g.mean()}, material.WasteFactor{})
		if err != nil {
			return err
		}
		p.Answers = []Answer{{Kind: cite.Bound, Text: "area of the panels alone; no layout can need less", Area: p.Net, Hides: least.Hides, Basis: derived}, thumb}
		p.Hides = w.rule.Hides
		p.Area, err = g.mean().Times(w.rule.Hides)
		return err
	}
	plan := p.Plan
	supply := material.SkinSupply{Mean: g.mean(), Spread: g.HideSpread}
	if areas := g.areas(); len(areas) > 1 {
		supply = material.SkinSupply{Sample: areas}
	}
	confidence := unit.Ratio(0.9)
	if g.Confidence != nil {
		confidence = *g.Confidence
	}
	c, err := layout.CompareBuying(*plan, g.wasted(), supply, material.Yields(layout.PieceSizeOf(plan.Job.Pieces))[0], confidence)
	if err != nil {
		return err
	}
	traced := 0
	for _, i := range plan.Used {
		if !plan.Hides[i].Outline.IsZero() {
			traced++
		}
	}
	shape := "on the hides as traced"
	switch {
	case traced == 0:
		shape = "on hides of the usual shape and the area stated; real hides differ"
	case traced < len(plan.Used):
		shape = fmt.Sprintf("on %d of the hides as traced, the others of the usual shape", traced)
	}
	yield, err := plan.Yield()
	if err != nil {
		return err
	}
	text := "every piece placed and checked " + shape + "; " + yield.PercentText(0, unit.Nearest) + " of the leather used"
	if plan.Proved {
		text += "; no layout takes fewer hides"
	}
	if n := len(plan.Used) - len(plan.Bought); n > 0 {
		text += fmt.Sprintf("; %d of the hides at hand", n)
	}
	laid := Answer{Kind: cite.Layout, Text: text,
		Area: c.Layout.Area, Hides: c.Layout.Skins, Basis: derived}
	p.Answers = []Answer{
		{Kind: cite.Bound, Text: fewest(c.Bound), Area: c.Bound.Area, Hides: c.Bound.Skins, Basis: derived},
		thumb,
		{Kind: cite.Estimate, Text: c.Expect.Text, Area: c.Expect.Area, Hides: c.Expect.Skins, Basis: c.Expect.Basis},
		laid,
	}
	p.Hides, p.Area, p.AtHand = len(plan.Bought), plan.Areas.Bought, len(plan.Used)-len(plan.Bought)
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
	s := &Saving{RuleHides: w.rule.Hides, LayoutHides: len(p.Plan.Used), Kind: cite.Estimate}
	if s.ByRule, err = price.Of(byRule, round); err != nil {
		return err
	}
	if s.ByLayout, err = price.Of(p.Plan.Areas.Bought, round); err != nil {
		return err
	}
	if s.Saved, err = s.ByRule.Minus(s.ByLayout); err != nil {
		return err
	}
	s.Figure = cost.Figure{Name: w.goods.Name + ": saved by buying by layout", Value: s.Saved.String(),
		Formula: "hides by rule x mean area x price - area of the hides in the layout x price",
		Working: fmt.Sprintf("%d x %v x %v - %v x %v", w.rule.Hides, w.goods.mean(), price, p.Plan.Areas.Bought, price),
		Rule:    "before markup and tax; both amounts rounded to the currency", Basis: w.rule.Basis}
	p.Saving = s
	return nil
}
