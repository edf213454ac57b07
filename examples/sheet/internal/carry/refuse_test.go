package carry_test

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// change gives a workbook with one part changed.
func change(t testing.TB, book []byte, part string, by func(string) string) []byte {
	t.Helper()
	parts := unpacked(t, book)
	was := parts[part]
	parts[part] = by(was)
	require.NotEqual(t, was, parts[part], part)
	return packed(t, book, parts)
}

func replaced(old, now string) func(string) string {
	return func(s string) string { return strings.ReplaceAll(s, old, now) }
}

// What would be lost is named, and nothing is written.
func TestRefused(t *testing.T) {
	book := program{pieces: pieces, markup: 0.25}.write(t)
	fresh := program{pieces: append([]piece{{"arm", "damask", 1, 1}}, pieces...), markup: 0.25, foam: true}.write(t)
	with := func(part, text string) []byte {
		parts := unpacked(t, book)
		parts[part] = text
		return packed(t, book, parts)
	}
	ours := func(change func(f *excelize.File) error) []byte {
		return edit(t, book, func(f *excelize.File) { require.NoError(t, change(f)) })
	}
	for want, owner := range map[string][]byte{
		"it is signed":                 with("_xmlsignatures/sig1.xml", "<x/>"),
		"it is shared with a log":      with("xl/revisions/revisionHeaders.xml", "<x/>"),
		`a sheet "Foam" of your own`:   ours(func(f *excelize.File) error { _, err := f.NewSheet("Foam"); return err }),
		"the rows or columns that the": change(t, book, "xl/workbook.xml", replaced("&#39;Cut list&#39;!$A$1:$E$7", "#REF!")),
		`was renamed to "Cuts"`:        ours(renamed),
		"the name markup is yours":     ours(func(f *excelize.File) error { return redefined(f, "markup", "Mine!$A$1") }),
		"lies over cells": ours(func(f *excelize.File) error {
			return f.AddTable(cutList, &excelize.Table{Range: "A8:B12", Name: "Mine"})
		}),
		"the cell merged over A8:C9":      ours(func(f *excelize.File) error { return f.MergeCell(cutList, "A8", "C9") }),
		"another form of the format":      change(t, book, "xl/workbook.xml", replaced("http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main")),
		"fills A8:B9, where the program ": change(t, book, "xl/worksheets/sheet2.xml", replaced("</sheetData>", `<row r="8"><c r="A8"><f t="array" ref="A8:B9">TRANSPOSE(G1:H2)</f></c></row></sheetData>`)),
	} {
		out, _, err := carry.Over(owner, fresh)
		assert.ErrorIs(t, err, carry.ErrRefused, want)
		assert.ErrorContains(t, err, want)
		assert.Empty(t, out)
	}
	_, _, err := carry.Over(change(t, book, "xl/worksheets/sheet2.xml", replaced("</sheetData>", `<row r="9"><c r="G9"><f t="shared" si="4"/></c></row></sheetData>`)), fresh)
	assert.ErrorContains(t, err, "the formula in G9 is shared with none")
	// Beside the program's cells a table stays.
	out, _ := over(t, ours(func(f *excelize.File) error {
		return f.AddTable(cutList, &excelize.Table{Range: "G3:H5", Name: "Mine"})
	}), fresh)
	tables, err := opened(t, out).GetTables(cutList)
	require.NoError(t, err)
	assert.Len(t, tables, 1)
}

// renamed gives a sheet another name, the program's own name of it with it.
func renamed(f *excelize.File) error {
	if err := f.SetDefinedName(&excelize.DefinedName{Name: carry.OriginName, Scope: cutList, RefersTo: `"Cut list"`}); err != nil {
		return err
	}
	if err := redefined(f, carry.AreaName, "Cuts!$A$1:$E$7", cutList); err != nil {
		return err
	}
	return f.SetSheetName(cutList, "Cuts")
}

func redefined(f *excelize.File, name, to string, scope ...string) error {
	d := &excelize.DefinedName{Name: name, RefersTo: to}
	if len(scope) > 0 {
		d.Scope = scope[0]
	}
	if err := f.DeleteDefinedName(d); err != nil {
		return err
	}
	return f.SetDefinedName(d)
}

// A copy that the owner made of a sheet is the owner's.
func TestACopyIsTheOwners(t *testing.T) {
	book := program{pieces: pieces, markup: 0.25}.write(t)
	for _, name := range []string{"Cut list (2)", "Cut list_2", "March"} {
		owner := edit(t, book, func(f *excelize.File) {
			i, err := f.NewSheet(name)
			require.NoError(t, err)
			from, err := f.GetSheetIndex(cutList)
			require.NoError(t, err)
			require.NoError(t, f.CopySheet(from, i))
			require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: carry.AreaName, Scope: name, RefersTo: "'" + name + "'!$A$1:$E$7"}))
			for _, s := range []string{name, cutList} {
				require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: carry.OriginName, Scope: s, RefersTo: `"Cut list"`}))
			}
		})
		out, remarks := over(t, owner, program{pieces: pieces[:1], markup: 0.25}.write(t))
		f := opened(t, out)
		assert.Equal(t, "back", value(t, f, name, "A5"))
		assert.Equal(t, "total", value(t, f, cutList, "A5"))
		assert.Equal(t, []string{"the sheet " + name + " is a copy by you: it stays as it is"}, remarks)
	}
}

// Small files that claim much are refused or read within the bounds.
func TestHostileFiles(t *testing.T) {
	// Memory is freed soon, so that how much is asked for hangs little on how busy the machine is.
	defer debug.SetGCPercent(debug.SetGCPercent(10))
	book := program{pieces: pieces, markup: 0.25}.write(t)
	const sheet = "xl/worksheets/sheet2.xml"
	rows := func(n int, row func(i int) string) func(string) string {
		return func(s string) string {
			var b strings.Builder
			for i := range n {
				b.WriteString(row(i))
			}
			return strings.Replace(s, "</sheetData>", b.String()+"</sheetData>", 1)
		}
	}
	for _, c := range []struct {
		name  string
		owner func() []byte
		want  error
	}{
		{"many cells", func() []byte {
			return change(t, book, sheet, rows(90_000, func(i int) string { return fmt.Sprintf(`<row r="%d"><c r="XFD%[1]d"><v>1</v></c></row>`, i+9) }))
		}, nil},
		{"too many cells", func() []byte {
			return change(t, book, sheet, rows(250_000, func(i int) string { return `<row><c/><c/></row>` }))
		}, xlsx.ErrTooLarge},
		{"many attributes", func() []byte {
			return change(t, book, sheet, rows(1, func(int) string { return `<row ` + strings.Repeat(`a="" `, 100_000) + `/>` }))
		}, xlsx.ErrTooLarge},
		{"depth", func() []byte {
			return change(t, book, sheet, rows(1, func(int) string { return strings.Repeat(`<row>`, 100_000) }))
		}, xlsx.ErrTooLarge},
		{"a cell twice", func() []byte {
			return change(t, book, sheet, rows(1, func(int) string { return `<row r="9"><c r="A9"/><c r="A9"/></row>` }))
		}, xlsx.ErrDamaged},
		{"a row twice", func() []byte { return change(t, book, sheet, rows(1, func(int) string { return `<row r="7"/>` })) }, xlsx.ErrDamaged},
		{"a text that is not there", func() []byte {
			return change(t, book, sheet, rows(1, func(int) string { return `<row r="9"><c t="s"><v>999</v></c></row>` }))
		}, xlsx.ErrDamaged},
		{"a part that is cut", func() []byte { return change(t, book, sheet, func(s string) string { return s[:len(s)-9] }) }, xlsx.ErrDamaged},
		{"a document type", func() []byte {
			return change(t, book, sheet, func(s string) string { return `<!DOCTYPE x [<!ENTITY a "b">]>` + s })
		}, xlsx.ErrDamaged},
		{"a large part", func() []byte { return packed(t, book, unpacked(t, book), "xl/styles.xml", 65) }, xlsx.ErrTooLarge},
		{"no zip", func() []byte { return []byte("PK") }, xlsx.ErrDamaged},
		{"a name of no sheet", func() []byte {
			return change(t, book, "xl/workbook.xml", replaced(`localSheetId="1"`, `localSheetId="9"`))
		}, xlsx.ErrDamaged},
	} {
		owner := c.owner()
		_, _, err := carry.Over(owner, book)
		if c.want == nil {
			assert.NoError(t, err, c.name)
		} else {
			assert.ErrorIs(t, err, c.want, c.name)
		}
		// The other way round nothing must break either.
		if c.want != nil {
			_, _, err = carry.Over(book, owner)
			assert.ErrorIs(t, err, xlsx.ErrDamaged, c.name)
		}
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	assert.Less(t, m.Sys, uint64(512<<20), "bytes asked of the machine at most, whatever the files")
}

// Whatever a sheet, the workbook and the styles of an owner are: they are refused, or come
// out as a workbook that opens, holds what the program wrote and every text of the owner's,
// and does not change a second time.
func FuzzOver(f *testing.F) {
	book := program{pieces: pieces, markup: 0.25}.write(f)
	fresh := program{pieces: pieces[1:], markup: 0.5}.write(f)
	parts := unpacked(f, book)
	const sheet, main, styles = "xl/worksheets/sheet2.xml", "xl/workbook.xml", "xl/styles.xml"
	f.Add(parts[sheet], parts[main], parts[styles])
	mine := unpacked(f, worked(f))
	f.Add(mine[sheet], parts[main], mine[styles])
	f.Add(strings.Replace(parts[sheet], "</sheetData>", `<row r="9"><c r="G9"><f t="shared" si="1" ref="G9:H9">E7*2</f><v>1</v></c><c r="H9"><f t="shared" si="1"/></c></row></sheetData><mergeCells><mergeCell ref="G10:H11"/></mergeCells>`, 1), parts[main], parts[styles])
	f.Add(`<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData/></x:worksheet>`, parts[main], parts[styles])
	f.Fuzz(func(t *testing.T, s, m, st string) {
		now := unpacked(t, book)
		now[sheet], now[main], now[styles] = s, m, st
		owner := packed(t, book, now)
		out, _, err := carry.Over(owner, fresh)
		if err != nil {
			if !strings.Contains(err.Error(), ":") || out != nil {
				t.Fatalf("%v is no refusal", err)
			}
			return
		}
		if _, err := xlsx.Open(out); err != nil {
			t.Fatalf("what was written does not open: %v", err)
		}
		twice, _, err := carry.Over(out, fresh)
		require.NoError(t, err)
		require.Equal(t, unpacked(t, out), unpacked(t, twice), "a second time changes nothing")
		b, err := xlsx.Open(out)
		require.NoError(t, err)
		cells := []xlsx.Cell{{Column: 1, Row: 4}, {Column: 5, Row: 6}}
		v, err := b.Read(cutList, cells)
		require.NoError(t, err)
		require.Equal(t, "back", v[cells[0]].Text)
		require.True(t, v[cells[1]].Formula)
	})
}
