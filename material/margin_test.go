package material_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Worked by hand: 96 in and 2 in at each end are 100 in, 2.778 yd, ordered as 3 yd, where
// the layout alone took 2 3/4; 800 in are more than 20 yd and have a flaw of 4 1/2 in.
func TestOrderWith(t *testing.T) {
	const in, yd = unit.Inch, unit.Yard
	usual := material.UsualMargins().Usual
	finisher := usual
	finisher.Treatment, finisher.LeastTreatment = 0.05, 18*in
	for _, r := range []struct {
		name         string
		roll         material.Roll
		margin       material.WorkingMargin
		need, spare  unit.Length
		total, order unit.Length
	}{
		{"the usual", material.Roll{Increment: yd / 4}, usual, 96 * in, 0, 4 * in, 3 * yd},
		{"none", material.Roll{Increment: yd / 4}, material.WorkingMargin{}, 96 * in, 0, 0, 11 * yd / 4},
		{"a flaw", material.Roll{}, usual, 800 * in, 0, 17 * in / 2, 1617 * in / 2},
		{"just under a flaw", material.Roll{}, usual, 720*in - 1, 0, 4 * in, 724*in - 1},
		{"the first flaw", material.Roll{}, usual, 720 * in, 0, 17 * in / 2, 1457 * in / 2},
		{"a start of a bolt", material.Roll{Increment: yd / 4}, usual, 96 * in, 27 * in, 4 * in, 15 * yd / 4}, // 127 in
		{"shrinkage", material.Roll{Shrinkage: 0.2}, usual, 96 * in, 0, 4 * in, 125 * in},
		{"a finisher, at least 18 in", material.Roll{}, finisher, 96 * in, 0, 22 * in, 118 * in},
		{"a finisher, 5 %", material.Roll{}, finisher, 500 * in, 0, 29 * in, 529 * in},
		{"nothing to cut", material.Roll{Increment: yd / 4}, finisher, 0, 0, 0, 0},
	} {
		o, err := r.roll.OrderWith(r.need, r.spare, r.margin)
		require.NoError(t, err, r.name)
		assert.Equal(t, r.total, o.Margin.Total, r.name)
		assert.Equal(t, r.order, o.Order, r.name)
		assert.Equal(t, o.Margin.Total, o.Margin.Squaring+o.Margin.Test+o.Margin.Flaws+o.Margin.Treatment, r.name)
	}
}

// Worked by hand: a customer's 2 3/4 yd, 99 in, hold the layout of 96 in with 3 in left,
// and are 1 in short of the margin.
func TestSuffices(t *testing.T) {
	const in = unit.Inch
	roll := material.Roll{Width: 54 * in, Increment: unit.Yard / 4}
	for _, r := range []struct {
		name   string
		roll   material.Roll
		have   unit.Length
		spare  unit.Length
		supply material.Supply
		left   unit.Length
		margin unit.Length
		short  unit.Length
	}{
		{"to the inch with the margin", roll, 100 * in, 0, material.Enough, 4 * in, 0, 0},
		{"own goods of 2 3/4 yd", roll, 99 * in, 0, material.Tight, 3 * in, in, 0},
		{"to the inch", roll, 96 * in, 0, material.Tight, 0, 4 * in, 0},
		{"short", roll, 90 * in, 0, material.Lacking, 0, 10 * in, 6 * in},
		{"a start of a bolt", roll, 100 * in, 10 * in, material.Lacking, 0, 10 * in, 6 * in},
		{"what shrinks by a fifth", material.Roll{Width: 54 * in, Shrinkage: 0.2}, 121 * in, 0, material.Tight, in, 4 * in, 0},
	} {
		got, err := material.Stock{Roll: r.roll, Length: r.have}.Suffices(96*in, r.spare, material.UsualMargins().Usual)
		require.NoError(t, err, r.name)
		assert.Equal(t, r.supply, got.Supply, r.name)
		assert.Equal(t, []unit.Length{r.left, r.margin, r.short}, []unit.Length{got.Left, got.ShortOfMargin, got.Short}, r.name)
	}
}

// The figures in use lie in their order, and each is one that a margin accepts.
func TestUsualMargins(t *testing.T) {
	f := material.UsualMargins()
	var totals, flawEvery []unit.Length
	for _, m := range []material.WorkingMargin{f.Least, f.Usual, f.Most} {
		p, err := m.Of(30 * unit.Yard)
		require.NoError(t, err)
		totals = append(totals, p.Total)
		// The first flaw comes with the whole length in which one is reckoned with.
		for need, flaws := range map[unit.Length]unit.Length{m.FlawEvery: unit.Yard / 8, m.FlawEvery - 1: 0} {
			p, err := m.Of(need)
			require.NoError(t, err)
			assert.Equal(t, flaws, p.Flaws)
		}
		flawEvery = append(flawEvery, m.FlawEvery)
	}
	// 2 in; 4 in and a flaw; 8 and 12 in, three flaws and 5 % of 1080 in
	assert.Equal(t, []unit.Length{2 * unit.Inch, 17 * unit.Inch / 2, (8+12+54)*unit.Inch + 27*unit.Inch/2}, totals)
	assert.Equal(t, []unit.Length{40 * unit.Yard, 20 * unit.Yard, 10 * unit.Yard}, flawEvery)
}

func TestMarginsRefused(t *testing.T) {
	const in = unit.Inch
	roll := material.Roll{Width: 54 * in}
	for _, r := range []struct {
		name   string
		stock  material.Stock
		need   unit.Length
		spare  unit.Length
		margin material.WorkingMargin
		field  unit.Path
		is     error
	}{
		{"nothing at hand", material.Stock{Roll: roll}, in, 0, material.WorkingMargin{}, "length", unit.ErrRange},
		{"no width known", material.Stock{Length: unit.Yard}, in, 0, material.WorkingMargin{}, "roll.width", unit.ErrRange},
		{"need", material.Stock{Roll: roll, Length: unit.Yard}, -in, 0, material.WorkingMargin{}, "need", unit.ErrRange},
		{"spare", material.Stock{Roll: roll, Length: unit.Yard}, in, 9, material.WorkingMargin{}, "spare", unit.ErrForgottenUnit},
		{"squaring", material.Stock{Roll: roll, Length: unit.Yard}, in, 0, material.WorkingMargin{Squaring: 2}, "squaring", unit.ErrForgottenUnit},
		{"flaws all over", material.Stock{Roll: roll, Length: unit.Yard}, in, 0, material.WorkingMargin{FlawEvery: in}, "flaw_every", unit.ErrRange},
		{"treatment", material.Stock{Roll: roll, Length: unit.Yard}, in, 0, material.WorkingMargin{Treatment: 0.6}, "treatment", unit.ErrRange},
		{"beyond any bolt", material.Stock{Roll: roll, Length: unit.Yard}, 1000 * unit.Metre, in, material.WorkingMargin{}, "length", unit.ErrRange},
	} {
		_, err := r.stock.Suffices(r.need, r.spare, r.margin)
		require.ErrorIs(t, err, r.is, r.name)
		var bad *unit.InputError
		require.ErrorAs(t, err, &bad, r.name)
		assert.Equal(t, r.field, bad.Field, r.name)
	}
}

func anyMargin(t *rapid.T) material.WorkingMargin {
	inches := func(name string, most int) unit.Length {
		return unit.Length(rapid.IntRange(0, 4*most).Draw(t, name)) * unit.Inch / 4
	}
	m := material.WorkingMargin{Squaring: inches("squaring", 6), Test: inches("test", 20), FlawLength: inches("flaw", 30), LeastTreatment: inches("least", 36),
		Treatment: unit.Ratio(rapid.IntRange(0, 10).Draw(t, "treatment")) / 100}
	if every := rapid.IntRange(0, 40).Draw(t, "every"); every > 1 {
		m.FlawEvery = unit.Length(every) * unit.Yard
	}
	return m
}

// Goods at hand never have to be longer than what would be bought; what would be bought
// is enough; more is never worse; and an order is rounded up once, by less than a step.
func TestLawOwnGoods(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		margin := anyMargin(t)
		roll := material.Roll{Width: 54 * unit.Inch, Shrinkage: unit.Ratio(rapid.IntRange(0, 10).Draw(t, "shrinkage")) / 100,
			Increment: unit.Length(rapid.IntRange(0, 8).Draw(t, "eighths")) * unit.Yard / 8}
		need := unit.Length(rapid.IntRange(1, 40_000).Draw(t, "need")) * unit.Millimetre
		spare := unit.Length(rapid.IntRange(0, 700).Draw(t, "spare")) * unit.Millimetre
		bought, err := roll.OrderWith(need, spare, margin)
		require.NoError(t, err)
		require.GreaterOrEqual(t, bought.Order, bought.Gross)
		require.Less(t, bought.Order-bought.Gross, max(roll.Increment, 1))
		bare, err := roll.Order(need + spare)
		require.NoError(t, err)
		require.GreaterOrEqual(t, bought.Order, bare)
		none, err := roll.OrderWith(need, spare, material.WorkingMargin{})
		require.NoError(t, err)
		require.Equal(t, bare, none.Order)

		own, err := material.Stock{Roll: roll, Length: bought.Order}.Suffices(need, spare, margin)
		require.NoError(t, err)
		require.Equal(t, material.Enough, own.Supply)
		require.LessOrEqual(t, own.Wanted, bought.Order)

		have := unit.Length(rapid.IntRange(1, 60_000).Draw(t, "have")) * unit.Millimetre
		less, err := material.Stock{Roll: roll, Length: have}.Suffices(need, spare, margin)
		require.NoError(t, err)
		more, err := material.Stock{Roll: roll, Length: have + unit.Millimetre}.Suffices(need, spare, margin)
		require.NoError(t, err)
		require.LessOrEqual(t, more.Supply, less.Supply)
		require.Equal(t, less.Supply == material.Lacking, less.Short > 0)
		require.Equal(t, less.Supply == material.Enough, less.ShortOfMargin == 0)
		if less.Short > 0 { // what is lacking, added, is as much as the layout takes
			full, err := material.Stock{Roll: roll, Length: have + less.Short}.Suffices(need, spare, margin)
			require.NoError(t, err)
			require.NotEqual(t, material.Lacking, full.Supply)
			require.Zero(t, full.Left)
		}
	})
}

// The pattern lies on a part as it lies on the goods that the part is cut from.
func TestLawPart(t *testing.T) {
	const in = unit.Inch
	rapid.Check(t, func(t *rapid.T) {
		eighths := func(name string, lo, hi int) unit.Length {
			return unit.Length(rapid.IntRange(8*lo, 8*hi).Draw(t, name)) * in / 8
		}
		r := material.Roll{Width: 54 * in, Selvage: in / 2, Increment: unit.Yard, Repeat: eighths("repeat", 1, 30), Across: eighths("across", 1, 30),
			Up: material.Up(rapid.IntRange(0, 2).Draw(t, "up"))}
		r.First.X, r.First.Y = eighths("first x", 0, 60), eighths("first y", 0, 60)
		if n := rapid.IntRange(1, 4).Draw(t, "drop"); n > 1 {
			r.Drop = material.Drop{Num: 1, Den: n}
		}
		whole := material.Stock{Roll: r, Length: 200 * in}
		x, y := eighths("x", 0, 40), eighths("y", 0, 150)
		part, err := whole.Part(x, y, 12*in, 40*in)
		require.NoError(t, err)
		// The first motif of the part, seen on the goods, is a motif of theirs.
		d := part.Roll.First
		d.X, d.Y = d.X+x-r.First.X, d.Y+y-r.First.Y
		apart := r.Motifs().Apart(d)
		require.LessOrEqual(t, max(apart.X, -apart.X, apart.Y, -apart.Y), 10*unit.Micrometre)
		require.Equal(t, r.Up, part.Roll.Up)
		require.Equal(t, unit.Length(0), part.Roll.Selvage+part.Roll.Increment)
		// A part of a part is a part.
		again, err := part.Part(0, 0, 12*in, 40*in)
		require.NoError(t, err)
		e := again.Roll.First
		e.X, e.Y = e.X-part.Roll.First.X, e.Y-part.Roll.First.Y
		apart = part.Roll.Motifs().Apart(e)
		require.LessOrEqual(t, max(apart.X, -apart.X, apart.Y, -apart.Y), 10*unit.Micrometre)
	})
}

func TestPartRefused(t *testing.T) {
	const in = unit.Inch
	s := material.Stock{Roll: material.Roll{Width: 54 * in, Selvage: in}, Length: 60 * in}
	for _, r := range []struct {
		name                string
		x, y, width, length unit.Length
		field               unit.Path
	}{
		{"beside it", 60 * in, 0, 12 * in, 12 * in, "x"},
		{"beyond it", 0, 61 * in, 12 * in, 12 * in, "y"},
		{"over the selvage", 40 * in, 0, 13 * in, 12 * in, "width"},
		{"over the end", 0, 50 * in, 12 * in, 12 * in, "length"},
		{"narrower than any roll", 0, 0, 9 * in, 12 * in, "roll.width"},
	} {
		_, err := s.Part(r.x, r.y, r.width, r.length)
		require.ErrorIs(t, err, unit.ErrRange, r.name)
		var bad *unit.InputError
		require.ErrorAs(t, err, &bad, r.name)
		assert.Equal(t, r.field, bad.Field, r.name)
	}
}

func TestSupplyNames(t *testing.T) {
	for _, s := range []material.Supply{0, material.Enough, material.Tight, material.Lacking} {
		text, err := s.MarshalText()
		require.NoError(t, err)
		back := material.Supply(9)
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, s, back)
	}
	_, err := material.Supply(4).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.Equal(t, "none", material.Supply(0).String())
}
