package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/pack/nest"
)

// The published set: 28 pieces of area 324 on a strip of width 15.
func TestStripPublic(t *testing.T) {
	code, out, errOut := bench(t, "", "strip", "-csv", "testdata/curved.json", "-effort", "8", "-seed=2")
	require.Equal(t, 0, code, errOut)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 2)
	assert.Equal(t, "name,pieces,length,density,seconds,verified", strings.Join(rows[0], ","))
	assert.Equal(t, []string{"blaz", "28"}, rows[1][:2])
	assert.Equal(t, "yes", rows[1][5])
	length, err := strconv.ParseFloat(rows[1][2], 64)
	require.NoError(t, err)
	density, err := strconv.ParseFloat(rows[1][3], 64)
	require.NoError(t, err)
	assert.InDelta(t, 100*324/(15*length), density, 0.001)
	assert.Greater(t, density, 74.0, "worse than plain bottom-left fill")
	assert.Less(t, density, 86.3, "better than the best known")
}

func TestStripInstances(t *testing.T) {
	in := `{"instances":[
	  {"name":"a, b","strip_width":2.5,"extra":1,"items":[{"id":7,"qty":2,"pts":[[0,0],[1.25,0],[1.25,1],[0,1]],"color":"red"}]},
	  {"strip_width":3,"items":[{"id":"t","rot":[0,90],"pts":[[0,0],[2,0],[2,2],[0,0]]}]}]}`
	code, out, errOut := bench(t, in, "strip", "-", "-csv", "-effort=1")
	require.Equal(t, 0, code, errOut)
	assert.Contains(t, out, "\"a, b\",2,1.25,80.000,")
	assert.Contains(t, out, "instance 2,1,2,33.333,")
	code, out, _ = bench(t, in, "strip", "-", "-effort=1")
	require.Equal(t, 0, code)
	assert.Contains(t, out, "verified yes")
}

func TestStripBadInput(t *testing.T) {
	for name, in := range map[string]string{
		"not JSON":      `{"items":[`,
		"empty":         `{}`,
		"no width":      `{"items":[{"pts":[[0,0],[1,0],[1,1]]}]}`,
		"huge width":    `{"strip_width":1e300,"items":[{"pts":[[0,0],[1,0],[1,1]]}]}`,
		"two corners":   `{"strip_width":5,"items":[{"pts":[[0,0],[1,0]]}]}`,
		"no points":     `{"strip_width":5,"items":[{"id":"x"}]}`,
		"three numbers": `{"strip_width":5,"items":[{"pts":[[0,0,0],[1,0],[1,1]]}]}`,
		"no area":       `{"strip_width":5,"items":[{"pts":[[0,0],[1,1],[2,2]]}]}`,
		"crosses":       `{"strip_width":5,"items":[{"pts":[[0,0],[2,2],[2,0],[0,1]]}]}`,
		"too wide":      `{"strip_width":5,"items":[{"pts":[[0,0],[6,0],[6,6],[0,6]]}]}`,
		"zero count":    `{"strip_width":5,"items":[{"qty":0,"pts":[[0,0],[1,0],[1,1]]}]}`,
		"NaN":           `{"strip_width":NaN,"items":[{"pts":[[0,0],[1,0],[1,1]]}]}`,
		"huge number":   `{"strip_width":5,"items":[{"pts":[[0,0],[1e999,0],[1,1]]}]}`,
		"far too big":   `{"strip_width":5,"items":[{"pts":[[0,0],[1e308,0],[1,1e308]]}]}`,
		"mad count":     `{"strip_width":5,"items":[{"qty":1e300,"pts":[[0,0],[1,0],[1,1]]}]}`,
		"half a piece":  `{"strip_width":5,"items":[{"qty":1.5,"pts":[[0,0],[1,0],[1,1]]}]}`,
		"too many":      `{"strip_width":5,"items":[{"qty":1000000,"pts":[[0,0],[1,0],[1,1]]}]}`,
		"text":          `{"strip_width":5,"items":[{"pts":[["a",0],[1,0],[1,1]]}]}`,
		"one point far": `{"strip_width":5,"items":[{"pts":[[0,0],[1e12,0],[1,1]]}]}`,
		"mad angle":     `{"strip_width":5,"items":[{"rot":[1e99],"pts":[[0,0],[1,0],[1,1]]}]}`,
	} {
		code, out, errOut := bench(t, in, "strip", "-", "-effort=1")
		assert.Equal(t, 2, code, name)
		assert.Empty(t, out, name)
		assert.NotEmpty(t, errOut, name)
	}
	code, _, _ := bench(t, "", "strip", "testdata/curved.json", "-effort=0")
	assert.Equal(t, 2, code)
}

// Any text: typed errors or a job the engine accepts or refuses with a
// typed error of its own; no panic.
func FuzzReadStrips(f *testing.F) {
	data, err := os.ReadFile("testdata/curved.json")
	require.NoError(f, err)
	f.Add(data)
	f.Add([]byte(`{"strip_width":5,"items":[{"id":1,"qty":2.0,"rot":[0,90.5],"pts":[[0,0],[1,0],[1,1e0]],"more":{"x":[1]}}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := readStrips("-", stdio{in: bytes.NewReader(data)})
		if err != nil {
			require.ErrorAs(t, err, new(inputError))
			return
		}
		ctx, cancel := context.WithCancel(context.Background())
		cancel() // the first layout only
		for i := range list {
			job, unit, err := list[i].job()
			if err != nil {
				require.ErrorAs(t, err, new(inputError))
				continue
			}
			require.Positive(t, unit)
			require.False(t, math.IsNaN(list[i].area()) || math.IsInf(list[i].area(), 0))
			pieces, corners := 0, 0
			for _, p := range job.Pieces {
				pieces += p.Count
				corners += len(p.Ring)
			}
			if pieces > 12 || corners > 60 {
				continue
			}
			job.Effort = 1
			if lay, err := nest.Strip(ctx, job); err != nil {
				require.ErrorAs(t, asInput("", err), new(inputError))
			} else {
				require.LessOrEqual(t, lay.Density(job.Width), 1.0)
			}
		}
	})
}

func FuzzReadHides(f *testing.F) {
	f.Add([]byte(twoHides), []byte(`{"name":"seat","hides":["H02"],"items":[{"id":"a","qty":3,"min_quality":null,"pts":[[0,0],[20,0],[22,20],[0,18]]}]}`))
	f.Add([]byte(`{"hides":[{"id":7,"outer":[[0,0],[9,0],[9,9],[0,9]],"zones":[{"q":1.0,"pts":[[1,1],[2,1],[2,2]]}]}]}`), []byte(`{"hides":[7],"items":[{"pts":[[0,0],[1,0],[1,1]],"min_quality":2.0}]}`))
	f.Fuzz(func(t *testing.T, hides, test []byte) {
		var stock hideStock
		var pieces hideTest
		if readJSON("-", stdio{in: bytes.NewReader(hides)}, &stock) != nil || readJSON("-", stdio{in: bytes.NewReader(test)}, &pieces) != nil {
			return
		}
		job, err := hideJob(stock, pieces)
		if err != nil {
			require.ErrorAs(t, err, new(inputError))
			return
		}
		for _, p := range job.Pieces {
			require.Positive(t, p.Count)
		}
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		corners := 0
		for _, h := range job.Hides {
			corners += len(h.Outer) + 30*(len(h.Holes)+len(h.Zones))
		}
		if len(job.Pieces) == 1 && job.Pieces[0].Count < 4 && len(job.Hides) == 1 && corners < 150 {
			job.Effort = 1
			if _, err := nest.Hides(ctx, job); err != nil {
				require.ErrorAs(t, asInput("", err), new(inputError))
			}
		}
	})
}

const twoHides = `{"hides":[
 {"id":"H01","outer":[[0,0],[100,0],[110,60],[50,90],[-10,60]],"holes":[[[48,40],[52,40],[52,44],[48,44]]],"zones":[{"q":1,"pts":[[0,0],[40,0],[40,30],[0,30]]}],"owner":"x"},
 {"id":"H02","outer":[[0,0],[80,0],[80,80],[0,80]]}]}`

func TestHidesCommand(t *testing.T) {
	dir := t.TempDir()
	hides, test := filepath.Join(dir, "h.json"), filepath.Join(dir, "t.json")
	require.NoError(t, os.WriteFile(hides, []byte(twoHides), 0o600))
	put := func(s string) { require.NoError(t, os.WriteFile(test, []byte(s), 0o600)) }
	put(`{"name":"seat","hides":["H01","H02"],"items":[{"id":"a","qty":3,"min_quality":1,"pts":[[0,0],[20,0],[22,20],[0,18]]},
	  {"id":"b","qty":1,"min_quality":null,"pts":[[0,0],[30,0],[30,30],[0,30]]}]}`)
	for _, args := range [][]string{{"hides", hides, test, "-effort", "4", "-csv"}, {"hides", "-baseline", hides, "-csv", test}} {
		code, out, errOut := bench(t, "", args...)
		require.Equal(t, 0, code, errOut)
		rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		require.NoError(t, err)
		assert.Equal(t, "name,hides,least,utilisation,placed,pieces,seconds,verified", strings.Join(rows[0], ","))
		assert.Equal(t, []string{"seat", "1", "1"}, rows[1][:3])
		assert.Equal(t, []string{"4", "4"}, rows[1][4:6])
		assert.Equal(t, "yes", rows[1][7])
	}
	for name, s := range map[string]string{
		"unknown hide": `{"hides":["H09"],"items":[{"pts":[[0,0],[1,0],[1,1]]}]}`,
		"named twice":  `{"hides":["H01","H01"],"items":[{"pts":[[0,0],[1,0],[1,1]]}]}`,
		"no items":     `{"hides":["H01"]}`,
		"crosses":      `{"hides":["H01"],"items":[{"pts":[[0,0],[2,2],[2,0],[0,1]]}]}`,
		"not JSON":     `{`,
	} {
		put(s)
		code, _, errOut := bench(t, "", "hides", hides, test, "-effort=1")
		assert.Equal(t, 2, code, name)
		assert.NotEmpty(t, errOut, name)
	}
	code, _, _ := bench(t, "", "hides", hides)
	assert.Equal(t, 2, code)
}

// The instances of our own are measured into the place of a file that is theirs.
func TestNested(t *testing.T) {
	file := filepath.Join(t.TempDir(), "table.md")
	require.NoError(t, os.WriteFile(file, []byte("before\n"+nestedFrom+"old\n"+nestedTo+"after\n"), 0o600))
	code, out, errOut := bench(t, "", "nested", "-effort", "2", "-seeds", "1", "-only", "jigsaw-10", "-readme", file)
	require.Equal(t, 0, code, errOut)
	assert.Contains(t, out, "| jigsaw-10 | 10 | 2 | ")
	data, err := os.ReadFile(file) //nolint:gosec // of this test
	require.NoError(t, err)
	assert.Equal(t, "before\n"+nestedFrom+out+nestedTo+"after\n", string(data))
	for _, in := range ownHideJobs() {
		require.Len(t, in.job.Hides, 12, in.name)
	}
	for _, args := range [][]string{{"nested", "-effort", "0"}, {"nested", "-seeds", "0"}, {"nested", "file"}, {"nested", "-effort", "1", "-only", "none", "-readme", "no/such/file"}} {
		code, _, _ := bench(t, "", args...)
		assert.Equal(t, 2, code, args)
	}
	readme, err := os.ReadFile("README.md")
	require.NoError(t, err)
	assert.Contains(t, string(readme), nestedFrom, "a place for the table")
}
