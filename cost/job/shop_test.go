package job

import (
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

func shopOfText(t testing.TB, text string) Shop {
	t.Helper()
	s, err := ReadShop(strings.NewReader(text))
	require.NoError(t, err)
	return s
}

// beneath gives the shop of a job file, which stands beside it; none for a whole job.
func beneath(t testing.TB, name string) Shop {
	t.Helper()
	text, err := os.ReadFile(strings.TrimSuffix(name, ".json") + "-shop.json")
	if errors.Is(err, fs.ErrNotExist) {
		return Shop{}
	}
	require.NoError(t, err)
	return shopOfText(t, string(text))
}

// A shop file and a job that are a whole job in two parts give the job, whichever
// has what, and whatever else the shop file says where the job has its own.
func TestShopAndJobAreTheJob(t *testing.T) { few.Check(t, 20, shopAndJob(t)) }

func shopAndJob(outer *testing.T) func(*rapid.T) {
	const more = `"prices": [{"code": "cord", "kind": "thread and sundries", "description": "cord", "price": "0.12 CUR/m"},
		{"code": "tack", "kind": "thread and sundries", "description": "tacks", "price": "0.01 CUR/piece"}],
		"bench": {"pieces": [{"name": "a", "sew": {"from": "1 h", "to": "2 h"}}], "match": {"from": "110 %", "to": "120 %"}},
		"findings": {"cord": {"waste": "12 %"}, "welt": {"waste": "7 %"}}, "defaults": {"least": "4 in", "facing": true, "price_days": 90}, "schema":`
	texts := []string{strings.Replace(demo(outer), `"schema":`, strings.ReplaceAll(more, "CUR", "USD"), 1), strings.Replace(second(outer), `"schema":`, strings.ReplaceAll(more, "CUR", "EUR"), 1)}
	return func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "job")
		var whole map[string]any
		require.NoError(t, json.Unmarshal([]byte(text), &whole))
		shop, own := halves(t, whole, "pieces", "options", "name", "number", "customer", "due", "schema")
		shop["schema"], own["schema"] = ShopSchema, SpecSchema
		a, err := json.Marshal(shop)
		require.NoError(t, err)
		b, err := json.Marshal(own)
		require.NoError(t, err)
		want, err := ReadSpec(strings.NewReader(text))
		require.NoError(t, err)
		s, err := ReadShop(strings.NewReader(string(a)))
		require.NoError(t, err, string(a))
		got, err := s.ReadSpec(strings.NewReader(string(b)))
		require.NoError(t, err, "%s\n%s", a, b)
		require.Equal(t, inOrder(t, want), inOrder(t, got), "%s\n%s", a, b)
	}
}

// inOrder gives a job with its goods and prices in the order of their names.
func inOrder(t require.TestingT, s Spec) Spec {
	slices.SortFunc(s.Goods, func(a, b GoodsSpec) int { return strings.Compare(a.ID, b.ID) })
	entries := s.Prices.Entries()
	slices.SortFunc(entries, func(a, b cost.Entry) int { return strings.Compare(a.Code, b.Code) })
	var err error
	s.Prices, err = cost.PriceList{}.With(entries...)
	require.NoError(t, err)
	return s
}

// halves deals the fields of an object out to two, the second of which holds.
func halves(t *rapid.T, whole map[string]any, own ...string) (lower, upper map[string]any) {
	lower, upper = map[string]any{}, map[string]any{}
	var names []string
	for name := range whole {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		v := whole[name]
		if name == "id" || name == "code" || name == "currency" {
			lower[name], upper[name] = v, v
			continue
		}
		if slices.Contains(own, name) {
			upper[name] = v
			continue
		}
		switch rapid.IntRange(0, 3).Draw(t, name) {
		case 0:
			lower[name] = v
		case 1:
			upper[name] = v
		case 2: // the shop has another
			upper[name] = v
			switch v := v.(type) {
			case bool:
				lower[name] = !v
			case []any:
				lower[name] = []any{}
			case string:
				if strings.HasSuffix(v, "%") {
					lower[name] = "1 %"
				}
			}
		default:
			switch v := v.(type) {
			case map[string]any:
				lower[name], upper[name] = halves(t, v)
			case []any:
				if name != "goods" && name != "prices" {
					upper[name] = v
					continue
				}
				a, b := []any{}, []any{map[string]any{}}[:0]
				for _, x := range v {
					x, _ := x.(map[string]any)
					switch rapid.IntRange(0, 2).Draw(t, "entry") {
					case 0:
						a = append(a, x)
					case 1:
						b = append(b, x)
					default:
						if name == "prices" { // they are whole in a shop file
							a, b = append(a, x), append(b, map[string]any{"code": x["code"]})
							continue
						}
						l, u := halves(t, x)
						a, b = append(a, l), append(b, u)
					}
				}
				if lower[name] = a; len(b) > 0 {
					upper[name] = b
				}
			default:
				upper[name] = v
			}
		}
	}
	return lower, upper
}

const (
	shopFile = `{
  "schema": "coverwright/shop/1",
  "currency": "USD",
  "shop": {"name": "Quillmere", "phone": "555 0142"},
  "jurisdictions": ["united states"],
  "goods": [
    {"id": "velvet", "kind": "roll", "name": "cotton velvet", "material": "woven", "price": "60.00 USD/yd", "width": "54 in", "nap": true},
    {"id": "plain", "kind": "roll", "name": "plain cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in", "repeat_across": "9 in", "repeat": "9 in"},
    {"id": "cambric", "kind": "roll", "name": "cambric", "material": "light woven", "price": "3.00 USD/yd", "width": "36 in"}
  ],
  "prices": [
    {"code": "cord", "kind": "thread and sundries", "description": "cord", "price": "0.12 USD/yd"},
    {"code": "tack", "kind": "thread and sundries", "description": "tacks", "price": "0.01 USD/piece"}
  ],
  "quote": {
    "shop_rate": {"wage": "20.00 USD/h", "margin": "20 %"},
    "markup": "25 %", "contingency": "3 %", "prices_include_tax": true, "deposit": "50 %", "valid_days": 30,
    "taxes": [{"name": "sales tax", "rate": "6.25 %", "on": ["goods"]}]
  },
  "defaults": {"least": "4 in", "take_up": "1/4 in"}
}`
	ownJob = `{
  "schema": "coverwright/job/1",
  "name": "bench", "quote": {"issued": "2027-01-15"},
  "pieces": [{"name": "bench", "panels": [{"name": "top", "goods": "velvet", "width": "20 in", "length": "20 in"}]}]
}`
)

// with adds fields to a file.
func with(file, fields string) string {
	if strings.Contains(fields, `"quote"`) {
		file = strings.Replace(file, `, "quote": {"issued": "2027-01-15"}`, "", 1)
	}
	return strings.Replace(file, `"schema"`, fields+`, "schema"`, 1)
}

// A job names only what is its own: the rest is as in the shop file, and only the
// goods that it names are there.
func TestJobOnShop(t *testing.T) {
	shop := shopOfText(t, shopFile)
	s, err := shop.ReadSpec(strings.NewReader(ownJob))
	require.NoError(t, err)
	assert.Equal(t, shop.Goods[:1], s.Goods)
	quote := *shop.Quote
	quote.Issued = s.Quote.Issued
	assert.Equal(t, quote, s.Quote)
	assert.Equal(t, "2027-01-15", quote.Issued.String())
	assert.Equal(t, cost.Currency("USD"), s.Currency)
	assert.Equal(t, "Quillmere", s.Shop.Name)
	assert.Equal(t, shop.Prices, s.Prices)
	o, err := shop.Read(t.Context(), strings.NewReader(ownJob), quick)
	require.NoError(t, err)
	assert.Equal(t, "Quillmere", o.Shop.Name)
}

// What a job says holds, also when it is nothing, and takes the place of what would
// be in its way.
func TestJobHolds(t *testing.T) {
	shop := shopOfText(t, shopFile)
	s, err := shop.ReadSpec(strings.NewReader(with(ownJob, `"goods": [{"id": "velvet", "nap": false, "price": "55.00 USD/yd"}, {"id": "plain", "repeat_level": "18 in"}],
		"prices": [{"code": "cord", "price": "0.15 USD/yd"}], "jurisdictions": [], "shop": {"phone": ""},
		"quote": {"issued": "2027-01-15", "labour_rate": "70 USD/h", "markup": "0 %", "contingency": 0, "prices_include_tax": false, "valid_days": 0, "taxes": [], "stages": [{"name": "all"}]}, "defaults": {"take_up": "0 in"}`)))
	require.NoError(t, err)
	velvet, plain := shop.Goods[0], shop.Goods[1]
	velvet.Nap = false
	require.NoError(t, velvet.Price.UnmarshalText([]byte("55 USD/yd")))
	plain.RepeatAcross, plain.RepeatLevel = 0, 18*unit.Inch
	assert.Equal(t, []GoodsSpec{velvet, plain}, s.Goods)
	cord, err := s.Prices.Entry("cord")
	require.NoError(t, err)
	assert.Equal(t, "0.15 USD/yd", cord.Price.String())
	assert.Equal(t, "cord", cord.What)
	assert.Len(t, s.Prices.Entries(), 2)
	assert.Empty(t, s.Jurisdictions)
	assert.Equal(t, Party{Name: "Quillmere"}, *s.Shop)
	assert.Equal(t, "70.00 USD/h", s.Quote.LabourRate.String())
	assert.Nil(t, s.Quote.ShopRate)
	assert.Zero(t, s.Quote.Markup)
	assert.Zero(t, s.Quote.Contingency)
	assert.False(t, s.Quote.PricesIncludeTax)
	assert.Zero(t, s.Quote.ValidDays)
	assert.Empty(t, s.Quote.Taxes)
	assert.Nil(t, s.Quote.Deposit)
	assert.Equal(t, 4*unit.Inch, *s.Defaults.Least)
	assert.Zero(t, *s.Defaults.TakeUp)

	none, err := shop.ReadSpec(strings.NewReader(with(ownJob, `"prices": [], "goods": []`)))
	require.NoError(t, err)
	assert.Empty(t, none.Prices.Entries())
	assert.Empty(t, none.Goods)
}

// Of two fields that cannot stand together, that of the job holds.
func TestJobHoldsInsteadOf(t *testing.T) {
	for name, c := range map[string]struct{ shop, job string }{
		"rate":           {`"shop_rate": {"wage": "20 USD/h"}`, `"labour_rate": "70 USD/h"`},
		"rate built up":  {`"labour_rate": "70 USD/h"`, `"shop_rate": {"wage": "20 USD/h"}`},
		"rate by margin": {`"shop_rate": {"wage": "20 USD/h", "markup": "20 %"}`, `"shop_rate": {"margin": "20 %"}`},
		"stages":         {`"labour_rate": "70 USD/h", "deposit": "40 %", "deposit_covers": ["goods"]`, `"stages": [{"name": "all"}]`},
		"deposit":        {`"labour_rate": "70 USD/h", "stages": [{"name": "all"}]`, `"deposit_covers": ["goods"]`},
		"sundries":       {`"labour_rate": "70 USD/h", "sundries": {"share": "4 %", "covers": ["staple"]}`, `"sundries": {"amount": "12 USD"}`},
	} {
		shop := shopOfText(t, `{"schema": "coverwright/shop/1", "quote": {`+c.shop+`}, "goods": [{"id": "velvet", "kind": "roll", "name": "velvet", "material": "woven", "price": "60 USD/yd", "width": "54 in"}]}`)
		_, err := shop.Read(t.Context(), strings.NewReader(with(ownJob, `"currency": "USD", "quote": {`+c.job+`}`)), quick)
		require.NoError(t, err, name)
	}
}

// Every fault is told in the file that it lies in, with its field and its line
// there.
func TestShopFaultsArePlaced(t *testing.T) {
	type place struct {
		file  string
		line  int
		field unit.Path
		is    error
	}
	for name, c := range map[string]struct {
		from, to string // of the shop file
		job      string // fields more
		want     []place
	}{
		"no number":            {`"25 %"`, `"a lot"`, ``, []place{{"shop file", 17, "quote.markup", unit.ErrSyntax}}},
		"no field":             {`"markup"`, `"mark_up"`, ``, []place{{"shop file", 17, "quote.mark_up", nil}}},
		"no id":                {`"id": "plain", `, ``, ``, []place{{"shop file", 8, "goods[1].id", unit.ErrRequired}}},
		"id twice":             {`"id": "plain"`, `"id": "velvet"`, ``, []place{{"shop file", 8, "goods[1].id", ErrTwice}}},
		"schema":               {`shop/1`, `job/1`, ``, []place{{"shop file", 2, "schema", unit.ErrUnknown}}},
		"code twice":           {`"tack"`, `"cord"`, ``, []place{{"shop file", 13, "prices[1].code", unit.ErrRange}}},
		"tax without a rate":   {`"rate": "6.25 %", `, ``, ``, []place{{"shop file", 18, "quote.taxes[0].rate", unit.ErrRequired}}},
		"price in other money": {`0.01 USD`, `0.01 EUR`, ``, []place{{"shop file", 13, "prices[1].price", cost.ErrCurrency}}},
		"no JSON":              {`"prices": [`, `"prices": {`, ``, []place{{"shop file", 12, "", nil}}},
		"goods of the shop":    {`"36 in"`, `"36 yd"`, `"options": [{"name": "o", "replace": [{"goods": "velvet", "with": "cambric"}]}]`, []place{{"shop file", 9, "goods[2].width", unit.ErrRange}}},
		"missing in both":      {`"price": "60.00 USD/yd", `, ``, ``, []place{{"shop file", 7, "goods[0].price", unit.ErrRequired}}},
		"missing in the job's": {`"price": "60.00 USD/yd", `, ``, `"goods": [{"id": "velvet"}]`, []place{{"", 2, "goods[0].price", unit.ErrRequired}}},
		"rate of the shop":     {`"20.00 USD/h"`, `"20.00 EUR/h"`, ``, []place{{"shop file", 16, "quote.shop_rate.wage", cost.ErrCurrency}}},
		"no rate at all":       {`"shop_rate": {"wage": "20.00 USD/h", "margin": "20 %"},`, ``, ``, []place{{"", 3, "quote.labour_rate", unit.ErrRequired}}},
		"both":                 {`"36 in"`, `"36 in"`, `"quote": {"markup": "a lot"}, "due": "soon"`, []place{{"", 2, "quote.markup", unit.ErrSyntax}, {"", 2, "due", nil}}},
		"job's and shop's":     {`"name": "cambric"`, `"name": ""`, `"number": " ", "goods": [{"id": "cambric"}]`, []place{{"", 2, "number", unit.ErrRange}, {"shop file", 9, "goods[2].name", unit.ErrRequired}}},
		"margin of the job":    {`"margin": "20 %"`, `"markup": "20 %"`, `"quote": {"shop_rate": {"margin": "120 %"}}`, []place{{"", 2, "quote.shop_rate.margin", nil}}},
		"currency":             {`"25 %"`, `"25 %"`, `"currency": "EUR"`, []place{{"", 2, "currency", cost.ErrCurrency}}},
	} {
		text := strings.Replace(shopFile, c.from, c.to, 1)
		shop, err := ReadShop(strings.NewReader(text))
		if err == nil {
			file := ownJob
			if c.job != "" {
				file = with(file, c.job)
			}
			_, err = shop.Read(t.Context(), strings.NewReader(file), quick)
		}
		var found Faults
		if f := (*Fault)(nil); !errors.As(err, &found) && errors.As(err, &f) {
			found = Faults{f}
		}
		require.Len(t, found, len(c.want), "%s: %v", name, err)
		for i, w := range c.want {
			var in *unit.InputError
			require.ErrorAs(t, found[i], &in, name)
			assert.Equal(t, place{w.file, w.line, w.field, nil}, place{found[i].File, found[i].Line, in.Field, nil}, "%s: %v", name, err)
			if w.is != nil {
				assert.ErrorIs(t, found[i], w.is, name)
			}
		}
	}
	_, err := ReadShop(strings.NewReader(strings.Replace(shopFile, `"25 %"`, `"a lot"`, 1)))
	assert.ErrorContains(t, err, "in the shop file, line 17: quote.markup: ")
}

// Whatever is wrong with a shop file or a job on top of it, it is told at a place
// that there is in that file.
func TestEveryFaultOnAShopHasAPlace(t *testing.T) {
	few.Check(t, 100, func(r *rapid.T) {
		trees := make([]any, 2)
		require.NoError(r, json.Unmarshal([]byte(shopFile), &trees[0]))
		require.NoError(r, json.Unmarshal([]byte(with(ownJob, `"goods": [{"id": "velvet", "nap": false}], "quote": {"shop_rate": {"burden": "50 %"}, "taxes": []}`)), &trees[1]))
		for range rapid.IntRange(1, 2).Draw(r, "changes") {
			i := rapid.IntRange(0, 1).Draw(r, "file")
			trees[i] = spoil(r, trees[i])
		}
		a, err := json.MarshalIndent(trees[0], "", " ")
		require.NoError(r, err)
		b, err := json.MarshalIndent(trees[1], "", " ")
		require.NoError(r, err)
		placedFaults(r, string(a), string(b))
	})
}

// placedFaults reads a job on a shop and looks at the faults.
func placedFaults(t require.TestingT, shop, own string) {
	s, err := ReadShop(strings.NewReader(shop))
	if err == nil {
		_, err = s.Read(context.Background(), strings.NewReader(own), Options{Effort: 0.0001, NoMatching: true})
	}
	var found Faults
	if !errors.As(err, &found) {
		return
	}
	for _, f := range found {
		var in *unit.InputError
		require.ErrorAs(t, f, &in)
		of, text := reflect.TypeFor[Spec](), own
		if f.File != "" {
			require.Equal(t, "shop file", f.File)
			of, text = reflect.TypeFor[Shop](), shop
		}
		require.LessOrEqual(t, f.Line, strings.Count(text, "\n")+1, "%v", f)
		if in.Field == "" || errors.Is(in, unit.ErrUnknown) || strings.Contains(in.Err.Error(), "unknown field") {
			continue // of the whole file, or a field that is none
		}
		require.True(t, resolves(of, in.Field), "%v", f)
	}
}

// FuzzJobOnShop: a job that is whole reads on top of any shop of its money, and what
// it says holds.
func FuzzJobOnShop(f *testing.F) {
	f.Add(shopFile, ownJob)
	f.Add(shopFile, demo(f))
	f.Add(`{"schema": "coverwright/shop/1"}`, second(f))
	f.Add(strings.Replace(shopFile, "velvet", "damask", 1), demo(f))
	f.Fuzz(func(t *testing.T, shop, own string) {
		s, err := ReadShop(strings.NewReader(shop))
		if err != nil {
			return
		}
		alone, wrong := ReadSpec(strings.NewReader(own))
		both, err := s.ReadSpec(strings.NewReader(own))
		if wrong != nil {
			return
		}
		if alone.Currency != s.Currency && s.Currency != "" {
			require.ErrorIs(t, err, cost.ErrCurrency)
			return
		}
		var found Faults
		if errors.As(err, &found) {
			for _, f := range found {
				require.NotEmpty(t, f.File, "a fault of the job on the shop that the job alone has not: %v", f)
			}
			return
		}
		require.NoError(t, err)
		require.Equal(t, alone.Pieces, both.Pieces)
		require.Equal(t, alone.Name, both.Name)
		require.GreaterOrEqual(t, len(both.Goods), len(alone.Goods))
		for i, g := range alone.Goods {
			require.Equal(t, g.ID, both.Goods[i].ID)
			require.Equal(t, g.Price, both.Goods[i].Price)
		}
		for _, e := range alone.Prices.Entries() {
			same, err := both.Prices.Entry(e.Code)
			require.NoError(t, err)
			require.Equal(t, e.Price, same.Price)
		}
	})
}

// A shop may be written in Go, or changed there.
func TestShopInGo(t *testing.T) {
	shop := shopOfText(t, shopFile)
	shop.Letterhead = &Party{Name: "Other"}
	s, err := shop.ReadSpec(strings.NewReader(ownJob))
	require.NoError(t, err)
	assert.Equal(t, "Other", s.Shop.Name)
	assert.Equal(t, shop.Goods[:1], s.Goods)

	s, err = Shop{Letterhead: &Party{Name: "Other"}}.ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	want, err := ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	want.Shop = &Party{Name: "Other"}
	assert.Equal(t, want, s)
}

// A price list of its own lies over that of the shop file; its faults are told by
// rows.
func TestPriceListBesideShop(t *testing.T) {
	const list = "code,kind,description,price\ntack,thread and sundries,tacks,0.02 %s/piece\ngimp,thread and sundries,gimp,1.10 USD/yd\n"
	prices, err := cost.ReadPriceListCSV(strings.NewReader(strings.Replace(list, "%s", "USD", 1)))
	require.NoError(t, err)
	shop, err := shopOfText(t, shopFile).WithPrices(prices)
	require.NoError(t, err)
	s, err := shop.ReadSpec(strings.NewReader(ownJob))
	require.NoError(t, err)
	for code, want := range map[string]string{"cord": "0.12 USD/yd", "tack": "0.02 USD/piece", "gimp": "1.10 USD/yd"} {
		e, err := s.Prices.Entry(code)
		require.NoError(t, err)
		assert.Equal(t, want, e.Price.String())
	}
	assert.Equal(t, shop.Quote.Taxes, s.Quote.Taxes)

	prices, err = cost.ReadPriceListCSV(strings.NewReader(strings.Replace(list, "%s", "EUR", 1)))
	require.NoError(t, err)
	shop, err = shopOfText(t, shopFile).WithPrices(prices)
	require.NoError(t, err)
	_, err = shop.Read(t.Context(), strings.NewReader(ownJob), quick)
	require.ErrorContains(t, err, "in the price list, line 2: prices[0].price: ")

	alone, err := Shop{}.WithPrices(prices)
	require.NoError(t, err)
	s, err = alone.ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	assert.Equal(t, prices, s.Prices)
}

// What a shop does where a job does not say goes into its cushions, and no further.
func TestDefaultsOfCushions(t *testing.T) {
	const job = `{"schema": "coverwright/job/1", "name": "r", "currency": "USD", "goods": [{"id": "c", "kind": "roll", "name": "cloth", "material": "woven", "price": "60 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "cushions": [{"name": "a", "width": "20 in", "depth": "20 in", "thickness": "4 in", "top": "c"MORE, "foam": {"use": "seat", "duty": "normal", "base": "board", "price": "3 USD/bd ft"}}]}],
		"quote": {"labour_rate": "50 USD/h"}, "defaults": {"take_up": "1 in", "facing": true}}`
	for more, want := range map[string]unit.Length{``: unit.Inch, `, "take_up": "0 in"`: 0, `, "fit": "neutral fit"`: 0, `, "fit": "snug fit"`: unit.Inch} {
		o, err := read(t, strings.Replace(job, "MORE", more, 1))
		require.NoError(t, err, more)
		assert.Equal(t, want, o.Foam[0].TakeUp, more)
		assert.True(t, o.Facing)
	}
	for bad, field := range map[string]unit.Path{`"take_up": "-1 in"`: "defaults.take_up", `"least": "500 in"`: "defaults.least", `"facing": "left"`: "defaults.facing", `"price_days": 0`: "defaults.price_days"} {
		_, err := read(t, strings.Replace(strings.Replace(job, "MORE", "", 1), `"take_up": "1 in", "facing": true`, bad, 1))
		var in *unit.InputError
		require.ErrorAs(t, err, &in, bad)
		assert.Equal(t, field, in.Field, bad)
	}
}
