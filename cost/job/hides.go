package job

import (
	"errors"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// check gives what is wrong with what only goods that are hides have.
func (g GoodsSpec) checkHides(at unit.Path) faults {
	var f faults
	switch {
	case g.HideArea != 0:
		f.addAs(at.Dot("hide_area"), material.Hide{Area: g.HideArea}.Check())
	case len(g.Hides) == 0:
		f.add(at.Dot("hide_area"), check.Required("", "the area that such hides have, as \"50 sq ft\", or the hides at hand, in hides"))
	}
	if g.Waste != nil {
		f.add(at.Dot("waste"), check.Ratio("", *g.Waste, 0, 0.9))
	}
	if g.Confidence != nil {
		f.add(at.Dot("confidence"), check.Ratio("", *g.Confidence, 0.5, 0.999))
	}
	f.add(at.Dot("hide_spread"), check.Between("", g.HideSpread, 0, g.HideArea/4))
	if g.Skin != material.MeasuredSkin {
		f.add(at.Dot("skin"), check.OneOf("", g.Skin.String(), names(material.WholeHide, material.Sheep)...))
	}
	f.add(at.Dot("hides"), check.Count("", len(g.Hides), 0, mostHides))
	for i, h := range g.Hides {
		at := at.Dot("hides").At(i)
		f.add(at.Dot("name"), checkName(h.Name))
		if slices.ContainsFunc(g.Hides[:i], func(o HideSpec) bool { return o.Name == h.Name }) {
			f.add(at.Dot("name"), check.Refuse("", h.Name, ErrTwice, "a name that no other hide has"))
		}
		s, err := h.skin()
		if err == nil {
			err = s.Check()
		}
		f.add(at, err)
	}
	return f
}

// mostHides bounds the hides of one kind of goods.
const mostHides = 200

// skin gives the hide to the layout. Errors name the field.
func (h HideSpec) skin() (material.Skin, error) {
	s := material.Skin{ID: h.Name, Kind: h.Skin, Area: h.Area, Border: h.Border, Grade: h.Grade, Backbone: h.Backbone}
	if h.Outline == nil && h.Skin == material.MeasuredSkin {
		s.Kind = material.WholeHide
	}
	place := func(field string, form *shape.Form) (shape.Outline, error) {
		if form == nil {
			return shape.Outline{}, nil
		}
		seen, err := h.inPhoto(*form)
		if err != nil {
			return shape.Outline{}, unit.InField(field, err)
		}
		o, err := seen.Outline()
		return o, unit.InField(field, err)
	}
	mark := func(field string, form *shape.Form) (shape.Outline, error) {
		if err := placed(field, form); err != nil {
			return shape.Outline{}, err
		}
		return place(field, form)
	}
	var err error
	if s.Outline, err = place("outline", h.Outline); err != nil {
		return s, err
	}
	if h.Outline == nil && h.Area == 0 {
		return s, check.Required("area", "the area marked on the hide, or its outline")
	}
	for i, x := range h.Holes {
		o, err := mark(check.At("holes", i), &x)
		if err != nil {
			return s, err
		}
		s.Holes = append(s.Holes, o)
	}
	for i, x := range h.Defects {
		f := check.At("defects", i)
		d := material.Defect{Kind: x.Kind, Severity: x.Severity, Across: x.Across, Note: x.Note}
		if d.Outline, err = mark(f+".outline", x.Outline); err != nil {
			return s, err
		}
		switch {
		case x.Outline != nil && (x.At != nil || x.Seen != nil || x.Across != 0):
			return s, check.Refuse(f+".at", "", ErrMisplaced, "an outline, or at and across of a round mark, not both")
		case x.At != nil && x.Seen != nil:
			return s, check.Refuse(f+".seen", x.Seen.String(), ErrMisplaced, "at, or seen, not both")
		case x.Outline == nil && x.At == nil && x.Seen == nil:
			return s, check.Required(f+".at", "the middle of a round mark, or an outline")
		case x.Outline == nil && x.Across == 0:
			return s, check.Required(f+".across", "the diameter of a round mark")
		case x.At != nil:
			d.At = *x.At
		case x.Seen != nil:
			at, err := h.seen(*x.Seen)
			if err != nil {
				return s, unit.InField(f+".seen", err)
			}
			d.At = at[0]
		}
		s.Defects = append(s.Defects, d)
	}
	for i, x := range h.Zones {
		o, err := mark(check.At("zones", i)+".outline", &x.Outline)
		if err != nil {
			return s, err
		}
		s.Zones = append(s.Zones, material.QualityZone{Name: x.Name, Grade: x.Grade, Outline: o})
	}
	for i, x := range h.Stretch {
		o, err := mark(check.At("stretch", i)+".outline", x.Outline)
		if err != nil {
			return s, err
		}
		s.Stretch = append(s.Stretch, material.StretchRegion{Outline: o, Direction: x.Direction})
	}
	return s, nil
}

// inPhoto gives a photo without marks those of the outline's.
func (h HideSpec) inPhoto(form shape.Form) (shape.Form, error) {
	if form.Photo == nil || len(form.Photo.Marks) > 0 || form.Photo == h.border().Photo {
		return form, nil
	}
	if _, err := h.seen(); err != nil {
		return form, unit.InField("photo.marks", err)
	}
	p := *h.Outline.Photo
	p.Edges = form.Photo.Edges
	form.Photo, form.Tolerance = &p, h.Outline.Tolerance
	return form, nil
}

// seen gives the places that pixels of the outline's photo show.
func (h HideSpec) seen(pixels ...shape.Pixel) ([]shape.Point, error) {
	at, err := h.border().Seen(pixels...)
	var in *unit.InputError
	if errors.As(err, &in) {
		return nil, check.Refuse("", in.Value, in.Err, in.Want)
	}
	return at, err
}

// border is the outline; nothing when it is not given.
func (h HideSpec) border() shape.Form {
	if h.Outline == nil {
		return shape.Form{}
	}
	return *h.Outline
}

// areas gives the areas of the hides at hand.
func (g GoodsSpec) areas() []unit.Area {
	out := make([]unit.Area, 0, len(g.Hides))
	for _, h := range g.Hides {
		if s, err := h.skin(); err == nil {
			out = append(out, s.SoldArea())
		}
	}
	return out
}

// mean is the area of a hide on average.
func (g GoodsSpec) mean() unit.Area {
	if len(g.Hides) == 0 {
		return g.HideArea
	}
	var sum unit.Area
	for _, a := range g.areas() {
		sum += a // at most 200 hides of 120 sq ft
	}
	return sum / unit.Area(len(g.Hides))
}

// wasted is the share of the hides that is lost by the rule of thumb.
func (g GoodsSpec) wasted() material.WasteFactor {
	if g.Waste == nil {
		return material.WholeHideWaste()
	}
	return material.WasteFactor{Waste: *g.Waste, Basis: cite.Basis{Status: cite.Derived, Note: "from the waste share given in the job"}}
}
