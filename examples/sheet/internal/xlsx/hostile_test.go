package xlsx_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// again gives a text n times, without holding it.
func again(n int, s string) io.Reader { return &repeat{s: s, left: n} }

type repeat struct {
	s        string
	at, left int
}

func (r *repeat) Read(p []byte) (int, error) {
	n := 0
	for n < len(p) && r.left > 0 {
		c := copy(p[n:], r.s[r.at:])
		n += c
		if r.at += c; r.at == len(r.s) {
			r.at = 0
			r.left--
		}
	}
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

// rowsOf writes rows with what each holds.
func rowsOf(n int, row func(i int) string) io.Reader {
	r, w := io.Pipe()
	go func() {
		_, err := io.WriteString(w, "<worksheet><sheetData>")
		for i := 1; i <= n && err == nil; i++ {
			_, err = io.WriteString(w, row(i))
		}
		if err == nil {
			_, err = io.WriteString(w, "</sheetData></worksheet>")
		}
		w.CloseWithError(err) //nolint:errcheck // never fails
	}()
	return r
}

func within(before, middle, after string, n int) io.Reader {
	return io.MultiReader(text(before), again(n, middle), text(after))
}

// Small files that claim much: each is read within the bounds or refused, and
// all of them together take less than 512 MiB.
func TestHostileFiles(t *testing.T) {
	const sheet, end = "<worksheet><sheetData>", "</sheetData></worksheet>"
	for _, c := range []struct {
		name string
		book func() []byte
		want error // nil when the file is filled in
	}{
		{"a cell in the last column of many rows", func() []byte {
			return withSheet(t, rowsOf(200_000, func(i int) string { return fmt.Sprintf(`<row r="%d"><c r="XFD%[1]d"/></row>`, i+2) }))
		}, nil},
		{"a row at the end", func() []byte {
			return withSheet(t, text(sheet+`<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`+end))
		}, nil},
		{"rows that repeat", func() []byte { return withSheet(t, within(sheet, `<row r="1"><c r="A1"/></row>`, end, 1_000_000)) }, xlsx.ErrDamaged},
		{"cells that repeat", func() []byte { return withSheet(t, within(sheet+"<row>", `<c r="A1"/>`, "</row>"+end, 1_000_000)) }, xlsx.ErrDamaged},
		{"more rows than a sheet has", func() []byte { return withSheet(t, within(sheet, `<row/>`, end, 1<<20+1)) }, xlsx.ErrTooLarge},
		{"more columns than a sheet has", func() []byte { return withSheet(t, within(sheet+"<row>", `<c/>`, "</row>"+end, 1<<14+1)) }, xlsx.ErrTooLarge},
		{"a sheet that unpacks to much", func() []byte { return withSheet(t, within(sheet, strings.Repeat(" ", 1<<10)+"<x/>", end, 1<<17)) }, xlsx.ErrTooLarge},
		{"much of one text", func() []byte { return withSheet(t, within(sheet, strings.Repeat(" ", 1<<10), end, 1<<17)) }, xlsx.ErrTooLarge},
		{"much in a part that is not read", func() []byte {
			return withSheet(t, text(sheet+end), part{"xl/media/a.png", again(1<<17, strings.Repeat("x", 1<<10))})
		}, nil},
		{"one tag of many attributes", func() []byte { return withSheet(t, within(sheet+"<row ", `a="" `, "/>"+end, 1<<20)) }, xlsx.ErrTooLarge},
		{"one cell of many elements", func() []byte { return withSheet(t, within(sheet+"<row><c>", `<a/>`, "</c></row>"+end, 1<<20)) }, xlsx.ErrTooLarge},
		{"depth", func() []byte { return withSheet(t, within(sheet, `<a>`, end, 1_000_000)) }, xlsx.ErrTooLarge},
		{"merged cells", func() []byte {
			return withSheet(t, within(sheet+"</sheetData><mergeCells>", `<mergeCell ref="C3:XFD1048576"/>`, "</mergeCells></worksheet>", 1_000_000))
		}, xlsx.ErrTooLarge},
		{"a million small cells", func() []byte {
			return withSheet(t, rowsOf(24_000, func(i int) string {
				return fmt.Sprintf(`<row r="%d">%s</row>`, i+2, strings.Repeat("<c><v>1</v></c>", 42))
			}))
		}, nil},
		{"names", func() []byte {
			return pack(t, part{"_rels/.rels", text(rels)}, part{"xl/_rels/workbook.xml.rels", text(mainRels)},
				part{"xl/workbook.xml", within("<workbook><definedNames>", `<definedName name="a">b</definedName>`, "</definedNames></workbook>", 1_000_000)})
		}, xlsx.ErrTooLarge},
		{"sheets", func() []byte {
			return pack(t, part{"_rels/.rels", text(rels)}, part{"xl/_rels/workbook.xml.rels", text(mainRels)},
				part{"xl/workbook.xml", within(`<workbook xmlns:r="r"><sheets>`, `<sheet name="a" r:id="a"/>`, "</sheets></workbook>", 1_000_000)})
		}, xlsx.ErrDamaged},
		{"a directory of many parts", func() []byte {
			return bytes.Repeat(append([]byte("PK\x01\x02"), make([]byte, 42)...), 1_000_000)
		}, xlsx.ErrTooLarge},
		{"more bytes than a file may have", func() []byte { return make([]byte, xlsx.MostBytes+1) }, xlsx.ErrTooLarge},
		{"a password", func() []byte { return []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1") }, xlsx.ErrDamaged},
		{"another charset", func() []byte { return withSheet(t, text(`<?xml version="1.0" encoding="UTF-7"?><worksheet/>`)) }, xlsx.ErrDamaged},
		{"a part twice", func() []byte { return withSheet(t, text(sheet+end), part{"XL/workbook.xml", text(mainPart)}) }, xlsx.ErrDamaged},
		{"a part that is cut", func() []byte { return withSheet(t, text(sheet+"<row>")) }, xlsx.ErrDamaged},
		{"elements that cross", func() []byte { return withSheet(t, text("<worksheet><sheetData><row></sheetData></row></worksheet>")) }, xlsx.ErrDamaged},
		{"no cells at all", func() []byte { return withSheet(t, text("<worksheet/>")) }, xlsx.ErrDamaged},
	} {
		_, err := changed(c.book(), map[xlsx.Cell]any{cell("B2"): 1})
		if c.want == nil {
			assert.NoError(t, err, c.name)
		} else {
			assert.ErrorIs(t, err, c.want, c.name)
			assert.ErrorIs(t, err, xlsx.ErrDamaged, c.name)
		}
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	assert.Less(t, m.Sys, uint64(512<<20), "bytes asked of the machine at most, whatever the files")
}

func TestSharedTextsAreBounded(t *testing.T) {
	sheet := `<worksheet><sheetData><row><c t="s"><v>9</v></c></row></sheetData></worksheet>`
	for _, texts := range []io.Reader{
		within("<sst>", "<si><t>x</t></si>", "</sst>", 5<<20),
		within("<sst><si><t>", strings.Repeat("x", 1<<10), "</t></si></sst>", 1<<17),
	} {
		b, err := xlsx.Open(pack(t, part{"_rels/.rels", text(rels)}, part{"xl/workbook.xml", text(mainPart)}, part{"xl/_rels/workbook.xml.rels", text(mainRels)},
			part{"xl/worksheets/one.xml", text(sheet)}, part{"xl/texts.xml", texts}))
		require.NoError(t, err)
		_, err = b.Read(own, []xlsx.Cell{cell("A1")})
		assert.ErrorIs(t, err, xlsx.ErrTooLarge)
	}
}

// A file whose sheet and workbook are anything is refused as damaged, or read,
// written and read again: the cells that were written hold what was written,
// every other cell what it held, the result of a formula excepted.
func FuzzOpen(f *testing.F) {
	f.Add(`<worksheet><dimension ref="A1"/><sheetData><row r="1" spans="1:1"><c r="A1" t="s"><v>0</v></c><c><f>A1</f><v>2</v></c></row><row r="4"/></sheetData></worksheet>`, mainPart)
	f.Add(`<x:worksheet><x:sheetData><x:row><x:c t="inlineStr"><x:is><x:t>a</x:t></x:is></x:c></x:row></x:sheetData><x:mergeCells><x:mergeCell ref="A1:B2"/></x:mergeCells></x:worksheet>`,
		`<x:workbook xmlns:q="r"><x:sheets><x:sheet name="Ours &amp; theirs" q:id="a"/></x:sheets><x:definedNames/><x:calcPr calcId="7" fullCalcOnLoad="0"/></x:workbook>`)
	f.Add(`<worksheet><sheetData/></worksheet>`, `<workbook><sheets/></workbook>`)
	f.Fuzz(func(t *testing.T, sheet, main string) {
		book := pack(t, part{"_rels/.rels", text(rels)}, part{"xl/workbook.xml", text(main)}, part{"xl/_rels/workbook.xml.rels", text(mainRels)},
			part{"xl/worksheets/one.xml", text(sheet)}, part{"xl/texts.xml", text(texts)})
		allowed := func(err error) bool {
			var taken *xlsx.TakenError
			if err != nil && !errors.Is(err, xlsx.ErrDamaged) && !errors.As(err, &taken) {
				t.Fatalf("%v is no refusal", err)
			}
			return err == nil
		}
		b, err := xlsx.Open(book)
		if !allowed(err) {
			return
		}
		var cells []xlsx.Cell
		for i := range 40 {
			cells = append(cells, xlsx.Cell{Column: 1 + i%5, Row: 1 + i/5})
		}
		was, err := b.Read(own, cells)
		if !allowed(err) {
			return
		}
		write := map[xlsx.Cell]any{cell("B2"): "a <b>", cell("A4"): -2.5, cell("C2"): nil}
		out, err := changed(book, write)
		if !allowed(err) {
			return
		}
		if most := 8*(len(sheet)+len(main)) + 4096; len(unpacked(t, out, "xl/worksheets/one.xml"))+len(unpacked(t, out, "xl/workbook.xml")) > most {
			t.Fatalf("more than %d bytes come out", most)
		}
		after, err := xlsx.Open(out)
		require.NoError(t, err, "what was written opens")
		require.Equal(t, b.Names(), after.Names())
		is, err := after.Read(own, cells)
		require.NoError(t, err)
		for _, c := range cells {
			want := was[c]
			switch v, written := write[c]; {
			case written && v == nil:
				want = xlsx.Value{}
			case c == cell("B2"):
				want = xlsx.Value{Kind: xlsx.Text, Text: "a <b>"}
			case c == cell("A4"):
				want = xlsx.Value{Kind: xlsx.Number, Text: "-2.5"}
			case want.Formula:
				want = xlsx.Value{Formula: true}
			}
			require.Equal(t, want, is[c], c)
		}
		twice, err := changed(out, write)
		require.NoError(t, err)
		require.True(t, bytes.Equal(out, twice), "a second time changes nothing")
	})
}

// Raw bytes are refused as damaged or opened.
func FuzzOpenBytes(f *testing.F) {
	whole := withSheet(f, text(`<worksheet><sheetData/></worksheet>`))
	f.Add(whole)
	short := bytes.Clone(whole)
	binary.LittleEndian.PutUint32(short[18:], 1<<31)
	f.Add(short)
	f.Add([]byte("PK\x05\x06" + strings.Repeat("\x00", 18)))
	f.Fuzz(func(t *testing.T, data []byte) {
		out, err := changed(data, map[xlsx.Cell]any{cell("B2"): 1})
		var taken *xlsx.TakenError
		if err != nil {
			if !errors.Is(err, xlsx.ErrDamaged) && !errors.As(err, &taken) {
				t.Fatalf("%v is no refusal", err)
			}
			return
		}
		b, err := xlsx.Open(out)
		require.NoError(t, err)
		got, err := b.Read(own, []xlsx.Cell{cell("B2")})
		require.NoError(t, err)
		require.Equal(t, "1", got[cell("B2")].Text)
	})
}
