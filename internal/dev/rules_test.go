package dev_test

import (
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

// bareFloats are the packages at the edge, where quantities become plain
// numbers and back.
var bareFloats = []string{"unit"}

func TestPublicPackagesKeepTheRules(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	public := 0
	for _, path := range slices.Sorted(maps.Keys(all)) {
		p := all[path]
		if !p.Public() {
			continue
		}
		public++
		t.Run(p.Path(), func(t *testing.T) {
			docs, err := rules.Docs(p)
			require.NoError(t, err)
			for _, f := range docs {
				t.Error(f)
			}
			if !slices.Contains(bareFloats, p.Path()) {
				floats, err := rules.Floats(p)
				require.NoError(t, err)
				for _, f := range floats {
					t.Error(f)
				}
			}
			for _, f := range rules.Imports(all, p) {
				t.Error(f)
			}
			n, err := rules.Examples(p)
			require.NoError(t, err)
			assert.Positive(t, n, "no runnable example")
			n, err = rules.Names(p)
			require.NoError(t, err)
			assert.LessOrEqual(t, n, rules.MostNames, "%s exports %d names: it is two ideas", p.Path(), n)
		})
	}
	assert.Equal(t, len(rules.StandsOn), public, "every public package of the rules exists")
}

// DEVELOPERS.md says what each package may import.
func TestImportsAreWrittenDown(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	for pkg, others := range rules.StandsOn {
		var named []string
		for _, o := range others {
			if o != "unit" && o != "unit/cite" {
				named = append(named, "`"+o+"`")
			}
		}
		row := "| `" + pkg + "` | " + strings.Join(named, ", ")
		assert.Contains(t, string(text), strings.TrimRight(row, " ")+" |\n")
	}
}

// A fresh clone whose machine has no module yet tests the library by one command.
func TestProgramsAreListedWithoutTheirModules(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	dir := filepath.Dir(all[rules.Module+"/"+rules.Programs+"/workorder"].Dir)
	t.Setenv("GOMODCACHE", t.TempDir())
	bare := map[string]rules.Package{}
	require.NoError(t, rules.ListPrograms(bare, dir))
	require.NotEmpty(t, bare)
	for path, p := range bare {
		require.Equal(t, all[path], p)
	}
}

func TestNamesInCommentsExist(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	sources, symbols, err := rules.Sources()
	require.NoError(t, err)
	require.Contains(t, symbols, rules.Module+"/"+rules.Programs+"/sheet")
	for _, s := range sources {
		if strings.HasSuffix(s.Path(), "/bad") {
			continue
		}
		for _, f := range rules.Links(all, symbols, s) {
			t.Error(f)
		}
	}
}

func TestTheChecksFindWhatBreaksThem(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	bad := all[rules.BadPackage]
	require.NotEmpty(t, bad.Dir)

	docs, err := rules.Docs(bad)
	require.NoError(t, err)
	names := []string{"Bare", "Loose", "Loose.Method", "Shape", "Area", "C", "V"}
	assert.Len(t, docs, len(names)+1, "%v", docs)
	assert.Contains(t, docs, "internal/dev/rules/internal/bad: no package comment")
	assert.Contains(t, docs, "internal/dev/rules/internal/bad/bad.go:5: Bare has no doc comment")

	floats, err := rules.Floats(bad)
	require.NoError(t, err)
	for _, want := range []string{"Bare has", "Loose.Width has", "Loose.Method has", "Shape has", "V has", "Table has", "Func has", "Alias has", "Pair has", "Named.Times has", "WidthOf has",
		"Quarter has", "Again has", "List has", "Told has", "Deep.Inner has", "Doer has"} {
		assert.True(t, slices.ContainsFunc(floats, func(f string) bool { return strings.Contains(f, ": "+want) }), "%s in %v", want, floats)
	}
	for _, fine := range []string{"Named", "Named.Plain", "NamedOf", "Loose.hidden", "private", "Half", "Third", "Wide", "Deep.Named", "Deep.Fine", "Double", "Double.Halves"} {
		assert.False(t, slices.ContainsFunc(floats, func(f string) bool { return strings.Contains(f, ": "+fine+" has") }), "%s in %v", fine, floats)
	}

	unknown := rules.Package{ImportPath: rules.Module + "/surprise", Name: "surprise", GoFiles: []string{"a.go"}}
	assert.True(t, unknown.Public())
	assert.Len(t, rules.Imports(all, unknown), 1)
	crossed := rules.Package{ImportPath: rules.Module + "/foam", Name: "foam", Deps: []string{"fmt", rules.Module + "/unit", rules.Module + "/thread", "github.com/stretchr/testify/assert"}}
	with := maps.Clone(all)
	with["github.com/stretchr/testify/assert"] = rules.Package{ImportPath: "github.com/stretchr/testify/assert", Name: "assert", GoFiles: []string{"a.go"}}
	assert.Equal(t, []string{"foam must not import thread", "foam must not import github.com/stretchr/testify/assert"}, rules.Imports(with, crossed))

	n, err := rules.Examples(bad)
	require.NoError(t, err)
	assert.Zero(t, n)

	n, err = rules.Names(bad)
	require.NoError(t, err)
	assert.Equal(t, 22, n, "the constants of Named are no names of their own")

	sources, symbols, err := rules.Sources()
	require.NoError(t, err)
	i := slices.IndexFunc(sources, func(s rules.Source) bool { return s.ImportPath == bad.ImportPath })
	at := "internal/dev/rules/internal/bad/dead.go:3: "
	assert.Equal(t, []string{at + "Gone leads to nothing", at + "Loose.Lost leads to nothing", at + "Loose.Missing leads to nothing",
		at + "unit.Nowhere leads to nothing", at + "unit.Vanished leads to nothing"}, rules.Links(all, symbols, sources[i]))
}
