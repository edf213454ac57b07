package job

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// chairs is four chairs of four triangles and a strap each.
func chairs(strap string) string {
	panels := ""
	for i := range 4 {
		panels += fmt.Sprintf(`{"name": "panel %d", "goods": "cloth", "may_railroad": true, "edges": "raw",
			"outline": {"polygon": {"corners": ["0 in, 0 in", "26 in, 0 in", "0 in, 36 in"]}}},`, i+1)
	}
	return fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "chairs", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40 USD/yd", "width": "54 in", "shades": [{"name": "s", "window": "40 in"}]}],
		"pieces": [{"name": "chair", "count": 4, "panels": [%s {"name": "strap", "goods": "cloth", "width": "2 in", "length": "30 in", "edges": "raw"%s}]}],
		"quote": {"labour_rate": "50 USD/h"}}`, panels, strap)
}

// A shade or a join of one strap must not stop the triangles from being nested,
// nor make the best layout of their boxes a proof.
func TestStrapStopsNoNesting(t *testing.T) {
	for name, strap := range map[string]string{"plain": "", "shade": `, "shade": "s"`, "join": `, "join": {"least": "6 in", "most": 2}`} {
		o, err := Read(t.Context(), strings.NewReader(chairs(strap)), Options{Effort: 0.1})
		require.NoError(t, err, name)
		p := o.Purchases[0]
		assert.Equal(t, layout.OutlinesNested, p.Plan.Method, name)
		boxes, ok := p.Plan.Found(layout.BoxesSearched)
		require.True(t, ok, name)
		assert.Less(t, p.Plan.Need, boxes.Length*3/4, name)
		for _, a := range p.Answers {
			assert.NotContains(t, a.Text, "proved", name)
		}
		last := p.Answers[len(p.Answers)-1]
		assert.Contains(t, last.Text, "outlines nested", name)
		assert.Equal(t, p.Plan.Need, last.Length)
	}
}

// A bound that says nothing of the layout stays in the data and off the order.
func TestWeakBoundIsNotPrinted(t *testing.T) {
	hooks := `{"schema": "coverwright/job/1", "name": "hooks", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40 USD/yd", "width": "54 in", "nap": true}],
		"pieces": [{"name": "hook", "panels": [{"name": "rim", "goods": "cloth", "count": 4, "edges": "raw", "outline": {"polygon": {"corners":
			["0 in, 0 in", "40 in, 0 in", "40 in, 30 in", "38 in, 30 in", "38 in, 2 in", "2 in, 2 in", "2 in, 30 in", "0 in, 30 in"]}}}]}],
		"quote": {"labour_rate": "50 USD/h"}}`
	o, err := Read(t.Context(), strings.NewReader(hooks), quick)
	require.NoError(t, err)
	p := o.Purchases[0]
	require.Greater(t, p.Plan.Gap(), worthPrinting)
	assert.Positive(t, p.Plan.Bound().Length)
	for _, a := range p.Answers {
		assert.Equal(t, cite.Layout, a.Kind, a.Text)
		assert.NotContains(t, a.Text, "longer than the best")
	}
}

// Hides at hand are cut first and not paid again; those on offer are.
func TestHidesAtHandAreNotCharged(t *testing.T) {
	leather := func(offer, count string) string {
		return `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
			"goods": [{"id": "ox", "kind": "hide", "name": "ox", "material": "leather", "price": "10 USD/sq ft",
				"hides": [{"name": "mine", "area": "45 sq ft"}, {"name": "other", "area": "50 sq ft"` + offer + `}]}],
			"pieces": [{"name": "seat", "count": ` + count + `, "panels": [{"name": "cover", "goods": "ox", "width": "24 in", "length": "22 in", "grain": "any way"}]}],
			"quote": {"labour_rate": "50 USD/h"}}`
	}
	for _, c := range []struct {
		name, offer, count string
		hides, atHand      int
		cost               string
	}{
		{"all at hand", "", "4", 0, 1, "0.00 USD"},
		{"one at hand is enough", `, "on_offer": true`, "4", 0, 1, "0.00 USD"},
		{"one to buy", `, "on_offer": true`, "12", 1, 1, "500.00 USD"},
	} {
		o, err := Read(t.Context(), strings.NewReader(leather(c.offer, c.count)), quick)
		require.NoError(t, err, c.name)
		p := o.Purchases[0]
		assert.Equal(t, c.hides, p.Hides, c.name)
		assert.Equal(t, c.atHand, p.AtHand, c.name)
		assert.Equal(t, c.cost, p.Cost.String(), c.name)
		assert.Nil(t, p.Saving, c.name)
	}
}

// Of each hide the order says whether it was traced and whether flaws were noted, in the
// layout and in the caution alike; flaws on a usual shape are a guess.
func TestLeatherCautionIsTrue(t *testing.T) {
	o, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "ox", "kind": "hide", "name": "ox", "material": "leather", "price": "10 USD/sq ft", "hides": [
			{"name": "traced", "outline": {"rectangle": {"width": "30 in", "height": "70 in"}}, "holes": [{"circle": {"diameter": "1 in"}, "at": "14 in, 20 in"}]},
			{"name": "clean", "outline": {"rectangle": {"width": "30 in", "height": "70 in"}}},
			{"name": "marked", "area": "20 sq ft", "defects": [{"kind": "brand", "at": "20 in, 30 in", "across": "2 in"}]},
			{"name": "other", "area": "20 sq ft"}]}],
		"pieces": [{"name": "seat", "count": 9, "panels": [{"name": "cover", "goods": "ox", "width": "24 in", "length": "22 in", "grain": "any way"}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), quick)
	require.NoError(t, err)
	p := o.Purchases[0]
	i := slices.IndexFunc(o.Cautions, func(c caution.Caution) bool { return c.About == "leather" })
	require.GreaterOrEqual(t, i, 0)
	text := o.Cautions[i].Text
	assert.NotContains(t, text, "without flaws")
	known := map[string]string{
		"traced": "traced, with 1 hole",
		"clean":  "traced, no flaws noted",
		"marked": "known by its area alone, so that the places of 1 mark are a guess",
		"other":  "known by its area alone, no flaws noted",
	}
	require.Len(t, p.Plan.Used, 4)
	for _, k := range p.Plan.Used {
		name := p.Plan.Hides[k].ID
		assert.Equal(t, known[name], p.HideNote(k), name)
		assert.Contains(t, text, name+": "+known[name])
	}
	assert.Contains(t, text, "has the usual shape here")
	assert.Empty(t, p.HideNote(-1))
	assert.Empty(t, p.HideNote(99))
}

// A hole, a mark or a zone without a place would lie in the corner of the hide; one that
// is wholly off it marks nothing; and an area that is not that of the outline is a mistake.
func TestMarksOnHidesHaveAPlace(t *testing.T) {
	const circle = `{"circle": {"diameter": "2 in"}`
	for hide, c := range map[string]struct {
		err   error
		field string
	}{
		`"holes": [` + circle + `}]`:                                                    {unit.ErrRequired, "goods[0].hides[0].holes[0].at"},
		`"defects": [{"kind": "brand", "outline": ` + circle + `}}]`:                    {unit.ErrRequired, "goods[0].hides[0].defects[0].outline.at"},
		`"defects": [{"kind": "brand", "across": "1 in"}]`:                              {unit.ErrRequired, "goods[0].hides[0].defects[0].at"},
		`"zones": [{"grade": "fair", "outline": ` + circle + `}}]`:                      {unit.ErrRequired, "goods[0].hides[0].zones[0].outline.at"},
		`"stretch": [{"direction": "90 deg", "outline": ` + circle + `}}]`:              {unit.ErrRequired, "goods[0].hides[0].stretch[0].outline.at"},
		`"holes": [` + circle + `, "at": "90 in, 20 in"}]`:                              {unit.ErrRange, "goods[0].hides[0].holes[0]"},
		`"defects": [{"kind": "brand", "at": "-9 in, 2 in", "across": "1 in"}]`:         {unit.ErrRange, "goods[0].hides[0].defects[0].at"},
		`"zones": [{"grade": "fair", "outline": ` + circle + `, "at": "0 in, 99 in"}}]`: {unit.ErrRange, "goods[0].hides[0].zones[0].outline"},
		`"backbone": "300 in"`: {unit.ErrRange, "goods[0].hides[0].backbone"},
		`"area": "5 sq ft"`:    {unit.ErrRange, "goods[0].hides[0].area"},
		`"area": "100 sq ft"`:  {unit.ErrRange, "goods[0].hides[0].area"},
	} {
		_, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
			"goods": [{"id": "ox", "kind": "hide", "name": "ox", "material": "leather", "price": "10 USD/sq ft", "hides": [
				{"name": "a", "outline": {"rectangle": {"width": "60 in", "height": "80 in"}}, `+hide+`}]}],
			"pieces": [{"name": "seat", "panels": [{"name": "cover", "goods": "ox", "width": "24 in", "length": "22 in", "grain": "any way"}]}],
			"quote": {"labour_rate": "50 USD/h"}}`), quick)
		require.ErrorIs(t, err, c.err, hide)
		assert.Contains(t, err.Error(), c.field+":", hide)
	}
}

// Strips that no skin is long enough for are told how to be shorter, and fit then; a
// panel is not.
func TestStripsForSmallSkins(t *testing.T) {
	t.Parallel()
	job := func(goods, part string) error {
		_, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "a pillow", "currency": "USD",
			"goods": [{"id": "goat", "kind": "hide", "name": "goat", "material": "leather", "price": "10 USD/sq ft", "skin": "goat", "hide_area": "8 sq ft"`+goods+`}],
			"pieces": [{"name": "pillow", `+part+`}], "quote": {"labour_rate": "50 USD/h"}}`), Options{Effort: 0.02})
		return err
	}
	const welted, hint = `"welts": [{"name": "round it", "goods": "goat", "cord": "5/32 in", "runs": ["60 in"]}]`, "longest_strip"
	err := job("", welted)
	require.ErrorIs(t, err, layout.ErrNoLayout)
	require.ErrorContains(t, err, hint)
	require.NoError(t, job(`, "longest_strip": "24 in"`, welted))
	err = job("", `"panels": [{"name": "top", "goods": "goat", "width": "60 in", "length": "3 in"}]`)
	require.ErrorIs(t, err, layout.ErrNoLayout)
	assert.NotContains(t, err.Error(), hint)
}
