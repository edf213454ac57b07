package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// A chair whose cloth has a half drop: the pattern runs down its front, and is asked
// to close round its corner too, which it cannot.
var patterned = `{"schema": "coverwright/job/1", "name": "patterned chair", "currency": "USD",
	"goods": [{"id": "leaves", "kind": "roll", "name": "leaves", "material": "woven", "price": "60 USD/yd", "width": "54 in", "repeat": "12 in", "repeat_across": "9 in", "drop": "1/2"},
		{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "54 in"}],
	"pieces": [{"name": "chair", "panels": [
			{"name": "back", "goods": "leaves", "width": "20 in", "length": "24 in"}, {"name": "seat", "goods": "leaves", "width": "20 in", "length": "20 in"},
			{"name": "nose", "goods": "leaves", "width": "20 in", "length": "6 in"}, {"name": "deck", "goods": "plain", "width": "20 in", "length": "20 in"}],
		"motifs": [{"on": "back"}],
		"meets": [{"meet": "back.bottom", "in": "4 in", "to": "seat.top", "pattern": "both"}, {"meet": "seat.bottom", "to": "nose.top", "pattern": "both"},
			{"meet": "nose.bottom", "to": "back.top", "pattern": "along", "hidden": true}],
		"fastenings": [` + stapled("back") + `, ` + stapled("seat") + `, ` + stapled("nose") + `, ` + stapled("deck") + `]}],
	"quote": {"labour_rate": "50 USD/h"}}`

// stapled fastens a panel all round.
func stapled(panel string) string {
	return fmt.Sprintf(`{"fasten": ["%[1]s.bottom", "%[1]s.right", "%[1]s.top", "%[1]s.left"]}`, panel)
}

func patternedOrder(t *testing.T) job.WorkOrder {
	o, err := job.Read(context.Background(), strings.NewReader(patterned), job.Options{Effort: 0.001})
	require.NoError(t, err)
	return o
}

// The page has the front with what runs on and by how much the rest is out, and the
// motif of every cut in a picture and in words.
func TestPageShowsThePattern(t *testing.T) {
	o := patternedOrder(t)
	page, err := copyHTML(o, settings{}, "bench")
	require.NoError(t, err)
	text := string(page)
	_, section, found := strings.Cut(text, `<section id="pattern"`)
	require.True(t, found)
	section, _, _ = strings.Cut(section, "</section>")
	assert.Contains(t, text, `href="#pattern"`)
	assert.Equal(t, 2+1, strings.Count(section, `class="runs"`), "two, and the key")
	// Back to back the pattern has gone 20 + 20 + 6 in down: 2 in short of four repeats
	// of 12 in; any column will do, so of eight halves.
	assert.Contains(t, section, "Cannot close at meet, nose.bottom to back.top: out by 2 in along.")
	assert.Contains(t, section, "motif on the middle line, 12 in above the lower seam line")
	for _, name := range []string{"1 back", "2 seat", "3 nose"} {
		assert.Contains(t, section, ">"+name+"<")
	}
	assert.NotContains(t, section, "deck")

	plain, err := copyHTML(orders(t)["seats"], settings{}, "bench")
	require.NoError(t, err)
	assert.NotContains(t, string(plain), `id="pattern"`)
}

// Pieces that no motif is asked for on show what the layout gave them.
func TestFrontIsDrawnAsLaid(t *testing.T) {
	o, err := job.Read(context.Background(), strings.NewReader(strings.Replace(patterned, `"motifs": [{"on": "back"}],`, "", 1)), job.Options{Effort: 0.001})
	require.NoError(t, err)
	cuts, err := drawnCuts(o)
	require.NoError(t, err)
	flow, _ := flowLaid(o, 1, cuts)
	for i := range 3 {
		seam := cuts[i].seamCorner()
		m := o.Cuts[i].Motifs[0]
		assert.Equal(t, m.At.X-seam.X, flow.Pieces[i].Motif.X)
		assert.Equal(t, m.At.Y-seam.Y, flow.Pieces[i].Motif.Y)
	}
}

// -cloth puts a photo into the pages; other formats, goods that nobody has and files that
// are no picture are refused.
func TestCloth(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "job.json")
	require.NoError(t, os.WriteFile(file, []byte(patterned), 0o600))
	var picture bytes.Buffer
	require.NoError(t, png.Encode(&picture, image.NewGray(image.Rect(0, 0, 18, 12))))
	photo, text := filepath.Join(dir, "photo.png"), filepath.Join(dir, "photo.txt")
	require.NoError(t, os.WriteFile(photo, picture.Bytes(), 0o600))
	require.NoError(t, os.WriteFile(text, []byte("no picture"), 0o600))
	empty := filepath.Join(dir, "empty")
	require.NoError(t, os.WriteFile(empty, nil, 0o600))
	html := []string{"-format", "html", "-out", filepath.Join(dir, "out"), "-job", file, "-effort", "0.001"}
	for name, args := range map[string][]string{
		"no file":    append([]string{"-cloth", "leaves=" + filepath.Join(dir, "none")}, html...),
		"no picture": append([]string{"-cloth", "leaves=" + text}, html...),
		"nothing":    append([]string{"-cloth", "leaves=" + empty}, html...),
		"no goods":   append([]string{"-cloth", photo}, html...),
		"unknown":    append([]string{"-cloth", "bees=" + photo}, html...),
		"twice":      append([]string{"-cloth", "leaves=" + photo, "-cloth", "leaves=" + photo}, html...),
		"as text":    {"-cloth", "leaves=" + photo, "-job", file},
	} {
		var out, errs bytes.Buffer
		assert.Equal(t, exitInput, run(context.Background(), args, &out, &errs), name)
		assert.NoDirExists(t, filepath.Join(dir, "out"), name)
		assert.NotEmpty(t, errs.String(), name)
	}
	var fault *unit.InputError
	require.ErrorAs(t, photos{}.add("leaves="+text), &fault)
	assert.Equal(t, unit.Path("cloth"), fault.Field)

	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append([]string{"-cloth", "leaves=" + photo}, html...), &out, &errs), errs.String())
	page, err := os.ReadFile(filepath.Join(dir, "out", "bench.html")) //nolint:gosec // made above
	require.NoError(t, err)
	assert.Equal(t, 1, bytes.Count(page, []byte("data:image/png;base64,")))
	page, err = os.ReadFile(filepath.Join(dir, "out", "customer.html")) //nolint:gosec // made above
	require.NoError(t, err)
	assert.Contains(t, string(page), `<img class="swatch" alt="" src="data:image/png;base64,`)
	assert.Contains(t, string(page), "front, laid flat")
}
