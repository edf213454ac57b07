//go:build chromium

package main

// The page is looked at in a real browser, which is driven over its debugging
// pipe: messages in JSON, each ended by a zero byte.

import (
	"bufio"
	"cmp"
	"encoding/base64"
	"encoding/json"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

const patience = 2 * time.Minute // for one answer of the browser, on a slow machine

// browser is a headless browser and the one tab we look at.
type browser struct {
	t       *testing.T
	out     *os.File
	in      chan message
	session string
	scheme  string // light when empty, or dark
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
	b.call("Emulation.setEmulatedMedia", map[string]any{"media": "", "features": []map[string]string{{"name": "prefers-color-scheme", "value": cmp.Or(b.scheme, "light")}}}, nil)
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
