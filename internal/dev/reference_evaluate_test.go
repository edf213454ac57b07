package dev_test

import (
	"testing"

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
