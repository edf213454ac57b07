package bench_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/unit"
)

// The factors of goods run from 0.1 to 10, what a match adds from 0 to 200 %.
func TestFactorsEndWhereTheySay(t *testing.T) {
	t.Parallel()
	goods := func(from, to unit.Ratio) error {
		return bench.Table{Goods: []bench.Goods{{Name: "cloth", Factor: bench.Factor{From: from, To: to}}}}.Check()
	}
	match := func(from, to unit.Ratio) error { return bench.Table{Match: bench.Factor{From: from, To: to}}.Check() }
	assert.NoError(t, goods(0.1, 10))
	assert.ErrorIs(t, goods(0.099, 10), unit.ErrRange)
	assert.ErrorIs(t, goods(0.1, 10.01), unit.ErrRange)
	assert.NoError(t, match(0, 2))
	assert.ErrorIs(t, match(-0.01, 2), unit.ErrRange)
	assert.ErrorIs(t, match(0, 2.01), unit.ErrRange)
}
