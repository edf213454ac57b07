package job

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/unit"
)

// hidePhoto is a hide seen from straight above at one pixel to the millimetre, with
// (250, 2250) at the origin: four sheets at its corners, its border, a hole, a brand
// with an outline and a round scar, clicked in one picture.
const hidePhoto = `{"name": "one", "outline": {"photo": {"width": 3000, "height": 2500, "straight": true,
	"marks": [{"seen": "250, 2250", "at": "0 mm, 0 mm"}, {"seen": "2750, 2250", "at": "2500 mm, 0 mm"},
		{"seen": "2750, 250", "at": "2500 mm, 2000 mm"}, {"seen": "250, 250", "at": "0 mm, 2000 mm"}],
	"edges": [{"name": "rump", "points": ["450, 2150"]}, {"name": "right", "points": ["2550, 2150"]},
		{"name": "neck", "points": ["2450, 350"]}, {"name": "left", "points": ["550, 350"]}]}, "tolerance": "1 mm"},
	"holes": [{"photo": {"edges": [{"name": "rim", "points": ["1000, 1000", "1100, 1000", "1100, 1100", "1000, 1100"]}]}}],
	"defects": [{"kind": "brand", "outline": {"photo": {"edges": [{"name": "rim", "points": ["1500, 1500", "1600, 1500", "1550, 1600"]}]}}},
		{"kind": "open scratch", "seen": "2000, 800", "across": "40 mm"}]}`

func TestHideInAPhoto(t *testing.T) {
	var h HideSpec
	require.NoError(t, json.Unmarshal([]byte(hidePhoto), &h))
	s, err := h.skin()
	require.NoError(t, err)
	require.NoError(t, s.Check())
	mm := func(l unit.Length) float64 { return l.Millimetres() }
	assert.InDelta(t, (2100+1900)/2*1800e-6, s.Outline.Area().SquareMetres(), 1e-6)
	low, _ := s.Holes[0].Bounds()
	assert.InDelta(t, 750, mm(low.X), 1e-4)
	assert.InDelta(t, 1150, mm(low.Y), 1e-4)
	_, high := s.Defects[0].Outline.Bounds()
	assert.InDelta(t, 1350, mm(high.X), 1e-4)
	assert.InDelta(t, 1750, mm(s.Defects[1].At.X), 1e-4)
	assert.InDelta(t, 1450, mm(s.Defects[1].At.Y), 1e-4)
	_, err = Read(t.Context(), strings.NewReader(photographedHide(hidePhoto)), quick)
	assert.NoError(t, err)
}

func photographedHide(hide string) string {
	return `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "ox", "kind": "hide", "name": "ox", "material": "leather", "price": "10 USD/sq ft", "hides": [` + hide + `]}],
		"pieces": [{"name": "seat", "count": 2, "panels": [{"name": "cover", "goods": "ox", "width": "24 in", "length": "22 in", "grain": "any way"}]}],
		"quote": {"labour_rate": "50 USD/h"}}`
}

func TestHideInAPhotoFaults(t *testing.T) {
	for name, r := range map[string]struct {
		old, new string
		field    unit.Path
		is       error
	}{
		"no photo of the hide": {hidePhoto[strings.Index(hidePhoto, `"outline"`):strings.Index(hidePhoto, `"holes"`)], `"area": "45 sq ft", `, "goods[0].hides[0].holes[0].photo.marks", unit.ErrRequired},
		"a hole outside":       {`"1000, 1000"`, `"1000, 9000"`, "goods[0].hides[0].holes[0].photo.edges[0].points[0]", photo.ErrOutside},
		"a scar outside":       {`"seen": "2000, 800"`, `"seen": "2000, -1"`, "goods[0].hides[0].defects[1].seen", photo.ErrOutside},
		"seen and at":          {`"seen": "2000, 800"`, `"seen": "2000, 800", "at": "1 mm, 2 mm"`, "goods[0].hides[0].defects[1].seen", ErrMisplaced},
		"a mark off its place": {`"2500 mm, 2000 mm"`, `"2500 mm, 20 mm"`, "goods[0].hides[0].outline.photo.marks", photo.ErrDegenerate},
		"moved":                {`{"photo": {"width"`, `{"at": "1 in, 1 in", "photo": {"width"`, "goods[0].hides[0].holes[0].photo.marks", unit.ErrRange},
	} {
		require.Contains(t, hidePhoto, r.old, name)
		_, err := Read(t.Context(), strings.NewReader(photographedHide(strings.Replace(hidePhoto, r.old, r.new, 1))), quick)
		require.ErrorIs(t, err, r.is, name)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, name)
		assert.Equal(t, r.field, in.Field, name)
	}
}

// A panel by photo says its error on the cut list, like one taken with a tape.
func TestPhotoOnTheOrder(t *testing.T) {
	const clicked = `{"photo": {"width": 3000, "height": 2500, "straight": true, %s
		"marks": [{"seen": "250, 2250"%s}, {"seen": "1450, 2250"%s}, {"seen": "1450, 1250"%s}, {"seen": "250, 1250"%s}],
		"edges": [{"name": "front", "points": ["350, 2150"]}, {"name": "right", "points": ["1350, 2150"]},
			{"name": "back", "points": ["1250, 1350", "850, 1320"], "curve": true}, {"name": "left", "points": ["450, 1350"]}]}, "tolerance": "0.5 mm"}`
	placed := fmt.Sprintf(clicked, "", `, "at": "0 mm, 0 mm"`, `, "at": "600 mm, 0 mm"`, `, "at": "600 mm, 500 mm"`, `, "at": "0 mm, 500 mm"`)
	taped := fmt.Sprintf(clicked, `"scale_error": "0.1 %", "thickness": "2 mm", "taped": {"bottom": "600 mm", "right": "500 mm", "top": "600 mm", "left": "500 mm",
		"diagonal": "781 mm", "second_diagonal": "781.3 mm"},`, "", "", "", "")
	o := tapedOrder(t, "", placed, taped)
	require.Len(t, o.Cuts, 2)
	assert.Equal(t, []string{
		"by photo: no point of the border further off than 2.0 mm (95 of 100), the cut size no more than 4.0 mm",
	}, o.Cuts[0].TapeNotes(pattern.Metric))
	assert.Equal(t, []string{
		"by photo: no point of the border further off than 2.6 mm (95 of 100), the cut size no more than 5.2 mm",
		"of that the picture makes 2.0 mm, the scale 0.3 mm, the thickness 0.3 mm",
		"the second diagonal agrees within 0.3 mm",
	}, o.Cuts[1].TapeNotes(pattern.Metric))
}
