package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/unit"
)

// Two boxed cushions: each is cut in 20 to 24 and sewn in 45 to 90 min; what is made new
// is fabrication, whatever is done, and tasks of both classes have neither.
func TestAnswer(t *testing.T) {
	t.Parallel()
	e := usual(t, bench.Build{Piece: "boxed cushion"})
	a := &bench.Answer{Parts: []bench.Part{{Count: 2, Row: "boxed cushion", Estimate: e}}}
	span, sum, err := a.Of(bench.Cut, bench.Sew)
	require.NoError(t, err)
	assert.Equal(t, bench.Span{From: hours(t, "114 min"), To: hours(t, "228 min")}, span)
	assert.Equal(t, 2*(line(t, e, "cut").Usual+line(t, e, "sew").Usual), sum)
	assert.Equal(t, bench.Fabrication, a.TaxClass(bench.Cut, bench.Cover))
	assert.Equal(t, cost.Labour.TaxClass(), a.TaxClass(bench.Strip, bench.Cover))
	assert.Equal(t, cost.Labour.TaxClass(), a.TaxClass())

	var none *bench.Answer
	span, sum, err = none.Of(bench.Cut)
	require.NoError(t, err)
	assert.Zero(t, span)
	assert.Zero(t, sum)
	assert.Equal(t, bench.Application, none.TaxClass(bench.Cover))
}

// What a job asks comes before what its kind does.
func TestAskOver(t *testing.T) {
	t.Parallel()
	kind := bench.Ask{Piece: "booth", Length: unit.Yard, Tasks: []bench.Task{bench.Cut}}
	assert.Equal(t, kind, bench.Ask{}.Over(kind))
	assert.Equal(t, bench.Ask{Piece: "sofa"}, bench.Ask{Piece: "sofa"}.Over(kind))
	assert.Equal(t, bench.Ask{Piece: "booth", Length: unit.Foot, Tasks: []bench.Task{bench.Sew}}, bench.Ask{Length: unit.Foot, Tasks: []bench.Task{bench.Sew}}.Over(kind))
}
