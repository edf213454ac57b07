package xlsx_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

const (
	rels     = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`
	mainRels = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://x/worksheet" Target="worksheets/one.xml"/><Relationship Id="t" Type="http://x/sharedStrings" Target="/xl/texts.xml"/></Relationships>`
	mainPart = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<workbook xmlns:r="http://r"><sheets><sheet name="Ours &amp; theirs" sheetId="1" r:id="a"/></sheets><definedNames><definedName name="fill_total">'Ours &amp; theirs'!$B$2</definedName></definedNames></workbook>`
	texts = `<sst><si><t>seat</t></si><si><r><t>two </t></r><r><t>runs</t></r></si></sst>`
	own   = "Ours & theirs"
)

type part struct {
	name string
	r    io.Reader
}

func pack(t testing.TB, parts ...part) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range parts {
		w, err := z.Create(p.name)
		require.NoError(t, err)
		_, err = io.Copy(w, p.r)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

func text(s string) io.Reader { return strings.NewReader(s) }

// withSheet makes a workbook of one sheet.
func withSheet(t testing.TB, sheet io.Reader, more ...part) []byte {
	t.Helper()
	parts := []part{{"_rels/.rels", text(rels)}, {"xl/workbook.xml", text(mainPart)}, {"xl/_rels/workbook.xml.rels", text(mainRels)}, {"xl/worksheets/one.xml", sheet}, {"xl/texts.xml", text(texts)}}
	return pack(t, append(parts, more...)...)
}

// unpacked gives a part of a workbook.
func unpacked(t testing.TB, book []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	require.NoError(t, err)
	f, err := z.Open(name)
	require.NoError(t, err)
	b, err := io.ReadAll(f)
	require.NoError(t, err)
	return string(b)
}

func changed(book []byte, cells map[xlsx.Cell]any) ([]byte, error) {
	b, err := xlsx.Open(book)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = b.Write(&out, map[string]map[xlsx.Cell]any{own: cells})
	return out.Bytes(), err
}

func cell(s string) xlsx.Cell {
	a, ok := xlsx.ParseArea(s)
	if !ok {
		panic(s)
	}
	return a.Cell
}

// What a sheet is after a change, to the byte.
func TestOnlyTheCellsChange(t *testing.T) {
	for _, c := range []struct{ in, cells, want string }{
		{`<worksheet><sheetData/></worksheet>`, "B2=7", `<worksheet><sheetData><row r="2"><c r="B2"><v>7</v></c></row></sheetData></worksheet>`},
		{`<worksheet><sheetData/></worksheet>`, "", `<worksheet><sheetData/></worksheet>`},
		{`<worksheet><sheetData/></worksheet>`, "B2=", `<worksheet><sheetData></sheetData></worksheet>`},
		{`<worksheet><dimension ref="A1"/><sheetData><row r="3" spans="1:2" ht='9'><c r="A3" t="s"><v>0</v></c><c r="C3" s="4"/></row></sheetData><x/></worksheet>`, "A1=1 A3= B3=2 C3=3 D3=4 C9=9",
			`<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="3" ht="9"><c r="B3"><v>2</v></c><c r="C3" s="4"><v>3</v></c><c r="D3"><v>4</v></c></row><row r="9"><c r="C9"><v>9</v></c></row></sheetData><x/></worksheet>`},
		// Prefixes, places left out, the stored results of formulas.
		{`<x:worksheet><x:sheetData><x:row><x:c t="str" s="1"><x:f>A2&amp;"x"</x:f><x:v>old</x:v></x:c></x:row><x:row r="2"/></x:sheetData></x:worksheet>`, "B1=1 A2=2",
			`<x:worksheet><x:sheetData><x:row><x:c s="1"><x:f>A2&amp;"x"</x:f></x:c><x:c r="B1"><x:v>1</x:v></x:c></x:row><x:row r="2"><x:c r="A2"><x:v>2</x:v></x:c></x:row></x:sheetData></x:worksheet>`},
		// A cell that is emptied keeps its format.
		{`<worksheet><sheetData><row r="1"><c r="A1" s="2"><v>1</v></c></row></sheetData></worksheet>`, "A1=", `<worksheet><sheetData><row r="1"><c r="A1" s="2"/></row></sheetData></worksheet>`},
	} {
		cells := map[xlsx.Cell]any{}
		for _, w := range strings.Fields(c.cells) {
			at, v, _ := strings.Cut(w, "=")
			cells[cell(at)] = nil
			if v != "" {
				cells[cell(at)] = float64(v[0] - '0')
			}
		}
		out, err := changed(withSheet(t, text(c.in)), cells)
		require.NoError(t, err, c.in)
		assert.Equal(t, c.want, unpacked(t, out, "xl/worksheets/one.xml"), c.in)
		assert.Contains(t, unpacked(t, out, "xl/workbook.xml"), `</definedNames><calcPr fullCalcOnLoad="1"/></workbook>`)
		again, err := changed(out, cells)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(out, again), "a second time changes nothing")
	}
}

func TestValues(t *testing.T) {
	b, err := xlsx.Open(withSheet(t, text(`<worksheet><sheetData><row r="2"><c r="A2"><v>0.35</v></c><c r="B2" t="s"><v>1</v></c><c r="C2" t="b"><v>1</v></c><c r="D2" t="e"><v>#N/A</v></c>`+
		`<c r="E2" t="inlineStr"><is><r><t>a &lt; </t></r><r><t>b</t></r></is></c><c r="F2"><f>A2</f></c><c r="G2" t="str"><f>"x"</f><v>x</v></c></row></sheetData></worksheet>`)))
	require.NoError(t, err)
	assert.Equal(t, []xlsx.Name{{Name: "fill_total", RefersTo: "'Ours & theirs'!$B$2"}}, b.Names())
	var cells []xlsx.Cell
	for c := range 8 {
		cells = append(cells, xlsx.Cell{Column: c + 1, Row: 2})
	}
	got, err := b.Read("OURS & theirs", cells)
	require.NoError(t, err)
	for at, want := range map[string]xlsx.Value{
		"A2": {Kind: xlsx.Number, Text: "0.35"}, "B2": {Kind: xlsx.Text, Text: "two runs"}, "C2": {Kind: xlsx.Truth, Text: "1"}, "D2": {Kind: xlsx.Fault, Text: "#N/A"},
		"E2": {Kind: xlsx.Text, Text: "a < b"}, "F2": {Formula: true}, "G2": {Kind: xlsx.Text, Text: "x", Formula: true}, "H2": {},
	} {
		assert.Equal(t, want, got[cell(at)], at)
	}
}

func TestCellsOfOthersAreNotWritten(t *testing.T) {
	for in, want := range map[string]string{
		`<sheetData><row><c><v>1</v></c><c r="B1"><f>A1</f></c></row></sheetData>`:                                                "overwrite the formula in Ours & theirs B1",
		`<sheetData><row><c><f t="array" ref="A1:B3">X</f></c></row></sheetData>`:                                                 "overwrite the formula in Ours & theirs B1",
		`<sheetData/><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>`:                                                   "B1, which lies under a merged cell",
		`<sheetData><row><c><f t="shared" si="0" ref="A1:B2">A1</f></c><c><f t="shared" si="0"/></c></row></sheetData>`:           "overwrite the formula in Ours & theirs B1",
		`<sheetData/><mergeCells><mergeCell ref="A2:C2"/><mergeCell ref="B1:C1"/><mergeCell ref="A1:A9"/></mergeCells>`:           "",
		`<sheetData><row><c><f t="shared" si="0" ref="A1:B2">A1</f></c></row><row r="2"><c r="B2"><f>1</f></c></row></sheetData>`: "",
	} {
		_, err := changed(withSheet(t, text("<worksheet>"+in+"</worksheet>")), map[xlsx.Cell]any{cell("B1"): 1})
		if want == "" {
			require.NoError(t, err, in)
			continue
		}
		var taken *xlsx.TakenError
		require.ErrorAs(t, err, &taken, in)
		assert.ErrorContains(t, err, want)
	}
}

// Any texts and figures in any cells are read back as they were written.
func TestWhatIsWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		at := rapid.Custom(func(r *rapid.T) xlsx.Cell {
			return xlsx.Cell{Column: rapid.IntRange(1, 6).Draw(r, "column"), Row: rapid.IntRange(1, 6).Draw(r, "row")}
		})
		value := rapid.OneOf(rapid.StringMatching(`[ -~é\n]{1,8}`).AsAny(), rapid.Just("_x0041_").AsAny(), rapid.Float64Range(-1e12, 1e12).AsAny(), rapid.Int().AsAny())
		book := withSheet(t, text(`<worksheet><sheetData/></worksheet>`))
		all := map[xlsx.Cell]any{}
		for range rapid.IntRange(1, 3).Draw(r, "times") {
			cells := rapid.MapOfN(at, value, 1, 12).Draw(r, "cells")
			out, err := changed(book, cells)
			if err != nil {
				r.Fatal(err)
			}
			book = out
			for c, v := range cells {
				all[c] = v
			}
		}
		b, err := xlsx.Open(book)
		if err != nil {
			r.Fatal(err)
		}
		for c, want := range all {
			got, err := b.Read(own, []xlsx.Cell{c})
			if err != nil {
				r.Fatal(err)
			}
			kind, s := xlsx.Number, fmt.Sprint(want)
			switch x := want.(type) {
			case string:
				kind, s = xlsx.Text, strings.ReplaceAll(x, "_x0041_", "_x005F_x0041_")
			case float64:
				var y float64
				if _, err := fmt.Sscan(got[c].Text, &y); err != nil || y != x {
					r.Fatalf("%v: %v is read as %q", c, x, got[c].Text)
				}
				continue
			}
			if got[c].Kind != kind || got[c].Text != s {
				r.Fatalf("%v: %q is read as %v", c, want, got[c])
			}
		}
	})
}
