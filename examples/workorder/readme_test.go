package main

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

func block(t *testing.T, lang string) string {
	t.Helper()
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	m := regexp.MustCompile("(?s)```" + lang + "\n(.*?)```").FindSubmatch(readme)
	require.NotNil(t, m)
	return string(m[1])
}

// What the README prints must work as it stands.
func TestReadmeJob(t *testing.T) {
	o, err := job.Read(context.Background(), strings.NewReader(block(t, "json")), job.Options{})
	require.NoError(t, err)
	assert.Equal(t, "two stools", o.Name)
}

func TestReadmeProgram(t *testing.T) {
	program, err := os.ReadFile("../first/main.go")
	require.NoError(t, err)
	_, body, found := bytes.Cut(program, []byte("package main\n"))
	require.True(t, found)
	assert.Equal(t, block(t, "go"), "package main\n"+string(body))
	assert.Less(t, strings.Count(block(t, "go"), "\n"), 20)
}
