package main

import (
	"encoding/xml"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// The folder of patterns has a drawing of each traced hide, as large as the hide and the
// paper round it. Of a hide that was not traced it has none.
func TestHidesAreDrawnFullSize(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "ox", "kind": "hide", "name": "brown ox", "material": "leather", "price": "10 USD/sq ft", "hides": [
			{"name": "no. 7", "backbone": "400 mm", "outline": {"rectangle": {"width": "900 mm", "height": "2000 mm"}}},
			{"name": "no. 8", "area": "24 sq ft"}]}],
		"pieces": [{"name": "bench", "panels": [{"name": "cover", "goods": "ox", "width": "700 mm", "length": "1500 mm", "count": 2, "grain": "any way"}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{Effort: 0.1})
	require.NoError(t, err)
	require.Len(t, o.Purchases[0].Plan.Used, 2)
	files, err := patternFiles(o, true, patternSet{paper: papers()[0]})
	require.NoError(t, err)
	var drawn []string
	for _, f := range files {
		if !strings.HasPrefix(f.Name, "hides/") {
			continue
		}
		drawn = append(drawn, f.Name)
		var head struct {
			Width  string `xml:"width,attr"`
			Height string `xml:"height,attr"`
		}
		require.NoError(t, xml.Unmarshal(f.Data, &head))
		assert.Equal(t, "980mm", head.Width)
		assert.Equal(t, "2080mm", head.Height)
		assert.Contains(t, string(f.Data), "left and right of the backbone, cm")
		assert.Contains(t, string(f.Data), ">1 cover<")
	}
	assert.Equal(t, []string{"hides/001-brown-ox-no-7.svg"}, drawn)
}
