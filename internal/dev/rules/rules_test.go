package rules

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bareFloats are the packages at the edge, where quantities become plain
// numbers and back.
var bareFloats = []string{"unit"}

func TestPublicPackagesKeepTheRules(t *testing.T) {
	all, err := Load()
	require.NoError(t, err)
	public := 0
	for _, path := range slices.Sorted(maps.Keys(all)) {
		p := all[path]
		if !p.Public() {
			continue
		}
		public++
		t.Run(p.Path(), func(t *testing.T) {
			docs, err := Docs(p)
			require.NoError(t, err)
			for _, f := range docs {
				t.Error(f)
			}
			if !slices.Contains(bareFloats, p.Path()) {
				floats, err := Floats(p)
				require.NoError(t, err)
				for _, f := range floats {
					t.Error(f)
				}
			}
			for _, f := range Imports(all, p) {
				t.Error(f)
			}
			n, err := Examples(p)
			require.NoError(t, err)
			assert.Positive(t, n, "no runnable example")
			n, err = Names(p)
			require.NoError(t, err)
			assert.LessOrEqual(t, n, MostNames, "%s exports %d names: it is two ideas", p.Path(), n)
		})
	}
	assert.Equal(t, len(standsOn), public, "every public package of the rules exists")
}

// DEVELOPERS.md says what each package may import.
func TestImportsAreWrittenDown(t *testing.T) {
	text, err := os.ReadFile("../../../DEVELOPERS.md")
	require.NoError(t, err)
	for pkg, others := range standsOn {
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

func TestNamesInCommentsExist(t *testing.T) {
	all, err := Load()
	require.NoError(t, err)
	sources, symbols, err := Sources()
	require.NoError(t, err)
	require.Contains(t, symbols, Module+"/"+sheet)
	for _, s := range sources {
		if strings.HasSuffix(s.Path(), "/bad") {
			continue
		}
		for _, f := range Links(all, symbols, s) {
			t.Error(f)
		}
	}
}

func TestTheChecksFindWhatBreaksThem(t *testing.T) {
	all, err := Load()
	require.NoError(t, err)
	bad := all[badPackage]
	require.NotEmpty(t, bad.Dir)

	docs, err := Docs(bad)
	require.NoError(t, err)
	names := []string{"Bare", "Loose", "Loose.Method", "Shape", "Area", "C", "V"}
	assert.Len(t, docs, len(names)+1, "%v", docs)
	assert.Contains(t, docs, "internal/dev/rules/internal/bad: no package comment")
	assert.Contains(t, docs, "internal/dev/rules/internal/bad/bad.go:5: Bare has no doc comment")

	floats, err := Floats(bad)
	require.NoError(t, err)
	for _, want := range []string{"Bare has", "Loose.Width has", "Loose.Method has", "Shape has", "V has", "Table has", "Func has", "Alias has", "Pair has", "Named.Times has", "WidthOf has",
		"Quarter has", "Again has", "List has", "Told has", "Deep.Inner has", "Doer has"} {
		assert.True(t, slices.ContainsFunc(floats, func(f string) bool { return strings.Contains(f, ": "+want) }), "%s in %v", want, floats)
	}
	for _, fine := range []string{"Named", "Named.Plain", "NamedOf", "Loose.hidden", "private", "Half", "Third", "Wide", "Deep.Named", "Deep.Fine", "Double", "Double.Halves"} {
		assert.False(t, slices.ContainsFunc(floats, func(f string) bool { return strings.Contains(f, ": "+fine+" has") }), "%s in %v", fine, floats)
	}

	unknown := Package{ImportPath: Module + "/surprise", Name: "surprise", GoFiles: []string{"a.go"}}
	assert.True(t, unknown.Public())
	assert.Len(t, Imports(all, unknown), 1)
	crossed := Package{ImportPath: Module + "/foam", Name: "foam", Deps: []string{"fmt", Module + "/unit", Module + "/thread", "github.com/stretchr/testify/assert"}}
	with := maps.Clone(all)
	with["github.com/stretchr/testify/assert"] = Package{ImportPath: "github.com/stretchr/testify/assert", Name: "assert", GoFiles: []string{"a.go"}}
	assert.Equal(t, []string{"foam must not import thread", "foam must not import github.com/stretchr/testify/assert"}, Imports(with, crossed))

	n, err := Examples(bad)
	require.NoError(t, err)
	assert.Zero(t, n)

	n, err = Names(bad)
	require.NoError(t, err)
	assert.Equal(t, 22, n, "the constants of Named are no names of their own")

	sources, symbols, err := Sources()
	require.NoError(t, err)
	i := slices.IndexFunc(sources, func(s Source) bool { return s.ImportPath == bad.ImportPath })
	at := "internal/dev/rules/internal/bad/dead.go:3: "
	assert.Equal(t, []string{at + "Gone leads to nothing", at + "Loose.Lost leads to nothing", at + "Loose.Missing leads to nothing",
		at + "unit.Nowhere leads to nothing", at + "unit.Vanished leads to nothing"}, Links(all, symbols, sources[i]))
}
