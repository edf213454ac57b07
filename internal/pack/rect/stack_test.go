package rect

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
)

func stackOf(t require.TestingT, j *Job, effort float64) *Plan {
	p, err := Stack(context.Background(), j, Options{Effort: effort, Seed: 1})
	require.NoError(t, err)
	require.LessOrEqual(t, p.Bound, p.Length)
	return p
}

// matched is a piece with a point on a motif, in quarter inches.
func matched(n int, w, h, x, y int64) Piece {
	return Piece{W: w, H: h, Count: n, Match: X | Y, Spots: []Spot{{X: x, Y: y}}, Set: 1}
}

// Jobs of which the optimum is known by complete search over a grid (derived), in quarter inches, the start free. The
// grid holds it: with all data multiples of a unit some optimum has all places multiples of it.
func TestStackFindsKnownOptima(t *testing.T) {
	narrow := Repeat{PeriodX: 106, PeriodY: 108, OriginX: 53}
	wide := Repeat{PeriodX: 108, PeriodY: 108, OriginX: 54}
	drop := narrow
	drop.DropNum, drop.DropDen = 1, 2
	third := narrow
	third.DropNum, third.DropDen = 1, 3
	edge := narrow
	edge.OriginX = 0
	backs := []Piece{matched(4, 88, 96, 44, 48)}
	chain := []Piece{matched(1, 104, 128, 52, 84), matched(1, 100, 100, 50, 140), matched(1, 100, 20, 50, 156), matched(1, 108, 36, 54, 186)}
	for _, c := range []struct {
		name    string
		width   int64
		repeat  Repeat
		pieces  []Piece
		optimum int64
	}{
		{"four backs", 212, narrow, backs, 204},
		{"four backs, a motif on the edge", 212, edge, backs, 420},
		{"four backs, half drop", 212, drop, backs, 258},
		{"four backs, third drop", 212, third, backs, 240},
		{"a chain of a chair", 216, wide, chain, 164},
		{"the chain with a skirt", 216, wide, append(chain[:4:4], matched(1, 108, 36, 54, 218)), 226},
		{"tops and fronts", 216, wide, []Piece{matched(3, 100, 100, 50, 50), matched(3, 100, 20, 50, 66)}, 328},
		{"strips in the holes", 212, narrow, []Piece{matched(2, 88, 96, 44, 48), {W: 200, H: 12, Count: 3}}, 132},
		{"borders", 216, wide, []Piece{matched(2, 96, 104, 48, 56), matched(4, 96, 36, 48, 18)}, 252},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := &Job{Width: c.width, Repeat: c.repeat, Pieces: c.pieces, Sets: []Set{{Y, 1}}}
			assert.Equal(t, c.optimum, stackOf(t, j, 0.003).Length)
		})
	}
}

// A piece of angled outline leaves its corner to another: a body of 6 by 6 on a foot of 10 by 2, beside which 4 by 6 stands
// on goods 10 wide.
func TestStackFillsCorners(t *testing.T) {
	foot := Piece{W: 10, H: 8, Count: 1, Cells: []Cell{{0, 0, 10, 2}, {0, 2, 6, 6}}}
	j := &Job{Width: 10, Pieces: []Piece{foot, {W: 4, H: 6, Count: 1}}}
	assert.Equal(t, int64(8), stackOf(t, j, 0.001).Length)
	j.Pieces[0].Cells = nil
	assert.Equal(t, int64(14), stackOf(t, j, 0.001).Length)
	// Two of each, one foot up.
	j.Pieces = []Piece{foot, foot, {W: 4, H: 6, Count: 2}}
	j.Pieces[1].Turns = HalfTurn
	p := stackOf(t, j, 0.001)
	assert.Equal(t, int64(16), p.Length)
	assert.Equal(t, HalfTurn, p.Placed[1].Turn)
}

// Motifs that may be moved across, too, lie where all pieces of the set have a column.
func TestStackMovesMotifs(t *testing.T) {
	j := &Job{Width: 20, Repeat: Repeat{PeriodX: 8, PeriodY: 6, OriginX: 1, OriginY: 2}, Sets: []Set{{X | Y, 1}},
		Pieces: []Piece{{W: 8, H: 6, Count: 4, Match: X | Y, Spots: []Spot{{3, 4, 0}}, Set: 1}}}
	p := stackOf(t, j, 0.001)
	assert.Equal(t, int64(12), p.Length, "two beside each other")
	require.Len(t, p.Moved, 1)
	// They are moved by whole steps.
	j.Sets[0].Step = 5
	p = stackOf(t, j, 0.001)
	assert.Zero(t, p.Moved[0][0]%5)
	assert.Zero(t, p.Moved[0][1]%5)
}

// drawStack draws a job for Stack in small numbers.
func drawStack(t *rapid.T, most int) *Job {
	num := func(from, to int64, what string) int64 { return rapid.Int64Range(from, to).Draw(t, what) }
	j := &Job{Width: num(10, 24, "width"), Gap: num(0, 1, "gap"), Repeat: Repeat{PeriodX: num(0, 7, "px"), PeriodY: num(0, 7, "py"), OriginX: num(0, 6, "ox"), OriginY: num(0, 6, "oy")}}
	if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 {
		if j.Repeat.DropDen = num(0, 3, "den"); j.Repeat.DropDen > 1 {
			j.Repeat.DropNum = num(0, j.Repeat.DropDen-1, "num")
		}
	}
	for range num(0, 2, "sets") {
		j.Sets = append(j.Sets, Set{Moves: Axes(num(0, 3, "moves")), Step: num(1, 3, "step")})
	}
	for range num(1, int64(most), "kinds") {
		p := Piece{W: num(1, 9, "w"), H: num(1, 9, "h"), Count: int(num(1, 4, "count")), Turns: Turns(num(0, 15, "turns")), Match: Axes(num(0, 3, "match")), MovedX: num(-3, 3, "moved")}
		p.Set = int(num(0, int64(len(j.Sets)), "set"))
		for range num(0, 2, "points") {
			p.Spots = append(p.Spots, Spot{X: num(-4, 9, "x"), Y: num(-4, 9, "y")})
		}
		if p.W > 1 && p.H > 1 && num(0, 1, "angled") == 1 {
			x, y := num(1, p.W-1, "at x"), num(1, p.H-1, "at y")
			p.Cells = []Cell{{0, 0, p.W, y}, {x, y, p.W - x, p.H - y}}
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// A plan lies on the motifs, moved for its sets alone as far as these allow, on the goods, its cells apart; it is no
// shorter than a proved optimum of the boxes where they are all there is; and it is the same for any number at once.
func TestStackLaws(t *testing.T) {
	few.Check(t, 15, func(t *rapid.T) { stackLaws(t, drawStack(t, 4)) })
}

func stackLaws(t *rapid.T, j *Job) {
	p, err := Stack(context.Background(), j, Options{Effort: 0.0005, Seed: 4})
	if err != nil {
		require.ErrorIs(t, err, ErrNoLayout)
		return
	}
	again, err := Stack(context.Background(), j, Options{Effort: 0.0005, Seed: 4, AtOnce: 1})
	require.NoError(t, err)
	assert.Equal(t, p, again)
	var ground []obstacle
	for _, q := range p.Placed {
		piece := j.Pieces[q.Piece]
		var own []obstacle
		for _, c := range piece.covered(q.Turn) {
			o := obstacle{q.X + c.x0, q.Y + c.y0, q.X + c.x1, q.Y + c.y1}
			for _, b := range ground {
				assert.True(t, o.x0 >= b.x1+j.Gap || b.x0 >= o.x1+j.Gap || o.y0 >= b.y1+j.Gap || b.y0 >= o.y1+j.Gap, "%v on %v", o, b)
			}
			own = append(own, o)
		}
		ground = append(ground, own...)
		// Each by itself, by the referee: on the goods, on a motif.
		piece.Count = 1
		alone := &Job{Width: j.Width, Repeat: j.Repeat, Pieces: []Piece{piece}}
		q.Piece, q.Copy = 0, 0
		assert.NoError(t, check(alone, &Plan{Length: q.Y + q.H, Placed: []Placed{q}, Moved: p.Moved}))
		assert.LessOrEqual(t, q.Y+q.H, p.Length)
	}
	for k, m := range p.Moved {
		for axis, v := range m {
			if j.Sets[k].Moves&(X<<axis) == 0 {
				assert.Zero(t, v)
			}
		}
	}
	boxes := *j
	boxes.Pieces = append([]Piece(nil), j.Pieces...)
	angled := false
	for i := range boxes.Pieces {
		q := &boxes.Pieces[i]
		angled = angled || q.Cells != nil
		q.Cells = nil
		if q.Set > 0 && p.Moved != nil {
			q.MovedX, q.MovedY = q.MovedX+p.Moved[q.Set-1][0], q.MovedY+p.Moved[q.Set-1][1]
		}
	}
	if best := solve(t, &boxes, 0.001); best.Proved && !angled {
		assert.GreaterOrEqual(t, p.Length, best.Length)
	}
}

func TestStackRefuses(t *testing.T) {
	good := func() *Job { return &Job{Width: 9, Pieces: []Piece{{W: 3, H: 3, Count: 2}}} }
	for name, spoil := range map[string]func(*Job){
		"Flaws":     func(j *Job) { j.Flaws = []Flaw{{0, 0, 1, 1}} },
		"Groups":    func(j *Job) { j.Groups = []Group{{9}} },
		"MaxLength": func(j *Job) { j.MaxLength = 30 },
		"Split":     func(j *Job) { j.Pieces[0].Split = &Split{Along: X, Min: 1, MaxSeams: 1} },
		"Set":       func(j *Job) { j.Pieces[0].Set = 1 },
		"Step":      func(j *Job) { j.Sets = []Set{{X, 0}} },
		"Cells":     func(j *Job) { j.Pieces[0].Cells = []Cell{{1, 1, 3, 1}} },
	} {
		j := good()
		spoil(j)
		_, err := Stack(context.Background(), j, Options{})
		var bad *InputError
		require.ErrorAs(t, err, &bad, name)
		assert.Contains(t, bad.Field, name)
	}
	_, err := Stack(context.Background(), &Job{Width: 9, Repeat: Repeat{PeriodX: 9}, Pieces: []Piece{{W: 8, H: 1, Count: 1, Match: X, Spots: []Spot{{X: 6}}}}}, Options{})
	require.ErrorIs(t, err, ErrNoLayout)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	p, err := Stack(ctx, good(), Options{})
	require.NoError(t, err)
	assert.True(t, p.Stopped)
}

// FuzzStack reads a job from bytes: no input may panic, and boxes are verified by Stack.
func FuzzStack(f *testing.F) {
	f.Add([]byte{20, 0, 5, 6, 1, 2, 3, 1, 12, 4, 1, 1, 3, 0, 1, 7, 6, 2, 15, 3, 1, 2})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 80 {
			return
		}
		next := func() int64 {
			if len(data) == 0 {
				return 0
			}
			v := int64(int8(data[0]))
			data = data[1:]
			return v
		}
		j := &Job{Width: next(), Gap: next(), Repeat: Repeat{PeriodX: next(), PeriodY: next(), OriginX: next(), DropNum: next(), DropDen: next()}}
		j.Sets = []Set{{Axes(next() & 3), next()}}
		for len(data) > 0 {
			p := Piece{W: next(), H: next(), Count: int(next()), Turns: Turns(next()), Match: Axes(next()), Set: int(next())}
			if c := next(); c != 0 {
				p.Cells = []Cell{{0, 0, p.W, c}, {c, c, p.W - c, p.H - c}}
			}
			p.Spots = []Spot{{X: next(), Y: next()}}
			j.Pieces = append(j.Pieces, p)
		}
		p, err := Stack(context.Background(), j, Options{Effort: 0.0002})
		if err != nil && !errors.As(err, new(*InputError)) && !errors.Is(err, ErrNoLayout) {
			t.Fatal(err)
		}
		if err == nil && p.Length < p.Bound {
			t.Fatalf("length %d below the bound %d", p.Length, p.Bound)
		}
	})
}

func BenchmarkStack(b *testing.B) {
	j := &Job{Width: 216, Repeat: Repeat{PeriodX: 108, PeriodY: 108, OriginX: 54}, Sets: []Set{{Y, 1}}, Pieces: []Piece{
		matched(6, 104, 128, 52, 84), matched(6, 100, 100, 50, 140), matched(6, 100, 20, 50, 156), {W: 216, H: 7, Count: 12}, {W: 84, H: 24, Count: 20},
	}}
	for b.Loop() {
		stackOf(b, j, 0.01)
	}
}
