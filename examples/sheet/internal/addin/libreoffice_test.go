//go:build libreoffice

package addin

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/examples/sheet/internal/office"
	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

func TestTypeLibraryCompiles(t *testing.T) {
	o, err := office.New(t.TempDir())
	require.NoError(t, err)
	dir := t.TempDir()
	src, out := filepath.Join(dir, idlFile), filepath.Join(dir, rdbFile)
	require.NoError(t, os.WriteFile(src, []byte(idl()), 0o600))
	require.NoError(t, o.CompileTypes(t.Context(), src, out))
	rdb, err := os.ReadFile(out)
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile(filepath.Join("generated", rdbFile), rdb, 0o600))
		require.NoError(t, os.WriteFile(filepath.Join("generated", sumFile), []byte(sums(rdb)), 0o600))
	}
	committed, err := os.ReadFile(filepath.Join("generated", rdbFile))
	require.NoError(t, err)
	// Another release of the compiler may write its own name into the file.
	assert.Equal(t, bytes.TrimPrefix(rdb, banner(rdb)), bytes.TrimPrefix(committed, banner(committed)))
}

func banner(rdb []byte) []byte {
	if i := bytes.Index(rdb, []byte("unoidl-write **")); i >= 0 {
		return rdb[:i]
	}
	return nil
}

// withAddIn gives a LibreOffice with the add-in in a fresh profile.
func withAddIn(t testing.TB) *office.Office {
	t.Helper()
	o, err := office.New(t.TempDir())
	require.NoError(t, err)
	oxt, err := Pack([]Program{built(t)})
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "shop.oxt")
	require.NoError(t, os.WriteFile(file, oxt, 0o600))
	require.NoError(t, o.Install(t.Context(), file))
	t.Cleanup(func() {
		assert.NoError(t, o.Uninstall(context.Background(), "org.coverwright.sheet.shop"))
	})
	return o
}

// sheetCell is a formula of a test sheet with what it must show.
type sheetCell struct {
	formula string // in the notation of OpenFormula
	want    any    // float64, string or table.Code
}

// cells gives every function with its example and every error it can give.
func cells() []sheetCell {
	var out []sheetCell
	for i := range table.Functions() {
		f := &table.Functions()[i]
		r, bad := f.Call(f.Example)
		if bad != nil {
			out = append(out, sheetCell{Formula(f, f.Example), bad.Code})
			continue
		}
		var want any = r.Number
		switch r.Kind {
		case table.Text:
			want = r.Text
		case table.Column:
			want = r.Column[0]
		case table.Grid:
			want = r.Grid[0][0]
		}
		out = append(out, sheetCell{Formula(f, f.Example), want})
		if r.Kind == table.Column {
			// Every part of the column.
			for k, x := range r.Column {
				out = append(out, sheetCell{fmt.Sprintf("=INDEX(%s;%d)", Formula(f, f.Example)[1:], k+1), x})
			}
		}
		for k, line := range r.Grid {
			for c, x := range line {
				out = append(out, sheetCell{fmt.Sprintf("=INDEX(%s;%d;%d)", Formula(f, f.Example)[1:], k+1, c+1), x})
			}
		}
		for _, b := range f.Bad {
			if len(b.Args) > len(f.Args) {
				out = append(out, sheetCell{Formula(f, b.Args), "Err:504"}) // Calc itself counts the arguments
				continue
			}
			out = append(out, sheetCell{Formula(f, b.Args), b.Code})
		}
	}
	return append(out,
		sheetCell{`=shop.boardfeet(24;24;4)`, 16.0},
		sheetCell{`=SHOP.BOARDFEET(24;24;4;)`, 16.0}, // an empty argument is left out
		sheetCell{`=IF(SHOP.APILEVEL()>=1;"fit";"old")`, "fit"},
		sheetCell{`=IFERROR(SHOP.THREADSIZE("30");"which?")`, "which?"},
		sheetCell{`=ISNA(SHOP.THREADSIZE("30"))+0`, 1.0},
		sheetCell{`=SHOP.BOARDFEET(1/0;24;4)`, table.DivideByZero},
		sheetCell{`=SHOP.BOARDFEET(SQRT(2)*10^308;24;4)`, table.Num},
		sheetCell{`=SHOP.FRACTIONTEXT(SHOP.CUTSIZEIN(25;0.5;0.5;2.5%);16)`, "25 3/8 in"},
		sheetCell{`=SHOP.CUTSIZEIN("652 mm";"1/2 in";0.5)`, 652/25.4 + 1},
		sheetCell{`=SHOP.MARKUPPRICE(19.99;25%)`, 24.99},
		sheetCell{`=SHOP.MARKUPPRICE(19.99;"25 %")`, 24.99},
		sheetCell{`=SHOP.WHY("MARKUPPRICE";19.99;25)`, "markup: from 0 % to 300 % is wanted, got 2500 %: for 25 % write it with the sign, or 0.25"},
		sheetCell{`=SHOP.WHY("MARKUPPRICE";19.99;25%)&"fine"`, "fine"},
		sheetCell{`=SHOP.INTOMM(1)*2+SHOP.INTOMM(1)`, 76.2},
		sheetCell{`=SUM(SHOP.INTOMM(1);SHOP.INTOMM(2))`, 76.2},
		sheetCell{`=IF(SHOP.INTOMM(1)>25;SHOP.FRACTIONTEXT(1;8)&" long";"short")`, "1 in long"},
		sheetCell{`=LEN(SHOP.FRACTIONTEXT(1.5;8))`, 8.0},
		sheetCell{`=ROUND(SHOP.INTOMM(1);0)`, 25.0},
		sheetCell{`=SUMPRODUCT(SHOP.MARKUPPRICE({10|20|30};50%))`, 90.0},
		sheetCell{`=INDEX(SHOP.FRACTIONTEXT({10.5;11.25};8);1;2)`, "11 1/4 in"},
		sheetCell{`=INDEX(SHOP.BOARDFEET({12|24};{12|24};{1|0});1)`, 1.0},
		sheetCell{`=INDEX(SHOP.BOARDFEET({12|24};{12|24};{1|0});2)`, table.Num},
		sheetCell{`=SHOP.WHY("BOARDFEET";{12|24};{12|24};{1|0})`, "cell 2: thickness: “0 in”: out of range; want a length above zero"},
	)
}

func fods(rows ...[]string) []byte {
	var b strings.Builder
	b.WriteString(xml.Header + `<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:body><office:spreadsheet><table:table table:name="S">` + "\n")
	for _, r := range rows {
		b.WriteString("<table:table-row>")
		for _, c := range r {
			b.WriteString(c)
		}
		b.WriteString("</table:table-row>\n")
	}
	b.WriteString("</table:table></office:spreadsheet></office:body></office:document>\n")
	return []byte(b.String())
}

func attribute(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}

func formulaCell(f string) string {
	return `<table:table-cell table:formula="of:` + attribute(f) + `"/>`
}

func arrayCell(f string, rows, columns int) string {
	return fmt.Sprintf(`<table:table-cell table:number-matrix-rows-spanned="%d" table:number-matrix-columns-spanned="%d" table:formula="of:%s"/>`, rows, columns, attribute(f))
}

func numberCell(x float64) string {
	return `<table:table-cell office:value-type="float" office:value="` + strconv.FormatFloat(x, 'g', -1, 64) + `"/>`
}

func textCell(s string) string {
	return `<table:table-cell office:value-type="string"><text:p>` + attribute(s) + `</text:p></table:table-cell>`
}

// xlsx writes a plain workbook of formulas in column A, without values, so
// that they are worked out when it is opened.
func xlsx(t testing.TB, formulas []string) []byte {
	t.Helper()
	var rows strings.Builder
	for i, f := range formulas {
		fmt.Fprintf(&rows, `<row r="%d"><c r="A%d"><f>%s</f></c></row>`, i+1, i+1, attribute(f))
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, p := range [][2]string{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + rows.String() + `</sheetData></worksheet>`},
	} {
		w, err := z.Create(p[0])
		require.NoError(t, err)
		_, err = w.Write([]byte(xml.Header + p[1]))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

// a1 turns the separators of OpenFormula into those of other workbooks.
func a1(formula string) string {
	quoted := false
	return strings.Map(func(r rune) rune {
		switch {
		case r == '"':
			quoted = !quoted
		case !quoted && r == ';':
			return ','
		case !quoted && r == '|':
			return ';'
		}
		return r
	}, strings.TrimPrefix(formula, "="))
}

func readCSV(t testing.TB, file string) [][]string {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows
}

func shows(t testing.TB, c sheetCell, got string) {
	t.Helper()
	switch want := c.want.(type) {
	case float64:
		x, err := strconv.ParseFloat(got, 64)
		if assert.NoError(t, err, c.formula) {
			assert.InDelta(t, want, x, 1e-13*math.Max(1, math.Abs(want)), c.formula)
		}
	case table.Code:
		assert.Equal(t, string(want), got, c.formula)
	default:
		assert.Equal(t, want, got, c.formula)
	}
}

func write(t testing.TB, dir, name string, data []byte) string {
	t.Helper()
	file := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(file, data, 0o600))
	return file
}

// utf8 writes commas, double quotes and UTF-8.
const utf8 = "csv:Text - txt - csv (StarCalc):44,34,76"

// Everything that needs the add-in in one test: it is installed once.
func TestAddInInTheSpreadsheet(t *testing.T) {
	o := withAddIn(t)
	dir, out := t.TempDir(), t.TempDir()
	all := cells()
	var rows [][]string
	var formulas []string
	for _, c := range all {
		rows = append(rows, []string{formulaCell(c.formula)})
		formulas = append(formulas, a1(c.formula))
	}
	require.NoError(t, o.Convert(t.Context(), utf8, out,
		write(t, dir, "flat.fods", fods(rows...)), write(t, dir, "other.xlsx", xlsx(t, formulas))))
	for _, file := range []string{"flat.csv", "other.csv"} {
		t.Run(file, func(t *testing.T) {
			got := readCSV(t, filepath.Join(out, file))
			require.Len(t, got, len(all))
			for i, c := range all {
				shows(t, c, got[i][0])
			}
		})
	}

	t.Run("columns", func(t *testing.T) {
		// Three array formulas over the cells of A and B, and one over a cut list.
		sheet := [][]string{
			{numberCell(12), textCell("24 in"), arrayCell("=SHOP.BOARDFEET([.A1:.A4];[.B1:.B4];2)", 4, 1), arrayCell("=SHOP.WHY(\"BOARDFEET\";[.A1:.A4];[.B1:.B4];2)", 1, 1), arrayCell("=SHOP.CUSHIONCUTSIN(22;20;4;0;54)", 2, 4)},
			{numberCell(24), numberCell(24)},
			{"<table:table-cell/>", "<table:table-cell/>"},
			{numberCell(0), numberCell(24)},
		}
		require.NoError(t, o.Convert(t.Context(), utf8, out, write(t, dir, "columns.fods", fods(sheet...))))
		got := readCSV(t, filepath.Join(out, "columns.csv"))
		require.Len(t, got, 4)
		assert.Equal(t, []string{"12", "24 in", "4", "cell 4: length: “0 in”: out of range; want a length above zero", "top plate", "23", "21", "1"}, got[0])
		assert.Equal(t, []string{"24", "24", "8", "", "bottom plate", "23", "21", "1"}, got[1])
		assert.Empty(t, got[2][2], "a blank row has a blank answer")
		assert.Equal(t, "#NUM!", got[3][2], "a row that fails has its own error")
	})

	t.Run("hostile", func(t *testing.T) {
		hostile := [][]string{
			{numberCell(24), numberCell(18), numberCell(2), formulaCell("=SHOP.SUMAREASQFT([.A1:.C2])")},
			{textCell("  "), textCell(""), textCell(""), formulaCell("=SHOP.SUMAREASQFT([.A1:.C1048576])")},
			{textCell("seat"), numberCell(18), numberCell(2), formulaCell("=SHOP.SUMAREASQFT([.A1:.C3])")},
			{textCell("=1+1"), numberCell(1), textCell("20"), formulaCell("=SHOP.READLENGTHIN([.A4])")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.INTOMM([.C4])")},
			{formulaCell("=[.B6]"), formulaCell("=[.A6]"), numberCell(1), formulaCell("=SHOP.INTOMM([.A6])")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.INTOMM(nowhere)")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.SUMAREASQFT([.A1:.AMJ2000])")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.INTOMM([.A1:.C4])")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.INTOMM(1;2;3;4)")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.READLENGTHIN(REPT(\"9\";60000))")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.NOSUCH(1)")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.ALLOWANCEIN(\"=cmd|'/c calc'!A1\")")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.INTOMM(-1.7976931348623157E+308)")},
			{textCell("x"), numberCell(1), numberCell(1), formulaCell("=SHOP.BOARDFEET([.A1];[.B1];[.C1])")},
		}
		begin := time.Now()
		require.NoError(t, o.Convert(t.Context(), "csv", out, write(t, dir, "hostile.fods", fods(hostile...))))
		t.Logf("hostile sheet: %v", time.Since(begin).Round(time.Millisecond))
		got := readCSV(t, filepath.Join(out, "hostile.csv"))
		require.Len(t, got, len(hostile))
		for i, r := range got[:len(got)-1] {
			if i > 0 {
				assert.Regexp(t, `^(#|Err:)`, r[3], hostile[i][3])
			}
		}
		assert.Equal(t, "6", got[0][3])
		assert.Equal(t, "6", got[len(got)-1][3], "the sheet goes on after all that")
		assert.Equal(t, "=1+1", got[3][0], "text stays text")
	})

	t.Run("killed", func(t *testing.T) {
		rows := make([][]string, 10_000)
		for i := range rows {
			rows[i] = []string{formulaCell(fmt.Sprintf("=SHOP.CUTSIZEIN(%d;0.5;3)", i+10))}
		}
		file := write(t, dir, "many.fods", fods(rows...))
		// One child after another is ended while the sheet computes.
		ctx, stop := context.WithCancel(t.Context())
		kills := make(chan int)
		go func() {
			n := 0
			for ctx.Err() == nil && n < 5 {
				time.Sleep(300 * time.Millisecond)
				n += killChildren()
			}
			<-ctx.Done()
			kills <- n
		}()
		begin := time.Now()
		err := o.Convert(t.Context(), "csv", out, file)
		stop()
		n := <-kills
		require.NoError(t, err)
		t.Logf("10,000 formulas with %d children killed: %v, start of the program included", n, time.Since(begin).Round(time.Millisecond))
		assert.Positive(t, n, "no child was found to kill")
		got := readCSV(t, filepath.Join(out, "many.csv"))
		require.Len(t, got, len(rows))
		for i := range got {
			require.Equal(t, strconv.FormatFloat(float64(i)+13.5, 'f', -1, 64), got[i][0])
		}
	})
}

// killedBetweenCalls calls the shim after its child has died unseen: idle, or
// with a request that only the dead child's pipe still holds.
const killedBetweenCalls = `
import sys
sys.path.insert(0, sys.argv[1])
import shop_addin as shim
for i in range(1, 51):
    if shim.CHILD.process is not None:
        shim.CHILD.process.kill()
        shim.CHILD.process.wait()
    print(shim.cells("CUTSIZEIN", (i, 0.5, 3, None))[0][0])
`

func TestChildKilledBetweenCalls(t *testing.T) {
	oxt, err := Pack([]Program{built(t)})
	require.NoError(t, err)
	z, err := zip.NewReader(bytes.NewReader(oxt), int64(len(oxt)))
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, z))
	out, err := exec.CommandContext(t.Context(), python(t), "-c", killedBetweenCalls, dir).CombinedOutput() //nolint:gosec // the test's own words
	require.NoError(t, err, "%s", out)
	var want strings.Builder
	for i := range 50 {
		fmt.Fprintf(&want, "%.1f\n", float64(i)+4.5)
	}
	assert.Equal(t, want.String(), string(out))
}

// withoutItsProgram prints what a cell of the shim shows.
const withoutItsProgram = `
import struct
import sys
sys.path.insert(0, sys.argv[1])
import shop_addin as shim
shown = struct.pack("<d", shim.cells("CUTSIZEIN", (1, 0.5, 3, None))[0][0])
print([code for code, nan in shim.ERRORS.items() if struct.pack("<d", nan) == shown])
`

func TestAddInForAnotherPlatformShowsAnError(t *testing.T) {
	other := Platform{"windows", "arm64"}
	oxt, err := Pack([]Program{{Platform: other, Data: built(t).Data}})
	require.NoError(t, err)
	z, err := zip.NewReader(bytes.NewReader(oxt), int64(len(oxt)))
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, z))
	out, err := exec.CommandContext(t.Context(), python(t), "-c", withoutItsProgram, dir).CombinedOutput() //nolint:gosec // the test's own words
	require.NoError(t, err, "%s", out)
	assert.Equal(t, "['#VALUE!']\n", string(out))
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

// killChildren ends the filters that run out of an extension folder.
func killChildren() int {
	links, _ := filepath.Glob("/proc/[0-9]*/exe")
	n := 0
	for _, link := range links {
		exe, err := os.Readlink(link)
		if err != nil || !strings.HasSuffix(exe, "/shop.oxt/lib/sheet-"+runtime.GOOS+"-"+runtime.GOARCH) {
			continue
		}
		pid, err := strconv.Atoi(filepath.Base(filepath.Dir(link)))
		if err != nil {
			continue
		}
		if p, err := os.FindProcess(pid); err == nil && p.Kill() == nil {
			n++
		}
	}
	return n
}

// The time of 10,000 live formulas is that of a sheet with them less that of
// an empty one.
func BenchmarkTenThousandFormulas(b *testing.B) {
	o := withAddIn(b)
	dir, out := b.TempDir(), b.TempDir()
	rows := make([][]string, 10_000)
	for i := range rows {
		rows[i] = []string{formulaCell(fmt.Sprintf("=SHOP.CUTSIZEIN(%d;0.5;3)", i+10))}
	}
	full := write(b, dir, "full.fods", fods(rows...))
	for i := range rows {
		rows[i] = []string{formulaCell(fmt.Sprintf("=SUM(%d;0.5;3)", i+10))}
	}
	plain := write(b, dir, "plain.fods", fods(rows...))
	convert := func(file string) time.Duration {
		begin := time.Now()
		require.NoError(b, o.Convert(b.Context(), "csv", out, file))
		return time.Since(begin)
	}
	convert(plain)
	var with, without time.Duration
	for b.Loop() {
		without += convert(plain)
		with += convert(full)
	}
	b.ReportMetric((with-without).Seconds()/float64(b.N), "s/10k-formulas")
}
