package job

import (
	"github.com/coverwright/coverwright/allowance"
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
	if c.Join != nil {
		f = append(f, c.Join.check(at.Dot("join"), top)...)
	}
	m, own := c.sized(at)
	f = append(f, own...)
	m.Top, m.Bottom, m.Boxing = top.forParts(), bottom.forParts(), boxing.forParts()
	if !c.bottomed() {
		m.Bottom = made.Goods{}
	}
	if c.GatheredEnds {
		m.Boxing = made.Goods{}
	}
	if c.Welt != nil {
		m.Cord, m.Bias, m.Welt = c.Welt.Cord, c.Welt.Bias, welts.ID
		f.add(at.Dot("welt.cord"), check.Positive("", c.Welt.Cord))
	}
	if top.ID != boxing.ID && goods.lenient(at) {
		m.Pattern = allowance.NoPattern
	}
	if len(f) > 0 {
		return covered{}, f
	}
	taped, f := tapedOf(at, c.Outline)
	if len(f) > 0 {
		return covered{}, f
	}
	p, err := m.Make()
	f.add(at, check.Renamed(err, map[string]string{"cord": "welt", "back": "zip_edge", "front": "front_edge", "zip_length": "zip_back", "core_given": "filling_given"}))
	out := madeUp(c.Name, p.Cover)
	out.wish = wish{railroad: c.MayRailroad, leather: leather, join: c.Join.piecing(), joinable: c.joinable()}
	out.bench.boxing, out.bench.taped = p.Boxing, taped
	return out, f
}

// sized gives the cushion by its sizes, without goods.
func (c CushionSpec) sized(at unit.Path) (made.Cushion, faults) {
	m := made.Cushion{Kind: c.Kind, Width: c.Width, Depth: c.Depth, LeftEar: c.LeftEar, RightEar: c.RightEar, EarDepth: c.EarDepth, Back: c.ZipEdge,
		Front: c.FrontEdge, Thickness: c.Thickness, BackThickness: c.BackThickness, Pair: c.Pair, TopStitch: c.TopStitch, Attached: c.Attached, Zip: c.Zip, ZipLength: c.ZipBack,
		Pocket: c.Pocket, Fit: c.fit(), CoreGiven: c.FillingGiven, Taper: c.Taper, Rise: c.Rise, GatheredEnds: c.GatheredEnds, RoundFront: c.RoundFront, Pattern: c.Pattern}
	for _, x := range []struct {
		given *unit.Length
		to    *allowance.Override
	}{{c.TakeUp, &m.TakeUp}, {c.Least, &m.Least}, {c.Seam, &m.Seam}, {c.ZipSeam, &m.ZipSeam}} {
		if x.given != nil {
			*x.to = allowance.Exactly(*x.given)
		}
	}
	var f faults
	if c.Outline != nil {
		m.Outline, f = outlineOf(at, c.Outline, side{"width", c.Width}, side{"depth", c.Depth})
	}
	return m, f
}

// bottomed tells whether the cushion has a lower plate.
func (c CushionSpec) bottomed() bool { return c.plated() || c.Kind == made.Round }

// plated tells whether the cushion has plates of any outline.
func (c CushionSpec) plated() bool { return c.Kind == made.Boxed || c.Kind == made.KnifeEdge }

// rectangular tells whether the plates are drawn as rectangles.
func (c CushionSpec) rectangular() bool {
	return c.Outline == nil && c.LeftEar == 0 && c.RightEar == 0
}

// joinable tells whether the plates may be joined from pieces.
func (c CushionSpec) joinable() bool {
	return c.plated() && c.rectangular() && c.Rise == 0 && c.Taper == 0
}

// ringed tells whether the boxing goes all round at one height.
func (c CushionSpec) ringed() bool {
	return (c.Kind == made.Boxed || c.Kind == made.Round) && c.BackThickness == 0
}

// suits gives what means nothing on a kind of cushion, and what is missing.
func (c CushionSpec) suits(at unit.Path) faults {
	var f faults
	knife, bolster, round := c.Kind == made.KnifeEdge, c.Kind == made.Bolster, c.Kind == made.Round
	ring := c.ringed()
	rectangular := c.rectangular()
	for _, x := range []struct {
		name  unit.Path
		given bool
		kinds bool
	}{
		{"outline", c.Outline != nil, c.plated()},
		{"thickness", c.Thickness != 0, !knife && !bolster},
		{"back_thickness", c.BackThickness != 0, c.Kind == made.Boxed && rectangular},
		{"attached", c.Attached != "", c.plated() && c.BackThickness == 0},
		{"pair", c.Pair, c.plated() && c.BackThickness == 0},
		{"join", c.Join != nil, c.joinable()},
		{"pattern", c.Pattern != 0, c.Kind == made.Boxed},
		{"depth", c.Depth != 0, !round},
		{"left_ear", c.LeftEar != 0, c.plated() && c.Outline == nil},
		{"right_ear", c.RightEar != 0, c.plated() && c.Outline == nil},
		{"ear_depth", c.EarDepth != 0, c.plated() && c.Outline == nil},
		{"zip_edge", c.ZipEdge != "", c.plated() && c.Outline != nil},
		{"front_edge", c.FrontEdge != "", c.plated() && c.Outline != nil},
		{"zip_back", c.ZipBack != 0, c.Zip && c.Kind != made.Waterfall && c.BackThickness == 0},
		{"pocket", c.Pocket != 0, c.Zip && ring},
		{"least", c.Least != nil, ring},
		{"zip_seam", c.ZipSeam != nil, c.Zip},
		{"top_stitch", c.TopStitch, c.Welt == nil},
		{"filling_given", c.FillingGiven, c.Outline == nil},
		{"bottom", c.Bottom != "", c.bottomed()},
		{"boxing", c.Boxing != "", !knife && !c.GatheredEnds},
		{"taper", c.Taper != 0, knife && rectangular},
		{"rise", c.Rise != 0, c.Kind == made.Boxed && rectangular && c.BackThickness == 0},
		{"gathered_ends", c.GatheredEnds, bolster},
		{"welt", c.Welt != nil, !c.GatheredEnds},
		{"round_front", c.RoundFront, c.Kind == made.Waterfall},
		{"foam", c.Foam != nil, !knife},
		{"pillow_form", c.PillowForm != nil, knife},
	} {
		if x.given && !x.kinds {
			f.misplaced(at.Dot(x.name), "only fields of this kind of cushion ("+c.Kind.String()+")")
		}
	}
	if c.Outline == nil {
		for _, s := range []side{{"width", c.Width}, {"depth", c.Depth}} {
			if s.length == 0 && round && s.name == "depth" {
				continue
			}
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
	if c.BackThickness != 0 {
		f.add(at.Dot("back_thickness"), checkSide(c.BackThickness))
	}
	f.add(at.Dot("fit"), check.OneOf("", c.Fit.String(), names(made.SnugFit, made.NeutralFit)...))
	if c.ZipBack != 0 {
		f.add(at.Dot("zip_back"), checkSide(c.ZipBack))
	}
	return f
}
