package layout

import (
	"context"
	"errors"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

func anyRects(t *rapid.T) (material.Roll, []cloth) {
	roll := material.Roll{
		Width:   unit.Length(rapid.IntRange(36, 66).Draw(t, "width")) * in,
		Selvage: unit.Length(rapid.IntRange(0, 4).Draw(t, "selvage")) * in / 4,
		Repeat:  unit.Length(rapid.SampledFrom([]int{0, 0, 9, 13, 27}).Draw(t, "repeat")) * in,
		Nap:     rapid.Bool().Draw(t, "nap"),
	}
	out := make([]cloth, rapid.IntRange(1, 12).Draw(t, "n"))
	for i := range out {
		out[i] = cloth{
			width:  unit.Length(rapid.IntRange(8, 34*16).Draw(t, "w")) * in / 16,
			length: unit.Length(rapid.IntRange(8, 70*16).Draw(t, "l")) * in / 16,
			count:  rapid.IntRange(1, 6).Draw(t, "count"),
			turn:   Turn(rapid.IntRange(0, 1).Draw(t, "turn")),
			free:   rapid.Bool().Draw(t, "unmatched"),
		}
	}
	return roll, out
}

func TestRectangleLaws(t *testing.T) { few.Check(t, 10, rectangleLaws) }

func rectangleLaws(t *rapid.T) {
	roll, rects := anyRects(t)
	if roll.Repeat > 0 && rapid.Bool().Draw(t, "horizontal") {
		roll.Across = 13 * in
		if rapid.Bool().Draw(t, "half drop") {
			roll.Drop = material.Drop{Num: 1, Den: 2}
		}
	}
	if rapid.Bool().Draw(t, "flaw") {
		roll.Flaws = []material.Flaw{{X: 5 * in, Y: unit.Length(rapid.IntRange(0, 90).Draw(t, "at")) * in, Width: 2 * in, Length: 3 * in}}
	}
	for i := range rects {
		rects[i].width = min(rects[i].width, 30*in) // leave room beside the motif columns
		if roll.Patterned() && !rects[i].free && rapid.Bool().Draw(t, "centred") {
			rects[i].motif = shape.Point{X: rects[i].width / 2, Y: rects[i].length / 2}
		}
	}
	l, err := onRoll(roll, pieces(rects...), quick)
	if roll.Across > 0 && errors.Is(err, ErrNoLayout) {
		return // a wide piece may have no motif within reach
	}
	require.NoError(t, err)
	require.NoError(t, l.Verify())
	assert.GreaterOrEqual(t, l.Need, l.Bound().Length)
	again, err := onRoll(roll, pieces(rects...), quick)
	require.NoError(t, err)
	assert.Equal(t, l, again)
}

// The search is never worse than rows on paper.
func TestNeverWorseThanRows(t *testing.T) { few.Check(t, 12, neverWorseThanRows) }

func neverWorseThanRows(t *rapid.T) {
	roll, rects := anyRects(t)
	job := Job{Roll: &roll, Pieces: pieces(rects...)}
	table, err := newBoxTable(job, DefaultTolerance)
	require.NoError(t, err)
	rows, ok := table.rows(table.resting())
	require.True(t, ok)
	l, err := Solve(context.Background(), job, quick)
	require.NoError(t, err)
	assert.LessOrEqual(t, l.Need, rows.need)
	// Rows stand on their own feet: they are a right plan.
	l.Places, l.Joins = table.places(rows)
	l.Need, l.Method, l.Proved = rows.need, BoxesInRows, rows.need == l.Bound().Length
	l.Claims = append([]Claim{{Kind: l.Kind, Method: BoxesInRows, Length: rows.need}}, slices.DeleteFunc(slices.Clone(l.Claims), func(c Claim) bool { return c.Method.Lays() })...)
	l.Order, err = roll.Order(l.Need)
	require.NoError(t, err)
	require.NoError(t, l.Verify())
}

func TestRowsTurn(t *testing.T) {
	rows := func(roll material.Roll, c cloth) unit.Length {
		table, err := newBoxTable(Job{Roll: &roll, Pieces: pieces(c)}, DefaultTolerance)
		require.NoError(t, err)
		out, ok := table.rows(table.resting())
		require.True(t, ok)
		return out.need
	}
	assert.Equal(t, 108*in, rows(material.Roll{Width: 54 * in}, cloth{width: 108 * in, length: 5 * in, count: 1, turn: Railroad}), "too wide to lie across: it runs up the roll")
	assert.Equal(t, 5*in, rows(material.Roll{Width: 54 * in}, cloth{width: 5 * in, length: 50 * in, count: 1, turn: Railroad}), "railroaded")
}

func TestSameOnAnyNumberOfCores(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in}
	ps := pieces(cloth{width: 23 * in, length: 31 * in, count: 5}, cloth{width: 11 * in, length: 20 * in, count: 7}, cloth{width: 50 * in, length: 2 * in, count: 6, free: true})
	ps = append(ps, wingChair(t)[:2]...)
	o := Options{Effort: 0.02, Seed: 7}
	want, err := onRoll(roll, ps, o)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	got, err := onRoll(roll, ps, o)
	require.NoError(t, err)
	assert.Equal(t, want, got)
}

func TestBoxingIsJoined(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Selvage: in / 2}
	l, err := onRoll(roll, pieces(cloth{name: "boxing", width: 120 * in, length: 5 * in, count: 2, join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 6 * in, Most: 4}}), quick)
	require.NoError(t, err)
	assert.NotEmpty(t, l.Joins)
	var total [2]unit.Length
	for _, p := range l.Places {
		low, high := p.Bounds()
		total[p.Copy] += high.X - low.X
	}
	for c, sum := range total {
		joins := unit.Length(0)
		for _, s := range l.Joins {
			if s.Copy == c {
				joins++
			}
		}
		assert.Equal(t, 120*in+joins*in, sum, "two half-inch allowances at each join")
	}
}

func TestShadesKeepTogether(t *testing.T) {
	roll := material.Roll{Width: 54 * in}
	job := Job{Roll: &roll, Shades: []Shade{{Window: 45 * in}}, Pieces: pieces(cloth{width: 25 * in, length: 20 * in, count: 4, shade: 1}, cloth{width: 30 * in, length: 30 * in, count: 5})}
	l, err := Solve(context.Background(), job, quick)
	require.NoError(t, err)
	lo, hi := l.Need, unit.Length(0)
	for _, p := range l.Places {
		if p.Piece == 0 {
			low, high := p.Bounds()
			lo, hi = min(lo, low.Y), max(hi, high.Y)
		}
	}
	assert.LessOrEqual(t, hi-lo, 45*in)
	job.Shades, job.Pieces = []Shade{{Window: 20 * in}}, job.Pieces[:1]
	_, err = Solve(context.Background(), job, quick)
	require.ErrorIs(t, err, ErrNoLayout)
}

func TestRollRefuses(t *testing.T) {
	ok := cloth{width: 20 * in, length: 20 * in, count: 1}
	wide := material.Roll{Width: 54 * in}
	for name, c := range map[string]struct {
		roll  material.Roll
		cloth cloth
		o     Options
		want  error
	}{
		"no roll":        {material.Roll{}, ok, quick, unit.ErrRange},
		"all selvage":    {material.Roll{Width: 54 * in, Selvage: 20 * in}, ok, quick, unit.ErrRange},
		"too wide":       {wide, cloth{width: 60 * in, length: in, count: 1}, quick, ErrTooWide},
		"turned on nap":  {material.Roll{Width: 54 * in, Nap: true}, cloth{width: 108 * in, length: 5 * in, count: 1, turn: Railroad}, quick, ErrTooWide},
		"no count":       {wide, cloth{width: in, length: in}, quick, unit.ErrRange},
		"too many":       {wide, cloth{width: in, length: in, count: MostPieces + 1}, quick, unit.ErrRange},
		"unknown turn":   {wide, cloth{width: in, length: in, count: 1, turn: 9}, quick, unit.ErrUnknown},
		"effort":         {wide, ok, Options{Effort: -1}, unit.ErrRange},
		"effort is NaN":  {wide, ok, Options{Effort: unit.Ratio(nan())}, unit.ErrNotFinite},
		"no such shade":  {wide, cloth{width: in, length: in, count: 1, shade: 2}, quick, unit.ErrRange},
		"drop alone":     {material.Roll{Width: 54 * in, Repeat: 9 * in, Drop: material.Drop{Num: 1, Den: 2}}, ok, quick, unit.ErrRequired},
		"whole drop":     {material.Roll{Width: 54 * in, Repeat: 9 * in, Across: 9 * in, Drop: material.Drop{Num: 2, Den: 2}}, ok, quick, unit.ErrRange},
		"flaw outside":   {material.Roll{Width: 54 * in, Flaws: []material.Flaw{{X: 60 * in, Length: in}}}, ok, quick, unit.ErrRange},
		"join too short": {wide, cloth{width: 9 * in, length: in, count: 1, join: &Piecing{AlongWidth: true, Least: 10 * in, Most: 1}}, quick, unit.ErrRange},
		"too few joins":  {wide, cloth{width: 200 * in, length: in, count: 1, join: &Piecing{AlongWidth: true, Least: in, Most: 2}}, quick, ErrTooWide},
		"all shrunk":     {material.Roll{Width: 54 * in, Shrinkage: 0.9}, ok, quick, unit.ErrRange},
	} {
		_, err := onRoll(c.roll, pieces(c.cloth), c.o)
		require.ErrorIs(t, err, c.want, name)
	}
	_, err := onRoll(wide, nil, quick)
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = onRoll(wide, pieces(cloth{width: in, length: in, count: MostPieces}, ok), quick)
	require.ErrorIs(t, err, ErrTooMany)
	_, err = Solve(context.Background(), Job{Roll: &wide, Pieces: pieces(ok), Gap: -in}, quick)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = Solve(context.Background(), Job{Pieces: pieces(ok)}, quick)
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = Solve(context.Background(), Job{Roll: &wide, Hides: &Hides{}, Pieces: pieces(ok)}, quick)
	require.ErrorIs(t, err, unit.ErrRange)
}

func TestRollStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	roll := material.Roll{Width: 54 * in}
	l, err := Solve(ctx, Job{Roll: &roll, Pieces: pieces(cloth{width: 23 * in, length: 31 * in, count: 9}, cloth{width: 17 * in, length: 13 * in, count: 14})}, Options{Effort: 100})
	require.NoError(t, err)
	require.NoError(t, l.Verify(), "the best so far is a right layout")
	assert.True(t, l.Stopped || l.Proved)
}

func TestCompareRailroad(t *testing.T) {
	compare := func(c cloth) (Railroaded, error) {
		return CompareRailroad(context.Background(), Job{Roll: &material.Roll{Width: 54 * in}, Pieces: pieces(c)}, quick)
	}
	// A sofa back of 80 in cannot lie across 54 in goods.
	c, err := compare(cloth{width: 80 * in, length: 30 * in, count: 2})
	require.NoError(t, err)
	assert.Nil(t, c.UpTheRoll)
	require.NotNil(t, c.Railroad)
	assert.Equal(t, 160*in, c.Better.Need)
	// Square pieces: no difference, up the roll it is.
	c, err = compare(cloth{width: 20 * in, length: 20 * in, count: 4})
	require.NoError(t, err)
	assert.Same(t, c.UpTheRoll, c.Better)
	_, err = compare(cloth{width: 80 * in, length: 70 * in, count: 1})
	require.ErrorIs(t, err, ErrTooWide)
	_, err = CompareRailroad(context.Background(), Job{}, quick)
	require.ErrorIs(t, err, unit.ErrRequired)
}

// The verifier must see every kind of fault, or it proves nothing.
func TestVerifySeesFaults(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in}
	good, err := onRoll(roll, pieces(cloth{name: "back", width: 20 * in, length: 30 * in, count: 3}, cloth{width: 5 * in, length: 5 * in, count: 1}), quick)
	require.NoError(t, err)
	to := func(l *Plan, i int, x, y unit.Length) {
		q := &l.Places[i]
		low, _ := q.Bounds()
		q.X, q.Y = q.X+x-low.X, q.Y+y-low.Y
		q.Outline = slices.Clone(q.Outline)
		for k := range q.Outline {
			q.Outline[k].X += x - low.X
			q.Outline[k].Y += y - low.Y
		}
	}
	for want, spoil := range map[string]func(*Plan){
		"back copy 1 of 3 and back copy 2 of 3": func(l *Plan) { low, _ := l.Places[0].Bounds(); to(l, 1, low.X, low.Y) },
		"place 0: wrong shape":                  func(l *Plan) { l.Places[0].X -= in },
		"place 3: turned":                       func(l *Plan) { l.Places[3].Turned = 45 },
		"is not laid completely":                func(l *Plan) { l.Places = l.Places[1:] },
		"laid twice":                            func(l *Plan) { l.Places[1].Copy = 0 },
		"no such piece":                         func(l *Plan) { l.Places[0].Piece = 4 },
		"under the bound": func(l *Plan) {
			l.Claims = append(slices.Clone(l.Claims), Claim{Kind: l.Bound().Kind, Method: ByRows, Length: l.Need + in})
		},
		"order is":      func(l *Plan) { l.Order = l.Need - in },
		"wrong hand":    func(l *Plan) { l.Places[0].Mirrored = true },
		"nothing there": func(l *Plan) { l.Places[0].Outline = nil },
		"no claim by":   func(l *Plan) { l.Method = BoxesInRows },
		"proved is":     func(l *Plan) { l.Proved = !l.Proved },
		"is no bound":   func(l *Plan) { l.Claims = slices.Clone(l.Claims); l.Claims[0].Kind = l.Bound().Kind },
	} {
		bad := good
		bad.Places = slices.Clone(good.Places)
		spoil(&bad)
		err := bad.Verify()
		require.ErrorIs(t, err, ErrBadLayout, want)
		require.ErrorContains(t, err, want)
	}
	for _, at := range [][2]unit.Length{{50, 0}, {-1, 0}, {0, 5}, {0, 1000}} {
		bad := good
		bad.Places = slices.Clone(good.Places)
		to(&bad, 0, at[0]*in, at[1]*in)
		require.ErrorIs(t, bad.Verify(), ErrBadLayout, "outside, off the repeat, past the end")
	}
	require.NoError(t, good.Verify())
}

func BenchmarkRectangles40WithRepeat(b *testing.B) {
	ps := pieces(cloth{width: 26 * in, length: 32 * in, count: 10}, cloth{width: 18 * in, length: 30 * in, count: 20}, cloth{width: 50 * in, length: 8 * in, count: 10})
	for b.Loop() {
		_, err := onRoll(material.Roll{Width: 54 * in, Repeat: 27 * in}, ps, light)
		require.NoError(b, err)
	}
}
