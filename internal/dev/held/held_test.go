//go:build long

package main

import (
	"fmt"
	"go/constant"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestChanged(t *testing.T) {
	for literal, want := range map[string][2]float64{
		"20": {21, 21}, "25_400": {26670, 25401}, "2.54": {2.667, 2.55}, "0.5": {0.525, 0.6}, "1e5": {1.05e5, 2e5}, "2.5e-3": {2.625e-3, 2.6e-3}, "0x10": {16.8, 17},
		"900.": {945, 901},
	} {
		for i, how := range []string{byFive, byDigit} {
			got, _ := constant.Float64Val(changed(literal, how))
			assert.InDelta(t, want[i], got, 1e-12, "%s, %s", literal, how)
		}
	}
}

// Every change is in one share, and only in one.
func TestSharesAreTheWhole(t *testing.T) {
	all := make([]change, 103)
	for i := range all {
		all[i] = change{id: i, built: i%7 == 0, src: &source{path: []string{"unit", "cost/job"}[i%2]}}
	}
	var got []change
	for _, text := range []string{"1/4", "2/4", "3/4", "4/4"} {
		part, err := share(text, all)
		require.NoError(t, err)
		assert.NotEmpty(t, part)
		got = append(got, part...)
	}
	assert.Equal(t, all, got)
	for _, text := range []string{"", "3", "0/4", "5/4", "x/4", "1/0", "1/x"} {
		_, err := share(text, all)
		assert.ErrorContains(t, err, text)
	}
	_, err := share("today/50", all)
	assert.NoError(t, err)
}

// A figure is found with all that stands on it, what it becomes is right, and
// limits, counts and iotas are none; a list
// is a table also within a function.
func TestFiguresOfAPackage(t *testing.T) {
	sources, err := load("../../..", []string{"internal/dev/held/testdata/sample"})
	require.NoError(t, err)
	var got []string
	f := find(sources[0])
	for _, c := range f.changes() {
		others := ""
		for _, p := range f.places {
			if text := f.src.other(p, c.figure, c.what); text != "" {
				for _, fig := range p.figures {
					if fig == c.figure {
						others += " " + text
					}
				}
			}
		}
		got = append(got, c.figure.declaration+" "+c.figure.lit.Value+" "+c.what+":"+others)
	}
	assert.Equal(t, []string{
		"half 2 5 %: 36285714 12095238", "half 2 last digit: 25400000 8466667",
		"rows 3 5 %: 40005000", "rows 3 last digit: 50800000",
		"rows 0.25 5 %: 0.2625", "rows 0.25 last digit: 0.26",
		"Rate 1.5 5 %: 1.575", "Rate 1.5 last digit: 1.6",
		"Sizes 7 5 %: 8", "Sizes 2 5 %: 53340000", "Sizes 2 last digit: 76200000",
	}, got)
	assert.Empty(t, f.left)
}

// Every place of the code that is drawn is built in, also a condition and the
// whole of what it is made of.
func TestEveryMutantIsBuiltIn(t *testing.T) {
	sources, err := load("../../..", []string{"internal/dev/held/testdata/sample"})
	require.NoError(t, err)
	for seed := range uint64(20) {
		all := sampled(sources[0], 100, seed)
		for i := range all {
			all[i].id = 2*(i+1) + all[i].second
		}
		var text strings.Builder
		for file, edits := range codeEdits(sources[0], all) {
			text.Write(edited(sources[0], sources[0].files[file], edits))
		}
		for _, c := range all {
			assert.Contains(t, text.String(), fmt.Sprintf("(%d,", c.id-c.second), "%s, seed %d", c.what, seed)
		}
	}
}
