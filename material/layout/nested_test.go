package layout

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// wingChair is the curved panels of the pair of wing chairs of the demo job.
func wingChair(t require.TestingT) []Piece {
	must := func(o shape.Outline, err error) shape.Outline {
		require.NoError(t, err)
		return o
	}
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	wing := must(shape.TraceFrom(pt(0, 0)).Edge("bottom").Line(pt(11*in, 0)).Edge("front").Cubic(pt(16*in, 8*in), pt(14*in, 16*in), pt(9*in, 20*in)).
		Edge("top").Line(pt(3*in, 21*in)).Edge("back").Arc(pt(0, 0), -in).Close())
	arm := must(shape.TraceFrom(pt(0, 0)).Edge("bottom").Line(pt(28*in, 2*in)).Edge("front").Arc(pt(27*in, 15*in), 2*in).Edge("top").
		Cubic(pt(18*in, 17*in), pt(8*in, 13*in), pt(0, 12*in)).Edge("back").Close())
	return []Piece{
		{Name: "inside back", Outline: must(shape.Crowned(26*in, 30*in, 4*in)), Count: 2, Phase: OnMotif(pt(13*in, 15*in))},
		{Name: "outside back", Outline: must(shape.Crowned(25*in, 28*in, 3*in)), Count: 2, Phase: OnMotif(pt(25*in/2, 14*in))},
		{Name: "wing", Outline: wing, Count: 4, Hand: Paired, Phase: OnMotif(pt(6*in, 10*in))},
		{Name: "arm", Outline: arm, Count: 4, Hand: Paired, Phase: OnMotif(pt(14*in, 8*in))},
		{Name: "seat", Outline: must(shape.Trapezoid(30*in, 26*in, 30*in, 2*in)), Count: 2, Phase: OnMotif(pt(15*in, 15*in))},
		{Name: "facing", Outline: must(shape.Ellipse(6*in, 9*in)), Count: 4, Phase: Phase{Axes: Unbound}, Turn: HalfTurn},
	}
}

// Curved panels take no more cloth nested than their boxes do, on every kind
// of goods, and most of the time less.
func TestNestRollWingChairs(t *testing.T) { nestOnRolls(t, wingChair(t)[:2]) }

func nestOnRolls(t *testing.T, panels []Piece) {
	t.Helper()
	many := make([]material.Flaw, 101)
	for i := range many {
		many[i] = material.Flaw{X: 20 * in, Y: unit.Length(i) * in, Width: in, Length: in}
	}
	for _, c := range []struct {
		roll   material.Roll
		nested bool // the outlines are nested, whichever plan is kept
	}{
		{material.Roll{Name: "plain", Width: 54 * in, Increment: unit.Yard / 8}, true},
		{material.Roll{Name: "patterned", Width: 54 * in, Repeat: 27 * in, Across: 27 * in / 2, Nap: true, Shrinkage: 0.03}, false},
		{material.Roll{Name: "stripes", Width: 54 * in, Selvage: in / 2, Across: 9 * in}, true},
		{material.Roll{Name: "half drop", Width: 54 * in, Repeat: 18 * in, Across: 27 * in / 2, Drop: material.Drop{Num: 1, Den: 2}}, false},
		{material.Roll{Name: "small half drop", Width: 54 * in, Repeat: 2 * in, Across: 3 * in, Drop: material.Drop{Num: 1, Den: 2}}, true},
		{material.Roll{Name: "flawed", Width: 54 * in, Flaws: []material.Flaw{{X: 10 * in, Y: 5 * in, Width: in, Length: in}, {Y: 40 * in, Length: in}, {Y: 90 * unit.Metre, Length: in}}}, true},
		{material.Roll{Name: "full of flaws", Width: 54 * in, Flaws: many}, false},
	} {
		plan, err := onRoll(c.roll, panels, Options{Effort: 0.005})
		require.NoError(t, err, c.roll.Name)
		require.NoError(t, plan.Verify())
		boxes, ok := plan.Found(BoxesSearched)
		require.True(t, ok)
		assert.LessOrEqual(t, plan.Need, boxes.Length, c.roll.Name)
		assert.GreaterOrEqual(t, plan.Need, plan.Bound().Length)
		order, err := c.roll.Order(plan.Need)
		require.NoError(t, err)
		assert.Equal(t, order, plan.Order)
		_, ok = plan.Found(OutlinesNested)
		assert.True(t, ok || !c.nested, c.roll.Name)
		assert.False(t, ok && c.roll.Name == "full of flaws")
		density, err := plan.Density()
		require.NoError(t, err)
		yield, err := plan.Yield()
		require.NoError(t, err)
		assert.LessOrEqual(t, yield, density)
		assert.LessOrEqual(t, density, unit.Ratio(1))
		assert.Equal(t, cite.Layout, plan.Kind)
		for _, q := range plan.Places {
			if c.roll.Nap {
				assert.Zero(t, q.Turned)
			}
			assert.Equal(t, plan.Job.Pieces[q.Piece].Hand == Paired && q.Copy%2 == 1, q.Mirrored)
		}
		drawn, err := plan.Draw(Picture{Title: c.roll.Name})
		require.NoError(t, err)
		text := ""
		for _, d := range drawn {
			text += d.SVG
		}
		assert.True(t, strings.Contains(text, "inside back"))
	}
}

// Every place of the true outline lies within the outline of the placement, on
// the usable width.
func TestRollPlacementsHoldTheTrueOutlines(t *testing.T) {
	panels := wingChair(t)
	for i := range panels {
		panels[i].Turn = Railroad
	}
	for panels := range slices.Chunk(panels, 2) { // the tables of all together are dear
		plan, err := onRoll(material.Roll{Width: 54 * in, Selvage: in}, panels, Options{Effort: 0.005})
		require.NoError(t, err)
		for _, q := range plan.Places {
			fine, err := panels[q.Piece].Outline.Flatten(0)
			require.NoError(t, err)
			lies := gridRing(q.Outline)
			for _, p := range fine {
				if q.Mirrored {
					p.X = -p.X
				}
				for range int(q.Turned) / 90 {
					p.X, p.Y = -p.Y, p.X
				}
				p.X, p.Y = p.X+q.X, p.Y+q.Y
				require.NotEqual(t, geom.Outside, lies.Locate(geom.Point{X: int64(p.X), Y: int64(p.Y)}), "%v", q)
				require.GreaterOrEqual(t, min(p.X, p.Y), unit.Length(0))
				require.LessOrEqual(t, p.X, 52*in)
				require.LessOrEqual(t, p.Y, plan.Need)
			}
		}
	}
}

// Boxes that fill the width edge to edge stay possible for curves: two circles
// of 27 in lie side by side on goods of 54 in.
func TestCirclesFillTheWidth(t *testing.T) {
	circle, err := shape.Circle(27 * in)
	require.NoError(t, err)
	plan, err := onRoll(material.Roll{Width: 54 * in}, []Piece{{Outline: circle, Count: 2}}, light)
	require.NoError(t, err)
	assert.Equal(t, 27*in, plan.Need)
	assert.Equal(t, plan.Bound().Length, plan.Need)
	assert.True(t, plan.Proved)
	assert.Zero(t, plan.Gap())
}

// Triangles point up and down in turn where they may be turned, and not on a
// nap; their area over the width is the bound.
func TestNapForbidsTurning(t *testing.T) {
	tri := polygon(t, inches(0, 0), inches(54, 0), inches(54, 20))
	free, err := onRoll(material.Roll{Width: 54 * in}, []Piece{{Outline: tri, Count: 2, Turn: HalfTurn}}, light)
	require.NoError(t, err)
	assert.Equal(t, 20*in, free.Need)
	nap, err := onRoll(material.Roll{Width: 54 * in, Nap: true}, []Piece{{Outline: tri, Count: 2, Turn: HalfTurn}}, light)
	require.NoError(t, err)
	assert.Greater(t, nap.Need, free.Need)
	assert.Equal(t, 20*in, nap.Bound().Length)
	pair, err := onRoll(material.Roll{Width: 54 * in, Nap: true}, []Piece{{Outline: tri, Count: 2, Hand: Paired}}, light)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, pair.Need, 20*in)
}

// Match points lie on motifs: whole repeats from the first, each column to the
// right lower by the drop.
func TestMatchPointsLieOnMotifs(t *testing.T) { few.Check(t, 8, matchPointsLieOnMotifs) }

func matchPointsLieOnMotifs(t *rapid.T) {
	tick := in / 4
	roll := material.Roll{Width: 40 * in, Repeat: unit.Length(rapid.IntRange(8, 60).Draw(t, "repeat")) * tick, Nap: rapid.Bool().Draw(t, "nap"),
		Across: unit.Length(rapid.IntRange(0, 40).Draw(t, "across")) * tick}
	if roll.Across < 2*in {
		roll.Across = 0
	}
	roll.First = shape.Point{X: unit.Length(rapid.IntRange(0, 9).Draw(t, "ox")) * tick, Y: unit.Length(rapid.IntRange(0, 9).Draw(t, "oy")) * tick}
	if den := rapid.IntRange(1, 4).Draw(t, "parts"); den > 1 && roll.Across > 0 {
		roll.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
	}
	o, err := shape.Ellipse(9*in, 13*in)
	require.NoError(t, err)
	m := shape.Point{X: unit.Length(rapid.IntRange(-10, 10).Draw(t, "mx")) * tick, Y: unit.Length(rapid.IntRange(-10, 10).Draw(t, "my")) * tick}
	plan, err := onRoll(roll, []Piece{{Outline: o, Count: 3, Phase: OnMotif(m), Turn: HalfTurn, Hand: rapid.SampledFrom([]Hand{AsDrawn, Paired}).Draw(t, "paired")},
		{Outline: o, Count: 1, Phase: Phase{Axes: Unbound}}}, Options{Effort: 0.005})
	require.NoError(t, err)
	require.NoError(t, plan.Verify())
	for _, q := range plan.Places {
		if q.Piece != 0 {
			continue
		}
		x, y := m.X, m.Y
		q.X, q.Y = q.X-roll.First.X, q.Y-roll.First.Y
		if q.Mirrored {
			x = -x
		}
		if q.Turned == 180 {
			x, y = -x, -y
			assert.False(t, roll.Nap)
		}
		var fall unit.Length
		if roll.Across > 0 {
			assert.Zero(t, (q.X+x)%roll.Across)
			if d := roll.Drop; d.Den > 0 {
				columns := int((q.X + x) / roll.Across)
				fall = -unit.Length(columns*d.Num) * roll.Repeat / unit.Length(d.Den)
			}
		}
		off := (q.Y + y - fall) % roll.Repeat
		if roll.Drop.Den != 3 {
			assert.Zero(t, off)
			continue
		}
		// A third of the repeat may lie off the grid of plans: two thousandths
		// of an inch are not seen.
		assert.Less(t, min(max(off, -off), roll.Repeat-max(off, -off)), in/500)
	}
}

func TestPlanInJSON(t *testing.T) {
	roll := material.Roll{Name: "plain", Width: 54 * in}
	a, err := onRoll(roll, wingChair(t)[:3], Options{Effort: 0.005, Seed: 3})
	require.NoError(t, err)
	text, err := json.Marshal(a)
	require.NoError(t, err)
	b, err := onRoll(roll, wingChair(t)[:3], Options{Effort: 0.005, Seed: 3})
	require.NoError(t, err)
	again, err := json.Marshal(b)
	require.NoError(t, err)
	assert.Equal(t, string(text), string(again))
	var back Plan
	require.NoError(t, json.Unmarshal(text, &back))
	require.NoError(t, back.Verify())
}

func TestNestRollStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	plan, err := Solve(ctx, Job{Roll: &material.Roll{Width: 54 * in}, Pieces: wingChair(t)}, Options{Effort: 10})
	require.NoError(t, err)
	assert.True(t, plan.Stopped)
	require.NoError(t, plan.Verify())
}

func TestNestRollRefuses(t *testing.T) {
	roll := material.Roll{Width: 54 * in}
	panel := Piece{Outline: boxAt(t, 0, 0, 10, 10), Count: 1}
	with := func(do func(*Piece)) []Piece {
		p := panel
		do(&p)
		return []Piece{p}
	}
	for name, c := range map[string]struct {
		roll   material.Roll
		panels []Piece
		field  string
		err    error
	}{
		"no roll":    {material.Roll{}, []Piece{panel}, "roll.width", unit.ErrRange},
		"no panels":  {roll, nil, "pieces", unit.ErrRequired},
		"no outline": {roll, with(func(p *Piece) { p.Outline = shape.Outline{} }), "pieces[0].outline", unit.ErrRequired},
		"no count":   {roll, with(func(p *Piece) { p.Count = -1 }), "pieces[0].count", unit.ErrRange},
		"too many":   {roll, with(func(p *Piece) { p.Count = MostPieces + 1 }), "pieces[0].count", unit.ErrRange},
		"turn":       {roll, with(func(p *Piece) { p.Turn = 7 }), "pieces[0].turn", unit.ErrUnknown},
		"match":      {roll, with(func(p *Piece) { p.Phase = OnMotif(shape.Point{X: math.MaxInt64}) }), "pieces[0].phase.spots[0].point.x", unit.ErrRange},
		"wide":       {roll, with(func(p *Piece) { p.Outline = boxAt(t, 0, 0, 60, 70) }), "pieces[0].width", ErrTooWide},
		"hand":       {roll, with(func(p *Piece) { p.Hand = EitherHand }), "pieces[0].hand", ErrNotLaid},
	} {
		_, err := onRoll(c.roll, c.panels, light)
		require.ErrorIs(t, err, c.err, name)
		var input *unit.InputError
		require.ErrorAs(t, err, &input, name)
		assert.Equal(t, c.field, string(input.Field), name)
	}
	// The second of a pair is still panel 0.
	_, err := onRoll(roll, with(func(p *Piece) { p.Outline, p.Count, p.Hand = boxAt(t, 0, 0, 60, 70), 2, Paired }), light)
	var input *unit.InputError
	require.ErrorAs(t, err, &input)
	assert.Equal(t, "pieces[0].width", string(input.Field))
}

func TestNestedVerifyFindsFaults(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 6 * in, Nap: true}
	wedge := polygon(t, inches(0, 0), inches(30, 0), inches(30, 2), inches(0, 11))
	ps := []Piece{{Outline: wedge, Count: 4, Hand: Paired}, {Outline: boxAt(t, 0, 0, 8, 8), Count: 2, Hand: Paired, Phase: Phase{Axes: Unbound}}, cloth{width: 70 * in, length: 3 * in, count: 1, free: true, join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 6 * in, Most: 2}}.piece()}
	good, err := onRoll(roll, ps, light)
	require.NoError(t, err)
	require.Equal(t, OutlinesNested, good.Method)
	require.Len(t, good.Joins, 1)
	for want, do := range map[string]func(*Plan){
		"off the repeat": func(p *Plan) {
			p.Places[0].Y += in
			for k := range p.Places[0].Outline {
				p.Places[0].Outline[k].Y += in
			}
		},
		"angle not allowed":     func(p *Plan) { p.Places[0].Turned = 180 },
		"turned by 45":          func(p *Plan) { p.Places[0].Turned = 45 },
		"hand":                  func(p *Plan) { p.Places[5].Mirrored = false },
		"missing":               func(p *Plan) { p.Places = p.Places[1:] },
		"repeated":              func(p *Plan) { p.Places[2] = p.Places[0] },
		"no such piece":         func(p *Plan) { p.Places[0].Piece = 5 },
		"off the grid":          func(p *Plan) { p.Places[0].X++ },
		"the order is":          func(p *Plan) { p.Order = p.Need - 1 },
		"found":                 func(p *Plan) { p.Need += 3175; p.Order = p.Need },
		"on a hole":             func(p *Plan) { r := *p.Job.Roll; r.Flaws = []material.Flaw{{Length: p.Need}}; p.Job.Roll = &r },
		"wrong shape":           func(p *Plan) { p.Places[0].Outline = p.Places[4].Outline },
		"more than":             func(p *Plan) { p.Joins = append(p.Joins, Join{2, 0, 50 * in}, Join{2, 0, 60 * in}) },
		"a segment of":          func(p *Plan) { p.Joins = []Join{{2, 0, 2 * in}} },
		"must not be joined":    func(p *Plan) { p.Joins = []Join{{1, 0, 4 * in}, {1, 1, 4 * in}} },
		"joined in different":   func(p *Plan) { p.Joins = []Join{{1, 0, 4 * in}} },
		"join 0: no such piece": func(p *Plan) { p.Joins = []Join{{7, 0, 4 * in}} },
		"3 segments, not 2":     func(p *Plan) { p.Places[6].Segments = 3 },
		"shade group 1 spreads": func(p *Plan) {
			p.Job.Shades = []Shade{{Window: in}}
			p.Job.Pieces = append([]Piece(nil), p.Job.Pieces...)
			p.Job.Pieces[0].Shade = 1
		},
		"1 pieces have no place": func(p *Plan) { p.Unplaced = []Copy{{0, 0}}; p.Proved = false },
	} {
		bad := good
		bad.Places = append([]Place(nil), good.Places...)
		bad.Places[0].Outline = append([]shape.Point(nil), good.Places[0].Outline...)
		do(&bad)
		err := bad.Verify()
		require.ErrorIs(t, err, ErrBadLayout, want)
		require.ErrorContains(t, err, want)
		_, err = bad.Draw(Picture{})
		require.ErrorIs(t, err, ErrBadLayout, want)
	}
	require.NoError(t, good.Verify())
}

// A repeat far longer than a panel whose match point lies off it.
func TestMatchPointFarOff(t *testing.T) {
	plan, err := onRoll(material.Roll{Width: 54 * in, Repeat: 40 * in}, []Piece{{Outline: boxAt(t, 0, 0, 10, 10), Count: 1, Phase: OnMotif(inches(0, 30))}}, light)
	require.NoError(t, err)
	assert.Equal(t, 20*in, plan.Need)
	flawed := material.Roll{Width: 54 * in, Repeat: 40 * in, Flaws: []material.Flaw{{Y: 11 * in, Length: in}}}
	plan, err = onRoll(flawed, []Piece{{Outline: boxAt(t, 0, 0, 10, 10), Count: 1, Phase: OnMotif(inches(0, 30))}}, light)
	require.NoError(t, err)
	assert.Equal(t, 60*in, plan.Need, "the next repeat")
}

func BenchmarkWingChairs(b *testing.B) {
	panels := wingChair(b)
	for b.Loop() {
		_, err := onRoll(material.Roll{Width: 54 * in}, panels, Options{})
		require.NoError(b, err)
	}
}

// A piece bound along only may lie on the motifs of any column of a drop, and half
// turned on those that fall where they rose.
func TestTurnedOnAThirdOfTheRepeat(t *testing.T) { turnedOnThirds(t, 1) }

// turnedOnThirds lays wedges on a pattern that drops by so many thirds.
func turnedOnThirds(t *testing.T, num int) {
	t.Helper()
	wedge := polygon(t, shape.Point{}, shape.Point{X: 4 * in}, shape.Point{X: 4 * in, Y: in}, shape.Point{X: in, Y: 7 * in})
	roll := material.Roll{Width: 19 * in, Repeat: 13 * in, Across: 4 * in, Drop: material.Drop{Num: num, Den: 3}, First: shape.Point{X: 2 * in, Y: 6 * in}}
	p := Piece{Outline: wedge, Count: 12, Turn: HalfTurn, Phase: OnMotif(shape.Point{X: 3 * in})}
	p.Phase.Axes = AlongOnly
	plan, err := Solve(context.Background(), Job{Roll: &roll, Pieces: []Piece{p}}, Options{Effort: 0.1})
	require.NoError(t, err)
	require.NoError(t, plan.Verify())
	assert.Equal(t, OutlinesNested, plan.Method)
	assert.True(t, slices.ContainsFunc(plan.Places, func(q Place) bool { return q.Turned == 180 }), "some are turned")
}
