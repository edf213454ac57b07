package unit_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/unit"
)

func TestPathHead(t *testing.T) {
	for path, want := range map[unit.Path]struct {
		name    string
		index   int
		indexed bool
		rest    unit.Path
	}{
		"":                          {},
		"width":                     {name: "width"},
		"pieces[2].width":           {"pieces", 2, true, "width"},
		"pieces[2]":                 {"pieces", 2, true, ""},
		"roll.flaws[0].from":        {name: "roll", rest: "flaws[0].from"},
		"[7].x":                     {"", 7, true, "x"},
		"grid[1][20].x":             {"grid", 1, true, "[20].x"},
		"sides[front].seam":         {name: "sides[front]", rest: "seam"},
		"sides[front][3]":           {"sides[front]", 3, true, ""},
		"a[12].b":                   {"a", 12, true, "b"},
		"a[10]":                     {"a", 10, true, ""},
		"a[0]":                      {"a", 0, true, ""},
		"a[-1]":                     {name: "a[-1]"},
		"a[01]":                     {name: "a[01]"},
		"a[]":                       {name: "a[]"},
		"a[3":                       {name: "a[3"},
		"a[99999999999999999999].b": {name: "a[99999999999999999999]", rest: "b"},
		".a":                        {rest: "a"},
	} {
		name, index, indexed, rest := path.Head()
		assert.Equal(t, want.name, name, path)
		assert.Equal(t, want.index, index, path)
		assert.Equal(t, want.indexed, indexed, path)
		assert.Equal(t, want.rest, rest, path)
	}
}

func TestPathUnder(t *testing.T) {
	for _, r := range []struct {
		path, prefix unit.Path
		want         bool
	}{
		{"pieces[2].width", "", true},
		{"", "", true},
		{"", "pieces", false},
		{"pieces[2].width", "pieces", true},
		{"pieces[2].width", "pieces[2]", true},
		{"pieces[2].width", "pieces[2].width", true},
		{"pieces[2].width", "pieces[2].wid", false},
		{"pieces[22].width", "pieces[2", false},
		{"pieces", "pieces[2]", false},
	} {
		assert.Equal(t, r.want, r.path.Under(r.prefix), "%s under %s", r.path, r.prefix)
	}
}

// A well-formed path comes apart and together again, and lies under each of
// its beginnings.
func TestPathLaws(t *testing.T) {
	step := rapid.Custom(func(t *rapid.T) unit.Path {
		p := unit.Path(rapid.StringMatching(`[a-zé_ ()]{1,6}(\[[a-z]*\])?`).Draw(t, "name"))
		for range rapid.IntRange(0, 2).Draw(t, "indices") {
			p = p.At(rapid.IntRange(0, math.MaxInt).Draw(t, "i"))
		}
		return p
	})
	rapid.Check(t, func(t *rapid.T) {
		var p unit.Path
		steps := rapid.SliceOfN(step, 0, 4).Draw(t, "steps")
		for _, s := range steps {
			outer := p
			p = p.Dot(s)
			if !p.Under(outer) || outer.Under(p) {
				t.Fatalf("%q is not just under %q", p, outer)
			}
		}
		var back unit.Path
		for rest, n := p, 0; rest != ""; n++ {
			if n > 12 {
				t.Fatalf("%q has no end", p)
			}
			name, i, indexed, after := rest.Head()
			s := unit.Path(name)
			if indexed {
				s = s.At(i)
			}
			if s.Dot(after) != rest {
				t.Fatalf("%q comes together as %q", rest, s.Dot(after))
			}
			back, rest = back.Dot(s), after
		}
		if back != p {
			t.Fatalf("%q comes together as %q", p, back)
		}
	})
}

func FuzzPathHead(f *testing.F) {
	f.Add("pieces[2].width")
	f.Add("a[b][3]..c[")
	f.Fuzz(func(t *testing.T, s string) {
		name, index, indexed, rest := unit.Path(s).Head()
		if index < 0 || index > 0 && !indexed || strings.Contains(name, ".") {
			t.Fatalf("%q, %d, %v", name, index, indexed)
		}
		if len(rest) >= len(s) && s != "" {
			t.Fatalf("nothing taken off %q", s)
		}
	})
}
