package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const prices = `code,kind,description,price,uplift,dated
CLOTH-12,goods,patterned cloth,42.00 USD/yd,25 % markup,2026-01-05
CLOTH-14,goods,plain cloth,18.50 USD/yd,,2026-01-05
FOAM-A,foam,seat foam,5.40 USD/bd ft,,
CORD,thread and sundries,cord,0.125 USD/yd,,
`

// in writes files into a folder of its own.
func in(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o640))
	}
	return dir
}

// call runs the program in a folder.
func call(t *testing.T, dir string, args ...string) (code int, out, errs string) {
	t.Helper()
	t.Chdir(dir)
	var o, e bytes.Buffer
	code = run(args, &o, &e)
	return code, o.String(), e.String()
}

func content(t *testing.T, dir, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	return string(text)
}

func TestListIsBroughtUpToDate(t *testing.T) {
	dir := in(t, map[string]string{"prices.csv": prices, "new.csv": "code,kind,description,price\nCLOTH-14,goods,plain cloth,19.00 USD/yd\nVINYL,goods,grey vinyl,24.00 USD/yd\n"})
	code, out, errs := call(t, dir, "-changes", "new.csv", "-remove", "FOAM-A", "-raise", "goods=4 %", "-dated", "2026-12-01", "prices.csv")
	require.Zero(t, code, errs)
	assert.Equal(t, "CLOTH-12: 42.00 USD/yd -> 43.68 USD/yd\nCLOTH-14: 18.50 USD/yd -> 19.00 USD/yd\nnew: VINYL, grey vinyl, 24.00 USD/yd\ngone: FOAM-A\n", out)
	list := content(t, dir, "prices.csv")
	assert.Contains(t, list, "CLOTH-12,goods,patterned cloth,43.68 USD/yd,25 % markup,,2026-12-01")
	assert.NotContains(t, list, "FOAM-A")
	kept, err := os.Stat("prices.csv")
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), kept.Mode().Perm())
	left, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Len(t, left, 2, "no unfinished file is left behind")
}

func TestDryAndElsewhere(t *testing.T) {
	dir := in(t, map[string]string{"prices.csv": prices})
	code, out, _ := call(t, dir, "-dry", "-remove", "CORD", "prices.csv")
	assert.Zero(t, code)
	assert.Equal(t, "gone: CORD\n", out)
	assert.Equal(t, prices, content(t, dir, "prices.csv"))
	code, _, _ = call(t, dir, "-to", "next.csv", "-remove", "CORD", "prices.csv")
	assert.Zero(t, code)
	assert.Equal(t, prices, content(t, dir, "prices.csv"))
	assert.NotContains(t, content(t, dir, "next.csv"), "CORD")
}

// Whatever is wrong, the list stays as it was.
func TestNothingIsWrittenByHalves(t *testing.T) {
	for name, c := range map[string]struct {
		changes string
		args    []string
		says    string
		code    int
	}{
		"a price without a unit":  {"code,kind,description,price\nA,goods,cloth,19.00 USD\n", []string{"-changes", "new.csv"}, "row 2", 1},
		"an unknown code":         {"", []string{"-remove", "CLOTH-99"}, "CLOTH-99", 1},
		"no such file":            {"", []string{"-changes", "none.csv"}, "none.csv", 1},
		"a price finer than cent": {"", []string{"-raise", "thread and sundries=4 %"}, "CORD", 1},
		"a kind without entries":  {"", []string{"-raise", "labour=4 %"}, "labour", 1},
		"an unknown kind":         {"", []string{"-raise", "cheese=4 %"}, "cheese", 2},
		"a kind twice":            {"", []string{"-raise", "goods=4 %", "-raise", "goods=1 %"}, "twice", 2},
		"no share":                {"", []string{"-raise", "goods"}, "share", 2},
		"less than nothing":       {"", []string{"-raise", "goods=-100 %"}, "-100 %", 2},
		"a unit that is none":     {"code,kind,description,price\nA,goods,cloth,19.00 USD/kg m\n", []string{"-changes", "new.csv"}, "new.csv", 1},
	} {
		t.Run(name, func(t *testing.T) {
			dir := in(t, map[string]string{"prices.csv": prices, "new.csv": c.changes})
			code, _, errs := call(t, dir, append(c.args, "prices.csv")...)
			assert.Equal(t, c.code, code)
			assert.Contains(t, errs, c.says)
			assert.Equal(t, prices, content(t, dir, "prices.csv"))
		})
	}
	code, _, _ := call(t, t.TempDir())
	assert.Equal(t, 2, code)
	code, _, errs := call(t, t.TempDir(), "-h")
	assert.Zero(t, code)
	assert.Contains(t, errs, "usage: pricelist")
}

func TestReplaceLeavesTheOldFile(t *testing.T) {
	dir := in(t, map[string]string{"list.csv": "old"})
	full := errors.New("the disk is full")
	err := replace(filepath.Join(dir, "list.csv"), func(w io.Writer) error {
		_, err := w.Write([]byte("half"))
		return errors.Join(err, full)
	})
	require.ErrorIs(t, err, full)
	assert.Equal(t, "old", content(t, dir, "list.csv"))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1)
}
