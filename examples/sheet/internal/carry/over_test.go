package carry_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
)

const cutList = "Cut list"

func TestUntouchedGivesTheFreshContents(t *testing.T) {
	fresh := program{pieces: pieces, markup: 0.25, foam: true}.write(t)
	out, remarks := over(t, fresh, fresh)
	assert.Empty(t, remarks)
	a, b := opened(t, fresh), opened(t, out)
	assert.Equal(t, a.GetSheetList(), b.GetSheetList())
	assert.Equal(t, names(a), names(b))
	for _, s := range a.GetSheetList() {
		for r := 1; r <= 9; r++ {
			for c := 1; c <= 6; c++ {
				at, err := excelize.CoordinatesToCellName(c, r)
				require.NoError(t, err)
				assert.Equal(t, value(t, a, s, at), value(t, b, s, at), "%s %s", s, at)
				assert.Equal(t, formula(t, a, s, at), formula(t, b, s, at), "%s %s", s, at)
				assert.Equal(t, style(t, a, s, at), style(t, b, s, at), "%s %s", s, at)
			}
		}
		x, err := a.GetComments(s)
		require.NoError(t, err)
		y, err := b.GetComments(s)
		require.NoError(t, err)
		assert.Equal(t, x, y)
		v, err := a.GetDataValidations(s)
		require.NoError(t, err)
		w, err := b.GetDataValidations(s)
		require.NoError(t, err)
		assert.Equal(t, v, w)
	}
}

// A workbook that an owner has worked in, and another job: a piece more at the top, one
// less, figures changed.
func worked(t testing.TB) []byte {
	t.Helper()
	return edit(t, program{pieces: pieces, markup: 0.25}.write(t), func(f *excelize.File) {
		must := func(err error) { require.NoError(t, err) }
		_, err := f.NewSheet("Mine")
		must(err)
		must(f.SetCellValue("Mine", "A1", "my own"))
		must(f.SetCellFormula("Mine", "B1", `'Cut list'!E7*2&" of 'Cut list'!E7"`))
		must(f.SetCellFormula("Mine", "B2", "rate*2"))
		must(f.SetCellFormula("Mine", "B3", "SUM('Cut list'!$E$4:$E$6)"))
		must(f.SetCellFormula("Mine", "B4", "'Cut list'!D5"))
		must(f.AddChart("Mine", "D2", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "'Cut list'!$E$3", Categories: "'Cut list'!$A$4:$A$6", Values: "'Cut list'!$E$4:$E$6"}}}))
		must(f.SetDefinedName(&excelize.DefinedName{Name: "my_total", RefersTo: "'Cut list'!$E$7"}))
		must(f.SetDefinedName(&excelize.DefinedName{Name: "my_cell", RefersTo: "Mine!$A$1"}))
		f.SetActiveSheet(3)

		yellow, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFF00"}}, Font: &excelize.Font{Italic: true, Size: 14}})
		must(err)
		must(f.SetCellStyle(cutList, "A6", "A6", yellow)) // welt
		red, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true, Color: "FF0000", Size: 12}, CustomNumFmt: text("0.00")})
		must(err)
		must(f.SetCellStyle(cutList, "E7", "E7", red)) // total
		must(f.SetRowHeight(cutList, 6, 33))
		must(f.SetRowVisible(cutList, 5, false))
		must(f.SetColWidth(cutList, "A", "A", 41))
		must(f.AddComment(cutList, excelize.Comment{Cell: "B6", Author: "shop", Text: "bias, not straight"}))
		must(f.AddComment(cutList, excelize.Comment{Cell: "A5", Author: "cutter", Text: "patch first"}))
		must(f.SetCellValue(cutList, "G4", "call the mill"))
		must(f.SetCellValue(cutList, "A9", "below"))
		must(f.SetCellFormula(cutList, "B9", "E7/2"))
		must(f.SetConditionalFormat(cutList, "E4:E6", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Value: "40", Format: conditional(t, f)}}))
		must(f.SetPageLayout(cutList, &excelize.PageLayoutOptions{Orientation: text("landscape")}))
		must(f.SetDocProps(&excelize.DocProperties{Title: "Sofa for Mrs Larch"}))
	})
}

func text(s string) *string { return &s }

// lastFirst moves the last sheet to the front.
func lastFirst(t testing.TB, book []byte) []byte {
	t.Helper()
	parts := unpacked(t, book)
	x := parts["xl/workbook.xml"]
	sheets := regexp.MustCompile(`<sheet [^>]*></sheet>`).FindAllString(x, -1)
	last := sheets[len(sheets)-1]
	x = strings.Replace(strings.Replace(x, last, "", 1), "<sheets>", "<sheets>"+last, 1)
	x = regexp.MustCompile(`(localSheetId|activeTab)="(\d+)"`).ReplaceAllStringFunc(x, func(s string) string {
		name, n, _ := strings.Cut(strings.TrimSuffix(s, `"`), `="`)
		i, err := strconv.Atoi(n)
		require.NoError(t, err)
		return fmt.Sprintf(`%s="%d"`, name, (i+1)%len(sheets))
	})
	parts["xl/workbook.xml"] = x
	return packed(t, book, parts)
}

func TestTheOwnersStays(t *testing.T) {
	fresh := program{pieces: []piece{{"arm", "damask", 2, 12}, {"seat", "damask", 2, 26}, {"welt", "piping", 4, 2}, {"skirt", "lining", 1, 9}}, markup: 0.4}.write(t)
	out, remarks := over(t, lastFirst(t, worked(t)), fresh)
	f := opened(t, out)
	assert.Equal(t, []string{"Mine", "Inputs", cutList, "Sums"}, f.GetSheetList())
	assert.Equal(t, 0, f.GetActiveSheetIndex())
	// The contents are the new ones.
	assert.Equal(t, "arm", value(t, f, cutList, "A4"))
	assert.Equal(t, "26", value(t, f, cutList, "D5"))
	assert.Equal(t, "SUM(E4:E7)", formula(t, f, cutList, "E8"))
	assert.Equal(t, "93", value(t, f, cutList, "E8"))
	assert.Equal(t, "0.4", value(t, f, "Inputs", "B6"))
	assert.Equal(t, "'Cut list'!$A$1:$E$8", names(f)[cutList+"!"+carry.AreaName])
	assert.Equal(t, "'Cut list'!$A$1:$E$8", names(f)[cutList+"!_xlnm.Print_Area"])
	// Formats are where their meaning is.
	assert.Equal(t, []string{"FFFF00"}, style(t, f, cutList, "A6").Fill.Color)
	assert.True(t, style(t, f, cutList, "A6").Font.Italic)
	assert.Equal(t, "FF0000", style(t, f, cutList, "E8").Font.Color)
	assert.Equal(t, "0.00", *style(t, f, cutList, "E8").CustomNumFmt)
	assert.Empty(t, style(t, f, cutList, "E7").Font.Color)
	assert.Equal(t, "0.000", *style(t, f, cutList, "E7").CustomNumFmt)
	assert.Equal(t, style(t, opened(t, fresh), cutList, "A5"), style(t, f, cutList, "A5"))
	height, err := f.GetRowHeight(cutList, 6)
	require.NoError(t, err)
	assert.Equal(t, 33.0, height)
	visible, err := f.GetRowVisible(cutList, 5)
	require.NoError(t, err)
	assert.True(t, visible, "the row that was hidden is gone")
	width, err := f.GetColWidth(cutList, "A")
	require.NoError(t, err)
	assert.Equal(t, 41.0, width)
	layout, err := f.GetPageLayout(cutList)
	require.NoError(t, err)
	assert.Equal(t, "landscape", *layout.Orientation)
	// So are notes; one whose cell is gone stands beside the table.
	notes, err := f.GetComments(cutList)
	require.NoError(t, err)
	at := map[string]string{}
	for _, n := range notes {
		at[n.Cell] = n.Author + ": " + n.Text
	}
	assert.Equal(t, map[string]string{"C3": "coverwright: How many are cut.", "B6": "shop: bias, not straight", "F5": "cutter: patch first"}, at)
	// Cells beside and below.
	assert.Equal(t, "call the mill", value(t, f, cutList, "G4"))
	assert.Equal(t, "below", value(t, f, cutList, "A9"))
	assert.Equal(t, "E8/2", formula(t, f, cutList, "B9"))
	// Formulas, names and charts follow.
	assert.Equal(t, `'Cut list'!E8*2&" of 'Cut list'!E7"`, formula(t, f, "Mine", "B1"))
	assert.Equal(t, "rate*2", formula(t, f, "Mine", "B2"))
	assert.Equal(t, "SUM('Cut list'!$E$4:$E$7)", formula(t, f, "Mine", "B3"))
	assert.Equal(t, "#REF!", formula(t, f, "Mine", "B4"))
	assert.Equal(t, "'Cut list'!$E$8", names(f)["my_total"])
	assert.Equal(t, "Mine!$A$1", names(f)["my_cell"])
	chart := unpacked(t, out)["xl/charts/chart1.xml"]
	assert.Contains(t, chart, "<f>'Cut list'!$E$4:$E$7</f>")
	assert.Contains(t, chart, "<f>'Cut list'!$A$4:$A$7</f>")
	rules, err := f.GetConditionalFormats(cutList)
	require.NoError(t, err)
	assert.Contains(t, rules, "E4:E6")
	assert.Contains(t, rules, "C4")
	props, err := f.GetDocProps()
	require.NoError(t, err)
	assert.Equal(t, "Sofa for Mrs Larch", props.Title)
	assert.Equal(t, []string{
		"Cut list: your note at A5 is at F5 now, since what stood there is gone",
		"Mine B4: 'Cut list'!D5 reads 'Cut list'!D5, and what stood there is gone: it says #REF! now",
	}, remarks)
}

func TestCellsThatTheTableGrowsOverMoveToTheRight(t *testing.T) {
	owner := edit(t, worked(t), func(f *excelize.File) {
		require.NoError(t, f.MergeCell(cutList, "A10", "B10"))
		require.NoError(t, f.SetCellFormula("Mine", "C1", "'Cut list'!A9"))
	})
	many := append(append([]piece{}, pieces...), piece{"arm", "damask", 1, 1}, piece{"skirt", "damask", 1, 1}, piece{"flap", "damask", 1, 1}, piece{"strap", "damask", 1, 1})
	out, remarks := over(t, owner, program{pieces: many, markup: 0.25}.write(t))
	f := opened(t, out)
	assert.Equal(t, "strap", value(t, f, cutList, "A10"))
	assert.Equal(t, "total", value(t, f, cutList, "A11"))
	assert.Equal(t, "below", value(t, f, cutList, "H9"))
	assert.Equal(t, "E11/2", formula(t, f, cutList, "I9"))
	assert.Equal(t, "call the mill", value(t, f, cutList, "G4"))
	assert.Equal(t, "'Cut list'!H9", formula(t, f, "Mine", "C1"))
	assert.Equal(t, []string{"Cut list: what stood in A9:B10 is in H9:I10 now, since the program's cells have grown over it"}, remarks)
	merged, err := f.GetMergeCells(cutList)
	require.NoError(t, err)
	var ranges []string
	for _, m := range merged {
		ranges = append(ranges, m.GetStartAxis()+":"+m.GetEndAxis())
	}
	assert.Equal(t, []string{"A1:B1", "H10:I10"}, ranges)
}

func TestATextThatTheOwnerPutAmongTheProgramsIsNotLostInSilence(t *testing.T) {
	book := program{pieces: pieces, markup: 0.25}.write(t)
	_, remarks := over(t, edit(t, book, func(f *excelize.File) { require.NoError(t, f.SetCellStr(cutList, "C7", "check")) }), book)
	assert.Equal(t, []string{`Cut list: the text "check" in C7 is gone: the program writes nothing there`}, remarks)
}

// A sheet that the owner deleted is there again, and is not selected beside the one that is
// shown: what is typed would go into both.
func TestASheetThatComesBackIsNotSelected(t *testing.T) {
	book := program{pieces: pieces, markup: 0.25}.write(t)
	require.Contains(t, unpacked(t, book)["xl/worksheets/sheet1.xml"], "tabSelected")
	owner := edit(t, book, func(f *excelize.File) {
		f.SetActiveSheet(1)
		for _, d := range f.GetDefinedName() {
			if d.Scope == "Inputs" || strings.HasPrefix(d.RefersTo, "Inputs!") {
				require.NoError(t, f.DeleteDefinedName(&excelize.DefinedName{Name: d.Name, Scope: d.Scope}))
			}
		}
		require.NoError(t, f.DeleteSheet("Inputs"))
	})
	out, _ := over(t, owner, book)
	f := opened(t, out)
	assert.Equal(t, []string{"Inputs", cutList, "Sums"}, f.GetSheetList())
	assert.Equal(t, 1, f.GetActiveSheetIndex())
	selected := 0
	for name, text := range unpacked(t, out) {
		if strings.HasPrefix(name, "xl/worksheets/sheet") && strings.Contains(text, `tabSelected="true"`) {
			selected++
		}
	}
	assert.LessOrEqual(t, selected, 1)
}

func TestColumnsAndRowsThatTheOwnerPutInBefore(t *testing.T) {
	book := program{pieces: pieces, markup: 0.25}.write(t)
	owner := edit(t, book, func(f *excelize.File) {
		must := func(err error) { require.NoError(t, err) }
		for _, s := range []string{"Inputs", cutList} {
			must(f.InsertCols(s, "A", 1))
			must(f.InsertRows(s, 1, 2))
		}
		must(redefined(f, carry.AreaName, "Inputs!$B$3:$D$8", "Inputs"))
		must(redefined(f, carry.AreaName, "'Cut list'!$B$3:$F$9", cutList))
		id, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFF00"}}})
		must(err)
		must(f.SetCellStyle("Inputs", "C8", "C8", id))
		must(f.SetCellStyle(cutList, "E7", "E7", id))
		must(f.SetCellStr(cutList, "A1", "ours"))
	})
	out, remarks := over(t, owner, book)
	f := opened(t, out)
	assert.Equal(t, "0.25", value(t, f, "Inputs", "B6"))
	assert.Equal(t, []string{"FFFF00"}, style(t, f, "Inputs", "B6").Fill.Color)
	assert.Equal(t, []string{"FFFF00"}, style(t, f, cutList, "D5").Fill.Color)
	assert.Equal(t, "ours", value(t, f, cutList, "F1"))
	assert.Equal(t, []string{"Cut list: what stood in A1 is in F1 now, since the program's cells have grown over it"}, remarks)
	assert.Empty(t, value(t, f, cutList, "F9"))
	assert.Empty(t, value(t, f, cutList, "B9"))
}

func TestSheetsComeAndGo(t *testing.T) {
	without, with := program{pieces: pieces, markup: 0.25}.write(t), program{pieces: pieces, markup: 0.25, foam: true}.write(t)
	mine := func(formula string) func(f *excelize.File) {
		return func(f *excelize.File) {
			_, err := f.NewSheet("Mine")
			require.NoError(t, err)
			require.NoError(t, f.SetCellFormula("Mine", "A1", formula))
			f.SetActiveSheet(len(f.GetSheetList()) - 1)
			require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: "here", Scope: "Mine", RefersTo: "Mine!$A$1"}))
		}
	}
	out, remarks := over(t, edit(t, without, mine("1+1")), with)
	f := opened(t, out)
	assert.Empty(t, remarks)
	assert.Equal(t, []string{"Inputs", cutList, "Foam", "Sums", "Mine"}, f.GetSheetList())
	assert.Equal(t, 4, f.GetActiveSheetIndex())
	assert.Equal(t, "seat", value(t, f, "Foam", "A4"))
	assert.Equal(t, "Foam!$A$1:$A$4", names(f)["Foam!"+carry.AreaName])
	assert.Equal(t, "Mine!$A$1", names(f)["Mine!here"])
	assert.Equal(t, "Foam!$A$4", names(f)["foam_first"])
	visible, err := f.GetSheetVisible("Foam")
	require.NoError(t, err)
	assert.False(t, visible)
	notes, err := f.GetComments("Foam")
	require.NoError(t, err)
	assert.Len(t, notes, 1)

	out, remarks = over(t, out, without)
	f = opened(t, out)
	assert.Equal(t, []string{"Inputs", cutList, "Sums", "Mine"}, f.GetSheetList())
	assert.Equal(t, "Mine!$A$1", names(f)["Mine!here"])
	assert.Equal(t, 3, f.GetActiveSheetIndex())
	assert.NotContains(t, names(f), "foam_first")
	assert.Equal(t, []string{"the name foam_first, for Foam!$A$4, is gone with what stood there; nothing reads it"}, remarks)
	for name := range unpacked(t, out) {
		assert.NotContains(t, name, "comments3")
	}

	out, remarks = over(t, edit(t, with, mine("Foam!A4")), without)
	f = opened(t, out)
	assert.Equal(t, []string{"Inputs", cutList, "Foam", "Sums", "Mine"}, f.GetSheetList())
	assert.Empty(t, value(t, f, "Foam", "A4"))
	assert.Equal(t, "Foam!A4", formula(t, f, "Mine", "A1"))
	assert.Contains(t, remarks, "the sheet Foam has nothing in this job now; it stays, empty, since the sheet Mine reads it")
	out, _ = over(t, out, with) // and back
	assert.Equal(t, "seat", value(t, opened(t, out), "Foam", "A4"))
}

func TestFormatsOfFiguresFollowUnitAndCurrency(t *testing.T) {
	owner := edit(t, program{pieces: pieces, markup: 0.25}.write(t), func(f *excelize.File) {
		for cell, format := range map[string]string{"B4": `[$$-409]#,##0.00`, "B6": "0%"} {
			id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
			require.NoError(t, err)
			require.NoError(t, f.SetCellStyle("Inputs", cell, cell, id))
		}
		id, err := f.NewStyle(&excelize.Style{CustomNumFmt: text("0.0000"), Font: &excelize.Font{Bold: true, Size: 10}})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle(cutList, "D5", "D5", id))
	})
	format := func(p program, sheet, cell string) string {
		p.pieces, p.markup = pieces, 0.25
		out, _ := over(t, owner, p.write(t))
		s := style(t, opened(t, out), sheet, cell)
		if s.CustomNumFmt == nil {
			return "builtin"
		}
		return *s.CustomNumFmt
	}
	assert.Equal(t, `[$$-409]#,##0.00`, format(program{}, "Inputs", "B4"))
	assert.Equal(t, "builtin", format(program{currency: "EUR"}, "Inputs", "B4"))
	assert.Equal(t, "builtin", format(program{}, "Inputs", "B6")) // 0 %
	assert.Equal(t, "0.0000", format(program{}, cutList, "D5"))
	assert.Equal(t, "0.0", format(program{metric: true}, cutList, "D5"))
	assert.Equal(t, "0.0000", format(program{column: true}, cutList, "E5"))
	// The lock is the program's.
	out, _ := over(t, owner, program{pieces: pieces, markup: 0.25}.write(t))
	assert.False(t, style(t, opened(t, out), "Inputs", "B4").Protection.Locked)
}

// Notes on what is to be mended go with the next update, whether or not a program has
// forgotten whom they are by; a note of the owner's that begins like them stays.
func TestNotesOfWhatIsToBeMended(t *testing.T) {
	book := program{pieces: pieces, markup: 0.25}.write(t)
	owner := edit(t, book, func(f *excelize.File) {
		require.NoError(t, f.AddComment(cutList, excelize.Comment{Cell: "A4", Author: "shop", Text: carry.ToMend + "a spring"}))
	})
	marked, _, err := carry.Mend(owner, []carry.Note{{Sheet: cutList, Cell: "D5", Text: "0 is no width"}})
	require.NoError(t, err)
	at := func(book []byte) (out []string) {
		notes, err := opened(t, book).GetComments(cutList)
		require.NoError(t, err)
		for _, n := range notes {
			out = append(out, n.Cell)
		}
		return out
	}
	assert.Equal(t, []string{"C3", "A4", "D5"}, at(marked))
	again, _, err := carry.Mend(marked, nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"C3", "A4"}, at(again))
	forgotten := change(t, marked, "xl/comments2.xml", replaced("<author>coverwright</author>", "<author> </author>"))
	for _, b := range [][]byte{marked, forgotten} {
		out, remarks := over(t, b, book)
		assert.Empty(t, remarks)
		assert.Equal(t, []string{"C3", "A4"}, at(out))
	}
}

func TestTheFootIsTheProgramsUnlessTheOwnerWroteAnother(t *testing.T) {
	foot := func(owner []byte) string {
		out, _ := over(t, owner, program{pieces: pieces, footer: "Invoice 7"}.write(t))
		h, err := opened(t, out).GetHeaderFooter(cutList)
		require.NoError(t, err)
		return h.OddFooter
	}
	owner := program{pieces: pieces, footer: "Estimate 6"}.write(t)
	assert.Equal(t, "&L&8Invoice 7&R&8Page &P", foot(owner))
	assert.Equal(t, "&Cours", foot(edit(t, owner, func(f *excelize.File) {
		require.NoError(t, f.SetHeaderFooter(cutList, &excelize.HeaderFooterOptions{OddFooter: "&Cours"}))
	})))
}
