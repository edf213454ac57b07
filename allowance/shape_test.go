package allowance_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
)

func TestPanelJSONRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawAnyPanel(t)
		text, err := json.Marshal(p)
		require.NoError(t, err)
		var back allowance.Panel
		require.NoError(t, json.Unmarshal(text, &back), string(text))
		require.Equal(t, p, back)
	})
	text, err := json.Marshal(allowance.Panel{Name: "no outline yet"})
	require.NoError(t, err)
	require.NotContains(t, string(text), "outline\"")
	o := mustOutline(shape.Circle(in))
	require.NoError(t, json.Unmarshal([]byte(" null "), &o))
	require.True(t, o.IsZero())
	text, err = json.Marshal(o)
	require.NoError(t, err)
	require.Equal(t, "null", string(text))
}

func mustOutline(o shape.Outline, err error) shape.Outline {
	if err != nil {
		panic(err)
	}
	return o
}
