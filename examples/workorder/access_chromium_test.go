//go:build chromium

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const axePackage = "axe-core@4.14.1" // the accessibility checker, pinned

// An accessibility checker finds no fault: contrast, landmarks, headings,
// tables, names of drawings and everything else it knows.
func TestPageIsAccessible(t *testing.T) {
	npm, err := exec.LookPath("npm")
	require.NoError(t, err, "this check needs the Debian package npm")
	dir := t.TempDir()
	cmd := exec.Command(npm, "install", "--prefix", dir, "--cache", filepath.Join(dir, "cache"), "--ignore-scripts", "--no-audit", "--no-fund", "--no-save", axePackage)
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	axe, err := os.ReadFile(filepath.Join(dir, "node_modules", "axe-core", "axe.min.js"))
	require.NoError(t, err)

	b := startBrowser(t)
	files := map[string]map[string]string{"a card": {"card": cardOf(t, "wing chair")}, "labels": {"labels": labelsPage(t, orders(t)["demo"])}}
	for name, o := range orders(t) {
		files[name] = copiesOf(t, o, false)
	}
	for name, list := range files {
		for copied, file := range list {
			for _, wide := range []int{390, 1280} {
				for _, b.scheme = range []string{"light", "dark"} {
					b.open(file, wide)
					b.accessible(fmt.Sprintf("%s, %s at %d px, %s", name, copied, wide, b.scheme), string(axe), copied == "bench")
				}
			}
		}
	}
}

// accessible runs the checker over the open page.
func (b *browser) accessible(name, axe string, drawings bool) {
	b.t.Helper()
	b.eval(`for (const d of document.querySelectorAll('details')) d.open = true; 1`, nil)
	b.eval(axe+"\n;1", nil)
	var r struct{ Passes, Violations []string }
	b.eval(`axe.run(document, {resultTypes: ['violations', 'passes']}).then(r => ({
		Passes: r.passes.map(p => p.id),
		Violations: r.violations.map(v => v.id + ': ' + v.help + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 160)).join(' | ')),
	}))`, &r)
	assert.Empty(b.t, r.Violations, name)
	rules := []string{"color-contrast", "region", "landmark-one-main"}
	if drawings {
		rules = append(rules, "heading-order", "svg-img-alt")
	}
	for _, rule := range rules {
		assert.Contains(b.t, r.Passes, rule, "%s: the rule was tried", name)
	}
}
