package made_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// sewnGoods knows every id the tests use: goods that take hardly any ease.
func sewnGoods(ids ...string) map[string]allowance.SewnGoods {
	out := map[string]allowance.SewnGoods{}
	limits, _ := allowance.CoatedWoven.Limits()
	for _, id := range append(ids, "cloth", "lining", "mesh") {
		out[id] = allowance.SewnGoods{Ease: limits}
	}
	return out
}

// tapeInches gives a length of so many inches.
func tapeInches(x float64) unit.Length { return unit.Length(x * float64(unit.Inch)) }

// roll is cloth whose strips lie across, as far as its usable width.
func roll(usable float64) made.Goods {
	return made.Goods{ID: "cloth", Across: tapeInches(usable), Directed: true, Thickness: unit.Millimetre}
}

func TestX1(t *testing.T) {
	c := made.Cushion{Width: tapeInches(22), Depth: tapeInches(22), Thickness: tapeInches(4), Top: roll(54), Cord: tapeInches(5.0 / 32), Zip: true}
	p, err := c.Make()
	require.NoError(t, err)
	b := p.Boxing
	require.Equal(t, tapeInches(35), b.Opening)
	require.Equal(t, tapeInches(53), b.Main)
	require.Equal(t, tapeInches(36), b.Tape)
	require.Equal(t, tapeInches(3.25), b.Zips)
	w, err := p.Cover.Work(sewnGoods())
	require.NoError(t, err)
	require.Equal(t, tapeInches(614), w.Stitched())
}
