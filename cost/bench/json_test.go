package bench_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make.
func TestEveryTypeIsJSON(t *testing.T) {
	t.Parallel()
	u := bench.Usual()
	b := bench.Build{Piece: "headboard", Tasks: []bench.Task{bench.Cover, bench.Set}, Goods: "leather", Match: true, Share: ratio(0.25),
		Extras: []bench.Work{{Extra: "deep button", Count: 50}, {Extra: "single welt", Length: unit.Yard}}}
	e := usual(t, b)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{u, u.Pieces[3], u.Pieces[3].Holds[0], u.Extras[3], u.Goods[0], u.Goods[0].Factor, u.Errands[0],
		b, b.Extras[0], e, e.Lines[2], e.Time, bench.Ask{Piece: "sofa", Share: ratio(0.5), Tasks: []bench.Task{bench.Cut}}, bench.Visit{Task: bench.Set, Count: 2},
		bench.Answer{Piece: "sofa", Count: 1, Time: e.Time, Kind: e.Kind, Parts: []bench.Part{{Count: 1, Row: "headboard", Estimate: e}}},
		bench.Part{Count: 2, Row: "headboard", Estimate: e, LeftOut: []bench.LeftOut{{Task: bench.Frame, Why: "nothing is renewed"}}},
		bench.LeftOut{Task: bench.Sew, Why: "nothing is sewn"}})
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestTaskNames(t *testing.T) {
	t.Parallel()
	for _, k := range append(append(bench.Tasks(), bench.Errands()...), 0) {
		text, err := k.MarshalText()
		require.NoError(t, err)
		back := bench.Task(77)
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, k, back)
	}
	_, err := bench.Task(14).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.Equal(t, "none", bench.Task(0).String())
	require.Equal(t, "task(14)", bench.Task(14).String())
}
