package job

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// timed is a job of one piece; more are fields of the job, each with a comma behind.
func timedJob(piece, more string) string {
	return `{"schema": "coverwright/job/1", "name": "timed", "currency": "USD", ` + more + `
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"},
			{"id": "hide", "kind": "hide", "name": "tan leather", "material": "leather", "price": "9.50 USD/sq ft", "hide_area": "50 sq ft", "buy_by": "rule of thumb"}],
		"pieces": [` + piece + `], "quote": {"labour_rate": "60.00 USD/h"}}`
}

func timedOrder(t testing.TB, piece, more string) WorkOrder {
	t.Helper()
	o, err := Read(context.Background(), strings.NewReader(timedJob(piece, more)), quick)
	require.NoError(t, err)
	return o
}

func hours(t testing.TB, text string) unit.Duration {
	t.Helper()
	d, err := unit.ParseDuration(text)
	require.NoError(t, err)
	return d
}

func totalTime(o WorkOrder) unit.Duration {
	var sum unit.Duration
	for _, b := range o.Labour {
		sum += b.Time
	}
	return sum
}

// Two panels of an armchair, sewn to each other.
const sewnInLeather = `"panels": [{"name": "seat", "goods": "hide", "width": "20 in", "length": "20 in"}, {"name": "back", "goods": "hide", "width": "20 in", "length": "20 in"}],
	"seams": [{"sew": "seat.top", "to": "back.bottom"}],
	"fastenings": [{"fasten": ["seat.bottom", "seat.left", "seat.right", "back.top", "back.left", "back.right"]}]`

// Worked by hand: a club chair at the middle of every range, in leather at 1.35, with
// 8 ft of spaced nails: 1.35 x 7.5 = 10.125; + 6.375 + 0.6 = 17.10 h, at 60 an hour.
func TestUsualPricesAClubChair(t *testing.T) {
	t.Parallel()
	piece := `{"name": "club chair", ` + sewnInLeather + `, "trims": [{"name": "nails", "kind": "nails", "length": "8 ft"}], "usual": {"piece": "club chair"}}`
	o := timedOrder(t, piece, `"bench": {"share": "50 %", "goods": [{"name": "leather", "factor": {"from": 1.35, "to": 1.35}}]},`)
	assert.Equal(t, hours(t, "17.1 h"), totalTime(o))
	require.Len(t, o.Usual, 1)
	assert.Equal(t, hours(t, "17.1 h"), o.Usual[0].Usual)
	assert.True(t, o.Usual[0].Priced)
	var labour string
	for _, s := range o.Quote.Subtotals {
		if s.Kind == cost.Labour {
			labour = s.Amount.String()
		}
	}
	assert.Equal(t, "1026.00 USD", labour)
	classes := map[string]cost.TaxClass{}
	for _, b := range o.Labour {
		classes[b.Task] = b.TaxClass
	}
	assert.Equal(t, map[string]cost.TaxClass{"strip": bench.Application, "frame": bench.Application, "pad": bench.Application, "cut": bench.Fabrication, "sew": bench.Fabrication,
		"cover": bench.Application, "finish": bench.Application, "spaced nails": bench.Application}, classes)
}

// Own figures are priced; what is usual stands beside them and changes nothing.
func TestOwnFiguresBesideTheUsual(t *testing.T) {
	t.Parallel()
	const labour = `"labour": [{"task": "strip", "time": "30 min", "does": ["strip", "frame"]}, {"task": "cut and sew", "time": "5 h", "does": ["cut", "sew"]}, {"task": "the rest", "time": "6 h"}]`
	plain := timedOrder(t, `{"name": "chair", `+sewnInLeather+`, `+strings.ReplaceAll(strings.ReplaceAll(labour, `, "does": ["strip", "frame"]`, ""), `, "does": ["cut", "sew"]`, "")+`}`, "")
	o := timedOrder(t, `{"name": "chair", `+sewnInLeather+`, `+labour+`, "usual": {"piece": "club chair"}}`, "")
	assert.Equal(t, plain.Quote.Total, o.Quote.Total)
	// strip 1 to 2 h and frame 30 min to 4 h; cut and sew 2 h 30 min to 4 h 30 min, by 1.25 to 1.5
	assert.Equal(t, bench.Span{From: 90 * unit.Minute, To: 6 * unit.Hour}, o.Labour[0].Range)
	assert.Equal(t, bench.Span{From: hours(t, "187 min"), To: hours(t, "6 h 45 min")}, o.Labour[1].Range)
	assert.Zero(t, o.Labour[2].Range)
	assert.Equal(t, bench.Fabrication, o.Labour[1].TaxClass)
	assert.Equal(t, cost.Labour.TaxClass(), o.Labour[2].TaxClass)
	text := cautionText(o, "J5")
	assert.Equal(t, []string{"chair, strip: 30 min is less than the usual 1 h 30 min to 6 h. A rule of thumb."}, text)

	o = timedOrder(t, `{"name": "chair", `+sewnInLeather+`, "labour": [{"task": "all of it", "time": "40 h"}], "usual": {"piece": "club chair"}}`, "")
	assert.Equal(t, 40*unit.Hour, o.Usual[0].Own)
	assert.Equal(t, []string{"chair, all tasks together: 40 h is more than the usual " + o.Usual[0].Time.String() + ". A rule of thumb."}, cautionText(o, "J5"))
}

func cautionText(o WorkOrder, id string) []string {
	var out []string
	for _, c := range o.Cautions {
		if c.ID == id {
			out = append(out, c.Text)
		}
	}
	return out
}

// A kind brings its row, and every row is one of the table.
func TestEveryKindHasItsUsualTime(t *testing.T) {
	t.Parallel()
	for _, k := range kind.All() {
		s := pieceOf(t, k, threeGoods["patterned"], k.Likely())
		s.Pieces[0].Usual = &bench.Ask{}
		d, err := prepare(context.Background(), s)
		require.NoError(t, err, k.Name)
		require.Len(t, d.usual, 1, k.Name)
		assert.Positive(t, d.usual[0].Usual, k.Name)
		for _, b := range d.bench {
			assert.Positive(t, b.Time, k.Name)
			assert.NotEmpty(t, b.Does, k.Name)
		}
		assert.Empty(t, d.from.unpricedTime(), k.Name)
	}
}

func (o origins) unpricedTime() []string {
	var out []string
	for _, text := range o.unpriced {
		if strings.Contains(text, "time to") {
			out = append(out, text)
		}
	}
	return out
}

// Only what the build needs: a drop-in seat on a board has no webbing and no seam; six
// of them in plain cloth take six times strip 14, pad 10, cut 5, cover 18, finish 5 min.
func TestUsualOfDropInSeats(t *testing.T) {
	t.Parallel()
	seat := func(build string) WorkOrder {
		return timedOrder(t, `{"name": "seat", "count": 6, "from": "drop-in seat", "goods": "cloth", "goods_for": {"dust cover": "cloth"}, `+build+`"width": "18 in", "depth": "16 in", "usual": {}}`, "")
	}
	o := seat(`"build": "board", `)
	assert.Equal(t, 6*52*unit.Minute, totalTime(o))
	assert.Equal(t, []bench.LeftOut{{Task: bench.Frame, Why: "nothing is renewed"}}, o.Usual[0].Parts[0].LeftOut)
	assert.Equal(t, 6*62*unit.Minute, totalTime(seat(`"build": "webbed", `)))
}

// What carries the seat says whether the frame takes time, and how much: springs tied by
// hand are the upper end of the row.
func TestUsualByTheBuild(t *testing.T) {
	t.Parallel()
	task := func(build, name string) unit.Duration {
		o := timedOrder(t, `{"name": "chair", `+sewnInLeather+`, "trims": [{"name": "nails", "kind": "nails", "length": "4 ft"}], "build": `+build+`, "usual": {"piece": "club chair"}}`, "")
		for _, b := range o.Labour {
			if b.Task == name {
				return b.Each
			}
		}
		return 0
	}
	assert.Equal(t, 4*unit.Hour, task(`{"seat": {"on": "coil springs"}}`, "frame"))
	assert.Equal(t, 100*unit.Minute, task(`{"seat": {"on": "zigzag springs"}}`, "frame"))
	assert.Zero(t, task(`{"seat": {"on": "as found"}, "back": {"on": "board"}}`, "frame"))
	// 4 ft at 3 to 6, or head to head at 10 to 15 min
	assert.Equal(t, 16*unit.Minute, task(`{"nails": {"head": "1/2 in", "pitch": "2 in"}}`, "spaced nails"))
	assert.Equal(t, 47*unit.Minute, task(`{"nails": {"head": "1/2 in"}}`, "close nails"))
	// 12 at 3 to 6 min
	assert.Equal(t, 48*unit.Minute, task(`{"buttons": {"count": 12}}`, "shallow button"))
}

// Cushions alone take the rows of cushions, each of them: a pair of boxed ones and a
// bolster, without filling.
func TestUsualOfCushions(t *testing.T) {
	t.Parallel()
	o := timedOrder(t, `{"name": "bench", "count": 2, "usual": {}, "cushions": [
		{"name": "seat", "pair": true, "top": "cloth", "width": "20 in", "depth": "20 in", "thickness": "4 in", "zip": true, "welt": {"cord": "5/32 in"},
			"foam": {"use": "seat", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"}},
		{"name": "roll", "kind": "bolster", "top": "cloth", "width": "20 in", "depth": "7 in", "zip": true, "welt": {"cord": "5/32 in"}}]}`, "")
	require.Len(t, o.Usual, 1)
	parts := o.Usual[0].Parts
	require.Len(t, parts, 2)
	assert.Equal(t, []string{"boxed cushion", "bolster"}, []string{parts[0].Row, parts[1].Row})
	assert.Equal(t, 2, parts[0].Count)
	assert.Equal(t, []bench.LeftOut{{Task: bench.Pad, Why: "no filling"}}, parts[1].LeftOut)
	welt := func(p bench.Part) bench.Line {
		for _, l := range p.Estimate.Lines {
			if l.Work.Extra == "single welt" {
				return l
			}
		}
		return bench.Line{}
	}
	assert.Zero(t, welt(parts[0]).Usual, "the row holds its welt")
	assert.Positive(t, welt(parts[1]).Usual)
	assert.Equal(t, 2*(2*parts[0].Estimate.Usual+parts[1].Estimate.Usual), totalTime(o))
	for _, b := range o.Labour {
		if b.Task == "roll: cover" {
			assert.Equal(t, bench.Fabrication, b.TaxClass, "a cushion is made new")
		}
	}
}

// What the job says comes before what is counted; learning as of labour.
func TestUsualAsTold(t *testing.T) {
	t.Parallel()
	o := timedOrder(t, `{"name": "chair", "count": 4, `+strings.ReplaceAll(sewnInLeather, `"hide"`, `"cloth"`)+`, "trims": [{"name": "nails", "kind": "nails", "length": "8 ft"}],
		"usual": {"piece": "dining side chair", "tasks": ["cut", "sew", "cover"], "match": true, "share": "0 %", "goods": "vinyl", "learning": "90 %",
			"extras": [{"extra": "close nails", "length": "2 ft"}, {"extra": "spaced nails", "length": "1 ft"}]}}`, "")
	names := map[string]unit.Duration{}
	for _, b := range o.Labour {
		names[b.Task] = b.Each
	}
	// cut 15 and cover 60 min by 1.05 and 1.1; sew none at the low end
	assert.Equal(t, map[string]unit.Duration{"cut": 17 * unit.Minute, "cover": 69 * unit.Minute, "close nails": 20 * unit.Minute, "spaced nails": 3 * unit.Minute}, names)
	for _, b := range o.Labour {
		assert.Less(t, b.Time, 4*b.Each, b.Task)
	}
}

// A tax on labour falls on all of it, or on all but one class.
func TestTaxByClassOfLabour(t *testing.T) {
	t.Parallel()
	taxed := func(except string) string {
		text := strings.Replace(timedJob(`{"name": "seat", "from": "drop-in seat", "goods": "cloth", "goods_for": {"dust cover": "cloth"}, "build": "board", "width": "18 in", "depth": "16 in", "usual": {}}`, ""),
			`"quote": {`, `"quote": {"taxes": [{"name": "tax", "rate": "10 %", "on": ["labour"]`+except+`}], `, 1)
		o, err := Read(context.Background(), strings.NewReader(text), quick)
		require.NoError(t, err)
		return o.Quote.Taxes[0].Base.String()
	}
	assert.Equal(t, "52.00 USD", taxed(""))
	assert.Equal(t, "5.00 USD", taxed(`, "except": ["repair and application labour"]`))
	assert.Equal(t, "47.00 USD", taxed(`, "except": ["fabrication labour"]`))
	assert.Equal(t, "0.00 USD", taxed(`, "except": ["fabrication labour", "repair and application labour"]`))
}

// Measuring once at 30 to 90 min, two deliveries of 45 min each, at 60 an hour.
func TestErrands(t *testing.T) {
	t.Parallel()
	o := timedOrder(t, `{"name": "seat", "labour": [{"task": "look", "time": "1 h"}], "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "20 in"}]}`,
		`"errands": [{"task": "measure"}, {"task": "deliver", "count": 2, "time": "45 min", "name": "two trips"}],`)
	require.Len(t, o.Labour, 3)
	assert.Equal(t, Bench{Task: "measuring on site", Count: 1, Each: 50 * unit.Minute, Time: 50 * unit.Minute, Does: []bench.Task{bench.Measure},
		Range: bench.Span{From: 30 * unit.Minute, To: 90 * unit.Minute}, Usual: 50 * unit.Minute, FromTable: true, TaxClass: "labour"}, o.Labour[1])
	assert.Equal(t, 90*unit.Minute, o.Labour[2].Time)
	sums := map[cost.Kind]string{}
	for _, s := range o.Quote.Subtotals {
		sums[s.Kind] = s.Amount.String()
	}
	assert.Equal(t, "110.00 USD", sums[cost.Labour])
	assert.Equal(t, "90.00 USD", sums[cost.Delivery])
	assert.Equal(t, cost.TaxClass("delivery"), o.Labour[2].TaxClass)
}

// An extra for delivery beside an errand that delivers is asked about.
func TestDeliveryChargedTwice(t *testing.T) {
	t.Parallel()
	text := strings.Replace(timedJob(measured, `"errands": [{"task": "deliver"}],`), `"quote": {`, `"quote": {"extras": [{"kind": "delivery", "name": "van", "amount": "40.00 USD"}], `, 1)
	o, err := read(t, text)
	require.NoError(t, err)
	assert.Contains(t, cautionText(o, "J1"), "The extra “van” stands beside errands for delivering.")
	o, err = read(t, strings.Replace(text, `"task": "deliver"`, `"task": "measure"`, 1))
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(cautionText(o, "J1"), " "), "errands")
}

// What a job took stands beside what was quoted, and changes nothing of it: 1 h for
// 45 min is 15.00 more, 2 yd for what was bought at 40.00 a yard.
func TestAfterwards(t *testing.T) {
	t.Parallel()
	const piece = `{"name": "seat", "labour": [{"task": "cover", "time": "45 min"}], "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "20 in"}]}`
	plain := timedOrder(t, piece, "")
	assert.Nil(t, plain.Afterwards)
	text := strings.NewReplacer(`"time": "45 min"`, `"time": "45 min", "actual": "1 h"`, `"price": "40.00 USD/yd"`, `"price": "40.00 USD/yd", "actual": "2 yd"`).Replace(timedJob(piece, ""))
	o, err := Read(context.Background(), strings.NewReader(text), quick)
	require.NoError(t, err)
	assert.Equal(t, plain.Quote, o.Quote)
	a := o.Afterwards
	require.NotNil(t, a)
	assert.Equal(t, 15*unit.Minute, a.Time)
	require.Len(t, a.Lines, 2)
	assert.Equal(t, 2*unit.Yard-o.Purchases[0].Length, a.Lines[1].More.Length)
	was, err := o.Purchases[0].Cost.Plus(a.Lines[1].Cost)
	require.NoError(t, err)
	assert.Equal(t, "80.00 USD", was.String())
	more, err := a.Lines[1].Cost.Plus(a.Lines[0].Cost)
	require.NoError(t, err)
	assert.Equal(t, "15.00 USD", a.Lines[0].Cost.String())
	assert.Equal(t, more, a.Cost)
}

// What was taken can come to more than is counted where what was quoted does not.
func TestTakenBeyondCounting(t *testing.T) {
	good := timedJob(`{"name": "seat", "labour": [{"task": "cover", "time": "45 min", "actual": "900 h"}], "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "20 in"}]}`, "")
	_, err := read(t, good)
	require.NoError(t, err)
	refused(t, good, map[string]fault{
		"goods": {`"price": "40.00 USD/yd"`, `"price": "999999999999.00 USD/yd", "actual": "1000 m"`, "goods[0].actual", unit.ErrOverflow},
		"hours": {`"labour_rate": "60.00 USD/h"`, `"labour_rate": "2000000000000.00 USD/h"`, "quote.labour_rate", unit.ErrOverflow},
	})
}

func TestUsualFaults(t *testing.T) {
	good := timedJob(`{"name": "chair", `+sewnInLeather+`, "labour": [{"task": "cut", "time": "4 h", "does": ["cut"]}, {"task": "sew", "time": "4 h", "does": ["sew"]}], "usual": {"piece": "club chair", "share": "50 %"}}`,
		`"errands": [{"task": "measure", "time": "45 min"}], "bench": {"extras": [{"name": "piping", "task": "sew", "time": {"from": "5 min", "to": "10 min"}}]},`)
	const pieces = "pieces[0].usual."
	refused(t, good, map[string]fault{
		"no row":            {`"piece": "club chair"`, `"piece": "throne"`, pieces + "piece", unit.ErrUnknown},
		"no row at all":     {`"piece": "club chair", `, ``, pieces + "piece", unit.ErrRequired},
		"share":             {`"share": "50 %"`, `"share": "150 %"`, pieces + "share", unit.ErrRange},
		"length of a chair": {`"share": "50 %"`, `"length": "5 ft"`, pieces + "length", unit.ErrRange},
		"goods":             {`"share": "50 %"`, `"goods": "silk"`, pieces + "goods", unit.ErrUnknown},
		"extra":             {`"share": "50 %"`, `"extras": [{"extra": "piping", "length": "3 ft"}]`, pieces + "extras[0].count", unit.ErrRange},
		"task":              {`"share": "50 %"`, `"tasks": ["cut", "cut"]`, pieces + "tasks[1]", unit.ErrRange},
		"actual":            {`"share": "50 %"`, `"actual": "5 h"`, pieces + "actual", ErrMisplaced},
		"does twice":        {`"does": ["sew"]`, `"does": ["cut"]`, "pieces[0].labour[1].does[0]", ErrTwice},
		"does an errand":    {`"does": ["sew"]`, `"does": ["deliver"]`, "pieces[0].labour[1].does[0]", unit.ErrUnknown},
		"no errand":         {`"task": "measure"`, `"task": "sew"`, "errands[0].task", unit.ErrUnknown},
		"short errand":      {`"45 min"`, `"-45 min"`, "errands[0].time", unit.ErrRange},
		"founded":           {`"task": "sew", "time"`, `"task": "sew", "basis": {"status": "published"}, "time"`, "bench.extras[0].basis", ErrMisplaced},
		"backwards":         {`"to": "10 min"`, `"to": "1 min"`, "bench.extras[0].time.to", unit.ErrRange},
		"no class":          {`"quote": {`, `"quote": {"taxes": [{"name": "tax", "rate": "5 %", "on": ["labour"], "except": ["foam"]}], `, "quote.taxes[0].except[0]", unit.ErrUnknown},
		"actual of a hide":  {`"hide_area": "50 sq ft"`, `"hide_area": "50 sq ft", "actual": "3 yd"`, "goods[1].actual", unit.ErrUnknownUnit},
	})
}

// The further up the ranges, the dearer; twice the pieces, twice the time; and the
// lines of the quote are the usual time.
func TestUsualLaws(t *testing.T) {
	few.Check(t, 12, func(draw *rapid.T) { usualLaws(t, draw) })
}

func usualLaws(in *testing.T, t *rapid.T) {
	kinds := kind.All()
	k := kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")]
	s := pieceOf(in, k, threeGoods[rapid.SampledFrom([]string{"patterned", "vinyl", "leather"}).Draw(t, "goods")], k.Likely())
	at := func(share unit.Ratio, count int) draft {
		s.Pieces[0].Count, s.Pieces[0].Usual = count, &bench.Ask{Share: &share}
		d, err := prepare(context.Background(), s)
		require.NoError(t, err)
		return d
	}
	sum := func(d draft) unit.Duration {
		var out unit.Duration
		for _, b := range d.bench {
			out += b.Time
		}
		return out
	}
	low := unit.Ratio(rapid.IntRange(0, 100).Draw(t, "low")) / 100
	high := low + (1-low)*unit.Ratio(rapid.IntRange(0, 100).Draw(t, "high"))/100
	n := rapid.IntRange(2, 5).Draw(t, "count")
	one := at(low, 1)
	assert.Equal(t, one.usual[0].Usual, sum(one))
	assert.Equal(t, one.usual[0].Quoted, sum(one))
	assert.LessOrEqual(t, sum(one), sum(at(high, 1)))
	assert.GreaterOrEqual(t, sum(one), one.usual[0].Time.From)
	assert.LessOrEqual(t, sum(one), one.usual[0].Time.To)
	assert.Equal(t, unit.Duration(n)*sum(one), sum(at(low, n)))
}

// Every type of the usual times goes through JSON.
func usualTypes(t testing.TB) []any {
	t.Helper()
	share := unit.Percent
	text := strings.NewReplacer(`"time": "45 min"`, `"time": "45 min", "actual": "1 h"`, `"price": "40.00 USD/yd"`, `"price": "40.00 USD/yd", "actual": "2 yd"`).Replace(
		timedJob(`{"name": "seat", "usual": {"piece": "drop-in seat"}, "labour": [{"task": "cover", "time": "45 min"}], "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "20 in"}]}`, ""))
	o, err := Read(context.Background(), strings.NewReader(text), quick)
	require.NoError(t, err)
	out := inside(reflect.ValueOf(o))
	o, err = read(t, roughJob(roughChair))
	require.NoError(t, err)
	out = append(out, inside(reflect.ValueOf(o))...)
	return append(out, bench.Ask{Piece: "sofa", Share: &share, Tasks: []bench.Task{bench.Cut}}, bench.Visit{Task: bench.Set, Count: 2}, RoughSpec{Length: unit.Yard, Sundries: &share}, CardLength{Goods: "cloth", Width: unit.Yard, Kind: cite.Layout})
}

// A kind names the row of its time itself: what it lacks is one fault, not two.
func TestNoRowIsAskedOfAKindThatLacksAMeasure(t *testing.T) {
	_, err := read(t, `{"schema": "coverwright/job/1", "name": "a job", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "pillow", "from": "bolster", "goods": "cloth", "width": "19 in", "usual": {}}], "quote": {"labour_rate": "60.00 USD/h"}}`)
	var f Faults
	require.ErrorAs(t, err, &f)
	require.Len(t, f, 1)
	assert.ErrorContains(t, f[0], "pieces[0].depth: required")
}

// A panel that may be joined is no reason for the hours of sewing a cover, and is not
// said to be unsewn.
func TestJoinsAreNoSewing(t *testing.T) {
	t.Parallel()
	o, err := read(t, `{"schema": "coverwright/job/1", "name": "a headboard", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "30.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "headboard", "panels": [{"name": "border", "goods": "cloth", "width": "120 in", "length": "4 in", "edges": "turned under and stapled",
			"join": {"along_width": true, "least": "12 in", "most": 2}}], "build": {"back": {"on": "board"}}, "usual": {"piece": "headboard"}}],
		"quote": {"labour_rate": "60.00 USD/h"}}`)
	require.NoError(t, err)
	assert.Len(t, o.Purchases[0].Plan.Joins, 2)
	assert.Contains(t, o.Usual[0].Parts[0].LeftOut, bench.LeftOut{Task: bench.Sew, Why: "nothing is sewn, joins of panels apart"})
}
