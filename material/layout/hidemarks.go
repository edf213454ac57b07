package layout

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// HideMark is a mark in a hide, or a zone of a grade, as a cutter is told of it.
type HideMark struct {
	Letter string `json:"letter"` // in the drawing of the hide: a, b, ... z, aa, ...
	// Zone says that it is a zone of a grade; else it is a mark.
	Zone     bool                `json:"zone,omitempty"`
	Name     string              `json:"name,omitempty"` // of a zone
	Grade    material.Grade      `json:"grade,omitzero"` // of a zone
	Kind     material.DefectKind `json:"kind,omitzero"`
	Severity material.Severity   `json:"severity,omitzero"` // the one that counts
	Note     string              `json:"note,omitempty"`
	Middle   HideSpot            `json:"middle"` // of the box round it
	// Over are the pieces that lie on it, in the order of the places of the plan: each of
	// them allows such marks, or such leather.
	Over []Copy `json:"over,omitempty"`
}

// HideMarks lists the marks in a hide of the plan, by its index, then its zones. It
// wraps unit.ErrRange for an index that no hide has, or the errors of the hide.
func (p Plan) HideMarks(hide int) ([]HideMark, error) {
	datum, err := p.HideDatum(hide)
	if err != nil {
		return nil, err
	}
	k := p.Hides[hide]
	outlines, err := markOutlines(k)
	if err != nil {
		return nil, unit.InField(check.At("hides", hide), err)
	}
	var out []HideMark
	for _, d := range k.Defects {
		out = append(out, HideMark{Kind: d.Kind, Severity: d.Weight(), Note: d.Note})
	}
	for _, z := range k.Zones {
		out = append(out, HideMark{Zone: true, Name: z.Name, Grade: z.Grade})
	}
	for i, o := range outlines {
		m := &out[i]
		m.Letter = lettersOf(i)
		low, high := o.Bounds()
		m.Middle = datum.Spot(shape.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2})
		if m.Over, err = p.over(hide, o); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// markOutlines gives the outlines of the marks in a hide, then those of its zones.
func markOutlines(k material.Skin) ([]shape.Outline, error) {
	var out []shape.Outline
	for i, d := range k.Defects {
		o, err := d.Border()
		if err != nil {
			return nil, unit.InField(check.At("defects", i), err)
		}
		out = append(out, o)
	}
	for _, z := range k.Zones {
		out = append(out, z.Outline)
	}
	return out, nil
}

// over lists the pieces that lie on a part of a hide.
func (p Plan) over(hide int, o shape.Outline) ([]Copy, error) {
	pts, err := o.Flatten(hideTolerance)
	if err != nil {
		return nil, err
	}
	ring := roundSteps(pts)
	b := ring.Bounds()
	var out []Copy
	for _, q := range p.On(hide) {
		if r := roundSteps(q.Outline); len(r) > 2 && r.Bounds().Overlaps(b) && verify.Overlap(r, ring) {
			out = append(out, Copy{q.Piece, q.Copy})
		}
	}
	return out, nil
}

// roundSteps brings points to the steps of plans on hides.
func roundSteps(pts []shape.Point) geom.Ring {
	r := gridRing(pts)
	for i, q := range r {
		r[i] = geom.Point{X: floorTo(q.X, nestStep) / nestStep, Y: floorTo(q.Y, nestStep) / nestStep}
	}
	return anticlockwise(r.Clean())
}

// lettersOf gives a, b, ... z, aa, ab, ...
func lettersOf(n int) string {
	s := string(rune('a' + n%26))
	if n >= 26 {
		return lettersOf(n/26-1) + s
	}
	return s
}
