//go:build gnuunits

package thread_test

import (
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
)

// GNU units must agree on every count system it knows, both ways and over the
// whole range of sewing thread. The program must be installed; the test does
// not skip.
func TestCountsAgreeWithGNUUnits(t *testing.T) {
	expressions := map[thread.CountSystem]string{
		thread.CountTex:           "tex",
		thread.CountDecitex:       "0.1 tex",
		thread.CountDenier:        "denier",
		thread.CountMetric:        "metricyarncount",
		thread.CountCotton:        "cottonyarncount",
		thread.CountYardsPerPound: "yard/pound",
		thread.CountMetricTicket:  "metricyarncount/3",
		thread.CountCottonTicket:  "cottonyarncount/3",
		thread.CountTradeNumber:   "10 denier",
	}
	require.Len(t, expressions, len(thread.CountSystems()))
	var script strings.Builder
	type question struct {
		from, to thread.CountSystem
		count    float64
	}
	var asked []question
	for _, from := range thread.CountSystems() {
		for _, to := range thread.CountSystems() {
			for _, tex := range []float64{5, 16.7, 69, 90, 153.3, 600, 4400} {
				d, err := thread.CountTex.Of(tex)
				require.NoError(t, err)
				count, err := from.In(d)
				require.NoError(t, err)
				text := strconv.FormatFloat(count, 'e', 17, 64)
				count, err = strconv.ParseFloat(text, 64)
				require.NoError(t, err)
				asked = append(asked, question{from, to, count})
				have := text + " (" + expressions[from] + ")"
				if from.Shrinks() != to.Shrinks() {
					have = "1 / (" + have + ")"
				}
				script.WriteString(have + "\n" + expressions[to] + "\n")
			}
		}
	}
	cmd := exec.Command("units", "--terse", "--digits", "15")
	cmd.Stdin = strings.NewReader(script.String())
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	answers := strings.Fields(string(out))
	require.Equal(t, len(asked), len(answers), "answers of GNU units")
	for i, q := range asked {
		want, err := strconv.ParseFloat(answers[i], 64)
		require.NoError(t, err)
		d, err := q.from.Of(q.count)
		require.NoError(t, err)
		got, err := q.to.In(d)
		require.NoError(t, err)
		assert.InEpsilon(t, want, got, 1e-13, "%v %v in %v", q.count, q.from, q.to)
	}
}
