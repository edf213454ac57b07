package dev_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Every usual figure of a finding has a check row with the same standing.
func TestFindingsHaveRows(t *testing.T) {
	rows, err := reference.Rows("findings")
	require.NoError(t, err)
	found := map[string]cite.Basis{}
	for _, r := range rows {
		found[r.Quantity+" "+r.Inputs] = cite.Basis{Status: r.Status, Source: r.Source}
	}
	standing(t, found, "finding_length", findings.Lengths())
	standing(t, found, "finding_count", findings.Counts())
	standing(t, found, "finding_share", findings.Shares())
	standing(t, found, "finding_area", findings.Areas())
	standing(t, found, "finding_mass", findings.Masses())
	standing(t, found, "finding_volume", findings.Volumes())
	for _, s := range findings.TackSizes() {
		assert.Equal(t, cite.Basis{Status: s.Basis.Status, Source: s.Basis.Source}, found["tack_length size="+s.Name], s.Name)
	}
}

func standing[Q findings.Quantity | unit.Ratio](t *testing.T, rows map[string]cite.Basis, quantity string, figures []findings.Figure[Q]) {
	for _, f := range figures {
		inputs := "of=" + f.Of + "; what=" + f.What
		assert.Equal(t, cite.Basis{Status: f.Basis.Status, Source: f.Basis.Source}, rows[quantity+" "+inputs], inputs)
	}
}
