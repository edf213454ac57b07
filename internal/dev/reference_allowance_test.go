package dev_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/dev/reference"
)

// Every cell of the allowance tables has a check row with the same standing.
func TestAllowanceTablesHaveRows(t *testing.T) {
	rows, err := reference.Rows("allowance")
	require.NoError(t, err)
	find := func(quantity, inputs string) reference.Row {
		i := slices.IndexFunc(rows, func(r reference.Row) bool { return r.Quantity == quantity && r.Inputs == inputs })
		if i < 0 {
			t.Errorf("no row for %s of %q", quantity, inputs)
			return reference.Row{}
		}
		return rows[i]
	}
	for _, f := range allowance.Finishes() {
		_, basis := f.Default()
		row := find("finish_allowance", f.String())
		assert.Equal(t, basis.Status, row.Status, f.String())
		assert.Equal(t, basis.Source, row.Source, f.String())
	}
	for _, r := range allowance.Rules() {
		row := find("rule_allowance", r.Name)
		assert.Equal(t, r.Basis.Status, row.Status, r.Name)
		assert.Equal(t, r.Basis.Source, row.Source, r.Name)
	}
	for _, f := range made.Fullnesses() {
		row := find("fullness", f.Name)
		assert.Equal(t, f.Basis.Status, row.Status, f.Name)
	}
}
