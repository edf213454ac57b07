package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Every row adds up to the total that was worked out when the table was put
// together, in hundredths of an hour.
func TestUsualTotals(t *testing.T) {
	t.Parallel()
	totals := map[string][2]unit.Duration{
		"drop-in seat": {55, 200}, "dining side chair": {250, 675}, "ottoman": {225, 625}, "club chair": {875, 1900}, "wing chair": {1025, 2300},
		"loveseat": {1275, 2700}, "sofa": {1600, 3550}, "chaise": {1025, 2350}, "boxed cushion": {125, 275}, "bolster": {90, 210},
		"headboard": {650, 1625}, "booth": {75, 220}, "motorcycle seat": {235, 825}, "car bucket seat": {550, 1425}, "boat cushion": {135, 325},
		"slip cover": {265, 565},
	}
	pieces := bench.Usual().Pieces
	require.Len(t, pieces, len(totals))
	for _, p := range pieces {
		want, ok := totals[p.Name]
		require.True(t, ok, p.Name)
		got, err := p.Total()
		require.NoError(t, err)
		assert.Equal(t, bench.Span{From: want[0] * unit.Hour / 100, To: want[1] * unit.Hour / 100}, got, p.Name)
	}
}

// No figure is marked better than it is founded, and the table stands the check that
// a shop's own has to stand.
func TestUsualIsMarked(t *testing.T) {
	t.Parallel()
	u := bench.Usual()
	require.NoError(t, u.Check())
	for _, p := range u.Pieces {
		basis := cite.Practice("")
		if p.Name == "slip cover" {
			basis = cite.Memory("")
		}
		assert.Equal(t, basis, p.Basis, p.Name)
	}
	for _, e := range u.Extras {
		assert.Equal(t, cite.Practice(""), e.Basis, e.Name)
	}
	for _, g := range u.Goods {
		assert.Equal(t, cite.Practice(""), g.Basis, g.Name)
	}
	var errands []bench.Task
	for _, e := range u.Errands {
		assert.Equal(t, cite.Memory(""), e.Basis, e.Task)
		errands = append(errands, e.Task)
	}
	assert.Equal(t, bench.Errands(), errands)
}

// What a caller does with the table stays with the caller.
func TestUsualIsNotShared(t *testing.T) {
	t.Parallel()
	bench.Usual().Pieces[3].Holds[0].Extra = "none"
	bench.Usual().Extras[0].Time.To = 0
	require.NoError(t, bench.Usual().Check())
	assert.Equal(t, 6*unit.Minute, bench.Usual().Extras[0].Time.To)
}
