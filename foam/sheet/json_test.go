package sheet

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct goes through JSON and back, its zero value too.
func TestThroughJSON(t *testing.T) {
	part := Part{"a", foam.Block{Length: 90 * unit.Inch, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch}, 2, false}
	rules := Rules{Stock: Common(2 * unit.Inch), Kerf: unit.Inch / 8, MostPlies: 2, MostJoins: 1}
	plan, err := Lay(t.Context(), []Part{part}, rules)
	require.NoError(t, err)
	o := plan.Orders[0]
	faults, err := roundtrip.Faults(os.DirFS("."), []any{part, rules, rules.Stock[0], plan, o, o.Cuts[0], o.Cuts[1].Place})
	require.NoError(t, err)
	require.Empty(t, faults)
}
