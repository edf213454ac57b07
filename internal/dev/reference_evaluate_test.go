package dev_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/internal/dev/reference/evaluate"
)

// Every row of the check table must hold, and the table itself must be whole.
func TestReferenceRows(t *testing.T) {
	suites, err := evaluate.Suites()
	require.NoError(t, err)
	for _, f := range reference.Faults(suites) {
		t.Error(f)
	}
	rep, err := theTable()
	require.NoError(t, err)
	require.NotEmpty(t, rep.Rows)
	for _, r := range rep.Rows {
		t.Run(r.Package+"/"+r.ID, func(t *testing.T) {
			t.Attr("ref.source", r.Source)
			if !r.OK {
				t.Errorf("%s %s(%s): expected %s %s, got %s, deviation %s, allowed %s (%s %s %s)",
					r.ID, r.Quantity, r.Inputs, r.Expected, r.Unit, r.Got, r.Deviation, r.Tolerance, r.Status, r.Source, r.Note)
			}
		})
	}
}

// share gives a tolerance as a share of the smallest number that it is for; 0
// where only zero is expected.
func share(tolerance, expected string) float64 {
	num, relative := strings.CutSuffix(tolerance, "%")
	t, err := strconv.ParseFloat(num, 64)
	if err != nil {
		return 0 // exact
	}
	if relative {
		return t / 100
	}
	worst := 0.0
	for _, e := range strings.Split(expected, ";") {
		if x, err := strconv.ParseFloat(strings.TrimSpace(e), 64); err == nil && x != 0 {
			worst = math.Max(worst, t/math.Abs(x))
		}
	}
	return worst
}

// A row that accepts a value more than half a per cent off says why.
func TestWideTolerancesSayWhy(t *testing.T) {
	rep, err := theTable()
	require.NoError(t, err)
	for _, r := range rep.Rows {
		if share(r.Tolerance, r.Expected) > 0.005 {
			assert.NotEmpty(t, r.Note, "%s %s(%s): %s in %s", r.ID, r.Quantity, r.Inputs, r.Tolerance, r.Expected)
		}
	}
	assert.InDelta(t, 0.0236, share("0.26", "11"), 0.0001)
	assert.InDelta(t, 0.05, share("0.1", "8;2"), 1e-12)
	assert.InDelta(t, 0.007, share("0.7%", "540"), 1e-12)
	assert.Zero(t, share("exact", "2.5"))
	assert.Zero(t, share("1e-9", "0"))
}

// repeats gives the ids of rows that ask what another row asks and name no other
// document for it.
func repeats(all []reference.Result) []string {
	var out []string
	asked := map[string]bool{}
	for _, r := range all {
		inputs := strings.Split(r.Inputs, ";")
		for i := range inputs {
			inputs[i] = strings.Join(strings.Fields(inputs[i]), " ")
		}
		slices.Sort(inputs)
		key := strings.Join(append(inputs, r.Package, r.Quantity, r.Unit, r.Source), ";")
		if asked[key] {
			out = append(out, r.ID)
		}
		asked[key] = true
	}
	return out
}

func TestNoRowRepeatsAnother(t *testing.T) {
	rep, err := theTable()
	require.NoError(t, err)
	assert.Empty(t, repeats(rep.Rows), "rows that repeat another and name no other document")
	row := reference.Result{ID: "u1", Package: "unit", Quantity: "q", Inputs: "a=1; b=2", Unit: "m"}
	turned, second, metric := row, row, row
	turned.ID, turned.Inputs = "u2", "b=2;a=1"
	second.ID, second.Source = "u3", "UCUM"
	metric.ID, metric.Unit = "u4", "ft"
	assert.Equal(t, []string{"u2"}, repeats([]reference.Result{row, turned, second, metric}))
}
