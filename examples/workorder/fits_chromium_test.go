//go:build chromium

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
)

// Nothing is fetched, nothing is complained of, and nothing sticks out on a phone or on
// a desk. What is wider than a phone scrolls in its box and says so; type can be read, in
// drawings too; what is touched is as large as a finger.
func TestPageInBrowser(t *testing.T) {
	b := startBrowser(t)
	for name, o := range everyOrder(t) {
		for _, metric := range []bool{false, true} {
			if metric && name != "demo" {
				continue
			}
			for copied, file := range copiesOf(t, o, metric) {
				for _, wide := range []int{390, 1280} {
					quiet(t, b.open(file, wide), file)
					b.fits(fmt.Sprintf("%s, %s, metric %t", name, copied, metric), wide)
				}
			}
		}
	}
}

// everyOrder gives the orders that are looked at: those of the labels, and shapes.
func everyOrder(t *testing.T) map[string]job.WorkOrder {
	t.Helper()
	all := toLabel(t)
	all["shapes"] = orders(t)["shapes"]
	return all
}

// fits checks that the open page is no wider than its window, and can be read and
// touched.
func (b *browser) fits(name string, wide int) {
	b.t.Helper()
	var r struct {
		Inner, Scroll                     int
		Out, Small, Narrow, Unsaid, Drawn []string
		Mode                              string
	}
	b.eval(`new Promise(done => { // what is unfolded has its scroll bars a frame later
		for (const d of document.querySelectorAll('details')) d.open = true;
		requestAnimationFrame(() => requestAnimationFrame(() => done(1)));
	})`, nil)
	b.eval(`(() => {
		const out = [], small = [], narrow = [], unsaid = [], drawn = [];
		for (const e of document.body.querySelectorAll('*')) {
			const r = e.getBoundingClientRect(), what = e.tagName + '.' + e.getAttribute('class') + ' ' + e.textContent.trim().slice(0, 60);
			if (!r.width || e.closest('.cards thead')) continue;
			if (e.matches('a, summary, button, input, select') && !(e.closest('label')?.getBoundingClientRect().height >= 44) && (r.height < 43.5 || r.width < 43.5)) narrow.push(what + ' ' + r.width + ' by ' + r.height);
			if (e.matches('.wide, .columns') && (e.scrollWidth > e.clientWidth + 1) != (getComputedStyle(e, '::before').visibility == 'visible')) unsaid.push(what);
			if (e.tagName == 'text') {
				const m = e.getScreenCTM(), size = parseFloat(getComputedStyle(e).fontSize) / e.currentCSSZoom * Math.hypot(m.a, m.b);
				if (e.textContent.trim() && size < 8.99) drawn.push(size.toFixed(2) + ' px: ' + e.textContent + ' of ' + e.closest('svg').querySelector('title')?.textContent);
			}
			if (e.closest('svg') && e.tagName != 'svg') continue;
			if (e.childElementCount == 0 && e.textContent.trim() && parseFloat(getComputedStyle(e).fontSize) < 12) small.push(what);
			if (e.closest('.wide, .columns') && !e.matches('.wide, .columns')) continue;
			if (r.right > innerWidth + 0.5 || r.left < -0.5) out.push(what + ' ' + r.left + '..' + r.right);
		}
		return {Inner: innerWidth, Scroll: document.documentElement.scrollWidth, Out: out, Small: small, Narrow: narrow, Unsaid: unsaid, Drawn: drawn, Mode: document.compatMode};
	})()`, &r)
	assert.Equal(b.t, wide, r.Inner)
	assert.LessOrEqual(b.t, r.Scroll, r.Inner, "%s at %d px scrolls sideways", name, wide)
	assert.Empty(b.t, r.Out, "%s at %d px", name, wide)
	assert.Empty(b.t, r.Small, "%s at %d px: type under 12 px", name, wide)
	assert.Empty(b.t, r.Drawn, "%s at %d px: type of drawings under 9 px", name, wide)
	assert.Empty(b.t, r.Unsaid, "%s at %d px: says that there is more to the side, and there is none, or the other way round", name, wide)
	if wide < 600 {
		assert.Empty(b.t, r.Narrow, "%s at %d px: smaller than a finger", name, wide)
	}
	assert.Equal(b.t, "CSS1Compat", r.Mode)
}

// Cards to measure by are seen whole on a phone, and are a page or two on paper.
func TestCardsInBrowser(t *testing.T) {
	b := startBrowser(t)
	for _, k := range kind.All() {
		file := cardOf(t, k.Name)
		for _, wide := range []int{390, 1280} {
			quiet(t, b.open(file, wide), file)
			b.fits(k.Name, wide)
		}
		for _, paper := range [][2]float64{{8.27, 11.69}, {8.5, 11}} {
			assert.LessOrEqual(t, len(pdfPage.FindAll(b.print(paper[0], paper[1]), -1)), 2, "%s on %v", k.Name, paper)
		}
	}
}

// cardOf writes the card of a kind of furniture into a file.
func cardOf(t *testing.T, kind string) string {
	t.Helper()
	var card bytes.Buffer
	require.NoError(t, printCard(t.Context(), &card, kind, job.WorkOrder{}, false))
	file := filepath.Join(t.TempDir(), "card.html")
	require.NoError(t, os.WriteFile(file, card.Bytes(), 0o600))
	return file
}

// Hostile names stay text in a real browser.
func TestHostileNamesInBrowser(t *testing.T) {
	b := startBrowser(t)
	o := fresh(t)
	var count int
	for _, h := range hostile {
		rename(reflect.ValueOf(&o).Elem(), h)
		for _, file := range copiesOf(t, o, false) {
			quiet(t, b.open(file, 390), file)
			b.eval(`document.querySelectorAll('script, img, iframe, object, embed, form, base').length + [...document.querySelectorAll('*')].filter(e => [...e.attributes].some(a => a.name.startsWith('on'))).length`, &count)
			assert.Zero(t, count, "%q", h)
			var fits bool
			b.eval(`document.documentElement.scrollWidth <= innerWidth`, &fits)
			assert.True(t, fits, "%q", h)
		}
	}
}
