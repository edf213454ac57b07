package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

func sheet(t *testing.T, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, bad bytes.Buffer
	code = run(t.Context(), args, strings.NewReader(stdin), &out, &bad)
	return code, out.String(), bad.String()
}

func TestCommands(t *testing.T) {
	code, out, _ := sheet(t, `{"id":1,"fn":"BOARDFEET","args":[24,24,4]}`+"\n", "serve")
	assert.Equal(t, exitOK, code)
	assert.Equal(t, "{\"id\":1,\"value\":16}\n", out)

	code, out, _ = sheet(t, "", "functions")
	assert.Equal(t, exitOK, code)
	assert.Contains(t, out, "### BOARDFEET")

	code, out, stderr := sheet(t, "length_in,width_in,thickness_in\n24,24,4\n1,1,x\n", "batch", "-fn", "SHOP.boardfeet")
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, out, "24,24,4,16,")
	assert.Contains(t, stderr, "2 rows, 1 with an error")

	code, out, _ = sheet(t, "", "fill", "-names")
	assert.Equal(t, exitOK, code)
	assert.Contains(t, out, "fill_total")
}

func TestWrongCommandLines(t *testing.T) {
	for _, args := range [][]string{
		{}, {"dance"}, {"serve", "now"}, {"serve", "-x"}, {"addin"}, {"addin", "-out", "a.zip"}, {"addin", "-out", "a.oxt", "-binary", "plan9/mips=main.go"},
		{"addin", "-out", "a.oxt", "-binary", "main.go"}, {"addin", "-out", "a.oxt", "-binary", "nowhere.exe"},
		{"quote"}, {"quote", "-out", "a.xlsx", "-units", "cubits"}, {"quote", "-job", "nowhere.json", "-out", "a.xlsx"}, {"quote", "-as", "bill", "-out", "a.xlsx"},
		{"quote", "-job", "../../cost/job/testdata/anatomy/bolster.json", "-as", "invoice", "-effort", "0.001", "-out", "a.xlsx"},
		{"new"}, {"new", "-out", "a.csv"}, {"new", "-out", "a.xlsx", "-from", "throne"}, {"new", "-out", "a.xlsx", "-units", "cubits"}, {"new", "-out", "a.xlsx", "-shop", "nowhere.json"},
		{"update"}, {"update", "nowhere.xlsx"}, {"update", "main.go"}, {"update", "nowhere.xlsx", "-as", "bill"}, {"update", "nowhere.xlsx", "-effort", "-3"}, {"update", "nowhere.xlsx", "more.xlsx"},
		{"fill", "-in", "nowhere.xlsx", "-job", "main.go", "-out", "a.xlsx"}, {"fill"}, {"batch"}, {"batch", "-fn", "DANCE"},
		{"batch", "-fn", "BOARDFEET", "-in", "nowhere.csv"}, {"batch", "-fn", "BOARDFEET", "-in", "main.go"},
	} {
		code, out, stderr := sheet(t, "", args...)
		assert.Equal(t, exitInput, code, args)
		assert.Empty(t, out, args)
		assert.NotEmpty(t, stderr, args)
	}
	for _, name := range []string{"a.xlsx", "a.oxt"} {
		_, err := os.Stat(name)
		assert.ErrorIs(t, err, os.ErrNotExist, "nothing is written")
	}
}

func TestFilesAreWrittenWholeOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.csv"), filepath.Join(dir, "out.csv")
	require.NoError(t, os.WriteFile(in, []byte("length_in,width_in,thickness_in\n24,24,4\n\"1,1,1\n"), 0o600))
	require.NoError(t, os.WriteFile(out, []byte("before"), 0o600))
	code, _, _ := sheet(t, "", "batch", "-fn", "BOARDFEET", "-in", in, "-out", out)
	assert.Equal(t, exitInput, code)
	got, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.Equal(t, "before", string(got))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 2, "nothing is left behind")

	require.NoError(t, os.WriteFile(in, []byte("length_in,width_in,thickness_in\n24,24,4\n"), 0o600))
	code, _, _ = sheet(t, "", "batch", "-fn", "BOARDFEET", "-in", in, "-out", out)
	assert.Equal(t, exitOK, code)
	got, err = os.ReadFile(out)
	require.NoError(t, err)
	assert.Contains(t, string(got), "24,24,4,16,")
}

func TestTheDemoJobIsQuoted(t *testing.T) {
	out := filepath.Join(t.TempDir(), "quote.xlsx")
	code, _, stderr := sheet(t, "", "quote", "-out", out, "-effort", "0.001")
	require.Equal(t, exitOK, code, stderr)
	b, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(b, []byte("PK")))
}

func TestAJobIsBegunAndBroughtUpToDate(t *testing.T) {
	dir := t.TempDir()
	book := filepath.Join(dir, "seats.xlsx")
	code, _, stderr := sheet(t, "", "new", "-from", "drop-in seat", "-shop", "../workorder/larkfield-shop.json", "-out", book)
	require.Equal(t, exitOK, code, stderr)
	code, _, stderr = sheet(t, "", "new", "-out", book)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, stderr, "is there already")
	before, err := os.ReadFile(book)
	require.NoError(t, err)

	// What is missing is told with its cell, in the file and here.
	text := filepath.Join(dir, "job.json")
	code, _, stderr = sheet(t, "", "update", book, "-job", text)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, stderr, "Job!B5: required; want what the job is called")
	assert.Contains(t, stderr, "to be mended: ")
	noted, err := os.ReadFile(book)
	require.NoError(t, err)
	assert.NotEqual(t, before, noted)
	_, err = os.Stat(text)
	require.ErrorIs(t, err, os.ErrNotExist, "a wrong job is not written")

	// A whole job stays as it is, and the paper is the one it was.
	quote, again := filepath.Join(dir, "quote.xlsx"), filepath.Join(dir, "again.xlsx")
	code, _, stderr = sheet(t, "", "quote", "-out", quote, "-as", "invoice", "-effort", "0.001")
	require.Equal(t, exitOK, code, stderr)
	code, out, stderr := sheet(t, "", "update", "-effort", "0.001", "-job", text, "-out", again, quote)
	require.Equal(t, exitOK, code, stderr)
	b, err := os.ReadFile(text)
	require.NoError(t, err)
	assert.Contains(t, string(b), `"from": "drop-in seat"`)
	assert.Contains(t, out, "USD")
	f, err := excelize.OpenFile(again)
	require.NoError(t, err)
	defer f.Close()
	found, err := f.SearchSheet("Quote", "Invoice")
	require.NoError(t, err)
	assert.NotEmpty(t, found)
}

// The module of the library does without the workbook library.
func TestTheWorkbookLibraryStaysHere(t *testing.T) {
	above, err := os.ReadFile(filepath.Join("..", "..", "go.mod"))
	require.NoError(t, err)
	assert.NotContains(t, string(above), "github.com/xuri/excelize")
}
