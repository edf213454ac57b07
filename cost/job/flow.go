package job

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// PatternFlow is how the pattern runs over the cover of an assembly.
type PatternFlow struct {
	allowance.Flow
	// Breaks are the seams and meets at which the pattern does not run on, and the
	// motifs that do not lie where they are asked for: it cannot close.
	Breaks []PatternBreak `json:"breaks,omitempty"`
	// Moved are pieces of the work on which the goods have no room for the motif where
	// their kind has it: all that the pattern runs over with them is moved.
	Moved []int `json:"moved,omitempty"`
	// OneWay are pieces that have no room on the goods so either: they follow the
	// pattern along the roll alone.
	OneWay []int `json:"one_way,omitempty"`
	// Apart are the crossings, from 1, at which the pattern runs on along the roll
	// alone for want of room.
	Apart []int `json:"apart,omitempty"`
}

// PatternBreak is a place at which the pattern is off.
type PatternBreak struct {
	// Crossing is the place among those of the flow, from 1, or 0 of a motif that
	// gives way on a piece of the work, Piece.
	Crossing int         `json:"crossing,omitzero"`
	Piece    int         `json:"piece,omitzero"`
	Off      shape.Point `json:"off"` // to the nearest repeat
}

// tenth is by how much a pattern may be off without a word.
const tenth = unit.Millimetre / 10

// laying is how a piece lies on the pattern.
type laying struct {
	phase layout.Phase
	// common is what pieces share that lie on the pattern alike, wherever.
	common int
	spots  []shape.Point // from the corner of the box round the seam line
	width  unit.Length
}

// alike tells whether two pieces lie on the pattern in the same way, of two hands
// mirrored.
func (l laying) alike(m laying, mirrored bool) bool {
	if l.phase.Axes != m.phase.Axes || l.common != m.common || len(l.spots) != len(m.spots) {
		return false
	}
	for i, p := range l.spots {
		q := m.spots[i]
		if mirrored {
			q.X = m.width - q.X
		}
		if p.Y != q.Y && l.phase.Axes != layout.AcrossOnly || max(p.X-q.X, q.X-p.X) > 1 && l.phase.Axes != layout.AlongOnly {
			return false
		}
	}
	return true
}

// on gives the phase of a piece, whose seam line begins at a corner of its axes.
func (l laying) on(corner shape.Point) layout.Phase {
	out := l.phase
	for _, s := range l.spots {
		out.Spots = append(out.Spots, layout.Spot{Point: shape.Point{X: corner.X + s.X, Y: corner.Y + s.Y}})
	}
	return out
}

// unbound lies anywhere.
var unbound = laying{phase: layout.Phase{Axes: layout.Unbound}}

// motifsOf gives the motifs that a piece of furniture asks for: those of its panels,
// and those of its list.
func (p Furniture) motifsOf(at unit.Path) []wished {
	var out []wished
	for i, q := range p.Panels {
		if q.Motif != nil {
			out = append(out, wished{MotifSpec{On: q.Name, At: q.Motif}, at.Dot("panels").At(i).Dot("motif"), ""})
		}
	}
	for i, m := range p.Motifs {
		out = append(out, wished{m, at.Dot("motifs").At(i), "on"})
	}
	return out
}

// wished is a motif with its place in the job file.
type wished struct {
	MotifSpec
	at unit.Path
	on unit.Path // the field that names the panel
}

// takes gives every motif to the cover that has its panel, and refuses one that none
// has.
func takes(covers []*whole, motifs []wished) faults {
	var f faults
	for _, m := range motifs {
		found := false
		for _, w := range covers {
			if name, ok := w.ownName(m.On); ok && !found {
				found = true
				m.On = name
				w.motifs = append(w.motifs, m)
			}
		}
		if !found {
			var names []string
			for _, w := range covers {
				for i, p := range w.cover.Panels {
					names = append(names, strings.Replace(w.of[i].nameOf(p.Name), ", ", ".", 1))
				}
			}
			f.add(m.at.Dot(m.on), check.OneOf("", m.On, names...))
		}
	}
	return f
}

// ownName gives the name that a panel has in the cover.
func (w whole) ownName(name string) (string, bool) {
	if part := w.alone(); part != "" {
		inner, ok := strings.CutPrefix(name, part+".")
		return inner, ok && slices.ContainsFunc(w.cover.Panels, func(p allowance.CoverPanel) bool { return within(inner, p.Name) })
	}
	return name, slices.ContainsFunc(w.cover.Panels, func(p allowance.CoverPanel) bool {
		return within(name, p.Name) && strings.Count(name, ".") == strings.Count(p.Name, ".")
	})
}

// flowed is the pattern on a cover, and how each of its pieces lies on it.
type flowed struct {
	PatternFlow
	lies []laying
}

// flows carries the pattern over a cover.
func (o *cutting) flows(w whole, work allowance.CoverWork, c catalog, goods map[string]allowance.SewnGoods) (flowed, faults) {
	var f faults
	pieces := 0
	patterned := map[string]bool{}
	for _, p := range w.cover.Panels {
		n := p.Copies()
		if p.Pair {
			n *= 2
		}
		pieces += n
		g, _, _ := c.find(p.Goods) //nolint:errcheck // the cover was made with it
		patterned[p.Goods] = g.roll().Patterned()
	}
	var wishes []allowance.MotifWish
	var at []unit.Path
	for _, m := range w.motifs {
		i := slices.IndexFunc(w.cover.Panels, func(p allowance.CoverPanel) bool {
			return within(m.On, p.Name) && strings.Count(m.On, ".") == strings.Count(p.Name, ".")
		})
		p := w.cover.Panels[i]
		switch {
		case !patterned[p.Goods] && c.lenient(m.at):
			continue
		case !patterned[p.Goods]:
			f.misplaced(m.at.Dot(m.on), "goods with a repeat")
			continue
		case w.of[i].wish.unmatched:
			f.misplaced(m.at.Dot(m.on), "motif or unmatched, not both")
			continue
		}
		wish := allowance.MotifWish{Panel: m.On, Or: m.Or, Way: m.Way, Alike: m.Alike}
		if wish.Way == allowance.NoPattern {
			wish.Way = allowance.BothWays
		}
		if m.At != nil {
			wish.At = *m.At
		} else {
			width, height := p.Outline.Size()
			wish.At = shape.Point{X: width / 2, Y: height / 2}
		}
		wishes, at = append(wishes, wish), append(at, m.at)
	}
	lays := make([]laying, pieces)
	for n := range lays {
		lays[n] = unbound
	}
	crosses := slices.ContainsFunc(w.cover.Seams, func(s allowance.Seam) bool { return s.Pattern.Way != allowance.NoPattern }) ||
		slices.ContainsFunc(w.cover.Meets, func(m allowance.Meet) bool { return m.Pattern.Way != allowance.NoPattern })
	if len(f) > 0 || len(wishes) == 0 && !crosses || !slices.Contains(slices.Collect(maps.Values(patterned)), true) {
		return flowed{lies: lays}, f
	}
	flow, err := w.cover.Flow(goods, wishes)
	if err != nil {
		return flowed{}, w.unflowing(err, at)
	}
	out := flowed{PatternFlow{Flow: flow}, lays}
	common := commonsOf(flow)
	given := map[int]int{}
	n := 0
	for i, p := range w.cover.Panels {
		copies := p.Copies()
		if p.Pair {
			copies *= 2
		}
		for range copies {
			if patterned[p.Goods] && !w.of[i].wish.unmatched {
				lays[n] = layingOf(flow.Pieces[n])
				if k := common[n]; k != 0 && lays[n].phase.Axes != layout.Unbound {
					if given[k] == 0 {
						o.commons++
						given[k] = o.commons
					}
					lays[n].common = given[k]
				}
			}
			n++
		}
	}
	out.fit(work, c, common, at)
	out.breaks(w, c, wishes, at)
	return out, f
}

// across is how a piece lies across a roll: how far in from its left edge the motif
// lies, and its width there.
type across struct{ in, width unit.Length }

// acrossRoll gives it for every spot of a piece.
func (l laying) acrossRoll(panel allowance.Panel, r material.Roll) []across {
	cut, err := panel.Cut()
	if err != nil {
		return nil // said when it is cut
	}
	low, high := corners(cut.CutLine)
	corner, _ := panel.Outline.Bounds()
	out := make([]across, len(l.spots))
	for i, s := range l.spots {
		x, y := corner.X+s.X, corner.Y+s.Y
		switch r.Up {
		case material.UpToLeft:
			out[i] = across{high.Y - y, high.Y - low.Y}
		case material.UpToRight:
			out[i] = across{y - low.Y, high.Y - low.Y}
		default:
			out[i] = across{x - low.X, high.X - low.X}
		}
	}
	return out
}

// room gives how far a piece may still be moved across the roll from the leftmost
// motif about which it lies whole; below zero where it does so about none.
func (a across) room(r material.Roll, period unit.Length) unit.Length {
	left := (r.First.X - a.in) % period
	if left < 0 {
		left += period
	}
	return r.Usable() - a.width - left
}

// fit finds room across the roll for what nobody has put there in this job: pieces
// that lie on the motifs along the roll alone, and those whose kind asks for a motif
// about which they would hang over an edge of the goods. What the pattern runs over
// as one is moved together; what then has no room follows along the roll alone.
func (f *flowed) fit(work allowance.CoverWork, c catalog, common []int, at []unit.Path) {
	joined := make([]int, len(f.Pieces)) // the first piece that the pattern runs over as one with it
	for n := range joined {
		joined[n] = n
	}
	for _, x := range f.Crossings {
		if f.bindsAcross(x, work, c) {
			from, to := joined[x.From], joined[x.To]
			for n, j := range joined {
				if j == max(from, to) {
					joined[n] = min(from, to)
				}
			}
		}
	}
	groups := map[int][]int{}
	asked := map[int]bool{} // in this job
	for n, p := range f.Pieces {
		if n >= len(work.Pieces) || common[n] != 0 {
			continue
		}
		goods, _, _ := c.find(work.Pieces[n].Goods) //nolint:errcheck // the cover was made with it
		if bound, _ := axesAcross(goods.Up); f.lies[n].phase.Axes != bound && f.lies[n].phase.Axes != layout.BothAxes {
			continue
		}
		g := joined[n]
		groups[g] = append(groups[g], n)
		asked[g] = asked[g] || p.Wish > 0 && !c.lenient(at[p.Wish-1])
	}
	for _, g := range slices.Sorted(maps.Keys(groups)) {
		if !asked[g] {
			f.fitGroup(work, c, groups[g])
		}
	}
	for i, x := range f.Crossings {
		if f.bindsAcross(x, work, c) && slices.Contains(f.OneWay, x.From) != slices.Contains(f.OneWay, x.To) {
			f.Apart = append(f.Apart, i+1)
		}
	}
}

// bindsAcross tells whether a pattern runs on over a crossing in the way that lies
// across the roll.
func (f *flowed) bindsAcross(x allowance.Crossed, work allowance.CoverWork, c catalog) bool {
	if x.From >= len(work.Pieces) {
		return false
	}
	goods, _, _ := c.find(work.Pieces[x.From].Goods) //nolint:errcheck // the cover was made with it
	if goods.Up.Sideways() {
		return x.Way == allowance.AlongOnly || x.Way == allowance.BothWays
	}
	return x.Way == allowance.AcrossOnly || x.Way == allowance.BothWays
}

// fitGroup finds room for the pieces that the pattern runs over as one.
func (f *flowed) fitGroup(work allowance.CoverWork, c catalog, members []int) {
	goods, _, _ := c.find(work.Pieces[members[0]].Goods) //nolint:errcheck // the cover was made with it
	r := goods.roll()
	period := r.Motifs().Across
	if period == 0 {
		return
	}
	of := make([][]across, len(members))
	for i, n := range members {
		of[i] = f.lies[n].acrossRoll(work.Pieces[n].Panel, r)
	}
	least := func(by unit.Length) unit.Length {
		out := r.Usable()
		for _, spots := range of {
			best := unit.Length(-1)
			for _, a := range spots {
				a.in += by
				best = max(best, a.room(r, period))
			}
			out = min(out, best)
		}
		return out
	}
	best, widest := unit.Length(0), least(0)
	free := !slices.ContainsFunc(members, func(n int) bool { return f.Pieces[n].Wish > 0 })
	if widest >= 0 && !free {
		return
	}
	if len(members) > 1 {
		for _, spots := range of {
			for _, a := range spots {
				for _, left := range []unit.Length{0, (r.Usable() - a.width) / 2, r.Usable() - a.width} {
					if by := r.First.X - a.in - left; least(by) > widest {
						best, widest = by, least(by)
					}
				}
			}
		}
	}
	if widest < 0 {
		for i, n := range members {
			if !slices.ContainsFunc(of[i], func(a across) bool { return a.room(r, period) >= 0 }) {
				f.lies[n].alongRoll(r)
				f.OneWay = append(f.OneWay, n)
			}
		}
		return
	}
	for _, n := range members {
		f.move(n, best, r)
		if best != 0 && f.Pieces[n].Wish > 0 {
			f.Moved = append(f.Moved, n)
		}
	}
}

// axesAcross gives which way of a pattern lies across the roll, and which along it.
func axesAcross(u material.Up) (across, along layout.Axes) {
	if u.Sideways() {
		return layout.AlongOnly, layout.AcrossOnly
	}
	return layout.AcrossOnly, layout.AlongOnly
}

// alongRoll lets a piece off the pattern across the roll.
func (l *laying) alongRoll(r material.Roll) {
	bound, rest := axesAcross(r.Up)
	if l.phase.Axes == bound {
		rest = layout.Unbound
	}
	l.phase.Axes = rest
}

// move puts the motif on a piece further in from its left edge on the roll.
func (f *flowed) move(n int, by unit.Length, r material.Roll) {
	d := shape.Point{X: by}
	switch r.Up {
	case material.UpToLeft:
		d = shape.Point{Y: -by}
	case material.UpToRight:
		d = shape.Point{Y: by}
	}
	for i, p := range f.lies[n].spots {
		f.lies[n].spots[i] = shape.Point{X: p.X + d.X, Y: p.Y + d.Y}
	}
	m := &f.Pieces[n].Motif
	*m = shape.Point{X: m.X + d.X, Y: m.Y + d.Y}
}

// unflowing brings an error of the flow to the words of the job file.
func (w whole) unflowing(err error, at []unit.Path) faults {
	var f faults
	for _, err := range split(err) {
		var in *unit.InputError
		if !errors.As(err, &in) {
			f.add(w.at, err)
			continue
		}
		if list, i, indexed, rest := in.Field.Head(); list == "wishes" && indexed && i < len(at) {
			moved := *in
			if rest == "panel" {
				rest = "on"
			}
			moved.Field = at[i].Dot(rest)
			f = append(f, &moved)
			continue
		}
		f = append(f, moved(err, w.place))
	}
	return f
}

// layingOf gives how a piece lies on the pattern.
func layingOf(p allowance.PieceFlow) laying {
	out := laying{width: p.Width, spots: append([]shape.Point{p.Motif}, p.Or...)}
	switch across, along := p.Across.Number > 0, p.Along.Number > 0; {
	case across && along:
		out.phase.Axes = layout.BothAxes
	case across:
		out.phase.Axes = layout.AcrossOnly
	case along:
		out.phase.Axes = layout.AlongOnly
	default:
		return unbound
	}
	return out
}

// breaks notes where the pattern is off by more than whole repeats.
func (f *PatternFlow) breaks(w whole, c catalog, wishes []allowance.MotifWish, at []unit.Path) {
	panels := make([]string, 0, len(f.Pieces)) // the goods of the pieces
	for _, p := range w.cover.Panels {
		n := p.Copies()
		if p.Pair {
			n *= 2
		}
		for range n {
			panels = append(panels, p.Goods)
		}
	}
	apart := func(piece int, off shape.Point, way allowance.PatternWay) (shape.Point, bool) {
		g, _, _ := c.find(panels[piece]) //nolint:errcheck // the cover was made with it
		r := g.roll()
		m := material.Motifs{Across: r.Columns(), Along: r.Repeat, Drop: r.Drop}
		switch way {
		case allowance.AcrossOnly:
			m.Along = 0
		case allowance.AlongOnly: // in any column
			m.Across, m.Along = 0, m.Along/unit.Length(max(m.Drop.Den, 1))
		}
		off = m.Apart(off)
		return off, max(off.X, -off.X, off.Y, -off.Y) > tenth
	}
	for i, x := range f.Crossings {
		if off, ok := apart(x.From, x.Off, x.Way); ok {
			f.Breaks = append(f.Breaks, PatternBreak{Crossing: i + 1, Off: off})
		}
	}
	for _, u := range f.Unmet {
		if c.lenient(at[u.Wish]) { // nobody asked for it in this job
			continue
		}
		if off, ok := apart(u.Piece, u.Off, wishes[u.Wish].Way); ok {
			f.Breaks = append(f.Breaks, PatternBreak{Piece: u.Piece, Off: off})
		}
	}
}

// commonsOf gives for every piece a number of those that lie on the pattern alike,
// wherever that is; 0 for those that lie on the motifs. What is placed in one
// direction is not free in the other.
func commonsOf(f allowance.Flow) []int {
	top := 0
	for _, p := range f.Pieces {
		top = max(top, p.Across.Number, p.Along.Number)
	}
	of, fixed := make([]int, top+1), make([]bool, top+1)
	for i := range of {
		of[i] = i
	}
	for _, p := range f.Pieces {
		a, b := of[p.Across.Number], of[p.Along.Number]
		if a == 0 || b == 0 {
			continue
		}
		free := fixed[a] || fixed[b]
		for i := range of {
			if of[i] == b {
				of[i] = a
			}
		}
		fixed[a] = free
	}
	for _, p := range f.Pieces {
		for _, g := range []allowance.FlowGroup{p.Across, p.Along} {
			if g.Placed {
				fixed[of[g.Number]] = true
			}
		}
	}
	out := make([]int, len(f.Pieces))
	for i, p := range f.Pieces {
		if k := of[max(p.Across.Number, p.Along.Number)]; !fixed[k] {
			out[i] = k
		}
	}
	return out
}
