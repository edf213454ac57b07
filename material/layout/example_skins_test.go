package layout_test

import (
	"context"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// The leather of the reading room: a window-seat cushion with its boxing and
// six drop-in seats.
func readingRoomLeather() []layout.SkinPanel {
	top, _ := shape.Rectangle(49*unit.Inch, 21*unit.Inch)
	boxing, _ := shape.Rectangle(5*unit.Inch, 48*unit.Inch)
	seat, _ := shape.Trapezoid(23*unit.Inch, 20*unit.Inch, 21*unit.Inch, 3*unit.Inch/2)
	return []layout.SkinPanel{
		{Name: "cushion top", Outline: top, Count: 2, Grain: layout.FreeGrain()},
		{Name: "boxing", Outline: boxing, Count: 3, Grain: layout.FreeGrain(), Least: material.FairGrade},
		{Name: "seat", Outline: seat, Count: 6, Grain: layout.FreeGrain()},
	}
}

// The leather of the reading room on hides of 38 sq ft.
func ExampleNestSkins() {
	skins, err := layout.NominalSkins(material.WholeHide, 38*unit.SquareFoot, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := layout.NestSkins(context.Background(), skins, readingRoomLeather(), layout.NestOptions{Effort: 0.2})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("complete:", plan.Complete(), "- skins:", len(plan.Used), "- no plan needs fewer than", plan.Least)
	fmt.Println("panels", plan.Placed.Decimal(unit.SquareFoot, 1, unit.Nearest), "of", plan.Bought, "bought:", plan.Yield().PercentText(0, unit.Nearest))
	// Output:
	// complete: true - skins: 2 - no plan needs fewer than 2
	// panels 38.1 sq ft of 76 sq ft bought: 50 %
}

// A measured skin with a brand and a poor belly; the panel keeps off both.
func ExampleNestSkins_measuredSkin() {
	skin := material.Skin{ID: "H1", Thickness: 3 * unit.LeatherOunce}
	skin.Outline, _ = shape.Path("M 0 0 C 20 -6 50 -6 70 0 L 66 50 C 70 70 60 84 36 84 C 10 84 0 70 4 50 Z", unit.Inch)
	belly, _ := shape.Rectangle(14*unit.Inch, 84*unit.Inch)
	skin.Zones = []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: belly}}
	skin.Defects = []material.Defect{{Kind: material.Brand, At: shape.Point{X: 50 * unit.Inch, Y: 30 * unit.Inch}, Across: 5 * unit.Inch}}
	seat, _ := shape.Rectangle(24*unit.Inch, 22*unit.Inch)
	plan, err := layout.NestSkins(context.Background(), []material.Skin{skin},
		[]layout.SkinPanel{{Name: "seat", Outline: seat, Count: 2, Grain: layout.EitherWay(5)}}, layout.NestOptions{Effort: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range plan.Placements {
		fmt.Println(plan.Panels[p.Panel].Name, p.Copy+1, "clear of the belly:", p.Outline[0].X > 14*unit.Inch)
	}
	fmt.Println(plan.Verify())
	// Output:
	// seat 1 clear of the belly: true
	// seat 2 clear of the belly: true
	// <nil>
}

func ExampleSkinPlan_SVG() {
	skins, _ := layout.NominalSkins(material.Calf, 28*unit.SquareFoot, 1)
	seat, _ := shape.Rectangle(20*unit.Inch, 18*unit.Inch)
	plan, err := layout.NestSkins(context.Background(), skins, []layout.SkinPanel{{Name: "seat", Outline: seat, Count: 2}}, layout.NestOptions{Effort: 0.05})
	if err != nil {
		fmt.Println(err)
		return
	}
	picture, err := plan.SVG(0, unit.Inches)
	fmt.Println(strings.Count(picture, ">20 x 18 in<"), err)
	// Output: 2 <nil>
}

// Circles of 18 in on cloth of 54 in: three abreast.
func ExampleNestRoll() {
	seat, err := shape.Circle(18 * unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := layout.NestRoll(context.Background(), material.Roll{Width: 54 * unit.Inch, Increment: unit.Yard / 8},
		[]layout.RollPanel{{Name: "stool top", Outline: seat, Count: 3}}, layout.NestOptions{Effort: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("need", plan.Need, "buy", plan.Order, "saved against boxes", plan.Saved())
	// Output: need 18 in buy 18 in saved against boxes 0 in
}

// Two gussets with a slanted side nest where their boxes do not.
func ExampleNestRoll_saved() {
	gusset, err := shape.Trapezoid(40*unit.Inch, 10*unit.Inch, 20*unit.Inch, 30*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := layout.NestRoll(context.Background(), material.Roll{Width: 54 * unit.Inch},
		[]layout.RollPanel{{Name: "gusset", Outline: gusset, Count: 2, Turn: layout.HalfTurn}}, layout.NestOptions{Effort: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("boxes", plan.Boxes, "nested", plan.Need, "saved", plan.Saved())
	// Output: boxes 40 in nested 20 in saved 20 in
}

// What the layout saves against the rule of thumb.
func ExampleCompareBuying() {
	panels := readingRoomLeather()
	skins, _ := layout.NominalSkins(material.WholeHide, 38*unit.SquareFoot, 3)
	plan, err := layout.NestSkins(context.Background(), skins, panels, layout.NestOptions{Effort: 0.2})
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := layout.CompareBuying(plan, material.WasteFactor{Waste: 0.5}, material.SkinSupply{Mean: 38 * unit.SquareFoot, Spread: 3 * unit.SquareFoot},
		material.Yields(layout.PieceSizeOf(panels))[0], 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range c.Answers() {
		fmt.Printf("%-13v %d skins\n", a.Kind, a.Skins)
	}
	fmt.Println("saved:", c.SkinsSaved, "skin,", c.AreaSaved)
	// Output:
	// bound         2 skins
	// rule of thumb 3 skins
	// estimate      3 skins
	// layout        2 skins
	// saved: 1 skin, 38 sq ft
}

func ExampleNominalSkins() {
	skins, err := layout.NominalSkins(material.Side, 24*unit.SquareFoot, 2)
	fmt.Println(len(skins), skins[1].ID, skins[1].SoldArea(), err)
	// Output: 2 side 2 24 sq ft <nil>
}

func ExamplePieceSizeOf() {
	fmt.Println(layout.PieceSizeOf(readingRoomLeather()))
	// Output: large pieces
}

func ExampleNetArea() {
	a, err := layout.NetArea(readingRoomLeather())
	fmt.Println(a.Decimal(unit.SquareFoot, 1, unit.Nearest), err)
	// Output: 38.1 sq ft <nil>
}

func ExampleRollPanelOf() {
	back, _ := shape.Crowned(26*unit.Inch, 30*unit.Inch, 4*unit.Inch)
	cut, err := allowance.Panel{Name: "inside back", Outline: back}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := layout.RollPanelOf(cut, 2)
	w, h := p.Outline.Size()
	fmt.Println(p.Name, w.Decimal(unit.Inch, 1, unit.Nearest), "by", h.Decimal(unit.Inch, 1, unit.Nearest), err)
	// Output: inside back 27.0 in by 35.0 in <nil>
}

func ExampleSkinPanelOf() {
	seat, _ := shape.Rectangle(20*unit.Inch, 18*unit.Inch)
	cut, err := allowance.Panel{Name: "seat", Outline: seat, AllEdges: allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(2 * unit.Inch)}}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := layout.SkinPanelOf(cut, 6)
	w, h := p.Outline.Size()
	fmt.Println(p.Name, w, "by", h, "-", p.Count, "of them", err)
	// Output: seat 24 in by 22 in - 6 of them <nil>
}
