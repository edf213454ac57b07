package bound_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// Every limit that a field names: the last number within it is taken, the next
// one refused by the name of the field.
func TestLimitsOfAStripJob(t *testing.T) {
	one := func() bound.Piece {
		return bound.Piece{Count: 1, Ways: []bound.Way{{Ring: box(0, 0, 3, 3)}}}
	}
	round := func(corners int) geom.Ring { // a comb of that many corners
		out := geom.Ring{{X: int64(corners), Y: 0}, {X: int64(corners), Y: 9}, {X: 0, Y: 9}}
		for i := range corners - 3 {
			out = append(out, geom.Point{X: int64(i), Y: int64(i % 2)})
		}
		return out
	}
	for _, c := range []struct {
		field    string
		in, over int64
		set      func(j *bound.StripJob, v int64)
	}{
		{"Width", 3, 0, func(j *bound.StripJob, v int64) { j.Width = v }},
		{"Width", 1 << 33, 1<<33 + 1, func(j *bound.StripJob, v int64) { j.Width = v }},
		{"Gap", 0, -1, func(j *bound.StripJob, v int64) { j.Gap = v }},
		{"Gap", 1 << 33, 1<<33 + 1, func(j *bound.StripJob, v int64) { j.Gap = v }},
		{"Repeat.Across", 0, -1, func(j *bound.StripJob, v int64) { j.Repeat.Across = v }},
		{"Repeat.Across", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Repeat.Across = v }},
		{"Repeat.Along", 0, -1, func(j *bound.StripJob, v int64) { j.Repeat.Along = v }},
		{"Repeat.Along", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Repeat.Along = v }},
		{"Repeat.FirstX", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Repeat.FirstX = v }},
		{"Repeat.FirstX", -geom.MaxCoord, -geom.MaxCoord - 1, func(j *bound.StripJob, v int64) { j.Repeat.FirstX = v }},
		{"Repeat.FirstY", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Repeat.FirstY = v }},
		{"Repeat.FirstY", -geom.MaxCoord, -geom.MaxCoord - 1, func(j *bound.StripJob, v int64) { j.Repeat.FirstY = v }},
		{"Repeat.Falls", 1, 0, func(j *bound.StripJob, v int64) { j.Repeat.Across, j.Repeat.Falls = v, []int64{0, 1} }},
		{"Repeat.Falls", 1, 0, func(j *bound.StripJob, v int64) { j.Repeat.Along, j.Repeat.Falls = v, []int64{0, 1} }},
		{"Repeat.Falls", 1000, 1001, func(j *bound.StripJob, v int64) { j.Repeat.Falls = make([]int64, v) }},
		{"Repeat.Falls[1]", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Repeat.Falls = []int64{0, v} }},
		{"Pieces[0].Count", 1, 0, func(j *bound.StripJob, v int64) { j.Pieces[0].Count = int(v) }},
		{"Pieces[0].Count", 20_000, 20_001, func(j *bound.StripJob, v int64) { j.Pieces[0].Count = int(v) }},
		{"Pieces[1].Count", 8000, 8001, func(j *bound.StripJob, v int64) {
			j.Pieces[0].Count = 12_000
			j.Pieces = append(j.Pieces, one())
			j.Pieces[1].Count = int(v)
		}},
		{"Pieces[0].Ways", 1, 0, func(j *bound.StripJob, v int64) { j.Pieces[0].Ways = j.Pieces[0].Ways[:v] }},
		{"Pieces[0].Ways", 1000, 1001, func(j *bound.StripJob, v int64) {
			j.Pieces[0].Ways = slices.Repeat(j.Pieces[0].Ways, int(v))
		}},
		{"Pieces[0].Match", 3, 4, func(j *bound.StripJob, v int64) { j.Pieces[0].Match = bound.Axes(v) }},
		{"Pieces[0].Ways[0].Match", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Pieces[0].Ways[0].Match.Y = v }},
		{"Pieces[0].Ways[0].Ring", geom.MaxCoord, geom.MaxCoord + 1, func(j *bound.StripJob, v int64) { j.Pieces[0].Ways[0].Ring = box(v-3, 0, 3, 3) }},
		{"Pieces[0].Ways[0].Ring", 20_000, 20_001, func(j *bound.StripJob, v int64) {
			j.Width = 1 << 20
			j.Pieces[0].Ways[0].Ring = round(int(v))
		}},
		{"Pieces[0].Ways[0].Ring", 1, 0, func(j *bound.StripJob, v int64) { j.Pieces[0].Ways[0].Ring = box(0, 0, 3, v) }},
		// It must fit the width, some way and on some column.
		{"Pieces[0].Ways", 50, 51, func(j *bound.StripJob, v int64) { j.Pieces[0].Ways[0].Ring = box(0, 0, v, 3) }},
		{"Pieces[0].Ways", 40, 41, func(j *bound.StripJob, v int64) {
			j.Repeat.Across, j.Pieces[0].Match, j.Pieces[0].Ways[0].Ring = 10, bound.X, box(0, 0, v, 3)
			j.Pieces[0].Ways[0].Match.X = -1 // from 1 in, or 11, and so on
			j.Width = 41
		}},
		{"Pieces[0].Ways[0]", 50, 51, func(j *bound.StripJob, v int64) {
			j.Pieces[0].AnyAngle, j.Pieces[0].Ways[0].Ring = true, box(0, 0, v, 70)
		}},
	} {
		for _, v := range []int64{c.in, c.over} {
			j := bound.StripJob{Width: 50, Repeat: bound.Repeat{Across: 4, Along: 4}, Pieces: []bound.Piece{one()}}
			c.set(&j, v)
			_, err := bound.Best(context.Background(), j)
			if v == c.in {
				require.NoError(t, err, "%s %d", c.field, v)
				continue
			}
			var bad *bound.InputError
			require.ErrorAs(t, err, &bad, "%s %d", c.field, v)
			assert.Equal(t, c.field, bad.Field)
			assert.Equal(t, fmt.Sprintf("bound: %s is %s, want %s", bad.Field, bad.Value, bad.Want), err.Error())
			assert.NotEmpty(t, bad.Value)
			assert.NotEmpty(t, bad.Want)
		}
	}
}
