package layout

import (
	"cmp"
	"context"
	"errors"
	"runtime"
	"slices"
	"testing"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// quick is enough effort for laws that hold at any effort.
var quick = BoxOptions{Effort: 0.001}

func TestLayOutLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roll, pieces := anyJob(t)
		if roll.Repeat > 0 && rapid.Bool().Draw(t, "horizontal") {
			roll.Across = 13 * in
			if rapid.Bool().Draw(t, "half drop") {
				roll.Drop = material.Drop{Num: 1, Den: 2}
			}
		}
		if rapid.Bool().Draw(t, "flaw") {
			roll.Flaws = []material.Flaw{{X: 5 * in, Y: unit.Length(rapid.IntRange(0, 90).Draw(t, "at")) * in, Width: 2 * in, Length: 3 * in}}
		}
		for i := range pieces {
			pieces[i].Width = min(pieces[i].Width, 30*in) // leave room beside the motif columns
			if roll.Patterned() && !pieces[i].Unmatched && rapid.Bool().Draw(t, "centred") {
				pieces[i].MotifX, pieces[i].MotifY = pieces[i].Width/2, pieces[i].Length/2
			}
		}
		l, err := Boxes(context.Background(), roll, pieces, quick)
		if roll.Across > 0 && errors.Is(err, ErrNoLayout) {
			return // a wide piece may have no motif within reach
		}
		require.NoError(t, err)
		require.NoError(t, l.Verify())
		assert.GreaterOrEqual(t, l.Need, l.Bound)
		if l.Proved && len(roll.Flaws) == 0 {
			assert.GreaterOrEqual(t, float64(l.GapShare()), 0.0)
		}
		again, err := Boxes(context.Background(), roll, pieces, quick)
		require.NoError(t, err)
		assert.Equal(t, l, again)
	})
}

// The search is never worse than rows on paper.
func TestLayOutBeatsRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roll, pieces := anyJob(t)
		rows, err := Rows(roll, pieces)
		require.NoError(t, err)
		l, err := Boxes(context.Background(), roll, pieces, BoxOptions{Effort: 0.001})
		require.NoError(t, err)
		assert.LessOrEqual(t, l.Need, rows.Need)
		assert.LessOrEqual(t, rows.Bound, l.Bound, "the search states the better bound")
	})
}

func TestLayOutSameOnAnyNumberOfCores(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in}
	pieces := []Box{{Width: 23 * in, Length: 31 * in, Count: 5}, {Width: 11 * in, Length: 20 * in, Count: 7}, {Width: 50 * in, Length: 2 * in, Count: 6, Unmatched: true}}
	want, err := Boxes(context.Background(), roll, pieces, BoxOptions{Effort: 0.02, Seed: 7})
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	got, err := Boxes(context.Background(), roll, pieces, BoxOptions{Effort: 0.02, Seed: 7})
	require.NoError(t, err)
	assert.Equal(t, want, got)
}

func TestLayOutJoinsBoxing(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Selvage: in / 2}
	boxing := Box{Name: "boxing", Width: 120 * in, Length: 5 * in, Count: 2,
		Join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 6 * in, Most: 4}}
	l, err := Boxes(context.Background(), roll, []Box{boxing}, quick)
	require.NoError(t, err)
	assert.NotEmpty(t, l.Seams)
	var total [2]unit.Length
	for _, p := range l.Placements {
		total[p.Copy] += p.Width
	}
	for c, sum := range total {
		joins := unit.Length(0)
		for _, s := range l.Seams {
			if s.Copy == c {
				joins++
			}
		}
		assert.Equal(t, 120*in+joins*in, sum, "two half-inch allowances at each join")
	}
}

func TestLayOutKeepsShadesTogether(t *testing.T) {
	o := quick
	o.Shades = []Shade{{Window: 45 * in}}
	l, err := Boxes(context.Background(), material.Roll{Width: 54 * in}, []Box{
		{Width: 25 * in, Length: 20 * in, Count: 4, Shade: 1}, {Width: 30 * in, Length: 30 * in, Count: 5},
	}, o)
	require.NoError(t, err)
	lo, hi := l.Need, unit.Length(0)
	for _, p := range l.Placements {
		if l.Pieces[p.Piece].Shade == 1 {
			lo, hi = min(lo, p.Y), max(hi, p.Y+p.Length)
		}
	}
	assert.LessOrEqual(t, hi-lo, 45*in)
	o.Shades[0].Window = 20 * in
	_, err = Boxes(context.Background(), material.Roll{Width: 54 * in}, []Box{{Width: 25 * in, Length: 20 * in, Count: 4, Shade: 1}}, o)
	require.ErrorIs(t, err, ErrNoLayout)
}

func TestLayOutRefuses(t *testing.T) {
	ok := []Box{{Width: 20 * in, Length: 20 * in, Count: 1}}
	for name, c := range map[string]struct {
		roll   material.Roll
		pieces []Box
		o      BoxOptions
		want   error
	}{
		"no pieces":      {material.Roll{Width: 54 * in}, nil, quick, unit.ErrRequired},
		"too wide":       {material.Roll{Width: 54 * in}, []Box{{Width: 60 * in, Length: in, Count: 1}}, quick, ErrTooWide},
		"effort":         {material.Roll{Width: 54 * in}, ok, BoxOptions{Effort: -1}, unit.ErrRange},
		"effort is NaN":  {material.Roll{Width: 54 * in}, ok, BoxOptions{Effort: unit.Ratio(nan())}, unit.ErrNotFinite},
		"no such shade":  {material.Roll{Width: 54 * in}, []Box{{Width: in, Length: in, Count: 1, Shade: 2}}, quick, unit.ErrRange},
		"drop alone":     {material.Roll{Width: 54 * in, Repeat: 9 * in, Drop: material.Drop{Num: 1, Den: 2}}, ok, quick, unit.ErrRequired},
		"whole drop":     {material.Roll{Width: 54 * in, Repeat: 9 * in, Across: 9 * in, Drop: material.Drop{Num: 2, Den: 2}}, ok, quick, unit.ErrRange},
		"flaw outside":   {material.Roll{Width: 54 * in, Flaws: []material.Flaw{{X: 60 * in, Length: in}}}, ok, quick, unit.ErrRange},
		"motif outside":  {material.Roll{Width: 54 * in, Repeat: 9 * in}, []Box{{Width: in, Length: in, Count: 1, MotifX: 2 * in}}, quick, unit.ErrRange},
		"join too short": {material.Roll{Width: 54 * in}, []Box{{Width: 9 * in, Length: in, Count: 1, Join: &Piecing{AlongWidth: true, Least: 10 * in, Most: 1}}}, quick, unit.ErrRange},
		"negative gap":   {material.Roll{Width: 54 * in}, ok, BoxOptions{Gap: -in}, unit.ErrRange},
		"all shrunk":     {material.Roll{Width: 54 * in, Shrinkage: 0.9}, ok, quick, unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Boxes(context.Background(), c.roll, c.pieces, c.o)
			require.ErrorIs(t, err, c.want)
		})
	}
}

func TestLayOutStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	roll, pieces := material.Roll{Width: 54 * in}, []Box{{Width: 23 * in, Length: 31 * in, Count: 9}, {Width: 17 * in, Length: 13 * in, Count: 14}}
	l, err := Boxes(ctx, roll, pieces, BoxOptions{Effort: 100})
	require.NoError(t, err)
	require.NoError(t, l.Verify(), "the best so far is a right layout")
	assert.True(t, l.Stopped || l.Proved)
}

func TestCompareRailroad(t *testing.T) {
	// A sofa back of 80 in cannot lie across 54 in goods.
	c, err := CompareRailroad(context.Background(), material.Roll{Width: 54 * in}, []Box{{Width: 80 * in, Length: 30 * in, Count: 2}}, quick)
	require.NoError(t, err)
	assert.Nil(t, c.UpTheRoll)
	require.NotNil(t, c.Railroad)
	assert.Equal(t, 160*in, c.Better.Need)
	// Square pieces: no difference, up the roll it is.
	c, err = CompareRailroad(context.Background(), material.Roll{Width: 54 * in}, []Box{{Width: 20 * in, Length: 20 * in, Count: 4}}, quick)
	require.NoError(t, err)
	assert.Same(t, c.UpTheRoll, c.Better)
	_, err = CompareRailroad(context.Background(), material.Roll{Width: 54 * in}, []Box{{Width: 80 * in, Length: 70 * in, Count: 1}}, quick)
	require.ErrorIs(t, err, ErrTooWide)
}

func BenchmarkLayOut40WithRepeat(b *testing.B) {
	pieces := []Box{{Width: 26 * in, Length: 32 * in, Count: 10}, {Width: 18 * in, Length: 30 * in, Count: 20}, {Width: 50 * in, Length: 8 * in, Count: 10}}
	for b.Loop() {
		if _, err := Boxes(context.Background(), material.Roll{Width: 54 * in, Repeat: 27 * in}, pieces, BoxOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

// What Verify finds wrong is said of the piece by its name, in lengths.
func TestVerifyNamesThePiece(t *testing.T) {
	plan, err := Boxes(t.Context(), material.Roll{Width: 54 * in}, []Box{{Name: "seat", Width: 20 * in, Length: 20 * in, Count: 2}, {Width: 5 * in, Length: 5 * in, Count: 1}}, quick)
	require.NoError(t, err)
	for want, change := range map[string]func(*BoxPlan){
		"seat copy 2 of 2 is not laid completely":                       func(p *BoxPlan) { p.Placements = p.Placements[:1] },
		"pieces[1] copy 1 of 1 is 6 in by 5 in, asked for 5 in by 5 in": func(p *BoxPlan) { p.Placements[2].Width = 6 * in },
		"seat copy 1 of 2 and seat copy 2 of 2":                         func(p *BoxPlan) { p.Placements[1].X, p.Placements[1].Y = p.Placements[0].X, p.Placements[0].Y },
	} {
		bad := plan
		bad.Placements = slices.Clone(plan.Placements)
		slices.SortFunc(bad.Placements, func(a, b BoxPlacement) int { return cmp.Or(a.Piece-b.Piece, a.Copy-b.Copy) })
		change(&bad)
		err := bad.Verify()
		require.ErrorIs(t, err, ErrBadLayout)
		require.ErrorContains(t, err, want)
	}
}
