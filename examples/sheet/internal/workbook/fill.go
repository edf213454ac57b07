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
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
	"github.com/coverwright/coverwright/unit"
)

// Prefixes of the defined names that Fill knows: cells of the shop that are
// read, and cells that are written.
const (
	readPrefix  = "shop_"
	writePrefix = "fill_"
)

// Bounds of a range.
const (
	mostRows    = 5000
	mostColumns = 100
)

// known is a name with what it means. A name that ends in GOODS has one for
// each id of goods in the job, with _ for whatever is no letter or digit.
type known struct{ name, help string }

var readNames = []known{
	{"labour_rate", "price of an hour, in place of the job's rate"},
	{"markup", "markup on goods and foam, as 25 % or 0.25"},
	{"contingency", "share added to all other lines, as 5 % or 0.05"},
	{"price_GOODS", "price of goods, for the unit the job prices them by"},
}

var writeNames = []known{
	{"job", "name of the job"},
	{"subtotal", "all lines before discount and tax"},
	{"discount", "discounts before tax"},
	{"net", "price before tax"},
	{"tax", "all taxes"},
	{"total", "price with tax"},
	{"deposit", "the first payment where there are several, 0 where the whole is paid at once"},
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

// place is the cell or range a name stands for.
type place struct {
	sheet string
	xlsx.Area
}

// Fill works a job out with the rates and prices of a shop's own workbook and
// writes the results into it, by defined names. Nothing else is touched, but
// that stored results of formulas are dropped, so that the next program that
// opens it works them out again. It says what was read and written.
func Fill(ctx context.Context, data, jobFile []byte, w io.Writer, jo job.Options, o Options) (report []string, err error) {
	book, names, err := open(data)
	if err != nil {
		return nil, err
	}
	figures, err := readFigures(book, names)
	if err != nil {
		return nil, err
	}
	changed, report, err := withRates(names, figures, jobFile)
	if err != nil {
		return nil, err
	}
	order, err := job.Read(ctx, bytes.NewReader(changed), jo)
	if err != nil {
		return nil, fmt.Errorf("the job, with the figures of the workbook:\n%w", err)
	}
	spec, err := job.ReadSpec(bytes.NewReader(changed))
	if err != nil {
		return nil, err
	}
	values := results(spec, order, measuresOf(o.Metric))
	cells := writing{cells: map[string]map[xlsx.Cell]any{}, names: map[string]map[xlsx.Cell]string{}}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if key, ok := strings.CutPrefix(name, writePrefix); ok {
			rows, ok := values[key]
			if !ok {
				return nil, refuse(name, "is not known; known are %s", strings.Join(slices.Sorted(maps.Keys(values)), ", "))
			}
			if err := cells.put(name, names[name], rows); err != nil {
				return nil, err
			}
			report = append(report, "wrote "+name)
		}
	}
	return report, cells.write(book, w)
}

// open opens a workbook and finds the names in it that Fill knows.
func open(data []byte) (*xlsx.Book, map[string]place, error) {
	book, err := xlsx.Open(data)
	if err != nil {
		return nil, nil, fmt.Errorf("%w: %w", ErrWorkbook, err)
	}
	names := map[string]place{}
	for _, d := range book.Names() {
		name := strings.ToLower(d.Name)
		if !strings.HasPrefix(name, readPrefix) && !strings.HasPrefix(name, writePrefix) {
			continue
		}
		if _, twice := names[name]; twice {
			return nil, nil, refuse(d.Name, "is defined twice")
		}
		if names[name], err = locate(book, d); err != nil {
			return nil, nil, err
		}
	}
	if len(names) == 0 {
		return nil, nil, refuse("no name", "beginning with %s or %s is defined in it", readPrefix, writePrefix)
	}
	return book, names, nil
}

func locate(book *xlsx.Book, d xlsx.Name) (place, error) {
	sheet, a, ok := xlsx.ParseReference(d.RefersTo)
	if !ok {
		return place{}, refuse(d.Name, "refers to %.100q: one cell or one range of a sheet is wanted", d.RefersTo)
	}
	own, ok := book.Sheet(sheet)
	if !ok {
		return place{}, refuse(d.Name, "refers to a sheet %q that is not there", sheet)
	}
	if a.Rows > mostRows || a.Columns > mostColumns {
		return place{}, refuse(d.Name, "is a range of %d rows and %d columns; %d rows and %d columns at most", a.Rows, a.Columns, mostRows, mostColumns)
	}
	return place{own, a}, nil
}

// withRates gives the job file with the rates and prices of the workbook.
func withRates(names map[string]place, figures map[string]float64, file []byte) ([]byte, []string, error) {
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
		x, some := figures[name]
		set, err := setter(key, quote, goods, currency)
		if err != nil {
			return nil, nil, err
		}
		if !some || set == nil {
			continue
		}
		set(x)
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
func setter(key string, quote map[string]any, goods []any, currency string) (func(float64), error) {
	plain := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
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
				return func(x float64) { m["price"] = plain(x) + " " + currency + "/" + per }, nil
			}
		}
		return nil, refuse(readPrefix+key, "names no goods of the job; it has %s", strings.Join(ids, ", "))
	}
	if quote == nil {
		return nil, nil
	}
	switch key {
	case "labour_rate":
		return func(x float64) {
			delete(quote, "shop_rate")
			quote["labour_rate"] = plain(x) + " " + currency + "/h"
		}, nil
	case "markup", "contingency":
		return func(x float64) { quote[key] = plain(math.Round(x*1e8)/1e6) + " %" }, nil
	}
	return nil, refuse(readPrefix+key, "is not known; see sheet fill -names")
}

// mostShare is the greatest figure that is taken for a share. A sheet holds
// 35 % as 0.35; a cell with 35 means 35 %, and would be read as 3500 %.
const mostShare = 3

// readFigures reads the cells of the shop; an empty one has no figure.
func readFigures(book *xlsx.Book, names map[string]place) (map[string]float64, error) {
	wanted := map[string][]xlsx.Cell{}
	for name, a := range names {
		if !strings.HasPrefix(name, readPrefix) {
			continue
		}
		if a.Rows > 1 || a.Columns > 1 {
			return nil, refuse(name, "is a range; one cell is wanted")
		}
		wanted[a.sheet] = append(wanted[a.sheet], a.Cell)
	}
	values := map[string]map[xlsx.Cell]xlsx.Value{}
	for sheet, cells := range wanted {
		v, err := book.Read(sheet, cells)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrWorkbook, err)
		}
		values[sheet] = v
	}
	figures := map[string]float64{}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if !strings.HasPrefix(name, readPrefix) {
			continue
		}
		a := names[name]
		x, some, err := numberOf(name, values[a.sheet][a.Cell])
		if err != nil {
			return nil, err
		}
		share := name == readPrefix+"markup" || name == readPrefix+"contingency"
		if share && x > mostShare {
			t := strconv.FormatFloat(x, 'f', -1, 64)
			return nil, refuse(name, "holds %[1]s, which is %[2]s %%; for %[1]s in a hundred write %[1]s %%, with its sign; %[3]d %% at most", t, strconv.FormatFloat(math.Round(x*1e4)/100, 'f', -1, 64), mostShare*100)
		}
		if some {
			figures[name] = x
		}
	}
	return figures, nil
}

// numberOf reads a number; some is false for an empty cell.
func numberOf(name string, v xlsx.Value) (x float64, some bool, err error) {
	text := strings.TrimSpace(v.Text)
	switch {
	case text == "" && v.Formula:
		return 0, false, refuse(name, "has a formula whose result is not stored; save the workbook in a spreadsheet first")
	case text == "":
		return 0, false, nil
	case v.Kind == xlsx.Fault:
		return 0, false, refuse(name, "holds the error %.100s", text)
	case v.Kind != xlsx.Number:
		return 0, false, refuse(name, "holds %.100q; a number is wanted", text)
	}
	x, err = strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0, false, refuse(name, "holds %.100q; a number is wanted", text)
	}
	// The noise of a computed cell is no part of a price.
	return math.Round(x*1e8) / 1e8, true, nil
}

// results gives what can be written, as rows of cells.
func results(spec job.Spec, order job.WorkOrder, m measures) map[string][][]any {
	one := func(v any) [][]any { return [][]any{{v}} }
	q := order.Quote
	out := map[string][][]any{
		"job": one(order.Name), "subtotal": one(figure(q.Subtotal)), "discount": one(figure(q.Discount)), "net": one(figure(q.Net)),
		"tax": one(figure(q.Tax)), "total": one(figure(q.Total)),
	}
	out["deposit"] = one(0.0)
	if len(q.Payments) > 1 { // one payment is the whole
		out["deposit"] = one(figure(q.Payments[0].Amount))
	}
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
	return out
}

// writing holds what is to be written, and for which name.
type writing struct {
	cells map[string]map[xlsx.Cell]any
	names map[string]map[xlsx.Cell]string
}

// put takes rows for a cell or range. The rest of a range is emptied, so that
// nothing is left of an earlier job.
func (f *writing) put(name string, a place, rows [][]any) error {
	if len(rows) > a.Rows {
		return refuse(name, "has %d rows; the job needs %d", a.Rows, len(rows))
	}
	if f.cells[a.sheet] == nil {
		f.cells[a.sheet], f.names[a.sheet] = map[xlsx.Cell]any{}, map[xlsx.Cell]string{}
	}
	columns := a.Columns
	if len(rows) > 0 {
		columns = min(columns, len(rows[0]))
	}
	for r := range a.Rows {
		for c := range columns {
			at := xlsx.Cell{Column: a.Column + c, Row: a.Row + r}
			if other, twice := f.names[a.sheet][at]; twice {
				return refuse(name, "and %s both write %s %s", other, a.sheet, at)
			}
			var v any
			if r < len(rows) {
				v = rows[r][c]
			}
			f.cells[a.sheet][at], f.names[a.sheet][at] = v, name
		}
	}
	return nil
}

// write writes the workbook. A cell with a formula is not overwritten.
func (f *writing) write(book *xlsx.Book, w io.Writer) error {
	var b bytes.Buffer // nothing is written when it fails halfway
	err := book.Write(&b, f.cells)
	var taken *xlsx.TakenError
	switch {
	case errors.As(err, &taken):
		return refuse(f.names[taken.Sheet][taken.Cell], "%v", taken)
	case errors.Is(err, xlsx.ErrDamaged):
		return fmt.Errorf("%w: %w", ErrWorkbook, err)
	case err != nil:
		return err
	}
	_, err = b.WriteTo(w)
	return err
}
