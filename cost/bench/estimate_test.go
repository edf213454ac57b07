package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/unit"
)

func hours(t testing.TB, s string) unit.Duration {
	t.Helper()
	d, err := unit.ParseDuration(s)
	require.NoError(t, err)
	return d
}

func ratio(r unit.Ratio) *unit.Ratio { return &r }

func usual(t testing.TB, b bench.Build) bench.Estimate {
	t.Helper()
	e, err := bench.Usual().Estimate(b)
	require.NoError(t, err)
	return e
}

func line(t testing.TB, e bench.Estimate, name string) bench.Line {
	t.Helper()
	for _, l := range e.Lines {
		if l.Name() == name {
			return l
		}
	}
	require.Fail(t, "no line", name)
	return bench.Line{}
}

// Worked by hand: a club chair at the middle of every range, in leather at 1.35, with
// 8 ft of spaced nails: 1.35 x 7.5 = 10.125; + 6.375 + 0.6 = 17.10 h.
func TestClubChair(t *testing.T) {
	t.Parallel()
	own, err := bench.Usual().With(bench.Table{Goods: []bench.Goods{{Name: "leather", Factor: bench.Factor{From: 1.35, To: 1.35}}}})
	require.NoError(t, err)
	e, err := own.Estimate(bench.Build{Piece: "club chair", Goods: "leather", Share: ratio(0.5), Extras: []bench.Work{{Extra: "spaced nails", Length: 8 * unit.Foot}}})
	require.NoError(t, err)
	assert.Equal(t, hours(t, "17.1 h"), e.Usual)
	assert.Equal(t, hours(t, "36 min"), line(t, e, "spaced nails").Usual)
}

// Worked by hand, each from the table.
func TestEstimates(t *testing.T) {
	t.Parallel()
	for _, r := range []struct {
		name  string
		build bench.Build
		want  string
	}{
		// strip 14, frame 10, pad 10, cut 5, cover 18, finish 5 min
		{"a third of the way up", bench.Build{Piece: "drop-in seat"}, "62 min"},
		{"nothing to strip and no webbing", bench.Build{Piece: "drop-in seat", Tasks: []bench.Task{bench.Pad, bench.Cut, bench.Cover, bench.Finish}}, "38 min"},
		{"the low end", bench.Build{Piece: "drop-in seat", Share: ratio(0)}, "33 min"},
		{"the high end", bench.Build{Piece: "drop-in seat", Share: ratio(1)}, "2 h"},
		// cut 15 and cover 60 min by 1.1: 16.5, rounded to 17, and 66
		{"a pattern matched", bench.Build{Piece: "dining side chair", Match: true, Tasks: []bench.Task{bench.Cut, bench.Cover}, Share: ratio(0)}, "83 min"},
		// 10 ft at 0.75 h
		{"by the running foot", bench.Build{Piece: "booth", Length: 10 * unit.Foot, Share: ratio(0)}, "7.5 h"},
		{"channels and close nails", bench.Build{Extras: []bench.Work{{Extra: "channel", Count: 9}, {Extra: "close nails", Length: 30 * unit.Inch}}, Share: ratio(0)}, "115 min"},
		{"errands alone", bench.Build{Tasks: []bench.Task{bench.Deliver, bench.Measure}, Share: ratio(0)}, "1 h"},
	} {
		assert.Equal(t, hours(t, r.want), usual(t, r.build).Usual, r.name)
	}
}

// What a row holds is not counted twice, and what goes beyond it is.
func TestHeldOnce(t *testing.T) {
	t.Parallel()
	welt := []bench.Work{{Extra: "single welt", Length: 16 * unit.Foot}}
	plain, welted := usual(t, bench.Build{Piece: "boxed cushion"}), usual(t, bench.Build{Piece: "boxed cushion", Extras: welt})
	assert.Equal(t, plain.Usual, welted.Usual)
	l := line(t, welted, "single welt")
	assert.Equal(t, welt[0], l.Held)
	assert.Equal(t, "in sew of the boxed cushion", l.How)
	// The sewing is done elsewhere, so the welt has no task that holds it: 16 ft at 2 min.
	sewn := usual(t, bench.Build{Piece: "boxed cushion", Tasks: []bench.Task{bench.Cover}, Extras: welt, Share: ratio(0)})
	assert.Equal(t, hours(t, "32 min"), line(t, sewn, "single welt").Usual)

	buttons := func(n int) bench.Line {
		return line(t, usual(t, bench.Build{Piece: "headboard", Extras: []bench.Work{{Extra: "deep button", Count: n}}, Share: ratio(0)}), "deep button")
	}
	assert.Zero(t, buttons(40).Usual)
	assert.Equal(t, 40, buttons(40).Held.Count)
	assert.Equal(t, 8*unit.Minute, buttons(41).Usual)
	assert.Equal(t, 12, buttons(12).Held.Count)

	coils := []bench.Work{{Extra: "coil seat", Count: 1}}
	e := usual(t, bench.Build{Piece: "wing chair", Extras: coils})
	assert.Equal(t, hours(t, "4 h"), line(t, e, "frame").Usual, "the upper end of frame is the coil work")
	assert.Zero(t, line(t, e, "coil seat").Usual)
	assert.Equal(t, hours(t, "4 h"), line(t, usual(t, bench.Build{Piece: "dining side chair", Extras: coils}), "coil seat").Usual)
}

func TestTaxClasses(t *testing.T) {
	t.Parallel()
	classes := func(b bench.Build) map[string]cost.TaxClass {
		out := map[string]cost.TaxClass{}
		for _, l := range usual(t, b).Lines {
			out[l.Name()] = l.TaxClass
		}
		return out
	}
	f, a := bench.Fabrication, bench.Application
	assert.Equal(t, map[string]cost.TaxClass{"strip": a, "frame": a, "pad": a, "cut": f, "sew": f, "cover": a, "finish": a, "skirt": f, "close nails": a,
		"measure": "labour", "quote": "labour", "order": "labour", "collect": "delivery", "deliver": "delivery", "set": a},
		classes(bench.Build{Piece: "sofa", Tasks: append(bench.Tasks(), bench.Errands()...),
			Extras: []bench.Work{{Extra: "skirt", Length: unit.Yard}, {Extra: "close nails", Length: unit.Foot}}}))
	assert.Equal(t, map[string]cost.TaxClass{"strip": a, "pad": f, "cut": f, "sew": f, "cover": f, "finish": f}, classes(bench.Build{Piece: "boxed cushion"}))
	assert.Empty(t, bench.Task(0).TaxClass(true))
	assert.Empty(t, bench.Task(99).TaxClass(false))
}

func TestCautions(t *testing.T) {
	t.Parallel()
	e := usual(t, bench.Build{Piece: "club chair", Extras: []bench.Work{{Extra: "channel", Count: 3}}})
	for _, r := range []struct{ line, own, want string }{
		{"sew", "30 min", "sew: 30 min is less than the usual 1 h 30 min to 3 h"},
		{"sew", "1.5 h", ""},
		{"sew", "3 h", ""},
		{"sew", "3 h 1 min", "sew: 3 h 1 min is more than the usual 1 h 30 min to 3 h"},
		{"channel", "2 h", "channel: 2 h is more than the usual 30 min to 1 h"},
	} {
		got, err := line(t, e, r.line).Caution(hours(t, r.own))
		require.NoError(t, err)
		assert.Equal(t, r.want, got)
	}
	got, err := bench.Piece{}.Time(bench.Sew).Caution("sew", unit.Hour)
	require.NoError(t, err)
	assert.Equal(t, "sew: 1 h, where no time is usual", got)
	_, err = e.Time.Caution("all", -unit.Hour)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = e.Time.Caution("all", 8)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
}

// A shop's rows take the place of those of the same name, and stand beside the others.
func TestWith(t *testing.T) {
	t.Parallel()
	shop := bench.Table{
		Pieces:  []bench.Piece{{Name: "bolster", Sew: bench.Span{From: unit.Hour, To: unit.Hour}}, {Name: "stool", Cover: bench.Span{From: unit.Hour, To: 2 * unit.Hour}}},
		Extras:  []bench.Extra{{Name: "tassel", Task: bench.Finish, Time: bench.Span{From: unit.Minute, To: unit.Minute}}},
		Match:   bench.Factor{From: 0.4, To: 0.4},
		Errands: []bench.Errand{{Task: bench.Deliver, Time: bench.Span{From: 2 * unit.Hour, To: 2 * unit.Hour}}},
	}
	own, err := bench.Usual().With(shop)
	require.NoError(t, err)
	assert.Len(t, own.Pieces, len(bench.Usual().Pieces)+1)
	assert.Len(t, own.Extras, len(bench.Usual().Extras)+1)
	assert.Equal(t, bench.Usual().Goods, own.Goods)
	assert.Len(t, own.Errands, len(bench.Usual().Errands))
	e, err := own.Estimate(bench.Build{Piece: "bolster", Match: true, Extras: []bench.Work{{Extra: "tassel", Count: 2}}})
	require.NoError(t, err)
	assert.Equal(t, hours(t, "1 h 26 min"), e.Usual)
	assert.Equal(t, "1 h × 1.4 for the match", e.Lines[0].How)
	plain, err := own.With(bench.Table{})
	require.NoError(t, err)
	assert.Equal(t, own, plain)
}

func TestRefused(t *testing.T) {
	t.Parallel()
	bad := func(change func(*bench.Table)) bench.Table {
		x := bench.Usual()
		change(&x)
		return x
	}
	seat := bench.Build{Piece: "drop-in seat"}
	for _, r := range []struct {
		name  string
		table bench.Table
		build bench.Build
		field unit.Path
		is    error
	}{
		{"nothing", bench.Usual(), bench.Build{}, "piece", unit.ErrRequired},
		{"no such piece", bench.Usual(), bench.Build{Piece: "throne"}, "piece", unit.ErrUnknown},
		{"an empty table", bench.Table{}, seat, "piece", unit.ErrUnknown},
		{"length of one piece", bench.Usual(), bench.Build{Piece: "sofa", Length: unit.Foot}, "length", unit.ErrRange},
		{"no length of a booth", bench.Usual(), bench.Build{Piece: "booth"}, "length", unit.ErrRequired},
		{"a booth without a unit", bench.Usual(), bench.Build{Piece: "booth", Length: 10}, "length", unit.ErrForgottenUnit},
		{"no task", bench.Usual(), bench.Build{Piece: "sofa", Tasks: []bench.Task{0}}, "tasks[0]", unit.ErrUnknown},
		{"a task twice", bench.Usual(), bench.Build{Piece: "sofa", Tasks: []bench.Task{bench.Sew, bench.Sew}}, "tasks[1]", unit.ErrRange},
		{"sewing of nothing", bench.Usual(), bench.Build{Tasks: []bench.Task{bench.Sew}}, "piece", unit.ErrRequired},
		{"an errand without a row", bench.Table{}, bench.Build{Tasks: []bench.Task{bench.Quote}}, "tasks[0]", unit.ErrUnknown},
		{"no such extra", bench.Usual(), bench.Build{Piece: "sofa", Extras: []bench.Work{{Extra: "fringe", Count: 1}}}, "extras[0].extra", unit.ErrUnknown},
		{"an extra twice", bench.Usual(), bench.Build{Piece: "sofa", Extras: []bench.Work{{Extra: "channel", Count: 1}, {Extra: "channel", Count: 2}}}, "extras[1].extra", unit.ErrRange},
		{"no count", bench.Usual(), bench.Build{Piece: "sofa", Extras: []bench.Work{{Extra: "channel"}}}, "extras[0].count", unit.ErrRange},
		{"a length of buttons", bench.Usual(), bench.Build{Piece: "sofa", Extras: []bench.Work{{Extra: "channel", Count: 1, Length: unit.Foot}}}, "extras[0].length", unit.ErrRange},
		{"a count of welt", bench.Usual(), bench.Build{Piece: "sofa", Extras: []bench.Work{{Extra: "single welt", Count: 3}}}, "extras[0].count", unit.ErrRange},
		{"no length of welt", bench.Usual(), bench.Build{Piece: "sofa", Extras: []bench.Work{{Extra: "single welt"}}}, "extras[0].length", unit.ErrRange},
		{"no such goods", bench.Usual(), bench.Build{Piece: "sofa", Goods: "chain mail"}, "goods", unit.ErrUnknown},
		{"share", bench.Usual(), bench.Build{Piece: "sofa", Share: ratio(1.2)}, "share", unit.ErrRange},
		{"span the wrong way", bad(func(x *bench.Table) { x.Pieces[0].Sew = bench.Span{From: unit.Hour} }), seat, "table.pieces[0].sew.to", unit.ErrRange},
		{"minutes without a unit", bad(func(x *bench.Table) { x.Pieces[0].Sew = bench.Span{From: 15, To: unit.Hour} }), seat, "table.pieces[0].sew.from", unit.ErrForgottenUnit},
		{"two rows alike", bad(func(x *bench.Table) { x.Pieces[1].Name = "drop-in seat" }), seat, "table.pieces[1].name", unit.ErrRange},
		{"no name", bad(func(x *bench.Table) { x.Extras[2].Name = " " }), seat, "table.extras[2].name", unit.ErrRequired},
		{"holds what is not known", bad(func(x *bench.Table) { x.Pieces[0].Holds = []bench.Held{{Extra: "fringe"}} }), seat, "table.pieces[0].holds[0].extra", unit.ErrUnknown},
		{"holds so many feet", bad(func(x *bench.Table) { x.Pieces[0].Holds = []bench.Held{{Extra: "skirt", Count: 3}} }), seat, "table.pieces[0].holds[0].count", unit.ErrRange},
		{"per a hair", bad(func(x *bench.Table) { x.Extras[3].Per = unit.Millimetre }), seat, "table.extras[3].per", unit.ErrRange},
		{"extra of an errand", bad(func(x *bench.Table) { x.Extras[3].Task = bench.Deliver }), seat, "table.extras[3].task", unit.ErrUnknown},
		{"no factor", bad(func(x *bench.Table) { x.Goods[0].Factor = bench.Factor{} }), seat, "table.goods[0].factor.from", unit.ErrRange},
		{"match", bad(func(x *bench.Table) { x.Match.To = 3 }), seat, "table.match.to", unit.ErrRange},
		{"errand at the bench", bad(func(x *bench.Table) { x.Errands[0].Task = bench.Sew }), seat, "table.errands[0].task", unit.ErrUnknown},
	} {
		_, err := r.table.Estimate(r.build)
		require.ErrorIs(t, err, r.is, r.name)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, r.name)
		assert.Equal(t, r.field, in.Field, r.name)
	}
	_, err := bench.Usual().With(bench.Table{Goods: []bench.Goods{{Name: "leather"}}})
	require.ErrorIs(t, err, unit.ErrRange)
}
