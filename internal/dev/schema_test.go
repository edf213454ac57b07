package dev_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	shipped "github.com/coverwright/coverwright/cost/job/schema"
	"github.com/coverwright/coverwright/internal/dev/schema"
)

// file reads a file in the folder of cost/job.
func file(t *testing.T, path ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(append([]string{root, "cost", "job"}, path...)...))
	require.NoError(t, err)
	return string(text)
}

// The schemas are those of the Go types; go generate ./cost/job writes them.
func TestSchemasAreFresh(t *testing.T) {
	files, err := schema.Files()
	require.NoError(t, err)
	on, err := filepath.Glob(filepath.Join(root, "cost", "job", "schema", "*.json"))
	require.NoError(t, err)
	require.Len(t, on, len(files))
	for name, text := range files {
		require.Equal(t, string(text), file(t, "schema", name), "stale: run go generate ./cost/job")
	}
	assert.Equal(t, files["job-1.schema.json"], shipped.Job())
	assert.Equal(t, files["shop-1.schema.json"], shipped.Shop())
	assert.Equal(t, files["work-order-2.schema.json"], shipped.Order())
}

// The README describes the fields as they are; go generate ./cost/job writes it.
func TestReadmeIsFresh(t *testing.T) {
	want, err := schema.Readme()
	require.NoError(t, err)
	require.Equal(t, string(want), file(t, "README.md"), "stale: run go generate ./cost/job")
}
