package dev_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/pages"
	"github.com/coverwright/coverwright/internal/dev/rules"
)

// explained are the packages with a page of their formulas, each worked by hand.
var explained = []string{"allowance", "allowance/made", "allowance/shape", "material", "thread", "foam", "cost"}

// bySight are formulas that nobody works by hand; their pages say so.
var bySight = map[string]bool{"allowance/shape.Outline.SymmetryAxis": true}

// A page has the words, code and results that the package has now, every formula of
// its doc comments, and sums that come to what the code prints.
func TestPages(t *testing.T) {
	for _, path := range explained {
		t.Run(path, func(t *testing.T) {
			dir := filepath.Join(root, path)
			p, err := pages.Read(dir, rules.Module+"/"+path)
			require.NoError(t, err)
			raw, err := os.ReadFile(pages.PageOf(dir))
			require.NoError(t, err)
			page, err := p.Fill(string(raw))
			require.NoError(t, err)
			if *update {
				require.NoError(t, os.WriteFile(pages.PageOf(dir), []byte(page), 0o600))
			}
			assert.True(t, *update || page == string(raw), "%s is stale: run go generate ./internal/dev", pages.PageOf(dir))
			right, faults := pages.Check(page)
			for _, f := range faults {
				t.Error(f)
			}
			assert.Positive(t, right)
			for _, name := range pages.Unworked(page, p.Formulas()) {
				assert.True(t, bySight[path+"."+name] && strings.Contains(page, "<!-- doc "+name+" -->\n"), "%s has a formula that the page leaves out, or works no sum of", name)
			}
		})
	}
}
