package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// matchedBack is a panel of a width, in quarters of an inch, that may be joined with
// half an inch at each join; its motif is across of the middle.
func matchedBack(w, h, fromMiddle, high unit.Length) Piece {
	p := cloth{name: "back", width: w * in / 4, length: h * in / 4, count: 1, join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 3 * in, Most: 4}}.piece()
	p.Phase = OnMotif(shape.Point{X: (w/2 + fromMiddle) * in / 4, Y: high * in / 4})
	return p
}

// lies gives the widths of the segments of copy 0 of piece 0 and their places
// across, in quarters of an inch.
func lies(p Plan) (widths, places []unit.Length) {
	for _, q := range p.Places {
		if low, high := q.Bounds(); q.Piece == 0 && q.Copy == 0 {
			widths, places = append(widths, (high.X-low.X)*4/in), append(places, low.X*4/in)
		}
	}
	return widths, places
}

// The worked jobs of joined backs, now given as one panel each: 83 in finished with
// half an inch all round, with a gap or a motif in the middle. They are cut as worked out by
// hand: a full width in the centre, sides of 16 1/2 or 16 in, and lie at the
// places across that follow.
func TestJoinedOptima(t *testing.T) {
	damask := material.Roll{Width: 53 * in, Across: 53 * in / 2, Repeat: 27 * in, First: shape.Point{X: 53 * in / 4}, UnknownStart: true}
	three := material.Roll{Width: 54 * in, Across: 18 * in, Repeat: 27 * in, First: inches(9, 0), UnknownStart: true}
	two := material.Roll{Width: 54 * in, Across: 27 * in, Repeat: 27 * in, First: shape.Point{X: 27 * in / 2}, UnknownStart: true}
	cushions := cloth{name: "cushion", width: 25 * in, length: 25 * in, count: 3, motif: shape.Point{X: 25 * in / 2, Y: 25 * in / 2}}.piece()
	for _, c := range []struct {
		name           string
		roll           material.Roll
		pieces         []Piece
		optimum        unit.Length // in quarters of an inch, as all below
		widths, places []unit.Length
	}{
		{"two motifs across", damask, []Piece{matchedBack(336, 104, 53, 56)}, 320, []unit.Length{66, 212, 66}, []unit.Length{44, 0, 102}},
		{"three motifs across", three, []Piece{matchedBack(336, 104, 0, 56)}, 212, []unit.Length{64, 216, 64}, []unit.Length{12, 0, 140}},
		{"taller than the repeat", damask, []Piece{matchedBack(336, 120, 53, 68)}, 552, []unit.Length{66, 212, 66}, []unit.Length{44, 0, 102}},
		{"with three cushions", two, []Piece{matchedBack(336, 104, 54, 56), cushions}, 422, []unit.Length{64, 216, 64}, nil},
	} {
		p, err := Solve(t.Context(), Job{Roll: &c.roll, Pieces: c.pieces}, Options{Effort: 0.2})
		require.NoError(t, err, c.name)
		widths, places := lies(p)
		assert.Equal(t, c.widths, widths, c.name)
		if c.places != nil {
			for k, every := range places {
				assert.Zero(t, (every-c.places[k])%(c.roll.Across*4/in), "%s: segment %d at %d", c.name, k, every)
			}
		}
		assert.Equal(t, c.optimum*in/4, p.Need, c.name)
		assert.True(t, p.Proved, c.name)
	}
}

// The inside back of a sofa, 84 in wide and 26 in high as cut, up the roll on goods
// 54 in wide; a motif 14 in up in the middle of the back, joins with 1/2 in.
//
// Motifs every 18 in across, at 9, 27 and 45 in: the middle of the back lies on
// the motif in the middle of the goods, and the centre takes the full width, 15 to 69 in of the
// back with its allowances, joins at 15 1/2 and 68 1/2 in. The left side is 15 1/2 + 1/2 = 16 in,
// and begins 42 in left of a motif: at 27 - 42 = -15 or 3, 21 in; the right one begins at 68 in of
// the back, 26 in right of the middle: at 53 or 17, 35 in. Left at 3 and right at 35 they lie abreast, a
// repeat of 27 in up the roll: 27 + 26 = 53 in.
func TestSofaBackIsJoined(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Across: 18 * in, Repeat: 27 * in, First: inches(9, 14)}
	p, err := onRoll(roll, []Piece{matchedBack(336, 104, 0, 56)}, light)
	require.NoError(t, err)
	assert.Equal(t, []Join{{At: 31 * in / 2}, {At: 137 * in / 2}}, p.Joins)
	assert.Equal(t, 53*in, p.Need)
	assert.True(t, p.Proved)
	for k, q := range p.Places {
		assert.Equal(t, [2]int{k, 3}, [2]int{q.Segment, q.Segments})
		assert.Equal(t, []unit.Length{3, 0, 35}[k]*in, q.X)
		assert.Equal(t, p.Places[2].Y, p.Places[0].Y, "the sides abreast")
	}
	assert.Equal(t, 27*in, max(p.Places[0].Y, p.Places[1].Y), "a repeat from the centre")
}

// The same back on goods that repeat every 27 in across, motifs at 13 1/2 and 40 1/2 in. The middle of the goods, 27 in, is between two motifs. About the motif at
// 13 1/2 in the centre reaches as far as the left edge, 13 1/2 in to each side: it is
// 27 in wide, 26 in finished between joins at 42 - 13 = 29 and 55 in. Each side
// is 29 in finished and 29 1/2 in cut. The left one begins at the left edge of the back, 42 in left of a
// motif: at 13 1/2 - 42 = -28 1/2 or, two columns on, 25 1/2 in; to 55 in. That is an inch
// over the edge of the goods, and so is the right one. So there are two more joins: a
// segment that ends at 29 1/2 in of the back ends on the goods at 13 1/2 + 29 1/2 - 42 = 1 in,
// or 28 in: it is 28 in wide at most, from 1 1/2 to 29 1/2 in, and the join is at 2 in. The strip left over is
// finished 2 in: too little where 3 in are asked for, and the joins are at 3, 29, 55 and 81 in.
func TestFurtherJoins(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Across: 27 * in, Repeat: 27 * in, First: shape.Point{X: 27 * in / 2, Y: 14 * in}}
	p, err := onRoll(roll, []Piece{matchedBack(336, 104, 0, 56)}, light)
	require.NoError(t, err)
	var joins []unit.Length
	for _, j := range p.Joins {
		joins = append(joins, j.At/in)
	}
	assert.Equal(t, []unit.Length{3, 29, 55, 81}, joins)
	widths, places := lies(p)
	assert.Equal(t, []unit.Length{14, 4 * 27, 4 * 27, 4 * 27, 14}, widths)
	// At x + p - s, with x = -28 1/2 in: -28 1/2, -26, 0, 26 and 52 in, modulo 27 in.
	for k, from := range []unit.Length{-114, -104, 0, 104, 208} {
		assert.Zero(t, (places[k]-from)%108, "segment %d at %d quarters", k, places[k])
	}
	require.NoError(t, p.Verify())
}

// The verifier sees segments that do not go on with the pattern, and joins
// elsewhere.
func TestVerifySeesJoinsThatDoNotMatch(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Across: 18 * in, Repeat: 27 * in, First: inches(9, 14)}
	good, err := onRoll(roll, []Piece{matchedBack(336, 104, 0, 56)}, light)
	require.NoError(t, err)
	move := func(p *Plan, k int, x, y unit.Length) {
		p.Places[k].X, p.Places[k].Y = p.Places[k].X+x, p.Places[k].Y+y
		p.Places[k].Outline = pointsAt(ringAt(p.Places[k].Outline), x, y)
	}
	for name, c := range map[string]struct {
		spoil func(*Plan)
		want  string
	}{
		"up":             {func(p *Plan) { move(p, 0, 0, in) }, "place 0: off the repeat"},
		"aside":          {func(p *Plan) { move(p, 2, in, 0) }, "place 2: off the repeat"},
		"bound to less":  {func(p *Plan) { p.Job.Pieces[0].Phase.Axes = AcrossOnly; move(p, 2, 0, in) }, "place 2: the pattern does not run on"},
		"exchanged":      {func(p *Plan) { p.Places[0].Segment, p.Places[2].Segment = 2, 0 }, "off the repeat"},
		"other joins":    {func(p *Plan) { p.Joins[0].At += in; p.Joins[1].At -= in }, "off the repeat"},
		"uneven joins":   {func(p *Plan) { p.Joins[0].At += in }, "joins that differ left and right"},
		"a join too few": {func(p *Plan) { p.Joins = p.Joins[1:] }, "1 joins in a piece"},
		"too short":      {func(p *Plan) { p.Joins[0].At, p.Joins[1].At = 2*in, 82*in }, "a segment of 2 in"},
		"no joins":       {func(p *Plan) { p.Joins = nil }, "segment 1 of 3, with 0 joins"},
		"of nothing":     {func(p *Plan) { p.Joins = append(p.Joins, Join{Piece: 3}) }, "no such piece"},
		"off the job": {func(p *Plan) { // a narrower centre: a way to join it, not the one it is laid by
			p.Job.Pieces[0].Join.Least = 16 * in
		}, "a segment of 15 1/2 in"},
	} {
		bad := good
		bad.Job.Pieces = []Piece{good.Job.Pieces[0]}
		join := *good.Job.Pieces[0].Join
		bad.Job.Pieces[0].Join = &join
		bad.Places, bad.Joins = append([]Place(nil), good.Places...), append([]Join(nil), good.Joins...)
		c.spoil(&bad)
		err := bad.Verify()
		require.ErrorIs(t, err, ErrBadLayout, name)
		require.ErrorContains(t, err, c.want, name)
	}
	require.NoError(t, good.Verify())
}

func ringAt(pts []shape.Point) geom.Ring {
	out := make(geom.Ring, len(pts))
	for i, q := range pts {
		out[i] = geom.Point{X: int64(q.X), Y: int64(q.Y)}
	}
	return out
}

// A panel that cannot be joined to match is refused, and told what would serve.
func TestJoinsThatDoNotMatch(t *testing.T) {
	two := material.Roll{Width: 54 * in, Across: 27 * in, Repeat: 27 * in, First: shape.Point{X: 27 * in / 2}}
	wide := material.Roll{Width: 54 * in, Across: 54 * in, Repeat: 27 * in}
	for _, c := range []struct {
		name        string
		roll        material.Roll
		spoil       func(*Piece)
		field, want string
		is          error
	}{
		{"too few joins", two, func(p *Piece) { p.Join.Most = 3 }, "pieces[0].join.most", "at least 4 joins, as many to the left", unit.ErrRange},
		{"motifs at the edges", wide, func(*Piece) {}, "pieces[0].join", "a motif from 2 in to 52 in from the left usable edge, or whole repeats of 54 in", ErrNoLayout},
		{"segments too long for three", two, func(p *Piece) { p.Join.Least = 29 * in }, "pieces[0].join.least", "at most 28 in", unit.ErrRange},
		{"allowances as wide as the goods", two, func(p *Piece) { p.Join.Allowance = 27 * in }, "pieces[0].join.least", "at most 0 in, the usable width", unit.ErrRange},
		{"segments that fit nowhere", two, func(p *Piece) { p.Join.Least, p.Join.Most = 27*in, 64 }, "pieces[0].join", "a motif from 14 in to 40 in", ErrNoLayout},
		{"sides that fit nowhere", two, func(p *Piece) { p.Join.Least, p.Join.Most = 22*in, 64 }, "pieces[0].join", "a shorter least length", ErrNoLayout},
		{"too many segments", two, func(p *Piece) { p.Count = MostPieces / 4 }, "pieces[0].count", "at most 10000 pieces and segments", ErrTooMany},
	} {
		p := matchedBack(336, 104, 0, 56)
		c.spoil(&p)
		for _, up := range []bool{true, false} {
			roll, q := c.roll, p
			if !up { // the same on its side
				roll.Repeat, roll.Across, roll.Up, roll.First = roll.Across, roll.Repeat, material.UpToRight, shape.Point{X: roll.First.X}
				q.quarterTurn()
			}
			_, err := onRoll(roll, []Piece{q}, quick)
			require.ErrorIs(t, err, c.is, c.name)
			var bad *unit.InputError
			require.ErrorAs(t, err, &bad, c.name)
			assert.Equal(t, c.field, string(bad.Field), c.name)
			assert.Contains(t, bad.Want, c.want, c.name)
		}
	}
}

// A border of 200 in joined of full widths, on goods 55 in wide that repeat every 27 in
// across: with 1/2 in at the joins a full width is finished 54 in, two repeats,
// so that its segments all lie at the same place across, and every one is a full
// width but the two at the ends.
func TestBorderJoinedAtARepeat(t *testing.T) {
	roll := material.Roll{Width: 55 * in, Across: 27 * in, Repeat: 18 * in, First: shape.Point{X: 14 * in, Y: 0}}
	border := cloth{name: "border", width: 200 * in, length: 9 * in, count: 1, join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 3 * in, Most: 8}}.piece()
	border.Phase = OnMotif(shape.Point{X: 100*in + 27*in/2, Y: 4 * in})
	p, err := onRoll(roll, []Piece{border}, light)
	require.NoError(t, err)
	widths, places := lies(p)
	assert.Equal(t, []unit.Length{78, 220, 220, 220, 78}[1:4], widths[1:4])
	assert.Equal(t, []unit.Length{0, 0, 0}, places[1:4])
	assert.Equal(t, 19*in, (widths[0]-2)*in/4, "(200 - 3 x 54) / 2")
	assert.Equal(t, widths[0], widths[4])
}

// On goods 54 in wide a panel with 1/2 in at its joins is joined when it must be and no
// more often, whatever lies beside it: two parts of 53 1/2 in finish at 107 in, and with
// one of 53 in between at 160 in. One that may be railroaded is whole.
func TestNoMoreJoinsThanNeeded(t *testing.T) {
	triangle, err := shape.Polygon(inches(0, 0), inches(30, 0), inches(0, 40))
	require.NoError(t, err)
	for _, c := range []struct {
		width unit.Length
		turn  Turn
		joins int
	}{{54 * in, KeepGrain, 0}, {217 * in / 4, KeepGrain, 1}, {107 * in, HalfTurn, 1}, {429 * in / 4, KeepGrain, 2}, {159 * in, KeepGrain, 2}, {641 * in / 4, KeepGrain, 3}, {159 * in, Railroad, 0}} {
		for _, up := range []material.Up{material.UpTheRoll, material.UpToLeft} {
			for _, beside := range [][]Piece{nil, pieces(cloth{width: 20 * in, length: 18 * in, count: 3}), {{Outline: triangle, Count: 4, Turn: HalfTurn}}} {
				seat := cloth{width: c.width, length: 18 * in, count: 2, turn: c.turn, join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 6 * in, Most: 5}}
				if up.Sideways() {
					seat.width, seat.length, seat.join.AlongWidth = seat.length, seat.width, false
				}
				p, err := onRoll(material.Roll{Width: 54 * in, Up: up}, append([]Piece{seat.piece()}, beside...), quick)
				require.NoError(t, err, "%v, %v, %v, %d beside", c.width, c.turn, up, len(beside))
				assert.Len(t, p.Joins, 2*c.joins, "%v, %v, %v, %d beside", c.width, c.turn, up, len(beside))
			}
		}
	}
}

// On random goods the pattern runs on over every join of random panels: the two
// cut edges, each its allowance outside the join, show the same of the pattern
// when they lie on it, in the columns of a drop too.
func TestPatternRunsOnOverJoins(t *testing.T) { few.Check(t, 10, patternRunsOnOverJoins) }

func patternRunsOnOverJoins(t *rapid.T) {
	pick := func(name string, from, to int) unit.Length {
		return unit.Length(rapid.IntRange(from, to).Draw(t, name))
	}
	roll := material.Roll{Width: pick("width", 30, 60) * in, Repeat: pick("repeat", 0, 20) * in}
	if roll.Repeat == 0 || rapid.IntRange(0, 3).Draw(t, "columns") > 0 {
		roll.Across = pick("across", 4, 30) * in
		if den := rapid.IntRange(1, 4).Draw(t, "parts"); den > 1 && roll.Repeat > 0 {
			roll.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
		}
	}
	roll.First = shape.Point{X: pick("ox", 0, 30) * in, Y: pick("oy", 0, 20) * in}
	roll.Up = rapid.SampledFrom([]material.Up{0, material.UpToLeft, material.UpToRight}).Draw(t, "up")
	j := Job{Roll: &roll}
	for range rapid.IntRange(1, 2).Draw(t, "pieces") {
		x, y, w, h := pick("x", -20, 20), pick("y", -20, 20), pick("w", 30, 150), pick("h", 3, 20)
		along := !roll.Up.Sideways()
		if !along {
			w, h = h, w
		}
		p := Piece{Outline: boxAt(t, x, y, w, h), Count: rapid.IntRange(1, 3).Draw(t, "count"), Turn: rapid.SampledFrom([]Turn{KeepGrain, HalfTurn}).Draw(t, "turn"),
			Hand: rapid.SampledFrom([]Hand{AsDrawn, Paired}).Draw(t, "hand"),
			Join: &Piecing{AlongWidth: along, Allowance: pick("s", 0, 4) * in / 4, Least: pick("least", 1, 4) * in, Most: int(pick("most", 2, 12))}}
		p.Phase = OnMotif(shape.Point{X: pick("mx", -9, 99) * in / 2, Y: pick("my", -9, 40) * in})
		p.Phase.Axes = Axes(rapid.IntRange(0, 2).Draw(t, "axes"))
		p.Phase.Common = rapid.IntRange(0, 1).Draw(t, "common")
		if rapid.Bool().Draw(t, "two points") {
			p.Phase.Spots = append(p.Phase.Spots, Spot{Point: inches(pick("mx", -9, 99), 3), Degrees: []int{0}})
		}
		j.Pieces = append(j.Pieces, p)
	}
	p, err := Solve(t.Context(), j, quick)
	if err != nil {
		require.True(t, typed(err), "%v", err)
		return
	}
	require.NoError(t, p.Verify())
	cuts := map[Copy][]unit.Length{}
	for _, s := range p.Joins {
		cuts[Copy{s.Piece, s.Copy}] = append(cuts[Copy{s.Piece, s.Copy}], s.At)
	}
	at := map[[3]int]Place{}
	for _, q := range p.Places {
		at[[3]int{q.Piece, q.Copy, q.Segment}] = q
	}
	for c, joins := range cuts {
		if axes := j.Pieces[c.Piece].Phase.Axes; axes == AcrossOnly && roll.Columns() == 0 || axes == AlongOnly && roll.Repeat == 0 {
			continue // nothing of the goods binds it
		}
		require.Zero(t, len(joins)%2)
		for k := range joins {
			a, b := at[[3]int{c.Piece, c.Copy, k}], at[[3]int{c.Piece, c.Copy, k + 1}]
			s := j.Pieces[c.Piece].Join
			// The end of one segment and the start of the next, on the join.
			low, high := a.Bounds()
			end, start := shape.Point{X: high.X - low.X - s.Allowance}, shape.Point{X: s.Allowance}
			if !s.AlongWidth { // it lies across the goods, on its side
				end, start = shape.Point{Y: end.X}, shape.Point{Y: s.Allowance}
			}
			require.Equal(t, a.Turned, b.Turned)
			end, start = turnedPoint(end, int(a.Turned)/90), turnedPoint(start, int(b.Turned)/90)
			off := roll.Motifs().Apart(shape.Point{X: b.X + start.X - a.X - end.X, Y: b.Y + start.Y - a.Y - end.Y})
			require.Zero(t, off.X, "across at join %d of %v", k, c)
			require.LessOrEqual(t, max(off.Y, -off.Y), unit.Length(2), "along at join %d of %v: falls are rounded to a nanometre", k, c)
		}
	}
}

// No other way to divide a panel, left and right alike, has fewer joins, and none with
// as few a wider centre: all are tried on small whole sizes.
func TestFewestJoins(t *testing.T) { rapid.Check(t, fewestJoins) }

func fewestJoins(t *rapid.T) {
	pick := func(name string, from, to int) unit.Length {
		return unit.Length(rapid.IntRange(from, to).Draw(t, name))
	}
	d := division{width: pick("panel", 3, 40), usable: pick("usable", 1, 20), every: pick("every", 0, 12), at: pick("at", -30, 30), allowance: pick("allowance", 0, 2), least: pick("least", 1, 4)}
	if d.every == 0 {
		d.at = d.centred()
	}
	lies := func(from, to unit.Length) bool { // a segment from and to on the panel
		if d.every == 0 {
			return to-from <= d.usable
		}
		for x := d.at + from - 100*d.every; x <= d.usable; x += d.every {
			if x >= 0 && x+to-from <= d.usable {
				return true
			}
		}
		return false
	}
	var best []unit.Length
	var divide func(cuts []unit.Length)
	divide = func(cuts []unit.Length) {
		last := cuts[len(cuts)-1]
		if d.width-2*last < d.least || len(cuts) > 6 {
			return
		}
		s := d.allowance
		if lies(last-s, d.width-last+s) && (best == nil || len(cuts) < len(best) || len(cuts) == len(best) && last < best[len(best)-1]) {
			best = append([]unit.Length(nil), cuts...)
		}
		for p := last + d.least; 2*p < d.width; p++ {
			if lies(last-s, p+s) && lies(d.width-p-s, d.width-last+s) && (best == nil || len(cuts) < len(best)) {
				divide(append(cuts[:len(cuts):len(cuts)], p))
			}
		}
	}
	for p := d.least; 2*p < d.width; p++ {
		if s := d.allowance; lies(0, p+s) && lies(d.width-p-s, d.width) {
			divide([]unit.Length{p})
		}
	}
	got, ok := d.fewest()
	if len(best) == 0 {
		require.True(t, !ok || len(got) > 2*6, "%+v: %v", d, got)
		return
	}
	require.True(t, ok, "%+v: want %v", d, best)
	n := len(got) / 2
	require.Equal(t, len(best), n, "%+v: %v, want %v", d, got, best)
	require.Equal(t, best[n-1], got[n-1], "%+v: %v, want %v", d, got, best)
	from := unit.Length(0)
	for k, to := range append(got, d.width) {
		low, high := max(0, from-d.allowance), min(d.width, to+d.allowance)
		if k == 0 {
			low = 0
		}
		require.True(t, lies(low, high) && to-from >= d.least, "%+v: %v", d, got)
		from = to
	}
}
