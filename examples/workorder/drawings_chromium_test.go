//go:build chromium

package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Text of drawings stays inside them and clear of each other.
func TestDrawingLabelsInBrowser(t *testing.T) {
	b := startBrowser(t)
	for name, o := range orders(t) {
		b.open(copiesOf(t, o, false)["bench"], 1280)
		var faults []string
		b.eval(`(() => {
			const out = [];
			for (const s of document.querySelectorAll('main svg[role=img]')) {
				const title = s.querySelector('title').textContent, box = s.getBoundingClientRect(), seen = [];
				for (const e of s.querySelectorAll('text')) {
					const r = e.getBoundingClientRect();
					if (r.left < box.left - 1 || r.right > box.right + 1 || r.top < box.top - 2 || r.bottom > box.bottom + 2) out.push('outside: ' + e.textContent + ' of ' + title);
					for (const o of seen) {
						const w = Math.min(r.right, o.r.right) - Math.max(r.left, o.r.left), h = Math.min(r.bottom, o.r.bottom) - Math.max(r.top, o.r.top);
						const turned = e.hasAttribute('transform') || o.e.hasAttribute('transform');
						if (w > 2 && h > 5 && !turned) out.push('on each other: ' + e.textContent + ' / ' + o.e.textContent + ' of ' + title);
					}
					seen.push({e, r});
				}
			}
			return out;
		})()`, &faults)
		assert.Empty(t, faults, name)
	}
}
