package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// LeatherAnswer is one answer to how much leather to buy.
type LeatherAnswer struct {
	Kind  cite.Kind  `json:"kind"`
	Text  string     `json:"text"` // how it was found, in words
	Skins int        `json:"skins"`
	Area  unit.Area  `json:"area"` // of the skins to buy
	Basis cite.Basis `json:"basis,omitzero"`
}

// LeatherCompared sets buying by rule of thumb beside buying by expected yield
// and by layout. It knows no money: the difference is skins and area.
type LeatherCompared struct {
	Net    unit.Area     `json:"net"`    // of the panels
	Bound  LeatherAnswer `json:"bound"`  // skins that no plan can stay under
	Thumb  LeatherAnswer `json:"thumb"`  // a waste factor, whole skins
	Expect LeatherAnswer `json:"expect"` // a yield and a confidence
	Layout LeatherAnswer `json:"layout"` // every panel placed
	// SkinsSaved and AreaSaved are the rule of thumb less the layout; below
	// zero where the rule would have bought too little.
	SkinsSaved int       `json:"skins_saved"`
	AreaSaved  unit.Area `json:"area_saved"`
}

// Answers gives the four answers, the bound first and the layout last.
func (c LeatherCompared) Answers() []LeatherAnswer {
	return []LeatherAnswer{c.Bound, c.Thumb, c.Expect, c.Layout}
}

// CompareBuying sets the ways to buy leather side by side for a plan with every
// panel placed: by a waste factor on skins of the average area of the supply,
// by a forecast at a yield and a confidence, and by the layout. An incomplete
// plan wraps ErrNoLayout; other errors are those of HidesToBuy and
// ForecastSkins.
func CompareBuying(plan Plan, w material.WasteFactor, s material.SkinSupply, y material.YieldRange, confidence unit.Ratio) (LeatherCompared, error) {
	if !plan.Complete() || len(plan.Places) == 0 {
		return LeatherCompared{}, check.Refuse("plan", fmt.Sprintf("%d panels unplaced", len(plan.Unplaced)), ErrNoLayout, "a plan with every panel placed")
	}
	f, err := material.ForecastSkins(plan.Areas.Placed, s, y, confidence)
	if err != nil {
		return LeatherCompared{}, err
	}
	e, err := material.HidesToBuy(plan.Areas.Placed, material.Hide{Area: s.MeanArea()}, w)
	if err != nil {
		return LeatherCompared{}, err
	}
	c := LeatherCompared{Net: plan.Areas.Placed}
	thumb, err := s.MeanArea().Times(e.Hides)
	if err != nil {
		return LeatherCompared{}, err
	}
	c.Thumb = LeatherAnswer{Kind: cite.RuleOfThumb, Skins: e.Hides, Area: thumb, Basis: w.Basis,
		Text: fmt.Sprintf("panels and %s waste, in whole skins; not proved by a layout", w.Waste.PercentText(0, unit.Nearest))}
	c.Expect = LeatherAnswer{Kind: cite.Estimate, Skins: f.Skins, Area: f.Area, Basis: y.Basis,
		Text: yieldText(y) + "; enough in " + chanceText(f.Chance) + " of cases at the low end"}
	c.Layout = LeatherAnswer{Kind: cite.Layout, Skins: len(plan.Used), Area: plan.Areas.Sold,
		Text: fmt.Sprintf("every panel placed on the skins, %s of their area used", share(plan.Areas.Placed, plan.Areas.Sold).PercentText(0, unit.Nearest))}
	c.Bound = LeatherAnswer{Kind: cite.Bound, Skins: plan.Bound().Hides, Area: plan.Areas.Placed, Text: plan.Bound().Method.String()}
	c.SkinsSaved = c.Thumb.Skins - c.Layout.Skins
	c.AreaSaved, err = c.Thumb.Area.Minus(c.Layout.Area)
	return c, err
}

// chanceText never says that a forecast is certain: its model is not.
func chanceText(c unit.Ratio) string {
	if c > 0.999 {
		return "over 99.9 %"
	}
	return c.PercentText(1, unit.Down)
}

// yieldText writes a range of yields, or the one that it is.
func yieldText(y material.YieldRange) string {
	if y.From == y.To {
		return "yield of " + y.From.PercentText(0, unit.Nearest)
	}
	return "yield of " + y.From.PercentText(0, unit.Nearest) + " to " + y.To.PercentText(0, unit.Nearest)
}
