package workbook

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
)

const (
	tablePrefix = "table_" // of the names of the tables of the job
	keptSheet   = "Kept"   // what no cell can hold
	keptText    = "kept: " // stands in a cell whose text is kept there
	mostText    = 30_000   // characters of a cell; the file has room for 32,767
	freeRows    = 8        // below each table, for more
	fewRows     = 4        // below the second table of a sheet and those after it
	onlyRows    = 24       // below the one table of a sheet
	headRows    = 6        // above the first table of a sheet, its title included
	freeColumns = 3        // beside each table, for fields that it does not show
	notesTo     = 10       // the column that what is said of the lines of a form reaches
	longText    = 300      // characters that need not be seen whole
)

// jobSheets are the tables of a job as they stand in the workbook.
type jobSheets struct {
	*book
	tables []jobtable.Table
	areas  map[string]area // of the tables, by their keys
	sheets map[string]*sheet
	kept   *sheet
	widths map[string][]float64
	metric bool
}

// area is where a table stands: its headings in the first row, or those of a form in the
// first column.
type area struct {
	sheet         string
	column, row   int
	columns, rows int
}

func (a area) ref() string {
	return "'" + a.sheet + "'!" + fixed(a.column, a.row) + ":" + fixed(a.column+a.columns-1, a.row+a.rows-1)
}

// jobTables writes the job that a shop may change. A blank one was never worked out.
func (b *book) jobTables(tables []jobtable.Table, letter, blank bool) *jobSheets {
	j := &jobSheets{book: b, tables: tables, areas: map[string]area{}, sheets: map[string]*sheet{}, widths: map[string][]float64{}, metric: !letter}
	alone := map[string]int{}
	for _, t := range tables {
		alone[t.Sheet]++
	}
	for _, t := range tables {
		s := j.sheets[t.Sheet]
		if s == nil {
			s = b.add(t.Sheet)
			j.sheets[t.Sheet] = s
			s.text(1, t.Sheet, style{kind: title})
			s.row++
			s.text(1, sheetNotes[t.Sheet], style{kind: note})
			s.row++
			if !blank {
				s.mark()
			}
			s.row++
		}
		s.text(1, t.Title, style{kind: strong})
		s.row++
		if t.Form {
			j.form(s, t)
		} else {
			free := freeRows
			switch {
			case alone[t.Sheet] == 1:
				free = onlyRows
			case s.row > headRows && t.Sheet != jobtable.PiecesSheet:
				free = fewRows
			}
			j.rows(s, t, free)
		}
		s.keep(s.f.SetDefinedName(&excelize.DefinedName{Name: tablePrefix + t.Key, RefersTo: j.areas[t.Key].ref()}))
		s.row++
	}
	var pieces jobtable.Table
	for _, t := range tables { // when it is known where the names stand that cells may hold
		j.choices(t)
		switch t.Key {
		case "pieces":
			pieces = t
		case "measures":
			says, a := tapes(t, pieces), j.areas[t.Key]
			for _, i := range slices.Sorted(maps.Keys(says)) {
				j.remark(a.sheet, at(a.column+1, a.row+1+i), says[i])
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(j.sheets)) {
		j.sheets[name].page(true, letter, 0, j.widths[name]...)
	}
	if j.kept != nil {
		j.kept.own(mostKept)
		j.keep(j.f.SetSheetVisible(keptSheet, false))
	}
	return j
}

// noteAuthor signs the notes of the program.
const noteAuthor = "coverwright"

// remark puts a note on a cell.
func (b *book) remark(sheet, cell, says string) {
	b.keep(b.f.AddComment(sheet, excelize.Comment{Author: noteAuthor, Cell: cell, Paragraph: []excelize.RichTextRun{{Text: says}}}))
}

// sheetNotes say what a sheet is for.
var sheetNotes = map[string]string{
	jobtable.JobSheet:      "What stands in shaded cells is the job. Change it, and bring the file up to date with: sheet update FILE",
	jobtable.TermsSheet:    "Rates, taxes and payments. The price follows these at once.",
	jobtable.PiecesSheet:   "One row for each piece of furniture. Its count is the one that all follows from.",
	jobtable.PanelsSheet:   "Finished sizes of single panels, for one piece of furniture.",
	jobtable.CushionsSheet: "Finished sizes of cushions, for one piece of furniture.",
	jobtable.PartsSheet:    "Other parts that are made up, for one piece of furniture.",
	jobtable.SeamsSheet:    "How edges are joined. Edges are written as panel.edge, such as deck.front.",
	jobtable.GoodsSheet:    "Cloth by the roll and leather by the hide.",
	jobtable.StockSheet:    "Hides as measured, and lengths that are there already.",
	jobtable.FillingsSheet: "Foam that lies in no cushion.",
	jobtable.LabourSheet:   "Hours for one piece of furniture. The price follows them at once.",
	jobtable.FindingsSheet: "What goes in beside cover, foam and work.",
	jobtable.OptionsSheet:  "Other ways to do the job, priced beside it.",
}

// formatOf gives the format of the cells of a field.
func formatOf(f jobtable.Field, metric bool) string {
	switch f.Kind {
	case jobtable.Count:
		return countFormat
	case jobtable.Size:
		if f.Unit == "in" && !metric {
			return tapeFormat
		}
		return ""
	case jobtable.Surface, jobtable.Hours:
		return ""
	case jobtable.Share:
		return percentFormat
	case jobtable.Amount, jobtable.Price:
		return "#,##0.00##"
	}
	return "@"
}

// numeric tells whether numbers are meant to stand in the cells of a field.
func numericField(f jobtable.Field) bool { return formatOf(f, false) != "@" }

// put writes the cell of a field and shades it; with a gap a text stands off the numbers
// to its left.
func (j *jobSheets) put(s *sheet, column int, f jobtable.Field, v any, gap, wrap bool) {
	format := formatOf(f, f.Unit == "mm")
	st := style{kind: input, format: format, right: numericField(f), gap: gap, wrap: wrap}
	switch x := v.(type) {
	case float64:
		if f.Kind == jobtable.Size && f.Unit != "mm" && !tapeMark(x) {
			st.format = "0.0##"
		}
		c := at(column, s.row)
		s.keep(s.f.SetCellFloat(s.name, c, x, -1, 64))
		s.keep(s.f.SetCellStyle(s.name, c, c, s.style(st)))
	case string:
		if len(x) > mostText || strings.HasPrefix(x, keptText) {
			x = j.keepText(x)
		}
		s.text(column, x, style{kind: input, format: "@", gap: gap, wrap: wrap})
	default:
		s.blank(column, st)
	}
}

// tapeMark tells whether a size is one of the marks of a tape in inches.
func tapeMark(x float64) bool { return x*64 == float64(int64(x*64)) }

// keepText puts a text that is too long for a cell on a sheet of its own.
func (j *jobSheets) keepText(text string) string {
	if j.kept == nil {
		j.kept = j.add(keptSheet)
	}
	s := j.kept
	n, column := s.row, 1
	for len(text) > 0 {
		k := min(len(text), mostText)
		for k < len(text) && text[k]&0xC0 == 0x80 { // not within a character
			k--
		}
		s.keep(s.f.SetCellStr(s.name, at(column, s.row), text[:k]))
		text, column = text[k:], column+1
	}
	s.row++
	return keptText + strconv.Itoa(n)
}

// form writes an object: its fields below each other.
func (j *jobSheets) form(s *sheet, t jobtable.Table) {
	a := area{s.name, 1, s.row, 2, len(t.Fields) + freeColumns}
	j.wide(s, 1, 26)
	j.wide(s, 2, 34)
	j.wide(s, notesTo, 9)
	for i, f := range t.Fields {
		s.text(1, f.Heading(), style{})
		v := t.Rows[0].Cells[i]
		text, _ := v.(string)
		j.put(s, 2, f, v, false, len(text) > 40 && len(text) < longText)
		s.text(3, short(f.Says), style{kind: note, gap: true})
		s.row++
	}
	s.prints(notesTo, s.row-1)
	for range freeColumns {
		s.blank(1, style{kind: input, format: "@"})
		s.blank(2, style{kind: input})
		s.row++
	}
	j.areas[t.Key] = a
}

// prints says that a table is printed: without the rows and columns that are free.
func (s *sheet) prints(columns, row int) {
	s.printed = area{columns: max(s.printed.columns, columns), rows: row}
}

// rows writes a list: its fields side by side.
func (j *jobSheets) rows(s *sheet, t jobtable.Table, free int) {
	a := area{s.name, 1, s.row, len(t.Fields) + freeColumns, 1 + len(t.Rows) + free}
	for i, f := range t.Fields {
		s.text(i+1, f.Heading(), style{kind: heading, right: numericField(f), gap: apart(t, i)})
		j.wide(s, i+1, columnWidth(t, i))
	}
	for i := range freeColumns {
		s.blank(len(t.Fields)+1+i, style{kind: input, format: "@"})
	}
	s.row++
	if len(t.Rows) > 0 || s.printed.rows == 0 { // of a sheet that is empty its first table
		s.prints(len(t.Fields), s.row+len(t.Rows))
	}
	for k := range len(t.Rows) + free {
		for i, f := range t.Fields {
			var v any
			if k < len(t.Rows) {
				v = t.Rows[k].Cells[i]
			}
			j.put(s, i+1, f, v, apart(t, i), false)
		}
		for i := range freeColumns {
			s.blank(len(t.Fields)+1+i, style{kind: input})
		}
		s.row++
	}
	j.areas[t.Key] = a
}

// apart tells whether texts of a field stand right of numbers.
func apart(t jobtable.Table, i int) bool {
	return i > 0 && numericField(t.Fields[i-1]) && !numericField(t.Fields[i])
}

// columnWidth holds what stands in a column; its heading takes several lines.
func columnWidth(t jobtable.Table, i int) float64 {
	longest, filled := 0, false
	for _, r := range t.Rows {
		switch x := r.Cells[i].(type) {
		case string:
			longest, filled = max(longest, len([]rune(x))), true
		case float64:
			longest, filled = max(longest, 6), true
		}
	}
	for _, word := range strings.Fields(t.Fields[i].Heading()) {
		longest = max(longest, len([]rune(word))+1)
	}
	most := 26.0
	if t.Fields[i].Kind == jobtable.Whole { // nobody reads it
		most = 12
	}
	least := 6.5
	if !filled && i < 2 || i < 2 && !numericField(t.Fields[i]) {
		least = 12
	}
	width := float64(float64(longest)*0.95) + 1
	if apart(t, i) {
		width++
	}
	return max(least, min(most, width))
}

func (j *jobSheets) wide(s *sheet, column int, width float64) {
	w := j.widths[s.name]
	for len(w) < column {
		w = append(w, 9)
	}
	w[column-1] = max(w[column-1], width)
	j.widths[s.name] = w
}

// short is the first sentence of what the schema says of a field.
func short(says string) string {
	first, _, _ := strings.Cut(says, ". ")
	return strings.TrimSuffix(strings.TrimSpace(first), ".")
}

// cells is the range of a field in a table.
func (a area) cells(t jobtable.Table, field int) string {
	if t.Form {
		return at(a.column+1, a.row+field)
	}
	return at(a.column+field, a.row+1) + ":" + at(a.column+field, a.row+a.rows-1)
}

// choices says what may stand in the cells of a table.
func (j *jobSheets) choices(t jobtable.Table) {
	s, a := j.sheets[t.Sheet], j.areas[t.Key]
	for i, f := range t.Fields {
		v := excelize.NewDataValidation(true)
		v.SetSqref(a.cells(t, i))
		v.SetInput(cut(f.Name, 32), cut(f.Says, 255))
		v.ErrorStyle = ptr("stop")
		list := f.Choices
		switch {
		case f.Path == "from":
			for _, k := range kind.All() {
				list = append(list, k.Name)
			}
		case f.Kind == jobtable.Shape:
			list = spaced(f.Choices)
		}
		switch {
		case f.From != "":
			from := j.areas[f.From]
			v.SetSqrefDropList("='" + from.sheet + "'!" + fixed(1, from.row+1) + ":" + fixed(1, from.row+from.rows-1))
			v.SetError(excelize.DataValidationErrorStyleInformation, "Not in the list", "No such name stands in the table of "+f.From+" yet.")
		case len(list) > 0 && len(strings.Join(list, ",")) <= 255 && !strings.Contains(strings.Join(list, ""), ","):
			s.keep(v.SetDropList(list))
			v.SetError(excelize.DataValidationErrorStyleStop, "This cannot be", cut("One of "+strings.Join(list, ", ")+".", 255))
		default:
			lim, ok := fieldLimit(t.Key, f, j.metric)
			if !ok {
				break
			}
			s.keep(v.SetRange(lim.low, lim.high, lim.kind, excelize.DataValidationOperatorBetween))
			v.SetError(excelize.DataValidationErrorStyleStop, "This cannot be", lim.say)
			v.SetInput(cut(f.Name, 32), cut(strings.TrimSpace(f.Says+" "+lim.say), 255))
		}
		s.keep(s.f.AddDataValidation(s.name, v))
	}
}

func ptr[T any](v T) *T { return &v }

func spaced(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = strings.ReplaceAll(n, "_", " ")
	}
	return out
}
