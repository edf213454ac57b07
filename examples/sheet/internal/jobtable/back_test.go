package jobtable_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
)

const top = "../../../../"

// jobs gives the job files of the repository, each on top of the demo's shop file where
// it needs one.
func jobs(t testing.TB) map[string]job.Spec {
	t.Helper()
	shopText, err := os.ReadFile(top + "examples/workorder/larkfield-shop.json")
	require.NoError(t, err)
	shop, err := job.ReadShop(bytes.NewReader(shopText))
	require.NoError(t, err)
	out := map[string]job.Spec{}
	for _, pattern := range []string{"examples/workorder/*.json", "cost/job/testdata/*.json", "cost/job/testdata/anatomy/*.json"} {
		files, err := filepath.Glob(top + pattern)
		require.NoError(t, err)
		for _, name := range files {
			if strings.HasSuffix(name, "-shop.json") {
				continue
			}
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			spec, err := job.ReadSpec(bytes.NewReader(text))
			if err != nil {
				spec, err = shop.ReadSpec(bytes.NewReader(text))
			}
			require.NoError(t, err, name)
			out[filepath.Base(name)] = spec
		}
	}
	require.Greater(t, len(out), 10)
	return out
}

// again gives the job of the tables of a job.
func again(t require.TestingT, text []byte, o jobtable.Options) ([]jobtable.Table, []byte) {
	tables, err := jobtable.Of(text, o)
	require.NoError(t, err)
	back, faults := jobtable.Back(tables, o)
	require.Empty(t, faults)
	return tables, back.Text
}

func TestJobsComeBack(t *testing.T) {
	for name, spec := range jobs(t) {
		for _, metric := range []bool{false, true} {
			text, err := json.Marshal(spec)
			require.NoError(t, err)
			tables, got := again(t, text, jobtable.Options{Metric: metric})
			back, err := job.ReadSpec(bytes.NewReader(got))
			require.NoError(t, err, name)
			after, err := json.Marshal(back)
			require.NoError(t, err)
			require.Equal(t, string(text), string(after), name)
			// Nothing but what no table can hold stands as the text of a job file.
			for _, x := range tables {
				i := slices.IndexFunc(x.Fields, func(f jobtable.Field) bool { return f.Path == "*" })
				assert.Equal(t, -1, i, "%s: %s", name, x.Key)
			}
		}
	}
}
