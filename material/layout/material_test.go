package layout

import (
	"testing"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const in = unit.Inch

func nan() float64 { z := 0.0; return z / z }

func TestLayRowsRefuses(t *testing.T) {
	roll := material.Roll{Width: 54 * in}
	p := Box{Width: 20 * in, Length: 20 * in, Count: 1}
	for name, c := range map[string]struct {
		roll  material.Roll
		piece Box
		want  error
	}{
		"no roll":      {material.Roll{}, p, unit.ErrRange},
		"all selvage":  {material.Roll{Width: 54 * in, Selvage: 20 * in}, p, unit.ErrRange},
		"too wide":     {roll, Box{Width: 60 * in, Length: in, Count: 1}, ErrTooWide},
		"no count":     {roll, Box{Width: in, Length: in}, unit.ErrRange},
		"too many":     {roll, Box{Width: in, Length: in, Count: MostBoxes + 1}, unit.ErrRange},
		"no unit":      {roll, Box{Width: 20, Length: 20 * in, Count: 1}, unit.ErrForgottenUnit},
		"negative":     {roll, Box{Width: -in, Length: in, Count: 1}, unit.ErrRange},
		"unknown turn": {roll, Box{Width: in, Length: in, Count: 1, Turn: 9}, unit.ErrUnknown},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Rows(c.roll, []Box{c.piece})
			require.ErrorIs(t, err, c.want)
		})
	}
	_, err := Rows(roll, []Box{{Width: in, Length: in, Count: MostBoxes}, p})
	require.ErrorIs(t, err, ErrTooMany)
}

func TestLayRowsTurns(t *testing.T) {
	border := Box{Name: "border", Width: 108 * in, Length: 5 * in, Count: 1, Turn: Railroad}
	l, err := Rows(material.Roll{Width: 54 * in}, []Box{border})
	require.NoError(t, err)
	assert.Equal(t, 108*in, l.Need, "too wide to lie across: it runs up the roll")
	_, err = Rows(material.Roll{Width: 54 * in, Nap: true}, []Box{border})
	require.ErrorIs(t, err, ErrTooWide)
	long := Box{Width: 5 * in, Length: 50 * in, Count: 1, Turn: Railroad}
	l, err = Rows(material.Roll{Width: 54 * in}, []Box{long})
	require.NoError(t, err)
	assert.Equal(t, 5*in, l.Need, "railroaded")
}

func anyJob(t *rapid.T) (material.Roll, []Box) {
	roll := material.Roll{
		Width:   unit.Length(rapid.IntRange(36, 66).Draw(t, "width")) * in,
		Selvage: unit.Length(rapid.IntRange(0, 4).Draw(t, "selvage")) * in / 4,
		Repeat:  unit.Length(rapid.SampledFrom([]int{0, 0, 9, 13, 27}).Draw(t, "repeat")) * in,
		Nap:     rapid.Bool().Draw(t, "nap"),
	}
	n := rapid.IntRange(1, 12).Draw(t, "n")
	pieces := make([]Box, n)
	for i := range pieces {
		pieces[i] = Box{
			Width:  unit.Length(rapid.IntRange(8, 34*16).Draw(t, "w")) * in / 16,
			Length: unit.Length(rapid.IntRange(8, 70*16).Draw(t, "l")) * in / 16,
			Count:  rapid.IntRange(1, 6).Draw(t, "count"),
			Turn:   Turn(rapid.IntRange(0, 1).Draw(t, "turn")),

			Unmatched: rapid.Bool().Draw(t, "unmatched"),
		}
	}
	return roll, pieces
}

func TestLayRowsLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roll, pieces := anyJob(t)
		l, err := Rows(roll, pieces)
		require.NoError(t, err)
		require.NoError(t, l.Verify())
		assert.GreaterOrEqual(t, l.Need, l.Bound)
		y, err := l.Yield()
		require.NoError(t, err)
		assert.LessOrEqual(t, float64(y), 1.0)
		again, err := Rows(roll, pieces)
		require.NoError(t, err)
		assert.Equal(t, l, again, "same input, same plan")
		// The bound does not fall when a piece is added.
		more, err := Rows(roll, append(pieces, Box{Width: 5 * in, Length: 5 * in, Count: 1}))
		require.NoError(t, err)
		assert.GreaterOrEqual(t, more.Bound, l.Bound)
	})
}

// The verifier must see every kind of fault, or it proves nothing.
func TestVerifySeesFaults(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in}
	good, err := Rows(roll, []Box{{Width: 20 * in, Length: 30 * in, Count: 3}})
	require.NoError(t, err)
	for name, spoil := range map[string]func(*BoxPlan){
		"overlap":       func(l *BoxPlan) { l.Placements[1].X = 10 * in },
		"outside right": func(l *BoxPlan) { l.Placements[1].X = 50 * in },
		"outside left":  func(l *BoxPlan) { l.Placements[0].X = -in },
		"past the end":  func(l *BoxPlan) { l.Need -= in },
		"off repeat":    func(l *BoxPlan) { l.Placements[2].Y -= in },
		"turned":        func(l *BoxPlan) { p := &l.Placements[0]; p.Degrees = 90; p.Width, p.Length = p.Length, p.Width },
		"wrong size":    func(l *BoxPlan) { l.Placements[0].Width -= in },
		"missing":       func(l *BoxPlan) { l.Placements = l.Placements[:2] },
		"twice":         func(l *BoxPlan) { l.Placements[1].Copy = 0 },
		"no such piece": func(l *BoxPlan) { l.Placements[0].Piece = 4 },
		"under bound":   func(l *BoxPlan) { l.Bound = l.Need + in },
		"order short":   func(l *BoxPlan) { l.Order = l.Need - in },
	} {
		t.Run(name, func(t *testing.T) {
			bad := good
			bad.Placements = append([]BoxPlacement(nil), good.Placements...)
			spoil(&bad)
			require.ErrorIs(t, bad.Verify(), ErrBadLayout)
		})
	}
}

func BenchmarkLayRows40(b *testing.B) {
	pieces := []Box{{Width: 26 * in, Length: 32 * in, Count: 10}, {Width: 18 * in, Length: 30 * in, Count: 20}, {Width: 50 * in, Length: 8 * in, Count: 10}}
	for b.Loop() {
		if _, err := Rows(material.Roll{Width: 54 * in, Repeat: 27 * in}, pieces); err != nil {
			b.Fatal(err)
		}
	}
}
