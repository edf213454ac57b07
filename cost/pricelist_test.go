package cost_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

const listCSV = `code,kind,description,price,uplift,tax class
CLOTH-12,goods,"cloth, patterned",42.00 USD/yd,25 % markup,
HIDE-3,goods,leather,9.80 USD/sq ft,20 % margin,
FOAM-28,foam,seat foam,5.40 USD/bd ft,,
WAD,foam,wadding,18 USD/5 lb,,
BENCH,labour,bench work,64.55 USD/h,,repair labour
ZIP,thread and sundries,zip,3.20 USD/piece,,
OWN,customer's own material,customer's cloth,0 USD/m,,
`

func readCSV(t testing.TB, s string) cost.PriceList {
	t.Helper()
	l, err := cost.ReadPriceListCSV(strings.NewReader(s))
	require.NoError(t, err)
	return l
}

func TestPriceList(t *testing.T) {
	t.Parallel()
	l := readCSV(t, listCSV)
	require.Len(t, l.Entries(), 7)
	yard, err := cost.Find[unit.Length](l, "CLOTH-12")
	require.NoError(t, err)
	require.Equal(t, "42.00 USD/yd", yard.String())
	foot, err := cost.Find[unit.Area](l, "HIDE-3")
	require.NoError(t, err)
	require.Equal(t, "9.80 USD/sq ft", foot.String())
	board, err := cost.Find[unit.Volume](l, "FOAM-28")
	require.NoError(t, err)
	require.Equal(t, "5.40 USD/bd ft", board.String())
	pound, err := cost.Find[unit.Mass](l, "WAD")
	require.NoError(t, err)
	require.Equal(t, "18.00 USD/5 lb", pound.String())
	hour, err := cost.Find[unit.Duration](l, "BENCH")
	require.NoError(t, err)
	require.Equal(t, "64.55 USD/h", hour.String())
	piece, err := cost.Find[cost.Pieces](l, "ZIP")
	require.NoError(t, err)
	require.Equal(t, "3.20 USD/piece", piece.String())
	_, err = cost.Find[unit.Area](l, "CLOTH-12")
	require.ErrorIs(t, err, unit.ErrUnknownUnit)
	_, err = cost.Find[unit.Area](l, "NONE")
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = cost.ItemOf(l, "NONE", unit.Yard)
	require.ErrorIs(t, err, unit.ErrUnknown)

	it, err := cost.ItemOf(l, "BENCH", 2*unit.Hour)
	require.NoError(t, err)
	require.Equal(t, cost.Item[unit.Duration]{ID: "BENCH", Kind: cost.Labour, What: "bench work", Quantity: 2 * unit.Hour, Price: hour, TaxClass: "repair labour"}, it)

	var csv bytes.Buffer
	require.NoError(t, l.WriteCSV(&csv))
	require.Equal(t, l, readCSV(t, csv.String()))
	text, err := json.Marshal(l)
	require.NoError(t, err)
	var back cost.PriceList
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, l, back)
}

// The same list as spreadsheets save it elsewhere: a byte order mark,
// semicolons or tabs, other column order, capitals, CRLF.
func TestPriceListDialects(t *testing.T) {
	t.Parallel()
	want := readCSV(t, "code,kind,description,price\nA,goods,cloth,38.50 EUR/m\n")
	for _, s := range []string{
		"\ufeffcode;kind;description;price\r\nA;goods;cloth;38.50 EUR/m\r\n",
		"code\tkind\tdescription\tprice\nA\tgoods\tcloth\t38.50 EUR/m\n",
		"Price,Code,Kind,Description\n38.50 EUR/m,A,goods,cloth",
		"code,kind,description,price,uplift\n A , goods , cloth , 38.50 EUR/m ,\n",
	} {
		require.Equal(t, want, readCSV(t, s), "%q", s)
	}
	require.Empty(t, readCSV(t, "code,kind,description,price\n").Entries())
}

func TestPriceListFaults(t *testing.T) {
	t.Parallel()
	head := "code,kind,description,price,uplift\n"
	for _, tc := range []struct {
		name, text string
		row        int
		column     string
		err        error
	}{
		{"empty file", "", 1, "", unit.ErrRequired},
		{"unknown column", "code,kind,description,cost\n", 1, "cost", unit.ErrUnknown},
		{"doubled column", "code,kind,description,price,price\n", 1, "price", unit.ErrRange},
		{"missing column", "code,kind,price\n", 1, "description", unit.ErrRequired},
		{"missing cell", head + "A,goods,cloth,42 USD/yd\n", 2, "", unit.ErrSyntax},
		{"no code", head + ",goods,cloth,42 USD/yd,\n", 2, "code", unit.ErrRequired},
		{"no description", head + "A,goods,,42 USD/yd,\n", 2, "description", unit.ErrRequired},
		{"no price", head + "A,goods,cloth,,\n", 2, "price", unit.ErrRequired},
		{"kind", head + "A,goods,cloth,42 USD/yd,\nB,clothes,cloth,42 USD/yd,\n", 3, "kind", unit.ErrUnknown},
		{"doubled code", head + "A,goods,cloth,42 USD/yd,\nA,goods,cloth,43 USD/yd,\n", 3, "code", unit.ErrRange},
		{"price without unit", head + "A,goods,cloth,42 USD,\n", 2, "price", unit.ErrMissingUnit},
		{"price without currency", head + "A,goods,cloth,42/yd,\n", 2, "price", unit.ErrSyntax},
		{"decimal comma", head + "A,goods,cloth,\"42,50 EUR/m\",\n", 2, "price", unit.ErrDecimalComma},
		{"unknown currency", head + "A,goods,cloth,42 QQQ/m,\n", 2, "price", unit.ErrUnknown},
		{"unknown unit", head + "A,goods,cloth,42 USD/parsec,\n", 2, "price", unit.ErrUnknownUnit},
		{"negative price", head + "A,goods,cloth,-42 USD/yd,\n", 2, "price", unit.ErrRange},
		{"uplift", head + "A,goods,cloth,42 USD/yd,25\n", 2, "uplift", unit.ErrSyntax},
		{"margin of 100 %", head + "A,goods,cloth,42 USD/yd,100 % margin\n", 2, "uplift", unit.ErrRange},
		{"a quote that never ends", head + "A,goods,\"cloth,42 USD/yd,\n", 2, "", nil},
		{"too long", head + "A,goods," + strings.Repeat("x", 161) + ",42 USD/yd,\n", 2, "description", unit.ErrRange},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := cost.ReadPriceListCSV(strings.NewReader(tc.text))
			var list *cost.ListError
			require.ErrorAs(t, err, &list)
			var cell *cost.CellError
			require.ErrorAs(t, err, &cell)
			require.Equal(t, tc.row, cell.Row)
			require.Equal(t, tc.column, cell.Column)
			if tc.err != nil {
				require.ErrorIs(t, err, tc.err)
			}
			require.Contains(t, err.Error(), fmt.Sprintf("row %d", tc.row))
		})
	}
}

// How things are sold may be left out, column by column, and reads alike from
// CSV and JSON.
func TestPriceListOfWhatIsSold(t *testing.T) {
	t.Parallel()
	l := readCSV(t, `code,kind,description,price,step,pack,least,cut charge,freight,supplier,dated,sells
webbing,thread and sundries,jute webbing,0.90 USD/yd,1/4 yd,72 yd,1 yd,2.00 USD,14.00 USD,Mill & Sons,2026-11-02,as listed
staple,thread and sundries,staples,15.00 USD/10000 pieces,,10000 pieces,,,,,,
`)
	e, err := l.Entry("webbing")
	require.NoError(t, err)
	require.Equal(t, []string{"9 in", "2592 in", "36 in", "2.00 USD", "14.00 USD", "Mill & Sons", "2026-11-02", "as listed"},
		[]string{e.Step.String(), e.Pack.String(), e.Least.String(), e.CutCharge.String(), e.Freight.String(), e.Supplier, e.Dated.String(), e.Sells.String()})
	var back cost.PriceList
	require.NoError(t, json.Unmarshal([]byte(`[{"code": "webbing", "kind": "thread and sundries", "description": "jute webbing", "price": "0.90 USD/yd", "step": "1/4 yd",
		"pack": "72 yd", "least": "1 yd", "cut_charge": "2.00 USD", "freight": "14.00 USD", "supplier": "Mill & Sons", "dated": "2026-11-02", "sells": "as listed"},
		{"code": "staple", "kind": "thread and sundries", "description": "staples", "price": "15.00 USD/10000 pieces", "pack": "10000 pieces"}]`), &back))
	require.Equal(t, l, back)

	plain := readCSV(t, "code,kind,description,price\nA,goods,cloth,38.50 EUR/m\n")
	var csv bytes.Buffer
	require.NoError(t, plain.WriteCSV(&csv))
	require.Equal(t, "code,kind,description,price,uplift,tax_class\nA,goods,cloth,38.50 EUR/m,,\n", csv.String(), "a list that says nothing of it is written as ever")

	_, err = cost.ReadPriceListCSV(strings.NewReader(`code,kind,description,price,step,pack,dated,sells
A,goods,cloth,42 USD/yd,2 sq ft,1 yd,2026-02-30,dear
B,goods,cloth,42 USD/yd,1 yd,2 ft,2026-11-02,
`))
	var list *cost.ListError
	require.ErrorAs(t, err, &list)
	var at []string
	for _, c := range list.Cells {
		at = append(at, fmt.Sprintf("%d %s", c.Row, c.Column))
	}
	require.Equal(t, []string{"2 step", "2 dated", "2 sells", "3 pack"}, at)
}

// All faults come together, but not more than a reader can take in.
func TestPriceListManyFaults(t *testing.T) {
	t.Parallel()
	text := "code,kind,description,price\nONE,goods,cloth,42 USD\n" // one fault, then two a row
	for i := range 100 {
		text += fmt.Sprintf("C%d,clothes,cloth,42 USD\n", i)
	}
	_, err := cost.ReadPriceListCSV(strings.NewReader(text))
	var list *cost.ListError
	require.ErrorAs(t, err, &list)
	require.Len(t, list.Cells, 20)
	require.Equal(t, 2, list.Cells[0].Row)
	require.Equal(t, "price", list.Cells[0].Column)
	require.Equal(t, 3, list.Cells[1].Row)
	require.Equal(t, "kind", list.Cells[1].Column)
	require.Equal(t, "price", list.Cells[2].Column)
}

func TestPriceListJSONFaults(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name, text string
		row        int
		column     string
		err        error
	}{
		{"number for text", `[{"code": "A", "kind": "goods", "description": "cloth", "price": 42}]`, 1, "price", unit.ErrSyntax},
		{"unknown key", `[{"code": "A", "kind": "goods", "description": "cloth", "price": "42 USD/yd", "colour": "red"}]`, 1, "colour", unit.ErrUnknown},
		{"second row", `[{"code": "A", "kind": "goods", "description": "cloth", "price": "42 USD/yd"}, {"code": "B", "kind": "goods", "description": "cloth", "price": "42 USD"}]`, 2, "price", unit.ErrMissingUnit},
		{"empty object", `[{}]`, 1, "code", unit.ErrRequired},
		{"null", `[null]`, 1, "code", unit.ErrRequired},
	} {
		_, err := cost.ReadPriceListJSON(strings.NewReader(tc.text))
		var cell *cost.CellError
		require.ErrorAs(t, err, &cell, tc.name)
		require.Equal(t, tc.row, cell.Row, tc.name)
		require.Equal(t, tc.column, cell.Column, tc.name)
		require.ErrorIs(t, err, tc.err, tc.name)
	}
	_, err := cost.ReadPriceListJSON(strings.NewReader("[\n  {\"code\": \"A\",\n   \"kind\" \"goods\"}]"))
	require.ErrorIs(t, err, unit.ErrSyntax)
	require.ErrorContains(t, err, "line 3, character 11")
	for _, s := range []string{"", "{}", "42", `["A"]`, "\xff"} {
		_, err := cost.ReadPriceListJSON(strings.NewReader(s))
		require.ErrorIs(t, err, unit.ErrSyntax, s)
	}
}

type brokenReader struct{}

var errBroken = errors.New("the disk is gone")

func (brokenReader) Read([]byte) (int, error) { return 0, errBroken }

func TestPriceListLimits(t *testing.T) {
	t.Parallel()
	_, err := cost.ReadPriceListCSV(brokenReader{})
	require.ErrorIs(t, err, errBroken)
	_, err = cost.ReadPriceListJSON(brokenReader{})
	require.ErrorIs(t, err, errBroken)
	huge := bytes.Repeat([]byte("x"), 8<<20+1)
	_, err = cost.ReadPriceListCSV(bytes.NewReader(huge))
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.ReadPriceListJSON(bytes.NewReader(huge))
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.ReadPriceListCSV(strings.NewReader("code\xff"))
	require.ErrorIs(t, err, unit.ErrSyntax)
}
