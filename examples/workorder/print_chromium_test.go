//go:build chromium

package main

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

var pdfPage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// The page prints on A4 and on Letter: no drawing is larger than what a page
// holds, none may be divided, and the number of pages is what was looked at.
func TestPagePrints(t *testing.T) {
	b := startBrowser(t)
	const inch = 96.0
	for _, c := range []struct {
		paper      string
		wide, high float64        // in
		pages      map[string]int // looked at; type faces differ by a page
	}{
		{"a4", 210 / 25.4, 297 / 25.4, map[string]int{"demo": 18, "shapes": 12}},
		{"letter", 8.5, 11, map[string]int{"demo": 18, "shapes": 13}},
	} {
		for name, o := range orders(t) {
			b.open(copiesOf(t, o, false)["bench"], 1280)
			n := len(pdfPage.FindAll(b.print(c.wide, c.high), -1))
			t.Logf("%s on %s: %d pages", name, c.paper, n)
			assert.InDelta(t, c.pages[name], n, 1, "%s on %s: look at the print, then change the number", name, c.paper)

			// As laid out for print, inside the margins of the style sheet.
			wide, high := c.wide*inch-28/25.4*inch, c.high*inch-28/25.4*inch
			b.call("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil)
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
				return {Drawings: n, Faults: faults};
			})()`, wide, high), &r)
			assert.Greater(t, r.Drawings, len(o.Assembly))
			assert.Empty(t, r.Faults, "%s on %s", name, c.paper)
		}
	}
}
