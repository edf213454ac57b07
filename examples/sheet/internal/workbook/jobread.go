package workbook

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
	"github.com/coverwright/coverwright/unit"
)

// Written is a job as it was read from a workbook.
type Written struct {
	jobtable.Job
	Metric bool
	As     paper.Kind             // the paper that its owner wanted
	cells  map[jobtable.Cell]Spot // the rows and cells of the tables
	first  map[string]Spot        // of each table
	sheets []string               // in their order
}

// Spot is a cell of the workbook.
type Spot struct {
	Sheet string
	Cell  xlsx.Cell
}

func (s Spot) String() string { return s.Sheet + "!" + s.Cell.String() }

// Wrong is a cell of the workbook that means nothing, or that makes the job wrong.
type Wrong struct {
	Spot
	Says string
}

// ErrNoTables says that a workbook holds no job.
var ErrNoTables = errors.New("the workbook has no tables of a job: sheet new and sheet quote write such files")

// ErrTableGone says that a table of the job is not in the workbook any more.
var ErrTableGone = errors.New("the job is not whole")

// ReadJob reads the job of the tables of a workbook, and what in their cells means
// nothing. A formula counts as what it last came to.
func ReadJob(data []byte) (Written, []Wrong, error) {
	book, err := xlsx.Open(data)
	if err != nil {
		return Written{}, nil, err
	}
	in := reading{book: book, out: Written{cells: map[jobtable.Cell]Spot{}, first: map[string]Spot{}}, areas: map[string]area{}}
	for _, n := range book.Names() {
		if n.Name == paperName && in.out.As.UnmarshalText([]byte(strings.Trim(n.RefersTo, `="`))) != nil {
			return Written{}, nil, refuse(n.Name, "is %.100s, which is no paper", n.RefersTo)
		}
		key, ok := strings.CutPrefix(strings.ToLower(n.Name), tablePrefix)
		sheet, a, one := xlsx.ParseReference(n.RefersTo)
		if !ok || !one || a.Columns > mostColumns || a.Rows > mostRows {
			continue // of another, or gone; that is told below
		}
		in.areas[key] = area{sheet, a.Column, a.Row, a.Columns, a.Rows}
	}
	tables, err := in.tables()
	if err != nil {
		return Written{}, nil, err
	}
	job, faults := jobtable.Back(tables, jobtable.Options{Metric: in.out.Metric})
	in.out.Job = job
	for _, f := range faults {
		in.wrong = append(in.wrong, Wrong{in.out.spot(f.Cell), f.Err.Error()})
	}
	return in.out, in.wrong, nil
}

// reading is a workbook being read.
type reading struct {
	book  *xlsx.Book
	areas map[string]area
	out   Written
	wrong []Wrong
}

// below is how far below a table rows are read that were added there by hand.
const below = 200

// tables reads the tables in the order of the job.
func (r *reading) tables() ([]jobtable.Table, error) {
	empty, err := jobtable.Of([]byte("{}"), jobtable.Options{})
	if err != nil {
		return nil, err
	}
	cells := map[string]map[xlsx.Cell]xlsx.Value{}
	var all []jobtable.Table
	known, metric := 0, 0
	for _, t := range empty {
		if _, ok := r.areas[t.Key]; ok {
			known++
		}
	}
	if known == 0 {
		return nil, ErrNoTables
	}
	for _, t := range empty {
		a, ok := r.areas[t.Key]
		if !ok { // the job would be without what stood there
			return nil, fmt.Errorf("%w: the table %q is gone: its sheet, its cells or the name %s%s were deleted", ErrTableGone, t.Title, tablePrefix, t.Key)
		}
		if cells[a.sheet] == nil {
			if cells[a.sheet], err = r.sheet(a.sheet); err != nil {
				return nil, err
			}
		}
		r.out.sheets = append(r.out.sheets, a.sheet)
		metric += metricHeads(a, t.Form, cells[a.sheet])
		all = append(all, t)
	}
	r.out.Metric = metric > 0
	var out []jobtable.Table
	for _, t := range all {
		a := r.areas[t.Key]
		t, err := r.table(t, a, cells[a.sheet])
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	return out, nil
}

// sheet reads all cells of the tables of a sheet, and those below them.
func (r *reading) sheet(name string) (map[xlsx.Cell]xlsx.Value, error) {
	var cells []xlsx.Cell
	for _, a := range r.areas {
		if a.sheet != name {
			continue
		}
		for row := a.row; row < a.row+a.rows+below; row++ {
			for c := a.column; c < a.column+a.columns; c++ {
				cells = append(cells, xlsx.Cell{Column: c, Row: row})
			}
		}
	}
	return r.book.Read(name, cells)
}

// metricHeads counts the metric headings of a table, less those in inches: one that was
// typed in does not turn the others.
func metricHeads(a area, form bool, cells map[xlsx.Cell]xlsx.Value) int {
	n := 0
	for i := range heads(a, form) {
		c := xlsx.Cell{Column: a.column + i, Row: a.row}
		if form {
			c = xlsx.Cell{Column: a.column, Row: a.row + i}
		}
		h := cells[c].Text
		_, unit, _ := strings.Cut(h[strings.LastIndexByte(h, ',')+1:], " ")
		switch unit {
		case "mm", "sq m", "m":
			n++
		case "in", "sq ft", "yd":
			n--
		}
	}
	return n
}

func (r *reading) table(t jobtable.Table, a area, cells map[xlsx.Cell]xlsx.Value) (jobtable.Table, error) {
	t.Fields, t.Rows = nil, nil
	r.out.first[t.Key] = Spot{a.sheet, xlsx.Cell{Column: a.column, Row: a.row}}
	o := jobtable.Options{Metric: r.out.Metric}
	var at []int // where each field stands: rows of a form, columns of a list
	for i := range heads(a, t.Form) {
		c := xlsx.Cell{Column: a.column + i, Row: a.row}
		if t.Form {
			c = xlsx.Cell{Column: a.column, Row: a.row + i}
		}
		heading := strings.TrimSpace(cells[c].Text)
		if heading == "" {
			if r.headless(a, t.Form, i, cells) {
				r.wrong = append(r.wrong, Wrong{Spot{a.sheet, c}, "what stands here has no heading"})
			}
			continue
		}
		f, ok := t.Find(heading, o)
		switch {
		case !ok:
			r.wrong = append(r.wrong, Wrong{Spot{a.sheet, c}, fmt.Sprintf("a job has nothing that is called %q here", heading)})
			continue
		case slices.ContainsFunc(t.Fields, func(g jobtable.Field) bool { return g.Heading() == f.Heading() }):
			r.wrong = append(r.wrong, Wrong{Spot{a.sheet, c}, fmt.Sprintf("%q stands twice", heading)})
			continue
		}
		t.Fields, at = append(t.Fields, f), append(at, i)
	}
	last := a.rows - 1
	if t.Form {
		last = 1
	} else {
		last += r.more(a, cells)
	}
	for k := range last {
		row := jobtable.Row{Cells: make([]any, len(at))}
		for i, n := range at {
			c := xlsx.Cell{Column: a.column + n, Row: a.row + 1 + k}
			if t.Form {
				c = xlsx.Cell{Column: a.column + 1, Row: a.row + n}
			}
			v, err := r.value(cells[c], Spot{a.sheet, c})
			if err != nil {
				return t, err
			}
			row.Cells[i] = v
			r.out.cells[jobtable.Cell{Table: t.Key, Row: len(t.Rows), Field: i}] = Spot{a.sheet, c}
		}
		t.Rows = append(t.Rows, row)
	}
	return t, nil
}

// headless tells whether something stands where a heading is missing.
func (r *reading) headless(a area, form bool, at int, cells map[xlsx.Cell]xlsx.Value) bool {
	if form {
		return cells[xlsx.Cell{Column: a.column + 1, Row: a.row + at}].Kind != xlsx.Empty
	}
	for row := a.row + 1; row < a.row+a.rows; row++ {
		if cells[xlsx.Cell{Column: a.column + at, Row: row}].Kind != xlsx.Empty {
			return true
		}
	}
	return false
}

func heads(a area, form bool) int {
	if form {
		return a.rows
	}
	return a.columns
}

// more counts the rows that were added below a table without a gap. One that stands
// further down would not be read.
func (r *reading) more(a area, cells map[xlsx.Cell]xlsx.Value) int {
	end := below
	for n := range below {
		row := a.row + a.rows + n
		for _, b := range r.areas {
			if b.sheet == a.sheet && b.row > a.row && row >= b.row-1 { // the title of the next table
				end = min(end, n)
			}
		}
	}
	read, whole := 0, true
	for n := range end {
		filled := -1
		for c := a.column; c < a.column+a.columns; c++ {
			if filled < 0 && cells[xlsx.Cell{Column: c, Row: a.row + a.rows + n}].Kind != xlsx.Empty {
				filled = c
			}
		}
		switch {
		case filled < 0:
			whole = false
		case whole:
			read++
		default:
			r.wrong = append(r.wrong, Wrong{Spot{a.sheet, xlsx.Cell{Column: filled, Row: a.row + a.rows + n}}, "the row stands outside its table: move it up, next to the others"})
		}
	}
	return read
}

// value gives what stands in a cell.
func (r *reading) value(v xlsx.Value, at Spot) (any, error) {
	switch v.Kind {
	case xlsx.Number:
		if x, err := strconv.ParseFloat(v.Text, 64); err == nil {
			return x, nil
		}
		return v.Text, nil
	case xlsx.Truth:
		if v.Text == "1" {
			return "yes", nil
		}
		return "no", nil
	case xlsx.Fault:
		r.wrong = append(r.wrong, Wrong{at, "the cell has an error: " + v.Text})
		return nil, nil
	case xlsx.Text:
		if n, ok := strings.CutPrefix(v.Text, keptText); ok {
			if row, err := strconv.Atoi(n); err == nil && row > 0 {
				return r.keptText(row, at)
			}
		}
		return strings.TrimSpace(v.Text), nil
	}
	if v.Formula {
		r.wrong = append(r.wrong, Wrong{at, "the formula has no result yet: open the file in the spreadsheet and save it first"})
	}
	return nil, nil
}

// mostKept bounds the cells that one text is kept in.
const mostKept = 140

func (r *reading) keptText(row int, at Spot) (any, error) {
	if _, there := r.book.Sheet(keptSheet); !there {
		r.wrong = append(r.wrong, Wrong{at, "what was kept on the hidden sheet " + keptSheet + " is gone with that sheet"})
		return nil, nil
	}
	var cells []xlsx.Cell
	for c := range mostKept {
		cells = append(cells, xlsx.Cell{Column: c + 1, Row: row})
	}
	kept, err := r.book.Read(keptSheet, cells)
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	for _, c := range cells {
		b.WriteString(kept[c].Text)
	}
	return b.String(), nil
}

// spot finds a cell of the tables in the workbook; of a whole row or table its first cell.
func (w Written) spot(c jobtable.Cell) Spot {
	for _, try := range []jobtable.Cell{c, {Table: c.Table, Row: c.Row, Field: 0}} {
		if s, ok := w.cells[try]; ok {
			return s
		}
	}
	return w.first[c.Table]
}

// Spot finds the cell of the workbook that a place of the job stands in, or the nearest. A
// measure of a kind may be asked for by a field of its own.
func (w Written) Spot(place unit.Path) Spot {
	c := w.Cell(place)
	if i := strings.LastIndexByte(string(place), '.'); i > 0 && c.Field < 0 {
		name := strings.ReplaceAll(string(place[i+1:]), "_", " ")
		if m := w.Cell(place[:i].Dot("measures").Dot(unit.Path(name))); m.Field >= 0 {
			c = m
		}
	}
	return w.spot(c)
}
