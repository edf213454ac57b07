//go:build chromium

package main

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

var pdfPage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// Every copy prints on A4 and on Letter: no drawing is larger than what a page holds,
// none may be divided, folds are open, and the number of pages is what was looked at.
func TestPagePrints(t *testing.T) {
	b := startBrowser(t)
	const inch = 96.0
	for _, c := range []struct {
		paper      string
		wide, high float64                   // in
		pages      map[string]map[string]int // looked at; type faces differ by a page
	}{
		{"a4", 210 / 25.4, 297 / 25.4, map[string]map[string]int{
			"demo":   {"index": 1, "customer": 2, "bench": 18, "supplies": 2, "office": 6},
			"shapes": {"index": 1, "customer": 2, "bench": 13, "supplies": 3, "office": 4},
		}},
		{"letter", 8.5, 11, map[string]map[string]int{
			"demo":   {"index": 1, "customer": 2, "bench": 18, "supplies": 2, "office": 6},
			"shapes": {"index": 1, "customer": 2, "bench": 14, "supplies": 3, "office": 5},
		}},
	} {
		for name, o := range orders(t) {
			for copied, file := range copiesOf(t, o, false) {
				b.open(file, 1280)
				n := len(pdfPage.FindAll(b.print(c.wide, c.high), -1))
				t.Logf("%s, %s on %s: %d pages", name, copied, c.paper, n)
				assert.InDelta(t, c.pages[name][copied], n, 1, "%s, %s on %s: look at the print, then change the number", name, copied, c.paper)
				// As laid out for print, inside the margins of the style sheet.
				drawings := b.laidOut(name+", "+copied+" on "+c.paper, c.wide*inch-28/25.4*inch, c.high*inch-28/25.4*inch)
				if copied == "bench" {
					assert.Greater(t, drawings, len(o.Assembly))
				}
			}
		}
	}
}

// laidOut checks the open page as it prints on paper of a size, in pixels, from a dark
// screen too, and counts its
// drawings.
func (b *browser) laidOut(name string, wide, high float64) int {
	b.t.Helper()
	b.call("Emulation.setEmulatedMedia", map[string]any{"media": "print", "features": []map[string]string{{"name": "prefers-color-scheme", "value": "dark"}}}, nil)
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": int(wide), "height": 900, "deviceScaleFactor": 1, "mobile": false}, nil)
	var r struct {
		Drawings int
		Faults   []string
	}
	b.eval(fmt.Sprintf(`(() => {
		const faults = []; let n = 0;
		for (const s of document.querySelectorAll('main svg')) {
			n++;
			const r = s.getBoundingClientRect(), what = s.querySelector('title')?.textContent ?? 'key';
			if (r.left < -0.5 || r.right > %[1]f + 0.5) faults.push('too wide: ' + what + ' ' + r.right);
			if (r.height > %[2]f) faults.push('too high: ' + what + ' ' + r.height);
			for (let e = s.parentElement; e.tagName != 'SECTION'; e = e.parentElement)
				if (getComputedStyle(e).overflowX == 'hidden' || getComputedStyle(e).overflowX == 'auto') faults.push('cut off by ' + e.className + ': ' + what);
			if (r.height > 100 && getComputedStyle(s.closest('figure, .wide, tr, li')).breakInside != 'avoid') faults.push('may be divided: ' + what);
		}
		for (const d of document.querySelectorAll('details')) {
			const inside = d.querySelector('summary').nextElementSibling;
			if (!inside.getBoundingClientRect().height || !inside.checkVisibility({contentVisibilityAuto: true})) faults.push('folded: ' + d.textContent.trim().slice(0, 60));
		}
		for (const e of document.querySelectorAll('body, main *'))
			if (getComputedStyle(e).color != 'rgb(0, 0, 0)' && !e.closest('svg')) faults.push('not black: ' + e.textContent.trim().slice(0, 60));
		return {Drawings: n, Faults: faults};
	})()`, wide, high), &r)
	assert.Empty(b.t, r.Faults, name)
	return r.Drawings
}
