package workbook_test

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
)

const demoFile = "../../../workorder/larkfield.json"

// demo gives the demo job with what its shop brings.
func demo(t testing.TB) []byte {
	t.Helper()
	shop, err := jobfile.Files{Shop: "../../../workorder/larkfield-shop.json"}.ReadShop()
	require.NoError(t, err)
	data, err := os.ReadFile(demoFile)
	require.NoError(t, err)
	spec, err := shop.ReadSpec(bytes.NewReader(data))
	require.NoError(t, err)
	data, err = json.Marshal(spec)
	require.NoError(t, err)
	return data
}

// workedOut holds the orders of the jobs met so far; nobody writes to them.
var workedOut = map[string]job.WorkOrder{}

func worked(t testing.TB, data []byte) (job.Spec, job.WorkOrder) {
	t.Helper()
	order, met := workedOut[string(data)]
	if !met {
		var err error
		order, err = job.Read(t.Context(), bytes.NewReader(data), job.Options{Effort: 0.001})
		require.NoError(t, err)
		workedOut[string(data)] = order
	}
	spec, err := job.ReadSpec(bytes.NewReader(data))
	require.NoError(t, err)
	return spec, order
}

// part gives the demo job without options and, unless all is set, with its
// last piece only: quick to work out.
func part(t testing.TB, all bool) []byte {
	t.Helper()
	data := demo(t)
	var j map[string]any
	require.NoError(t, json.Unmarshal(data, &j))
	delete(j, "options")
	if !all {
		pieces := j["pieces"].([]any)
		j["pieces"] = pieces[len(pieces)-1:]
	}
	out, err := json.Marshal(j)
	require.NoError(t, err)
	if !all {
		out = quickly(t, out)
	}
	return out
}

// quickly is a job whose hides are bought without a layout and whose rolls have no
// pattern to lie on: both are dear.
func quickly(t testing.TB, data []byte) []byte {
	t.Helper()
	var j map[string]any
	require.NoError(t, json.Unmarshal(data, &j))
	for _, g := range j["goods"].([]any) {
		if m := g.(map[string]any); m["kind"] == "hide" {
			m["buy_by"] = "rule of thumb"
		} else {
			delete(m, "repeat")
		}
	}
	out, err := json.Marshal(j)
	require.NoError(t, err)
	return out
}

// at names a cell, such as D7.
func at(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		panic(err)
	}
	return name
}
