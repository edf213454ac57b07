package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// ran runs the program.
func ran(t *testing.T, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	require.Equal(t, want, run(args, &out, &errs), errs.String())
	return out.String(), errs.String()
}

// The way of the README: a folder of photos and drawings becomes a job file that is
// cut as it is.
func TestFromFolderToCutList(t *testing.T) {
	dir := t.TempDir()
	chair := filepath.Join(dir, "chair")
	require.NoError(t, os.Mkdir(chair, 0o700))
	photo := filepath.Join(chair, "back no. 1.jpg")
	require.NoError(t, os.WriteFile(photo, spoilt(t).taken(t), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(chair, "seat.svg"), []byte(box+`<rect width="300" height="160"/></svg>`), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(chair, "notes.txt"), []byte("measure twice"), 0o600))
	look, file := filepath.Join(dir, "look"), filepath.Join(dir, "chair.json")
	out, errs := ran(t, exitOK, "-job", chair, "-out", file, "-overlay", look)
	assert.Empty(t, out)
	assert.Contains(t, errs, "notes.txt is no photo")
	assert.Contains(t, errs, "off by at most")
	assert.Contains(t, errs, "not measured")

	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close() //nolint:errcheck // only read
	order, err := job.Read(context.Background(), f, job.Options{Effort: 0.01})
	require.NoError(t, err)
	require.Len(t, order.Cuts, 2)
	assert.Equal(t, "back no  1", order.Cuts[0].Part)
	assert.InDelta(t, 600, order.Cuts[0].Finished.Width.Millimetres(), 3)

	drawing, err := os.ReadFile(filepath.Join(look, "back no. 1.jpg.svg"))
	require.NoError(t, err)
	for d := xml.NewDecoder(bytes.NewReader(drawing)); ; {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
	}
	// One photo alone gives the same panel.
	one, _ := ran(t, exitOK, photo)
	again, _ := ran(t, exitOK, photo)
	assert.Equal(t, one, again)
	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(whole), `"from": "0 in, `)
	assert.Contains(t, one, `"name": "panel 1"`)
}

func TestCommandLine(t *testing.T) {
	dir := t.TempDir()
	empty := filepath.Join(dir, "empty")
	require.NoError(t, os.Mkdir(empty, 0o700))
	bad := filepath.Join(dir, "bad.jpg")
	require.NoError(t, os.WriteFile(bad, []byte("no photo"), 0o600))
	for want, args := range map[string][]string{
		"want one photo":          {},
		"go together":             {"-across", "150mm", bad},
		"stands alone":            {"-demo", "a.jpg", "b.jpg"},
		"-job takes the folder":   {"-job", empty, "b.jpg"},
		"no photo (.jpg":          {"-job", empty},
		"neither JPEG nor PNG":    {bad},
		"no such file":            {filepath.Join(dir, "none.jpg")},
		"up to 10 m":              {"-taped", "12 m", bad},
		"invalid value":           {"-thickness", "thick", bad},
		"two numbers of pages":    {"-taped", "1-1:912mm", bad},
		"flag provided but not":   {"-nonsense"},
		"not a photo that can be": {"-out", filepath.Join(dir, "o.json"), bad},
	} {
		out, errs := ran(t, exitInput, args...)
		assert.Empty(t, out)
		assert.Contains(t, errs, want)
	}
	_, err := os.Stat(filepath.Join(dir, "o.json"))
	assert.ErrorIs(t, err, os.ErrNotExist, "nothing is written of a photo that is refused")
	photo := filepath.Join(dir, "photo.jpg")
	require.NoError(t, os.WriteFile(photo, spoilt(t).taken(t), 0o600))
	ran(t, exitWrite, "-out", filepath.Join(dir, "none", "o.json"), photo)
}
