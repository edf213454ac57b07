package rect

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/pack/gate"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// ErrNoLayout is returned when no layout was found: the strip is too short, or a group does not fit its window.
var ErrNoLayout = errors.New("rect: no layout found")

// Solve lays the pieces of a job on its strip and keeps the length short.
//
// It starts from sorted orders, proves the optimum of small jobs by branch and bound, and improves the layout of
// others until the effort is spent or the lower bound is reached. When the context ends it returns the best layout so
// far with Stopped set, not an error. The plan has passed the checks of package verify.
//
// Errors: *InputError for a field outside its range, ErrNoLayout when nothing legal was found.
func Solve(ctx context.Context, j *Job, o Options) (*Plan, error) {
	if err := j.Validate(); err != nil {
		return nil, err
	}
	effort, err := o.validate()
	if err != nil {
		return nil, err
	}
	s := &solver{ctx: ctx, j: j, o: o, units: int64(effort * unitsPerEffort)}
	s.bound = j.LowerBound()
	if j.MaxLength > 0 && s.bound > j.MaxLength {
		return nil, fmt.Errorf("%w: at least %d of length are needed, the strip has %d", ErrNoLayout, s.bound, j.MaxLength)
	}
	division := s.divide()
	p, err := s.lay(division, s.units)
	if err != nil {
		return nil, err
	}
	p.Work += s.work
	p.Bound = max(p.Bound, s.bound)
	p.Proved = p.Proved || p.Length <= p.Bound
	if p.Proved {
		p.Bound = p.Length
	}
	p.Stopped = ctx.Err() != nil
	if err := check(j, p); err != nil {
		return nil, fmt.Errorf("rect: internal error: %w", err)
	}
	return p, nil
}

type solver struct {
	ctx         context.Context
	j           *Job
	o           Options
	units, work int64
	bound       int64
}

// divide chooses how the pieces that may be joined are divided. Every such piece starts with its first division; one
// after the other the alternatives are tried with a small part of the effort.
func (s *solver) divide() [][]int64 {
	j := s.j
	division := make([][]int64, len(j.Pieces))
	options := make([][][]int64, len(j.Pieces))
	tries := 0
	for i := range j.Pieces {
		if p := &j.Pieces[i]; p.Split != nil {
			options[i] = j.divisions(p)
			division[i] = options[i][0]
			tries += len(options[i]) - 1
		}
	}
	if tries == 0 {
		return division
	}
	each := s.units / int64(3*tries)
	best := maxCoord
	if p, err := s.quick(division, each); err == nil {
		best = p
	}
	for i := range options {
		for k := 1; k < len(options[i]); k++ {
			if s.ctx.Err() != nil || best <= s.bound {
				return division
			}
			old := division[i]
			division[i] = options[i][k]
			p, err := s.quick(division, each)
			if err == nil && p < best {
				best = p
				continue
			}
			division[i] = old
		}
	}
	return division
}

func (s *solver) quick(division [][]int64, units int64) (int64, error) {
	quiet := *s
	quiet.o.Progress = nil
	p, err := quiet.lay(division, units)
	if err != nil {
		return 0, err
	}
	s.work += p.Work
	return p.Length, nil
}

// lay lays the parts of one division.
func (s *solver) lay(division [][]int64, units int64) (*Plan, error) {
	j := s.j
	parts := j.parts(division)
	var p *Plan
	bound := j.Repeat.binds(parts) || len(j.Flaws) > 0 || s.grouped(parts)
	if !bound {
		p = s.layPlain(parts, units)
		switch {
		case j.MaxLength == 0 || p.Length <= j.MaxLength:
		case p.Proved:
			return nil, fmt.Errorf("%w: %d of length are needed, the strip has %d", ErrNoLayout, p.Length, j.MaxLength)
		default: // the placer may be luckier
			bound = true
		}
	}
	if bound {
		var err error
		if p, err = s.layOrdered(parts, units); err != nil {
			return nil, err
		}
	}
	for i := range p.Placed {
		p.Placed[i].Mirror = j.Pieces[p.Placed[i].Piece].Mirror
	}
	for i := range j.Pieces {
		if d := division[i]; len(d) > 1 {
			for c := range j.Pieces[i].Count {
				var at int64
				for _, f := range d[:len(d)-1] {
					at += f
					p.Seams = append(p.Seams, Seam{i, c, at})
				}
			}
		}
	}
	slices.SortStableFunc(p.Placed, func(a, b Placed) int {
		return cmp.Or(a.Piece-b.Piece, a.Copy-b.Copy, a.Segment-b.Segment)
	})
	return p, nil
}

// binds reports whether the pattern binds any part.
func (r *Repeat) binds(parts []part) bool {
	return slices.ContainsFunc(parts, func(p part) bool { return p.match != 0 })
}

// grouped reports whether a group could fail: it has at least two members, or
// one that is longer than its window some way up.
func (s *solver) grouped(parts []part) bool {
	count := make([]int, len(s.j.Groups)+1)
	for i := range parts {
		g := parts[i].group
		if g == 0 {
			continue
		}
		if count[g]++; count[g] > 1 {
			return true
		}
		for _, l := range parts[i].lays {
			if l.h > s.j.Groups[g-1].Window {
				return true
			}
		}
	}
	return false
}

// layPlain lays parts that only must not overlap. The gap is added to the parts and the strip.
func (s *solver) layPlain(parts []part, units int64) *Plan {
	j := s.j
	boxes := make([]box, len(parts))
	items := make([]item, len(parts))
	for i := range parts {
		l := parts[i].lays[0]
		boxes[i] = box{w: l.w + j.Gap, h: l.h + j.Gap}
		if len(parts[i].lays) == 2 {
			boxes[i].turn = true
		}
		for _, l := range parts[i].lays {
			items[i].add(l.w+j.Gap, l.h+j.Gap)
		}
	}
	width := j.Width + j.Gap
	bound := s.bound + j.Gap
	if !s.noSplit() {
		bound = max(bound, stripBound(width, items, wide{}))
	}
	p := newPlain(width, bound, boxes, s.o.Seed)
	p.gate = gate.New(s.o.AtOnce)
	p.start(s.ctx)
	if s.ctx.Err() == nil {
		p.scale(s.ctx)
	}
	proved := false
	report := func(from, share float64) func(float64) {
		if s.o.Progress == nil {
			return nil
		}
		return func(done float64) {
			s.o.Progress(Progress{Done: min(1, from+float64(done*share)), Length: p.best - j.Gap, Bound: s.bound})
		}
	}
	var did int64
	var places []exactSpot
	var which []int
	if n := len(parts); n <= maxExact {
		p.search(s.ctx, min(units/8, int64(n)<<20), report(0, 0.125))
		if p.best > bound && s.ctx.Err() == nil {
			var e *exact
			e, which = newExact(s.ctx, j.Width, parts, j.Gap, Repeat{})
			budget := units // of one core
			var h int64
			places, h, proved = e.shortest(p.best, bound, budget)
			if places != nil {
				p.best = h
			}
			did += e.units
		}
		if !proved && p.best > bound {
			keep := p.best
			p.search(s.ctx, units/2, report(0.5, 0.5))
			if p.best < keep {
				places = nil
			}
		}
	} else {
		p.search(s.ctx, units, report(0, 1))
	}
	plan := &Plan{Length: p.best - j.Gap, Proved: proved, Work: did}
	for _, w := range p.ws {
		plan.Work += w.units
	}
	if len(parts) > 0 && s.noSplit() { // of this division only
		plan.Bound = bound - j.Gap
	}
	if !s.noSplit() {
		plan.Proved = false
	}
	if places != nil {
		for k, q := range places {
			plan.Placed = append(plan.Placed, placed(&parts[which[k]], q.x, q.y, q.lay))
		}
		return plan
	}
	for i, q := range p.spots {
		l := 0
		if len(parts[i].lays) == 2 && q.turned {
			l = 1
		}
		plan.Placed = append(plan.Placed, placed(&parts[i], q.x, q.y, l))
	}
	return plan
}

func (s *solver) noSplit() bool {
	return !slices.ContainsFunc(s.j.Pieces, func(p Piece) bool { return p.Split != nil })
}

func placed(p *part, x, y int64, li int) Placed {
	l := p.lays[li]
	return Placed{
		Piece: p.piece, Copy: p.copy, Segment: p.segment, Segments: p.segments,
		X: x, Y: y, W: l.w, H: l.h, Turn: l.turn,
	}
}

// layOrdered lays parts bound by a repeat, flaws, groups or the end of the strip.
func (s *solver) layOrdered(parts []part, units int64) (*Plan, error) {
	j := s.j
	orders, spent, err := s.groupOrders(parts, units/8)
	if err != nil {
		return nil, err
	}
	o := newOrdered(j, parts, s.bound, s.o.Seed, orders)
	o.gate = gate.New(s.o.AtOnce)
	var seeding int64
	o.seeds, seeding = s.seedOrders(parts, units/8)
	spent += seeding
	units -= units / 4
	o.start(s.ctx, units)
	report := func(done float64) {
		if s.o.Progress != nil && o.best < maxCoord {
			s.o.Progress(Progress{Done: done, Length: o.best, Bound: s.bound})
		}
	}
	proved := false
	var places []exactSpot
	var which []int
	canProve := len(parts) <= maxExact && len(j.Flaws) == 0 && !s.grouped(parts)
	if canProve {
		o.search(s.ctx, min(units/8, int64(len(parts))<<20), nil)
		if o.best > s.bound && s.ctx.Err() == nil {
			var e *exact
			e, which = newExact(s.ctx, j.Width, parts, j.Gap, j.Repeat)
			from := o.best
			if from == maxCoord {
				from = j.MaxLength + 1
			}
			var h int64
			places, h, proved = e.shortest(from+j.Gap, s.bound+j.Gap, units)
			if places != nil {
				o.best = h - j.Gap
			} else if proved && o.best == maxCoord {
				return nil, fmt.Errorf("%w: the pieces do not fit a strip of length %d", ErrNoLayout, j.MaxLength)
			}
			spent += e.units
		}
		units /= 2
	}
	if !proved {
		keep := o.best
		o.search(s.ctx, units, report)
		if o.best < keep {
			places = nil
		}
	}
	if o.best == maxCoord {
		return nil, fmt.Errorf("%w within the effort given", ErrNoLayout)
	}
	plan := &Plan{Length: o.best, Proved: proved && s.noSplit(), Work: spent + o.spent()}
	if places != nil {
		for k, q := range places {
			plan.Placed = append(plan.Placed, placed(&parts[which[k]], q.x, q.y, q.lay))
		}
		return plan, nil
	}
	for i, q := range o.spots {
		plan.Placed = append(plan.Placed, placed(&parts[i], q.x, q.y, q.lay))
	}
	return plan, nil
}

// seedOrders lays the parts as if only their sizes mattered, and reads orders for the placer from the layouts: once
// with the sizes as they are, and once with the sides bound by the repeat rounded up to whole periods.
func (s *solver) seedOrders(parts []part, units int64) (orders [][]int, spent int64) {
	j := s.j
	for _, rounded := range []bool{false, true} {
		if rounded && !j.Repeat.binds(parts) || s.ctx.Err() != nil || len(parts) < 2 || len(parts) > 3000 {
			break
		}
		boxes := make([]box, len(parts))
		fits := true
		for i := range parts {
			l := parts[i].lays[0]
			w, h := l.w+j.Gap, l.h+j.Gap
			if rounded && parts[i].match&X != 0 {
				w = min(j.Width+j.Gap, ceilTo(w, 0, j.Repeat.PeriodX))
			}
			if rounded && parts[i].match&Y != 0 {
				h = ceilTo(h, 0, j.Repeat.PeriodY)
			}
			boxes[i] = box{w: w, h: h}
			for _, o := range parts[i].lays {
				if o.w != l.w && !rounded {
					boxes[i].turn = true
				}
			}
			fits = fits && w <= j.Width+j.Gap
		}
		if !fits {
			continue
		}
		items := make([]item, len(boxes))
		for i, b := range boxes {
			items[i].add(b.w, b.h)
			if b.turn && b.h <= j.Width+j.Gap {
				items[i].add(b.h, b.w)
			}
		}
		p := newPlain(j.Width+j.Gap, stripBound(j.Width+j.Gap, items, wide{}), boxes, s.o.Seed)
		p.gate = gate.New(s.o.AtOnce)
		p.start(s.ctx)
		p.search(s.ctx, units, nil)
		for _, w := range p.ws {
			spent += w.units
		}
		order := make([]int, len(parts))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Or(cmp.Compare(p.spots[a].y, p.spots[b].y), cmp.Compare(p.spots[a].x, p.spots[b].x))
		})
		orders = append(orders, order)
	}
	return orders, spent
}

// groupOrders finds for every group an order in which its parts lie within the window on clear ground.
func (s *solver) groupOrders(parts []part, units int64) (orders [][]int, spent int64, err error) {
	j := s.j
	orders = make([][]int, len(j.Groups))
	for g := range j.Groups {
		var own []part
		var ids []int
		for i := range parts {
			if parts[i].group == g+1 {
				q := parts[i]
				q.group = 0
				own = append(own, q)
				ids = append(ids, i)
			}
		}
		if len(own) == 0 {
			continue
		}
		alone := *j
		alone.Flaws, alone.Groups, alone.MaxLength = nil, nil, 0
		window := j.Groups[g].Window
		span := func(o *ordered) int64 { // first lower to last upper side
			lo, hi := maxCoord, int64(0)
			for i, q := range o.spots {
				lo, hi = min(lo, q.y), max(hi, q.y+own[i].lays[q.lay].h)
			}
			return hi - lo
		}
		o := newOrdered(&alone, own, 0, s.o.Seed, nil)
		o.gate = gate.New(s.o.AtOnce)
		o.start(s.ctx, units)
		if o.best < maxCoord && span(o) > window {
			o.search(s.ctx, max(1<<20, units/int64(len(j.Groups))), nil)
		}
		spent += o.spent()
		if o.best == maxCoord || span(o) > window {
			// the window may still do on other ground; only a window too short for its tallest piece is hopeless
			for i := range own {
				least := maxCoord
				for _, l := range own[i].lays {
					least = min(least, l.h)
				}
				if least > window {
					return nil, spent, fmt.Errorf("%w: Groups[%d].Window is %d, one of its pieces needs %d", ErrNoLayout, g, window, least)
				}
			}
			continue
		}
		// lay again from below in the order of the places found
		order := make([]int, len(own))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Or(cmp.Compare(o.spots[a].y, o.spots[b].y), cmp.Compare(o.spots[a].x, o.spots[b].x))
		})
		for _, i := range order {
			orders[g] = append(orders[g], ids[i])
		}
	}
	return orders, spent, nil
}

// check hands the plan to the independent verifier.
func check(j *Job, p *Plan) error {
	v := verify.Strip{Width: j.Width, Length: p.Length, Gap: j.Gap, Claimed: p.Length}
	if j.MaxLength > 0 {
		v.Length = min(v.Length, j.MaxLength)
	}
	v.Repeat = verify.Repeat{
		PeriodX: j.Repeat.PeriodX, PeriodY: j.Repeat.PeriodY, OriginX: j.Repeat.OriginX, OriginY: j.Repeat.OriginY,
		DropNum: j.Repeat.DropNum, DropDen: j.Repeat.DropDen,
	}
	for _, f := range j.Flaws {
		v.Flaws = append(v.Flaws, verify.Rect(f))
	}
	for _, g := range j.Groups {
		v.Windows = append(v.Windows, g.Window)
	}
	for i := range j.Pieces {
		q := &j.Pieces[i]
		d := verify.Demand{
			W: q.W, H: q.H, Count: q.Count, MatchX: q.Match&X != 0, MatchY: q.Match&Y != 0, Group: q.Group, MovedX: q.MovedX, MovedY: q.MovedY,
		}
		if q.Set > 0 && p.Moved != nil {
			d.MovedX, d.MovedY = d.MovedX+p.Moved[q.Set-1][0], d.MovedY+p.Moved[q.Set-1][1]
		}
		for _, m := range q.Spots {
			spot := verify.Spot{X: m.X, Y: m.Y}
			for t := Upright; t <= ThreeQuarterTurn && m.Turns != 0; t <<= 1 {
				if m.Turns&t != 0 {
					spot.Turns = append(spot.Turns, degrees(t))
				}
			}
			d.Spots = append(d.Spots, spot)
		}
		for _, t := range q.turns() {
			d.Turns = append(d.Turns, degrees(t))
		}
		if q.Split != nil {
			d.Join = &verify.Join{
				AlongX: q.Split.Along == X, Allowance: q.Split.Allowance, Least: q.Split.Min, Most: q.Split.MaxSeams,
			}
		}
		v.Demands = append(v.Demands, d)
	}
	for _, q := range p.Placed {
		v.Laid = append(v.Laid, verify.Laid{
			Demand: q.Piece, Copy: q.Copy, Segment: q.Segment, Segments: q.Segments,
			Rect: verify.Rect{X: q.X, Y: q.Y, W: q.W, H: q.H}, Turn: degrees(q.Turn),
		})
	}
	for _, q := range p.Seams {
		v.Seams = append(v.Seams, verify.Seam{Demand: q.Piece, Copy: q.Copy, At: q.At})
	}
	return verify.Boxes(&v)
}

// degrees of a turn, anti-clockwise.
func degrees(t Turns) int {
	switch t {
	case QuarterTurn:
		return 90
	case HalfTurn:
		return 180
	case ThreeQuarterTurn:
		return 270
	}
	return 0
}
