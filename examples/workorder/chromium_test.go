//go:build chromium

package main

// The page is looked at in a real browser, which is driven over its debugging
// pipe: messages in JSON, each ended by a zero byte.

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
)

const (
	axePackage = "axe-core@4.14.1" // the accessibility checker, pinned
	patience   = 2 * time.Minute   // for one answer of the browser, on a slow machine
)

// browser is a headless browser and the one tab we look at.
type browser struct {
	t       *testing.T
	out     *os.File
	in      chan message
	session string
	next    int
	events  []message
}

type message struct {
	ID     int             `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

func startBrowser(t *testing.T) *browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	require.NoError(t, err, "this check needs the Debian package chromium")
	toRead, out, err := os.Pipe()
	require.NoError(t, err)
	in, toWrite, err := os.Pipe()
	require.NoError(t, err)
	home := t.TempDir()
	cmd := exec.Command(path, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", "--hide-scrollbars", "--remote-debugging-pipe", "--user-data-dir="+home, "about:blank")
	cmd.Env = append(os.Environ(), "HOME="+home)
	cmd.ExtraFiles = []*os.File{toRead, toWrite} // 3 and 4 of the browser
	require.NoError(t, cmd.Start())
	require.NoError(t, toRead.Close())
	require.NoError(t, toWrite.Close())
	b := &browser{t: t, out: out, in: make(chan message, 1000)}
	go func() {
		defer close(b.in)
		r := bufio.NewReaderSize(in, 1<<20)
		for {
			line, err := r.ReadBytes(0)
			if err != nil {
				return
			}
			var m message
			if json.Unmarshal(line[:len(line)-1], &m) == nil {
				b.in <- m
			}
		}
	}()
	t.Cleanup(func() {
		out.Close()
		done := make(chan struct{})
		go func() { cmd.Wait(); close(done) }()
		select {
		case <-done:
		case <-time.After(10 * time.Second):
			cmd.Process.Kill()
			<-done
		}
		in.Close()
	})
	var target struct{ TargetID string }
	b.call("Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	var attached struct{ SessionID string }
	b.call("Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &attached)
	b.session = attached.SessionID
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		b.call(domain+".enable", nil, nil)
	}
	return b
}

// call sends a command and waits for its answer; events on the way are kept.
func (b *browser) call(method string, params map[string]any, result any) {
	b.t.Helper()
	b.next++
	m := map[string]any{"id": b.next, "method": method}
	if params != nil {
		m["params"] = params
	}
	if b.session != "" {
		m["sessionId"] = b.session
	}
	data, err := json.Marshal(m)
	require.NoError(b.t, err)
	_, err = b.out.Write(append(data, 0))
	require.NoError(b.t, err)
	for {
		a := b.receive(method)
		if a.ID == b.next {
			require.Nil(b.t, a.Error, "%s: %+v", method, a.Error)
			if result != nil {
				require.NoError(b.t, json.Unmarshal(a.Result, result))
			}
			return
		}
	}
}

func (b *browser) receive(waiting string) message {
	b.t.Helper()
	select {
	case m, open := <-b.in:
		require.True(b.t, open, "the browser went away during %s", waiting)
		if m.Method != "" {
			b.events = append(b.events, m)
		}
		return m
	case <-time.After(patience):
		require.Fail(b.t, "the browser does not answer", waiting)
		return message{}
	}
}

// open loads a page at a width and gives the events on the way.
func (b *browser) open(file string, wide int) []message {
	b.t.Helper()
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": wide, "height": 900, "deviceScaleFactor": 1, "mobile": wide < 600}, nil)
	b.call("Emulation.setEmulatedMedia", map[string]any{"media": ""}, nil)
	b.events = nil
	b.call("Page.navigate", map[string]any{"url": (&url.URL{Scheme: "file", Path: file}).String()}, nil)
	for !has(b.events, "Page.loadEventFired") {
		b.receive("load")
	}
	b.eval(`new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(1))))`, nil)
	return b.events
}

func has(events []message, method string) bool {
	for _, e := range events {
		if e.Method == method {
			return true
		}
	}
	return false
}

// eval runs a script in the page and reads its value.
func (b *browser) eval(script string, value any) {
	b.t.Helper()
	var r struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails json.RawMessage
	}
	b.call("Runtime.evaluate", map[string]any{"expression": script, "awaitPromise": true, "returnByValue": true}, &r)
	require.Empty(b.t, string(r.ExceptionDetails))
	if value != nil {
		require.NoError(b.t, json.Unmarshal(r.Result.Value, value))
	}
}

// print gives the page as a PDF of a paper, in inches.
func (b *browser) print(wide, high float64) []byte {
	b.t.Helper()
	var r struct{ Data string }
	b.call("Page.printToPDF", map[string]any{"paperWidth": wide, "paperHeight": high, "printBackground": false, "preferCSSPageSize": false}, &r)
	pdf, err := base64.StdEncoding.DecodeString(r.Data)
	require.NoError(b.t, err)
	return pdf
}

// copiesOf writes every copy of an order, and the index, and gives the files by copy.
func copiesOf(t *testing.T, o job.WorkOrder, metric bool) map[string]string {
	t.Helper()
	dir, out := t.TempDir(), map[string]string{}
	for name, page := range everyCopy(t, o, settings{metric: metric, explain: true}) {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, page, 0o600))
		out[strings.TrimSuffix(name, ".html")] = file
	}
	return out
}

// quiet demands that a page fetched nothing but itself and complained of nothing.
func quiet(t *testing.T, events []message, file string) {
	t.Helper()
	for _, e := range events {
		switch e.Method {
		case "Network.requestWillBeSent":
			var p struct{ Request struct{ URL string } }
			require.NoError(t, json.Unmarshal(e.Params, &p))
			assert.True(t, strings.HasPrefix(p.Request.URL, "data:") || p.Request.URL == (&url.URL{Scheme: "file", Path: file}).String(), "a request for %s", p.Request.URL)
		case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded", "Page.javascriptDialogOpening", "Network.loadingFailed":
			assert.Fail(t, e.Method, string(e.Params))
		}
	}
}

// Nothing is fetched, nothing is complained of, and nothing sticks out on a
// phone or on a desk; what is wider than a phone scrolls by itself.
func TestPageInBrowser(t *testing.T) {
	b := startBrowser(t)
	for name, o := range orders(t) {
		for _, metric := range []bool{false, true} {
			for copied, file := range copiesOf(t, o, metric) {
				for _, wide := range []int{390, 1280} {
					quiet(t, b.open(file, wide), file)
					b.fits(name+", "+copied, wide)
				}
			}
		}
	}
}

// fits checks that the open page is no wider than its window, and its type can be
// read.
func (b *browser) fits(name string, wide int) {
	b.t.Helper()
	var r struct {
		Inner, Scroll int
		Out           []string
		Small         []string
		Mode          string
	}
	b.eval(`(() => {
		const out = [], small = [];
		for (const e of document.body.querySelectorAll('*')) {
			if (e.closest('.wide, .columns') && !e.matches('.wide, .columns') || e.closest('svg') && e.tagName != 'svg' || e.closest('.cards thead')) continue;
			const r = e.getBoundingClientRect();
			if (r.width && (r.right > innerWidth + 0.5 || r.left < -0.5)) out.push(e.tagName + '.' + e.className + ' ' + r.left + '..' + r.right + ' ' + e.textContent.slice(0, 60));
			if (e.childElementCount == 0 && e.textContent.trim() && r.width && parseFloat(getComputedStyle(e).fontSize) < 12) small.push(e.tagName + ' ' + e.textContent.slice(0, 40));
		}
		return {Inner: innerWidth, Scroll: document.documentElement.scrollWidth, Out: out, Small: small, Mode: document.compatMode};
	})()`, &r)
	assert.Equal(b.t, wide, r.Inner)
	assert.LessOrEqual(b.t, r.Scroll, r.Inner, "%s at %d px scrolls sideways", name, wide)
	assert.Empty(b.t, r.Out, "%s at %d px", name, wide)
	assert.Empty(b.t, r.Small, "%s at %d px: type under 12 px", name, wide)
	assert.Equal(b.t, "CSS1Compat", r.Mode)
}

// Cards to measure by are seen whole on a phone, and are a page or two on paper.
func TestCardsInBrowser(t *testing.T) {
	b := startBrowser(t)
	for _, k := range kind.All() {
		var card bytes.Buffer
		require.NoError(t, printCard(t.Context(), &card, k.Name, job.WorkOrder{}, false))
		file := filepath.Join(t.TempDir(), "card.html")
		require.NoError(t, os.WriteFile(file, card.Bytes(), 0o600))
		for _, wide := range []int{390, 1280} {
			quiet(t, b.open(file, wide), file)
			b.fits(k.Name, wide)
		}
		for _, paper := range [][2]float64{{8.27, 11.69}, {8.5, 11}} {
			assert.LessOrEqual(t, len(pdfPage.FindAll(b.print(paper[0], paper[1]), -1)), 2, "%s on %v", k.Name, paper)
		}
	}
}

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
		{"a4", 210 / 25.4, 297 / 25.4, map[string]int{"demo": 21, "shapes": 12}},
		{"letter", 8.5, 11, map[string]int{"demo": 24, "shapes": 12}},
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
					if (r.height > 100 && getComputedStyle(s.closest('figure, .wide, tr')).breakInside != 'avoid') faults.push('may be divided: ' + what);
				}
				return {Drawings: n, Faults: faults};
			})()`, wide, high), &r)
			assert.Greater(t, r.Drawings, len(o.Cuts))
			assert.Empty(t, r.Faults, "%s on %s", name, c.paper)
		}
	}
}

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
	for name, o := range orders(t) {
		for copied, file := range copiesOf(t, o, false) {
			for _, wide := range []int{390, 1280} {
				b.open(file, wide)
				b.eval(string(axe)+"\n;1", nil)
				var r struct {
					Passes     []string
					Violations []string
				}
				b.eval(`axe.run(document, {resultTypes: ['violations', 'passes']}).then(r => ({
				Passes: r.passes.map(p => p.id),
				Violations: r.violations.map(v => v.id + ': ' + v.help + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 160)).join(' | ')),
			}))`, &r)
				assert.Empty(t, r.Violations, "%s, %s at %d px", name, copied, wide)
				rules := []string{"color-contrast", "region", "landmark-one-main"}
				if copied == "bench" {
					rules = append(rules, "heading-order", "svg-img-alt")
				}
				for _, rule := range rules {
					assert.Contains(t, r.Passes, rule, "the rule was tried")
				}
			}
		}
	}
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
