package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// pieceLabel is what is stuck on one piece that was cut.
type pieceLabel struct {
	Number   int // in the cut list, on layouts and patterns
	Copy, Of int // from 1, of the cut
	Segment  string
	Part     string
	Piece    string // of furniture
	Goods    string
	Hand     allowance.Hand // the sitter's
	Mirrored bool           // the other hand of a pair, as layouts say
	Way      string         // where its top pointed
	Seams    []seamMates
	Size     string // as cut
}

// seamMates is a seam of a piece, and what it is sewn to there.
type seamMates struct{ Letter, Mates string }

// pieceLabels gives a label for each piece that is cut, goods by goods in the order of
// cutting; what has no place on a layout follows by its number.
func (s *sheet) pieceLabels(o job.WorkOrder) []pieceLabel {
	var out []pieceLabel
	for _, goods := range goodsInOrder(o) {
		var cuts []int
		for i, c := range o.Cuts {
			if c.Goods == goods {
				cuts = append(cuts, i)
			}
		}
		copies := map[int][]pieceLabel{}
		for _, i := range cuts {
			copies[i] = s.copyLabels(o, i)
		}
		if k := slices.IndexFunc(o.Purchases, func(p job.Purchase) bool { return p.Goods == goods }); k >= 0 {
			for _, laid := range o.Purchases[k].Layouts() {
				out = append(out, s.laidLabels(laid.Plan, func(piece int) int { return cuts[laid.Cuts[piece]] }, copies)...)
			}
		}
		for _, i := range cuts {
			out = append(out, copies[i]...)
		}
	}
	return out
}

// goodsInOrder lists the goods as they are bought.
func goodsInOrder(o job.WorkOrder) []string {
	var out []string
	add := func(goods string) {
		if !slices.Contains(out, goods) {
			out = append(out, goods)
		}
	}
	for _, p := range o.Purchases {
		add(p.Goods)
	}
	for _, c := range o.Cuts {
		add(c.Goods)
	}
	return out
}

// copyLabels gives the labels of one cut. Of a pair every second copy is the other
// hand.
func (s *sheet) copyLabels(o job.WorkOrder, at int) []pieceLabel {
	c := o.Cuts[at]
	goods := goodsName(o.Purchases, c.Goods)
	out := make([]pieceLabel, c.Count)
	for k := range out {
		l := pieceLabel{Number: at + 1, Copy: k + 1, Of: c.Count, Part: c.Part, Piece: c.Piece, Goods: goods,
			Hand: c.Hand, Way: c.Grain, Size: s.cutSize(c.Cut)}
		if c.Pair {
			l.Mirrored = k%2 == 1
			l.Hand = handOf(c.Hand, l.Mirrored)
		}
		if c.Assembly > 0 {
			a := o.Assembly[c.Assembly-1]
			if p, ok := pieceOfCopy(a, c, l, k); ok {
				if len(c.Pieces) > 1 {
					l.Part = ownName(a, p)
				}
				l.Seams = matesOf(a, p)
			}
		}
		out[k] = l
	}
	return out
}

// handOf gives the hand of a copy of a pair, whose drawn hand is the left unless said
// otherwise.
func handOf(drawn allowance.Hand, mirrored bool) allowance.Hand {
	if (drawn == allowance.RightHand) != mirrored {
		return allowance.RightHand
	}
	return allowance.LeftHand
}

// pieceOfCopy finds which piece of the cover the k-th copy of a cut becomes: those of
// one hand follow one another, for one piece of furniture after the other.
func pieceOfCopy(a job.Assembly, c job.Cut, l pieceLabel, k int) (allowance.CoverPiece, bool) {
	var of []int
	for _, i := range c.Pieces {
		if !c.Pair || a.Work.Pieces[i].Hand == l.Hand {
			of = append(of, i)
		}
	}
	if len(of) == 0 {
		return allowance.CoverPiece{}, false
	}
	if c.Pair {
		k /= 2
	}
	return a.Work.Pieces[of[k%len(of)]], true
}

// ownName names a piece as the cut list does, with its number where there are several,
// without its hand.
func ownName(a job.Assembly, p allowance.CoverPiece) string {
	name := p.Name
	if p.Hand != allowance.Either {
		name = strings.Replace(name, " "+p.Hand.String(), "", 1)
	}
	name = strings.Replace(name, ".", ", ", 1)
	if a.Part != "" {
		name = a.Part + ", " + name
	}
	return name
}

// matesOf gives the seams of a piece in the order of their letters.
func matesOf(a job.Assembly, p allowance.CoverPiece) []seamMates {
	var letters []string
	mates := map[string][]string{}
	for _, u := range p.Uses {
		if u.Letter == "" {
			continue
		}
		if mates[u.Letter] == nil {
			letters = append(letters, u.Letter)
		}
		for _, to := range matesAt(a, p, u) {
			if !slices.Contains(mates[u.Letter], to) {
				mates[u.Letter] = append(mates[u.Letter], to)
			}
		}
	}
	slices.SortFunc(letters, byLetter)
	var out []seamMates
	for _, l := range letters {
		out = append(out, seamMates{l, strings.Join(mates[l], ", ")})
	}
	return out
}

// byLetter orders seams as they are sewn, left before right.
func byLetter(x, y string) int {
	first, second := strings.Split(x, "-")[0], strings.Split(y, "-")[0]
	return cmp.Or(cmp.Compare(len(first), len(second)), cmp.Compare(first, second), cmp.Compare(x, y))
}

// matesAt names what an edge is sewn to.
func matesAt(a job.Assembly, p allowance.CoverPiece, u allowance.EdgeUse) []string {
	var out []string
	for _, edge := range u.To {
		piece, _ := panelAndEdge(edge)
		name := "itself"
		if piece != p.Name {
			name = lastName(piece)
		}
		out = append(out, name)
	}
	for _, seam := range a.Work.Seams {
		if tape := a.Cover.Seams[seam.Seam].Tape; seam.Letter == u.Letter && tape != "" {
			out = append(out, lastName(tape))
		}
	}
	return out
}

// lastName takes the prefix of a nested cover off.
func lastName(piece string) string { return piece[strings.LastIndexByte(piece, '.')+1:] }

// laidLabels takes the labels of what lies on a layout from copies, in the order in
// which it is cut. A piece that is joined has one for each part.
func (s *sheet) laidLabels(plan layout.Plan, cutOf func(piece int) int, copies map[int][]pieceLabel) []pieceLabel {
	type copyAt struct{ piece, copy int }
	taken := map[copyAt]pieceLabel{}
	var out []pieceLabel
	for _, q := range inCuttingOrder(plan) {
		at := copyAt{q.Piece, q.Copy}
		l, known := taken[at]
		if !known {
			cut := cutOf(q.Piece)
			k := slices.IndexFunc(copies[cut], func(l pieceLabel) bool { return l.Mirrored == q.Mirrored })
			if k < 0 {
				continue // a plan lays no more copies than there are
			}
			l = copies[cut][k]
			copies[cut] = slices.Delete(copies[cut], k, k+1)
			taken[at] = l
		}
		if q.Segments > 1 {
			l.Segment = strings.TrimPrefix(segmentOf(q), ", ")
			low, high := boundsOf(q)
			l.Size = s.cutSize(job.Size{Width: high.Width - low.Width, Length: high.Length - low.Length})
		}
		l.Way = topWay(plan.Job.Roll != nil, q.Turned)
		out = append(out, l)
	}
	return out
}

// boundsOf gives the corners of a place before it is turned.
func boundsOf(q layout.Place) (low, high job.Size) {
	for i, p := range q.Outline {
		if i == 0 {
			low, high = job.Size{Width: p.X, Length: p.Y}, job.Size{Width: p.X, Length: p.Y}
		}
		low = job.Size{Width: min(low.Width, p.X), Length: min(low.Length, p.Y)}
		high = job.Size{Width: max(high.Width, p.X), Length: max(high.Length, p.Y)}
	}
	return low, high
}

// inCuttingOrder gives the places of a plan as they are cut: along the roll, or one hide
// after the other from its tail.
func inCuttingOrder(plan layout.Plan) []layout.Place {
	if plan.Job.Roll != nil {
		return plan.InOrder()
	}
	var out []layout.Place
	for _, h := range plan.Used {
		on := slices.Clone(plan.On(h))
		slices.SortStableFunc(on, func(a, b layout.Place) int {
			la, _ := a.Bounds()
			lb, _ := b.Bounds()
			return cmp.Or(cmp.Compare(la.Y, lb.Y), cmp.Compare(la.X, lb.X))
		})
		out = append(out, on...)
	}
	return out
}

// topWay says where the top of a piece pointed, face up: up the roll, or backbone to
// neck, unless it was turned.
func topWay(roll bool, turned unit.Angle) string {
	degrees := int(math.Round(float64(turned)))
	degrees = (degrees%360 + 360) % 360
	if roll {
		switch degrees {
		case 0:
			return "top up the roll"
		case 90:
			return "railroaded, top to the left edge"
		case 180:
			return "top down the roll"
		case 270:
			return "railroaded, top to the right edge"
		}
		return fmt.Sprintf("top %d° left of up the roll", degrees)
	}
	switch {
	case degrees == 0:
		return "top to the neck"
	case degrees == 180:
		return "top to the tail"
	case degrees < 180:
		return fmt.Sprintf("top %d° left of the neck", degrees)
	}
	return fmt.Sprintf("top %d° right of the neck", 360-degrees)
}
