package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func bench(t *testing.T, in string, args ...string) (code int, out, errOut string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(context.Background(), args, stdio{strings.NewReader(in), &o, &e})
	return code, o.String(), e.String()
}

func TestRectPublic(t *testing.T) {
	code, out, _ := bench(t, "", "rect", "testdata/public.json", "-effort", "0.05", "-csv")
	require.Equal(t, 0, code)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	assert.Equal(t, "name,n,height,bound,optimum,gap,seconds,verified", strings.Join(rows[0], ","))
	assert.Equal(t, []string{"C1-P1", "16", "20", "20", "20", "0.0000"}, rows[1][:6])
	assert.Equal(t, []string{"gcut01", "10", "1016", "1016", "1016", "0.0000"}, rows[2][:6])
	assert.Equal(t, "yes", rows[1][7])

	code, out, _ = bench(t, "", "rect", "-rotate", "-effort=0.05", "testdata/public.json")
	require.Equal(t, 0, code)
	assert.Contains(t, out, "696")
	assert.Contains(t, out, "2 verified")
}

// The committed dissections are what the generator writes.
func TestDissectCommitted(t *testing.T) {
	code, out, _ := bench(t, "", "dissect", "-size", "20x20x16", "-size", "60x30x28", "-size", "60x90x73", "-seed", "501")
	require.Equal(t, 0, code)
	want, err := os.ReadFile("testdata/dissected.json")
	require.NoError(t, err)
	assert.Equal(t, string(want), out)
}

// The suite is generated alike each time, its pieces are as many as it says, and the smallest set is laid as the table has it.
func TestOwnSuite(t *testing.T) {
	sets, err := ownSets(1)
	require.NoError(t, err)
	again, err := ownSets(1)
	require.NoError(t, err)
	require.Equal(t, sets, again)
	for _, s := range sets {
		for _, in := range s.each {
			n := 0
			for _, p := range in.job.Pieces {
				n += p.Count
				require.Equal(t, s.turning, p.Turns != 0)
			}
			require.Equal(t, s.pieces, n, in.name)
			require.NoError(t, in.job.Validate())
		}
	}
	code, out, errOut := bench(t, "", "own", "-group", "waste", "-pieces", "17", "-efforts", "0.01,0.1")
	require.Equal(t, 0, code, errOut)
	assert.Contains(t, out, "| 8 without waste | 17 | no | 0.1 | 0.00 % |")
	one := digests(t, "-workers", "1")
	assert.Len(t, one, 8)
	assert.Equal(t, one, digests(t, "-workers", "2"), "the same plans for any number of workers")

	readme := filepath.Join(t.TempDir(), "README.md")
	kept := "| 8 without waste | 25 | no | 1 | 0.12 % | 1.00 % | 0.3 |\n"
	require.NoError(t, os.WriteFile(readme, []byte("a\n"+ownFrom+ownHead+"| 8 without waste | 17 | no | 0.1 | 9.00 % | 9.00 % | 9.0 |\n"+kept+ownTo+"z\n"), 0o600))
	code, out, errOut = bench(t, "", "own", "-group", "waste", "-pieces", "17", "-efforts", "0.1,0.01", "-readme", readme)
	require.Equal(t, 0, code, errOut)
	lines := slices.Collect(strings.Lines(strings.TrimPrefix(out, ownHead)))
	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	assert.Equal(t, "a\n"+ownFrom+ownHead+lines[0]+kept+lines[1]+ownTo+"z\n", string(data))

	for _, args := range [][]string{{"own", "a.json"}, {"own", "-workers", "-1"}, {"own", "-efforts", "1,x"}, {"own", "-efforts", "0"}, {"own", "-unknown"}} {
		code, _, _ := bench(t, "", args...)
		assert.Equal(t, 2, code, args)
	}
}

// digests are those of the plans of a small group.
func digests(t *testing.T, args ...string) []string {
	code, out, errOut := bench(t, "", append([]string{"own", "-group", "waste", "-pieces", "29", "-efforts", "0.01", "-each"}, args...)...)
	require.Equal(t, 0, code, errOut)
	var all []string
	for line := range strings.Lines(out) {
		if _, d, ok := strings.Cut(line, ", plan "); ok {
			all = append(all, d)
		}
	}
	return all
}

func TestRectDecimals(t *testing.T) {
	in := `{"instances":[{"name":"inches","strip_width":54.0,"opt_fixed":24.125,"other":{"x":[1]},
	  "items":[[27,24.125,2.0],[1.5e1,1e-1]]}]}`
	code, out, errOut := bench(t, in, "rect", "-", "-csv")
	require.Equal(t, 0, code, errOut)
	assert.Contains(t, out, "inches,3,24.225,24.225,24.125,0.0000,")
	// float noise is cut, not refused
	in = `{"instances":[{"strip_width":1,"items":[[0.30000000000000004,1,1],[0.7,1,1]]}]}`
	code, out, errOut = bench(t, in, "rect", "-", "-csv")
	require.Equal(t, 0, code, errOut)
	assert.Contains(t, out, "instance 1,2,1,1,,0.0000,")
	assert.Contains(t, errOut, "cut to")
}

func TestBadInput(t *testing.T) {
	for name, in := range map[string]string{
		"empty":             ``,
		"not JSON":          `{"instances":[`,
		"no instances":      `{}`,
		"NaN":               `{"instances":[{"strip_width":NaN,"items":[[1,1,1]]}]}`,
		"no width":          `{"instances":[{"items":[[1,1,1]]}]}`,
		"no items":          `{"instances":[{"strip_width":5,"items":[]}]}`,
		"negative width":    `{"instances":[{"strip_width":-5,"items":[[1,1,1]]}]}`,
		"zero size":         `{"instances":[{"strip_width":5,"items":[[0,1,1]]}]}`,
		"negative size":     `{"instances":[{"strip_width":5,"items":[[1,-0.5,1]]}]}`,
		"zero count":        `{"instances":[{"strip_width":5,"items":[[1,1,0]]}]}`,
		"negative count":    `{"instances":[{"strip_width":5,"items":[[1,1,-3]]}]}`,
		"half a piece":      `{"instances":[{"strip_width":5,"items":[[1,1,1.5]]}]}`,
		"too many":          `{"instances":[{"strip_width":5,"items":[[1,1,1000000000]]}]}`,
		"too many in all":   `{"instances":[{"strip_width":5,"items":[[1,1,19999],[1,1,19999]]}]}`,
		"one number":        `{"instances":[{"strip_width":5,"items":[[1]]}]}`,
		"four numbers":      `{"instances":[{"strip_width":5,"items":[[1,1,1,1]]}]}`,
		"words":             `{"instances":[{"strip_width":5,"items":[["a",1,1]]}]}`,
		"wider than strip":  `{"instances":[{"strip_width":5,"items":[[6,1,1]]}]}`,
		"huge exponent":     `{"instances":[{"strip_width":5,"items":[[1e999999999,1,1]]}]}`,
		"large exponent":    `{"instances":[{"strip_width":5,"items":[[1,1e300,1]]}]}`,
		"far apart":         `{"instances":[{"strip_width":1e15,"items":[[1e-9,1,1]]}]}`,
		"instances no list": `{"instances":{"strip_width":5}}`,
		"bad optimum":       `{"instances":[{"strip_width":5,"opt_fixed":-1,"items":[[1,1,1]]}]}`,
	} {
		t.Run(name, func(t *testing.T) {
			code, out, errOut := bench(t, in, "rect", "-")
			assert.Equal(t, 2, code)
			assert.Empty(t, out)
			assert.NotEmpty(t, errOut)
			assert.Less(t, len(errOut), 300)
		})
	}
}

func TestBadArguments(t *testing.T) {
	for _, args := range [][]string{
		{}, {"nothing"}, {"rect"}, {"rect", "a.json", "b.json"}, {"rect", "-effort", "x", "a.json"},
		{"rect", "-effort", "NaN", "testdata/public.json"}, {"rect", "-effort", "0", "testdata/public.json"},
		{"rect", "-seed", "-1", "testdata/public.json"}, {"rect", "testdata/none.json"}, {"rect", "-unknown", "a"},
		{"dissect"}, {"dissect", "-size", "1x2"}, {"dissect", "-size", "2x2x9"}, {"dissect", "-size", "5x5x2", "-seeds", "0"},
	} {
		code, _, errOut := bench(t, "", args...)
		assert.Equal(t, 2, code, args)
		assert.NotEmpty(t, errOut, args)
	}
	code, out, _ := bench(t, "", "help")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "rect")
}

func FuzzReadRects(f *testing.F) {
	files, _ := filepath.Glob("testdata/*.json")
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(`{"instances":[{"strip_width":1.25e1,"opt_fixed":null,"items":[["3",1e-3],[0.1,7,2.0]]}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, rotate := range []bool{false, true} {
			ins, err := readRects(data, rotate)
			if err != nil {
				var in inputError
				require.ErrorAs(t, err, &in)
				continue
			}
			for i := range ins {
				require.NoError(t, ins[i].job.Validate())
				require.Positive(t, ins[i].count)
			}
		}
	})
}
