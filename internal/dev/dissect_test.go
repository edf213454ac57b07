package dev_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/dissect"
)

// The pieces have the area of the rectangle, lie inside it and do not overlap, so they fill it.
func TestCutFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Int64Range(5, 200).Draw(t, "w"), rapid.Int64Range(5, 200).Draw(t, "h")
		n := rapid.IntRange(1, min(40, int(w*h/8)+1)).Draw(t, "n")
		style := dissect.Style(rapid.IntRange(0, 2).Draw(t, "style"))
		rs, err := dissect.Cut(w, h, n, style, rapid.Uint64().Draw(t, "seed"))
		if err != nil {
			t.Skip("too many pieces for the rectangle")
		}
		require.Len(t, rs, n)
		var area int64
		for i, r := range rs {
			require.True(t, r.W > 0 && r.H > 0 && r.X >= 0 && r.Y >= 0 && r.X+r.W <= w && r.Y+r.H <= h)
			area += r.W * r.H
			for _, q := range rs[:i] {
				require.False(t, r.X < q.X+q.W && q.X < r.X+r.W && r.Y < q.Y+q.H && q.Y < r.Y+r.H)
			}
		}
		require.Equal(t, w*h, area)
	})
}

func TestCutSame(t *testing.T) {
	a, err := dissect.Cut(100, 80, 30, dissect.Pinwheel, 7)
	require.NoError(t, err)
	b, err := dissect.Cut(100, 80, 30, dissect.Pinwheel, 7)
	require.NoError(t, err)
	assert.Equal(t, a, b)
	c, err := dissect.Cut(100, 80, 30, dissect.Pinwheel, 8)
	require.NoError(t, err)
	assert.NotEqual(t, a, c)
}

func TestCutRefuses(t *testing.T) {
	for _, c := range [][3]int64{{0, 5, 1}, {5, 0, 1}, {5, 5, 0}, {2, 2, 5}, {-1, 3, 2}} {
		_, err := dissect.Cut(c[0], c[1], int(c[2]), dissect.Guillotine, 1)
		assert.Error(t, err, c)
	}
}

func ExampleCut() {
	rs, _ := dissect.Cut(20, 10, 3, dissect.Guillotine, 1)
	var area int64
	for _, r := range rs {
		area += r.W * r.H
	}
	fmt.Println(len(rs), area)
	// Output: 3 200
}
