package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
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
	for _, units := range []string{"inch", "metric"} {
		var out, errs bytes.Buffer
		require.Equal(t, exitOK, run(context.Background(), []string{"-units", units}, &out, &errs), errs.String())
		assert.Empty(t, errs.String())
		golden(t, "larkfield-"+units+".txt", out.Bytes())
		if units == "metric" {
			assert.NotContains(t, out.String(), " in\n", "no inches left over")
		}
		for _, head := range []string{"Cut list", "What to buy", "Thread, needle and stitch", "Foam", "Quote", "Cautions"} {
			assert.Contains(t, out.String(), head)
		}
	}
}

func TestDemoJSON(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), []string{"-format", "json"}, &out, &errs), errs.String())
	var order map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &order))
	assert.Equal(t, job.OrderSchema, order["schema"])
}

func TestBadCommandLinesAndFiles(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.json")
	require.NoError(t, os.WriteFile(bad, []byte(strings.Replace(string(demo), `"23 in"`, `"23"`, 1)), 0o600))
	for name, args := range map[string][]string{
		"units":        {"-units", "cubit"},
		"format":       {"-format", "pdf"},
		"argument":     {"extra"},
		"unknown flag": {"-colour"},
		"no file":      {"-job", filepath.Join(dir, "none.json")},
		"a folder":     {"-job", dir},
		"a fault":      {"-job", bad},
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
	assert.Equal(t, exitWrite, run(context.Background(), nil, full{}, &errs))
	assert.Contains(t, errs.String(), "no space")
}

type full struct{}

func (full) Write([]byte) (int, error) {
	return 0, &os.PathError{Op: "write", Path: "order", Err: errNoSpace{}}
}

type errNoSpace struct{}

func (errNoSpace) Error() string { return "no space left" }
