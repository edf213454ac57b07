package carry_test

import (
	"archive/zip"
	"bytes"
	"io"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
)

// piece is a row of the cut list.
type piece struct {
	part, goods string
	count       int
	width       float64
}

var pieces = []piece{{"seat", "damask", 2, 24}, {"back", "damask", 1, 20.5}, {"welt", "piping", 4, 2}}

// styles of the program, as the workbook package gives them.
func lookOf(t testing.TB, f *excelize.File, kind, format string) int {
	t.Helper()
	s := &excelize.Style{Font: &excelize.Font{Family: "Liberation Sans", Size: 10}, Alignment: &excelize.Alignment{Vertical: "top"}}
	if format != "" {
		s.CustomNumFmt = &format
	}
	line := func(side string, weight int) []excelize.Border {
		return []excelize.Border{{Type: side, Color: "808080", Style: weight}}
	}
	switch kind {
	case "title":
		s.Font.Size, s.Font.Bold = 16, true
	case "heading":
		s.Font.Bold, s.Alignment.WrapText = true, true
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E4E4E4"}}
		s.Border = line("bottom", 2)
	case "input":
		s.Protection = &excelize.Protection{Locked: false}
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFF6D6"}}
	case "sum":
		s.Font.Bold = true
		s.Border = line("top", 1)
	}
	id, err := f.NewStyle(s)
	require.NoError(t, err)
	return id
}

// program makes a workbook as the program does: a form, a table and a sheet of sums. With
// metric sizes are in millimetres, with a currency other than USD the money is in that.
type program struct {
	pieces   []piece
	metric   bool
	currency string
	foam     bool // one sheet more
	column   bool // one column more
	markup   float64
	footer   string
}

func (p program) write(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) { require.NoError(t, err) }
	if p.currency == "" {
		p.currency = "USD"
	}
	put := func(sheet, cell string, v any, kind, format string) {
		must(f.SetCellValue(sheet, cell, v))
		must(f.SetCellStyle(sheet, cell, cell, lookOf(t, f, kind, format)))
	}
	must(f.SetSheetName("Sheet1", "Inputs"))
	put("Inputs", "A1", "Sofa", "title", "")
	put("Inputs", "A3", "Labour", "heading", "")
	put("Inputs", "A4", "rate of an hour", "", "")
	put("Inputs", "B4", 60, "input", "#,##0.00")
	put("Inputs", "C4", p.currency+" per hour", "", "")
	put("Inputs", "A5", "Quote", "heading", "")
	put("Inputs", "A6", "markup", "", "")
	put("Inputs", "B6", p.markup, "input", "0.0##%")
	put("Inputs", "C6", p.currency+" on all", "", "")
	must(f.AddComment("Inputs", excelize.Comment{Cell: "B4", Author: carry.Author, Text: "What an hour costs the customer."}))
	v := excelize.NewDataValidation(true)
	v.SetSqref("B4 B6")
	must(v.SetRange(0, 100, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween))
	must(f.AddDataValidation("Inputs", v))
	name := func(name, ref, scope string) {
		must(f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: ref, Scope: scope}))
	}
	name("rate", "Inputs!$B$4", "")
	name("markup", "Inputs!$B$6", "")
	name(carry.AreaName, "Inputs!$A$1:$C$6", "Inputs")

	const cuts = "Cut list"
	_, err := f.NewSheet(cuts)
	must(err)
	unit, format, size := ", in", "0.000", func(x float64) float64 { return x }
	if p.metric {
		unit, format, size = ", mm", "0.0", func(x float64) float64 { return x * 25.4 }
	}
	put(cuts, "A1", "Cut list", "title", "")
	must(f.MergeCell(cuts, "A1", "B1"))
	heads := []string{"part", "goods", "count"}
	if p.column {
		heads = append(heads, "grain")
	}
	heads = append(heads, "width"+unit, "sum"+unit)
	at := func(c, r int) string {
		s, err := excelize.CoordinatesToCellName(c, r)
		must(err)
		return s
	}
	for i, h := range heads {
		put(cuts, at(i+1, 3), h, "heading", "")
	}
	n := len(heads)
	row := 4
	for _, x := range p.pieces {
		put(cuts, at(1, row), x.part, "", "")
		put(cuts, at(2, row), x.goods, "", "")
		put(cuts, at(3, row), x.count, "", "0")
		if p.column {
			put(cuts, at(4, row), "up", "", "")
		}
		put(cuts, at(n-1, row), size(x.width), "", format)
		put(cuts, at(n, row), size(x.width)*float64(x.count), "", format)
		must(f.SetCellFormula(cuts, at(n, row), at(3, row)+"*"+at(n-1, row)))
		row++
	}
	put(cuts, at(1, row), "total", "sum", "")
	total := 0.0
	for _, x := range p.pieces {
		total += size(x.width) * float64(x.count)
	}
	put(cuts, at(n, row), total, "sum", format)
	must(f.SetCellFormula(cuts, at(n, row), "SUM("+at(n, 4)+":"+at(n, row-1)+")"))
	must(f.ProtectSheet(cuts, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true}))
	must(f.AddComment(cuts, excelize.Comment{Cell: "C3", Author: carry.Author, Text: "How many are cut."}))
	must(f.SetConditionalFormat(cuts, at(3, 4), []excelize.ConditionalFormatOptions{{Type: "formula", Criteria: "ROUND($C$4*100,6)=ROUND($C$4*100,0)", Format: conditional(t, f)}}))
	if p.footer != "" {
		must(f.SetHeaderFooter(cuts, &excelize.HeaderFooterOptions{OddFooter: "&L&8" + p.footer + "&R&8Page &P"}))
	}
	name(carry.AreaName, "'Cut list'!$A$1:"+"$"+at(n, row)[:1]+"$"+strconv.Itoa(row), cuts)
	name("_xlnm.Print_Area", "'Cut list'!$A$1:"+"$"+at(n, row)[:1]+"$"+strconv.Itoa(row), cuts)
	if p.foam {
		_, err := f.NewSheet("Foam")
		must(err)
		put("Foam", "A1", "Foam", "title", "")
		put("Foam", "A3", "piece", "heading", "")
		put("Foam", "A4", "seat", "", "")
		must(f.AddComment("Foam", excelize.Comment{Cell: "A3", Author: carry.Author, Text: "Which piece."}))
		name(carry.AreaName, "Foam!$A$1:$A$4", "Foam")
		name("_xlnm.Print_Titles", "Foam!$3:$3", "Foam")
		must(f.SetSheetVisible("Foam", false))
		name("foam_first", "Foam!$A$4", "")
	}
	_, err = f.NewSheet("Sums")
	must(err)
	put("Sums", "A1", "price", "", "")
	must(f.SetCellFormula("Sums", "B1", "rate*(1+markup)"))
	name(carry.AreaName, "Sums!$A$1:$B$1", "Sums")
	return saved(t, f)
}

func conditional(t testing.TB, f *excelize.File) *int {
	t.Helper()
	format := "0%"
	id, err := f.NewConditionalStyle(&excelize.Style{CustomNumFmt: &format})
	require.NoError(t, err)
	return &id
}

func saved(t testing.TB, f *excelize.File) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

// edit changes a workbook as its owner might.
func edit(t testing.TB, book []byte, change func(f *excelize.File)) []byte {
	t.Helper()
	f := opened(t, book)
	change(f)
	return saved(t, f)
}

func opened(t testing.TB, book []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

// over carries, and checks what must hold always: the same bytes again, and nothing more to
// do a second time.
func over(t testing.TB, owner, fresh []byte) ([]byte, []string) {
	t.Helper()
	out, remarks, err := carry.Over(owner, fresh)
	require.NoError(t, err)
	again, remarksAgain, err := carry.Over(owner, fresh)
	require.NoError(t, err)
	require.True(t, bytes.Equal(out, again), "the same two workbooks give the same bytes")
	require.Equal(t, remarks, remarksAgain)
	twice, _, err := carry.Over(out, fresh)
	require.NoError(t, err)
	require.Equal(t, unpacked(t, out), unpacked(t, twice), "a second time changes nothing")
	return out, remarks
}

// unpacked gives the parts of a workbook.
func unpacked(t testing.TB, book []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		b, err := io.ReadAll(r)
		require.NoError(t, err)
		require.NotContains(t, out, f.Name)
		out[f.Name] = string(b)
	}
	return out
}

// packed makes a workbook of parts, in the order of another. One part may have many MiB of
// blanks at its end.
func packed(t testing.TB, like []byte, parts map[string]string, blanks ...any) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(like), int64(len(like)))
	require.NoError(t, err)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	put := func(name, text string) {
		p, err := w.Create(name)
		require.NoError(t, err)
		_, err = p.Write([]byte(text))
		require.NoError(t, err)
		if len(blanks) == 2 && blanks[0] == name {
			for range blanks[1].(int) {
				_, err = p.Write(bytes.Repeat([]byte(" "), 1<<20))
				require.NoError(t, err)
			}
		}
	}
	done := map[string]bool{}
	for _, f := range z.File {
		if text, some := parts[f.Name]; some {
			put(f.Name, text)
			done[f.Name] = true
		}
	}
	for name, text := range parts {
		if !done[name] {
			put(name, text)
		}
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

func value(t testing.TB, f *excelize.File, sheet, cell string) string {
	t.Helper()
	v, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	return v
}

func formula(t testing.TB, f *excelize.File, sheet, cell string) string {
	t.Helper()
	v, err := f.GetCellFormula(sheet, cell)
	require.NoError(t, err)
	return v
}

func style(t testing.TB, f *excelize.File, sheet, cell string) *excelize.Style {
	t.Helper()
	id, err := f.GetCellStyle(sheet, cell)
	require.NoError(t, err)
	s, err := f.GetStyle(id)
	require.NoError(t, err)
	return s
}

func names(f *excelize.File) map[string]string {
	out := map[string]string{}
	for _, d := range f.GetDefinedName() {
		key := d.Name
		if d.Scope != "Workbook" {
			key = d.Scope + "!" + key
		}
		out[key] = d.RefersTo
	}
	return out
}
