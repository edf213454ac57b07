package allowance_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// A panel read from JSON is cut or refused with a typed error, and what is cut
// lies outside the seam line.
func FuzzRectPanelJSON(f *testing.F) {
	f.Add(`{"width":"20 in","height":"18 in"}`)
	f.Add(`{"width":"652 mm","height":"2' 1 5/8\"","top":{"finish":"pull-over","handling":"1 in"},"along":{"take_out":"2.5 %","below":"10 in"}}`)
	f.Add(`{"width":"1000 m","height":"1000 m","across":{"shrinkage":"50 %","ease":"1000 m"}}`)
	f.Add(`{"width":"1 in","height":"1 in","left":{"finish":"fold","allowance":"0 in"}}`)
	f.Fuzz(func(t *testing.T, text string) {
		var p allowance.RectPanel
		if json.Unmarshal([]byte(text), &p) != nil {
			return
		}
		c, err := p.Cut()
		if err != nil {
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			return
		}
		require.GreaterOrEqual(t, c.Width, c.TrimWidth)
		require.GreaterOrEqual(t, c.TrimHeight, c.SeamHeight)
		require.Greater(t, c.SeamWidth, unit.Length(0))
		require.Greater(t, c.Area, unit.Area(-1))
		_, err = json.Marshal(c)
		require.NoError(t, err)
	})
}
