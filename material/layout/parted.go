package layout

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// parted is an upright job in which every piece that may be joined and lies on
// the pattern is laid as the segments it is cut in, or whole where that can be:
// pieces of their own, each with its part of the pattern.
type parted struct {
	job   Job    // each segment with the point and the turn by which its piece was divided, bound both ways
	loose Job    // each with all points, turns and axes of its piece, for bounds
	exact bool   // both say the same
	of    []part // none where no piece is joined so
}

// part is where a piece of a parted job comes from.
type part struct {
	piece, first, stepping int
	segment                int
	cuts                   []unit.Length // the joins of the piece, none of a whole one
	mirrored               bool
}

func (p part) copied(c int) int { return p.first + c*p.stepping }

// joinedToMatch tells whether a piece may be joined and lies on the pattern.
func (p Piece) joinedToMatch(r material.Roll) bool { return p.Join != nil && p.matched(r) }

// parted divides the pieces of an upright job. Where a piece cannot be joined as
// it must be the error names it and says what would serve.
func (j Job) parted() (parted, error) {
	j.Pieces = slices.Clone(j.Pieces)
	for i := range j.Pieces {
		j.Pieces[i].joinSeldom(*j.Roll)
	}
	s := parted{job: j, loose: j, exact: true}
	if !slices.ContainsFunc(j.Pieces, func(p Piece) bool { return p.joinedToMatch(*j.Roll) }) {
		return s, nil
	}
	s.job.Pieces = slices.Clone(j.Pieces)
	for i := range j.Pieces {
		s.of = append(s.of, part{piece: i, stepping: 1})
	}
	columns := map[int]unit.Length{0: j.Roll.First.X} // by common number; read by key only
	for i, p := range j.Pieces {
		if !p.joinedToMatch(*j.Roll) {
			continue
		}
		if _, ok := columns[p.Phase.Common]; !ok {
			columns[p.Phase.Common] = j.commonColumn(p.Phase.Common)
		}
		if err := s.divide(i, p, columns[p.Phase.Common]); err != nil {
			return s, unit.InField(check.At("pieces", i), err)
		}
	}
	total := 0
	for i, p := range s.job.Pieces {
		if total += p.Count; total > MostPieces {
			at := unit.Path("pieces").At(s.of[i].piece).Dot("count")
			return s, check.Refuse(at, fmt.Sprint(j.Pieces[s.of[i].piece].Count), ErrTooMany, fmt.Sprintf("at most %d pieces and segments in all", MostPieces))
		}
	}
	return s, nil
}

// divide puts a piece into the job as its segments: the first in its place, the
// others behind all pieces.
func (s *parted) divide(i int, p Piece, column unit.Length) error {
	n := 0
	add := func(tight, loose Piece, of part) {
		if n++; n == 1 {
			s.job.Pieces[i], s.loose.Pieces[i], s.of[i] = tight, loose, of
			return
		}
		s.job.Pieces, s.loose.Pieces, s.of = append(s.job.Pieces, tight), append(s.loose.Pieces, loose), append(s.of, of)
	}
	for _, h := range p.hands() {
		l, err := h.lie(*s.job.Roll, column)
		if err != nil {
			return err
		}
		if l.whole {
			q := h.Piece
			q.Join = nil
			add(q, q, h.part(i, 0, nil))
			continue
		}
		if len(l.cuts) > p.Join.Most {
			return check.Refuse("join.most", fmt.Sprint(p.Join.Most), unit.ErrRange, fmt.Sprintf("at least %d joins, as many to the left of the middle as to the right, for the pattern to run on", len(l.cuts)))
		}
		for k := range len(l.cuts) + 1 {
			tight, loose, err := h.segment(*s.job.Roll, k, l)
			if err != nil {
				return err
			}
			same := len(p.Phase.spots()) == 1 && len(p.angles(*s.job.Roll)) == 1 && p.Phase.across(*s.job.Roll) == (s.job.Roll.Across > 0) && p.Phase.along(*s.job.Roll) == (s.job.Roll.Repeat > 0)
			s.exact = s.exact && same
			add(tight, loose, h.part(i, k, l.cuts))
		}
	}
	return nil
}

// handed is the copies of one hand of a piece.
type handed struct {
	Piece
	first, stepping int
	mirrored        bool
}

func (h handed) part(i, segment int, cuts []unit.Length) part {
	return part{piece: i, first: h.first, stepping: h.stepping, segment: segment, cuts: cuts, mirrored: h.mirrored}
}

// hands gives a piece as pieces without a pair.
func (p Piece) hands() []handed {
	left, right := handed{Piece: p, stepping: 1}, handed{Piece: p, first: 1, stepping: 2, mirrored: true}
	if p.Hand != Paired {
		return []handed{left}
	}
	left.stepping, left.Hand, right.Hand = 2, AsDrawn, AsDrawn
	left.Count, right.Count = (p.Count+1)/2, p.Count/2
	right.Outline, right.Phase = p.Outline.Mirrored(), p.Phase.mirrored()
	if right.Count == 0 {
		return []handed{left}
	}
	return []handed{left, right}
}

// lie is how a piece that may be joined lies on the pattern.
type lie struct {
	whole bool
	cuts  []unit.Length
	turn  int         // in degrees
	point shape.Point // of the outline, from its lower left corner, that lies on a motif
}

// ways lists how a piece may lie on the goods with a motif at some column: a
// division and the point on a motif for each of its turns and spots. Where the
// pattern does not bind it across it lies in the middle of the goods.
func (p Piece) ways(r material.Roll, column unit.Length) (ds []division, ls []lie) {
	w, _ := p.Outline.Size()
	low, _ := p.Outline.Bounds()
	for _, a := range p.angles(r) {
		turn := int(a / 1_000_000)
		for _, s := range p.Phase.spots() {
			if !s.holds(turn) {
				continue
			}
			own := func(x unit.Length) unit.Length { // from the goods to the piece and back
				if turn == 180 {
					return w - x
				}
				return x
			}
			d := division{width: w, usable: r.Usable(), every: r.Across}
			if p.Join != nil {
				d.allowance, d.least = p.Join.Allowance, p.Join.Least
			}
			if d.at = d.centred(); p.Phase.across(r) {
				d.at = column - own(s.Point.X-low.X)
			}
			l := lie{turn: turn, point: shape.Point{Y: s.Point.Y - low.Y}}
			if r.Across > 0 {
				l.point.X = own(column - d.at)
			}
			ds, ls = append(ds, d), append(ls, l)
		}
	}
	return ds, ls
}

// lie gives how a piece lies: whole where that can be, else with the fewest joins,
// and of these with the widest centre. Up the roll there is always room: a piece
// whose length might be divided stays whole.
func (p Piece) lie(r material.Roll, column unit.Length) (lie, error) {
	if p.Join == nil || !p.Join.AlongWidth {
		return lie{whole: true}, nil
	}
	ds, ls := p.ways(r, column)
	best := lie{}
	for i, d := range ds {
		if d.whole() {
			return lie{whole: true}, nil
		}
		cuts, ok := d.fewest()
		if better := len(best.cuts) == 0 || len(cuts) < len(best.cuts) || len(cuts) == len(best.cuts) && cuts[len(cuts)/2-1] < best.cuts[len(cuts)/2-1]; ok && better {
			best, best.cuts = ls[i], cuts
		}
	}
	if len(best.cuts) == 0 {
		return best, ds[0].refuse(p.Phase.across(r), column)
	}
	return best, nil
}

// refuse says why a piece cannot be joined, and what would serve.
func (d division) refuse(across bool, column unit.Length) error {
	half := (d.least+1)/2 + d.allowance
	switch {
	case d.least > d.width/3:
		return check.Refuse("join.least", d.least.String(), unit.ErrRange, fmt.Sprintf("at most %v: no join lies in the middle, so there are three segments at least", d.width/3))
	case 2*half > d.usable:
		return check.Refuse("join.least", d.least.String(), unit.ErrRange, fmt.Sprintf("at most %v, the usable width less two allowances", d.usable-2*d.allowance))
	case across && d.width-2*d.beside() < d.least:
		// The middle of the piece must lie as far inside the goods as half the least centre.
		middle := d.at + d.width/2
		return check.Refuse("join", "", ErrNoLayout, fmt.Sprintf("a motif from %v to %v from the left usable edge, or whole repeats of %v from there: its centre fits about none",
			column-middle+half, column-middle+d.usable-half, d.every))
	}
	return check.Refuse("join", "", ErrNoLayout, "a shorter least length or a smaller allowance: the segments do not fit about the motifs across the goods")
}

// segment gives segment k of a piece as a piece, bound as its piece was divided,
// and as its piece may lie.
func (h handed) segment(r material.Roll, k int, l lie) (tight, loose Piece, err error) {
	w, high := h.Outline.Size()
	low, _ := h.Outline.Bounds()
	from, to := unit.Length(0), w
	if k > 0 {
		from = l.cuts[k-1] - h.Join.Allowance
	}
	if k < len(l.cuts) {
		to = l.cuts[k] + h.Join.Allowance
	}
	loose = h.Piece
	if loose.Outline, err = shape.Rectangle(to-from, high); err != nil {
		return tight, loose, unit.InField("outline", err)
	}
	loose.Join, loose.Phase.Spots = nil, nil
	for _, s := range h.Phase.spots() {
		s.Point = shape.Point{X: s.Point.X - low.X - from, Y: s.Point.Y - low.Y}
		loose.Phase.Spots = append(loose.Phase.Spots, s)
	}
	tight = loose
	point := shape.Point{Y: l.point.Y}
	if r.Across > 0 { // the next of those that are alike
		point.X = modulo(l.point.X-from, r.Across*unit.Length(max(1, r.Drop.Den)))
	}
	tight.Phase = Phase{Spots: []Spot{{Point: point, Degrees: []int{l.turn}}}, Common: h.Phase.Common}
	return tight, loose, nil
}

// commonColumn gives a place of a motif across the goods under the pieces of a
// common number: one that puts one of them in the middle of the goods and needs
// the fewest joins of all, with the widest centres.
func (j Job) commonColumn(c int) unit.Length {
	const most = 64
	var group []handed
	for _, p := range j.Pieces {
		if p.matched(*j.Roll) && p.Phase.Common == c && p.Phase.across(*j.Roll) {
			group = append(group, p.hands()...)
		}
	}
	var tries []unit.Length
	for _, h := range group {
		ds, _ := h.ways(*j.Roll, 0)
		for _, d := range ds {
			if x := modulo(d.centred()-d.at, j.Roll.Across); len(tries) < most && !slices.Contains(tries, x) {
				tries = append(tries, x)
			}
		}
	}
	best, fewest, narrow := j.Roll.First.X, -1, unit.Length(0)
	for _, x := range tries {
		joins, beside, ok := 0, unit.Length(0), true
		for _, h := range group {
			n, b, fits := h.costs(*j.Roll, x)
			joins, beside, ok = joins+n, beside+b, ok && fits
		}
		if ok && (fewest < 0 || cmp.Or(cmp.Compare(joins, fewest), cmp.Compare(beside, narrow)) < 0) {
			best, fewest, narrow = x, joins, beside
		}
	}
	return best
}

// costs gives how many joins a piece takes with a motif at some column, and what
// lies to one side of its centre.
func (p Piece) costs(r material.Roll, column unit.Length) (joins int, beside unit.Length, fits bool) {
	if p.Join != nil {
		l, err := p.lie(r, column)
		if n := len(l.cuts); n > 0 {
			return n, l.cuts[n/2-1], n <= p.Join.Most
		}
		return 0, 0, err == nil
	}
	ds, _ := p.ways(r, column)
	return 0, 0, slices.ContainsFunc(ds, division.whole)
}

// blame gives an error of the parted job the number that the piece has in the job
// it was made from.
func (s parted) blame(err error) error {
	return renumbered(err, len(s.of), func(k int) int { return s.of[k].piece })
}

// renumbered gives an error of one job the number that a piece has in another.
func renumbered(err error, n int, piece func(int) int) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	name, k, indexed, rest := in.Field.Head()
	if name != "pieces" || !indexed || k >= n {
		return err
	}
	out := *in
	out.Field = unit.Path("pieces").At(piece(k)).Dot(rest)
	return &out
}

// back gives a plan of the parted job as one of the job it was made from.
func (s parted) back(p Plan, j Job) Plan {
	p.Job = j
	if len(s.of) == 0 {
		return p
	}
	for i, q := range p.Places {
		h := s.of[q.Piece]
		q.Piece, q.Copy, q.Mirrored = h.piece, h.copied(q.Copy), q.Mirrored || h.mirrored
		if len(h.cuts) > 0 {
			q.Segment, q.Segments = h.segment, len(h.cuts)+1
		}
		p.Places[i] = q
	}
	for k, h := range s.of {
		if h.segment > 0 {
			continue
		}
		for c := range s.job.Pieces[k].Count {
			for _, at := range h.cuts {
				p.Joins = append(p.Joins, Join{h.piece, h.copied(c), at})
			}
		}
	}
	for i, c := range p.Claims {
		for k, piece := range c.Pieces {
			p.Claims[i].Pieces[k] = s.of[piece].piece
		}
	}
	return p
}

// plan gives a plan as one of the parted job. An error wraps ErrBadLayout.
func (s parted) plan(p Plan) (Plan, error) {
	p.Job = s.job
	if len(s.of) == 0 {
		return p, nil
	}
	type segment struct{ piece, copy, segment int }
	at := map[segment]Copy{}    // read by key only
	want := map[Join]struct{}{} // joins that must be there; read by key only
	for k, h := range s.of {
		for c := range s.job.Pieces[k].Count {
			at[segment{h.piece, h.copied(c), h.segment}] = Copy{k, c}
			for _, x := range h.cuts {
				want[Join{h.piece, h.copied(c), x}] = struct{}{}
			}
		}
	}
	p.Places, p.Joins = slices.Clone(p.Places), slices.Clone(p.Joins)
	for i, q := range p.Places {
		own, ok := at[segment{q.Piece, q.Copy, q.Segment}]
		if s.job.Pieces[q.Piece].Join != nil { // unmatched: its segments stay together
			own, ok = Copy{q.Piece, q.Copy}, q.Copy >= 0
		}
		if !ok {
			return p, badPlan("place %d: no such piece or copy", i)
		}
		h := s.of[own.Piece]
		if len(h.cuts) > 0 {
			if q.Segments != len(h.cuts)+1 {
				return p, badPlan("place %d: %d segments, not %d", i, q.Segments, len(h.cuts)+1)
			}
			q.Segment, q.Segments = 0, 1
		}
		if h.stepping == 2 {
			if q.Mirrored != h.mirrored {
				return p, badPlan("place %d: the wrong hand of a pair", i)
			}
			q.Mirrored = false
		}
		q.Piece, q.Copy = own.Piece, own.Copy
		p.Places[i] = q
	}
	p.Joins = slices.DeleteFunc(p.Joins, func(x Join) bool {
		_, ok := want[x]
		delete(want, x)
		return ok
	})
	if len(want) > 0 {
		return p, badPlan("%d joins are not where a piece must be cut to match", len(want))
	}
	return p, nil
}
