package workbook

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

const demoFile = "../../../workorder/larkfield.json"

func demo(t testing.TB) ([]byte, job.Spec, job.WorkOrder) {
	t.Helper()
	data, err := os.ReadFile(demoFile)
	require.NoError(t, err)
	spec, order := worked(t, data)
	return data, spec, order
}

func worked(t testing.TB, data []byte) (job.Spec, job.WorkOrder) {
	t.Helper()
	order, err := job.Read(t.Context(), bytes.NewReader(data), job.Options{Effort: 0.001})
	require.NoError(t, err)
	var spec job.Spec
	require.NoError(t, json.Unmarshal(data, &spec))
	return spec, order
}
