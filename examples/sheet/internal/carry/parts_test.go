package carry_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
)

// office makes a workbook with all that an owner's program may put into it: macros, controls,
// slicers, pivot tables, pictures, answers to notes, extensions, printers' settings.
func officeBook(t testing.TB) []byte {
	t.Helper()
	book := edit(t, worked(t), func(f *excelize.File) {
		require.NoError(t, f.SetSheetRow("Mine", "A20", &[]any{"kind", "n"}))
		require.NoError(t, f.SetSheetRow("Mine", "A21", &[]any{"a", 1}))
		require.NoError(t, f.AddPivotTable(&excelize.PivotTableOptions{DataRange: "Mine!A20:B21", PivotTableRange: "Mine!D20:F30", Rows: []excelize.PivotTableField{{Data: "kind"}}, Data: []excelize.PivotTableField{{Data: "n"}}}))
		require.NoError(t, f.AddPivotTable(&excelize.PivotTableOptions{DataRange: "Cut list!A3:E6", PivotTableRange: "Mine!D40:F50", Rows: []excelize.PivotTableField{{Data: "part"}}, Data: []excelize.PivotTableField{{Data: "count"}}}))
		require.NoError(t, f.AddTable("Mine", &excelize.Table{Range: "H20:I22", Name: "Own"}))
		require.NoError(t, f.AddSlicer("Mine", &excelize.SlicerOptions{Name: "Column1", Cell: "K20", TableSheet: "Mine", TableName: "Own", Caption: "Own"}))
		require.NoError(t, f.AddSparkline(cutList, &excelize.SparklineOptions{Location: []string{"H5"}, Range: []string{"'Cut list'!E4:E6"}}))
	})
	parts := unpacked(t, book)
	put := func(part, old, now string) {
		require.Contains(t, parts[part], old, part)
		parts[part] = strings.Replace(parts[part], old, now, 1)
	}
	const types = "[Content_Types].xml"
	put(types, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml", "application/vnd.ms-excel.sheet.macroEnabled.main+xml")
	put(types, "</Types>", `<Default Extension="bin" ContentType="application/vnd.ms-office.vbaProject"/><Override PartName="/xl/threadedComments/threadedComment1.xml" ContentType="application/vnd.ms-excel.threadedcomments+xml"/></Types>`)
	const kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	put("xl/_rels/workbook.xml.rels", "</Relationships>", `<Relationship Id="rIdV" Type="http://schemas.microsoft.com/office/2006/relationships/vbaProject" Target="vbaProject.bin"/><Relationship Id="rIdC" Type="`+kind+`/calcChain" Target="calcChain.xml"/></Relationships>`)
	parts["xl/vbaProject.bin"] = "\xd0\xcf macros"
	parts["xl/calcChain.xml"] = `<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="B1" i="9"/></calcChain>`
	parts["xl/printerSettings/printerSettings1.bin"] = "tray 2"
	parts["customXml/item1.xml"] = "<mine/>"
	parts["xl/persons/person.xml"] = "<personList/>"
	parts["xl/threadedComments/threadedComment1.xml"] = `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="B6" dT="2026-01-01T00:00:00" personId="{1}" id="{2}"><text>bias, not straight</text></threadedComment></ThreadedComments>`
	parts["xl/ctrlProps/ctrlProp1.xml"] = `<formControlPr objectType="Button"/>`
	put("xl/worksheets/_rels/sheet2.xml.rels", "</Relationships>", `<Relationship Id="rIdT" Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" Target="../threadedComments/threadedComment1.xml"/><Relationship Id="rIdP" Type="`+kind+`/printerSettings" Target="../printerSettings/printerSettings1.bin"/><Relationship Id="rIdB" Type="`+kind+`/ctrlProp" Target="../ctrlProps/ctrlProp1.xml"/></Relationships>`)
	// A button with a line break that XML would not allow, drawn among the notes.
	put("xl/drawings/vmlDrawing2.vml", "</xml>", `<v:shape id="_x0000_s2000"><v:textbox><div>Print<br>all</div></v:textbox><x:ClientData ObjectType="Button"><x:Anchor>8, 0, 1, 0, 9, 0, 2, 0</x:Anchor></x:ClientData></v:shape></xml>`)
	put("xl/worksheets/sheet2.xml", "<extLst>", `<mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"><mc:Choice Requires="x14"><controls><control shapeId="2000" r:id="rIdB" name="Button 1"/></controls></mc:Choice></mc:AlternateContent><extLst><ext uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:dataValidations count="2" xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"><x14:dataValidation type="list"><x14:formula1><xm:f>Mine!$A$1:$A$3</xm:f></x14:formula1><xm:sqref>B4:B6</xm:sqref></x14:dataValidation><x14:dataValidation type="list"><x14:formula1><xm:f>Mine!$A$1:$A$3</xm:f></x14:formula1><xm:sqref>B5:B6 K4:K6</xm:sqref></x14:dataValidation></x14:dataValidations></ext>`)
	return packed(t, book, parts)
}

// Whatever the program does not write stays: every other part byte for byte, and all that
// belongs to a sheet of the program without being its contents.
func TestEveryOtherPartStays(t *testing.T) {
	owner := officeBook(t)
	fresh := program{pieces: append([]piece{{"arm", "damask", 2, 12}}, pieces...), markup: 0.25, foam: true}.write(t)
	out, remarks := over(t, owner, fresh)
	assert.Empty(t, remarks)
	was, is := unpacked(t, owner), unpacked(t, out)
	changed := map[string]bool{}
	for name, text := range was {
		now, some := is[name]
		if name == "xl/calcChain.xml" {
			assert.False(t, some, "programs make it anew")
			continue
		}
		assert.True(t, some, name)
		if now != text {
			changed[name] = true
		}
	}
	for _, may := range []string{
		"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml",
		"xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/worksheets/sheet3.xml", "xl/worksheets/sheet4.xml",
		"xl/worksheets/_rels/sheet2.xml.rels", "xl/comments1.xml", "xl/comments2.xml", "xl/drawings/vmlDrawing1.vml", "xl/drawings/vmlDrawing2.vml",
		"xl/threadedComments/threadedComment1.xml", "xl/charts/chart1.xml", "xl/pivotCache/pivotCacheDefinition2.xml",
	} {
		delete(changed, may)
	}
	assert.Empty(t, changed)
	sheet := is["xl/worksheets/sheet2.xml"]
	for _, want := range []string{`<control shapeId="2000" r:id="rIdB" name="Button 1"/>`, "<xm:f>'Cut list'!E4:E7</xm:f>", "<xm:sqref>K4:K6</xm:sqref>", `<legacyDrawing `} {
		assert.Contains(t, sheet, want)
	}
	assert.NotContains(t, sheet, "<xm:sqref>B4:B6</xm:sqref>", "the program says what may be typed in its cells")
	assert.Contains(t, is["xl/threadedComments/threadedComment1.xml"], `ref="B7"`)
	assert.Contains(t, is["xl/drawings/vmlDrawing2.vml"], `<div>Print<br/>all</div>`)
	assert.Contains(t, is["[Content_Types].xml"], "macroEnabled")
	assert.Contains(t, is["xl/charts/chart1.xml"], "$E$4:$E$7")
	// And it opens.
	f := opened(t, out)
	pivots, err := f.GetPivotTables("Mine")
	require.NoError(t, err)
	assert.Len(t, pivots, 2)
	assert.Equal(t, "Cut list!A3:E7", pivots[1].DataRange)
	assert.Contains(t, is["xl/pivotCache/pivotCacheDefinition2.xml"], `refreshOnLoad="1"`)
	slicers, err := f.GetSlicers("Mine")
	require.NoError(t, err)
	assert.Len(t, slicers, 1)
	_, _, err = carry.Over(out, program{pieces: pieces, markup: 0.25}.write(t))
	assert.NoError(t, err)
}
