package bound_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// scalloped is a valance of 1/64 in: straight above, below it n half rounds.
func scalloped(w, h, deep float64, n int) geom.Ring {
	u := func(x float64) int64 { return int64(math.Round(x * 64)) }
	out := geom.Ring{{X: u(w), Y: u(h)}, {X: 0, Y: u(h)}}
	steps := 8 * n
	for i := range steps + 1 {
		a := math.Pi * float64(i) / 8
		out = append(out, geom.Point{X: u(w * float64(i) / float64(steps)), Y: u(deep * (1 - math.Abs(math.Sin(a))))})
	}
	return out
}

// What a page can say of curved pieces: the gap between a layout, here the
// pieces stacked on the pattern, and what is proved, before (area and
// longest piece) and with all methods.
func TestGapsOfCurvedPieces(t *testing.T) {
	const unit = 64
	matched := func(n int, ring geom.Ring) bound.Piece {
		b := ring.Bounds()
		return bound.Piece{Count: n, Match: bound.X | bound.Y, Ways: []bound.Way{{Ring: ring, Match: geom.Point{X: (b.Min.X + b.Max.X) / 2, Y: 12 * unit}}}}
	}
	backs := []bound.Piece{matched(6, crowned(30, 24, 3, 40)), matched(2, crowned(28, 22, 2, 40))}
	valances := []bound.Piece{matched(8, scalloped(40, 14, 3, 5))}
	on := func(r bound.Repeat, ps []bound.Piece) bound.StripJob {
		return bound.StripJob{Width: 54 * unit, Repeat: r, Pieces: ps, Whole: true}
	}
	repeat := func(along, across float64) bound.Repeat {
		return bound.Repeat{Along: int64(along * unit), Across: int64(across * unit), FirstX: 27 * unit}
	}
	for _, c := range []struct {
		name        string
		job         bound.StripJob
		before, now float64 // gaps in percent, rounded up
	}{
		{"crowned backs, plain", on(bound.Repeat{}, backs), 91, 11},
		{"crowned backs, 25 in repeat", on(repeat(25, 0), backs), 113, 0},
		{"crowned backs, 25 in repeat both ways", on(repeat(25, 27), backs), 113, 0},
		{"scalloped valances, plain", on(bound.Repeat{}, valances), 47, 28},
		{"scalloped valances, 13 in repeat", on(repeat(13, 27), valances), 159, 0},
	} {
		cs, err := bound.Strip(context.Background(), c.job)
		require.NoError(t, err)
		before := int64(0)
		for _, k := range cs {
			if k.Method <= bound.ByLongest {
				before = max(before, k.Length)
			}
		}
		made, ok := stacked(c.job)
		require.True(t, ok)
		gap := func(b int64) float64 { return 100 * (float64(made)/float64(b) - 1) }
		t.Logf("%s: %.2f in stacked, %.2f in before (gap %.1f %%), %.2f in now (gap %.1f %%) by %v, %v", c.name, float64(made)/unit,
			float64(before)/unit, gap(before), float64(cs[0].Length)/unit, gap(cs[0].Length), cs[0].Method, cs[0].Weigh)
		assert.LessOrEqual(t, cs[0].Length, made, c.name)
		assert.InDelta(t, c.before, gap(before), 1, c.name)
		assert.LessOrEqual(t, gap(cs[0].Length), c.now, c.name)
	}
}

// Four backs of 22 by 24 in with a motif in the middle, on goods 53 in wide with
// a repeat of 27 in: their area asks for 40 in, but two stand side by side, so
// there are two rows. The first motif lies at the end of the roll, so the first
// row starts at 15 in and the second one ends at 66.
func ExampleStrip() {
	back := geom.Ring{{X: 0, Y: 0}, {X: 22, Y: 0}, {X: 22, Y: 24}, {X: 0, Y: 24}}
	claims, err := bound.Strip(context.Background(), bound.StripJob{
		Width:  53,
		Repeat: bound.Repeat{Along: 27},
		Pieces: []bound.Piece{{Count: 4, Match: bound.Y, Ways: bound.Ways(back, geom.Point{X: 11, Y: 12}, geom.Identity)}},
		Whole:  true,
	})
	for _, c := range claims {
		fmt.Println(c.Length, c.Method)
	}
	fmt.Println("the line", claims[0].Phase, "above the motifs is needed", claims[0].Lines, "times, the last at", claims[0].Line, err)
	// Output:
	// 66 chords on one pattern line
	// 48 widths of the pieces side by side
	// 40 area of the pieces
	// 39 longest piece
	// the line 12 above the motifs is needed 2 times, the last at 66 <nil>
}

// Two strips of 50 in and two backs of 22 in on goods 53 in wide: nothing
// stands beside a strip, so its 3 in count for the whole width.
func ExampleBest() {
	c, err := bound.Best(context.Background(), bound.StripJob{Width: 53, Whole: true, Pieces: []bound.Piece{
		{Count: 2, Ways: bound.Ways(geom.Ring{{X: 0, Y: 0}, {X: 22, Y: 0}, {X: 22, Y: 24}, {X: 0, Y: 24}}, geom.Point{}, geom.Identity)},
		{Count: 2, Ways: bound.Ways(geom.Ring{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 50, Y: 3}, {X: 0, Y: 3}}, geom.Point{}, geom.Identity)},
	}})
	fmt.Println(c.Length, c.Method, "/", c.Weigh, err)
	// Output: 30 widths of the pieces side by side / chords in whole shares of 1/3 of the width <nil>
}

// Five seats of 24 in square on hides of 40 by 30 in: by area three hides would
// do, but no two seats lie on one hide.
func ExampleHides() {
	square := func(w, h int64) geom.Ring { return geom.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}} }
	hides := make([]bound.Hide, 6)
	for i := range hides {
		hides[i].Outer = square(40, 30)
	}
	claims, err := bound.Hides(context.Background(), bound.HideJob{Hides: hides, Pieces: []bound.Piece{
		{Count: 5, Ways: bound.Ways(square(24, 24), geom.Point{}, geom.Identity, geom.Rotate90)},
	}})
	for _, c := range claims {
		fmt.Println(c.Hides, c.Method)
	}
	fmt.Println(err)
	// Output:
	// 5 pieces that cannot share a hide
	// 3 area of the pieces
	// <nil>
}
