package rect

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Divisions by hand, in the order they are tried. A strip of 108 on goods 54 wide
// is two halves, or more parts. With an allowance of 1 at each seam an end is at
// most 53 long and a middle 52: 53, 52 and 3, of which the last borrows up to
// the least length of 10; or thirds, or thirds as cut.
func TestDivisionsByHand(t *testing.T) {
	for _, c := range []struct {
		name                        string
		side, width, end, allowance int64
		seams                       int
		turns                       Turns
		least                       int
		want                        [][]int64
	}{
		{"halves", 108, 54, 0, 0, 3, Upright, 1, [][]int64{{54, 54}, {36, 36, 36}, {27, 27, 27, 27}}},
		{"halves only", 108, 54, 0, 0, 1, Upright, 1, [][]int64{{54, 54}}},
		{"with an allowance", 108, 54, 0, 1, 3, Upright, 2, [][]int64{{53, 45, 10}, {36, 36, 36}, {36, 35, 37}, {27, 27, 27, 27}, {27, 26, 26, 29}}},
		{"with too few seams", 108, 54, 0, 1, 1, Upright, -1, nil},
		{"just two", 106, 54, 0, 1, 1, Upright, 1, [][]int64{{53, 53}}},
		{"just three", 158, 54, 0, 1, 2, Upright, 2, [][]int64{{53, 52, 53}}},
		{"a unit more", 159, 54, 0, 1, 2, Upright, -1, nil},
		{"whole", 50, 54, 0, 2, 1, Upright, 0, [][]int64{{50}, {25, 25}}},
		{"whole as wide as the goods", 54, 54, 0, 2, 1, Upright, 0, [][]int64{{54}, {44, 10}, {27, 27}}}, // 52 and 2, which borrows 8
		{"uneven", 100, 54, 0, 0, 2, Upright, 1, [][]int64{{54, 46}, {50, 50}, {34, 33, 33}, {33, 33, 34}}},
		{"allowances as wide as the goods", 20, 12, 0, 12, 4, Upright, -1, nil},
		{"whole along the goods", 108, 54, 0, 0, 1, AnyTurn, 0, [][]int64{{108}, {54, 54}}},
		{"goods too short for that", 108, 54, 60, 0, 1, AnyTurn, 1, [][]int64{{60, 48}, {54, 54}}},
		{"only along the goods", 108, 54, 60, 0, 1, QuarterTurn, 1, [][]int64{{60, 48}, {54, 54}}},
	} {
		p := Piece{W: c.side, H: 12, Count: 1, Turns: c.turns, Split: &Split{Along: X, Allowance: c.allowance, Min: 10, MaxSeams: c.seams}}
		for range 2 { // and the same with the other side divided, turned a quarter
			j := &Job{Width: c.width, MaxLength: c.end, Pieces: []Piece{p}}
			assert.Equal(t, c.least, j.leastSeams(&p), c.name)
			assert.Equal(t, c.want, j.divisions(&p), c.name)
			p.W, p.H, p.Split.Along = p.H, p.W, Y
			p.Turns = map[Turns]Turns{Upright: QuarterTurn, AnyTurn: AnyTurn, QuarterTurn: Upright}[p.Turns]
		}
	}
	assert.Equal(t, []int64{4, 3, 3}, equal(10, 3))
	assert.Equal(t, []int64{4, 4, 3}, equal(11, 3))
	assert.Equal(t, int64(5), cutLength([]int64{4, 4, 4}, 0, 1))
	assert.Equal(t, int64(6), cutLength([]int64{4, 4, 4}, 1, 1))
	assert.Equal(t, int64(5), cutLength([]int64{4, 4, 4}, 2, 1))
}

// What flaws take of the width at a level, and of the length: on goods 10 wide
// with a band from 5 to 7, an area of 50 lies before it, one of 51 ends beyond.
func TestFlawsByHand(t *testing.T) {
	j := &Job{Width: 10, Flaws: []Flaw{{X: 0, Y: 3, W: 4, H: 2}, {X: 3, Y: 3, W: 3, H: 1}, {X: -5, Y: 4, W: 7, H: 2}, {X: 9, Y: 5, W: 8, H: 1}, {X: 10, Y: 0, W: 4, H: 9}, {X: -4, Y: 0, W: 4, H: 9}}}
	for y, want := range []int64{0, 0, 0, 6, 4, 3, 0} {
		assert.Equal(t, want, j.covered(int64(y)), y)
	}
	area := func(v int64) wide { return mul(v, 1) }
	j.Flaws = []Flaw{{X: -1, Y: 5, W: 20, H: 2}, {X: 0, Y: 20, W: 5, H: 2}, {X: 0, Y: -7, W: 10, H: 7}}
	for v, want := range map[int64]int64{0: 0, 1: 1, 49: 5, 50: 5, 51: 8, 60: 8, 61: 9, 180: 20, 181: 21, 185: 21, 186: 22, 190: 22, 191: 23} {
		assert.Equal(t, want, j.flawBound(area(v)), "%d", v)
	}
	j.Flaws = []Flaw{{X: 0, Y: 0, W: 10, H: 3}}
	assert.Zero(t, j.flawBound(area(0)))
	assert.Equal(t, int64(4), j.flawBound(area(1)))
	j.Flaws = nil
	assert.Zero(t, j.flawBound(area(500)))
}

// Ten pieces of 4 by 6 that cover half of their box lie on 120 of 10 across: 12
// long, wherever that half is, and with a strip of 1 by 13 no less than that is long.
func TestLooseBoundByHand(t *testing.T) {
	for _, c := range []Cell{{0, 0, 2, 6}, {2, 0, 2, 6}, {0, 3, 4, 3}, {1, 0, 2, 6}, {0, 0, 4, 3}} {
		j := &Job{Width: 10, Pieces: []Piece{{W: 4, H: 6, Count: 10, Cells: []Cell{c}}}}
		assert.Equal(t, int64(12), j.looseBound(), c)
		j.Pieces = append(j.Pieces, Piece{W: 1, H: 13, Count: 1})
		assert.Equal(t, int64(14), j.looseBound(), "133 on 10")
		j.Pieces[0].Count = 9
		assert.Equal(t, int64(13), j.looseBound(), c)
		j.Pieces[1].Turns = AnyTurn
		assert.Equal(t, int64(13), j.looseBound(), "13 by 1 does not fit across")
		j.Width = 20
		assert.Equal(t, int64(7), j.looseBound(), "121 on 20")
	}
}

// Wide numbers less each other over the border of 64 bits, never below nothing.
func TestLessByHand(t *testing.T) {
	for _, c := range []struct{ a, b, want wide }{
		{wide{0, 5}, wide{0, 3}, wide{0, 2}},
		{wide{0, 3}, wide{0, 3}, wide{}},
		{wide{0, 3}, wide{0, 5}, wide{}},
		{wide{2, 3}, wide{0, 5}, wide{1, 1<<64 - 2}},
		{wide{2, 3}, wide{1, 3}, wide{1, 0}},
		{wide{2, 3}, wide{3, 1}, wide{}},
	} {
		assert.Equal(t, c.want, less(c.a, c.b))
	}
}

// Places modulo a period of 10: one piece at 2, another at 5 and at 9, three
// copies of a third at 9. From its own place a single piece sees only others.
func TestResiduesByHand(t *testing.T) {
	var rs residues
	rs.add(9, 1, 1)
	rs.add(2, 0, 1)
	rs.add(5, 1, 1)
	rs.add(5, 1, 1)
	assert.Equal(t, residues{{2, 0}, {5, 1}, {9, 1}}, rs)
	assert.Equal(t, int64(2), rs.least())
	assert.Equal(t, int64(3), rs.next(1, 2, 10, 0))
	assert.Equal(t, int64(7), rs.next(4, 2, 10, 0))
	assert.Equal(t, int64(13), rs.next(8, 2, 10, 0))
	assert.Equal(t, int64(7), rs.next(1, 5, 10, 1), "from 5 to 12, not to its own 9")
	assert.Equal(t, int64(17), rs.next(8, 5, 10, 1))
	rs.add(9, 2, 3)
	assert.Equal(t, residues{{2, 0}, {5, 1}, {9, -1}}, rs)
	assert.Equal(t, int64(4), rs.next(1, 5, 10, 1))
	assert.Equal(t, int64(4), residues{{2, 0}}.next(4, 2, 10, 0), "no other one")
	for _, c := range [][4]int64{{5, 2, 10, 12}, {-5, 2, 10, 2}, {2, 2, 10, 2}, {3, 2, 10, 12}, {-8, 2, 10, -8}, {-9, 2, 10, -8}, {0, -3, 10, 7}} {
		assert.Equal(t, c[3], ceilTo(c[0], c[1], c[2]), c)
	}
	for _, c := range [][3]int64{{0, 7, 0}, {6, 7, 6}, {7, 7, 0}, {15, 7, 1}, {-1, 7, 6}, {-7, 7, 0}, {-8, 7, 6}} {
		assert.Equal(t, c[2], mod(c[0], c[1]), c)
	}
}

// A drop of 2/3 on a period of 10 raises the columns by 0, 6 and 13.
func TestRaisesByHand(t *testing.T) {
	assert.Equal(t, []int64{0, 6, 13}, (&Repeat{PeriodX: 4, PeriodY: 10, DropNum: 2, DropDen: 3}).raises())
	assert.Equal(t, []int64{0}, (&Repeat{PeriodX: 4, PeriodY: 10}).raises())
	assert.Equal(t, []int64{0}, (&Repeat{PeriodX: 4, PeriodY: 10, DropDen: 3}).raises())
}

// The ways to lay a piece: those that fit, and of turns that change nothing one.
func TestLaysByHand(t *testing.T) {
	turns := func(ls []lay) (out Turns) {
		for _, l := range ls {
			out |= l.turn
		}
		return out
	}
	j := &Job{Width: 10, MaxLength: 12, Repeat: Repeat{PeriodX: 5, PeriodY: 7}}
	p := Piece{W: 4, H: 6, Count: 1, Turns: AnyTurn}
	assert.Equal(t, Upright|QuarterTurn, turns(j.lays(&p, 4, 6)))
	assert.Equal(t, Upright, turns(j.lays(&p, 4, 11)), "too long across")
	assert.Equal(t, Upright, turns(j.lays(&p, 10, 12)))
	assert.Equal(t, QuarterTurn, turns(j.lays(&p, 12, 10)))
	assert.Equal(t, QuarterTurn, turns(j.lays(&p, 11, 10)))
	assert.Empty(t, j.lays(&p, 11, 11))
	assert.Empty(t, j.lays(&p, 10, 13))
	assert.Equal(t, Upright, turns(j.lays(&p, 5, 5)), "a square")
	p.Cells = []Cell{{0, 0, 4, 3}}
	assert.Equal(t, AnyTurn, turns(j.lays(&p, 4, 6)), "what it covers turns with it")
	p.Cells, p.Match, p.Spots = nil, X|Y, []Spot{{X: 1, Y: 2}}
	for i, l := range j.lays(&p, 4, 6) {
		want := [][4]int64{{4, 6, 1, 2}, {6, 4, 4, 1}, {4, 6, 3, 4}, {6, 4, 2, 3}}[i]
		assert.Equal(t, want, [4]int64{l.w, l.h, l.mx, l.my})
	}
	p.Match = Y // the half turns differ along the goods only
	p.Spots = []Spot{{X: 1, Y: 3}}
	assert.Len(t, j.lays(&p, 4, 6), 3)
	p.Match, p.Spots = X, []Spot{{X: 2, Y: 5}}
	assert.Len(t, j.lays(&p, 4, 6), 3)
	j.Repeat.DropNum, j.Repeat.DropDen = 2, 3
	p.Match, p.Turns = Y, Upright // any column will do, each with its drop of 0, 4 or 9
	var heights []int64
	for _, l := range j.lays(&p, 4, 6) {
		heights = append(heights, l.my)
	}
	assert.Equal(t, []int64{5, 1, -4}, heights)
	p.Match, p.Turns = X, AnyTurn
	p.MovedX, p.MovedY = 1, 2
	l := j.lays(&p, 4, 6)[0]
	assert.Equal(t, [2]int64{1, 3}, [2]int64{l.mx, l.my})
}

// lowestByHand is the least top at which a piece may lie on a grid, and the
// leftmost or rightmost place there, by looking at every one.
func lowestByHand(j *Job, p *Piece, from int64, right bool, isClear func(t Turns, x, y int64) bool) (top, x int64) {
	for top = from; top < from+400; top++ {
		x = -1
		for _, t := range p.turns() {
			w, h := p.size(t)
			if top-h < from {
				continue
			}
			for at := int64(0); at+w <= j.Width; at++ {
				if onMotif(p, t, j.Repeat, at, top-h) && isClear(t, at, top-h) && (x < 0 || (at > x) == right) {
					x = at
				}
			}
		}
		if x >= 0 {
			return top, x
		}
	}
	return -1, -1
}

// patterned draws a job of a few pieces on a pattern, with flaws.
func patterned(seed int) *Job {
	r := numbered(3, seed)
	j := &Job{Width: r.from(6, 24), Gap: r.from(0, 2) * r.from(0, 1)}
	if seed%3 > 0 {
		j.Repeat = Repeat{PeriodX: r.from(0, 7), PeriodY: r.from(0, 7), OriginX: r.from(-6, 6), OriginY: r.from(-6, 6)}
		if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 && r.IntN(2) == 0 {
			j.Repeat.DropNum, j.Repeat.DropDen = 1, r.from(2, 3)
		}
	}
	for range r.from(3, 9) {
		p := Piece{W: r.from(1, min(9, j.Width)), H: r.from(1, 9), Count: 1, Turns: Turns(r.from(0, 15)), Match: Axes(r.from(0, 3)), MovedX: r.from(-3, 3), MovedY: r.from(-3, 3)}
		for range r.from(0, 2) {
			p.Spots = append(p.Spots, Spot{X: r.from(-4, 9), Y: r.from(-4, 9)})
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// The placer lays each part at the lowest place that there is, also below parts
// laid before, clear of flaws, on the pattern.
func TestPlacerFindsTheLowestPlace(t *testing.T) {
	laid := 0
	for seed := range 250 {
		j := patterned(seed)
		r := numbered(4, seed)
		for range r.from(0, 3) {
			j.Flaws = append(j.Flaws, Flaw{X: r.from(-3, 20), Y: r.from(-3, 30), W: r.from(1, 12), H: r.from(1, 5)})
		}
		if j.Validate() != nil {
			continue
		}
		parts := j.parts(nil)
		p := newPlacer(j, parts)
		p.reset()
		for i := range parts {
			from := r.from(0, 6) * r.from(0, 1)
			s, ok := p.lowest(i, from, maxCoord)
			isClear := func(turn Turns, x, y int64) bool {
				w, h := j.Pieces[i].size(turn)
				for _, f := range j.Flaws {
					if x < f.X+f.W && f.X < x+w && y < f.Y+f.H && f.Y < y+h {
						return false
					}
				}
				for _, k := range p.laid {
					q, l := p.spots[k], parts[k].lays[p.spots[k].lay]
					if x < q.x+l.w+j.Gap && q.x < x+w+j.Gap && y < q.y+l.h+j.Gap && q.y < y+h+j.Gap {
						return false
					}
				}
				return true
			}
			top, _ := lowestByHand(j, &j.Pieces[i], from, false, isClear)
			require.Equal(t, top >= 0, ok, "job %d, part %d", seed, i)
			if !ok {
				continue
			}
			l := parts[i].lays[s.lay]
			require.Equal(t, top, s.y+l.h, "job %d, part %d", seed, i)
			require.True(t, isClear(l.turn, s.x, s.y) && onMotif(&j.Pieces[i], l.turn, j.Repeat, s.x, s.y), "job %d, part %d", seed, i)
			p.put(i, s)
			laid++
			require.GreaterOrEqual(t, p.top, top)
		}
		if n := len(p.laid); n > 1 { // taken back, it lies there again
			last := p.laid[n-1]
			was := p.spots[last]
			p.remove(n - 1)
			require.Len(t, p.laid, n-1)
			top := int64(0)
			for _, i := range p.laid {
				top = max(top, p.spots[i].y+parts[i].lays[p.spots[i].lay].h)
			}
			require.Equal(t, top, p.top)
			s, ok := p.lowest(last, was.y, maxCoord)
			require.True(t, ok)
			require.Equal(t, was.y+parts[last].lays[was.lay].h, s.y+parts[last].lays[s.lay].h, "job %d", seed)
		}
	}
	require.Greater(t, laid, 700)
}

// So does the stack, by the cells of the parts, of equal places to the left or,
// of parts that keep there, to the right.
func TestStackFindsTheLowestPlace(t *testing.T) {
	laid := 0
	for seed := range 250 {
		j := patterned(seed)
		r := numbered(5, seed)
		for i := range j.Pieces {
			if p := &j.Pieces[i]; p.W > 1 && p.H > 1 && r.IntN(2) == 0 {
				x, y := r.from(1, p.W-1), r.from(1, p.H-1)
				p.Cells = []Cell{{0, 0, p.W, y}, {x, y, p.W - x, p.H - y}}
			}
		}
		if j.Validate() != nil {
			continue
		}
		parts := j.parts(nil)
		s := newStack(j, parts)
		for i := range parts {
			s.right[i] = r.IntN(2) == 0
			at, ok := s.lowest(i, maxCoord)
			isClear := func(turn Turns, x, y int64) bool {
				for _, c := range j.Pieces[i].covered(turn) {
					for _, k := range s.laid {
						for _, b := range j.Pieces[k].covered(parts[k].lays[s.spots[k].lay].turn) {
							if dx, dy := s.spots[k].x-x, s.spots[k].y-y; c.x0 < b.x1+dx+j.Gap && b.x0+dx < c.x1+j.Gap && c.y0 < b.y1+dy+j.Gap && b.y0+dy < c.y1+j.Gap {
								return false
							}
						}
					}
				}
				return true
			}
			top, x := lowestByHand(j, &j.Pieces[i], 0, s.right[i], isClear)
			require.Equal(t, top >= 0, ok, "job %d, part %d", seed, i)
			if !ok {
				continue
			}
			require.Equal(t, [2]int64{top, x}, [2]int64{at.y + parts[i].lays[at.lay].h, at.x}, "job %d, part %d", seed, i)
			_, ok = s.lowest(i, top+j.Gap-1)
			require.False(t, ok, "job %d, part %d: too low for it", seed, i)
			s.put(i, at)
			laid++
		}
	}
	require.Greater(t, laid, 700)
}

// A piece of a group that stands too high in a gap is laid down beyond it: 3 by
// 10 within a window of 5 goes across, above or below 7 by 20 on goods 10 wide.
func TestGroupTurnsToItsWindow(t *testing.T) {
	j := &Job{Width: 10, Groups: []Group{{Window: 5}}, Pieces: []Piece{{W: 7, H: 20, Count: 1}, {W: 3, H: 10, Count: 1, Group: 1, Turns: AnyTurn}}}
	p, err := Solve(t.Context(), j, Options{Effort: 0.0005})
	require.NoError(t, err)
	assert.Equal(t, int64(23), p.Length)
	placer := newPlacer(j, j.parts(nil))
	require.True(t, placer.run([]int{0, 1}, maxCoord))
	assert.Equal(t, partSpot{0, 20, 1}, placer.spots[1])
	require.True(t, placer.run([]int{1, 0}, maxCoord))
	assert.Equal(t, [2]partSpot{{0, 3, 0}, {0, 0, 1}}, [2]partSpot(placer.spots))
	assert.False(t, placer.run([]int{0, 1}, 22), "longer than wanted")
}

// The order of a group is read from a layout of its own within the window, from
// below; a window that holds no layout gives none, and is hopeless where it is
// lower than a piece.
func TestOrdersOfGroups(t *testing.T) {
	j := &Job{Width: 10, Groups: []Group{{Window: 6}, {Window: 5}, {Window: 9}}, Pieces: []Piece{
		{W: 10, H: 2, Count: 1, Group: 1}, {W: 4, H: 4, Count: 1}, {W: 10, H: 4, Count: 1, Group: 1}, {W: 10, H: 3, Count: 2, Group: 2},
	}}
	s := &solver{ctx: t.Context(), j: j}
	orders, spent, err := s.groupOrders(j.parts(nil), 1<<16)
	require.NoError(t, err)
	assert.Positive(t, spent)
	require.Len(t, orders, 3)
	assert.ElementsMatch(t, []int{0, 2}, orders[0])
	assert.Nil(t, orders[1], "6 in 5")
	assert.Nil(t, orders[2], "no pieces")
	j.Groups[1].Window = 3
	_, _, err = s.groupOrders(j.parts(nil), 1<<16)
	require.NoError(t, err)
	j.Groups[1].Window = 2
	_, _, err = s.groupOrders(j.parts(nil), 1<<16)
	require.ErrorIs(t, err, ErrNoLayout)
}

// Flaws beside the goods or before them are no obstacles, and leave the ground clear.
func TestFlawsBesideTheGoods(t *testing.T) {
	j := &Job{Width: 10, Gap: 1, Pieces: []Piece{{W: 3, H: 3, Count: 1}}}
	for _, f := range []Flaw{{X: 10, Y: 2, W: 3, H: 3}, {X: -3, Y: 2, W: 3, H: 3}, {X: 2, Y: -4, W: 3, H: 4}} {
		j.Flaws = []Flaw{f}
		p := newPlacer(j, j.parts(nil))
		assert.Empty(t, p.flaws, f)
		assert.Zero(t, p.clear, f)
	}
	j.Flaws = []Flaw{{X: 9, Y: 7, W: 3, H: 3}, {X: -3, Y: 2, W: 4, H: 3}, {X: 2, Y: -4, W: 3, H: 5}}
	p := newPlacer(j, j.parts(nil))
	assert.Equal(t, []obstacle{{3, -3, 5, 1}, {-2, 3, 1, 5}, {10, 8, 12, 10}}, p.flaws)
	assert.Equal(t, int64(10), p.clear)
}

// Functions of every width to 24 by full search: sizes within the width never
// weigh more than the width.
func TestFunctionsAreDualFeasible(t *testing.T) {
	for c := int64(1); c <= 24; c++ {
		fs := []dff{{dffPlain, c, 0}}
		for k := int64(1); k <= 12; k++ {
			fs = append(fs, dff{dffShare, c, k})
			if k <= c/2 {
				fs = append(fs, dff{dffRound, c, k}, dff{dffBoundary, c, k})
			}
		}
		for _, f := range fs {
			best := make([]int64, c+1) // most weight within a size
			for s := int64(1); s <= c; s++ {
				for x := int64(1); x <= s; x++ {
					best[s] = max(best[s], best[s-x]+f.at(x))
				}
			}
			require.Equal(t, f.top(), f.at(c), "%+v", f)
			require.Equal(t, f.top(), best[c], "%+v", f)
		}
	}
}

// Thresholds stand at the sizes up to half the width, at what larger ones leave
// and a unit more, at the half, a third and a quarter, rounded up; shares come last.
func TestFunctionsAtTheSizes(t *testing.T) {
	list := func(ks []int64, shares int64) []dff {
		out := []dff{{dffPlain, 100, 0}}
		for _, k := range ks {
			out = append(out, dff{dffRound, 100, k}, dff{dffBoundary, 100, k})
		}
		for k := int64(1); k <= shares; k++ {
			out = append(out, dff{dffShare, 100, k})
		}
		return out
	}
	assert.Equal(t, list([]int64{25, 30, 34, 40, 41, 50}, 12), dffs(100, []int64{30, 60}, 200))
	assert.Equal(t, list([]int64{25, 40}, 4), dffs(100, []int64{30, 60}, 4))
	assert.Equal(t, list([]int64{1, 2, 25, 34, 50}, 12), dffs(100, []int64{100, 99, 50}, 200), "of 99, 1 is left; of 100, nothing")
	assert.Equal(t, []dff{{dffPlain, 1, 0}, {dffShare, 1, 1}}, dffs(1, []int64{1}, 9))
}

// Sums of chosen sides: of 3, 7 and 12, and of 4 or 5; up to a limit, also over
// the words of 64 bits that hold them.
func TestSumsOfSides(t *testing.T) {
	for seed := range 60 {
		r := numbered(6, seed)
		limit := r.from(1, 300)
		s, want := newSums(limit), map[int64]bool{0: true}
		for range r.from(1, 6) {
			a, b := r.from(1, 130), r.from(1, 130)
			more := map[int64]bool{}
			for v := range want {
				more[v], more[v+a] = true, true
				if seed%2 == 0 {
					more[v+b] = true
				}
			}
			if want = more; seed%2 == 0 {
				s.addEither(a, b)
			} else {
				s.addOne(a)
			}
		}
		last := int64(0)
		for v := int64(0); v <= limit+70; v++ {
			require.Equal(t, want[v] && v <= limit, s.has(v), "%d", v)
			if s.has(v) {
				last = v
			}
		}
		require.Equal(t, last, s.last())
	}
	one := func(sides ...int64) []item {
		var out []item
		for _, v := range sides {
			var it item
			it.add(v, v)
			out = append(out, it)
		}
		return out
	}
	side := func(q way) int64 { return q.w }
	assert.Equal(t, int64(22), reachable(30, one(3, 7, 12), side))
	assert.Equal(t, int64(15), reachable(18, one(3, 7, 12), side))
	assert.Equal(t, int64(12), reachable(14, one(3, 7, 12), side))
	assert.Equal(t, int64(120), reachable(147, one(30, 70, 120), side))
	assert.Equal(t, int64(19), reachable(19, nil, side))
	assert.Equal(t, int64(1<<40-4), reachable(1<<40-1, one(8, 12), side), "too long to be exact: by the divisor")
	assert.Equal(t, int64(15), achievable(13, one(3, 7, 12)))
	assert.Equal(t, int64(12), achievable(11, one(3, 7, 12)))
	assert.Equal(t, int64(22), achievable(20, one(3, 7, 12)))
	assert.Equal(t, int64(150), achievable(121, one(30, 70, 120)))
	assert.Equal(t, int64(19), achievable(19, nil))
	var turned item
	turned.add(4, 9)
	turned.add(9, 4)
	assert.Equal(t, int64(9), achievable(5, []item{turned}))
	assert.Equal(t, int64(4), reachable(8, []item{turned}, side))
	turned.add(9, 4)
	assert.Equal(t, 2, turned.n)
}

// Boxes over half of the width stand one on the other, and of the rest each on
// those that leave it no room: of widths 6, 7 and 9 on 10, heights 1, 2 and 4, a
// box of 3 by 5 lies beside the first two; one of 4 by 5 beside the first alone.
func TestStackedByHand(t *testing.T) {
	items := func(sizes ...[2]int64) []item {
		var out []item
		for _, s := range sizes {
			var it item
			it.add(s[0], s[1])
			out = append(out, it)
		}
		return out
	}
	high := [][2]int64{{9, 4}, {6, 1}, {7, 2}}
	assert.Equal(t, int64(7), stacked(10, items(high...)))
	assert.Equal(t, int64(9), stacked(10, items(append(high, [2]int64{3, 5})...)))
	assert.Equal(t, int64(11), stacked(10, items(append(high, [2]int64{4, 5})...)))
	assert.Equal(t, int64(12), stacked(10, items(append(high, [2]int64{5, 5})...)))
	assert.Equal(t, int64(7), stacked(10, items(append(high, [2]int64{1, 5})...)))
	assert.Equal(t, int64(8), stacked(10, items(append(high, [2]int64{1, 8})...)))
	assert.Equal(t, int64(8), tallest(items(append(high, [2]int64{1, 8})...)))
	var turned item
	turned.add(5, 9)
	turned.add(9, 5)
	assert.Equal(t, int64(12), stacked(10, append(items(high...), turned)), "on all of them on its side")
	assert.Equal(t, int64(5), tallest([]item{turned}))
}

// A group that no window holds has no layout, whatever stands before it.
func TestGroupThatNoWindowHolds(t *testing.T) {
	j := &Job{Width: 10, Groups: []Group{{Window: 11}}, Pieces: []Piece{{W: 10, H: 6, Count: 2, Group: 1}, {W: 3, H: 3, Count: 1}}}
	_, err := Solve(t.Context(), j, Options{Effort: 0.0005})
	require.ErrorIs(t, err, ErrNoLayout)
	j.Groups[0].Window = 12
	p, err := Solve(t.Context(), j, Options{Effort: 0.0005})
	require.NoError(t, err)
	assert.Equal(t, int64(15), p.Length)
	for range 30 { // the window lies beyond what was laid before
		j.Pieces = append(j.Pieces, Piece{W: 10, H: 1, Count: 1, Turns: Upright})
	}
	p, err = Solve(t.Context(), j, Options{Effort: 0.0005})
	require.NoError(t, err)
	assert.Equal(t, int64(45), p.Length)
}

func TestLimitsOfEffort(t *testing.T) {
	j := &Job{Width: 10, Pieces: []Piece{{W: 10, H: 6, Count: 1}}}
	for _, e := range []float64{0, 0.0001, 100_000} {
		p, err := Solve(t.Context(), j, Options{Effort: e})
		require.NoError(t, err, e)
		assert.Equal(t, int64(6), p.Length)
	}
	for _, e := range []float64{-1, 0.00009, 100_001, math.NaN(), math.Inf(1)} {
		_, err := Solve(t.Context(), j, Options{Effort: e})
		require.Error(t, err, e)
		_, err = Stack(t.Context(), j, Options{Effort: e})
		require.Error(t, err, e)
	}
}
