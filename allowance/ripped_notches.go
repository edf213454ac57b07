package allowance

import (
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// OldNotch is a match mark of the last maker, brought from the line that was
// traced to the finished one: to the foot of the normal, which on an arc of
// radius R with allowance s keeps its share of the edge.
type OldNotch struct {
	Edge string `json:"edge"`
	// Share of the finished edge, from its start anticlockwise.
	Share unit.Ratio  `json:"share"`
	Depth unit.Length `json:"depth,omitzero"` // of a nick
}

// notches brings the notches that are given and the nicks that were found to the
// finished line.
func (r Ripped) notches(traced shape.Outline, whole shape.Restored, by []unit.Length, finished shape.Outline) ([]OldNotch, error) {
	var out []OldNotch
	carry := func(edge string, p shape.Point, depth unit.Length) error {
		k := slices.Index(whole.Outline.Edges(), edge)
		if k < 0 || !slices.Contains(finished.Edges(), edge) {
			return check.OneOf("edge", edge, finished.Edges()...)
		}
		at, _, err := whole.Outline.Nearest(edge, p)
		if err != nil {
			return err
		}
		_, in, err := whole.Outline.Mark(edge, at, -by[k])
		if err != nil {
			return err
		}
		if at, _, err = finished.Nearest(edge, in); err != nil {
			return err
		}
		l, err := finished.EdgeLength(edge)
		if err != nil {
			return err
		}
		out = append(out, OldNotch{edge, unit.Ratio(float64(at) / float64(l)), depth})
		return nil
	}
	for i, n := range onBothHalves(r.Notches, traced) {
		field := check.At("notches", min(i, len(r.Notches)-1))
		if err := check.OneOf(field+".edge", n.Edge, traced.Edges()...); err != nil {
			return nil, err
		}
		on, _, err := traced.Mark(n.Edge, n.At, 0)
		if err == nil {
			err = carry(n.Edge, on, 0)
		}
		if err != nil {
			return nil, unit.InField(field, err)
		}
	}
	for _, n := range whole.Nicks {
		if err := carry(n.Edge, n.At, n.Depth); err != nil {
			return nil, unit.InField("outline", err)
		}
	}
	return out, nil
}

// Marked gives a panel the finished outline, and the old notches beside its own.
func (r Recovered) Marked(p Panel) (Panel, error) {
	p.Outline = r.Outline
	if len(r.Notches) == 0 {
		return p, nil
	}
	_, _, seam, err := p.fitted()
	if err != nil {
		return p, err
	}
	p.Notches = slices.Clone(p.Notches)
	for _, n := range r.Notches {
		l, err := seam.EdgeLength(n.Edge)
		if err != nil {
			return p, err
		}
		at, err := l.Scale(n.Share, unit.Nearest)
		if err != nil {
			return p, err
		}
		p.Notches = append(p.Notches, Notch{Edge: n.Edge, At: min(at, l), OneHalf: true})
	}
	return p, nil
}
