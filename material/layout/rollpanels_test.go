package layout

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// wingChair is the curved panels of the pair of wing chairs of the demo job.
func wingChair(t testing.TB) []RollPanel {
	must := func(o shape.Outline, err error) shape.Outline {
		t.Helper()
		require.NoError(t, err)
		return o
	}
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	wing := must(shape.TraceFrom(pt(0, 0)).Edge("bottom").Line(pt(11*in, 0)).Edge("front").Cubic(pt(16*in, 8*in), pt(14*in, 16*in), pt(9*in, 20*in)).
		Edge("top").Line(pt(3*in, 21*in)).Edge("back").Arc(pt(0, 0), -in).Close())
	arm := must(shape.TraceFrom(pt(0, 0)).Edge("bottom").Line(pt(28*in, 2*in)).Edge("front").Arc(pt(27*in, 15*in), 2*in).Edge("top").
		Cubic(pt(18*in, 17*in), pt(8*in, 13*in), pt(0, 12*in)).Edge("back").Close())
	return []RollPanel{
		{Name: "inside back", Outline: must(shape.Crowned(26*in, 30*in, 4*in)), Count: 2, Match: pt(13*in, 15*in)},
		{Name: "outside back", Outline: must(shape.Crowned(25*in, 28*in, 3*in)), Count: 2, Match: pt(25*in/2, 14*in)},
		{Name: "wing", Outline: wing, Count: 4, Paired: true, Match: pt(6*in, 10*in)},
		{Name: "arm", Outline: arm, Count: 4, Paired: true, Match: pt(14*in, 8*in)},
		{Name: "seat", Outline: must(shape.Trapezoid(30*in, 26*in, 30*in, 2*in)), Count: 2, Match: pt(15*in, 15*in)},
		{Name: "facing", Outline: must(shape.Ellipse(6*in, 9*in)), Count: 4, Unmatched: true, Turn: HalfTurn},
	}
}

// Curved panels take no more cloth nested than their boxes do, on every kind
// of goods, and most of the time less.
func TestNestRollWingChairs(t *testing.T) {
	many := make([]material.Flaw, 101)
	for i := range many {
		many[i] = material.Flaw{X: 20 * in, Y: unit.Length(i) * in, Width: in, Length: in}
	}
	for _, c := range []struct {
		roll   material.Roll
		method string // of the plan that is kept, where that is certain
	}{
		{material.Roll{Name: "plain", Width: 54 * in, Increment: unit.Yard / 8}, nestedMethod},
		{material.Roll{Name: "patterned", Width: 54 * in, Repeat: 27 * in, Across: 27 * in / 2, Nap: true, Shrinkage: 0.03}, ""},
		{material.Roll{Name: "stripes", Width: 54 * in, Selvage: in / 2, Across: 9 * in}, ""},
		{material.Roll{Name: "half drop", Width: 54 * in, Repeat: 18 * in, Across: 27 * in / 2, Drop: material.Drop{Num: 1, Den: 2}}, ""},
		{material.Roll{Name: "small half drop", Width: 54 * in, Repeat: 2 * in, Across: 3 * in, Drop: material.Drop{Num: 1, Den: 2}}, nestedMethod},
		{material.Roll{Name: "flawed", Width: 54 * in, Flaws: []material.Flaw{{X: 10 * in, Y: 5 * in, Width: in, Length: in}, {Y: 40 * in, Length: in}, {Y: 90 * unit.Metre, Length: in}}}, nestedMethod},
		{material.Roll{Name: "full of flaws", Width: 54 * in, Flaws: many}, boxMethod + ": the job is beyond the nesting engine"},
	} {
		plan, err := NestRoll(context.Background(), c.roll, wingChair(t), NestOptions{Effort: 0.03})
		require.NoError(t, err, c.roll.Name)
		require.NoError(t, plan.Verify())
		assert.LessOrEqual(t, plan.Need, plan.Boxes, c.roll.Name)
		assert.GreaterOrEqual(t, plan.Need, plan.Bound)
		assert.Equal(t, plan.Boxes-plan.Need, plan.Saved())
		order, err := c.roll.Order(plan.Need)
		require.NoError(t, err)
		assert.Equal(t, order, plan.Order)
		if c.method != "" {
			assert.Equal(t, c.method, plan.Method, c.roll.Name)
		}
		density, err := plan.Density()
		require.NoError(t, err)
		yield, err := plan.Yield()
		require.NoError(t, err)
		assert.LessOrEqual(t, yield, density)
		assert.LessOrEqual(t, density, unit.Ratio(1))
		assert.Equal(t, cite.Layout, plan.Kind)
		for _, q := range plan.Placements {
			if c.roll.Nap {
				assert.Zero(t, q.Degrees)
			}
			assert.Equal(t, plan.Panels[q.Panel].Paired && q.Copy%2 == 1, q.Mirrored)
		}
		for _, system := range []unit.System{unit.Inches, unit.Metric} {
			s, err := plan.SVG(system)
			require.NoError(t, err)
			assert.Contains(t, s, "inside back")
		}
	}
}

// Every place of the true outline lies within the outline of the placement, on
// the usable width.
func TestRollPlacementsHoldTheTrueOutlines(t *testing.T) {
	panels := wingChair(t)
	for i := range panels {
		panels[i].Turn = Railroad
	}
	plan, err := NestRoll(context.Background(), material.Roll{Width: 54 * in, Selvage: in}, panels, NestOptions{Effort: 0.02})
	require.NoError(t, err)
	for _, q := range plan.Placements {
		fine, err := panels[q.Panel].Outline.Flatten(0)
		require.NoError(t, err)
		lies := gridRing(q.Outline)
		for _, p := range fine {
			if q.Mirrored {
				p.X = -p.X
			}
			for range q.Degrees / 90 {
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

// Boxes that fill the width edge to edge stay possible for curves: two circles
// of 27 in lie side by side on goods of 54 in.
func TestCirclesFillTheWidth(t *testing.T) {
	circle, err := shape.Circle(27 * in)
	require.NoError(t, err)
	plan, err := NestRoll(context.Background(), material.Roll{Width: 54 * in}, []RollPanel{{Outline: circle, Count: 2}}, light)
	require.NoError(t, err)
	assert.Equal(t, 27*in, plan.Need)
	assert.Equal(t, plan.Bound, plan.Need)
	assert.Zero(t, plan.GapShare())
}

// Triangles point up and down in turn where they may be turned, and not on a
// nap; their area over the width is the bound.
func TestNapForbidsTurning(t *testing.T) {
	tri := polygon(t, inches(0, 0), inches(54, 0), inches(54, 20))
	free, err := NestRoll(context.Background(), material.Roll{Width: 54 * in}, []RollPanel{{Outline: tri, Count: 2, Turn: HalfTurn}}, light)
	require.NoError(t, err)
	assert.Equal(t, 20*in, free.Need)
	nap, err := NestRoll(context.Background(), material.Roll{Width: 54 * in, Nap: true}, []RollPanel{{Outline: tri, Count: 2, Turn: HalfTurn}}, light)
	require.NoError(t, err)
	assert.Greater(t, nap.Need, free.Need)
	assert.Equal(t, 20*in, nap.Bound)
	pair, err := NestRoll(context.Background(), material.Roll{Width: 54 * in, Nap: true}, []RollPanel{{Outline: tri, Count: 2, Paired: true}}, light)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, pair.Need, 20*in)
}

// Match points lie on motifs: whole repeats from the end and the left edge.
func TestMatchPointsLieOnMotifs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tick := in / 4
		roll := material.Roll{Width: 40 * in, Repeat: unit.Length(rapid.IntRange(8, 60).Draw(t, "repeat")) * tick, Nap: rapid.Bool().Draw(t, "nap"),
			Across: unit.Length(rapid.IntRange(0, 40).Draw(t, "across")) * tick}
		if roll.Across < 2*in {
			roll.Across = 0
		}
		if den := rapid.IntRange(1, 4).Draw(t, "parts"); den > 1 && roll.Across > 0 {
			roll.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
		}
		o, err := shape.Ellipse(9*in, 13*in)
		require.NoError(t, err)
		m := shape.Point{X: unit.Length(rapid.IntRange(-10, 10).Draw(t, "mx")) * tick, Y: unit.Length(rapid.IntRange(-10, 10).Draw(t, "my")) * tick}
		plan, err := NestRoll(context.Background(), roll, []RollPanel{{Outline: o, Count: 3, Match: m, Turn: HalfTurn, Paired: rapid.Bool().Draw(t, "paired")},
			{Outline: o, Count: 1, Unmatched: true}}, NestOptions{Effort: 0.02})
		require.NoError(t, err)
		require.NoError(t, plan.Verify())
		for _, q := range plan.Placements {
			if q.Panel != 0 {
				continue
			}
			x, y := m.X, m.Y
			if q.Mirrored {
				x = -x
			}
			if q.Degrees == 180 {
				x, y = -x, -y
				assert.False(t, roll.Nap)
			}
			var fall unit.Length
			if roll.Across > 0 {
				assert.Zero(t, (q.X+x)%roll.Across)
				if d := roll.Drop; d.Den > 0 {
					columns := int((q.X + x) / roll.Across)
					fall = unit.Length(columns*d.Num) * roll.Repeat / unit.Length(d.Den)
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
	})
}

// Rectangles are their own boxes: nesting them is never longer than the layout
// of boxes, and its bound is no higher than the need.
func TestNestRollNeverLongerThanBoxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var panels []RollPanel
		for range rapid.IntRange(1, 3).Draw(t, "kinds") {
			w, h := unit.Length(rapid.IntRange(2, 40).Draw(t, "w"))*in, unit.Length(rapid.IntRange(2, 40).Draw(t, "h"))*in
			o := rectOutline(t, w, h)
			if rapid.Bool().Draw(t, "round") {
				var err error
				o, err = shape.Ellipse(w, h)
				require.NoError(t, err)
			}
			panels = append(panels, RollPanel{Outline: o, Count: rapid.IntRange(1, 2).Draw(t, "count"), Turn: rapid.SampledFrom([]Turn{KeepGrain, HalfTurn, Railroad}).Draw(t, "turn")})
		}
		gap := unit.Length(rapid.IntRange(0, 2).Draw(t, "gap")) * 3 * unit.Millimetre
		roll := material.Roll{Width: 54 * in}
		for range rapid.IntRange(0, 3).Draw(t, "flaws") {
			x := unit.Length(rapid.IntRange(0, 53).Draw(t, "flaw x")) * in
			roll.Flaws = append(roll.Flaws, material.Flaw{X: x, Y: unit.Length(rapid.IntRange(0, 300).Draw(t, "flaw y")) * in,
				Width: unit.Length(rapid.IntRange(0, 54-int(x/in)).Draw(t, "flaw width")) * in, Length: unit.Length(rapid.IntRange(1, 500).Draw(t, "flaw length")) * unit.Millimetre})
		}
		plan, err := NestRoll(context.Background(), roll, panels, NestOptions{Effort: 0.02, Gap: gap})
		require.NoError(t, err)
		require.NoError(t, plan.Verify())
		assert.LessOrEqual(t, plan.Need, plan.Boxes)
		assert.LessOrEqual(t, plan.Bound, plan.Need)
	})
}

func TestRollPlanInJSON(t *testing.T) {
	roll := material.Roll{Name: "plain", Width: 54 * in}
	a, err := NestRoll(context.Background(), roll, wingChair(t), NestOptions{Effort: 0.02, Seed: 3})
	require.NoError(t, err)
	text, err := json.Marshal(a)
	require.NoError(t, err)
	b, err := NestRoll(context.Background(), roll, wingChair(t), NestOptions{Effort: 0.02, Seed: 3})
	require.NoError(t, err)
	again, err := json.Marshal(b)
	require.NoError(t, err)
	assert.Equal(t, string(text), string(again))
	var back RollPlan
	require.NoError(t, json.Unmarshal(text, &back))
	require.NoError(t, back.Verify())
}

func TestNestRollStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	plan, err := NestRoll(ctx, material.Roll{Width: 54 * in}, wingChair(t), NestOptions{Effort: 10})
	require.NoError(t, err)
	assert.True(t, plan.Stopped)
	require.NoError(t, plan.Verify())
}

func TestNestRollRefuses(t *testing.T) {
	roll := material.Roll{Width: 54 * in}
	panel := RollPanel{Outline: box(t, 0, 0, 10, 10), Count: 1}
	with := func(do func(*RollPanel)) []RollPanel {
		p := panel
		do(&p)
		return []RollPanel{p}
	}
	for name, c := range map[string]struct {
		roll   material.Roll
		panels []RollPanel
		field  string
		err    error
	}{
		"no roll":    {material.Roll{}, []RollPanel{panel}, "roll.width", unit.ErrRange},
		"no panels":  {roll, nil, "panels", unit.ErrRequired},
		"no outline": {roll, with(func(p *RollPanel) { p.Outline = shape.Outline{} }), "panels[0].outline", unit.ErrRequired},
		"no count":   {roll, with(func(p *RollPanel) { p.Count = -1 }), "panels[0].count", unit.ErrRange},
		"too many":   {roll, with(func(p *RollPanel) { p.Count = MostPanels + 1 }), "panels[0].count", unit.ErrRange},
		"turn":       {roll, with(func(p *RollPanel) { p.Turn = 7 }), "panels[0].turn", unit.ErrUnknown},
		"match":      {roll, with(func(p *RollPanel) { p.Match.X = unit.Length(math.MaxInt64) }), "panels[0].match.x", unit.ErrRange},
		"wide":       {roll, with(func(p *RollPanel) { p.Outline = box(t, 0, 0, 60, 70) }), "panels[0].width", ErrTooWide},
		"repeat":     {material.Roll{Width: 54 * in, Repeat: in + 1}, []RollPanel{panel}, "roll.repeat", unit.ErrRange},
		"off match":  {material.Roll{Width: 54 * in, Repeat: 9 * in}, with(func(p *RollPanel) { p.Match.X = in + 1 }), "panels[0].match", unit.ErrRange},
	} {
		_, err := NestRoll(context.Background(), c.roll, c.panels, light)
		require.ErrorIs(t, err, c.err, name)
		var input *unit.InputError
		require.ErrorAs(t, err, &input, name)
		assert.Equal(t, c.field, string(input.Field), name)
	}
	// The second of a pair is still panel 0.
	_, err := NestRoll(context.Background(), roll, with(func(p *RollPanel) { p.Outline, p.Count, p.Paired = box(t, 0, 0, 60, 70), 2, true }), light)
	var input *unit.InputError
	require.ErrorAs(t, err, &input)
	assert.Equal(t, "panels[0].width", string(input.Field))
}

func TestRollVerifyFindsFaults(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 6 * in, Nap: true}
	good, err := NestRoll(context.Background(), roll, []RollPanel{{Outline: box(t, 0, 0, 20, 11), Count: 3}, {Outline: box(t, 0, 0, 8, 8), Count: 2, Paired: true, Unmatched: true}}, light)
	require.NoError(t, err)
	for name, do := range map[string]func(*RollPlan){
		"off repeat": func(p *RollPlan) {
			p.Placements[0].Y += in
			for k := range p.Placements[0].Outline {
				p.Placements[0].Outline[k].Y += in
			}
		},
		"outside":      func(p *RollPlan) { p.Need -= in; p.Bound = 0 },
		"turned":       func(p *RollPlan) { p.Placements[0].Degrees = 180 },
		"odd turn":     func(p *RollPlan) { p.Placements[0].Degrees = 45 },
		"hand":         func(p *RollPlan) { p.Placements[4].Mirrored = false },
		"missing":      func(p *RollPlan) { p.Placements = p.Placements[1:] },
		"twice":        func(p *RollPlan) { p.Placements[1] = p.Placements[0] },
		"no panel":     func(p *RollPlan) { p.Placements[0].Panel = 5 },
		"off grid":     func(p *RollPlan) { p.Placements[0].X++ },
		"short order":  func(p *RollPlan) { p.Order = p.Need - 1 },
		"under bound":  func(p *RollPlan) { p.Bound = p.Need + 1 },
		"over boxes":   func(p *RollPlan) { p.Boxes = p.Need - 1 },
		"uneven need":  func(p *RollPlan) { p.Need++; p.Order = p.Need; p.Boxes++ },
		"flaw under":   func(p *RollPlan) { p.Roll.Flaws = []material.Flaw{{Length: in}} },
		"nothing left": func(p *RollPlan) { p.Placements[0].Outline = nil },
	} {
		bad := good
		bad.Placements = append([]RollPlacement(nil), good.Placements...)
		bad.Placements[0].Outline = append([]shape.Point(nil), good.Placements[0].Outline...)
		do(&bad)
		require.ErrorIs(t, bad.Verify(), ErrBadLayout, name)
		_, err := bad.SVG(unit.Inches)
		require.Error(t, err, name)
	}
	require.NoError(t, good.Verify())
}

// A repeat far longer than a panel whose match point lies off it: boxes cannot
// be laid, outlines can.
func TestMatchPointFarOff(t *testing.T) {
	plan, err := NestRoll(context.Background(), material.Roll{Width: 54 * in, Repeat: 40 * in}, []RollPanel{{Outline: box(t, 0, 0, 10, 10), Count: 1, Match: inches(0, 30)}}, light)
	require.NoError(t, err)
	assert.Zero(t, plan.Boxes)
	assert.Zero(t, plan.Saved())
	assert.Equal(t, 20*in, plan.Need)
	flawed := material.Roll{Width: 54 * in, Repeat: 40 * in, Flaws: []material.Flaw{{Y: 11 * in, Length: in}}}
	plan, err = NestRoll(context.Background(), flawed, []RollPanel{{Outline: box(t, 0, 0, 10, 10), Count: 1, Match: inches(0, 30)}}, light)
	require.NoError(t, err)
	assert.Equal(t, 60*in, plan.Need, "the next repeat")
	full := material.Roll{Width: 54 * in, Repeat: 40 * in, Flaws: make([]material.Flaw, 101)}
	for i := range full.Flaws {
		full.Flaws[i].Length = in
	}
	_, err = NestRoll(context.Background(), full, []RollPanel{{Outline: box(t, 0, 0, 10, 10), Count: 1, Match: inches(0, 30)}}, light)
	require.ErrorIs(t, err, ErrNoLayout, "too many flaws for the engine")
}

func BenchmarkNestRollWingChairs(b *testing.B) {
	panels := wingChair(b)
	for b.Loop() {
		_, err := NestRoll(context.Background(), material.Roll{Width: 54 * in}, panels, NestOptions{})
		require.NoError(b, err)
	}
}
