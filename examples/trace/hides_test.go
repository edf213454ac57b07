package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// With -hides a photo gives a hide: here of the shape of an inside back. TestHidesInFull
// takes a photo of twelve megapixels of a hide.
func TestHides(t *testing.T) {
	tr := spoilt(t)
	want := tr.scene.Panels[0].Outline
	file := filepath.Join(t.TempDir(), "hide.jpg")
	require.NoError(t, os.WriteFile(file, tr.taken(t), 0o600))
	out, errs := ran(t, exitOK, "-hides", file)
	var got struct{ Hides []job.HideSpec }
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Hides, 1)
	o, err := got.Hides[0].Outline.Outline()
	require.NoError(t, err)
	assert.Less(t, wrongBy(t, o, want), 1.0)
	assert.InEpsilon(t, want.Area().SquareMetres(), o.Area().SquareMetres(), 0.003)
	assert.Contains(t, errs, "sq ft")
	assert.Contains(t, errs, "holes, marks in the leather and grades are not read")
	ran(t, exitInput, "-hides", "-level", file)
}
