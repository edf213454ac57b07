package batch

import (
	"bytes"
	"encoding/csv"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

func ran(t *testing.T, name, in string) (string, Summary) {
	t.Helper()
	f, ok := table.Find(name)
	require.True(t, ok)
	var out bytes.Buffer
	sum, err := Run(f, strings.NewReader(in), &out)
	require.NoError(t, err)
	return out.String(), sum
}

func TestRows(t *testing.T) {
	got, sum := ran(t, "BOARDFEET", "\ufeffpart,width_in,length_in,thickness_in,count\n"+
		"seat,24,24,4,2\nback,12,24,x,1\n=cmd(),24,0,4,1\npad,24,24,4,\n-5,1,1,1,1e999\n")
	assert.Equal(t, Summary{5, 3}, sum)
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(got, byteOrderMark))).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"part", "width_in", "length_in", "thickness_in", "count", "result", "error"}, rows[0])
	assert.Equal(t, []string{"32", ""}, rows[1][5:])
	assert.Equal(t, []string{"", "#VALUE! thickness_in: “x”: not a quantity; want a length such as 25 5/8 in"}, rows[2][5:])
	assert.Equal(t, "'=cmd()", rows[3][0])
	assert.Contains(t, rows[3][6], "#NUM!")
	assert.Equal(t, []string{"16", ""}, rows[4][5:])
	assert.Equal(t, "-5", rows[5][0], "a number stays a number")
	assert.Contains(t, rows[5][6], "#NUM!")
}

func TestOtherSeparatorsRangesAndTexts(t *testing.T) {
	got, sum := ran(t, "sumAreaSqft", "name;Pieces_in\r\nseat;\"24 24 2; 18 12 6\"\r\n")
	assert.Equal(t, Summary{1, 0}, sum)
	assert.Contains(t, got, ";17;")
	got, _ = ran(t, "SPLIT", "whole\tcount\n100.01\t2\n")
	assert.Contains(t, got, "50.01; 50")
	got, _ = ran(t, "cutSizeIn", "finished_in,first_in,second_in,stretch\n652 mm,1/2 in,0.5,\n25,0.5,0.5,2.5 %\n")
	assert.Contains(t, got, "652 mm,1/2 in,0.5,,26.669291338582678,\n25,0.5,0.5,2.5 %,25.375,\n")
	got, _ = ran(t, "priceLine", "quantity,unit_cost,markup\n2.25,68,35 %\n")
	assert.Contains(t, got, `2.25,68,35 %,153 206.55 0 0 206.55,`)
	_, sum = ran(t, "markupPrice", "cost,markup\n19.99,25\n19.99,25%\n")
	assert.Equal(t, Summary{2, 1}, sum)
	got, _ = ran(t, "FRACTIONTEXT", "length_in,parts\n25.625,8\n")
	assert.Contains(t, got, "25 5/8 in")
	got, sum = ran(t, "READLENGTHIN", "length_text\n'-3 in\n=3 in\n")
	assert.Equal(t, Summary{2, 1}, sum)
	assert.Contains(t, got, "'-3 in,-3,")
}

func TestBadFilesAreRefused(t *testing.T) {
	f, _ := table.Find("BOARDFEET")
	for in, want := range map[string]string{
		"":                          "empty",
		"length_in,width_in\n1,2\n": `no column "thickness_in"`,
		"length_in,length_in,width_in,thickness_in\n":     "twice",
		"length_in,width_in,thickness_in,result\n":        "already",
		"length_in,width_in,thickness_in\n1,1,1\n\"1,2\n": "line 3: a quote is not closed",
		"length_in,width_in,thickness_in,\"a\"b\n":        "quote",
	} {
		_, err := Run(f, strings.NewReader(in), io.Discard)
		assert.ErrorContains(t, err, want, in)
	}
	_, err := Run(f, io.LimitReader(endless{}, 1<<40), io.Discard)
	assert.ErrorContains(t, err, "1 MiB")
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

// Whatever a cell holds, what is written does not begin like a formula unless
// it is a plain number, and reads back as it was.
func TestNothingIsRunAsAFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(rapid.StringMatching(`[ \t]{0,2}[=+@|%-][ -~]{0,8}`), rapid.String()).Draw(t, "cell")
		g := guard(s)
		first := strings.TrimLeft(g, " \t\r\n\u00a0\ufeff")
		if first != "" && strings.ContainsRune("=+-@|%", rune(first[0])) {
			if !isNumber(strings.TrimSpace(g)) {
				t.Fatalf("%q is written as %q", s, g)
			}
		}
		if g != s && unguard(g) != s {
			t.Fatalf("%q, %q, %q", s, g, unguard(g))
		}
	})
}

// Files as programs of other lands write them come back as they were, with two
// columns more.
func TestFilesKeepTheirForm(t *testing.T) {
	const head = "part;length_in;width_in;thickness_in"
	for _, c := range []struct{ name, in, want string }{
		{"decimal commas, a mark, carriage returns", "\ufeff" + head + "\r\nseat;25,5;24;4,5\r\n", "\ufeff" + head + ";result;error\r\nseat;25,5;24;4,5;19,125;\r\n"},
		{"decimal points between semicolons", head + "\na;24.5;24;3\n", head + ";result;error\na;24.5;24;3;12.25;\n"},
		{"the sign is that of later rows", head + "\na;1;18;3\nb;24.5;24;3\n", head + ";result;error\na;1;18;3;0.375;\nb;24.5;24;3;12.25;\n"},
		{"semicolons without a fraction", head + "\na;1;18;3\n", head + ";result;error\na;1;18;3;0,375;\n"},
		{"commas between commas", "length_in,width_in,thickness_in\n\"24,5\",24,3\n", "length_in,width_in,thickness_in,result,error\n\"24,5\",24,3,\"12,25\",\n"},
		{"blank rows and the last without an end", head + "\n\n;;;\n \t;;;\n\na;24;24;4", head + ";result;error\n\n;;;;;\n \t;;;;;\n\na;24;24;4;16;"},
		{"quotes stay", "\"part\",length_in,width_in,thickness_in\n\"a \"\"b\"\",\nc\",\"24\",24,4\n", "\"part\",length_in,width_in,thickness_in,result,error\n\"a \"\"b\"\",\nc\",\"24\",24,4,16,\n"},
		{"an inch sign", head + "\n24\" seat;24;24;4\n", head + ";result;error\n\"24\"\" seat\";24;24;4;16;\n"},
		{"formulas", head + "\n=1+1;24;24;4\n\"@a\";24;24;4\n-5,5;24;24;4\n", head + ";result;error\n'=1+1;24;24;4;16;\n'@a;24;24;4;16;\n-5,5;24;24;4;16;\n"},
		{"another charset is carried along", head + "\nSitzfl\xe4che;24;24;4\n", head + ";result;error\nSitzfl\xe4che;24;24;4;16;\n"},
	} {
		got, sum := ran(t, "BOARDFEET", c.in)
		assert.Equal(t, c.want, got, c.name)
		assert.Zero(t, sum.Errors, c.name)
	}
}

// A row that cannot be read has an error of its own and keeps its place.
func TestOneRowSpoilsNoOther(t *testing.T) {
	got, sum := ran(t, "BOARDFEET", "length_in;width_in;thickness_in\n24;24\n24,0;24;4;;\n24;24;4;x\n\"2\"4;24;4\n24.5;24;4\n24,5;24;3\n1.234,5;1;1\n24,5 in;24;3\n")
	lines := strings.Split(got, "\n")
	require.Len(t, lines, 10)
	assert.Equal(t, Summary{8, 5}, sum)
	for i, want := range []string{
		1: "24;24;;;#VALUE! the row has 2 cells", 2: "24,0;24;4;16;;;", 3: `24;24;4;;"#VALUE! the row has 4 cells, the header 3; those past it stand after the error";x`,
		4: `"""2""4";24;4;;#VALUE! a quote ends within a cell`, 5: "decimal comma", 6: "24,5;24;3;12,25;", 7: "decimal comma", 8: "24,5 in;24;3;12,25;",
	} {
		assert.Contains(t, lines[i], want)
	}
}

// drawn gives a file as rows of cells, and writes it with a separator and line
// ends of its own.
func drawn(t *rapid.T) (rows [][]string, file string, sep rune) {
	sep = rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "separator")
	end := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "end")
	number := rapid.OneOf(rapid.SampledFrom([]string{"24", "0", "-3", "2.5", "x", "", "24 in"}), rapid.StringMatching(`[0-9]{1,3}`))
	rows = [][]string{{"note", "length_in", "width_in", "thickness_in"}}
	for range rapid.IntRange(0, 8).Draw(t, "rows") {
		row := []string{rapid.OneOf(rapid.StringMatching(`[ -~]{0,6}`), rapid.StringMatching("a[\"\n,;\t=a]{0,4}")).Draw(t, "note")}
		for range rapid.SampledFrom([]int{0, 2, 3, 3, 3, 3, 4}).Draw(t, "more") {
			row = append(row, number.Draw(t, "number"))
		}
		rows = append(rows, row)
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Comma, w.UseCRLF = sep, end == "\r\n"
	for _, row := range rows {
		if len(row) == 1 && row[0] == "" {
			row[0] = "-"
		}
		if err := w.Write(row); err != nil {
			t.Fatal(err)
		}
	}
	w.Flush()
	return rows, b.String(), sep
}

// As many rows come out as went in, each with the cells it had, and a result or
// an error in the columns for them.
func TestRowsStay(t *testing.T) {
	f, _ := table.Find("BOARDFEET")
	rapid.Check(t, func(t *rapid.T) {
		rows, in, sep := drawn(t)
		var out bytes.Buffer
		if _, err := Run(f, strings.NewReader(in), &out); err != nil {
			t.Fatal(err)
		}
		r := csv.NewReader(&out)
		r.Comma, r.FieldsPerRecord = sep, -1
		got, err := r.ReadAll()
		if err != nil || len(got) != len(rows) {
			t.Fatalf("%d rows of %d: %v", len(got), len(rows), err)
		}
		for i, row := range rows {
			var had, want []string
			for k, cell := range got[i] {
				if k != len(rows[0]) && k != len(rows[0])+1 && (k < len(row) || k > len(rows[0])+1) {
					had = append(had, cell)
				}
			}
			for _, cell := range row { // one that would be run has an apostrophe before it
				want = append(want, guard(cell))
			}
			if strings.Join(had, "\x00") != strings.ReplaceAll(strings.Join(want, "\x00"), "\r\n", "\n") {
				t.Fatalf("row %q is written as %q", row, got[i])
			}
			if i > 0 && strings.TrimSpace(strings.Join(row, "")) != "" && (got[i][4] == "") == (got[i][5] == "") {
				t.Fatalf("%q has no answer", got[i])
			}
		}
	})
}

func FuzzBatch(f *testing.F) {
	f.Add("length_in,width_in,thickness_in\n24,24,4\n", "BOARDFEET")
	f.Add("size;fibre;stitches_per_inch\n92;nylon;7\n\"=1\";;\n", "SEAMSTRENGTHLBFIN")
	f.Add("pieces_in\n1 2 3; 4\n", "SUMAREASQFT")
	f.Fuzz(func(t *testing.T, in, name string) {
		fn, ok := table.Find(name)
		if !ok {
			return
		}
		var out bytes.Buffer
		sum, err := Run(fn, strings.NewReader(in), &out)
		if err != nil {
			return
		}
		text := out.String()
		r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, byteOrderMark)))
		r.Comma = rune(separator([]byte(in)))
		r.FieldsPerRecord = -1
		if strings.Contains(text, "internal fault") && !strings.Contains(in, "internal fault") {
			t.Fatal(text)
		}
		rows, err := r.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		n := len(rows[0])
		answers := 0
		for _, row := range rows[1:] {
			if len(row) < n || row[n-1] != "" && row[n-2] != "" {
				t.Fatalf("%q has no place for its answer, or two answers", row)
			}
			if row[n-1] != "" || row[n-2] != "" {
				answers++
			}
		}
		if answers > sum.Rows || sum.Rows > len(rows)-1 {
			t.Fatalf("%d answers and %d rows for %d rows", answers, len(rows)-1, sum.Rows)
		}
		// Read by another reader, as many rows went in.
		was := csv.NewReader(strings.NewReader(strings.TrimPrefix(in, byteOrderMark)))
		was.Comma, was.FieldsPerRecord = r.Comma, -1
		if before, err := was.ReadAll(); err == nil && len(before) != len(rows) {
			t.Fatalf("%d rows come of %d", len(rows), len(before))
		}
	})
}

// A sign that may stand between thousands does not say that it is the decimal one.
func TestThousandsAreNoFractions(t *testing.T) {
	for in, want := range map[string]string{
		"cost,markup\n\"1,200\",25%\n":                 "a number with a decimal point is wanted",
		"cost,markup\n\"1,250\",25%\n\"980.50\",25%\n": `"980.50",25%,1225.63`,
		"net_sqft;hide_sqft;waste\n1.250;50;33%\n":     "a number with a decimal comma is wanted",
		"net_sqft;hide_sqft;waste\n1.250;50,5;33%\n":   "a number with a decimal comma is wanted",
	} {
		name := "HIDESTOBUY"
		if strings.HasPrefix(in, "cost") {
			name = "MARKUPPRICE"
		}
		out, _ := ran(t, name, in)
		assert.Contains(t, out, want, in)
	}
}
