package job

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

const (
	roughChair = `{"name": "club chair", "count": 2, "from": "club chair", "goods": "damask", "rough": {}}`
	roughSeats = `{"name": "seats", "count": 6, "from": "drop-in seat", "goods": "hide", "rough": {}}`
	measured   = `{"name": "stool", "panels": [{"name": "top", "goods": "cloth", "width": "20 in", "length": "20 in"}], "labour": [{"task": "cover", "time": "1 h"}]}`
)

func roughJob(pieces string) string {
	return strings.Replace(timedJob(pieces, ""), `"goods": [`, `"goods": [{"id": "damask", "kind": "roll", "name": "damask", "material": "woven", "price": "40.00 USD/yd", "width": "48 in", "repeat": "14 in"}, `, 1)
}

// Worked by hand. A club chair takes 6 yd at 54 in, by the area 6.75 yd at 48 in, and
// 10 % for a repeat of 14 in: 7.425 yd; two take 14.85 yd, and 14 7/8 yd are bought, at
// 40 a yard 595.00. Time a third of the way up, matched by 7/6: 13 h 19 min each.
// Findings 10 % of 595.00 + 1598.00. Six drop-in seats take 3/4 yd each, 4.5 yd, 81 sq ft
// of leather: two hides of 50 sq ft.
func TestByTelephone(t *testing.T) {
	t.Parallel()
	o, err := read(t, roughJob(roughChair+", "+roughSeats))
	require.NoError(t, err)
	require.Len(t, o.Rough, 2)
	chair, seats := o.Rough[0], o.Rough[1]
	assert.Equal(t, 119*unit.Yard/8, chair.Length)
	assert.Equal(t, "595.00 USD", chair.Cost.String())
	assert.Equal(t, hours(t, "26 h 38 min"), chair.Time)
	assert.Equal(t, "219.30 USD", chair.Sundries.String())
	assert.Equal(t, 2, seats.Hides)
	assert.Equal(t, 100*unit.SquareFoot, seats.Area)
	assert.Empty(t, o.Cuts)
	assert.Empty(t, o.Purchases)
	var groups []string
	for _, g := range o.Quote.Groups {
		groups = append(groups, g.Name)
	}
	assert.Equal(t, []string{"club chair", "seats"}, groups)
	assert.Equal(t, cost.EstimateClass(5), o.Quote.Class)
	half, err := o.Quote.Net.Scale(0.5, cost.HalfUp)
	require.NoError(t, err)
	twice, err := o.Quote.Net.Times(2)
	require.NoError(t, err)
	assert.Equal(t, half, o.Quote.Low)
	assert.Equal(t, twice, o.Quote.High)
	for _, r := range o.Rough {
		assert.Equal(t, cite.RuleOfThumb, r.Kind)
		for _, a := range r.Answers {
			assert.Equal(t, cite.RuleOfThumb, a.Kind, a.Text)
		}
		assert.NotEmpty(t, r.Unknown)
	}
	notes := cautionText(o, "J10")
	require.Len(t, notes, 2)
	assert.Contains(t, notes[0], "the whole quote is one of class 5")
}

// A measured piece beside it keeps its lines, its cut and its layout.
func TestRoughBesideMeasured(t *testing.T) {
	t.Parallel()
	alone, err := read(t, roughJob(measured))
	require.NoError(t, err)
	both, err := read(t, roughJob(measured+", "+roughChair))
	require.NoError(t, err)
	assert.Equal(t, alone.Cuts, both.Cuts)
	assert.Equal(t, alone.Purchases, both.Purchases)
	for _, l := range alone.Quote.Lines {
		found := false
		for _, m := range both.Quote.Lines {
			found = found || m.ID == l.ID && m.Amount.String() == l.Amount.String()
		}
		assert.True(t, found, l.ID)
	}
	assert.Zero(t, alone.Quote.Class)
	assert.Equal(t, cost.EstimateClass(5), both.Quote.Class)
}

// A length, a share for findings and own labour take the place of what is usual.
func TestRoughAsTold(t *testing.T) {
	t.Parallel()
	o, err := read(t, roughJob(`{"name": "booth", "from": "channel-back booth", "goods": "cloth", "rough": {"length": "5 yd", "sundries": 0}, "labour": [{"task": "all", "time": "9 h"}]}`))
	require.NoError(t, err)
	assert.Equal(t, 5*unit.Yard, o.Rough[0].Length)
	assert.Equal(t, 9*unit.Hour, o.Rough[0].Time)
	assert.Equal(t, "740.00 USD", o.Quote.Total.String())
	assert.Empty(t, o.Usual)
	o, err = read(t, roughJob(`{"name": "booth", "from": "channel-back booth", "goods": "cloth", "rough": {"length": "5 yd"}, "usual": {"length": "10 ft"}}`))
	require.NoError(t, err)
	assert.Equal(t, "booth", o.Usual[0].Parts[0].Row)
}

// A customer's own goods are not charged, and may have no price.
func TestRoughInOwnGoods(t *testing.T) {
	t.Parallel()
	text := strings.Replace(roughJob(roughChair), `"price": "40.00 USD/yd", "width": "48 in"`, `"whose": "customer", "width": "48 in"`, 1)
	o, err := read(t, text)
	require.NoError(t, err)
	assert.True(t, o.Rough[0].Cost.IsZero())
	assert.Equal(t, 119*unit.Yard/8, o.Rough[0].Length)
	assert.Equal(t, "159.80 USD", o.Rough[0].Sundries.String())
	text = strings.Replace(timedJob(fourSquares, ""), `"price": "40.00 USD/yd", "width": "54 in"`, `"whose": "customer", "actual": "2 yd", "width": "54 in", "repeat": "9 in", "at_hand": [{"name": "bolt", "length": "10 yd"}]`, 1)
	o, err = read(t, text)
	require.NoError(t, err)
	assert.True(t, o.Afterwards.Cost.IsZero())
	card := cardOf(t, text, quick)
	assert.Equal(t, 11*unit.Yard/8, card[0].Length, "as from a new bolt")
}

// Other goods count in an option.
func TestRoughInAnOption(t *testing.T) {
	t.Parallel()
	o, err := read(t, strings.Replace(roughJob(roughChair), `"pieces"`, `"options": [{"name": "plain", "replace": [{"goods": "damask", "with": "cloth"}]}], "pieces"`, 1))
	require.NoError(t, err)
	assert.Equal(t, "595.00 USD", o.Options[0].Goods[0].Cost.String())
	assert.Equal(t, "480.00 USD", o.Options[0].Goods[0].WithCost.String())
}

func TestRoughFaults(t *testing.T) {
	refused(t, roughJob(roughChair), map[string]fault{
		"no kind":      {`"from": "club chair", `, ``, "pieces[0].from", unit.ErrRequired},
		"other kind":   {`"from": "club chair"`, `"from": "throne"`, "pieces[0].from", unit.ErrUnknown},
		"no chart":     {`"from": "club chair"`, `"from": "bolster"`, "pieces[0].rough.length", unit.ErrRequired},
		"no length":    {`"from": "club chair"`, `"from": "channel-back booth"`, "pieces[0].usual.length", unit.ErrRequired},
		"no goods":     {`"goods": "damask", "rough"`, `"rough"`, "pieces[0].goods", unit.ErrRequired},
		"other goods":  {`"goods": "damask", "rough"`, `"goods": "silk", "rough"`, "pieces[0].goods", unit.ErrUnknown},
		"measured":     {`"rough": {}`, `"rough": {}, "width": "20 in"`, "pieces[0].width", ErrMisplaced},
		"with a panel": {`"rough": {}`, `"rough": {}, "panels": [{"name": "a", "goods": "damask", "width": "2 in", "length": "2 in"}]`, "pieces[0].panels", ErrMisplaced},
		"sundries":     {`"rough": {}`, `"rough": {"sundries": "200 %"}`, "pieces[0].rough.sundries", unit.ErrRange},
		"length":       {`"rough": {}`, `"rough": {"length": "-2 yd"}`, "pieces[0].rough.length", unit.ErrRange},
	})
}

// Every kind can be told by telephone, and twice as many cost no less.
func TestEveryKindByTelephone(t *testing.T) {
	t.Parallel()
	for _, k := range kind.All() {
		fields := ""
		if _, charted := charts[k.Name]; !charted {
			fields = `"length": "2 yd"`
		}
		total := func(count string) cost.Money {
			o, err := read(t, roughJob(`{"name": "piece", "count": `+count+`, "from": "`+k.Name+`", "goods": "cloth", "rough": {`+fields+`}`+lengthOf(k)+`}`))
			require.NoError(t, err, k.Name)
			assert.Positive(t, o.Rough[0].Time, k.Name)
			return o.Quote.Total
		}
		c, err := total("1").Cmp(total("2"))
		require.NoError(t, err)
		assert.Negative(t, c, k.Name)
	}
	for _, row := range charts {
		assert.Positive(t, yardage(row).From, row)
	}
}

func lengthOf(k kind.Kind) string {
	if u, err := usualOf(k); err == nil && u.Length != 0 {
		return `, "usual": {"length": "6 ft"}`
	}
	return ""
}

// A context that has ended ends a job of this sort too.
func TestRoughCancelled(t *testing.T) {
	t.Parallel()
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Read(ctx, strings.NewReader(roughJob(roughChair)), quick)
	require.ErrorIs(t, err, context.Canceled)
}
