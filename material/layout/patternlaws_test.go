package layout

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// coarse is a small job in whole inches.
type coarse struct {
	roll   material.Roll
	pieces []Piece
}

// drawCoarse draws rectangles on a narrow roll with a pattern.
func drawCoarse(t *rapid.T, most int) coarse {
	num := func(from, to int, what string) unit.Length {
		return unit.Length(rapid.IntRange(from, to).Draw(t, what))
	}
	den := rapid.IntRange(1, 3).Draw(t, "parts")
	c := coarse{roll: material.Roll{Width: num(10, 16, "width") * in, Across: num(0, 6, "across") * in, Repeat: unit.Length(den) * num(0, 3, "along") * in}}
	if den > 1 && c.roll.Across > 0 && c.roll.Repeat > 0 {
		c.roll.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
	}
	c.roll.First.X = num(0, 6, "ox") * in
	if c.roll.UnknownStart = rapid.IntRange(0, 2).Draw(t, "unknown") == 0; !c.roll.UnknownStart {
		c.roll.First.Y = num(0, 9, "oy") * in
	}
	for left := rapid.IntRange(1, most).Draw(t, "copies"); left > 0; {
		count := rapid.IntRange(1, left).Draw(t, "count")
		left -= count
		w, h := num(2, 8, "w"), num(1, 6, "h")
		p, err := RectPiece("", w*in, h*in, count)
		require.NoError(t, err)
		p.Phase.Axes = Axes(rapid.IntRange(0, 3).Draw(t, "axes"))
		p.Turn = Turn(rapid.IntRange(0, 1).Draw(t, "turn"))
		for range rapid.IntRange(1, 2).Draw(t, "points") {
			s := Spot{Point: inches(num(-2, 9, "mx"), num(-2, 9, "my"))}
			if p.Turn == HalfTurn && rapid.IntRange(0, 3).Draw(t, "one turn") == 0 {
				s.Degrees = []int{180 * rapid.IntRange(0, 1).Draw(t, "degrees")}
			}
			p.Phase.Spots = append(p.Phase.Spots, s)
		}
		if rapid.IntRange(0, 4).Draw(t, "common") == 0 {
			p.Phase.Common = 1
		}
		c.pieces = append(c.pieces, p)
	}
	return c
}

// solve lays the job; ok is false where a piece has no place on the pattern.
func (c coarse) solve(t require.TestingT) (p Plan, ok bool) {
	p, err := onRoll(c.roll, c.pieces, quick)
	if errors.Is(err, ErrNoLayout) {
		return p, false
	}
	require.NoError(t, err)
	return p, true
}

// onPattern tells by the definition whether a point of the roll shows a motif, as
// far as the axes bind: some whole i and j with x = i H and y = j R - i f R.
func onPattern(r material.Roll, axes Axes, x, y unit.Length) bool {
	byX, byY := r.Across > 0 && axes <= AcrossOnly, r.Repeat > 0 && (axes == BothAxes || axes == AlongOnly)
	if !byX && !byY || axes == Unbound {
		return true
	}
	for i := unit.Length(-30); i <= 30; i++ {
		fall := unit.Length(0)
		if r.Drop.Den > 0 {
			fall = i * unit.Length(r.Drop.Num) * r.Repeat / unit.Length(r.Drop.Den)
		}
		if (!byX || x == i*r.Across) && (!byY || (y+fall)%r.Repeat == 0) {
			return true
		}
	}
	return false
}

// searched is the least length of a layout on whole inches, by complete search over
// all places, all starts of the bolt and all motifs of the common number.
func (c coarse) searched(most unit.Length) unit.Length {
	type spot struct{ x, y, w, h unit.Length }
	best := most + 1
	try := func(motifs [2]shape.Point) {
		var kinds [][]spot
		for _, p := range c.pieces {
			w, h := p.Outline.Size()
			var at []spot
			for y := unit.Length(0); y+h <= most*in; y += in {
				for x := unit.Length(0); x+w <= c.roll.Width; x += in {
					fits := false
					for _, s := range p.Phase.Spots {
						up := shape.Point{X: x + s.Point.X - motifs[p.Phase.Common].X, Y: y + s.Point.Y - motifs[p.Phase.Common].Y}
						down := shape.Point{X: x + w - s.Point.X - motifs[p.Phase.Common].X, Y: y + h - s.Point.Y - motifs[p.Phase.Common].Y}
						fits = fits || s.holds(0) && onPattern(c.roll, p.Phase.Axes, up.X, up.Y) ||
							p.Turn == HalfTurn && s.holds(180) && onPattern(c.roll, p.Phase.Axes, down.X, down.Y)
					}
					if fits {
						at = append(at, spot{x, y, w, h})
					}
				}
			}
			for range p.Count {
				kinds = append(kinds, at)
			}
		}
		var laid []spot
		var lay func(k int, top unit.Length)
		lay = func(k int, top unit.Length) {
			if k == len(kinds) {
				best = top
				return
			}
		next:
			for _, s := range kinds[k] {
				if max(top, (s.y+s.h)/in) >= best {
					break
				}
				for _, o := range laid {
					if s.x < o.x+o.w && o.x < s.x+s.w && s.y < o.y+o.h && o.y < s.y+s.h {
						continue next
					}
				}
				laid = append(laid, s)
				lay(k+1, max(top, (s.y+s.h)/in))
				laid = laid[:len(laid)-1]
			}
		}
		lay(0, 0)
	}
	first := []shape.Point{c.roll.First}
	if c.roll.UnknownStart {
		for y := in; y < c.roll.Repeat; y += in {
			first = append(first, shape.Point{X: c.roll.First.X, Y: y})
		}
	}
	var common []shape.Point
	for x := unit.Length(0); x < max(in, c.roll.Across); x += in {
		for y := unit.Length(0); y < max(in, c.roll.Repeat); y += in {
			common = append(common, shape.Point{X: x, Y: y})
		}
	}
	some := false
	for _, p := range c.pieces {
		some = some || p.Phase.Common > 0
	}
	if !some {
		common = common[:1]
	}
	for _, a := range first {
		for _, b := range common {
			try([2]shape.Point{a, b})
		}
	}
	return best
}

// Against complete search: what is proved is the optimum, no bound exceeds it,
// and no plan is shorter.
func TestPatternedAgainstCompleteSearch(t *testing.T) {
	few.Check(t, 40, func(t *rapid.T) { againstCompleteSearch(t, 3) })
}

func againstCompleteSearch(t *rapid.T, most int) {
	c := drawCoarse(t, most)
	p, ok := c.solve(t)
	best := c.searched(24)
	if !ok {
		assert.Greater(t, best, unit.Length(24), "a layout exists")
		return
	}
	for _, q := range p.Claims {
		if !q.Method.Lays() && best <= 24 {
			assert.LessOrEqual(t, q.Length, best*in, "%v", q.Method)
		}
	}
	assert.GreaterOrEqual(t, p.Need, min(best, 25)*in)
	if p.Proved && best <= 24 {
		assert.Equal(t, best*in, p.Need)
	}
}

// A pattern moved by a step from motif to motif is the same pattern.
func TestMovedByARepeat(t *testing.T) {
	few.Check(t, 20, func(t *rapid.T) {
		c := drawCoarse(t, 5)
		p, ok := c.solve(t)
		at := c.roll.First
		k := unit.Length(rapid.IntRange(0, 3).Draw(t, "columns"))
		c.roll.First.X += k * c.roll.Across
		if !c.roll.UnknownStart {
			c.roll.First.Y += 4 * c.roll.Repeat
			if d := c.roll.Drop; d.Den > 0 {
				c.roll.First.Y -= k * unit.Length(d.Num) * c.roll.Repeat / unit.Length(d.Den)
			}
		}
		q, too := c.solve(t)
		assert.Equal(t, ok, too, "%v and %v", at, c.roll.First)
		assert.Equal(t, p.Need, q.Need)
		assert.Equal(t, p.Bound().Length, q.Bound().Length)
	})
}

// Without repeats the pattern binds nothing, wherever its motif lies.
func TestNoRepeatIsPlain(t *testing.T) {
	few.Check(t, 15, func(t *rapid.T) {
		c := drawCoarse(t, 6)
		c.roll.Across, c.roll.Repeat, c.roll.Drop = 0, 0, material.Drop{}
		p, ok := c.solve(t)
		require.True(t, ok)
		for i := range c.pieces {
			c.pieces[i].Phase = Phase{Axes: Unbound}
		}
		c.roll.First, c.roll.UnknownStart = shape.Point{}, false
		plain, ok := c.solve(t)
		require.True(t, ok)
		assert.Equal(t, plain.Places, p.Places)
		assert.Equal(t, plain.Order, p.Order)
	})
}

// A finer pattern that holds every motif of another never needs more; nor does a
// piece with further points that may lie on a motif, or none that must.
func TestFinerPatternNeedsNoMore(t *testing.T) {
	few.Check(t, 20, func(t *rapid.T) {
		c := drawCoarse(t, 4)
		p, ok := c.solve(t)
		if !ok || !p.Proved {
			return
		}
		switch rapid.IntRange(0, 2).Draw(t, "what") {
		case 0:
			c.pieces[0].Phase.Axes = Unbound
		case 1:
			for i := range c.pieces {
				c.pieces[i].Phase.Spots = append(c.pieces[i].Phase.Spots, Spot{Point: inches(1, 1)})
			}
		case 2:
			k := rapid.SampledFrom([]int{1, 2, 4}).Draw(t, "k")
			c.roll.Repeat /= unit.Length(k)
			// The columns stand where they stood: of a repeat that is k times shorter
			// they drop by a k times larger part.
			if d := &c.roll.Drop; d.Den == 0 {
				c.roll.Across /= unit.Length(rapid.IntRange(1, 2).Draw(t, "l"))
			} else if d.Num = d.Num * k % d.Den; d.Num == 0 {
				*d = material.Drop{}
			}
		}
		fine, ok := c.solve(t)
		require.True(t, ok)
		if fine.Proved {
			assert.LessOrEqual(t, fine.Need, p.Need)
		}
	})
}

// The mirror image of a job needs as much: columns from the other edge, and the
// drop to the other side.
func TestMirroredPatternNeedsAsMuch(t *testing.T) {
	few.Check(t, 20, func(t *rapid.T) {
		c := drawCoarse(t, 4)
		p, ok := c.solve(t)
		m := c
		m.pieces = nil
		for _, q := range c.pieces {
			w, _ := q.Outline.Size()
			q.Phase = q.Phase.mirrored()
			for i := range q.Phase.Spots {
				q.Phase.Spots[i].Point.X += w
			}
			m.pieces = append(m.pieces, q)
		}
		if d := &m.roll.Drop; d.Den > 0 {
			d.Num = d.Den - d.Num
		}
		m.roll.First.X = c.roll.Width - c.roll.First.X
		q, too := m.solve(t)
		require.Equal(t, ok, too)
		if p.Proved && q.Proved {
			assert.Equal(t, p.Need, q.Need)
		}
	})
}

// Goods that run sideways are goods up the roll turned by a quarter, and so are
// their layouts.
func TestSidewaysIsTurned(t *testing.T) {
	few.Check(t, 20, func(t *rapid.T) {
		c := drawCoarse(t, 4)
		c.roll.Drop = material.Drop{}
		for i := range c.pieces {
			c.pieces[i].Hand = Hand(2 * rapid.IntRange(0, 1).Draw(t, "pair"))
		}
		side := c
		side.roll.Up = material.Up(rapid.IntRange(1, 2).Draw(t, "up"))
		side.roll.Across, side.roll.Repeat = c.roll.Repeat, c.roll.Across
		side.pieces = nil
		quarters := 3 // back: what was upright must lie so that turning it gives the job up the roll
		if side.roll.Up == material.UpToRight {
			quarters = 1
		}
		up := c
		up.pieces = nil
		for _, q := range c.pieces {
			q.Hand = AsDrawn
			up.pieces = append(up.pieces, q)
			q.Outline = q.Outline.Turned(quarters)
			q.Phase = q.Phase.turned(quarters)
			q.Phase.Axes = q.Phase.Axes.aside()
			side.pieces = append(side.pieces, q)
		}
		p, ok := up.solve(t)
		q, too := side.solve(t)
		require.Equal(t, ok, too)
		if !ok {
			return
		}
		assert.Equal(t, p.Need, q.Need)
		assert.Equal(t, p.Order, q.Order)
		for i := range p.Places {
			assert.Equal(t, p.Places[i].Outline, q.Places[i].Outline)
		}
	})
}

// With the start of the bolt unknown the plan needs no more than with any known
// start, and with one repeat more every start will do.
func TestUnknownStart(t *testing.T) {
	few.Check(t, 15, func(t *rapid.T) {
		c := drawCoarse(t, 4)
		c.roll.UnknownStart, c.roll.First.Y = true, 0
		p, ok := c.solve(t)
		if !ok {
			return
		}
		c.roll.UnknownStart, c.roll.First.Y = false, unit.Length(rapid.IntRange(0, 9).Draw(t, "start"))*in
		q, ok := c.solve(t)
		require.True(t, ok)
		if p.Proved {
			assert.LessOrEqual(t, p.Need, q.Need)
		}
		if q.Proved && p.Spare > 0 {
			assert.Less(t, q.Need, p.Need+p.Spare)
		}
	})
}

// Both hands of a pair on goods that run sideways, and joined pieces, stand the
// verifier.
func TestSidewaysPairsAndJoins(t *testing.T) {
	for _, up := range []material.Up{material.UpToLeft, material.UpToRight} {
		roll := material.Roll{Width: 54 * in, Repeat: 9 * in, Across: 12 * in, Drop: material.Drop{Num: 1, Den: 3}, Up: up, Nap: true, First: inches(4, 5)}
		arm := polygon(t, inches(0, 0), inches(20, 0), inches(26, 14), inches(0, 20))
		ps := []Piece{{Name: "arm", Outline: arm, Count: 2, Hand: Paired, Phase: OnMotif(inches(9, 8))},
			cloth{name: "band", width: 5 * in, length: 120 * in, count: 2, join: &Piecing{Allowance: in / 2, Least: 6 * in, Most: 4}}.piece()}
		p, err := onRoll(roll, ps, light)
		require.NoError(t, err)
		require.NoError(t, p.Verify())
		assert.NotEmpty(t, p.Joins)
		want := map[material.Up]unit.Angle{material.UpToLeft: 90, material.UpToRight: 270}[up]
		for _, q := range p.Places {
			if q.Piece == 0 {
				assert.Equal(t, want, q.Turned)
				assert.Equal(t, q.Copy == 1, q.Mirrored)
			}
			bad := p
			bad.Places = append([]Place(nil), p.Places...)
			bad.Places[0].Mirrored = !bad.Places[0].Mirrored
			require.ErrorIs(t, bad.Verify(), ErrBadLayout)
		}
		drawn, err := p.Draw(Picture{})
		require.NoError(t, err)
		assert.NotContains(t, drawn[0].SVG, "turned 90")
	}
	_, err := onRoll(material.Roll{Width: 54 * in, Up: material.UpToLeft}, pieces(cloth{width: 20 * in, length: 60 * in, count: 1}), quick)
	require.ErrorIs(t, err, ErrTooWide)
	var bad *unit.InputError
	require.ErrorAs(t, err, &bad)
	assert.Equal(t, "pieces[0].length", string(bad.Field))
	// A fault has the number of the piece in the job, where a pair was made two.
	job := Job{Roll: &material.Roll{Width: 54 * in, Up: material.UpToRight}, Pieces: []Piece{{Outline: boxAt(t, 0, 0, 9, 9), Count: 2, Hand: Paired}, {Outline: boxAt(t, 0, 0, 9, 9), Count: 1}}}
	u := job.stood()
	require.Len(t, u.job.Pieces, 3)
	require.ErrorAs(t, u.blame(&unit.InputError{Field: "pieces[2].outline"}), &bad)
	assert.Equal(t, "pieces[1].outline", string(bad.Field))
}

// A panel that fits about no motif is told where one would have to lie: 28 in with
// the motif in the middle, on goods 54 in wide with motifs at 13 1/2 and 40 1/2 in.
func TestNoMotifWithinReach(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in, Across: 27 * in, First: shape.Point{X: 27 * in / 2}}
	for _, c := range []Piece{cloth{name: "back", width: 28 * in, length: 9 * in, count: 1, motif: inches(14, 4)}.piece(),
		{Name: "back", Outline: polygon(t, inches(0, 0), inches(28, 0), inches(14, 20)), Count: 1, Phase: OnMotif(inches(14, 4))}} {
		_, err := onRoll(roll, []Piece{c}, quick)
		require.ErrorIs(t, err, ErrNoLayout)
		require.ErrorContains(t, err, "back fits about no motif across the goods; one would have to lie from 14 in to 40 in from the left usable edge")
		free := roll
		free.UnknownStart = true
		_, err = onRoll(free, []Piece{c}, quick)
		require.ErrorIs(t, err, ErrNoLayout)
		c.Phase.Common = 1
		_, err = onRoll(roll, []Piece{c}, quick)
		require.NoError(t, err, "wherever that is")
	}
}

// The verifier sees motifs that are not there, and a spare repeat that is missing.
func TestVerifySeesMotifs(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in, Across: 27 * in, First: inches(9, 0), UnknownStart: true}
	good, err := onRoll(roll, pieces(cloth{width: 10 * in, length: 9 * in, count: 3, motif: inches(5, 4)}), quick)
	require.NoError(t, err)
	require.NoError(t, good.Verify())
	for want, spoil := range map[string]func(*Plan){
		"off the":            func(p *Plan) { p.Motifs = []shape.Point{{X: 9 * in, Y: 5 * in}} },
		"the goods have non": func(p *Plan) { p.Motifs = []shape.Point{{X: 8 * in, Y: 4 * in}} },
		"to spare":           func(p *Plan) { p.Spare = 0 },
		"the order is":       func(p *Plan) { p.Order -= 27 * in },
	} {
		bad := good
		spoil(&bad)
		require.ErrorIs(t, bad.Verify(), ErrBadLayout, want)
		require.ErrorContains(t, bad.Verify(), want)
	}
	// A piece turned upside down has its motif turned with it.
	roll.UnknownStart, roll.First.Y = false, 4*in
	turned, err := onRoll(roll, []Piece{{Outline: boxAt(t, 0, 0, 10, 9), Count: 1, Turn: HalfTurn, Phase: Phase{Spots: []Spot{{Point: inches(2, 2), Degrees: []int{180}}}}}}, quick)
	require.NoError(t, err)
	assert.Equal(t, unit.Angle(180), turned.Places[0].Turned)
	low, _ := turned.Places[0].Bounds()
	assert.Equal(t, inches(9-8, 4+27-7), low, "the point lies 8 in across and 7 in up from its corner")
	turned.Job.Pieces = []Piece{{Outline: boxAt(t, 0, 0, 10, 9), Count: 1, Turn: HalfTurn, Phase: OnMotif(inches(2, 2))}}
	require.NoError(t, turned.Verify())
	turned.Job.Pieces[0].Phase.Spots[0].Degrees = []int{0}
	require.ErrorIs(t, turned.Verify(), ErrBadLayout)
}
