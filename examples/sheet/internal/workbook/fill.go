package workbook

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// Prefixes of the defined names that Fill knows: cells of the shop that are
// read, and cells that are written.
const (
	readPrefix  = "shop_"
	writePrefix = "fill_"
)

// Bounds of a workbook and of the ranges in it.
const (
	mostBytes    = 64 << 20
	mostUnpacked = 256 << 20
	mostRows     = 5000
)

// known is a name with what it means. A name that ends in GOODS has one for
// each id of goods in the job, with _ for whatever is no letter or digit.
type known struct{ name, help string }

var readNames = []known{
	{"labour_rate", "price of an hour, in place of the job's rate"},
	{"markup", "markup on goods and foam, 0.25 or 25 %"},
	{"contingency", "share added to all other lines"},
	{"price_GOODS", "price of goods, for the unit the job prices them by"},
}

var writeNames = []known{
	{"job", "name of the job"},
	{"subtotal", "all lines before discount and tax"},
	{"discount", "discounts before tax"},
	{"net", "price before tax"},
	{"tax", "all taxes"},
	{"total", "price with tax"},
	{"deposit", "the first payment"},
	{"hours", "hours at the bench"},
	{"board_feet", "board feet of foam"},
	{"buy_GOODS", "goods to buy, in the unit of their price"},
	{"hides_GOODS", "hides to buy"},
	{"cuts", "range: piece, part, goods, count, cut width, cut length, area; one row for each cut"},
	{"lines", "range: line, quantity, amount; one row for each line of the quote"},
	{"purchases", "range: goods, quantity, unit, cost; one row for each kind of goods"},
}

// NamesHelp lists the names a workbook may define.
func NamesHelp() string {
	var b strings.Builder
	b.WriteString("Read, where the cell is not empty:\n")
	for _, k := range readNames {
		fmt.Fprintf(&b, "  %-20s %s\n", readPrefix+k.name, k.help)
	}
	b.WriteString("Written:\n")
	for _, k := range writeNames {
		fmt.Fprintf(&b, "  %-20s %s\n", writePrefix+k.name, k.help)
	}
	b.WriteString("GOODS is the id of goods in the job file, with _ for anything but letters and digits.\n")
	return b.String()
}

// ErrWorkbook says a workbook cannot be filled in.
var ErrWorkbook = errors.New("workbook cannot be filled in")

func refuse(name, format string, args ...any) error {
	return fmt.Errorf("%w: %s %s", ErrWorkbook, name, fmt.Sprintf(format, args...))
}

// area is the cell or range a name stands for.
type area struct {
	sheet                      string
	column, row, columns, rows int
}

func (a area) cell(column, row int) string { return at(a.column+column, a.row+row) }

// Fill works a job out with the rates and prices of a shop's own workbook and
// writes the results into it, by defined names. Nothing else is touched, but
// that stored results of formulas are dropped, so that the next program that
// opens it works them out again. It says what was read and written.
func Fill(ctx context.Context, data, jobFile []byte, w io.Writer, jo job.Options, o Options) (report []string, err error) {
	// The workbook comes from anywhere; a fault in reading it is an error.
	defer func() {
		if p := recover(); p != nil {
			report, err = nil, fmt.Errorf("%w: damaged file", ErrWorkbook)
		}
	}()
	f, names, err := open(data)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read; what is written goes to w
	if len(names) == 0 {
		return nil, refuse("no name", "beginning with %s or %s is defined in it", readPrefix, writePrefix)
	}
	changed, report, err := withRates(f, names, jobFile)
	if err != nil {
		return nil, err
	}
	order, err := job.Read(ctx, bytes.NewReader(changed), jo)
	if err != nil {
		return nil, fmt.Errorf("the job, with the figures of the workbook:\n%w", err)
	}
	var spec job.Spec
	if err := json.Unmarshal(changed, &spec); err != nil {
		return nil, err
	}
	values, err := results(spec, order, measuresOf(o.Metric))
	if err != nil {
		return nil, err
	}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if key, ok := strings.CutPrefix(name, writePrefix); ok {
			rows, ok := values[key]
			if !ok {
				return nil, refuse(name, "is not known; known are %s", strings.Join(slices.Sorted(maps.Keys(values)), ", "))
			}
			if err := put(f, name, names[name], rows); err != nil {
				return nil, err
			}
			report = append(report, "wrote "+name)
		}
	}
	if err := f.UpdateLinkedValue(); err != nil {
		return nil, err
	}
	full := true
	if err := f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &full}); err != nil {
		return nil, err
	}
	return report, f.Write(w)
}

// open reads a workbook and the names in it that Fill knows.
func open(data []byte) (*excelize.File, map[string]area, error) {
	if len(data) > mostBytes {
		return nil, nil, fmt.Errorf("%w: larger than 64 MiB", ErrWorkbook)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostUnpacked})
	if err != nil {
		return nil, nil, fmt.Errorf("%w: %w", ErrWorkbook, err)
	}
	names := map[string]area{}
	for _, d := range f.GetDefinedName() {
		name := strings.ToLower(d.Name)
		if !strings.HasPrefix(name, readPrefix) && !strings.HasPrefix(name, writePrefix) {
			continue
		}
		a, err := locate(f, d.Name, d.RefersTo)
		if err == nil {
			if _, twice := names[name]; twice {
				err = refuse(d.Name, "is defined twice")
			}
		}
		if err != nil {
			return nil, nil, errors.Join(err, f.Close())
		}
		names[name] = a
	}
	return f, names, nil
}

// reference is a cell or range on one sheet: Sheet1!$B$2, 'My sheet'!$A$1:$C$9.
var reference = regexp.MustCompile(`^=?(?:'((?:[^']|'')+)'|([^'!:]+))!\$?([A-Za-z]{1,3})\$?([0-9]{1,7})(?::\$?([A-Za-z]{1,3})\$?([0-9]{1,7}))?$`)

func locate(f *excelize.File, name, refersTo string) (area, error) {
	m := reference.FindStringSubmatch(strings.TrimSpace(refersTo))
	if m == nil {
		return area{}, refuse(name, "refers to %q: one cell or one range of a sheet is wanted", refersTo)
	}
	sheet := m[2]
	if m[1] != "" {
		sheet = strings.ReplaceAll(m[1], "''", "'")
	}
	if i, err := f.GetSheetIndex(sheet); err != nil || i < 0 {
		return area{}, refuse(name, "refers to a sheet %q that is not there", sheet)
	}
	c1, r1, err := excelize.CellNameToCoordinates(m[3] + m[4])
	if err != nil {
		return area{}, refuse(name, "refers to %q: %v", refersTo, err)
	}
	c2, r2 := c1, r1
	if m[5] != "" {
		if c2, r2, err = excelize.CellNameToCoordinates(m[5] + m[6]); err != nil {
			return area{}, refuse(name, "refers to %q: %v", refersTo, err)
		}
	}
	a := area{sheet, min(c1, c2), min(r1, r2), max(c1, c2) - min(c1, c2) + 1, max(r1, r2) - min(r1, r2) + 1}
	if a.rows > mostRows || a.columns > 100 {
		return area{}, refuse(name, "is a range of %d rows and %d columns; %d rows and 100 columns at most", a.rows, a.columns, mostRows)
	}
	return a, nil
}

// withRates gives the job file with the rates and prices of the workbook.
func withRates(f *excelize.File, names map[string]area, file []byte) ([]byte, []string, error) {
	d := json.NewDecoder(bytes.NewReader(file))
	d.UseNumber()
	var j map[string]any
	if err := d.Decode(&j); err != nil {
		return file, nil, nil //nolint:nilerr // the job is read again, and its faults told with their lines
	}
	quote, _ := j["quote"].(map[string]any) //nolint:errcheck // nil when it is missing, which the job's reader tells
	goods, _ := j["goods"].([]any)          //nolint:errcheck // as above
	currency, _ := j["currency"].(string)   //nolint:errcheck // as above
	var report []string
	for _, name := range slices.Sorted(maps.Keys(names)) {
		key, ok := strings.CutPrefix(name, readPrefix)
		if !ok {
			continue
		}
		x, some, err := readNumber(f, name, names[name])
		if err != nil {
			return nil, nil, err
		}
		set, err := setter(key, quote, goods, currency)
		if err != nil {
			return nil, nil, err
		}
		if !some || set == nil {
			continue
		}
		set(strconv.FormatFloat(x, 'f', -1, 64))
		report = append(report, "read "+name)
	}
	if len(report) == 0 {
		return file, nil, nil
	}
	changed, err := json.MarshalIndent(j, "", "  ")
	return changed, report, err
}

// setter gives what puts a figure into the job; nil when the job is too broken
// to take it.
func setter(key string, quote map[string]any, goods []any, currency string) (func(string), error) {
	var ids []string
	if id, ok := strings.CutPrefix(key, "price_"); ok {
		for _, g := range goods {
			m, ok := g.(map[string]any)
			if !ok {
				continue
			}
			own, _ := m["id"].(string)      //nolint:errcheck // empty when it is no text
			price, _ := m["price"].(string) //nolint:errcheck // as above
			_, per, _ := strings.Cut(price, "/")
			ids = append(ids, name("shop_price_", strings.ToLower(own)))
			if strings.EqualFold(name("", own), id) {
				return func(x string) { m["price"] = x + " " + currency + "/" + per }, nil
			}
		}
		return nil, refuse(readPrefix+key, "names no goods of the job; it has %s", strings.Join(ids, ", "))
	}
	if quote == nil {
		return nil, nil
	}
	switch key {
	case "labour_rate":
		return func(x string) {
			delete(quote, "shop_rate")
			quote["labour_rate"] = x + " " + currency + "/h"
		}, nil
	case "markup", "contingency":
		return func(x string) { quote[key] = x }, nil
	}
	return nil, refuse(readPrefix+key, "is not known; see sheet fill -names")
}

// readNumber reads a number from one cell; some is false for an empty one.
func readNumber(f *excelize.File, name string, a area) (x float64, some bool, err error) {
	if a.rows > 1 || a.columns > 1 {
		return 0, false, refuse(name, "is a range; one cell is wanted")
	}
	cell := a.cell(0, 0)
	formula, err := f.GetCellFormula(a.sheet, cell)
	if err != nil {
		return 0, false, refuse(name, "cannot be read: %v", err)
	}
	text, err := f.GetCellValue(a.sheet, cell, excelize.Options{RawCellValue: true})
	if err != nil {
		return 0, false, refuse(name, "cannot be read: %v", err)
	}
	kind, err := f.GetCellType(a.sheet, cell)
	if err != nil {
		return 0, false, refuse(name, "cannot be read: %v", err)
	}
	switch {
	case strings.TrimSpace(text) == "" && formula != "":
		return 0, false, refuse(name, "has a formula whose result is not stored; save the workbook in a spreadsheet first")
	case strings.TrimSpace(text) == "":
		return 0, false, nil
	case kind == excelize.CellTypeError:
		return 0, false, refuse(name, "holds the error %s", text)
	case kind != excelize.CellTypeUnset && kind != excelize.CellTypeNumber:
		return 0, false, refuse(name, "holds %q; a number is wanted", text)
	}
	x, err = strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0, false, refuse(name, "holds %q; a number is wanted", text)
	}
	// The noise of a computed cell is no part of a price.
	return math.Round(x*1e8) / 1e8, true, nil
}

// results gives what can be written, as rows of cells.
func results(spec job.Spec, order job.WorkOrder, m measures) (map[string][][]any, error) {
	one := func(v any) [][]any { return [][]any{{v}} }
	q := order.Quote
	out := map[string][][]any{
		"job": one(order.Name), "subtotal": one(figure(q.Subtotal)), "discount": one(figure(q.Discount)), "net": one(figure(q.Net)),
		"tax": one(figure(q.Tax)), "total": one(figure(q.Total)),
	}
	deposit := q.Total
	if len(q.Payments) > 0 {
		deposit = q.Payments[0].Amount
	}
	out["deposit"] = one(figure(deposit))
	var hours unit.Duration
	for _, b := range order.Labour {
		hours += b.Time
	}
	out["hours"] = one(hours.Hours())
	var volume unit.Volume
	for _, f := range order.Foam {
		if f.PricedBy != job.BySheet {
			volume += f.Volume
		}
	}
	for _, x := range order.Sheets {
		volume += x.Volume
	}
	out["board_feet"] = one(volume.BoardFeet())
	out["cuts"] = [][]any{}
	for _, c := range order.Cuts {
		out["cuts"] = append(out["cuts"], []any{c.Piece, c.Part, c.Goods, c.Count, m.of(c.Cut.Width), m.of(c.Cut.Length), m.ofArea(c.Area)})
	}
	out["lines"] = [][]any{}
	for _, l := range q.Lines {
		quantity, _ := l.ShopQuantity()
		out["lines"] = append(out["lines"], []any{l.What, quantity, figure(l.Amount)})
	}
	out["purchases"] = [][]any{}
	for _, g := range spec.Goods {
		buy, hides := 0.0, 0
		price := pricing(g)
		for _, p := range order.Purchases {
			if p.Goods != g.ID {
				continue
			}
			if buy = float64(p.Length) / price.quanta; g.Kind == job.HideGoods {
				buy = float64(p.Area) / price.quanta
			}
			hides = p.Hides
			out["purchases"] = append(out["purchases"], []any{p.Name, buy, price.text, figure(p.Cost)})
		}
		id := strings.ToLower(name("", g.ID))
		out["buy_"+id] = one(buy)
		if g.Kind == job.HideGoods {
			out["hides_"+id] = one(hides)
		}
	}
	return out, nil
}

// put writes rows into a cell or range. The rest of a range is emptied, so
// that nothing is left of an earlier job. A cell with a formula is not
// overwritten.
func put(f *excelize.File, name string, a area, rows [][]any) error {
	if len(rows) > a.rows {
		return refuse(name, "has %d rows; the job needs %d", a.rows, len(rows))
	}
	columns := a.columns
	if len(rows) > 0 {
		columns = min(columns, len(rows[0]))
	}
	for r := range a.rows {
		for c := range columns {
			cell := a.cell(c, r)
			formula, err := f.GetCellFormula(a.sheet, cell)
			if err != nil {
				return refuse(name, "cannot be written: %v", err)
			}
			if formula != "" {
				return refuse(name, "would overwrite the formula in %s %s", a.sheet, cell)
			}
			var v any
			if r < len(rows) {
				v = rows[r][c]
			}
			if err := putCell(f, a.sheet, cell, v); err != nil {
				return refuse(name, "cannot be written: %v", err)
			}
		}
	}
	return nil
}

func putCell(f *excelize.File, sheet, cell string, v any) error {
	switch x := v.(type) {
	case string:
		// A text stays a text, whatever it begins with.
		return f.SetCellStr(sheet, cell, x)
	case float64:
		return f.SetCellFloat(sheet, cell, x, -1, 64)
	case int:
		return f.SetCellInt(sheet, cell, int64(x))
	}
	old, err := f.GetCellValue(sheet, cell)
	if err != nil || old == "" {
		return err
	}
	return f.SetCellValue(sheet, cell, nil)
}
