package bound_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// in gives quarters of an inch.
func in(x float64) int64 { return int64(x * 4) }

func box(x, y, w, h int64) geom.Ring {
	return geom.Ring{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// panel is a rectangle of inches with its motif point, bound both ways.
func panel(n int, w, h, mx, my float64) bound.Piece {
	return bound.Piece{Count: n, Match: bound.X | bound.Y,
		Ways: []bound.Way{{Ring: box(0, 0, in(w), in(h)), Match: geom.Point{X: in(mx), Y: in(my)}}}}
}

func with(p bound.Piece, m bound.Axes) bound.Piece {
	p.Match = m
	return p
}

// goods are Width, Across, Along and FirstX in inches, and the drop as the part
// of the repeat by which each column lies higher than the one before.
func goods(w, h, r, ox float64, num, den int64, pieces ...bound.Piece) bound.StripJob {
	j := bound.StripJob{Width: in(w), Pieces: pieces, Repeat: bound.Repeat{Across: in(h), Along: in(r), FirstX: in(ox), FreeStart: true}}
	for i := range den {
		rise := i * num * in(r) / den
		j.Repeat.Falls = append(j.Repeat.Falls, -rise)
	}
	return j
}

func startAt(j bound.StripJob, oy float64) bound.StripJob {
	j.Repeat.FreeStart, j.Repeat.FirstY = false, in(oy)
	return j
}

// The jobs with a proved optimum: complete search over all places, described
// with the figures (derived). The best bound must not exceed the optimum, and
// reaches it where least says so.
func TestProvedOptima(t *testing.T) {
	backs := func(n int) bound.Piece { return panel(n, 22, 24, 11, 12) }
	seats := func(n int) bound.Piece { return panel(n, 17, 17, 8.5, 8.5) }
	chain := []bound.Piece{panel(1, 26, 32, 13, 21), panel(1, 25, 25, 12.5, 35), panel(1, 25, 5, 12.5, 39), panel(1, 27, 9, 13.5, 46.5)}
	either := panel(4, 24, 9, 12, 4.5)
	either.Ways = append(either.Ways, bound.Way{Ring: either.Ways[0].Ring, Match: geom.Point{X: in(12), Y: in(18)}})
	onX := func(n int, w, h float64) bound.Piece { return with(panel(n, w, h, w/2, 0), bound.X) }
	along := func(n int, w, h, mx, my float64) bound.Piece { // laid on its side, up to the right
		return bound.Piece{Count: n, Match: bound.X | bound.Y, Ways: bound.Ways(box(0, 0, in(w), in(h)), geom.Point{X: in(mx), Y: in(my)}, geom.Rotate270)}
	}
	for _, c := range []struct {
		name         string
		job          bound.StripJob
		least, exact float64 // inches: what the bound must reach, the optimum
	}{
		{"four backs", goods(53, 26.5, 27, 13.25, 0, 0, backs(4)), 51, 51},
		{"four backs, start known", startAt(goods(53, 26.5, 27, 13.25, 0, 0, backs(4)), 0), 66, 66},
		{"motif at the edge", goods(53, 26.5, 27, 0, 0, 0, backs(4)), 105, 105},
		{"motif at the edge, start known", startAt(goods(53, 26.5, 27, 0, 0, 0, backs(4)), 0), 120, 120},
		{"half drop", goods(53, 26.5, 27, 13.25, 1, 2, backs(4)), 64.5, 64.5},
		{"third drop", goods(53, 26.5, 27, 13.25, 1, 3, backs(4)), 60, 60},
		{"quarter drop", goods(53, 26.5, 27, 13.25, 1, 4, backs(4)), 57.75, 57.75},
		// Equal pieces, by formula: rows a repeat apart; a drop splits them over the columns.
		{"forty backs", goods(53, 26.5, 27, 13.25, 0, 0, backs(40)), 537, 537},
		{"forty backs, motif at the edge", goods(53, 26.5, 27, 0, 0, 0, backs(40)), 1077, 1077},
		{"forty backs, motif at the edge, start known", startAt(goods(53, 26.5, 27, 0, 0, 0, backs(40)), 0), 1092, 1092},
		{"forty backs, half drop", goods(53, 26.5, 27, 13.25, 1, 2, backs(40)), 550.5, 550.5},
		{"six seats", goods(54, 18, 18, 9, 0, 0, seats(6)), 35, 35},
		{"six seats, half drop", goods(54, 18, 18, 9, 1, 2, seats(6)), 44, 44},
		{"five seats, half drop", goods(54, 18, 18, 9, 1, 2, seats(5)), 35, 35},
		{"six seats, third drop", goods(54, 18, 18, 9, 1, 3, seats(6)), 47, 47},
		{"chair chain", goods(54, 27, 27, 13.5, 0, 0, chain...), 41, 41},
		{"chair chain with skirt", goods(54, 27, 27, 13.5, 0, 0, append(chain[:4:4], panel(1, 27, 9, 13.5, 54.5))...), 56.5, 56.5},
		{"tops and fronts", goods(54, 27, 27, 13.5, 0, 0, panel(3, 25, 25, 12.5, 12.5), panel(3, 25, 5, 12.5, 16.5)), 82, 82},
		// Too many for lines to be solved one by one: pieces in sequence say it.
		{"twenty tops and fronts", goods(54, 27, 27, 13.5, 0, 0, panel(20, 25, 25, 12.5, 12.5), panel(20, 25, 5, 12.5, 16.5)), 541, 541},
		{"arms as a pair", goods(54, 27, 25.25, 13.5, 0, 0, panel(1, 26, 24, 18, 13), panel(1, 26, 24, 8, 13)), 49.25, 49.25},
		{"two pairs of arms", goods(54, 27, 25.25, 13.5, 0, 0, panel(2, 26, 24, 18, 13), panel(2, 26, 24, 8, 13)), 99.75, 99.75},
		{"arms centred", goods(54, 27, 25.25, 13.5, 0, 0, panel(2, 26, 24, 13, 13)), 24, 24},
		{"joined back", goods(53, 26.5, 27, 13.25, 0, 0, panel(1, 53, 26, 13.25, 14), panel(1, 16.5, 26, -12.25, 14), panel(1, 16.5, 26, 2.25, 14)), 80, 80},
		{"joined back, three motifs", goods(54, 18, 27, 9, 0, 0, panel(1, 54, 26, 9, 14), panel(1, 16, 26, -8, 14), panel(1, 16, 26, 6, 14)), 53, 53},
		{"joined back over the repeat", goods(53, 26.5, 27, 13.25, 0, 0, panel(1, 53, 30, 13.25, 17), panel(1, 16.5, 30, -12.25, 17), panel(1, 16.5, 30, 2.25, 17)), 138, 138},
		{"two backs, three strips", goods(53, 26.5, 27, 13.25, 0, 0, backs(2), with(panel(3, 50, 3, 0, 0), 0)), 33, 33},
		{"borders", goods(54, 27, 27, 13.5, 0, 0, panel(2, 24, 26, 12, 14), panel(4, 24, 9, 12, 4.5)), 63, 63},
		{"borders on either motif", goods(54, 27, 27, 13.5, 0, 0, panel(2, 24, 26, 12, 14), either), 57, 57},
		{"stripe", goods(54, 6, 0, 3, 0, 0, onX(1, 22, 26), onX(1, 22, 25), onX(1, 22, 6), onX(2, 13, 20)), 40, 46},
		{"plaid", goods(54, 6, 8, 3, 0, 0, panel(1, 23, 26, 11.5, 13), panel(1, 23, 24, 11.5, 12), panel(1, 23, 6, 11.5, 3), panel(2, 13, 20, 6.5, 10)), 47, 47},
		{"railroaded", goods(54, 27, 27, 13.5, 0, 0, along(1, 84, 26, 42, 14), along(3, 25, 25, 12.5, 12.5)), 84, 84},
		{"up the roll", goods(54, 27, 27, 13.5, 0, 0, panel(1, 54, 26, 13.5, 14), panel(1, 16.5, 26, -12.5, 14), panel(1, 16.5, 26, 2, 14), panel(3, 25, 25, 12.5, 12.5)), 105.5, 105.5},
	} {
		for _, whole := range []bool{false, true} {
			c.job.Whole = whole
			cs, err := bound.Strip(context.Background(), c.job)
			require.NoError(t, err, c.name)
			got := float64(cs[0].Length) / 4
			assert.GreaterOrEqual(t, got, c.least, "%s: %+v", c.name, cs)
			assert.LessOrEqual(t, got, c.exact, "%s: %+v", c.name, cs)
			t.Logf("%s: %v of %v, %v", c.name, got, c.exact, cs[0].Method)
		}
	}
}
