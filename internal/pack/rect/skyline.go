package rect

import (
	"cmp"
	"slices"
)

// The skyline decoder turns priorities into a layout. It looks at the lowest (then leftmost) gap of the upper
// contour, takes the piece that fits it best, and lays it there; equal fits are decided by priority. If no piece fits,
// the gap is filled up to its lower neighbour and counts as waste.
//
// The decoder works towards a fixed height: no piece may rise above the limit, and it stops as soon as more is wasted
// than the caller accepts. It records what it did, so that a change of a few priorities repeats only the part of the
// layout that changes.

// box is a rectangle to place; turn allows a quarter turn.
type box struct {
	w, h int64
	turn bool
}

// seg is a level part of the skyline.
type seg struct{ x, y, w int64 }

// entry is one way to lay a box that is not placed yet.
type entry struct {
	w, h, prio int64
	box        int32
	turned     bool
}

// step is one decision of the decoder.
type step struct {
	x, y, gap int64   // the gap: left end, level, width
	hl, hr    int64   // rise of its walls above the level
	key       int64   // score and priority of the piece chosen
	waste     float64 // area wasted so far, this step included
	px        int64   // left end of the piece
	pw, ph    int64   // its size as laid
	seg       int32   // index of the gap in the skyline
	box       int32   // the piece, or -1 if the gap was filled up
	turned    bool
}

// Classes of fit, index into a scoring table.
const (
	exactHigh  = iota // fills the width, level with the higher wall
	exactLow          // fills the width, level with the lower wall
	exactTop          // fills the width, reaches the limit
	exactBelow        // fills the width, stays below both walls
	exactAbove        // fills the width, rises above the lower wall
	levelHigh         // narrower, level with the higher wall
	levelLow          // narrower, level with the lower wall
	levelTop          // narrower, reaches the limit
	looseFit          // fits
	classes
)

// scoring gives each class of fit a rank; a higher rank wins.
type scoring [classes]int64

// rankShift puts the rank of the fit above every priority.
const rankShift = 44

// filler is the decoder with its working memory.
type filler struct {
	width, limit int64
	boxes        []box
	prio         []int64
	byWidth      []entry // all ways to lay all boxes, narrow ones first
	alive        []entry
	sky          []seg
	table        scoring
	steps        []step
	done         []bool
	units        int64 // work done, in elementary steps
	stopped      func() bool
}

// spot is the place of a box: its lower left corner, and whether it got a quarter turn.
type spot struct {
	x, y   int64
	turned bool
}

// entries lists the ways to lay the boxes on a strip, narrow ones first.
func entries(width int64, boxes []box) []entry {
	es := make([]entry, 0, len(boxes))
	for i, b := range boxes {
		if b.w <= width {
			es = append(es, entry{w: b.w, h: b.h, box: int32(i)})
		}
		if b.turn && b.w != b.h && b.h <= width {
			es = append(es, entry{w: b.h, h: b.w, box: int32(i), turned: true})
		}
	}
	slices.SortFunc(es, func(a, b entry) int {
		if c := cmp.Compare(a.w, b.w); c != 0 {
			return c
		}
		if c := cmp.Compare(a.h, b.h); c != 0 {
			return c
		}
		return int(a.box) - int(b.box)
	})
	return es
}

func newFiller(width int64, boxes []box) *filler {
	return &filler{
		width: width, boxes: boxes, prio: make([]int64, len(boxes)), done: make([]bool, len(boxes)),
		byWidth: entries(width, boxes),
	}
}

// score rates laying a piece of w by h in a gap.
func (f *filler) score(w, h, gap, hl, hr, room int64) int64 {
	hi, lo := hl, hr
	if hi < lo {
		hi, lo = lo, hi
	}
	c := looseFit
	if w == gap {
		switch {
		case h == hi:
			c = exactHigh
		case h == lo:
			c = exactLow
		case h == room:
			c = exactTop
		case h < lo:
			c = exactBelow
		default:
			c = exactAbove
		}
	} else {
		switch {
		case h == hi:
			c = levelHigh
		case h == lo:
			c = levelLow
		case h == room:
			c = levelTop
		}
	}
	return f.table[c] << rankShift
}

// run repeats the first keep steps of f.steps and decodes the rest. It stops early when the waste exceeds maxWaste.
// It reports the waste and whether all boxes were placed.
func (f *filler) run(keep int, maxWaste float64) (waste float64, all bool) {
	f.sky = append(f.sky[:0], seg{0, 0, f.width})
	clear(f.done)
	for i := range keep {
		s := &f.steps[i]
		waste = s.waste
		f.apply(s)
	}
	f.units += int64(keep*4 + len(f.byWidth))
	f.alive = f.alive[:0]
	for _, e := range f.byWidth {
		if !f.done[e.box] {
			e.prio = f.prio[e.box]
			f.alive = append(f.alive, e)
		}
	}
	f.steps = f.steps[:keep]
	return f.decode(waste, maxWaste)
}

// decode lays the entries left on the skyline as it is. It leaves some when it is stopped.
func (f *filler) decode(waste, maxWaste float64) (float64, bool) {
	for len(f.alive) > 0 {
		if len(f.steps)&127 == 127 && f.stopped != nil && f.stopped() {
			break
		}
		s, room := f.lowestGap()
		if room <= 0 {
			break
		}
		s.waste = waste
		at := f.bestFit(&s, room)
		if at >= 0 {
			e := f.alive[at]
			s.box, s.turned, s.pw, s.ph, s.px = e.box, e.turned, e.w, e.h, s.x
			if e.w < s.gap && (e.h == s.hr && e.h != s.hl || e.h != s.hl && s.hr > s.hl) {
				s.px += s.gap - e.w
			}
			f.remove(at)
		} else {
			waste += float64(float64(min(s.hl, s.hr)) * float64(s.gap))
			s.waste = waste
			if waste > maxWaste {
				return waste, false
			}
		}
		f.apply(&s)
		f.steps = append(f.steps, s)
	}
	return waste, len(f.alive) == 0
}

// rows lays the boxes left in rows above the others, the high ones first. It takes next to no time.
func (f *filler) rows() {
	way := make([]int32, len(f.boxes)) // of each box the entry that is least high, counted from 1
	for k := range f.alive {
		e := &f.alive[k]
		if w := way[e.box]; w == 0 || e.h < f.alive[w-1].h {
			way[e.box] = int32(k + 1)
		}
	}
	var left []entry
	for _, k := range way {
		if k > 0 {
			left = append(left, f.alive[k-1])
		}
	}
	slices.SortStableFunc(left, func(a, b entry) int { return cmp.Compare(b.h, a.h) })
	f.units += int64(len(f.alive) + 20*len(left))
	x, y, high := f.width, f.height(), int64(0)
	for _, e := range left {
		if x > f.width-e.w { // a new row, as high as its first box
			x, y, high = 0, y+high, e.h
		}
		f.steps = append(f.steps, step{box: e.box, px: x, y: y, pw: e.w, ph: e.h, turned: e.turned})
		x += e.w
	}
	f.alive = f.alive[:0]
}

// lowestGap is a step at the lowest gap without a piece yet, and the room from there up to the limit.
func (f *filler) lowestGap() (step, int64) {
	low := lowest(f.sky)
	g := f.sky[low]
	room := f.limit - g.y
	s := step{x: g.x, y: g.y, gap: g.w, hl: room, hr: room, seg: int32(low), box: -1}
	if low > 0 {
		s.hl = f.sky[low-1].y - g.y
	}
	if low+1 < len(f.sky) {
		s.hr = f.sky[low+1].y - g.y
	}
	return s, room
}

// bestFit chooses the entry for the gap of a step and notes its key; -1 if none fits.
func (f *filler) bestFit(s *step, room int64) int {
	hi, lo := max(s.hl, s.hr), min(s.hl, s.hr)
	best, at := int64(-1), -1
	loose := f.table[looseFit] << rankShift
	n := 0
	for k := range f.alive {
		e := &f.alive[k]
		if e.w > s.gap {
			break
		}
		n++
		if e.h > room {
			continue
		}
		var key int64
		if e.w != s.gap && e.h != hi && e.h != lo && e.h != room {
			key = loose + e.prio
		} else {
			key = f.score(e.w, e.h, s.gap, s.hl, s.hr, room) + e.prio
		}
		if key > best {
			best, at = key, k
		}
	}
	f.units += int64(n + 2*len(f.sky) + 20)
	s.key = best
	return at
}

// remove takes a box out of the list of those to place, both ways to lay it.
func (f *filler) remove(at int) {
	id := f.alive[at].box
	f.alive = slices.Delete(f.alive, at, at+1)
	if b := &f.boxes[id]; b.turn && b.w != b.h { // the other way to lay it, if it is listed
		for k := range f.alive {
			if f.alive[k].box == id {
				f.alive = slices.Delete(f.alive, k, k+1)
				return
			}
		}
	}
}

// apply changes the skyline by one step.
func (f *filler) apply(s *step) {
	i := int(s.seg)
	if s.box < 0 { // fill up to the lower wall
		lo := min(s.hl, s.hr)
		f.sky[i].y += lo
		f.sky = mergeAt(f.sky, i)
		return
	}
	f.done[s.box] = true
	f.sky = laidOn(f.sky, i, s.pw, s.ph, s.px != s.x)
}

// firstChange returns the first of the recorded steps that comes out differently when box id has priority p, given
// that no step before stop places it; stop if there is none.
func (f *filler) firstChange(steps []step, id int32, p int64, stop int) int {
	b := f.boxes[id]
	f.units += int64(stop)
	for t := range stop {
		s := &steps[t]
		room := f.limit - s.y
		if b.w <= s.gap && b.h <= room && f.score(b.w, b.h, s.gap, s.hl, s.hr, room)+p >= s.key {
			return t
		}
		if b.turn && b.h <= s.gap && b.w <= room && f.score(b.h, b.w, s.gap, s.hl, s.hr, room)+p >= s.key {
			return t
		}
	}
	return stop
}

// height is the top of the highest box laid.
func (f *filler) height() int64 {
	var top int64
	for i := range f.steps {
		if s := &f.steps[i]; s.box >= 0 {
			top = max(top, s.y+s.ph)
		}
	}
	return top
}

// spots returns the places of the boxes after a run that placed all.
func (f *filler) spots() []spot {
	out := make([]spot, len(f.boxes))
	for i := range f.steps {
		if s := &f.steps[i]; s.box >= 0 {
			out[s.box] = spot{s.px, s.y, s.turned}
		}
	}
	return out
}
