package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// pieceNamed finds a piece of a cover.
func pieceNamed(t *testing.T, w allowance.CoverWork, name string) allowance.PanelCut {
	t.Helper()
	for _, p := range w.Pieces {
		if p.Name == name {
			cut, err := p.Panel.Cut()
			require.NoError(t, err)
			return cut
		}
	}
	require.Fail(t, "no piece "+name)
	return allowance.PanelCut{}
}

// What a shop says of a cushion reaches its cover.
func TestFieldsOfCushions(t *testing.T) {
	t.Parallel()
	work := func(fields string) allowance.CoverWork {
		return workOf(t, madeJob(t, `{"name": "bench", "cushions": [{"name": "pad", "top": "cloth", "zip": true, `+fields+`}]}`))
	}
	// √(20² + 2²) = 20.0998 in, and 1 in for the seams.
	wedge := work(`"width": "22 in", "depth": "20 in", "thickness": "3 in", "back_thickness": "5 in"`)
	assert.InDelta(t, 21.09975124, pieceNamed(t, wedge, "top plate").Height.Inches(), 1e-6)
	// With seams of 3/8 in and 5/8 in along the zip.
	seams := work(`"width": "22 in", "depth": "20 in", "thickness": "4 in", "seam": "3/8 in", "zip_seam": "5/8 in"`)
	assert.Equal(t, 22*unit.Inch+3*unit.Inch/4, pieceNamed(t, seams, "top plate").Width)
	assert.Equal(t, 3*unit.Inch, pieceNamed(t, seams, "zip panel upper").Height)
	// The filling is 22 by 20 in and is squeezed by 1/2 in.
	core := work(`"width": "22 in", "depth": "20 in", "thickness": "4 in", "filling_given": true`)
	assert.Equal(t, 22*unit.Inch+unit.Inch/2, pieceNamed(t, core, "top plate").Width)
	top := work(`"width": "22 in", "depth": "20 in", "thickness": "4 in", "top_stitch": true`)
	rows := map[allowance.RowKind]int{}
	for _, r := range top.Rows {
		rows[r.Kind]++
	}
	assert.Equal(t, 2, rows[allowance.TopRow])
	taper := work(`"kind": "knife edge", "width": "20 in", "depth": "20 in", "taper": "3/4 in"`)
	assert.Greater(t, len(pieceNamed(t, taper, "top plate").CutLine.Outer), 8)
	bow := work(`"width": "22 in", "depth": "22 in", "thickness": "4 in", "rise": "1 1/2 in"`)
	assert.Greater(t, pieceNamed(t, bow, "top plate").Width, 23*unit.Inch+unit.Inch/4)
	bolster := work(`"kind": "bolster", "width": "20 in", "depth": "7 in", "gathered_ends": true`)
	assert.Equal(t, 28*unit.Inch, pieceNamed(t, bolster, "body").Width)
	// 120 by 22 in out of goods of 64 in: a least piece of 20 in leaves no shorter.
	long := work(`"width": "120 in", "depth": "22 in", "thickness": "4 in", "least": "20 in"`)
	for _, p := range long.Pieces {
		if w, _ := p.Panel.Outline.Size(); p.Goods == "cloth" {
			assert.GreaterOrEqual(t, w, 20*unit.Inch, p.Name)
		}
	}
}

// What means nothing on a cushion is told in the words of the file.
func TestFieldsOfOtherCushions(t *testing.T) {
	t.Parallel()
	for fields, at := range map[string]unit.Path{
		`"kind": "round", "width": "18 in", "thickness": "3 in", "back_thickness": "2 in"`:                        "back_thickness",
		`"width": "18 in", "depth": "18 in", "thickness": "3 in", "back_thickness": "2 in", "pocket": "1 in"`:     "pocket",
		`"width": "18 in", "depth": "18 in", "thickness": "3 in", "top_stitch": true, "welt": {"cord": "1/8 in"}`: "top_stitch",
		`"kind": "bolster", "width": "18 in", "depth": "7 in", "least": "8 in"`:                                   "least",
		`"kind": "bolster", "width": "18 in", "depth": "7 in", "gathered_ends": true, "boxing": "mesh"`:           "boxing",
		`"kind": "knife edge", "width": "18 in", "depth": "18 in", "taper": "6 in"`:                               "taper",
		`"kind": "knife edge", "width": "18 in", "depth": "18 in", "rise": "1 in"`:                                "rise",
		`"width": "18 in", "depth": "18 in", "thickness": "3 in", "attached": "top"`:                              "attached",
		`"width": "18 in", "depth": "18 in", "thickness": "3 in", "front_edge": "front"`:                          "front_edge",
		`"width": "18 in", "depth": "18 in", "thickness": "3 in", "seam": "-1 in"`:                                "seam",
		`"width": "18 in", "depth": "18 in", "thickness": "3 in", "least": "0 in"`:                                "least",
		`"width": "1/2 in", "depth": "18 in", "thickness": "3 in", "filling_given": true`:                         "width",
	} {
		s := madeJob(t, `{"name": "bench", "cushions": [{"name": "pad", "top": "cloth", "zip": true, `+fields+`}]}`)
		c, f := goodsOf(s)
		require.Empty(t, f)
		_, f = coversOf(s, c)
		require.NotEmpty(t, f, fields)
		var in *unit.InputError
		require.ErrorAs(t, f[0], &in, fields)
		assert.Equal(t, "pieces[0].cushions[0]."+at, in.Field, fields)
	}
}

// The foam of a wedge is a block as high as its thick end.
func TestFoamOfAWedge(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "bench", "cushions": [{"name": "pad", "top": "cloth", "zip": true, "width": "22 in", "depth": "20 in", "thickness": "3 in", "back_thickness": "5 in",
		"foam": {"use": "seat", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"}}]}`)
	filled, f := fill(t.Context(), s, nil)
	require.Empty(t, f)
	blocks := filled.blocks
	require.Len(t, blocks, 1)
	assert.Equal(t, foam.Block{Length: 22*unit.Inch + unit.Inch/2, Width: 20*unit.Inch + unit.Inch/2, Thickness: 5 * unit.Inch}, blocks[0].Cut)
}

// A skirt hangs from the front border and the bands at the sides, and a pillow is
// sewn into the back by the edge of its plate.
func TestMadeUpPartsInAPiece(t *testing.T) {
	t.Parallel()
	job := func(skirts, back string) whole {
		s := madeJob(t, `{"name": "chair",
			"panels": [{"name": "front border", "goods": "cloth", "width": "24 in", "length": "4 in"},
				{"name": "side band", "goods": "cloth", "width": "26 in", "length": "4 in", "pair": true},
				{"name": "inside back", "goods": "cloth", "width": "24 in", "length": "20 in"}],
			"cushions": [{"name": "pillow", "top": "cloth", "kind": "knife edge", "width": "24 in", "depth": "18 in", "attached": "front"}],
			"skirts": [{"name": "skirt", "goods": "cloth", "kind": "kick pleat", "sides": ["26 in", "24 in", "26 in"], "drop": "6 in"}],
			"seams": [{"sew": "front border.left", "to": "side band right.left"}, {"sew": "front border.right", "to": "side band left.right"}, `+skirts+`, `+back+`],
			"fastenings": [{"fasten": ["front border.top", "side band.top"], "finish": "stapled flat"}, {"fasten": ["side band left.left", "side band right.right"], "finish": "stapled flat"},
				{"fasten": ["inside back.left", "inside back.right", "inside back.bottom"]}]}`)
		c, f := goodsOf(s)
		require.Empty(t, f)
		covers, f := coversOf(s, c)
		require.Empty(t, f)
		return covers[0]
	}
	tops := `{"sew": "side band right.bottom", "to": "skirt.top 1"}, {"sew": "front border.bottom", "to": "skirt.top 2"}, {"sew": "side band left.bottom", "to": "skirt.top 3"}`
	back := `{"sew": "inside back.top", "to": "pillow.front"}`
	c, _ := goodsOf(madeJob(t, `{"name": "chair"}`))
	work, err := job(tops, back).cover.Work(c.sewn())
	require.NoError(t, err)
	three := 0
	for _, s := range work.Seams {
		if len(s.Sides) == 3 {
			three++
			assert.Equal(t, [][]string{{"inside back.top"}, {"pillow.top plate.front"}, {"pillow.bottom plate.front"}}, s.Sides)
		}
	}
	assert.Equal(t, 1, three)

	for relations, want := range map[[2]string]string{
		{tops, `{"sew": "inside back.top", "to": "pillow.bottom plate.front"}`}:             "pieces[0].seams[5].to: “pillow.bottom plate.front”: out of range; want an edge that is not used already, as it is by the seam of pillow.top plate.front with pillow.bottom plate.front",
		{tops, `{"sew": "inside back.top", "to": "pillow.back"}`}:                           "pieces[0].seams[5].to: “pillow”: unknown; want an open edge of it: pillow.front",
		{`{"sew": "side band right.bottom", "to": "skirt.top"}`, back}:                      "pieces[0].seams[2].to: “skirt”: unknown; want an open edge of it: skirt.top 1, skirt.top 2, skirt.top 3",
		{tops, `{"sew": "inside back.top", "to": "pillow.front", "finish": "felled seam"}`}: "pieces[0].seams[5].finish: “felled seam”: out of range; want a plain seam, the only one of more than two sides",
	} {
		_, f, err := cutAll(t.Context(), []whole{job(relations[0], relations[1])}, c)
		require.NoError(t, err)
		var all []string
		for _, x := range f {
			all = append(all, x.Error())
		}
		assert.Contains(t, all, want)
	}
}

// An option puts other goods in the seams too: their welts, and strips for pulling.
func TestOptionChangesGoodsOfSeams(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "chair", "panels": [{"name": "top", "goods": "mesh", "width": "20 in", "length": "20 in"}, {"name": "band", "goods": "mesh", "width": "20 in", "length": "4 in"}],
		"seams": [{"sew": "top.bottom", "to": "band.top", "finish": "welted seam", "cord": "1/8 in", "welt": "cloth"}],
		"fastenings": [{"fasten": ["top.top"], "finish": "pushed through", "pull_strip": "cloth"}, {"fasten": ["top.left", "top.right", "band.left", "band.right", "band.bottom"]}],
		"trims": [{"name": "arm", "length": "1 ft", "cord": "1/8 in", "welt": "cloth"}]}`)
	s, f := s.with(OptionSpec{Name: "other", Replace: []Replace{{Goods: "cloth", With: "mesh"}}})
	require.NoError(t, f.err())
	d, err := prepare(t.Context(), s)
	require.NoError(t, err)
	for _, p := range d.cut.pieces {
		assert.Equal(t, "mesh", p.Goods, p.Part)
	}
	assert.Len(t, d.cut.pieces, 4, "two panels, a pull strip, and welt in one strip")
}

// A panel that may be joined lies off the repeat of its goods, and the order says so.
func TestJoinedPanelIsNotToldAsMatched(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "bench", "panels": [{"name": "front", "goods": "cloth", "width": "80 in", "length": "10 in", "join": {"along_width": true, "least": "10 in", "most": 2}},
		{"name": "end", "goods": "cloth", "width": "20 in", "length": "10 in", "motif": "10 in, 5 in"}]}`)
	s.Goods[0].Nap, s.Goods[0].Repeat = false, 9*unit.Inch
	o, err := Build(t.Context(), s, quick)
	require.NoError(t, err)
	grain := map[string]string{}
	for _, c := range o.Cuts {
		grain[c.Part] = c.Grain
	}
	assert.Equal(t, map[string]string{"front": "up the roll, unmatched", "end": "up the roll, on the repeat"}, grain)
	assert.Equal(t, []string{"bench: front"}, o.Purchases[0].OffRepeat())
	said := 0
	for _, c := range o.Cautions {
		if c.About == "pattern" {
			said++
			assert.Contains(t, c.Text, "bench: front.")
		}
	}
	assert.Equal(t, 1, said)
}
