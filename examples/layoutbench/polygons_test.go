package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
