package dev_test

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/rules"
)

var update = flag.Bool("update", false, "write the lists and pages anew")

// The lists of what the public packages promise are what they export now: who
// changes one means it, and writes the list anew.
func TestAPIIsAsListed(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	listed := map[string]string{}
	for _, path := range slices.Sorted(maps.Keys(all)) {
		p := all[path]
		if !p.Public() {
			continue
		}
		lines, err := rules.API(p)
		require.NoError(t, err)
		listed[filepath.Join("api", strings.ReplaceAll(p.Path(), "/", "-")+".txt")] = "package " + p.Path() + "\n" + strings.Join(lines, "\n") + "\n"
	}
	require.Len(t, listed, len(rules.StandsOn))
	old, err := filepath.Glob(filepath.Join("api", "*"))
	require.NoError(t, err)
	for _, name := range old {
		if listed[name] == "" && *update {
			require.NoError(t, os.Remove(name))
		} else {
			assert.NotEmpty(t, listed[name], "%s is of no package: run go generate ./internal/dev", name)
		}
	}
	for name, want := range listed {
		if *update {
			require.NoError(t, os.WriteFile(name, []byte(want), 0o600))
			continue
		}
		got, err := os.ReadFile(name)
		require.NoError(t, err)
		gone, come := apart(string(got), want)
		assert.True(t, string(got) == want, "%s: gone: %q, new: %q; if that is meant, run go generate ./internal/dev", name, gone, come)
	}
}

// apart gives the lines that only one of two lists has, a few of each.
func apart(a, b string) (onlyA, onlyB []string) {
	const few = 5
	only := func(a, b string) []string {
		has := strings.Split(b, "\n")
		out := slices.DeleteFunc(strings.Split(a, "\n"), func(l string) bool { return slices.Contains(has, l) })
		return out[:min(few, len(out))]
	}
	return only(a, b), only(b, a)
}

func TestAPIListsWhatIsPromised(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	lines, err := rules.API(all[rules.BadPackage])
	require.NoError(t, err)
	assert.Equal(t, []string{
		"const Again = half / 2",
		"const C = 3",
		"const First Named = 1",
		"const Quarter = half / 2",
		"const Second Named = 2",
		"const Third = 1 + Second",
		"const Wide = 2 * unit.Inch",
		"var List []number",
		"var Told = Half(2)",
		"var V = 2.5",
		"func Bare(width float64) error",
		"func Half(n Named) Named",
		"func NamedOf(x float64) Named",
		"func Pair(Of[float64])",
		"func WidthOf(x float64) unit.Length",
		"type Alias = float64",
		"type Deep struct",
		"embeds Deep Named",
		"field Deep.Inner struct{By map[string]func(...Alias)}",
		"field Deep.Fine struct{by number}",
		"type Doer interface{Do(*Of[number]) error}",
		"type Double Named",
		"method Double.Halves() float64",
		"type Func func(x float64)",
		"type Loose struct",
		"field Loose.Width []float64",
		"method Loose.Method() (float64, error), on a pointer",
		"type Named float64",
		"method Named.Plain() float64",
		"method Named.Times(x float64) Named",
		"type Of[T any] struct",
		"type Shape interface{Area() float64}",
		"type Table map[string]float32",
	}, lines)
}
