package job

import (
	"cmp"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// cover gives the cover of a cushion.
func (c CushionSpec) cover(at unit.Path, goods catalog) (covered, faults) {
	var f faults
	f.add(at.Dot("name"), checkName(c.Name))
	f.add(at.Dot("count"), checkCount(c.Count))
	f = append(f, c.suits(at)...)
	top, ok, err := goods.find(c.Top)
	f.add(at.Dot("top"), err)
	find := func(name unit.Path, id string) GoodsSpec {
		if id == "" {
			return top
		}
		g, found, err := goods.find(id)
		f.add(at.Dot(name), err)
		ok = ok && found
		return g
	}
	bottom, boxing, welts := find("bottom", c.Bottom), find("boxing", c.Boxing), GoodsSpec{}
	if c.Welt != nil {
		welts = find("welt.goods", c.Welt.Goods)
	}
	leather := leather{grain: c.Grain, grade: c.Grade, marks: c.Marks}
	if f = append(f, leather.check(at)...); len(f) > 0 || !ok {
		return covered{}, f
	}
	if c.MayRailroad && top.directed() && bottom.directed() {
		f.add(at.Dot("may_railroad"), check.Refuse("", "true", ErrMisplaced, "goods without nap and repeat, which can be railroaded"))
		return covered{}, f
	}
	m := made.Cushion{Kind: c.Kind, Width: c.Width, Depth: c.Depth, Thickness: c.Thickness, Fit: c.Fit, RoundFront: c.RoundFront, Smaller: c.Smaller,
		Top: top.forParts(), Bottom: bottom.forParts(), Boxing: boxing.forParts()}
	if c.plated() {
		var own faults
		m.Outline, own = outlineOf(at, c.Outline, side{"width", c.Width}, side{"depth", c.Depth})
		f = append(f, own...)
	}
	if c.Welt != nil {
		m.Cord, m.Bias, m.Welts = c.Welt.Cord, c.Welt.Bias, welts.forParts()
		f.add(at.Dot("welt.cord"), check.Positive("", c.Welt.Cord))
	}
	if m.Zip = c.Zip; c.Zip && c.Kind == made.Boxed {
		m.ZipBack, m.ZipEdge = c.ZipBack, cmp.Or(c.ZipEdge, "top")
		if c.ZipBack == 0 && c.ZipEdge == "" && c.Outline != nil && check.OneOf("", "top", m.Outline.Edges()...) != nil {
			f.add(at.Dot("zip_edge"), check.Required("", "the edge that the zip lies on, or zip_back"))
		}
	}
	if len(f) > 0 {
		return covered{}, f
	}
	cover, err := m.Cover()
	f.add(at, check.Renamed(err, map[string]string{"cord": "welt"}))
	out := madeUp(c.Name, cover)
	out.wish = wish{railroad: c.MayRailroad, leather: leather}
	if m.Bias && err == nil {
		out.bench.bias, err = biasStrip(made.Welt{Cord: m.Cord, Bias: true}, cover, m.Welts)
		f.add(at.Dot("welt"), err)
	}
	return out, f
}

// plated tells whether the cushion has plates of any outline.
func (c CushionSpec) plated() bool { return c.Kind == made.Boxed || c.Kind == made.KnifeEdge }

// suits gives what means nothing on a kind of cushion, and what is missing.
func (c CushionSpec) suits(at unit.Path) faults {
	var f faults
	boxed, knife, bolster := c.Kind == made.Boxed, c.Kind == made.KnifeEdge, c.Kind == made.BolsterKind
	for _, x := range []struct {
		name  unit.Path
		given bool
		kinds bool
	}{
		{"outline", c.Outline != nil, c.plated()},
		{"thickness", c.Thickness != 0, !knife && !bolster},
		{"zip_edge", c.ZipEdge != "", boxed && c.Zip && c.Outline != nil},
		{"zip_back", c.ZipBack != 0, boxed && c.Zip},
		{"zip", c.Zip, !knife && !bolster},
		{"bottom", c.Bottom != "", c.plated()},
		{"boxing", c.Boxing != "", !knife},
		{"fit", c.Fit != 0, c.plated()},
		{"round_front", c.RoundFront, c.Kind == made.Waterfall},
		{"smaller", c.Smaller != 0, bolster},
		{"welt", c.Welt != nil, c.Kind != made.Waterfall},
		{"foam", c.Foam != nil, !knife && !bolster},
	} {
		if x.given && !x.kinds {
			f.misplaced(at.Dot(x.name), "only fields of this kind of cushion ("+c.Kind.String()+")")
		}
	}
	if c.Outline == nil {
		for _, s := range []side{{"width", c.Width}, {"depth", c.Depth}} {
			if s.length == 0 {
				f.add(at.Dot(s.name), check.Required("", "a length such as \"22 in\""))
				continue
			}
			f.add(at.Dot(s.name), checkSide(s.length))
		}
	}
	if !knife && !bolster {
		if c.Thickness == 0 {
			f.add(at.Dot("thickness"), check.Required("", "the finished height of the boxing"))
		} else {
			f.add(at.Dot("thickness"), checkSide(c.Thickness))
		}
	}
	f.add(at.Dot("fit"), check.OneOf("", c.Fit.String(), names(made.NeutralFit, made.SnugFit)...))
	if c.ZipBack != 0 {
		f.add(at.Dot("zip_back"), checkSide(c.ZipBack))
	}
	return f
}
