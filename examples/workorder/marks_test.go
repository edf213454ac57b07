package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/examples/internal/markpage"
)

// The page of marks needs no job, is the same every time, and goes into a folder of
// its own.
func TestMarks(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "marks")
	out, _ := printed(t, exitOK, "-format", "marks", "-out", dir, "-paper", "letter")
	assert.Empty(t, out)
	file, err := os.ReadFile(filepath.Join(dir, marksFile))
	require.NoError(t, err)
	again, err := marksPDF(pattern.Letter())
	require.NoError(t, err)
	assert.True(t, bytes.Equal(file, again))
	_, errs := printed(t, exitInput, "-format", "marks", "-out", dir, "-force", "-job", "testdata/stool.json")
	assert.Contains(t, errs, "needs no -job")
	_, errs = printed(t, exitInput, "-format", "marks")
	assert.Contains(t, errs, "-out DIR")
}

// Marks and lines keep the margins of both papers, and no mark reaches into the
// white round another.
func TestMarksFitThePaper(t *testing.T) {
	for _, on := range papers() {
		lines, _, _ := measured(on)
		across, up := markpage.Across*(markpage.Columns-1), markpage.Up*(markpage.Rows-1)
		assert.LessOrEqual(t, across+2*markpage.Radius+2*on.Margin, on.Width, on.Name)
		assert.LessOrEqual(t, up+2*markpage.Radius+2*on.Margin, on.Height, on.Name)
		assert.LessOrEqual(t, lines.Across+2*on.Margin, on.Width, on.Name)
		assert.LessOrEqual(t, lines.Up+2*on.Margin, on.Height, on.Name)
		assert.LessOrEqual(t, on.Width, markpage.PaperAcross, on.Name)
		assert.LessOrEqual(t, on.Height, markpage.PaperUp, on.Name)
	}
	assert.Greater(t, float64(markpage.Up), 2*markpage.Margin*float64(markpage.Radius))
}
