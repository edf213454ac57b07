package material

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/unit"
)

const in = unit.Inch

func TestHidesToBuyRefuses(t *testing.T) {
	good := Hide{Area: 50 * unit.SquareFoot}
	for name, c := range map[string]struct {
		net  unit.Area
		hide Hide
		w    unit.Ratio
		want error
	}{
		"negative net":  {-1, good, 0.3, unit.ErrRange},
		"no hide":       {unit.SquareFoot, Hide{}, 0.3, unit.ErrRange},
		"absurd hide":   {unit.SquareFoot, Hide{Area: 200 * unit.SquareFoot}, 0.3, unit.ErrRange},
		"thick hide":    {unit.SquareFoot, Hide{Area: 50 * unit.SquareFoot, Thickness: in}, 0.3, unit.ErrRange},
		"all waste":     {unit.SquareFoot, good, 1, unit.ErrRange},
		"waste is NaN":  {unit.SquareFoot, good, unit.Ratio(nan()), unit.ErrNotFinite},
		"negative loss": {unit.SquareFoot, good, -0.1, unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := HidesToBuy(c.net, c.hide, WasteFactor{Waste: c.w})
			require.ErrorIs(t, err, c.want)
		})
	}
}

func nan() float64 { z := 0.0; return z / z }

// An exact fit is not pushed over the edge by binary fractions.
func TestHidesToBuyExactFit(t *testing.T) {
	e, err := HidesToBuy(35*unit.SquareFoot, Hide{Area: 50 * unit.SquareFoot}, WasteFactor{Waste: 0.3})
	require.NoError(t, err)
	assert.Equal(t, 50*unit.SquareFoot, e.Gross)
	assert.Equal(t, 1, e.Hides)
	none, err := HidesToBuy(0, Hide{Area: 50 * unit.SquareFoot}, WholeHideWaste)
	require.NoError(t, err)
	assert.Zero(t, none.Hides)
}

// More waste never needs fewer hides, and the hides bought always cover gross.
func TestHidesLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := unit.Area(rapid.Int64Range(0, int64(900*unit.SquareFoot)).Draw(t, "net"))
		h := Hide{Area: unit.Area(rapid.Int64Range(int64(unit.SquareFoot), int64(100*unit.SquareFoot)).Draw(t, "hide"))}
		w1 := unit.Ratio(rapid.IntRange(0, 89).Draw(t, "w1")) / 100
		w2 := w1 + unit.Ratio(rapid.IntRange(0, 89-int(w1*100)).Draw(t, "more"))/100
		a, err := HidesToBuy(net, h, WasteFactor{Waste: w1})
		require.NoError(t, err)
		b, err := HidesToBuy(net, h, WasteFactor{Waste: min(w2, 0.9)})
		require.NoError(t, err)
		assert.LessOrEqual(t, a.Gross, b.Gross)
		assert.LessOrEqual(t, a.Hides, b.Hides)
		assert.GreaterOrEqual(t, unit.Area(a.Hides)*h.Area, a.Gross)
		assert.GreaterOrEqual(t, a.Gross, net)
	})
}

func TestLayRowsRefuses(t *testing.T) {
	roll := Roll{Width: 54 * in}
	p := Piece{Width: 20 * in, Length: 20 * in, Count: 1}
	for name, c := range map[string]struct {
		roll  Roll
		piece Piece
		want  error
	}{
		"no roll":      {Roll{}, p, unit.ErrRange},
		"all selvage":  {Roll{Width: 54 * in, Selvage: 20 * in}, p, unit.ErrRange},
		"too wide":     {roll, Piece{Width: 60 * in, Length: in, Count: 1}, ErrTooWide},
		"no count":     {roll, Piece{Width: in, Length: in}, unit.ErrRange},
		"too many":     {roll, Piece{Width: in, Length: in, Count: MostPieces + 1}, unit.ErrRange},
		"no unit":      {roll, Piece{Width: 20, Length: 20 * in, Count: 1}, unit.ErrForgottenUnit},
		"negative":     {roll, Piece{Width: -in, Length: in, Count: 1}, unit.ErrRange},
		"unknown turn": {roll, Piece{Width: in, Length: in, Count: 1, Turn: 9}, unit.ErrUnknown},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := LayRows(c.roll, []Piece{c.piece})
			require.ErrorIs(t, err, c.want)
		})
	}
	_, err := LayRows(roll, []Piece{{Width: in, Length: in, Count: MostPieces}, p})
	require.ErrorIs(t, err, ErrTooMany)
}

func TestLayRowsTurns(t *testing.T) {
	border := Piece{Name: "border", Width: 108 * in, Length: 5 * in, Count: 1, Turn: QuarterTurn}
	l, err := LayRows(Roll{Width: 54 * in}, []Piece{border})
	require.NoError(t, err)
	assert.Equal(t, 108*in, l.Need, "too wide to lie across: it runs up the roll")
	_, err = LayRows(Roll{Width: 54 * in, Nap: true}, []Piece{border})
	require.ErrorIs(t, err, ErrTooWide)
	long := Piece{Width: 5 * in, Length: 50 * in, Count: 1, Turn: QuarterTurn}
	l, err = LayRows(Roll{Width: 54 * in}, []Piece{long})
	require.NoError(t, err)
	assert.Equal(t, 5*in, l.Need, "railroaded")
}

func anyJob(t *rapid.T) (Roll, []Piece) {
	roll := Roll{
		Width:   unit.Length(rapid.IntRange(36, 66).Draw(t, "width")) * in,
		Selvage: unit.Length(rapid.IntRange(0, 4).Draw(t, "selvage")) * in / 4,
		Repeat:  unit.Length(rapid.SampledFrom([]int{0, 0, 9, 13, 27}).Draw(t, "repeat")) * in,
		Nap:     rapid.Bool().Draw(t, "nap"),
	}
	n := rapid.IntRange(1, 12).Draw(t, "n")
	pieces := make([]Piece, n)
	for i := range pieces {
		pieces[i] = Piece{
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
		l, err := LayRows(roll, pieces)
		require.NoError(t, err)
		require.NoError(t, l.Verify())
		assert.GreaterOrEqual(t, l.Need, l.Bound)
		y, err := l.Yield()
		require.NoError(t, err)
		assert.LessOrEqual(t, float64(y), 1.0)
		again, err := LayRows(roll, pieces)
		require.NoError(t, err)
		assert.Equal(t, l, again, "same input, same plan")
		// The bound does not fall when a piece is added.
		more, err := LayRows(roll, append(pieces, Piece{Width: 5 * in, Length: 5 * in, Count: 1}))
		require.NoError(t, err)
		assert.GreaterOrEqual(t, more.Bound, l.Bound)
	})
}

// The verifier must see every kind of fault, or it proves nothing.
func TestVerifySeesFaults(t *testing.T) {
	roll := Roll{Width: 54 * in, Repeat: 27 * in}
	good, err := LayRows(roll, []Piece{{Width: 20 * in, Length: 30 * in, Count: 3}})
	require.NoError(t, err)
	for name, spoil := range map[string]func(*Layout){
		"overlap":       func(l *Layout) { l.Placements[1].X = 10 * in },
		"outside right": func(l *Layout) { l.Placements[1].X = 50 * in },
		"outside left":  func(l *Layout) { l.Placements[0].X = -in },
		"past the end":  func(l *Layout) { l.Need -= in },
		"off repeat":    func(l *Layout) { l.Placements[2].Y -= in },
		"turned":        func(l *Layout) { p := &l.Placements[0]; p.Degrees = 90; p.Width, p.Length = p.Length, p.Width },
		"wrong size":    func(l *Layout) { l.Placements[0].Width -= in },
		"missing":       func(l *Layout) { l.Placements = l.Placements[:2] },
		"twice":         func(l *Layout) { l.Placements[1].Copy = 0 },
		"no such piece": func(l *Layout) { l.Placements[0].Piece = 4 },
		"under bound":   func(l *Layout) { l.Bound = l.Need + in },
		"order short":   func(l *Layout) { l.Order = l.Need - in },
	} {
		t.Run(name, func(t *testing.T) {
			bad := good
			bad.Placements = append([]Placement(nil), good.Placements...)
			spoil(&bad)
			require.ErrorIs(t, bad.Verify(), ErrBadLayout)
		})
	}
}

func FuzzParseFootage(f *testing.F) {
	for _, s := range []string{"4/1", "50.3", "12", "4/5", "", "99999999999", "1.10", "-3"} {
		f.Add(s, uint8(1))
		f.Add(s, uint8(2))
	}
	f.Fuzz(func(t *testing.T, s string, n uint8) {
		a, err := ParseFootage(s, Footage(n))
		if err == nil && (a < 0 || a > 1001*unit.SquareFoot) {
			t.Fatalf("%q: %v", s, a)
		}
	})
}

func BenchmarkLayRows40(b *testing.B) {
	pieces := []Piece{{Width: 26 * in, Length: 32 * in, Count: 10}, {Width: 18 * in, Length: 30 * in, Count: 20}, {Width: 50 * in, Length: 8 * in, Count: 10}}
	for b.Loop() {
		if _, err := LayRows(Roll{Width: 54 * in, Repeat: 27 * in}, pieces); err != nil {
			b.Fatal(err)
		}
	}
}
