package layout

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Picture says how a plan is drawn. The zero value is useful.
type Picture struct {
	Title string `json:"title,omitempty"` // such as the name of the goods
	// Labels name the pieces in the order of the job; none takes their names.
	Labels []Label       `json:"labels,omitempty"`
	Units  pattern.Units `json:"units,omitzero"`
	// Width is the width of each drawing in 1/96 in, from 200 to 4000; zero takes
	// 680, the print of an A4 or Letter page.
	Width int `json:"width,omitzero"`
}

// Label is what stands on a piece in a drawing.
type Label struct {
	Number string `json:"number,omitempty"` // in the cut list
	Name   string `json:"name,omitempty"`
}

// Drawing is one picture of a plan: a part of a roll, or a hide.
type Drawing struct {
	SVG  string      `json:"svg"`
	Hide int         `json:"hide,omitzero"` // of hides, by index
	From unit.Length `json:"from,omitzero"` // of a roll
	To   unit.Length `json:"to,omitzero"`
}

// Draw draws a plan to scale: a roll from left to right with its left edge above,
// in parts that fit a page, with a rule, the repeat, flaws, pieces and left-overs;
// each hide in use with its border, marks, zones, holes, pieces and left-overs.
// Arrows point to the top of each piece; "mir." is the mirrored hand of a pair.
// All colours are greys. A plan that [Plan.Verify] refuses is not drawn.
func (p Plan) Draw(o Picture) ([]Drawing, error) {
	d, err := p.draughtsman(o)
	if err != nil {
		return nil, err
	}
	if p.Job.Hides == nil {
		v, err := p.rollView()
		if err != nil {
			return nil, err
		}
		return d.rollParts(v), nil
	}
	var out []Drawing
	for _, k := range p.Used {
		s, err := d.hide(p, k)
		if err != nil {
			return nil, err
		}
		out = append(out, Drawing{SVG: s, Hide: k})
	}
	return out, nil
}

// draughtsman checks a plan and the wishes of its picture.
func (p Plan) draughtsman(o Picture) (draughtsman, error) {
	if err := p.Verify(); err != nil {
		return draughtsman{}, err
	}
	if o.Width == 0 {
		o.Width = 680
	}
	if err := check.Count("width", o.Width, 200, 4000); err != nil {
		return draughtsman{}, err
	}
	if len(o.Labels) != 0 && len(o.Labels) != len(p.Job.Pieces) {
		return draughtsman{}, check.Refuse("labels", fmt.Sprint(len(o.Labels)), unit.ErrRange, fmt.Sprintf("one for each of the %d pieces", len(p.Job.Pieces)))
	}
	return draughtsman{Picture: o, wide: float64(o.Width)}, nil
}

// draughtsman draws with the wishes of a picture.
type draughtsman struct {
	Picture
	wide float64
}

// label gives the number and the name of a piece.
func (d draughtsman) label(p Plan, piece int) Label {
	if len(d.Labels) > 0 {
		return d.Labels[piece]
	}
	return Label{Name: p.Job.Pieces[piece].Name}
}

const noBreak = "\u00a0"

func (d draughtsman) length(l unit.Length) string { return d.Units.Length(l, unit.Nearest) }

// size writes a size that stays on one line: the nearest, or never less.
func (d draughtsman) size(w, l unit.Length, r unit.Rounding) string {
	a := strings.TrimSuffix(strings.TrimSuffix(d.Units.Length(w, r), " in"), " mm")
	return strings.ReplaceAll(a+" × "+d.Units.Length(l, r), " ", noBreak)
}

// InOrder gives the places of a plan on a roll in the order of cutting: from the
// end of the roll, then from its left edge.
func (p Plan) InOrder() []Place {
	out := slices.Clone(p.Places)
	slices.SortStableFunc(out, func(a, b Place) int {
		la, _ := a.Bounds()
		lb, _ := b.Bounds()
		return cmp.Or(cmp.Compare(toMicrometre(la.Y), toMicrometre(lb.Y)), cmp.Compare(la.X, lb.X))
	})
	return out
}

// leastOffcut is the smallest left-over rectangle of a roll that is drawn.
const leastOffcut = 8 * unit.Inch

func (p Plan) rollView() (rollView, error) {
	offcuts, err := p.RollOffcuts(leastOffcut, leastOffcut)
	if err != nil && !errors.Is(err, ErrTooMany) {
		return rollView{}, err
	}
	v := rollView{plan: p, roll: *p.Job.Roll, need: p.Need, order: p.Order, offcuts: offcuts}
	for _, q := range p.InOrder() {
		low, high := q.Bounds()
		v.placed = append(v.placed, placedView{q, low, high})
	}
	return v, nil
}

// rollView is a plan on a roll as it is drawn.
type rollView struct {
	plan        Plan
	roll        material.Roll
	need, order unit.Length
	placed      []placedView // in the order of cutting
	offcuts     []Offcut
}

// placedView is a place with the box round it.
type placedView struct {
	Place
	low, high shape.Point
}

// turned says how the piece lies, where it is not upright on goods whose top
// points so.
func (p placedView) turned(up material.Up) string {
	turned := (int(p.Turned) + map[material.Up]int{material.UpToLeft: 270, material.UpToRight: 90}[up]) % 360
	if turned == 0 {
		return ""
	}
	return fmt.Sprintf("turned %d°", turned)
}

// sized gives the size of the piece as it is drawn in the cut list.
func (p placedView) sized() (w, l unit.Length) {
	w, l = p.high.X-p.low.X, p.high.Y-p.low.Y
	if p.Turned == 90 || p.Turned == 270 {
		return l, w
	}
	return w, l
}
