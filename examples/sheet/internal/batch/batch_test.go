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

func run(t *testing.T, name, in string) (string, Summary) {
	t.Helper()
	f, ok := table.Find(name)
	require.True(t, ok)
	var out bytes.Buffer
	sum, err := Run(f, strings.NewReader(in), &out)
	require.NoError(t, err)
	return out.String(), sum
}

func TestRows(t *testing.T) {
	got, sum := run(t, "BOARDFEET", "\ufeffpart,width_in,length_in,thickness_in,count\n"+
		"seat,24,24,4,2\nback,12,24,x,1\n=cmd(),24,0,4,1\npad,24,24,4,\n-5,1,1,1,1e999\n")
	assert.Equal(t, Summary{5, 3}, sum)
	rows, err := csv.NewReader(strings.NewReader(got)).ReadAll()
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
	got, sum := run(t, "sumAreaSqft", "name;Pieces_in\r\nseat;\"24 24 2; 18 12 6\"\r\n")
	assert.Equal(t, Summary{1, 0}, sum)
	assert.Contains(t, got, ";17;")
	got, _ = run(t, "SPLIT", "whole\tcount\n100.01\t2\n")
	assert.Contains(t, got, "50.01; 50")
	got, _ = run(t, "cutSizeIn", "finished_in,first_in,second_in,stretch\n652 mm,1/2 in,0.5,\n25,0.5,0.5,2.5 %\n")
	assert.Contains(t, got, "652 mm,1/2 in,0.5,,26.669291338582678,\n25,0.5,0.5,2.5 %,25.375,\n")
	got, _ = run(t, "priceLine", "quantity,unit_cost,markup\n2.25,68,35 %\n")
	assert.Contains(t, got, `2.25,68,35 %,153 206.55 0 0 206.55,`)
	_, sum = run(t, "markupPrice", "cost,markup\n19.99,25\n19.99,25%\n")
	assert.Equal(t, Summary{2, 1}, sum)
	got, _ = run(t, "FRACTIONTEXT", "length_in,parts\n25.625,8\n")
	assert.Contains(t, got, "25 5/8 in")
	got, sum = run(t, "READLENGTHIN", "length_text\n'-3 in\n=3 in\n")
	assert.Equal(t, Summary{2, 1}, sum)
	assert.Contains(t, got, "'-3 in,-3,")
}

func TestBadFilesAreRefused(t *testing.T) {
	f, _ := table.Find("BOARDFEET")
	for in, want := range map[string]string{
		"":                          "empty",
		"length_in,width_in\n1,2\n": `no column "thickness_in"`,
		"length_in,length_in,width_in,thickness_in\n": "twice",
		"length_in,width_in,thickness_in,result\n":    "already",
		"length_in,width_in,thickness_in\n1,2\n":      "wrong number of fields",
		"length_in,width_in,thickness_in\n\"1,2\n":    `quote`,
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
			if _, err := figure(strings.TrimSpace(g)); err != nil {
				t.Fatalf("%q is written as %q", s, g)
			}
		}
		if g != s && unguard(g) != s {
			t.Fatalf("%q, %q, %q", s, g, unguard(g))
		}
	})
}

func FuzzBatch(f *testing.F) {
	f.Add("length_in,width_in,thickness_in\n24,24,4\n", "BOARDFEET")
	f.Add("size;fibre;stitches_per_in\n92;nylon;7\n\"=1\";;\n", "SEAMSTRENGTHLBFIN")
	f.Add("pieces\n1 2 3; 4\n", "SUMAREASQFT")
	f.Fuzz(func(t *testing.T, in, name string) {
		fn, ok := table.Find(name)
		if !ok {
			return
		}
		var out bytes.Buffer
		if _, err := Run(fn, strings.NewReader(in), &out); err != nil {
			return
		}
		r := csv.NewReader(&out)
		if line, _, _ := strings.Cut(out.String(), "\n"); strings.Contains(line, "\t") {
			r.Comma = '\t'
		} else if strings.Contains(line, ";") {
			r.Comma = ';'
		}
		rows, err := r.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows[1:] {
			if n := len(row); row[n-1] != "" && row[n-2] != "" {
				t.Fatalf("%q has a result and an error", row)
			}
		}
	})
}
