package jobtable_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
	drawn "github.com/coverwright/coverwright/internal/dev/generate/jobs"
)

// Of a hundred draws of four jobs some two hundred and fifty have no fault of their form.
func TestGeneratedJobsComeBack(t *testing.T) {
	var texts [][]byte
	for _, spec := range jobs(t) {
		text, err := json.Marshal(spec)
		require.NoError(t, err)
		texts = append(texts, text)
	}
	d, err := drawn.New(texts...)
	require.NoError(t, err)
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		for range 4 {
			read += comesBack(t, d)
		}
	})
	assert.Positive(t, read)
}

// comesBack counts the job that was drawn where it can be read.
func comesBack(t *rapid.T, d drawn.Drawing) int {
	text, err := json.Marshal(d.Job(t))
	require.NoError(t, err)
	spec, err := job.ReadSpec(bytes.NewReader(text))
	if err != nil {
		return 0
	}
	before, err := json.Marshal(spec)
	require.NoError(t, err)
	_, got := again(t, before, jobtable.Options{Metric: rapid.Bool().Draw(t, "metric")})
	back, err := job.ReadSpec(bytes.NewReader(got))
	require.NoError(t, err)
	after, err := json.Marshal(back)
	require.NoError(t, err)
	if string(before) != string(after) {
		t.Fatalf("%s\nbecame\n%s", before, after)
	}
	return 1
}
