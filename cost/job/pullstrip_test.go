package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// backJob is two leather backs of 24 x 20 in with a pair of arms; with is what the
// fastenings say of strips.
func backJob(t *testing.T, back, arm string) Spec {
	t.Helper()
	s := madeJob(t, `{"name": "chair", "count": 2,
		"panels": [{"name": "inside back", "goods": "cloth", "width": "24 in", "length": "20 in"},
			{"name": "inside arm", "goods": "cloth", "width": "18 in", "length": "12 in", "pair": true}],
		"fastenings": [{"fasten": ["inside back.top", "inside back.left", "inside back.right"]},
			{"fasten": ["inside back.bottom"], "finish": "pushed through", "on": "back rail"`+back+`},
			{"fasten": ["inside arm.top", "inside arm.left", "inside arm.right"]},
			{"fasten": ["inside arm.bottom"], "finish": "pushed through"`+arm+`}]}`)
	s.Goods[0].Material, s.Goods[0].Nap = 4, false // vinyl
	return s
}

// strips works out the cover of the chair.
func strips(t *testing.T, s Spec) cutting {
	t.Helper()
	c, f := goodsOf(s)
	require.Empty(t, f)
	covers, f := coversOf(s, c)
	require.Empty(t, f)
	out, f, err := cutAll(t.Context(), covers, c)
	require.NoError(t, err)
	require.Empty(t, f)
	return out
}

// A strip takes 4 in over the rails and 2 in beyond, and 1/2 in to sew it on: the
// back is cut 30 x 23 1/2 in in place of 30 x 29 in, the strip 25 x 6 1/2 in. On two
// chairs 2 x 30 x 5 1/2 in are saved.
func TestPullStrip(t *testing.T) {
	t.Parallel()
	out := strips(t, backJob(t, `, "pull_strip": "mesh"`, ""))
	size := map[string]Size{}
	for _, p := range out.pieces {
		size[p.Part] = p.Cut.Cut
		if p.Part == "inside back bottom pull strip" {
			assert.Equal(t, "mesh", p.Goods)
			assert.Equal(t, 2, p.Count)
		}
	}
	assert.Equal(t, Size{30 * unit.Inch, 23*unit.Inch + unit.Inch/2}, size["inside back"])
	assert.Equal(t, Size{25 * unit.Inch, 6*unit.Inch + unit.Inch/2}, size["inside back bottom pull strip"])
	require.Len(t, out.assembly, 1)
	a := out.assembly[0]
	assert.Equal(t, []PullStrip{
		{Panel: "inside back", Edges: []string{"bottom"}, Goods: "cloth", With: "mesh", Pulled: 6 * unit.Inch, Saved: 330 * unit.SquareInch, Kind: cite.Estimate},
		// Each arm is 24 in wide as it is cut: 4 x 24 x 5 1/2 in.
		{Panel: "inside arm", Edges: []string{"bottom"}, Goods: "cloth", Pulled: 6 * unit.Inch, Saved: 528 * unit.SquareInch, Kind: cite.Estimate},
	}, a.PullStrips)
	assert.Equal(t, allowance.PlainJoin, a.Work.Seams[0].Kind)
	last := a.Work.Fastenings[3]
	assert.Equal(t, []string{"inside back bottom pull strip.bottom"}, last.Side)
	assert.Equal(t, 2*unit.Inch, last.Allowance)
}

// Strips of a pair are a pair, and what they save is what was said of them before.
func TestPullStripSavesWhatWasSaid(t *testing.T) {
	t.Parallel()
	before, after := strips(t, backJob(t, "", "")), strips(t, backJob(t, "", `, "pull_strip": "mesh"`))
	said, saved := before.assembly[0].PullStrips[1], after.assembly[0].PullStrips[0]
	assert.Empty(t, said.With)
	assert.Equal(t, said.Saved, saved.Saved)
	area := func(c cutting) (sum unit.Area) {
		for _, p := range c.pieces {
			if p.Goods == "cloth" {
				sum += p.Area
			}
		}
		return sum
	}
	assert.Equal(t, area(before)-area(after), saved.Saved, "the pieces are that much smaller")
	for _, p := range after.pieces {
		if p.Goods == "mesh" {
			assert.Equal(t, 4, p.Count, "two arms of two chairs")
		}
	}
	cloth := backJob(t, "", "")
	cloth.Goods[0].Material = 1
	assert.Empty(t, strips(t, cloth).assembly[0].PullStrips, "of cloth nothing is said")
}

// A seat that is pulled over its foam and frame is seen as far as the frame: no strip
// is suggested there, however much is pulled.
func TestNoPullStripInSight(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "seats", "goods": "cloth", "from": "drop-in seat", "width": "19 in", "depth": "17 in", "build": "board"}`)
	s.Goods[0].Material, s.Goods[0].Nap = 4, false // vinyl
	out := strips(t, expanded(t, s))
	require.Len(t, out.assembly, 1)
	assert.Greater(t, out.assembly[0].Work.Fastenings[0].Allowance, 3*unit.Inch)
	assert.Empty(t, out.assembly[0].PullStrips)
}

func TestPullStripFaults(t *testing.T) {
	t.Parallel()
	for strip, want := range map[string]string{
		`, "pull_strip": "silk"`:                   "pieces[0].fastenings[1].pull_strip: “silk”: unknown; want the id of goods that are known",
		`, "pull_strip": "mesh", "over": "1/8 in"`: "pieces[0].fastenings[1].over: “1/8 in”: out of range; want from 1/2 in to 4000 mm",
		`, "pull_strip": "mesh", "over": "900 in"`: "pieces[0].fastenings[1].over: “900 in”: out of range; want from 0 in to 500 mm",
	} {
		s := backJob(t, strip, "")
		c, f := goodsOf(s)
		require.Empty(t, f)
		covers, f := coversOf(s, c)
		if len(f) == 0 {
			_, f, _ = cutAll(t.Context(), covers, c)
		}
		require.NotEmpty(t, f, strip)
		assert.Equal(t, want, f[0].Error())
	}
}
