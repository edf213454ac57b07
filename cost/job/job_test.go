package job

import (
	"bytes"
	"context"
	"encoding"
	"encoding/json"
	"errors"
	"os"
	"runtime/debug"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// These tests make much garbage and keep little: collecting it more seldom takes
// a sixth off their time.
var _ = debug.SetGCPercent(400)

// quick spends little on layouts; what is tested here holds at any effort.
var quick = Options{Effort: 0.001}

func demo(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("testdata/larkfield-plain.json")
	require.NoError(t, err)
	return string(text)
}

// demoOrder and secondOrder are the orders of two jobs, worked out once; nobody
// writes to them.
var demoOrder, secondOrder = orderOf("larkfield-plain"), orderOf("larkfield-second")

func orderOf(name string) func() (WorkOrder, error) {
	return sync.OnceValues(func() (WorkOrder, error) {
		text, err := os.ReadFile("testdata/" + name + ".json")
		if err != nil {
			return WorkOrder{}, err
		}
		return Read(context.Background(), bytes.NewReader(text), quick)
	})
}

func read(t testing.TB, text string) (WorkOrder, error) {
	t.Helper()
	return Read(context.Background(), strings.NewReader(text), quick)
}

func TestReadDemo(t *testing.T) {
	o, err := demoOrder()
	require.NoError(t, err)
	one, err := Read(context.Background(), strings.NewReader(demo(t)), Options{Effort: quick.Effort, Workers: 1})
	require.NoError(t, err)
	assert.Equal(t, o, one, "one search at a time finds the same")
	a, err := json.Marshal(o)
	require.NoError(t, err)
	b, err := json.Marshal(one)
	require.NoError(t, err)
	assert.Equal(t, string(a), string(b), "same job, same bytes")

	// Six seats, 18 1/2 by 16 in, leather stretch of 2.5 % taken out, 3 in pulled over on each side.
	var seat Cut
	for _, c := range o.Cuts {
		if c.Part == "seat cover" {
			seat = c
		}
	}
	require.Equal(t, 6, seat.Count)
	assert.Equal(t, 185*unit.Inch/10*39/40+6*unit.Inch, seat.Cut.Width)
	assert.Equal(t, 16*unit.Inch*39/40+6*unit.Inch, seat.Cut.Length)

	for _, p := range o.Purchases {
		require.NotEmpty(t, p.Answers)
		for _, a := range p.Answers {
			assert.NotZero(t, a.Kind, "every estimate says what it is")
			assert.NotZero(t, a.Basis.Status)
		}
		if p.Plan != nil {
			require.NoError(t, p.Plan.Verify())
			assert.GreaterOrEqual(t, p.Length, p.Plan.Bound().Length)
		}
	}
	var sum cost.Money
	for _, p := range o.Quote.Payments {
		sum, err = sum.Plus(p.Amount)
		require.NoError(t, err)
	}
	assert.True(t, sum.Equal(o.Quote.Total), "the payments are the total")
	assert.NotEmpty(t, o.Cautions)
}

// Every fault names its field and its line, and all of them come at once.
// fault is a change to a job, and what is then wrong with it.
type fault struct {
	old, new string
	field    string
	want     error
}

// refused makes each change to a good job by itself.
func refused(t *testing.T, good string, changes map[string]fault) {
	for name, c := range changes {
		t.Run(name, func(t *testing.T) {
			bad := strings.Replace(good, c.old, c.new, 1)
			require.NotEqual(t, good, bad)
			_, err := read(t, bad)
			require.ErrorIs(t, err, c.want)
			var fs strictjson.Faults
			require.ErrorAs(t, err, &fs)
			var fields []string
			for _, f := range fs {
				var in *unit.InputError
				require.ErrorAs(t, f, &in)
				fields = append(fields, string(in.Field))
				assert.Positive(t, f.Line)
				assert.NotEmpty(t, in.Want, "says what is accepted")
			}
			assert.Contains(t, fields, c.field, "%v", err)
		})
	}
}

func TestReadFaults(t *testing.T) {
	refused(t, demo(t), map[string]fault{
		"unknown field":      {`"width": "23 in", "length": "28 1/2 in"`, `"colour": "red", "width": "23 in", "length": "28 1/2 in"`, "pieces[0].panels[0].colour", strictjson.ErrUnknownField},
		"missing unit":       {`"width": "23 in"`, `"width": "23"`, "pieces[0].panels[0].width", unit.ErrMissingUnit},
		"number for text":    {`"width": "23 in"`, `"width": 23`, "pieces[0].panels[0].width", unit.ErrMissingUnit},
		"decimal comma":      {`"width": "23 in"`, `"width": "23,5 in"`, "pieces[0].panels[0].width", unit.ErrDecimalComma},
		"negative size":      {`"width": "23 in"`, `"width": "-23 in"`, "pieces[0].panels[0].width", unit.ErrRange},
		"absurd size":        {`"width": "23 in"`, `"width": "2300 ft"`, "pieces[0].panels[0].width", unit.ErrRange},
		"wider than goods":   {`"width": "23 in"`, `"width": "60 in"`, "pieces[0].panels[0]", layout.ErrTooWide},
		"missing size":       {`"width": "23 in", `, ``, "pieces[0].panels[0].width", unit.ErrRequired},
		"unknown goods":      {`"name": "inside back", "goods": "damask"`, `"name": "inside back", "goods": "velvet"`, "pieces[0].panels[0].goods", unit.ErrUnknown},
		"unknown material":   {`"material": "leather"`, `"material": "denim"`, "goods[3].material", unit.ErrUnknown},
		"unknown finish":     {`"edges": "pull-over 3 in"`, `"edges": "glued 3 in"`, "pieces[2].panels[0].edges", unit.ErrUnknown},
		"unknown kind":       {`"kind": "hide"`, `"kind": "fleece"`, "goods[3].kind", unit.ErrUnknown},
		"hides of no area":   {`"hide_area": "50 sq ft", `, ``, "goods[3].hide_area", unit.ErrRequired},
		"field of a roll":    {`"hide_area": "50 sq ft"`, `"hide_area": "50 sq ft", "repeat": "3 in"`, "goods[3].repeat", ErrMisplaced},
		"wrong price":        {`"9.50 USD/sq ft"`, `"9.50 USD/yd"`, "goods[3].price", unit.ErrUnknownUnit},
		"other currency":     {`"wage": "20.00 USD/h"`, `"wage": "20.00 EUR/h"`, "quote.shop_rate.wage", cost.ErrCurrency},
		"two rates":          {`"shop_rate"`, `"labour_rate": "60 USD/h", "shop_rate"`, "quote.shop_rate", ErrMisplaced},
		"no such option":     {`"with": "tweed"`, `"with": "felt"`, "options[0].replace[0].with", unit.ErrUnknown},
		"no such class":      {`"class": 3`, `"class": 7`, "quote.class", unit.ErrRange},
		"bad day":            {`"2027-01-15"`, `"2027-02-30"`, "quote.issued", unit.ErrSyntax},
		"learning backwards": {`"learning": "95 %"`, `"learning": "195 %"`, "pieces[2].labour[0].learning", unit.ErrRange},
		"no such currency":   {`"currency": "USD"`, `"currency": "USB"`, "currency", unit.ErrUnknown},
		"zero count":         {`"name": "wing chair", "count": 2`, `"name": "wing chair", "count": 0`, "pieces[0].count", unit.ErrRange},
		"field twice":        {`"zip": true,`, `"zip": true, "zip": false,`, "pieces[0].cushions[0].zip", strictjson.ErrTwice},
		"wrong shape":        {`"zip": true,`, `"zip": "yes",`, "pieces[0].cushions[0].zip", strictjson.ErrWrongType},
		"other schema":       {`"coverwright/job/1"`, `"coverwright/job/9"`, "schema", unit.ErrUnknown},
		"negative time":      {`"time": "4 h"`, `"time": "-4 h"`, "pieces[0].labour[0].time", unit.ErrRange},
		"tax over the whole": {`"rate": "6.25 %"`, `"rate": "625 %"`, "quote.taxes[0].rate", unit.ErrRange},
		"thick foam":         {`"thickness": "1 1/2 in"`, `"thickness": "30 in"`, "pieces[2].foam[0].thickness", unit.ErrRange},
		"goods twice":        {`"id": "lining"`, `"id": "damask"`, "goods[2].id", ErrTwice},
		"empty name":         {`"name": "inside back"`, `"name": " "`, "pieces[0].panels[0].name", unit.ErrRequired},
		"all waste":          {`"waste": "33 %"`, `"waste": "100 %"`, "goods[3].waste", unit.ErrRange},
	})
}

func TestReadReportsAllFaults(t *testing.T) {
	bad := strings.NewReplacer(`"width": "23 in"`, `"width": "23"`, `"count": 6`, `"count": -6`, `"hide_area": "50 sq ft"`, `"hide_area": "5 acres"`).Replace(demo(t))
	_, err := read(t, bad)
	var fs strictjson.Faults
	require.ErrorAs(t, err, &fs)
	require.Len(t, fs, 4, "%v", err) // the width 23 in stands in two places
	for i := 1; i < len(fs); i++ {
		assert.LessOrEqual(t, fs[i-1].Line, fs[i].Line)
	}
}

func TestReadMalformed(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want error
	}{
		"nothing":      {"", strictjson.ErrMalformed},
		"syntax":       {"{\n\n\"name\": ,}", strictjson.ErrMalformed},
		"cut off":      {`{"name": "x"`, strictjson.ErrMalformed},
		"two values":   {`{} {}`, strictjson.ErrMalformed},
		"deep":         {strings.Repeat("[", 100_000), strictjson.ErrTooDeep},
		"deep objects": {strings.Repeat(`{"pieces":`, 1000), strictjson.ErrTooDeep},
		"null":         {"null", strictjson.ErrWrongType},
		"list":         {"[]", strictjson.ErrWrongType},
		"empty object": {"{}", unit.ErrRequired},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := read(t, c.text)
			require.ErrorIs(t, err, c.want)
		})
	}
	_, err := Read(context.Background(), &endless{left: 100 << 20}, quick)
	require.ErrorIs(t, err, strictjson.ErrTooLarge)
}

// endless is a file of spaces.
type endless struct{ left int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	e.left -= len(p)
	if e.left < 0 {
		return 0, errors.New("read past the limit of what is ever needed")
	}
	return len(p), nil
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Read(ctx, strings.NewReader(demo(t)), quick)
	require.ErrorIs(t, err, context.Canceled)
}

func TestBuildRefusesTheZeroSpec(t *testing.T) {
	_, err := Build(context.Background(), Spec{}, quick)
	require.ErrorIs(t, err, ErrEmpty)
	require.ErrorIs(t, err, unit.ErrUnknown)
}

func ptr[T any](v T) *T { return &v }

// typed reads a value from its text.
func typed[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](text string) T {
	var v T
	if err := P(&v).UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return v
}

func price(text string) GoodsPrice           { return typed[GoodsPrice](text) }
func hourly(text string) cost.HourPrice      { return typed[cost.HourPrice](text) }
func perVolume(text string) cost.VolumePrice { return typed[cost.VolumePrice](text) }

func anySpec(t *rapid.T) Spec {
	side := func(name string) unit.Length {
		return unit.Length(rapid.IntRange(6*16, 40*16).Draw(t, name)) * unit.Inch / 16
	}
	s := Spec{
		Schema: SpecSchema, Name: "random", Currency: cost.USD,
		Goods: []GoodsSpec{
			{ID: "cloth", Kind: RollGoods, Name: "cloth", Material: thread.Woven, Price: price("40 USD/yd"), Width: 54 * unit.Inch,
				Repeat: unit.Length(rapid.SampledFrom([]int{0, 9, 27}).Draw(t, "repeat")) * unit.Inch},
			{ID: "hide", Kind: HideGoods, Name: "hide", Material: thread.Leather, Price: price("9.5 USD/sq ft"), HideArea: 50 * unit.SquareFoot, BuyBy: BuyByRule},
		},
		Quote: QuoteSpec{LabourRate: hourly("64.55 USD/h"), Markup: unit.Ratio(rapid.IntRange(0, 100).Draw(t, "markup")) / 100, Deposit: ptr(unit.Ratio(0.5))},
	}
	if rapid.IntRange(0, 7).Draw(t, "by layout") == 0 { // the dearest part of a job
		s.Goods[1].BuyBy = BuyByLayout
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "pieces") {
		p := Furniture{Name: "piece", Count: rapid.IntRange(1, 6).Draw(t, "count")}
		for range rapid.IntRange(i/4+1, 5).Draw(t, "panels") {
			p.Panels = append(p.Panels, PanelSpec{Name: "panel", Goods: rapid.SampledFrom([]string{"cloth", "hide"}).Draw(t, "goods"),
				Width: side("width"), Length: side("length")})
		}
		p.Labour = []LabourSpec{{Task: "work", Time: unit.Duration(rapid.IntRange(1, 600).Draw(t, "minutes")) * unit.Minute}}
		s.Pieces = append(s.Pieces, p)
	}
	return s
}

// Whatever the job: every panel is cut, none smaller than it is finished save
// for stretch, layouts are verified, and the quote adds up.
func TestBuildLaws(t *testing.T) { few.Check(t, 6, buildLaws) }

func buildLaws(t *rapid.T) {
	s := anySpec(t)
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	pieces := 0
	for _, p := range s.Pieces {
		pieces += copies(p.Count) * len(p.Panels)
	}
	for _, c := range o.Cuts {
		pieces -= c.Count
		if c.Goods == "cloth" {
			assert.Equal(t, c.Finished.Width+unit.Inch, c.Cut.Width)
		}
	}
	assert.Zero(t, pieces)
	for _, p := range o.Purchases {
		assert.Contains(t, []cite.Kind{cite.Layout, cite.RuleOfThumb}, p.Answers[len(p.Answers)-1].Kind)
		if p.Plan != nil {
			require.NoError(t, p.Plan.Verify())
		}
	}
	var sum cost.Money
	for _, l := range o.Quote.Lines {
		sum, err = sum.Plus(l.Amount)
		require.NoError(t, err)
	}
	assert.True(t, sum.Equal(o.Quote.Subtotal))
}

// Doubling every count doubles what is cut and worked.
func TestBuildScales(t *testing.T) { few.Check(t, 8, buildScales) }

func buildScales(t *rapid.T) {
	s := anySpec(t)
	s.Goods[1].BuyBy = BuyByRule
	a, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	for i := range s.Pieces {
		s.Pieces[i].Count = 2 * copies(s.Pieces[i].Count)
	}
	b, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	for i := range a.Cuts {
		assert.Equal(t, 2*a.Cuts[i].Count, b.Cuts[i].Count)
		assert.Equal(t, 2*a.Cuts[i].Area, b.Cuts[i].Area)
	}
	for i := range a.Labour {
		assert.Equal(t, 2*a.Labour[i].Time, b.Labour[i].Time)
	}
}

func TestFoamOnly(t *testing.T) {
	s := Spec{Schema: SpecSchema, Name: "pads", Currency: cost.USD,
		Goods:  []GoodsSpec{{ID: "x", Kind: RollGoods, Name: "x", Material: thread.Woven, Price: price("1 USD/yd"), Width: 54 * unit.Inch}},
		Pieces: []Furniture{{Name: "pad", Foam: []FoamSpec{{Name: "pad", Width: 24 * unit.Inch, Depth: 24 * unit.Inch, Thickness: 4 * unit.Inch, Filling: FillingSpec{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Board, Price: perVolume("3 USD/bd ft")}}}}},
		Quote:  QuoteSpec{LabourRate: hourly("50 USD/h")}}
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	assert.Empty(t, o.Purchases)
	assert.Equal(t, 16*unit.BoardFoot, o.Foam[0].Volume)
	assert.Equal(t, "48.00 USD", o.Quote.Total.String())
}

func FuzzRead(f *testing.F) {
	f.Add(demo(f))
	f.Add(second(f))
	f.Add(`{"schema":"coverwright/job/1","name":"x","currency":"USD","goods":[],"pieces":[{"name":"a","foam":[{}]}],"quote":{"labour_rate":"1 USD/h"}}`)
	f.Add(`{"pieces":[{"panels":[{"width":"1e300 in"}]}]}`)
	f.Add(roughJob(roughChair + ", " + roughSeats))
	f.Add(timedJob(fourSquares[:len(fourSquares)-1]+`, "count": 3, "usual": {"piece": "club chair", "share": "50 %", "learning": "90 %", "extras": [{"extra": "channel", "count": 3}]}}`,
		`"errands": [{"task": "measure", "count": 2}], "bench": {"share": "40 %"},`))
	f.Add(`{"schema":"coverwright/job/1","name":"x","currency":"USD","goods":[{"id":"cloth","kind":"roll","name":"c","material":"woven","price":"4.00 USD/yd","width":"54 in"}],
		"pieces":[` + sixSeats + `,{"name":"b","from":"bolster","goods":"cloth","width":"20 in","depth":"7 in","without":["welt"],"cushions":[{"name":"bolster","top":"cloth"}]}],
		"quote":{"labour_rate":"1 USD/h"}}`)
	f.Add(`{"schema":"coverwright/job/1","name":"x","currency":"USD","goods":[{"id":"c","kind":"roll","name":"c","material":"woven","price":"4.00 USD/yd","width":"54 in"}],
		"pieces":[{"name":"a","lives":"boat","cushions":[{"name":"b","kind":"bolster","width":"20 in","depth":"6 in","top":"c","foam":{"use":"headrest","duty":"light","base":"board",
		"price":"3 USD/bd ft","rolled":"1 in","wrap":{"loft":"1 in","layers":2,"sides":true,"width":"48 in","price":"4 USD/yd"}}}],
		"foam":[{"name":"w","width":"20 in","depth":"9 in","thickness":"3 in","back_thickness":"1 in","filling":{"use":"back","duty":"light","base":"board","price":"3 USD/bd ft"}},
		{"name":"l","width":"20 in","depth":"9 in","thickness":"3 in","filling":{"use":"seat","duty":"light","base":"board","price":"3 USD/bd ft","sitter":"90 kg","crowns":2,
		"wrap":{"loft":"1/4 in","overlap":"0 in"},"layers":[{"name":"t","thickness":"1 in","use":"back"},{"name":"u","thickness":"2 in","wanted_firmness":{"press":{"disc":"8 in",
		"weight":"30 lb","sink":"1 in","thickness":"4 in"}}}]}}]}],"quote":{"labour_rate":"1 USD/h"}}`)
	f.Fuzz(func(t *testing.T, text string) {
		spec, err := ReadSpec(strings.NewReader(text))
		if err != nil {
			return
		}
		d, err := prepare(context.Background(), spec)
		if err != nil {
			var all Faults
			require.ErrorAs(t, err, &all)
			for _, e := range all {
				var in *unit.InputError
				require.ErrorAs(t, e, &in)
			}
			return
		}
		pieces := 0
		for _, c := range d.cut.pieces {
			pieces += c.Count
		}
		if pieces > 60 {
			return // what is left to find is the layouts' own
		}
		o, err := read(t, text)
		if err == nil && o.Schema != OrderSchema {
			t.Fatal("no order and no error")
		}
		written, err := json.Marshal(spec)
		require.NoError(t, err)
		_, err = ReadSpec(bytes.NewReader(written))
		require.NoError(t, err, string(written))
	})
}

func BenchmarkReadDemo(b *testing.B) {
	text := demo(b)
	for b.Loop() {
		if _, err := Read(context.Background(), strings.NewReader(text), quick); err != nil {
			b.Fatal(err)
		}
	}
}
