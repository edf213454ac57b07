package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// Whole sticks are what is bought: no share for waste comes on top, which would be a
// part of a stick. Edges of one staple and one pitch are said once.
func TestFindingsAreSaidAsTheyAreBought(t *testing.T) {
	t.Parallel()
	held := strings.NewReplacer(`"back.top", "back.right", `, ``,
		`{"fasten": ["crown.top"]}`, `{"fasten": ["crown.top"]}, {"fasten": ["back.top"], "finish": "toothed strip"}, {"fasten": ["back.right"], "finish": "folded in"}`).Replace(heldAllRound)
	o, err := read(t, framed(held, `, "build": {"feet": 4}`, `, "findings": {"tack strip": {"sizes": ["30 in"]}, "staple": {"sizes": ["3/8 in"]}}`))
	require.NoError(t, err)
	stick, _ := findingOf(o, "tack strip")
	assert.Equal(t, cost.AnyOf(30*unit.Inch), stick.Use)
	assert.Zero(t, stick.Waste)
	assert.Contains(t, stick.How, "1 whole stick of 30 in")
	staple, _ := findingOf(o, "staple, 3/8 in")
	assert.Equal(t, "chair: cover: 7 edges at 1 in, cover: 4 edges at 3/4 in", staple.How)
}
