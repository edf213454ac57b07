package pattern

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Front says how the assembled front of a cover is drawn: the panels that its
// pattern runs over, unfolded about the seams and meets that it crosses, with the
// pattern through them as it will be seen. The zero value has no cloth, and draws
// nothing.
type Front struct {
	Title string `json:"title,omitempty"` // such as the name of the piece of furniture
	Units Units  `json:"units,omitzero"`
	// Width is that of the page in 1/96 in, from 320 to 4000; zero takes 420, a
	// phone held upright.
	Width int `json:"width,omitzero"`
	// Numbers name the pieces in the order of CoverWork.Pieces, as a cut list
	// does. None numbers them from 1.
	Numbers []string `json:"numbers,omitempty"`
	// Cloths are the goods with a pattern, by the id that the pieces have. Pieces of
	// others are not drawn.
	Cloths map[string]Cloth `json:"cloths,omitempty"`
	// Off is by how much the pattern is off at each crossing of the flow, to the
	// nearest repeat. None takes what the flow says.
	Off []shape.Point `json:"off,omitempty"`
	// Plain draws the largest part of the front that hangs together, as one sees it:
	// without names, marks and what is hidden.
	Plain bool `json:"plain,omitempty"`
}

// Draw draws the front from the work of a cover and the flow of its pattern, as
// [allowance.Cover.Work] and [allowance.Cover.Flow] give them. Outlines are seam lines. Where two
// pieces are joined, the points at which they agree lie on each other; a
// crossing that turns, at which a ring does not close, or that would lay a piece on
// another or make the drawing too wide joins nothing, and pieces that nothing joins stand beside each other.
//
// Bars run through the motifs, those of a drop in steps; a figure at each has its
// top up, and is dark where a motif was asked for. A stripe has bars alone. What lies
// beyond the line of a meet is pale. A tick says that the pattern runs on over a
// crossing; where it does not, the size by which it is off stands in red.
//
// No text lies on another. Repeats under 1/16 in on the page are not drawn, and the
// page says so. Errors are *unit.InputError values: units, width, numbers, off, and of a
// cloth, its photo as well; cloths that no piece has are not looked at. Work and flow
// of different covers are refused.
//
// Drawing: allowance/doc/front.svg
func (f Front) Draw(w allowance.CoverWork, flow allowance.Flow) (string, error) {
	if err := enum.Check(f.Units, "units", unitNames); err != nil {
		return "", err
	}
	if f.Width == 0 {
		f.Width = 420
	}
	if err := check.Count("width", f.Width, 320, 4000); err != nil {
		return "", err
	}
	if len(f.Numbers) > 0 && len(f.Numbers) != len(w.Pieces) {
		return "", check.Count("numbers", len(f.Numbers), len(w.Pieces), len(w.Pieces))
	}
	if len(f.Off) > 0 && len(f.Off) != len(flow.Crossings) {
		return "", check.Count("off", len(f.Off), len(flow.Crossings), len(flow.Crossings))
	}
	if f.Title == "" {
		f.Title = "Assembled front"
	}
	u := unfolding{Front: f, flow: flow}
	if err := u.read(w); err != nil {
		return "", err
	}
	u.join()
	u.gather()
	if f.Plain {
		return u.plain()
	}
	return u.page()
}

// unfolding is a front in the making.
type unfolding struct {
	Front
	flow   allowance.Flow
	pieces []frontPiece
	at     map[int]int // of a piece of the work among pieces
	joins  []bool      // of crossings
	groups []frontGroup
}

// frontPiece is a piece with the pattern on it. Points are from the lower left
// corner of the box round its seam line.
type frontPiece struct {
	allowance.PieceFlow
	number  string
	goods   string
	ring    []shape.Point // the seam line
	sights  []halfPlane
	visible []shape.Point
	group   int
	at      shape.Point // in its group
}

// read finds the pieces that the pattern binds, with what is seen of them.
func (u *unfolding) read(w allowance.CoverWork) error {
	if len(u.flow.Pieces) != len(w.Pieces) {
		return check.Count("flow.pieces", len(u.flow.Pieces), len(w.Pieces), len(w.Pieces))
	}
	u.at = map[int]int{}
	for i, p := range w.Pieces {
		q := u.flow.Pieces[i]
		cloth, patterned := u.Cloths[p.Goods]
		if q.Name != p.Name {
			return check.Refuse(check.At("flow.pieces", i), q.Name, unit.ErrRange, "the piece of the work: "+p.Name)
		}
		if !patterned || q.Across.Number == 0 && q.Along.Number == 0 {
			continue
		}
		if err := cloth.Check(); err != nil {
			return unit.InField("cloths["+p.Goods+"]", err)
		}
		cut, err := p.Panel.Cut()
		if err != nil {
			return unit.InField(check.At("work.pieces", i)+".panel", err)
		}
		out := frontPiece{PieceFlow: q, number: strconv.Itoa(i + 1), goods: p.Goods, group: len(u.pieces)}
		if len(u.Numbers) > 0 {
			out.number = u.Numbers[i]
		}
		low := boxOf(cut.SeamLine.Outer).Low
		for _, r := range cut.SeamLine.Outer {
			out.ring = append(out.ring, shape.Point{X: r.X - low.X, Y: r.Y - low.Y})
		}
		u.at[i] = len(u.pieces)
		u.pieces = append(u.pieces, out)
	}
	for i, x := range u.flow.Crossings {
		if x.From < 0 || x.From >= len(w.Pieces) || x.To < 0 || x.To >= len(w.Pieces) {
			return check.Refuse(check.At("flow.crossings", i), fmt.Sprint(x.From, ", ", x.To), unit.ErrRange, "pieces of the work")
		}
		if k, drawn := u.at[x.From]; drawn && x.FromIn > 0 {
			u.pieces[k].sights = append(u.pieces[k].sights, halfPlane{x.FromAt, x.FromOut})
		}
		if k, drawn := u.at[x.To]; drawn && x.ToIn > 0 {
			u.pieces[k].sights = append(u.pieces[k].sights, halfPlane{x.ToAt, x.ToOut})
		}
	}
	for k := range u.pieces {
		p := &u.pieces[k]
		p.visible = p.ring
		for _, h := range p.sights {
			p.visible = h.keep(p.visible)
		}
	}
	return nil
}

// join places pieces by the crossings, those that are seen first: with a and b the
// points that lie together, Q lies by a - b from P.
func (u *unfolding) join() {
	u.joins = make([]bool, len(u.flow.Crossings))
	for _, hidden := range []bool{false, true} {
		for i, x := range u.flow.Crossings {
			p, drawn := u.at[x.From]
			q, both := u.at[x.To]
			if x.Hidden != hidden || x.Turned || !opposed(x.FromOut, x.ToOut) || u.off(i) != (shape.Point{}) || !drawn || !both {
				continue
			}
			a, b := u.pieces[p].on(x.FromAt), u.pieces[q].on(x.ToAt)
			by := shape.Point{X: a.X + x.Lost.X - b.X, Y: a.Y + x.Lost.Y - b.Y} // with room for what runs on unseen
			from, to := u.pieces[p].group, u.pieces[q].group
			if from == to {
				u.joins[i] = by == (shape.Point{})
				continue
			}
			if u.clear(from, to, by) && u.narrow(from, to, by) {
				u.joins[i] = true
				for k := range u.pieces {
					if u.pieces[k].group == to {
						u.pieces[k].group, u.pieces[k].at = from, u.pieces[k].on(by)
					}
				}
			}
		}
	}
}

// opposed tells whether two ways out look away from each other, within about 30
// degrees: turned more, pieces that meet at a point lie over each other.
func opposed(a, b shape.Point) bool {
	ax, ay, bx, by := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
	return float64(ax*bx)+float64(ay*by) < -0.86*geom.Hypot(ax, ay)*geom.Hypot(bx, by)
}

// off gives by how much the pattern is off at a crossing.
func (u *unfolding) off(crossing int) shape.Point {
	if len(u.Off) > 0 {
		return u.Off[crossing]
	}
	return u.flow.Crossings[crossing].Off
}

// on brings a point of the piece to its group.
func (p frontPiece) on(q shape.Point) shape.Point {
	return shape.Point{X: p.at.X + q.X, Y: p.at.Y + q.Y}
}

// lying is a line of the piece in its group.
func (p frontPiece) lying(ring []shape.Point, by shape.Point) []shape.Point {
	out := make([]shape.Point, len(ring))
	for i, q := range ring {
		q = p.on(q)
		out[i] = shape.Point{X: q.X + by.X, Y: q.Y + by.Y}
	}
	return out
}

// clear tells whether a group that is moved to another lays nothing that is seen on
// what is seen.
func (u *unfolding) clear(on, group int, by shape.Point) bool {
	for _, p := range u.pieces {
		for _, q := range u.pieces {
			if p.group == on && q.group == group && overlap(p.lying(p.visible, shape.Point{}), q.lying(q.visible, by)) {
				return false
			}
		}
	}
	return true
}

// narrow tells whether a group that is moved to another leaves it narrow enough to be
// drawn at a scale that can be read, or little wider than its widest piece: a skirt
// all round goes in stretches.
func (u *unfolding) narrow(on, group int, by shape.Point) bool {
	var all []shape.Point
	most := unit.Length(u.Width) * unit.Inch * 10 / 43
	for _, p := range u.pieces {
		if p.group != on && p.group != group {
			continue
		}
		var move shape.Point
		if p.group == group {
			move = by
		}
		b := boxOf(p.lying(p.ring, move))
		all = append(all, b.Low, b.High)
		most = max(most, (b.High.X-b.Low.X)/10*11)
	}
	b := boxOf(all)
	return b.High.X-b.Low.X <= most
}

// frontGroup is pieces that are joined.
type frontGroup struct {
	pieces    []int
	low, high shape.Point // of all their seam lines
}

// gather lists the groups, those of several pieces first in the order of their first
// ones, then single pieces, the highest first.
func (u *unfolding) gather() {
	found := map[int]int{}
	for k, p := range u.pieces {
		g, known := found[p.group]
		if !known {
			g = len(u.groups)
			found[p.group] = g
			u.groups = append(u.groups, frontGroup{})
		}
		u.pieces[k].group = g
		b := boxOf(p.lying(p.ring, shape.Point{}))
		own := &u.groups[g]
		if len(own.pieces) == 0 {
			own.low, own.high = b.Low, b.High
		}
		own.low = shape.Point{X: min(own.low.X, b.Low.X), Y: min(own.low.Y, b.Low.Y)}
		own.high = shape.Point{X: max(own.high.X, b.High.X), Y: max(own.high.Y, b.High.Y)}
		own.pieces = append(own.pieces, k)
	}
	slices.SortStableFunc(u.groups, func(a, b frontGroup) int {
		if n := min(len(b.pieces), 2) - min(len(a.pieces), 2); n != 0 || len(a.pieces) > 1 {
			return n
		}
		return cmp.Compare(b.high.Y-b.low.Y, a.high.Y-a.low.Y)
	})
	for g := range u.groups {
		for _, k := range u.groups[g].pieces {
			u.pieces[k].group = g
		}
	}
}
