//go:build chromium

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A big job is no book: its bench copy is at most twenty pages of A4 or Letter, whole,
// and under fifteen screens of a phone before anything is unfolded. The first page of
// every order is one.
func TestBenchOfBigJobInBrowser(t *testing.T) {
	b := startBrowser(t)
	const phoneWide, phoneHigh = 390, 844
	for name, o := range benchOrders(t) {
		page, err := copyHTML(o, settings{}, "bench")
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "bench.html")
		require.NoError(t, os.WriteFile(file, page, 0o600))
		b.open(file, phoneWide)
		var high int
		b.eval(`document.documentElement.scrollHeight`, &high)
		t.Logf("%s: %d px on a phone", name, high)
		big := strings.Contains(name, " ")
		if big {
			assert.Less(t, high, 15*phoneHigh, name)
		}
		b.fits(name, phoneWide)
		b.open(file, 1280)
		b.fits(name, 1280)
		for paper, size := range map[string][2]float64{"a4": {210 / 25.4, 297 / 25.4}, "letter": {8.5, 11}} {
			n := len(pdfPage.FindAll(b.print(size[0], size[1]), -1))
			t.Logf("%s: %d pages of %s", name, n, paper)
			if big {
				assert.LessOrEqual(t, n, 20, "%s on %s", name, paper)
			}
			// The page for the wall alone.
			b.eval(`document.querySelectorAll('main > section:not(#work), footer').forEach(e => e.hidden = true)`, nil)
			assert.Len(t, pdfPage.FindAll(b.print(size[0], size[1]), -1), 1, "%s on %s: the first page", name, paper)
			b.eval(`document.querySelectorAll('main > section, footer').forEach(e => e.hidden = false)`, nil)
		}
	}
}
