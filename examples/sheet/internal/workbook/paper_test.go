package workbook_test

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
)

// said gives all that a sheet shows, a cell a line.
func said(t *testing.T, f *excelize.File, sheet string) string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(strings.Join(r, "\n") + "\n")
	}
	return b.String()
}

// The sheet for the customer is the paper of the library: who, when, what, how much.
func TestTheQuoteSheetIsThePaper(t *testing.T) {
	data := part(t, true)
	_, order := worked(t, data)
	for _, k := range []paper.Kind{0, paper.Estimate, paper.Quotation, paper.WorkOrder, paper.Invoice} {
		p, err := paper.Of(order, k, nil)
		require.NoError(t, err, k)
		book, _ := written(t, data, workbook.Options{As: k})
		f, err := excelize.OpenReader(bytes.NewReader(book))
		require.NoError(t, err)
		text := said(t, f, "Quote")
		low := strings.ToLower(text)
		has := func(what string) {
			t.Helper()
			assert.Contains(t, low, strings.ToLower(what), k)
		}
		has(p.Kind.String() + "\n")
		has(p.Shop.Name)
		has(p.Customer.Name)
		has(p.Says)
		has("job  " + p.Number)
		for _, x := range p.Items {
			has(x.What + "\n")
			has(x.Amount.GroupedAmount())
			if x.Count > 1 {
				has(x.Each.GroupedAmount())
			}
		}
		for _, x := range p.Payments {
			has(x.Name)
			has(x.Amount.GroupedAmount())
		}
		for _, x := range p.Pieces {
			has(strings.Join(append([]string{}, x.Work...), "; "))
		}
		for _, x := range p.Covers {
			has(x.Name)
			has(x.Fibre)
		}
		for _, x := range append(append(append([]string{p.Damage, p.Accept}, p.Minded...), p.NotIncluded...), p.Terms...) {
			has(x)
		}
		assert.Equal(t, p.Accept != "", strings.Contains(text, "signature\n"), k)
		assert.Equal(t, p.Range != nil, strings.Contains(text, "It may come out between"), k)
		has(p.Total.GroupedAmount())
		if s := p.Statement; s != nil {
			has(s.Balance.GroupedAmount())
		}
		require.NoError(t, f.Close())
	}
	spec, order := worked(t, part(t, true))
	order.Invoice = nil
	_, err := workbook.Quote(io.Discard, spec, order, workbook.Options{As: paper.Invoice})
	assert.ErrorContains(t, err, "invoice.issued", "a paper that would not be so")
}

// What a paper is made of: cost, markup and hours are the shop's own.
func TestTheQuoteSheetSaysNothingOfCost(t *testing.T) {
	var j map[string]any
	require.NoError(t, json.Unmarshal(part(t, false), &j))
	q := j["quote"].(map[string]any)
	q["markup"], q["contingency"] = "37.37 %", "6.13 %"
	data, err := json.Marshal(j)
	require.NoError(t, err)
	_, order := worked(t, data)
	for _, o := range []workbook.Options{{}, {Alone: true}} {
		book, _ := written(t, data, o)
		f, err := excelize.OpenReader(bytes.NewReader(book))
		require.NoError(t, err)
		text := said(t, f, "Quote")
		assert.Equal(t, o.Alone, len(f.GetSheetList()) == 1)
		foot, err := f.GetHeaderFooter("Quote")
		require.NoError(t, err)
		assert.Equal(t, o.Alone, strings.HasSuffix(foot.OddFooter, "Page &P of &N"), "others count the pages of all sheets")
		require.NoError(t, f.Close())
		if o.Alone {
			text = strings.ReplaceAll(stored(t, book), "markup-compatibility", "") // the name of a standard
			assert.NotContains(t, text, "<f>", "figures, no formulas")
		}
		for _, word := range []string{"cost", "markup", "margin", "profit", "contingency", "hour", "wage", "overhead", "37.37", "0.3737", "6.13", "0.0613"} {
			assert.False(t, regexp.MustCompile(`(?i)\b`+regexp.QuoteMeta(word)).MatchString(text), word)
		}
		for _, l := range order.Quote.Lines {
			if !l.Cost.IsZero() && len(order.Quote.Groups) > 1 {
				assert.NotContains(t, text, ">"+l.Cost.Amount()+"<", l.What)
				assert.NotContains(t, text, "\n"+l.Cost.GroupedAmount()+"\n", l.What)
			}
		}
	}
}

// stored gives the texts and sheets of a workbook as they are stored.
func stored(t *testing.T, book []byte) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	require.NoError(t, err)
	var b strings.Builder
	for _, f := range z.File {
		if !strings.Contains(f.Name, "sheet") && !strings.Contains(f.Name, "sharedStrings") && !strings.Contains(f.Name, "workbook") {
			continue
		}
		r, err := f.Open()
		require.NoError(t, err)
		_, err = io.Copy(&b, r) //nolint:gosec // our own file
		require.NoError(t, err)
	}
	return b.String()
}

// A program that only shows has every result, and as a number.
func TestResultsAreStoredAsNumbers(t *testing.T) {
	book, checks := written(t, part(t, false), workbook.Options{})
	text := stored(t, book)
	cells := regexp.MustCompile(`<c [^>]*>(?:<f>[^<]*</f>)(?:<v>[^<]*</v>)?</c>`).FindAllString(text, -1)
	numbers, words := 0, 0
	for _, c := range cells {
		if strings.Contains(c, "IF(out_of_date=1,&#34;") { // a line that says so
			if strings.HasSuffix(c, "<v>Total</v></c>") {
				words++
			}
			continue
		}
		numbers++
		assert.NotContains(t, c, `t="`)
		_, v, _ := strings.Cut(c, "<v>")
		v, _, _ = strings.Cut(v, "</v>")
		_, err := strconv.ParseFloat(v, 64)
		assert.NoError(t, err, c)
	}
	assert.GreaterOrEqual(t, numbers, len(checks))
	assert.Equal(t, 1, words, "the word beside the total")
}

// Shaded cells may be changed, to what they can be, and nothing else; they are the job,
// and each says what it is.
func TestOnlyTheJobMayBeChanged(t *testing.T) {
	book, _ := written(t, part(t, false), workbook.Options{})
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	ours := []string{jobtable.JobSheet, jobtable.TermsSheet, jobtable.PiecesSheet, jobtable.PanelsSheet, jobtable.CushionsSheet, jobtable.PartsSheet, jobtable.SeamsSheet,
		jobtable.GoodsSheet, jobtable.StockSheet, jobtable.FillingsSheet, jobtable.LabourSheet, jobtable.FindingsSheet, jobtable.OptionsSheet}
	shaded := 0
	for _, s := range f.GetSheetList() {
		if hidden, err := f.GetSheetVisible(s); err != nil || !hidden {
			continue
		}
		p, err := f.GetSheetProtection(s)
		require.NoError(t, err)
		assert.Empty(t, p.Password)
		limits, err := f.GetDataValidations(s)
		require.NoError(t, err)
		limited := map[string]*excelize.DataValidation{}
		for _, v := range limits {
			for _, area := range strings.Fields(v.Sqref) {
				for _, c := range cellsOf(t, area) {
					assert.NotContains(t, limited, c, "%s: one limit", s)
					limited[c] = v
				}
			}
		}
		rows, err := f.GetRows(s)
		require.NoError(t, err)
		for r, row := range rows {
			for c, text := range row {
				cell := at(c+1, r+1)
				id, err := f.GetCellStyle(s, cell)
				require.NoError(t, err)
				look, err := f.GetStyle(id)
				require.NoError(t, err)
				open := look.Protection != nil && !look.Protection.Locked
				assert.Equal(t, open, firstOf(look.Fill.Color) == "FFF6D6", "%s %s", s, cell) //nolint:misspell // the library's name
				if look.CustomNumFmt != nil {
					assert.NotRegexp(t, `\.#*%`, *look.CustomNumFmt, "25.%%")
					assert.NotRegexp(t, `\.#+$`, *look.CustomNumFmt, "1500.")
				}
				if !open || text == "" {
					continue
				}
				shaded++
				assert.Contains(t, ours, s)
				formula, err := f.GetCellFormula(s, cell)
				require.NoError(t, err)
				assert.Empty(t, formula)
				v := limited[cell]
				require.NotNil(t, v, "%s %s", s, cell)
				assert.NotNil(t, v.PromptTitle, "%s %s says what it is", s, cell)
				if v.Type == "decimal" || v.Type == "whole" {
					low, high, x := number(t, v.Formula1), number(t, v.Formula2), rawNumber(t, f, s, cell)
					assert.LessOrEqual(t, low, x)
					assert.LessOrEqual(t, x, high)
				}
			}
		}
	}
	assert.Greater(t, shaded, 100)
}

// cellsOf lists the cells of a range.
func cellsOf(t *testing.T, area string) []string {
	t.Helper()
	first, last, two := strings.Cut(area, ":")
	if !two {
		return []string{area}
	}
	x1, y1, err := excelize.CellNameToCoordinates(first)
	require.NoError(t, err)
	x2, y2, err := excelize.CellNameToCoordinates(last)
	require.NoError(t, err)
	var out []string
	for x := x1; x <= x2; x++ {
		for y := y1; y <= y2; y++ {
			out = append(out, at(x, y))
		}
	}
	return out
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

func rawNumber(t *testing.T, f *excelize.File, sheet, cell string) float64 {
	t.Helper()
	v, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	return number(t, v)
}

// Formulas have no figures of the library's tables in them: those are cells of their own.
func TestTablesAreNoLiterals(t *testing.T) {
	data := []byte(`{"schema": "coverwright/job/1", "name": "bench", "currency": "USD",
		"goods": [{"id": "hide", "kind": "hide", "name": "brown hide", "material": "leather", "price": "9.00 USD/sq ft", "hide_area": "50 sq ft", "buy_by": "rule of thumb"}],
		"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "hide", "width": "40 in", "length": "30 in", "edges": "raw"}]}],
		"quote": {"labour_rate": "60.00 USD/h", "class": 3}}`)
	_, order := worked(t, data)
	a, err := order.Quote.Class.Accuracy()
	require.NoError(t, err)
	book, checks := written(t, data, workbook.Options{})
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	waste := 0
	for _, c := range checks {
		formula, err := f.GetCellFormula(c.Sheet, c.Cell)
		require.NoError(t, err)
		for _, x := range []float64{0.33, 0.67, 1 - float64(a.Low), 1 + float64(a.High), float64(a.Low), float64(a.High)} {
			assert.NotRegexp(t, `[^0-9.]`+regexp.QuoteMeta(fmt.Sprint(x))+`([^0-9]|$)`, formula, "%s %s", c.Sheet, c.Cell)
		}
		if strings.Contains(formula, "waste_") {
			waste++
		}
	}
	assert.Positive(t, waste)
}
