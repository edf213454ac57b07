package cost_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// The vectors are those of the General Decimal Arithmetic Testcases; see the
// head of the file.
func TestRoundingVectors(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("testdata/rounding_vectors.csv")
	require.NoError(t, err)
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 190)
	modes := map[string]int{}
	for _, row := range rows[1:] {
		id, name, operand, step, want := row[0], row[1], row[2], row[3], row[4]
		t.Run(id, func(t *testing.T) {
			mode, err := cost.ParseRounding(name)
			require.NoError(t, err)
			got, err := money(t, operand+" USD").RoundTo(money(t, step+" USD"), mode)
			require.NoError(t, err)
			require.True(t, got.Equal(money(t, want+" USD")), "%s %s to %s: got %s, want %s", name, operand, step, got, want)
			if step == "0.01" {
				got, err := money(t, operand+" USD").Round(mode)
				require.NoError(t, err)
				require.True(t, got.Equal(money(t, want+" USD")))
			}
		})
		modes[name]++
	}
	for _, m := range cost.Roundings() {
		require.GreaterOrEqual(t, modes[m.String()], 12, m)
	}
}

func TestRoundingNames(t *testing.T) {
	t.Parallel()
	for _, m := range cost.Roundings() {
		text, err := json.Marshal(m)
		require.NoError(t, err)
		var back cost.Rounding
		require.NoError(t, json.Unmarshal(text, &back))
		require.Equal(t, m, back)
	}
	_, err := cost.ParseRounding("nearest")
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = cost.ParseRounding("")
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.Equal(t, "half-up", cost.Rounding(0).String())
	require.Equal(t, "unknown rounding", cost.Rounding(200).String())
	_, err = json.Marshal(cost.Rounding(200))
	require.Error(t, err)
	var m cost.Rounding
	require.NoError(t, m.UnmarshalText(nil))
	require.Error(t, m.UnmarshalText([]byte("sideways")))
}
