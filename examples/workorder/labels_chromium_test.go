//go:build chromium

package main

import (
	"encoding/base64"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
)

// In a real browser, text stays inside its label and its line, nothing is set below 6 pt,
// nothing is fetched, and the print has as many sheets as were worked out.
func TestLabelsInBrowser(t *testing.T) {
	b := startBrowser(t)
	all := toLabel(t)
	for _, c := range []struct {
		flags labelFlags
		paper pattern.Sheet
	}{
		{labelFlags{first: 1}, pattern.A4()},
		{labelFlags{first: 1}, pattern.Letter()},
		{labelFlags{label: "25 mm x 12 mm", first: 9}, pattern.A4()},
		{labelFlags{label: "99 mm x 57 mm", first: 4, lines: true}, pattern.A4()},
		{labelFlags{label: "2 5/8 in x 1 in", gap: "1/8 in x 0 in", first: 1}, pattern.Letter()},
		{labelFlags{label: "25 mm x 60 mm", first: 1}, pattern.Letter()},
		{labelFlags{label: "210 mm x 297 mm", margin: "0 mm", first: 1}, pattern.A4()},
	} {
		for _, name := range []string{"demo", "wing-chair", "marine-cushions", "long back", "sofa.json"} {
			o := all[name]
			set := labelSet(t, c.flags, c.paper)
			labels := len((&sheet{}).pieceLabels(o))
			if c.flags.margin == "0 mm" && labels > 30 {
				continue // a sheet for each
			}
			page, err := labelsHTML(o, set)
			require.NoError(t, err)
			b.labelsFit(t, name, page, labels, set.labels)
		}
	}
	o := fresh(t)
	labels := len((&sheet{}).pieceLabels(o))
	for _, h := range append([]string{strings.Join(hostile, " "), strings.Repeat("W", 300), strings.Repeat("sehr lang ", 40), "座椅靠背 左"}, hostile...) {
		rename(reflect.ValueOf(&o).Elem(), h)
		for _, flags := range []labelFlags{{first: 1}, {label: "25 mm x 12 mm", first: 1}} {
			set := labelSet(t, flags, pattern.A4())
			page, err := labelsHTML(o, set)
			require.NoError(t, err)
			b.labelsFit(t, h, page, labels, set.labels)
		}
	}
}

func (b *browser) labelsFit(t *testing.T, name string, page []byte, labels int, g labelGrid) {
	t.Helper()
	file := filepath.Join(t.TempDir(), labelsFile)
	require.NoError(t, os.WriteFile(file, page, 0o600))
	quiet(t, b.open(file, 1280), file)
	var r struct {
		Labels, Sheets int
		Faults         []string
	}
	b.eval(`(() => {
		const faults = [], shown = [...document.querySelectorAll('.label')];
		for (const l of shown) {
			const box = l.getBoundingClientRect(), say = what => faults.push(what + ': ' + l.textContent.slice(0, 80));
			if (l.scrollWidth > l.clientWidth || l.scrollHeight > l.clientHeight) say('overflow ' + l.scrollWidth + '/' + l.clientWidth + ' ' + l.scrollHeight + '/' + l.clientHeight);
			for (const p of l.querySelectorAll('p')) if (p.scrollWidth > p.clientWidth) say('line cut off');
			for (const e of l.querySelectorAll('b, i')) {
				const r = e.getBoundingClientRect();
				if (r.left < box.left || r.right > box.right || r.top < box.top || r.bottom > box.bottom) say('outside');
				if (parseFloat(getComputedStyle(e).fontSize) < 7.99) say('under 6 pt');
				const a = l.querySelector('svg').getBoundingClientRect();
				if (r.right > a.left && r.top + 1 < a.bottom && r.bottom > a.top + 1 && e.closest('p') == l.querySelector('p')) say('on the arrow');
			}
			for (const m of shown) if (m != l && m.parentElement == l.parentElement) {
				const o = m.getBoundingClientRect();
				if (Math.min(o.right, box.right) - Math.max(o.left, box.left) > 0.5 && Math.min(o.bottom, box.bottom) - Math.max(o.top, box.top) > 0.5) say('on another label');
			}
		}
		return {Labels: shown.length, Sheets: document.querySelectorAll('.sheet').length, Faults: faults};
	})()`, &r)
	assert.Equal(t, labels, r.Labels, name)
	assert.Equal(t, g.sheets(labels), r.Sheets, name)
	assert.Empty(t, r.Faults, "%s on labels of %s x %s", name, exactly(g.label.across), exactly(g.label.down))

	var pdf struct{ Data string }
	b.call("Page.printToPDF", map[string]any{"printBackground": false, "preferCSSPageSize": true}, &pdf)
	data, err := base64.StdEncoding.DecodeString(pdf.Data)
	require.NoError(t, err)
	assert.Len(t, pdfPage.FindAll(data, -1), g.sheets(labels), name)
}

// labelsPage writes the labels of an order into a file.
func labelsPage(t *testing.T, o job.WorkOrder) string {
	t.Helper()
	page, err := labelsHTML(o, labelSet(t, labelFlags{first: 1}, pattern.A4()))
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "labels.html")
	require.NoError(t, os.WriteFile(file, page, 0o600))
	return file
}
