//go:build libreoffice

package carry_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/examples/sheet/internal/office"
)

// throughOffice saves a workbook with LibreOffice, which works all formulas out anew.
func throughOffice(t *testing.T, o *office.Office, book []byte) []byte {
	t.Helper()
	dir, out := t.TempDir(), t.TempDir()
	file := filepath.Join(dir, "book.xlsx")
	require.NoError(t, os.WriteFile(file, book, 0o600))
	require.NoError(t, o.Convert(t.Context(), "xlsx:Calc MS Excel 2007 XML", out, file))
	data, err := os.ReadFile(filepath.Join(out, "book.xlsx"))
	require.NoError(t, err)
	return data
}

// A workbook saved by LibreOffice before and after keeps what is the owner's, and computes.
func TestWithLibreOfficeInBetween(t *testing.T) {
	profile := t.TempDir()
	require.NoError(t, office.RecalculateAlways(profile))
	o, err := office.New(profile)
	require.NoError(t, err)
	fresh := program{pieces: []piece{{"arm", "damask", 2, 12}, {"seat", "damask", 2, 26}, {"back", "damask", 1, 20.5}, {"welt", "piping", 4, 2}, {"skirt", "lining", 1, 9}}, markup: 0.4, foam: true}.write(t)

	owner := throughOffice(t, o, worked(t))
	out, remarks := over(t, owner, fresh)
	assert.Equal(t, []string{"Cut list: what stood in A9:B9 is in H9:I9 now, since the program's cells have grown over it"}, remarks)
	f := opened(t, throughOffice(t, o, out))

	assert.Equal(t, []string{"Inputs", cutList, "Foam", "Sums", "Mine"}, f.GetSheetList())
	// Contents and formulas, worked out by LibreOffice: the program's and the owner's.
	assert.Equal(t, "arm", value(t, f, cutList, "A4"))
	assert.Equal(t, "113.5", value(t, f, cutList, "E9"))
	assert.Equal(t, "84", value(t, f, "Sums", "B1"))
	assert.Equal(t, "227 of 'Cut list'!E7", value(t, f, "Mine", "B1"))
	assert.Equal(t, "120", value(t, f, "Mine", "B2"))
	assert.Equal(t, "113.5", value(t, f, "Mine", "B3"))
	assert.Equal(t, "20.5", value(t, f, "Mine", "B4"))
	// What the program wrote and nobody changed looks as the program wants it.
	untouched := opened(t, throughOffice(t, o, fresh))
	for _, cell := range []string{"A1", "A3", "A4", "D4", "A5", "D5", "A8", "A9"} {
		want, got := style(t, untouched, cutList, cell), style(t, f, cutList, cell)
		want.Protection, got.Protection = nil, nil // said or not, it is the same
		assert.Equal(t, want, got, cell)
	}
	assert.Contains(t, unpacked(t, out)["xl/styles.xml"], `<fgColor rgb="FFFFFF00"/>`)
	assert.Equal(t, 1, style(t, f, cutList, "A7").Fill.Pattern)
	assert.Equal(t, 0, style(t, f, cutList, "A6").Fill.Pattern)
	assert.True(t, style(t, f, cutList, "A7").Font.Italic)
	assert.Equal(t, "FF0000", style(t, f, cutList, "E9").Font.Color)
	assert.Empty(t, style(t, f, cutList, "E7").Font.Color)
	height, err := f.GetRowHeight(cutList, 7)
	require.NoError(t, err)
	assert.InDelta(t, 33, height, 0.5)
	visible, err := f.GetRowVisible(cutList, 6)
	require.NoError(t, err)
	assert.False(t, visible, "the back is hidden, wherever it is")
	width, err := f.GetColWidth(cutList, "A")
	require.NoError(t, err)
	assert.InDelta(t, 41, width, 0.5)
	notes, err := f.GetComments(cutList)
	require.NoError(t, err)
	at := map[string]string{}
	for _, n := range notes {
		text := n.Text
		for _, p := range n.Paragraph {
			text += p.Text
		}
		at[n.Cell] = strings.TrimSpace(text) // the office forgets the authors
	}
	assert.Equal(t, map[string]string{"C3": "How many are cut.", "B7": "bias, not straight", "A6": "patch first"}, at)
	chart := ""
	for name, text := range unpacked(t, out) {
		if strings.HasPrefix(name, "xl/charts/chart") {
			chart = text
		}
	}
	assert.Contains(t, chart, "$E$4:$E$8")
	chart = ""
	for name, text := range unpacked(t, throughOffice(t, o, out)) {
		if strings.HasPrefix(name, "xl/charts/chart") {
			chart = text
		}
	}
	assert.Contains(t, chart, "$E$4:$E$8")
	assert.Contains(t, chart, "<c:v>52</c:v>", "the chart shows the new figures")
}
