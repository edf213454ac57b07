package main

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stools are two stools of 18 by 18 in, pulled over by 3 in: two cuts of 24 in side by
// side on 54 in take 24 in, and the margin 4 in more.
const stools = `{
  "schema": "coverwright/job/1", "name": "two stools", "currency": "USD",
  "goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
  "pieces": [{"name": "stool", "count": 2,
    "panels": [{"name": "top", "goods": "cloth", "width": "18 in", "length": "18 in", "edges": "pull-over 3 in"}]}],
  "quote": {"labour_rate": "60.00 USD/h"}
}`

// post sends a body and reads the answer.
func post[T any](t *testing.T, h http.Handler, body string) (int, T) {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/yardage", strings.NewReader(body)))
	var out T
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &out), w.Body.String())
	return w.Code, out
}

func TestYardage(t *testing.T) {
	status, a := post[answer](t, handler(usual), stools)
	require.Equal(t, http.StatusOK, status)
	assert.Equal(t, "two stools", a.Name)
	require.Len(t, a.Goods, 1)
	assert.Equal(t, "cloth", a.Goods[0].ID)
	assert.Equal(t, "7/8 yd", a.Goods[0].Buy)
	assert.NotEmpty(t, a.Goods[0].Answers)
	assert.False(t, a.Stopped)
}

func TestFaultsComeWithTheirPlaces(t *testing.T) {
	status, r := post[refusal](t, handler(usual), strings.NewReplacer(`"width": "18 in"`, `"width": "18"`, `"woven"`, `"wool"`).Replace(stools))
	require.Equal(t, http.StatusBadRequest, status)
	require.Len(t, r.Faults, 2)
	assert.Equal(t, "goods[0].material", r.Faults[0].Field)
	assert.Equal(t, "pieces[0].panels[0].width", r.Faults[1].Field)
	assert.Equal(t, 5, r.Faults[1].Line)
	assert.Equal(t, "18", r.Faults[1].Value)
	assert.Contains(t, r.Faults[1].Want, "in")

	for _, broken := range []string{"", "{", "[]", "\xff"} {
		status, r := post[refusal](t, handler(usual), broken)
		assert.Equal(t, http.StatusBadRequest, status, broken)
		assert.NotEmpty(t, r.Faults, broken)
	}
}

func TestLimits(t *testing.T) {
	small := usual
	small.bytes = 100
	status, r := post[refusal](t, handler(small), stools)
	assert.Equal(t, http.StatusRequestEntityTooLarge, status)
	assert.Contains(t, r.Error, "100 bytes")

	short := usual
	short.within = time.Nanosecond
	status, r = post[refusal](t, handler(short), stools)
	assert.Equal(t, http.StatusServiceUnavailable, status)
	assert.Contains(t, r.Error, "time")

	assert.Error(t, limits{}.check())

	w := httptest.NewRecorder()
	handler(usual).ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/yardage", nil))
	assert.Equal(t, http.StatusMethodNotAllowed, w.Code)
}

// slow is a job file that never ends, until somebody lets it.
type slow struct {
	begun, end chan struct{}
}

func (s slow) Read([]byte) (int, error) {
	select {
	case s.begun <- struct{}{}:
	case <-s.end:
		return 0, http.ErrBodyReadAfterClose
	}
	<-s.end
	return 0, http.ErrBodyReadAfterClose
}

// Who comes while all places are taken is sent away, and let in later.
func TestNoMoreAtOnce(t *testing.T) {
	one := usual
	one.atOnce = 1
	h := handler(one)
	body := slow{make(chan struct{}), make(chan struct{})}
	done := make(chan struct{})
	go func() {
		h.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest(http.MethodPost, "/yardage", body))
		close(done)
	}()
	<-body.begun
	status, _ := post[refusal](t, h, stools)
	assert.Equal(t, http.StatusServiceUnavailable, status)
	close(body.end)
	<-done
	status, _ = post[answer](t, h, stools)
	assert.Equal(t, http.StatusOK, status)
}

// told takes what a program prints, and says when there is some.
type told struct{ lines chan string }

func (w told) Write(p []byte) (int, error) {
	w.lines <- string(p)
	return len(p), nil
}

func TestRunServesUntilItIsStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	out := told{make(chan string, 1)}
	code := make(chan int)
	go func() {
		var errs bytes.Buffer
		code <- run(ctx, []string{"-listen", "localhost:0"}, out, &errs)
	}()
	url := strings.TrimSpace(strings.TrimPrefix(<-out.lines, "listening at "))
	answered, err := http.Post(url, "application/json", strings.NewReader(stools))
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, answered.StatusCode)
	require.NoError(t, answered.Body.Close())
	cancel()
	assert.Zero(t, <-code)

	for _, wrong := range [][]string{{"-at-once", "0"}, {"-nonsense"}} {
		assert.Equal(t, 2, run(t.Context(), wrong, &bytes.Buffer{}, &bytes.Buffer{}))
	}
	assert.Equal(t, 1, run(t.Context(), []string{"-listen", "nowhere:port"}, &bytes.Buffer{}, &bytes.Buffer{}))
}
