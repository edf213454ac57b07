package allowance

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// SewKind is what is done in a step of sewing: [SewSeam], [MakeWelt], [PutWelt],
// [GatherSide], [SetZip], [TopStitch], [CloseByHand] or [HemEdge]. The zero value is
// to sew a seam.
type SewKind uint8

const (
	// SewSeam sews a seam, or closes one over its welt.
	SewSeam SewKind = iota
	// MakeWelt closes the strip round the cord.
	MakeWelt
	// PutWelt sews the welt to the first side.
	PutWelt
	// GatherSide sews the gathering rows and draws them up.
	GatherSide
	// SetZip sews a zip, or one half of it.
	SetZip
	// TopStitch sews the rows that are seen.
	TopStitch
	// CloseByHand closes a seam from outside.
	CloseByHand
	// HemEdge turns an edge in and sews it to itself, with its tape if it has one.
	HemEdge
)

var sewNames = [...]string{"sew", "make welt", "welt on", "gather", "set zip", "top-stitch", "close by hand", "hem"}

// String gives the step in words.
func (k SewKind) String() string { return enum.Name(k, "do", sewNames[:]) }

// MarshalText writes the words.
func (k SewKind) MarshalText() ([]byte, error) { return enum.Text(k, "do", sewNames[:]) }

// UnmarshalText reads what String writes.
func (k *SewKind) UnmarshalText(text []byte) error { return enum.Read(k, text, "do", sewNames[:]) }

// closes tells whether the step brings the sides of its seam together.
func (k SewKind) closes() bool { return k == SewSeam || k == SetZip || k == CloseByHand }

// SewStep is one step of the order of sewing.
type SewStep struct {
	Do SewKind `json:"do,omitzero"`
	// Seam is the letter of the seam, the name of the trim whose welt is made, or
	// the edges that are hemmed.
	Seam string `json:"seam"`
	// After is the letter of the last seam that must be sewn before, and Why the
	// reason.
	After string `json:"after,omitempty"`
	Why   string `json:"why,omitempty"`
}

// The reasons for one step before another.
type reason string

const (
	flatFirst  reason = "a panel is whole before its edges are sewn"
	stemFirst  reason = "it ends inside the run"
	rowsFirst  reason = "its rows run off the edge"
	sameSeam   reason = "the same seam"
	closeLast  reason = "the body is closed last"
	zipOpen    reason = "the body is closed last, with its zip open"
	gatherLong reason = "it fixes the length of the edge"
)

// step is a step of a joint.
type step struct {
	joint int
	do    SewKind
	set   setUp
	after []wait // what it waited for
}

// wait is a step that comes before, and why.
type wait struct {
	step int
	why  reason
}

// setUp is what changes on the machine from step to step: the thread, told by
// the goods it is chosen for, and the foot.
type setUp struct {
	goods string
	foot  SewKind
}

// thread is what tells the thread: rows that are seen take a heavier one.
func (s setUp) thread() setUp {
	if s.foot != TopStitch {
		s.foot = SewSeam
	}
	return s
}

// stepRows gives the rows that a step sews.
func (g *graph) stepRows(s step, label string) []CoverRow {
	var out []CoverRow
	for _, r := range g.rows(g.joints[s.joint], label) {
		if rowStep(g.cover.Seams[g.joints[s.joint].seam].Kind, r.Kind) == s.do {
			out = append(out, r)
		}
	}
	return out
}

// rowStep gives the step that sews a row.
func rowStep(kind SeamKind, row RowKind) SewKind {
	switch row {
	case MakingRow:
		return MakeWelt
	case PuttingRow:
		return PutWelt
	case GatherRow:
		return GatherSide
	case ZipRow:
		return SetZip
	case HandRow:
		return CloseByHand
	case TopRow:
		if kind != FelledJoin {
			return TopStitch
		}
	}
	return SewSeam
}

// steps lists the steps of every joint in their own order, and where each joint's
// begin and the one that closes it.
func (g *graph) steps() (all []step, first, closing []int) {
	for i, j := range g.joints {
		first = append(first, len(all))
		closing = append(closing, -1)
		last := SewKind(255)
		for _, r := range g.rows(j, "") {
			do := rowStep(g.cover.Seams[j.seam].Kind, r.Kind)
			if do == last {
				continue
			}
			last = do
			s := step{joint: i, do: do, set: setUp{r.Heaviest, do}}
			if n := len(all); n > first[i] {
				why := sameSeam
				if all[n-1].do == GatherSide {
					why = gatherLong
				}
				s.after = append(s.after, wait{n - 1, why})
			}
			if do.closes() && closing[i] < 0 {
				closing[i] = len(all)
			}
			all = append(all, s)
		}
	}
	return all, first, closing
}

// sewing puts the steps in order. What comes before what:
//
//   - seams within one panel, and on its inner lines, before those of its edges
//   - gathering before the seam it is for
//   - a seam that ends inside a run before the seam along that run
//   - rows of top-stitching before other seams that meet their ends
//   - welt: made, put to the first side, closed
//   - what is closed by hand after all else of its body
//   - the seam that closes a body after all other rows in it
//   - hems while their panels are flat, those that run on over a seam last
//
// Of the steps that are ready a zip comes first, for it is set while the work is
// flat, then one with the present set-up, then one with the present thread, then the
// one whose seam stands first. An order that would run in a circle is a fault.
func (g *graph) sewing() ([]step, error) {
	all, first, closing := g.steps()
	last := func(j int) int { // its last step but for what is closed by hand
		end := len(all)
		if j+1 < len(first) {
			end = first[j+1]
		}
		if g.cover.Seams[g.joints[j].seam].Opening != 0 {
			end--
		}
		return end - 1
	}
	before := func(a, b int, why reason) { // two seams; each has a step that closes it
		all[closing[b]].after = append(all[closing[b]].after, wait{last(a), why})
	}
	kind := func(j int) SeamKind { return g.cover.Seams[g.joints[j].seam].Kind }
	byNode := make([][]int, len(g.nodes))
	for i := range g.joints {
		for _, n := range g.nodesOf(i) {
			byNode[n] = append(byNode[n], i)
		}
	}
	for i := range g.joints {
		for _, a := range g.around[i] {
			for _, by := range a.joints {
				before(by, i, stemFirst)
			}
		}
		for _, n := range g.nodesOf(i) {
			for _, other := range byNode[n] {
				if g.makesWhole(i, other, n) {
					before(i, other, flatFirst)
				}
			}
		}
	}
	g.topFirst(before, byNode)
	for _, b := range g.bodies() {
		for _, hand := range b.joints {
			for _, other := range b.joints {
				switch {
				case hand == other:
				case g.cover.Seams[g.joints[hand].seam].Opening != 0:
					end := &all[last(hand)+1]
					end.after = append(end.after, wait{last(other), closeLast})
				case kind(hand) == HandJoin && kind(other) != HandJoin:
					before(other, hand, closeLast)
				}
			}
		}
	}
	g.closings(all, first, closing)
	return g.inOrder(all)
}

// nodesOf lists the pieces of a joint, each once.
func (g *graph) nodesOf(i int) []int {
	var out []int
	for _, side := range g.joints[i].sides {
		for _, s := range side {
			if !slices.Contains(out, s.node) {
				out = append(out, s.node)
			}
		}
	}
	return out
}

// flat tells whether a joint is sewn within panels: both sides of one piece, or
// on an inner line.
func (g *graph) flat(i int) bool {
	j := g.joints[i]
	for _, side := range j.sides {
		for _, s := range side {
			if s.line {
				return true
			}
		}
	}
	return len(j.sides) > 1 && len(g.nodesOf(i)) == 1
}

// makesWhole tells whether joint i makes a piece whole that another joint then
// goes along. What is closed by hand comes last.
func (g *graph) makesWhole(i, other, node int) bool {
	return g.flat(i) && g.cover.Seams[g.joints[i].seam].Kind != HandJoin && !g.flat(other) && g.owns(i, node)
}

// owns tells whether a joint that is sewn flat lies within the piece: on a line
// of it, or from edge to edge.
func (g *graph) owns(i, node int) bool {
	if len(g.nodesOf(i)) == 1 {
		return true
	}
	for _, side := range g.joints[i].sides {
		for _, s := range side {
			if s.line && s.node == node {
				return true
			}
		}
	}
	return false
}

// topFirst puts rows of top-stitching before the seams that meet their ends, but
// for one that makes the piece whole. Of two such seams that end at one point the
// first comes first.
func (g *graph) topFirst(before func(a, b int, why reason), byNode [][]int) {
	stitched := func(j int) bool {
		k := g.cover.Seams[g.joints[j].seam].Kind
		return k == TopStitchedJoin || k == DoubleTopStitchedJoin
	}
	for i, j := range g.joints {
		if !stitched(i) || j.ring {
			continue
		}
		for _, side := range j.sides {
			start, end := g.sideEnds(side)
			for _, v := range [2]vertex{start, end} {
				for _, other := range byNode[v.node] {
					if other == i || !g.touches(other, v) {
						continue
					}
					// Both end here: the run that goes on past the end waits.
					if stitched(other) && !g.passes(other, v) && other < i || g.waits(i, other) || g.makesWhole(other, i, v.node) {
						continue
					}
					before(i, other, rowsFirst)
				}
			}
		}
	}
}

// waits tells whether joint i has to follow another because it runs over its end.
func (g *graph) waits(i, other int) bool {
	for _, a := range g.around[i] {
		if slices.Contains(a.joints, other) {
			return true
		}
	}
	return false
}

// touches tells whether a joint has an edge that begins or ends at a vertex.
func (g *graph) touches(i int, v vertex) bool {
	border := g.drawn[g.nodes[v.node].panel].border
	if v.part >= border {
		return false
	}
	before := (v.part + border - 1) % border
	for _, side := range g.joints[i].sides {
		for _, s := range side {
			if s.node == v.node && !s.line && (slices.Contains(s.parts, v.part) || slices.Contains(s.parts, before)) {
				return true
			}
		}
	}
	return false
}

// passes tells whether a joint has a side with the vertex inside it.
func (g *graph) passes(i int, v vertex) bool {
	for _, side := range g.joints[i].sides {
		start, end := g.sideEnds(side)
		on := false
		for _, s := range side {
			a, b := g.ends(s)
			on = on || a == v || b == v
		}
		if on && start != v && end != v {
			return true
		}
	}
	return false
}

// inOrder sorts the steps.
func (g *graph) inOrder(all []step) ([]step, error) {
	waiting := make([]int, len(all))
	then := make([][]int, len(all))
	for i, s := range all {
		for _, w := range s.after {
			then[w.step] = append(then[w.step], i)
			waiting[i]++
		}
	}
	var out []step
	done := make([]bool, len(all))
	place := make([]int, len(all))
	var present setUp
	rank := func(i int) int {
		switch {
		case all[i].do == SetZip:
			return 0
		case all[i].set == present:
			return 1
		case all[i].set.thread() == present.thread():
			return 2
		}
		return 3
	}
	for len(out) < len(all) {
		best := -1
		for i := range all {
			if done[i] || waiting[i] > 0 {
				continue
			}
			if best < 0 || rank(i) < rank(best) {
				best = i
			}
		}
		if best < 0 {
			return nil, g.circle(all, done)
		}
		done[best], present = true, all[best].set
		for _, i := range then[best] {
			waiting[i]--
		}
		place[best] = len(out)
		out = append(out, all[best])
	}
	// What a step waited for is told by its place in the order.
	for i := range out {
		out[i].after = slices.SortedStableFunc(slices.Values(out[i].after), func(a, b wait) int { return place[a.step] - place[b.step] })
		for k := range out[i].after {
			out[i].after[k].step = out[place[out[i].after[k].step]].joint
		}
	}
	return out, nil
}

// circle words an order that runs in a circle.
func (g *graph) circle(all []step, done []bool) error {
	var names []string
	at := unit.Path("seams")
	for i, s := range all {
		if done[i] {
			continue
		}
		if len(names) == 0 {
			at = g.joints[s.joint].at
		}
		if name := string(g.joints[s.joint].at); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return check.Refuse(at, strings.Join(names, ", "), unit.ErrRange,
		strconv.Itoa(len(names))+" seams that can be sewn one after the other, not each before the next in a circle")
}

// why gives the last seam that a step waited for, and the reason. The steps of
// waits are joints.
func (g *graph) why(after []wait, labels []string) (seam, why string) {
	for i := len(after) - 1; i >= 0; i-- {
		switch w := after[i]; w.why {
		case sameSeam: // that a seam is sewn in steps needs no words
		case gatherLong:
			return "", string(w.why)
		default:
			return labels[w.step], string(w.why)
		}
	}
	return "", ""
}
