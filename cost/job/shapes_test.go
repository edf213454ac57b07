package job

import (
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

func second(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("testdata/larkfield-second.json")
	require.NoError(t, err)
	return string(text)
}

// A rectangle given as an outline makes the same order as one given by its
// sides.
func TestRectangleAsOutlineIsTheSame(t *testing.T) { few.Check(t, 8, rectangleAsOutlineIsTheSame) }

func rectangleAsOutlineIsTheSame(t *rapid.T) {
	s := anySpec(t)
	s.Goods[1].BuyBy = BuyByRule
	a, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	for i := range s.Pieces {
		for k := range s.Pieces[i].Panels {
			p := &s.Pieces[i].Panels[k]
			p.Outline = &shape.Form{Rectangle: &shape.RectangleForm{Width: p.Width, Height: p.Length}}
			p.Width, p.Length = 0, 0
		}
	}
	b, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	one, err := json.Marshal(a)
	require.NoError(t, err)
	two, err := json.Marshal(b)
	require.NoError(t, err)
	require.Equal(t, string(one), string(two))
}

// Every cut has as many places in the layout as there are copies of it.
func TestEveryCutIsPlacedOnce(t *testing.T) {
	for _, of := range []func() (WorkOrder, error){demoOrder, secondOrder} {
		o, err := of()
		require.NoError(t, err)
		orders := []WorkOrder{o}
		for _, x := range o.Options {
			orders = append(orders, WorkOrder{Cuts: x.Cuts, Purchases: x.Purchases})
		}
		for k, o := range orders {
			for _, p := range o.Purchases {
				type place struct{ cut, copyOf, segment int }
				seen := map[place]bool{}
				whole := map[int]int{}
				put := func(cut, n, segment, segments int) {
					require.False(t, seen[place{cut, n, segment}])
					seen[place{cut, n, segment}] = true
					if segment == segments-1 {
						whole[cut]++
					}
				}
				switch {
				case p.Plan != nil:
					require.NoError(t, p.Plan.Verify())
					for _, x := range p.Plan.Places {
						put(x.Piece, x.Copy, x.Segment, x.Segments)
					}
				default:
					require.Equal(t, cite.RuleOfThumb, p.Answers[len(p.Answers)-1].Kind)
					continue
				}
				cuts := o.CutsOf(p.Goods)
				if k > 0 && len(cuts) == 0 {
					continue // goods that the option leaves as they are
				}
				for i, c := range cuts {
					assert.Equal(t, c.Count, whole[i], "%s: %s", p.Goods, c.Part)
				}
				assert.Len(t, whole, len(cuts))
			}
		}
	}
}

// Every figure says what it is, whatever the goods.
func TestSecondOrder(t *testing.T) {
	o, err := secondOrder()
	require.NoError(t, err)
	for _, p := range o.Purchases {
		for _, a := range p.Answers {
			assert.NotZero(t, a.Kind)
			assert.NotZero(t, a.Basis.Status, a.Text)
			assert.NotEmpty(t, a.Text)
		}
		assert.False(t, p.Cost.IsZero())
	}
	var ox Purchase
	for _, p := range o.Purchases {
		if p.Goods == "ox" {
			ox = p
		}
	}
	require.NotNil(t, ox.Plan)
	require.NotNil(t, ox.Saving)
	assert.True(t, ox.Plan.Complete())
	byRule, err := ox.Saving.ByLayout.Plus(ox.Saving.Saved)
	require.NoError(t, err)
	assert.True(t, byRule.Equal(ox.Saving.ByRule))
	assert.True(t, ox.Cost.Equal(ox.Saving.ByLayout), "it is bought by the layout")
	assert.Equal(t, []cite.Kind{cite.Bound, cite.RuleOfThumb, cite.Estimate, cite.Layout}, []cite.Kind{ox.Answers[0].Kind, ox.Answers[1].Kind, ox.Answers[2].Kind, ox.Answers[3].Kind})
	assert.LessOrEqual(t, ox.Answers[0].Hides, ox.Hides)

	// The option in linen: the same pieces in other goods, priced side by side.
	require.Len(t, o.Options, 1)
	g := o.Options[0].Goods
	require.Len(t, g, 1)
	assert.Equal(t, "ox", g[0].Goods)
	with, err := g[0].WithCost.Plus(g[0].Saved)
	require.NoError(t, err)
	assert.True(t, with.Equal(g[0].Cost))
	assert.NotEmpty(t, o.Options[0].Cuts)

	part := func(name string) Cut {
		for _, c := range o.Cuts {
			if c.Part == name {
				return c
			}
		}
		require.Fail(t, "no cut", name)
		return Cut{}
	}
	back := part("inside back")
	assert.Equal(t, Size{58 * unit.Centimetre, 73 * unit.Centimetre}, back.Finished)
	assert.Equal(t, []string{"seat", "right", "crown", "left"}, back.Outline.Edges())
	assert.Equal(t, allowance.WeltedSeam, back.Panel.Edges[2].Finish)
	assert.Equal(t, 2*unit.Centimetre, back.Panel.Edges[0].Handling)
	wing := part("inside wing")
	assert.True(t, wing.Pair)
	require.Len(t, wing.Panel.Notches, 1)
	assert.Equal(t, 4, wing.Count)
	plate := part("bay cushion, top plate")
	assert.Equal(t, material.GoodGrade, plate.Grade)
	assert.Equal(t, "along the backbone within 5 deg", plate.Grain)
	bias := part("crown, welt, continuous bias")
	require.NotNil(t, bias.Bias)
	assert.GreaterOrEqual(t, bias.Bias.Length, 60*unit.Centimetre)
	assert.Equal(t, bias.Cut.Width, bias.Cut.Length)
	tuft := part("lumbar panel")
	require.NotNil(t, tuft.Tufting)
	assert.Equal(t, 4*4+3*5, tuft.Tufting.Buttons)
	assert.Equal(t, 50*unit.Centimetre+4*8*unit.Centimetre+2*unit.Inch, tuft.Cut.Width)
	// A bolster's body is as long round as its ends, seam to seam.
	var girth, rim unit.Length
	for _, e := range part("bolster, body").Panel.Edges {
		if e.Name == "left" {
			girth = e.Length
		}
	}
	for _, e := range part("bolster, end 1").Panel.Edges {
		rim += e.Length
	}
	assert.InDelta(t, float64(girth), float64(rim), 10)
	assert.Equal(t, 2, part("bolster, end 2").Count)
	// Nothing squeezes twice: the cover of a snug pillow of 45 cm finishes 45 cm.
	assert.Equal(t, 45*unit.Centimetre+unit.Inch, part("pillow, top plate").Cut.Width)
	for _, name := range []string{"first channel", "channel 1", "channel 3", "last channel"} {
		assert.Equal(t, 2, part("outside arm, "+name).Count, "five channels on two chairs")
	}
}

// The context before and while layouts are made.
func TestStoppedOrder(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var last Progress
	calls := 0
	o, err := Read(ctx, strings.NewReader(second(t)), Options{Effort: 100, Progress: func(p Progress) {
		assert.GreaterOrEqual(t, p.Done, last.Done)
		assert.LessOrEqual(t, p.Done, unit.Ratio(1.000001))
		assert.NotEmpty(t, p.Layout)
		last = p
		calls++
		cancel() // at the first sign of life
	}})
	require.NoError(t, err)
	assert.True(t, o.Stopped)
	assert.Positive(t, calls)
	assert.InDelta(t, 1, float64(last.Done), 1e-6)
	for _, p := range o.Purchases {
		if p.Plan != nil {
			require.NoError(t, p.Plan.Verify())
		}
	}
	_, err = Build(ctx, Spec{}, quick)
	require.Error(t, err, "the faults of a job, or the context")
	_, err = Read(ctx, strings.NewReader(second(t)), quick)
	require.ErrorIs(t, err, context.Canceled)
	done, err := secondOrder()
	require.NoError(t, err)
	assert.False(t, done.Stopped)
}

func TestShapeFaults(t *testing.T) {
	refused(t, second(t), map[string]fault{
		"crossing outline":    {`{"to": "135 cm, 45 cm"}`, `{"to": "15 cm, 45 cm"}, {"to": "135 cm, -45 cm"}, {"to": "135 cm, 45 cm"}`, "pieces[1].cushions[0].outline.trace", shape.ErrCrossing},
		"outline and width":   {`"outline": {"crowned"`, `"width": "58 cm", "outline": {"crowned"`, "pieces[0].panels[1].width", ErrMisplaced},
		"no outline, no size": {`"width": "160 cm", "length": "60 cm", `, ``, "pieces[0].panels[2].width", unit.ErrRequired},
		"no such edge":        {`"by_edge": {"crown"`, `"by_edge": {"crest"`, "pieces[0].panels[1].by_edge", unit.ErrUnknown},
		"no such single edge": {`"by_edge": {"crown": "welted seam"}`, `"bottom": "welted seam"`, "pieces[0].panels[1].bottom", unit.ErrUnknown},
		"edge twice":          {`"bottom": "plain seam", "notches"`, `"bottom": "plain seam", "by_edge": {"bottom": "fold"}, "notches"`, "pieces[0].panels[0].by_edge.bottom", ErrTwice},
		"notch nowhere":       {`{"edge": "right", "at": "20 cm"}`, `{"edge": "right", "at": "20 m"}`, "pieces[0].panels[0].notches[0].at", unit.ErrRange},
		"no such shade":       {`"shade": "seat"`, `"shade": "back"`, "pieces[0].panels[1].shade", unit.ErrUnknown},
		"motif on plain":      {`"join": {"along_width"`, `"motif": "1 cm, 1 cm", "join": {"along_width"`, "pieces[0].panels[2].motif", ErrMisplaced},
		"join of a hide":      {`"grain": "any way", "marks": "faint", "across"`, `"join": {"least": "9 cm", "most": 1}, "marks": "faint", "across"`, "pieces[2].panels[0].join", ErrMisplaced},
		"too many joins":      {`"most": 2`, `"most": 200`, "pieces[0].panels[2].join.most", unit.ErrRange},
		"grade on cloth":      {`"corner": "clipped"`, `"grade": "fair"`, "pieces[0].panels[1].grade", ErrMisplaced},
		"on a hole":           {`"grain": "any way", "marks": "faint"`, `"grain": "any way", "marks": "through"`, "pieces[2].panels[0].marks", unit.ErrUnknown},
		"hide twice":          {`"name": "A 18"`, `"name": "A 17"`, "goods[2].hides[1].name", ErrTwice},
		"hide of no size":     {`"skin": "side", "area": "2.3 m2"`, `"skin": "side"`, "goods[2].hides[1].area", unit.ErrRequired},
		"hide too large":      {`"area": "2.3 m2"`, `"area": "230 m2"`, "goods[2].hides[1].area", unit.ErrRange},
		"mark without size":   {`"at": "1.1 m, 1.6 m", "across": "15 cm"`, `"at": "1.1 m, 1.6 m"`, "goods[2].hides[0].defects[1].across", unit.ErrRequired},
		"mark twice":          {`"kind": "brand", "outline"`, `"kind": "brand", "at": "1 m, 1 m", "outline"`, "goods[2].hides[0].defects[0].at", ErrMisplaced},
		"spread":              {`"hide_spread": "0.3 m2"`, `"hide_spread": "3 m2"`, "goods[2].hide_spread", unit.ErrRange},
		"confidence":          {`"confidence": "90 %"`, `"confidence": "100 %"`, "goods[2].confidence", unit.ErrRange},
		"repeat of a hide":    {`"hide_spread": "0.3 m2"`, `"repeat_across": "3 cm"`, "goods[2].repeat_across", ErrMisplaced},
		"drop without repeat": {`"repeat": "32 cm", `, ``, "goods[0].drop", unit.ErrRequired},
		"flaw off the roll":   {`"x": "20 cm", "width": "5 cm"`, `"x": "20 m", "width": "5 cm"`, "goods[0].flaws[0].x", unit.ErrRange},
		"shade twice":         {`{"name": "seat", "window": "4 m"}`, `{"name": "seat", "window": "4 m"}, {"name": "seat", "window": "2 m"}`, "goods[0].shades[1].name", ErrTwice},
		"thick knife edge":    {`"kind": "knife edge"`, `"kind": "knife edge", "thickness": "3 cm"`, "pieces[1].cushions[2].thickness", ErrMisplaced},
		"ear of a waterfall":  {`"round_front": true`, `"left_ear": "4 cm"`, "pieces[1].cushions[3].left_ear", ErrMisplaced},
		"zip where":           {`"zip_edge": "back"`, `"zip_edge": "rear"`, "pieces[1].cushions[0].zip_edge", unit.ErrUnknown},
		"zip somewhere":       {`{"name": "back", "pieces": [{"to": "15 cm, 45 cm"}]},`, `{"name": "rear", "pieces": [{"to": "15 cm, 45 cm"}]},`, "pieces[1].cushions[0].zip_edge", unit.ErrUnknown},
		"bolster of nothing":  {`"width": "45 cm", "depth": "18 cm"`, `"width": "45 cm"`, "pieces[1].cushions[1].depth", unit.ErrRequired},
		"fullness of pleats":  {`"pleat": "box pleat"`, `"fullness": "2", "pleat": "box pleat"`, "pieces[0].skirts[2].fullness", ErrMisplaced},
		"no pleats":           {`"pleats": 8, `, ``, "pieces[0].skirts[2].pleats", unit.ErrRange},
		"no diamonds":         {`"across": 4, "down": 3`, `"across": 0, "down": 3`, "pieces[0].tufted[0].across", unit.ErrRange},
		"no channels":         {`"number": 5`, `"number": 0`, "pieces[0].channels[0].number", unit.ErrRange},
		"no runs":             {`"runs": ["60 cm"]`, `"runs": []`, "pieces[0].welts[0].runs", unit.ErrRange},
		"too little leather":  {`"hide_area": "4.4 m2", "hide_spread": "0.3 m2", `, ``, "goods[2].hides", layout.ErrNoLayout},
		"unknown field":       {`"thickness": "10 cm", "top": "ox"`, `"thickness": "10 cm", "fit": "snug fit", "top": "ox", "stretch": null`, "pieces[1].cushions[0].stretch", strictjson.ErrUnknownField},
	})
}

// A part that fits on no hide is refused by name.
func TestNoHideSoLarge(t *testing.T) {
	s := Spec{Schema: SpecSchema, Name: "large", Currency: cost.USD,
		Goods: []GoodsSpec{{ID: "hide", Kind: HideGoods, Name: "hide", Material: thread.Leather, Price: price("9 USD/sq ft"), HideArea: 50 * unit.SquareFoot}},
		Pieces: []Furniture{{Name: "wall", Panels: []PanelSpec{{Name: "small", Goods: "hide", Width: 20 * unit.Inch, Length: 20 * unit.Inch},
			{Name: "panel", Goods: "hide", Width: 100 * unit.Inch, Length: 100 * unit.Inch}}}},
		Quote: QuoteSpec{LabourRate: hourly("50 USD/h")}}
	_, err := Build(context.Background(), s, quick)
	require.ErrorIs(t, err, layout.ErrNoLayout)
	var in *unit.InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, "pieces[0].panels[1]", string(in.Field))
}

func TestWords(t *testing.T) {
	for _, text := range []string{"either way", "one way", "any way", "one way within 10 deg"} {
		var g Grain
		require.NoError(t, g.UnmarshalText([]byte(text)))
		assert.Equal(t, text, g.String())
	}
	exact := Grain{Way: OneWay, Within: 12.3456789}
	text, err := exact.MarshalText()
	require.NoError(t, err)
	var g Grain
	require.NoError(t, g.UnmarshalText(text))
	assert.Equal(t, exact, g, "every digit is written")
	for _, text := range []string{"", "along", "any way within 3 deg", "one way within 3", "one way within 100 deg"} {
		require.Error(t, new(Grain).UnmarshalText([]byte(text)), text)
	}
	var d Drop
	require.NoError(t, d.UnmarshalText([]byte("1/2")))
	text, err = d.MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "1/2", string(text))
	for _, bad := range []string{"", "1", "2/1", "1/0", "-1/2", "1/2/3", "1/9999"} {
		require.Error(t, d.UnmarshalText([]byte(bad)), bad)
	}
	assert.Equal(t, "Grain(9)", Grain{Way: 9}.String())
	require.Error(t, Grain{Way: 9}.check())
}

// More leather than a layout takes is bought by the rule of thumb.
func TestHugeLeatherJob(t *testing.T) {
	s := Spec{Schema: SpecSchema, Name: "huge", Currency: cost.USD,
		Goods:  []GoodsSpec{{ID: "hide", Kind: HideGoods, Name: "hide", Material: thread.Leather, Price: price("9 USD/sq ft"), HideArea: 50 * unit.SquareFoot}},
		Pieces: []Furniture{{Name: "seat", Count: 1000, Panels: []PanelSpec{{Name: "seat", Goods: "hide", Count: 3, Width: 20 * unit.Inch, Length: 20 * unit.Inch}}}},
		Quote:  QuoteSpec{LabourRate: hourly("50 USD/h")}}
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	assert.Nil(t, o.Purchases[0].Plan)
	assert.Equal(t, cite.RuleOfThumb, o.Purchases[0].Answers[1].Kind)
	assert.Positive(t, o.Purchases[0].Hides)
	assert.Equal(t, 3000*39*unit.Inch, o.Sewing.SetUps[0].Length)
}

// A part whose pieces are too many to add up is a fault at its place; nothing is
// taken from an empty list.
func TestCountsBeyondAnyArea(t *testing.T) {
	for name, part := range map[string]string{
		"skirt":  `"skirts": [{"name": "skirt", "goods": "cloth", "count": 1000, "kind": "gathered", "sides": ["390 in", "390 in", "390 in"], "drop": "390 in", "fullness": "10"}]`,
		"boxing": `"boxings": [{"name": "boxing", "goods": "cloth", "count": 1000, "perimeter": "900 m", "depth": "390 in", "zip_back": "30 in"}]`,
		"welt":   `"welts": [{"name": "welt", "goods": "cloth", "count": 1000, "cord": "90 mm", "runs": ["900 m", "900 m"], "bias": true}]`,
		"tufted": `"tufted": [{"name": "tufted", "goods": "cloth", "count": 1000, "width": "390 in", "length": "390 in", "across": 40, "down": 40, "depth": "500 mm", "rule": "twice the depth"}]`,
	} {
		t.Run(name, func(t *testing.T) {
			_, err := read(t, `{"schema": "coverwright/job/1", "name": "huge", "currency": "USD",
				"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
				"pieces": [{"name": "hall", "count": 1000, `+part+`}], "quote": {"labour_rate": "50 USD/h"}}`)
			var fs Faults
			require.ErrorAs(t, err, &fs)
			for _, f := range fs {
				var in *unit.InputError
				require.ErrorAs(t, f, &in)
				assert.True(t, in.Field.Under("pieces[0]"), "%v", err)
			}
		})
	}
}

// A nil context is an error like any other.
func TestNilContext(t *testing.T) {
	_, err := Build(nil, Spec{}, Options{}) //nolint:staticcheck // that is what is tested
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = Read(nil, strings.NewReader(`{"name": 3}`), Options{}) //nolint:staticcheck // likewise
	require.ErrorIs(t, err, unit.ErrRequired)
}
