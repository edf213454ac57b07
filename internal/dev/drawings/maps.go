package main

import (
	"encoding/json"
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// boxedCushion is the map of a cushion of 22 x 22 x 4 in with a zip of 35 in
// round the back.
func boxedCushion() (string, error) {
	c, err := cushionCover()
	if err != nil {
		return "", err
	}
	return mapOf("A boxed cushion, 22 x 22 x 4 in", c)
}

// boxingStrip is the boxing of a cushion as a strip: a plate of 22 x 20 in, out of
// goods that allow pieces of 41 in.
func boxingStrip() (string, error) {
	p, err := made.Cushion{Width: 22 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Zip: true,
		Top: made.Goods{ID: "cloth", Across: 41 * unit.Inch, Directed: true}}.Make()
	if err != nil {
		return "", err
	}
	return pattern.Ring{Title: "Boxing of a cushion, 22 x 20 x 4 in", Boxing: *p.Boxing}.Draw()
}

// wingChair is the map of a wing chair with a loose cushion.
func wingChair() (string, error) {
	var c allowance.Cover
	if err := json.Unmarshal([]byte(chairRelations), &c); err != nil {
		return "", err
	}
	var err error
	add := func(name string, pair bool, o shape.Outline, e error) {
		if err == nil {
			err = e
		}
		c.Panels = append(c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: name, Outline: o}, Goods: "cloth", Pair: pair})
	}
	named := func(o shape.Outline, e error, edges ...string) (shape.Outline, error) {
		if e != nil {
			return o, e
		}
		return o.Renamed(edges...)
	}
	plain := func(name string, pair bool, w, h unit.Length, edges ...string) {
		o, e := shape.Rectangle(w*unit.Inch, h*unit.Inch)
		if len(edges) > 0 {
			o, e = named(o, e, edges...)
		}
		add(name, pair, o, e)
	}
	shaped := func(name string, pair bool, edges []string, corners ...shape.Point) {
		o, e := shape.Polygon(corners...)
		o, e = named(o, e, edges...)
		add(name, pair, o, e)
	}
	plain("deck", false, 22, 20, "front", "right", "back", "left")
	plain("front border", false, 22, 8)
	shaped("inside arm", true, []string{"bottom", "front", "outer", "rear top", "back"}, inches(0, 0), inches(22, 0), inches(22, 11), inches(6, 12), inches(0, 12))
	plain("arm front", true, 4, 7, "bottom", "outer", "top", "inner")
	shaped("inside wing", true, []string{"bottom", "front", "top", "back"}, inches(0, 0), inches(6, 0), inches(8, 14), inches(0, 16))
	plain("inside back", false, 24, 28)
	shaped("outside wing", true, []string{"bottom", "back", "top", "front"}, inches(0, 0), inches(8, 0), inches(8, 18), inches(0, 15))
	plain("outside arm", true, 24, 12, "bottom", "back", "top", "front")
	plain("outside back", false, 26, 30)
	plain("dust cover", false, 24, 24)
	if err != nil {
		return "", err
	}
	cushion, err := cushionCover()
	if err != nil {
		return "", err
	}
	return mapOf("A wing chair with a loose cushion", c.Joined(cushion.Nested("seat cushion")))
}

// cushionCover is the cover of the boxed cushion.
func cushionCover() (allowance.Cover, error) {
	var c allowance.Cover
	if err := json.Unmarshal([]byte(cushionRelations), &c); err != nil {
		return c, err
	}
	for _, p := range []struct {
		name  string
		w, h  unit.Length
		edges []string
	}{
		{"top plate", 22, 22, []string{"front", "right", "back", "left"}}, {"bottom plate", 22, 22, []string{"front", "right", "back", "left"}},
		{"boxing", 53, 4, nil}, {"zip upper", 35, 2, nil}, {"zip lower", 35, 2, nil},
	} {
		o, err := shape.Rectangle(p.w*unit.Inch, p.h*unit.Inch)
		if err != nil {
			return c, err
		}
		if p.edges != nil {
			if o, err = o.Renamed(p.edges...); err != nil {
				return c, err
			}
		}
		c.Panels = append(c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: p.name, Outline: o}, Goods: "cloth"})
	}
	return c, nil
}

// mapOf works a cover of one cloth out and draws its map.
func mapOf(title string, c allowance.Cover) (string, error) {
	limits, _ := allowance.FirmWoven.Limits()
	w, err := c.Work(map[string]allowance.SewnGoods{"cloth": {Ease: limits}})
	if err != nil {
		return "", fmt.Errorf("%s: %w", title, err)
	}
	return pattern.Map{Title: title}.Draw(c, w)
}

const cushionRelations = `{"seams": [
	{"sides": ["zip upper.bottom"], "finish": "zip", "tape": "zip"},
	{"sides": ["zip lower.top"], "finish": "zip", "tape": "zip"},
	{"sides": ["boxing.left", "zip lower.right + zip upper.right"]},
	{"sides": ["boxing.right", "zip upper.left + zip lower.left"]},
	{"sides": ["top plate.right from 15 1/2 in + top plate.back + top plate.left + top plate.front + top plate.right to 15 1/2 in",
		"boxing.top + zip upper.top"], "finish": "welted seam", "cord": "5/32 in", "welt": "cloth"},
	{"sides": ["bottom plate.right from 15 1/2 in + bottom plate.back + bottom plate.left + bottom plate.front + bottom plate.right to 15 1/2 in",
		"boxing.bottom + zip lower.bottom"], "finish": "welted seam", "cord": "5/32 in", "welt": "cloth"}]}`

const chairRelations = `{
	"seams": [
		{"sides": ["deck.front", "front border.top"], "finish": "welted seam", "cord": "5/32 in", "welt": "cloth"},
		{"sides": ["arm front.top + arm front.inner", "inside arm.front"], "finish": "welted seam", "cord": "5/32 in", "welt": "cloth"},
		{"sides": ["inside arm.rear top", "inside wing.bottom"]}],
	"fastenings": [
		{"side": "front border.bottom", "finish": "turned below", "rail": "1 1/4 in"},
		{"side": "front border.right", "finish": "stapled flat", "hidden_by": ["arm front left"]},
		{"side": "front border.left", "finish": "stapled flat", "hidden_by": ["arm front right"]},
		{"side": "deck.right", "finish": "pushed through", "hidden_by": ["outside arm left"]},
		{"side": "deck.left", "finish": "pushed through", "hidden_by": ["outside arm right"]},
		{"side": "deck.back", "finish": "pushed through", "hidden_by": ["outside back"]},
		{"side": "inside arm.bottom", "finish": "pushed through", "hidden_by": ["outside arm"]},
		{"side": "inside arm.back", "finish": "pushed through", "over": "3 in", "hold": "1 in", "hidden_by": ["outside back"]},
		{"side": "inside arm.outer", "hidden_by": ["outside arm"]},
		{"side": "inside wing.front + inside wing.top", "hidden_by": ["outside wing"]},
		{"side": "inside wing.back", "finish": "pushed through", "hidden_by": ["outside back"]},
		{"side": "inside back.top", "hidden_by": ["outside back"]},
		{"side": "inside back.left", "finish": "pushed through", "hidden_by": ["outside back"]},
		{"side": "inside back.right", "finish": "pushed through", "hidden_by": ["outside back"]},
		{"side": "inside back.bottom", "finish": "pushed through", "hidden_by": ["outside back"]},
		{"side": "arm front.outer", "finish": "stapled flat", "hidden_by": ["outside arm"]},
		{"side": "arm front.bottom", "finish": "turned below", "rail": "1 1/4 in"},
		{"side": "outside wing.top + outside wing.front", "finish": "toothed strip"},
		{"side": "outside wing.bottom", "finish": "stapled flat", "hidden_by": ["outside arm"]},
		{"side": "outside wing.back", "finish": "stapled flat", "hidden_by": ["outside back"]},
		{"side": "outside arm.top", "finish": "blind-tacked"},
		{"side": "outside arm.front", "finish": "toothed strip"},
		{"side": "outside arm.back", "finish": "stapled flat", "hidden_by": ["outside back"]},
		{"side": "outside arm.bottom", "finish": "turned below", "rail": "1 1/4 in"},
		{"side": "outside back.top", "finish": "blind-tacked"},
		{"side": "outside back.left", "finish": "toothed strip"},
		{"side": "outside back.right", "finish": "toothed strip"},
		{"side": "outside back.bottom", "finish": "turned below", "rail": "1 1/4 in"},
		{"side": "dust cover.bottom + dust cover.right + dust cover.top + dust cover.left", "finish": "folded in"}],
	"trims": [
		{"name": "welt round wings and arms", "length": "96 in", "cord": "5/32 in", "welt": "cloth", "hidden_by": ["outside wing", "outside arm"]},
		{"name": "welt round the back", "length": "84 in", "cord": "5/32 in", "welt": "cloth", "hidden_by": ["outside back"]}]}`
