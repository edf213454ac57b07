//go:build libreoffice

package workbook_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
)

// changing drives one LibreOffice: it opens a workbook, sets the cells of each change,
// reads names, and puts the cells back.
const changing = `
import json, os, subprocess, sys, time
import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.table.CellContentType import EMPTY, VALUE, TEXT

soffice, profile, plan = sys.argv[1:]
pipe = "cells%d" % os.getpid()
office = subprocess.Popen([soffice, "-env:UserInstallation=file://" + profile, "--headless", "--norestore", "--accept=pipe,name=%s;urp;" % pipe], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
resolver = uno.getComponentContext().ServiceManager.createInstance("com.sun.star.bridge.UnoUrlResolver")
for _ in range(600):
    try:
        context = resolver.resolve("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)
        break
    except Exception:
        time.sleep(0.1)
desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)

def put(cell, value):
    if value is None:
        cell.clearContents(1 | 2 | 4 | 16)
    elif isinstance(value, str):
        cell.setString(value)
    else:
        cell.setValue(value)

def held(cell):
    kind = cell.getType()
    return cell.getValue() if kind == VALUE else cell.getString() if kind == TEXT else None

for book in json.load(open(plan)):
    doc = desktop.loadComponentFromURL("file://" + book["file"], "_blank", 0, (PropertyValue(Name="Hidden", Value=True),))
    sheets = {}
    def cell(sheet, name):
        if sheet not in sheets:
            sheets[sheet] = doc.Sheets.getByName(sheet)
            sheets[sheet].unprotect("")
        return sheets[sheet].getCellRangeByName(name)
    reads = [cell(r["sheet"], r["cell"]) for r in book["reads"]]
    for change in book["changes"]:
        cells = [cell(c["sheet"], c["cell"]) for c in change]
        before = [held(c) for c in cells]
        for c, x in zip(cells, change):
            put(c, x["value"])
        print(json.dumps([None if r.getError() else r.getValue() for r in reads]), flush=True)
        for c, x in zip(cells, before):
            put(c, x)
    doc.close(True)
try:
    desktop.terminate()
except Exception:
    pass
office.wait(60)
`

// cellTo is a cell of a workbook and what is put there; nil empties it.
type cellTo struct {
	Sheet string `json:"sheet"`
	Cell  string `json:"cell"`
	Value any    `json:"value"`
	of    string // the field, for reports
}

func (c cellTo) String() string {
	if c.Value == nil {
		return c.of + " emptied"
	}
	return fmt.Sprintf("%s to %v", c.of, c.Value)
}

// changedBook is a workbook with changes that are made one after another.
type changedBook struct {
	File    string     `json:"file"`
	Reads   []cellTo   `json:"reads"`
	Changes [][]cellTo `json:"changes"`

	name string
	data []byte
	got  [][]*float64
}

// inTheOffice makes the changes in one running LibreOffice.
func inTheOffice(t *testing.T, books []*changedBook) {
	t.Helper()
	soffice, err := exec.LookPath("soffice")
	require.NoError(t, err)
	plan, err := json.Marshal(books)
	require.NoError(t, err)
	dir := t.TempDir()
	cmd := exec.CommandContext(t.Context(), python(t), "-c", changing, soffice, t.TempDir(), write(t, dir, "plan.json", plan)) //nolint:gosec // the test's own words
	var says bytes.Buffer
	cmd.Stderr = &says
	out, err := cmd.Output()
	require.NoError(t, err, says.String())
	lines := bytes.Split(bytes.TrimSpace(out), []byte("\n"))
	for _, b := range books {
		for range b.Changes {
			var got []*float64
			require.NotEmpty(t, lines)
			require.NoError(t, json.Unmarshal(lines[0], &got))
			b.got, lines = append(b.got, got), lines[1:]
		}
	}
	assert.Empty(t, lines)
}

// python finds one that knows the types of LibreOffice.
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.CommandContext(t.Context(), name, "-c", "import uno").Run() == nil { //nolint:gosec // the test's own words
			return name
		}
	}
	require.Fail(t, "no python3 with uno: install the package python3-uno")
	return ""
}

// named gives the cell of a name of a workbook.
func named(t *testing.T, f *excelize.File, name string) (cellTo, bool) {
	t.Helper()
	for _, d := range f.GetDefinedName() {
		if d.Name == name {
			sheet, cell, ok := strings.Cut(strings.ReplaceAll(d.RefersTo, "$", ""), "!")
			require.True(t, ok)
			return cellTo{Sheet: strings.Trim(sheet, "'"), Cell: cell, of: name}, true
		}
	}
	return cellTo{}, false
}

// others gives what else may stand in a cell of a field, and what may not; nil is nothing.
func others(tables []jobtable.Table, f jobtable.Field, v any) []any {
	var out []any
	x, isNumber := v.(float64)
	text, _ := v.(string)
	other := func(list ...string) string {
		for _, s := range list {
			if s != text {
				return s
			}
		}
		return "other"
	}
	switch f.Kind {
	case jobtable.Count:
		out = []any{x + 1, 0.0, x + 1.5}
	case jobtable.Size:
		step := 1.0
		if f.Unit == "mm" {
			step = 25
		}
		out = []any{x + step, x + step/3, 0.0, 1e5}
	case jobtable.Surface, jobtable.Hours:
		out = []any{x + 1.5, 0.0, 1e5, -1.0}
	case jobtable.Share:
		out = []any{x + 0.0137, 0.0, 0.999, 1.0, 1.5, 9.9, -0.01}
	case jobtable.Amount, jobtable.Price:
		out = []any{math.Round(x*125+234) / 100, 0.0, 30_000.0, 9e7, -5.0, x + 0.001, x + 0.1 + 0.2}
	case jobtable.Per:
		out = []any{other("yd", "m"), other("sq ft", "sq m")}
	case jobtable.Day:
		out = []any{"2027-03-04"}
	case jobtable.YesNo, jobtable.Choice, jobtable.Shape, jobtable.Present:
		out = []any{strings.ReplaceAll(other(f.Choices...), "_", " ")}
	case jobtable.List:
		out = []any{other("labour"), other("goods")}
	case jobtable.Pairs:
		out = []any{"a: b"}
	default:
		out = []any{text + " x"}
		for _, t := range tables {
			if t.Key != f.From {
				continue
			}
			for _, r := range t.Rows {
				if s, ok := r.Cells[0].(string); ok && s != text {
					out = append(out, s)
					break
				}
			}
		}
	}
	if isNumber {
		out = append(out, "abc", plainText(x))
	}
	if v != nil {
		out = append(out, nil)
	}
	return slices.DeleteFunc(out, func(y any) bool { return y != nil && y == v })
}

func plainText(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// eachCell gives the changes of every cell of the rows of the job, one at a time; plain
// ones are one for each cell.
func eachCell(t *testing.T, f *excelize.File, data []byte, metric, plain bool) [][]cellTo {
	t.Helper()
	spec, err := job.ReadSpec(bytes.NewReader(data))
	require.NoError(t, err)
	text, err := json.Marshal(spec)
	require.NoError(t, err)
	tables, err := jobtable.Of(text, jobtable.Options{Metric: metric})
	require.NoError(t, err)
	grids := fields(t, f)
	var out [][]cellTo
	for _, tab := range tables {
		g := grids[tab.Key]
		if !tab.Form {
			for where, c := range map[string]string{
				"a free row": at(g.column, g.row+1+len(tab.Rows)), "a free heading": at(g.column+len(tab.Fields), g.row),
				"a free column": at(g.column+len(tab.Fields), g.row+1), "below": at(g.column+1, g.last+1),
			} {
				out = append(out, []cellTo{{g.sheet, c, "x", tab.Key + " " + where}})
			}
		}
		for k, r := range tab.Rows {
			for i, field := range tab.Fields {
				c := at(g.column+i, g.row+1+k)
				if tab.Form {
					c = at(g.column+1, g.row+i)
				}
				all := others(tables, field, r.Cells[i])
				if plain {
					all = all[:1]
				}
				for _, v := range all {
					out = append(out, []cellTo{{g.sheet, c, v, fmt.Sprintf("%s[%d] %s (%v)", tab.Key, k, field.Name, r.Cells[i])}})
				}
			}
		}
	}
	return out
}

// refuses tells whether a cell does not let a value in.
func refuses(t *testing.T, f *excelize.File, c cellTo) bool {
	t.Helper()
	all, err := f.GetDataValidations(c.Sheet)
	require.NoError(t, err)
	x, isNumber := c.Value.(float64)
	column, row, err := excelize.CellNameToCoordinates(c.Cell)
	require.NoError(t, err)
	for _, v := range all {
		first, last, several := strings.Cut(v.Sqref, ":")
		if !several {
			last = first
		}
		c1, r1, err := excelize.CellNameToCoordinates(first)
		require.NoError(t, err)
		c2, r2, err := excelize.CellNameToCoordinates(last)
		require.NoError(t, err)
		if column < c1 || column > c2 || row < r1 || row > r2 || v.ErrorStyle == nil || *v.ErrorStyle != "stop" {
			continue
		}
		if v.Type != "whole" && v.Type != "decimal" {
			continue
		}
		var low, high float64
		_, err = fmt.Sscan(v.Formula1, &low)
		require.NoError(t, err)
		_, err = fmt.Sscan(v.Formula2, &high)
		require.NoError(t, err)
		return c.Value != nil && (!isNumber || x < low || x > high || v.Type == "whole" && x != math.Trunc(x))
	}
	return false
}

// fresh works a job out that is read from a workbook with changes in it.
func fresh(t *testing.T, f *excelize.File, changes []cellTo) (job.WorkOrder, error) {
	t.Helper()
	was := make([]func(), len(changes))
	for i, c := range changes {
		kind, err := f.GetCellType(c.Sheet, c.Cell)
		require.NoError(t, err)
		v, err := f.GetCellValue(c.Sheet, c.Cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		was[i] = func() {
			switch x, err := strconv.ParseFloat(v, 64); {
			case v == "":
				require.NoError(t, f.SetCellValue(c.Sheet, c.Cell, nil))
			case kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString || err != nil:
				require.NoError(t, f.SetCellStr(c.Sheet, c.Cell, v))
			default:
				require.NoError(t, f.SetCellFloat(c.Sheet, c.Cell, x, -1, 64))
			}
		}
		require.NoError(t, f.SetCellValue(c.Sheet, c.Cell, c.Value))
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	for _, back := range was {
		back()
	}
	read, wrong, err := workbook.ReadJob(b.Bytes())
	require.NoError(t, err)
	if len(wrong) > 0 {
		return job.WorkOrder{}, fmt.Errorf("%v: %s", wrong[0].Spot, wrong[0].Says)
	}
	return job.Read(t.Context(), bytes.NewReader(read.Text), job.Options{Effort: 0.001, NoMatching: true})
}

// Whatever is changed in a cell of the job, the total is that of a fresh order to the
// cent, or the mark beside it says that it is not.
func TestEveryCellOfTheJobIsFollowedOrMarked(t *testing.T) {
	dir := t.TempDir()
	var books []*changedBook
	for _, x := range cellJobs(t) {
		book, f := opened(t, dir, x)
		book.Changes = append([][]cellTo{{}}, eachCell(t, f, x.data, x.metric, x.plain)...)
		book.Changes = append(book.Changes, []cellTo{})
		require.NoError(t, f.Close())
		books = append(books, book)
	}
	begin := time.Now()
	inTheOffice(t, books)
	t.Logf("in the office: %v", time.Since(begin).Round(time.Second))
	var together []*changedBook
	for _, b := range books {
		together = append(together, judge(t, b))
	}
	inTheOffice(t, together)
	for _, b := range together {
		judge(t, b)
	}
}

// opened writes the workbook of a job, and says what is read in it.
func opened(t *testing.T, dir string, x cellJob) (*changedBook, *excelize.File) {
	t.Helper()
	spec, order := worked(t, x.data)
	var b bytes.Buffer
	_, err := workbook.Quote(&b, spec, order, workbook.Options{Metric: x.metric})
	require.NoError(t, err)
	f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
	require.NoError(t, err)
	book := &changedBook{File: write(t, dir, x.name+".xlsx", b.Bytes()), name: x.name, data: b.Bytes()}
	names := []string{"quote_total", "out_of_date"}
	for i := range order.Quote.Payments {
		names = append(names, fmt.Sprintf("due_%d", i+1))
	}
	for _, n := range names {
		c, ok := named(t, f, n)
		require.True(t, ok, n)
		book.Reads = append(book.Reads, c)
	}
	return book, f
}

// judge holds what the office showed beside fresh orders, and gives the workbook with all
// changes together that the total followed.
func judge(t *testing.T, b *changedBook) *changedBook {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b.data))
	require.NoError(t, err)
	defer f.Close()
	begin := time.Now()
	followed := map[string]cellTo{}
	marked, fine, refused, shut := 0, 0, 0, 0
	for i, change := range b.Changes {
		got := b.got[i]
		require.NotNil(t, got[1], "%s: %v: the mark has an error", b.name, change)
		if *got[1] == 1 {
			assert.NotNil(t, got[0], "%s: %v: no estimate", b.name, change)
			marked++
			continue
		}
		if slices.ContainsFunc(change, func(c cellTo) bool { return refuses(t, f, c) }) {
			shut++
			continue
		}
		order, err := fresh(t, f, change)
		if err != nil {
			refused++
			t.Errorf("%s: %v: the mark is off, and the job is refused: %.300v", b.name, change, err)
			continue
		}
		fine++
		total := amount(t, order.Quote.Total.Amount())
		if !assert.NotNil(t, got[0], "%s: %v: an error in place of %v", b.name, change, total) {
			continue
		}
		if assert.InDelta(t, total, *got[0], 0.001, "%s: %v", b.name, change) && len(change) == 1 {
			if _, met := followed[change[0].Cell+change[0].Sheet]; !met {
				followed[change[0].Cell+change[0].Sheet] = change[0]
			}
		}
		for k, p := range order.Quote.Payments {
			if k+2 < len(got) && assert.NotNil(t, got[k+2], "%s: %v: payment %d", b.name, change, k+1) {
				assert.InDelta(t, amount(t, p.Amount.Amount()), *got[k+2], 0.001, "%s: %v: payment %d", b.name, change, k+1)
			}
		}
	}
	t.Logf("%s: %d changes, %d marked, %d equal to a fresh order, %d refused by the cell, %d wrong; %v", b.name, len(b.Changes), marked, fine, shut, refused, time.Since(begin).Round(time.Second))
	var all []cellTo
	for _, key := range slices.Sorted(maps.Keys(followed)) {
		all = append(all, followed[key])
	}
	return &changedBook{File: b.File, Reads: b.Reads, Changes: [][]cellTo{all}, name: b.name + ", all at once", data: b.data}
}

func amount(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

// cellJob is a job whose cells are changed.
type cellJob struct {
	name   string
	metric bool
	plain  bool // its orders are dear
	data   []byte
}

// cellJobs reach every way that a total follows cells.
func cellJobs(t *testing.T) []cellJob {
	t.Helper()
	var out []cellJob
	for _, name := range []string{"metric.json", "rule.json"} {
		data, err := os.ReadFile(filepath.Join("testdata", "cells", name))
		require.NoError(t, err)
		out = append(out, cellJob{name, name == "metric.json", false, data})
	}
	return append(out, cellJob{"demo", false, true, demo(t)})
}

// Where the mark is on, the estimate is near what a fresh order comes to, and on the same
// side of what the total was.
func TestAnEstimateIsNearAFreshOrder(t *testing.T) {
	changes := map[string][]struct {
		table, field string
		row          int
		to           float64
	}{
		"demo": {
			{"pieces", "count", 0, 4}, {"pieces", "count", 2, 4}, {"measures", "length", 9, 30}, {"measures", "length", 4, 30},
			{"pieces", "width", 1, 72}, {"pieces", "depth", 1, 24}, {"pieces", "thickness", 1, 5}, {"foam", "thickness", 0, 3},
		},
		"metric.json": {
			{"pieces", "count", 0, 6}, {"panels", "width", 0, 760}, {"panels", "shape height", 1, 400}, {"panels", "shape diameter", 2, 300},
			{"panels", "count", 2, 4}, {"cushions", "depth", 0, 650}, {"cushions", "count", 0, 3}, {"foam", "width", 0, 760},
		},
		"rule.json": {
			{"pieces", "count", 0, 8}, {"pieces", "count", 1, 3}, {"panels", "width", 0, 30}, {"panels", "length", 1, 32}, {"foam", "depth", 0, 22}, {"foam", "depth", 1, 22},
			{"pieces", "width", 1, 22},
		},
	}
	dir := t.TempDir()
	var books []*changedBook
	for _, x := range cellJobs(t) {
		x.data = bytes.Replace(x.data, []byte(`"least": "2900.00 EUR", `), nil, 1) // which hides the rest
		b, f := opened(t, dir, x)
		grids := fields(t, f)
		b.Changes = [][]cellTo{{}}
		for _, c := range changes[x.name] {
			g := grids[c.table]
			b.Changes = append(b.Changes, []cellTo{{g.sheet, g.cell(t, c.row, c.field), c.to, fmt.Sprintf("%s[%d] %s", c.table, c.row, c.field)}})
		}
		require.NoError(t, f.Close())
		books = append(books, b)
	}
	inTheOffice(t, books)
	for _, b := range books {
		f, err := excelize.OpenReader(bytes.NewReader(b.data))
		require.NoError(t, err)
		was := *b.got[0][0]
		for i, change := range b.Changes[1:] {
			got := b.got[i+1]
			require.InDelta(t, 1, *got[1], 0, "%s: %v: no mark", b.name, change)
			order, err := fresh(t, f, change)
			require.NoError(t, err, "%s: %v", b.name, change)
			total := amount(t, order.Quote.Total.Amount())
			t.Logf("%-12s %-40v %9.2f -> fresh %9.2f, estimate %9.2f, %+.1f %%", b.name, change, was, total, *got[0], 100*(*got[0]/total-1))
			assert.InDelta(t, 1, *got[0]/total, 0.06, "%s: %v", b.name, change)
			assert.GreaterOrEqual(t, (*got[0]-was)*(total-was), 0.0, "%s: %v: the other way", b.name, change)
		}
		require.NoError(t, f.Close())
	}
}
