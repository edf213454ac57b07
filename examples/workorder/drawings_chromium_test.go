//go:build chromium

package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Text of drawings stays inside them, clear of each other and clear of the lines one
// cuts, sews and measures by.
//
// A text is as large as its ink: from the top of its capitals to its base line. Lines of
// outlines, seams and edges of the goods pass no text, halo or not: it would be read as
// part of the line, and a halo would hide the line. A line that is drawn before a text
// may run below it when the text has a halo: the line of a repeat, a notch, a centre line,
// grounds that are only shaded. Arrows, rulers and leads of figures have no say.
func TestDrawingLabelsInBrowser(t *testing.T) {
	b := startBrowser(t)
	for name, o := range everyOrder(t) {
		for copied, file := range copiesOf(t, o, false) {
			b.open(file, 1280)
			var r struct {
				Texts, Lines int
				Faults       []string
			}
			b.eval(drawnText, &r)
			assert.Empty(t, r.Faults, "%s, %s", name, copied)
			if copied == "bench" {
				assert.Greater(t, r.Texts, 0, name)
				assert.Greater(t, r.Lines, 0, name)
			}
		}
	}
}

const drawnText = `(() => {
	for (const d of document.querySelectorAll('details')) d.open = true;
	const faults = []; let texts = 0, lines = 0;
	const at = (m, x, y) => ({x: m.a * x + m.c * y + m.e, y: m.b * x + m.d * y + m.f});
	const ink = e => { // the corners of its ink on the screen
		const b = e.getBBox(), m = e.getScreenCTM(), top = b.y + 0.17 * b.height, base = b.y + 0.8 * b.height;
		return [at(m, b.x, top), at(m, b.x + b.width, top), at(m, b.x + b.width, base), at(m, b.x, base)];
	};
	const apart = (p, q, slack) => { // convex p and q do not share more than slack
		for (const s of [p, q]) for (let i = 0; i < s.length; i++) {
			const u = s[i], v = s[(i + 1) % s.length], long = Math.hypot(v.x - u.x, v.y - u.y) || 1, nx = (v.y - u.y) / long, ny = (u.x - v.x) / long;
			const along = t => t.map(k => k.x * nx + k.y * ny), a = along(p), b = along(q);
			if (Math.min(Math.max(...a), Math.max(...b)) - Math.max(Math.min(...a), Math.min(...b)) < slack) return true;
		}
		return false;
	};
	const strict = e => e.closest('.cut, .seam, .trim, .piece, .hide, .hole, .goods, .block, .finished');
	const free = e => e.closest('defs, clipPath, pattern, .zone, .defect, .bar, .runs');
	for (const s of document.querySelectorAll('main svg[role=img]')) {
		const title = s.querySelector('title').textContent, box = s.getBoundingClientRect(), seen = [];
		const order = [...s.querySelectorAll('*')];
		for (const e of s.querySelectorAll('text')) {
			if (!e.textContent.trim()) continue;
			texts++;
			const q = ink(e), xs = q.map(p => p.x), ys = q.map(p => p.y);
			if (Math.min(...xs) < box.left - 1 || Math.max(...xs) > box.right + 1 || Math.min(...ys) < box.top - 1 || Math.max(...ys) > box.bottom + 1) faults.push('outside: ' + e.textContent + ' of ' + title);
			for (const o of seen) if (!apart(q, o.q, 1)) faults.push('on each other: ' + e.textContent + ' / ' + o.e.textContent + ' of ' + title);
			seen.push({e, q, n: order.indexOf(e), halo: getComputedStyle(e).paintOrder.startsWith('stroke'), left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys)});
		}
		for (const g of s.querySelectorAll('path, line, polyline, polygon, rect, circle, ellipse')) {
			const style = getComputedStyle(g);
			if (style.stroke == 'none' || parseFloat(style.strokeWidth) == 0 || free(g)) continue;
			const m = g.getScreenCTM(), long = g.getTotalLength(), step = 1 / Math.max(Math.hypot(m.a, m.b), 1e-6), n = order.indexOf(g), hit = new Set();
			lines++;
			const r = g.getBoundingClientRect();
			const near = seen.filter(t => t.left < r.right && t.right > r.left && t.top < r.bottom && t.bottom > r.top);
			if (!near.length) continue;
			for (let d = 0; d <= long; d += step) {
				const p = g.getPointAtLength(d), k = at(m, p.x, p.y);
				for (const t of near) {
					if (hit.has(t) || !strict(g) && t.halo && n < t.n) continue;
					let depth = 1e9; // how far inside the ink, in pixels
					for (let i = 0; i < 4; i++) {
						const u = t.q[i], v = t.q[(i + 1) % 4];
						depth = Math.min(depth, ((v.x - u.x) * (k.y - u.y) - (v.y - u.y) * (k.x - u.x)) / (Math.hypot(v.x - u.x, v.y - u.y) || 1));
					}
					if (depth > 0.75) { hit.add(t); faults.push((g.getAttribute('class') || g.tagName) + ' runs through: ' + t.e.textContent + ' of ' + title); }
				}
			}
		}
	}
	return {Texts: texts, Lines: lines, Faults: faults};
})()`
