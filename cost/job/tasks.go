package job

import (
	"reflect"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// want is goods to buy: their pieces, what the rule of thumb says, and the
// cutting layout to make.
type want struct {
	at     unit.Path // of the goods in the job file
	goods  GoodsSpec
	pieces []piece
	net    unit.Area // of all pieces as cut
	rule   material.HideEstimate
	task   task // nothing to lay where hides are bought by the rule
}

// wantsOf gives what to buy, in the order of the goods.
func wantsOf(c catalog, pieces []piece) ([]want, faults) {
	var f faults
	var out []want
	for i, g := range c.all {
		w := want{at: unit.Path("goods").At(i), goods: g}
		for _, p := range pieces {
			if p.Goods == g.ID {
				w.pieces = append(w.pieces, p)
			}
		}
		if len(w.pieces) == 0 {
			continue
		}
		own := w.plan()
		if f = append(f, own...); len(own) == 0 {
			out = append(out, w)
		}
	}
	return out, f
}

// plan works out the net area, the rule of thumb and the layout to make.
func (w *want) plan() faults {
	var f faults
	for _, p := range w.pieces {
		var err error
		if w.net, err = w.net.Plus(p.Area); err != nil {
			f.add(w.at, err)
			return f
		}
	}
	if w.goods.Kind == RollGoods {
		w.goods = w.goods.withIncrement(w.goods.Price.PerLength.Unit())
		if f = tooWide(w.goods, w.pieces); len(f) > 0 {
			return f
		}
		var own faults
		w.task, own = rollTask(w.goods, w.pieces)
		return append(f, own...)
	}
	var err error
	w.rule, err = material.HidesToBuy(w.net, material.Hide{Name: w.goods.Name, Area: w.goods.mean()}, w.goods.wasted())
	if f.add(w.at, err); err != nil || w.goods.BuyBy == BuyByRule || w.beyond() {
		return f
	}
	var own faults
	w.task, own = hideTask(w.at, w.goods, w.pieces)
	return append(f, own...)
}

// beyond tells whether a job is too large for a layout on hides.
func (w want) beyond() bool {
	n := 0
	for _, p := range w.pieces {
		n += p.Count
	}
	return n > layout.MostOnHides || len(w.goods.Hides) == 0 && w.rule.Hides > layout.MostHides
}

// tooWide gives every piece that does not fit across the goods.
func tooWide(g GoodsSpec, pieces []piece) faults {
	var f faults
	usable := g.roll().Usable()
	for _, p := range pieces {
		if p.turn.Fits(g.roll(), p.Cut.Cut.Width, p.Cut.Cut.Length) || p.wish.join != nil && p.wish.join.AlongWidth != g.Up.Sideways() {
			continue
		}
		want := "at most the usable width of " + usable.String() + " across the goods"
		if p.Panel != nil && p.turn == layout.KeepGrain && p.Cut.Cut.Length <= usable && !g.directed() {
			want += "; may_railroad would let it lie the other way"
		}
		if p.wish.joinable {
			want += "; join with along_width " + strconv.FormatBool(!g.Up.Sideways()) + " would make it of pieces"
		}
		size := sides(p.Cut.Cut.Width) + " wide"
		if g.Up.Sideways() {
			size = sides(p.Cut.Cut.Length) + " long"
		}
		f.add(p.at, check.Refuse("", p.Part+", cut "+size, layout.ErrTooWide, want))
	}
	return f
}

// task is one cutting layout to make. The zero value is none. Two options that
// cut the same pieces from the same goods share it.
type task struct {
	name   string
	job    layout.Job
	shaped bool // some piece is no rectangle
	// hand are the lengths at hand, and margin is theirs too.
	hand   []onHand
	margin material.WorkingMargin
}

func (t task) none() bool { return t.job.Pieces == nil }

// tasksOf gives the layouts to make for all wants, equal ones once, and for each
// want the number of its layout, -1 for none.
func tasksOf(wants ...[]want) ([]task, [][]int) {
	var tasks []task
	numbers := make([][]int, len(wants))
	for k, list := range wants {
		for _, w := range list {
			n := -1
			if !w.task.none() {
				if n = slices.IndexFunc(tasks, func(t task) bool { return reflect.DeepEqual(t, w.task) }); n < 0 {
					n = len(tasks)
					tasks = append(tasks, w.task)
				}
			}
			numbers[k] = append(numbers[k], n)
		}
	}
	return tasks, numbers
}

// rollTask brings the pieces to a layout on a roll.
func rollTask(g GoodsSpec, pieces []piece) (task, faults) {
	roll := g.roll()
	t := task{name: g.Name, job: layout.Job{Roll: &roll, Gap: g.Gap}, margin: g.margin()}
	for _, s := range g.AtHand {
		t.hand = append(t.hand, onHand{s.Of(g.roll()), s.Remnant})
	}
	var f faults
	common := map[int]int{} // read by key only
	for _, s := range g.Shades {
		t.job.Shades = append(t.job.Shades, layout.Shade{Window: s.Window})
	}
	for _, p := range pieces {
		q, err := p.laid()
		f.add(p.at, err)
		q.Turn, q.Shade, q.Join = p.turn, p.wish.shade, p.wish.join
		if q.Phase = p.phase(); p.lies.common != 0 {
			if common[p.lies.common] == 0 {
				common[p.lies.common] = len(common) + 1
			}
			q.Phase.Common = common[p.lies.common]
		}
		t.shaped = t.shaped || !p.Rectangular()
		t.job.Pieces = append(t.job.Pieces, q)
	}
	return t, f
}

// hideTask brings the pieces to a layout on hides.
func hideTask(at unit.Path, g GoodsSpec, pieces []piece) (task, faults) {
	hides := &layout.Hides{}
	t := task{name: g.Name, job: layout.Job{Hides: hides, Gap: g.Gap}, shaped: true}
	var f faults
	for _, p := range pieces {
		q, err := p.laid()
		f.add(p.at, err)
		q.Grain, q.Least, q.Worst, q.Stretch = p.wish.leather.grain.rule(), p.Grade, p.Marks, p.wish.leather.stretch
		t.job.Pieces = append(t.job.Pieces, q)
	}
	for i, h := range g.Hides {
		s, err := h.skin()
		f.add(at.Dot("hides").At(i), err)
		if h.OnOffer {
			hides.OnOffer = append(hides.OnOffer, s)
		} else {
			hides.AtHand = append(hides.AtHand, s)
		}
	}
	if g.HideArea != 0 {
		kind := g.Skin
		if kind == material.MeasuredSkin {
			kind = material.WholeHide
		}
		hides.Usual = material.Skin{Kind: kind, Area: g.HideArea}
	}
	return t, f
}

// laid gives the piece to a layout.
func (p piece) laid() (layout.Piece, error) {
	o, err := p.outline()
	q := layout.Piece{Name: p.label(), Outline: o, Count: p.Count}
	if p.Pair {
		q.Hand = layout.Paired
	}
	return q, err
}

// phase gives how the piece lies on the pattern, in the axes of its cut line.
func (p piece) phase() layout.Phase {
	if p.lies.phase.Axes == layout.Unbound {
		return unbound.phase
	}
	var corner shape.Point
	if p.Panel != nil { // the fit keeps the corner of the box in place
		corner, _ = p.Outline.Bounds()
	}
	return p.lies.on(corner)
}

// outline is the cut line: that of the panel, or a rectangle for a strip.
func (p piece) outline() (shape.Outline, error) {
	if p.Panel == nil {
		return shape.Rectangle(p.Cut.Cut.Width, p.Cut.Cut.Length)
	}
	return shape.Polygon(p.Panel.CutLine.Outer...)
}
