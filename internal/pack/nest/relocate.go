package nest

import (
	"cmp"
	"math"
	"slices"
)

// mover is a layout in which pieces overlap, as relocate and exchange see it: P is
// where a piece lies. There are two, sep for fixed angles and turnSep for free ones.
type mover[P any] interface {
	// lies is where piece i lies.
	lies(i int) P
	// move puts it elsewhere; lift takes it away.
	move(i int, p P)
	lift(i int)
	// eval is its weighted overlap at a place, or anything not below bound as soon
	// as that is reached.
	eval(i int, p P, bound float64) float64
	// beside draws the k-th place about where it lies, anywhere one on all of the
	// ground, instead one about the place of another piece; false if that one is none.
	beside(i, k int) (P, bool)
	anywhere(i int) (P, bool)
	instead(i int, at P) (P, bool)
	// descend improves a place by small steps, the finest of which is last.
	descend(i int, c *placed[P], from, to grade)
	// partner draws a piece to change places with.
	partner(i int) (int, bool)
}

// placed is a place and the overlap there.
type placed[P any] struct {
	p    P
	loss float64
}

// grade is how long the steps of a descent are.
type grade int

const (
	wideSteps grade = iota // a good part of the piece
	middleSteps
	fineSteps
)

// shortlist keeps the few best of the places looked at.
type shortlist[P any] struct {
	c       [4]placed[P]
	n, keep int
}

// limit is the loss from which a place is not worth listing.
func (l *shortlist[P]) limit() float64 {
	if l.n < l.keep {
		return math.MaxFloat64
	}
	return l.c[l.n-1].loss
}

func (l *shortlist[P]) add(p P, loss float64) {
	if loss >= l.limit() {
		return
	}
	if l.n < l.keep {
		l.n++
	}
	k := l.n - 1
	for ; k > 0 && l.c[k-1].loss > loss; k-- {
		l.c[k] = l.c[k-1]
	}
	l.c[k] = placed[P]{p, loss}
}

// searchSize is how many places are looked at about a piece and anywhere, and how
// many of them are improved.
type searchSize struct{ near, wide, keep int }

// relocate looks for a place of less weighted overlap for piece i, and tells whether it
// overlaps there.
func relocate[P any, M mover[P]](s M, i int, ss searchSize) bool {
	at := s.lies(i)
	cur := s.eval(i, at, math.MaxFloat64)
	if cur == 0 {
		return false
	}
	best := shortlist[P]{keep: ss.keep}
	best.add(at, cur)
	for k := range ss.near {
		if p, ok := s.beside(i, k); ok {
			best.add(p, s.eval(i, p, best.limit()))
		}
	}
	for range ss.wide {
		if p, ok := s.anywhere(i); ok {
			best.add(p, s.eval(i, p, best.limit()))
		}
	}
	for q := range best.n {
		s.descend(i, &best.c[q], wideSteps, middleSteps)
	}
	c := slices.MinFunc(best.c[:best.n], func(a, b placed[P]) int { return cmp.Compare(a.loss, b.loss) })
	s.descend(i, &c, middleSteps, fineSteps)
	if c.loss <= cur {
		s.move(i, c.p)
	}
	return c.loss > 0
}

// What a crowded layout cannot do by moving one piece it can by exchanging two: like
// is the least share of the area of one piece that the other has, and swapTries the
// places looked at.
const (
	like      = 0.6
	swapTries = 12
)

// settle relocates piece i, and where an overlap is left tries so many exchanges.
func settle[P any, M mover[P]](s M, i int, ss searchSize, exchanges int) {
	for k := 0; k < exchanges && (k > 0 || relocate(s, i, ss)); k++ {
		exchange(s, i)
	}
}

// exchange changes places with a piece of like size, if that is better for
// both together.
func exchange[P any, M mover[P]](s M, i int) {
	p := s.lies(i)
	loss := s.eval(i, p, math.MaxFloat64)
	if loss == 0 {
		return
	}
	j, ok := s.partner(i)
	if !ok {
		return
	}
	q := s.lies(j)
	loss += s.eval(j, q, math.MaxFloat64)
	s.lift(j)
	if c := takeOver(s, i, q); c.loss < loss {
		s.move(i, c.p)
		if d := takeOver(s, j, p); d.loss < loss {
			s.move(j, d.p)
			// Once more: j was away when i was looked at.
			if s.eval(i, c.p, math.MaxFloat64)+d.loss < loss {
				return
			}
		}
	}
	s.move(i, p)
	s.move(j, q)
}

// takeOver is the best place found for piece i about that of another.
func takeOver[P any, M mover[P]](s M, i int, at P) placed[P] {
	best := placed[P]{loss: math.MaxFloat64}
	for range swapTries {
		if p, ok := s.instead(i, at); ok {
			if l := s.eval(i, p, best.loss); l < best.loss {
				best = placed[P]{p, l}
			}
		}
	}
	if best.loss < math.MaxFloat64 {
		s.descend(i, &best, wideSteps, middleSteps)
	}
	return best
}
