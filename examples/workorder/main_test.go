package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644)) //nolint:gosec // a test file
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got), "run with -update after looking at the change")
}

func TestDemoText(t *testing.T) {
	order, err := asPrinted()
	require.NoError(t, err)
	for _, units := range []string{"inch", "metric"} {
		var out bytes.Buffer
		require.NoError(t, renderText(order, settings{stdout: &out, metric: units == "metric"}))
		golden(t, "larkfield-"+units+".txt", out.Bytes())
		if units == "metric" {
			cuts, _, _ := strings.Cut(out.String(), "Allowances not given")
			assert.NotRegexp(t, `[0-9] in\b`, cuts, "no inches left over")
		}
		for _, head := range []string{"Cut list", "What to buy", "Thread, needle and stitch", "Foam", "Quote", "By piece of furniture", "Cautions"} {
			assert.Contains(t, out.String(), head)
		}
	}
}

// little effort is enough where the layout does not matter, and a small job
// where the job does not.
var (
	little = []string{"-effort", "0.001"}
	stool  = append(slices.Clip(little), "-job", "testdata/stool.json")
)

// Six seats of one line are an order of a page, with the one document behind its
// figures.
func TestSmallJobStaysSmall(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(little), "-job", "testdata/seats.json"), &out, &errs), errs.String())
	assert.LessOrEqual(t, strings.Count(out.String(), "\n"), 43, out.String())
	for _, line := range []string{"dining chair  seat  plain tweed  6      19 x 17 in  26 1/2 x 24 1/2 in", "dining chair: time to strip, pad and cover", "pad 19 x 17 x 2 in", "Check frame"} {
		assert.Contains(t, out.String(), line)
	}
}

// A panel that was taken with a tape says how good its cut size is.
func TestTapedPanel(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(little), "-job", "testdata/shapes.json"), &out, &errs), errs.String())
	assert.Contains(t, strings.Join(strings.Fields(out.String()), " "), "by tape, each measure ± 1/16 in: cut size ± 1/16 in (95 of 100), never off by more than 1/16 in; area ±")
}

// The lengths to buy before a cloth is chosen, a line for each width, of a small job;
// TestYardageOfTheDemo takes the demo.
func TestYardage(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(stool), "-format", "yardage"), &out, &errs), errs.String())
	for _, line := range []string{"goods width plain repeat 14 in repeat 20 in repeat 27 in", "cloth 54 in 2/3 yd 2/3 yd"} {
		assert.Contains(t, strings.Join(strings.Fields(out.String()), " "), line)
	}
}

// Pieces that nobody has measured, usual times and what a job took stand on text and
// page.
func TestUsualTimes(t *testing.T) {
	for _, format := range [][]string{{}, {"-format", "html", "-out", filepath.Join(t.TempDir(), "page")}} {
		var out, errs bytes.Buffer
		require.Equal(t, exitOK, run(context.Background(), append(append(slices.Clip(little), "-job", "testdata/usual.json"), format...), &out, &errs), errs.String())
		text := out.Bytes()
		if len(format) > 0 {
			var err error
			text, err = os.ReadFile(filepath.Join(format[3], "office.html"))
			require.NoError(t, err)
		}
		for _, line := range []string{"Usual time, for one piece", "cover, finish", "without frame, as nothing is renewed", "In the end", "1 h 20 min", "Not measured",
			"7 1/2 yd", "the whole quote one of class 5", "measuring on site"} {
			assert.Contains(t, strings.Join(strings.Fields(string(text)), " "), line)
		}
	}
}

func TestJSON(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(stool), "-format", "json"), &out, &errs), errs.String())
	assert.Empty(t, errs.String())
	var order map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &order))
	assert.Equal(t, string(job.OrderSchema), order["schema"])
}

// Progress goes to standard error, a line for each step; the seed is taken.
func TestProgress(t *testing.T) {
	file := filepath.Join(t.TempDir(), "job.json")
	require.NoError(t, os.WriteFile(file, jobOf(4), 0o600))
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(little), "-job", file, "-progress", "-seed", "7"), &out, &errs), errs.String())
	lines := strings.Split(strings.TrimSpace(errs.String()), "\n")
	assert.Greater(t, len(lines), 3)
	assert.Contains(t, lines[0], "0 % ")
	assert.Contains(t, lines[len(lines)-1], "100 % ")
	for _, l := range lines {
		assert.Regexp(t, `^[0-9]+ % .+$`, l)
	}
}

// An interrupt while layouts are made gives an order that says so.
func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var out bytes.Buffer
	require.Equal(t, exitOK, run(ctx, []string{"-effort", "1000", "-progress"}, &out, writerFunc(func(p []byte) (int, error) {
		cancel()
		return len(p), nil
	})))
	assert.Contains(t, out.String(), "were stopped before their time")
	var errs bytes.Buffer
	out.Reset()
	assert.Equal(t, exitInput, run(ctx, little, &out, &errs), "interrupted before there was anything to keep")
	assert.Empty(t, out.String())
}

type writerFunc func(p []byte) (int, error)

func (f writerFunc) Write(p []byte) (int, error) { return f(p) }

func TestBadCommandLinesAndFiles(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.json")
	require.NoError(t, os.WriteFile(bad, []byte(strings.Replace(string(demo), `"23 in"`, `"23"`, 1)), 0o600))
	for name, args := range map[string][]string{
		"units":          {"-units", "cubit"},
		"format":         {"-format", "pdf"},
		"argument":       {"extra"},
		"unknown flag":   {"-colour"},
		"no file":        {"-job", filepath.Join(dir, "none.json")},
		"a folder":       {"-job", dir},
		"a fault":        {"-job", bad, "-shop", "larkfield-shop.json"},
		"no shop":        {"-shop", filepath.Join(dir, "none.json")},
		"no prices":      {"-prices", filepath.Join(dir, "none.csv")},
		"job as shop":    {"-shop", "larkfield.json"},
		"shop as CSV":    {"-prices", "larkfield-shop.json"},
		"head of marks":  {"-format", "marks", "-out", dir, "-shop", "larkfield-shop.json"},
		"effort":         {"-effort", "-1"},
		"no effort":      {"-effort", "lots"},
		"text in DIR":    {"-out", dir},
		"card of none":   {"-format", "yardage", "-job", bad},
		"card of a kind": {"-format", "yardage", "-from", "bolster"},
	} {
		t.Run(name, func(t *testing.T) {
			var out, errs bytes.Buffer
			assert.Equal(t, exitInput, run(context.Background(), args, &out, &errs))
			assert.Empty(t, out.String(), "nothing on standard output")
			assert.NotEmpty(t, errs.String())
		})
	}
}

// A full disk is no input fault.
func TestWriteFault(t *testing.T) {
	var errs bytes.Buffer
	assert.Equal(t, exitWrite, run(context.Background(), stool, full{}, &errs))
	assert.Contains(t, errs.String(), "no space")
}

type full struct{}

func (full) Write([]byte) (int, error) {
	return 0, &os.PathError{Op: "write", Path: "order", Err: errNoSpace{}}
}

type errNoSpace struct{}

func (errNoSpace) Error() string { return "no space left" }
