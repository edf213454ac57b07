package thread_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/exported"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct goes through JSON and back, its zero value too.
func TestThroughJSON(t *testing.T) {
	seam := thread.Seam{Name: "front", Length: unit.Metre, Thickness: 2 * unit.Millimetre, Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre,
		Unpicked: thread.UnpickedSample{Sample: unit.Metre, Needle: unit.Metre, Under: unit.Metre}}
	usage, err := thread.Consume(seam)
	require.NoError(t, err)
	sewing := thread.Sewing{Seams: []thread.Seam{seam, seam}, Bobbin: 2 * unit.Metre, Cone: 5 * unit.Metre}
	total, err := thread.Total(sewing)
	require.NoError(t, err)
	require.NotEmpty(t, total.Changes)
	request := thread.Need{Goods: thread.Vinyl, Layers: 3, Size: thread.Size92, Fibre: thread.Nylon, Needle: 60, Exposure: thread.OnBoat}
	advice, err := thread.Recommend(request)
	require.NoError(t, err)
	loaded := thread.LoadedSeam{Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre, Needle: 50, Goods: 1000}
	strength, err := thread.Strength(loaded)
	require.NoError(t, err)
	found, err := thread.FindSizes("30")
	require.NoError(t, err)
	var match thread.SizeMatch
	for m := range found.All() {
		match = m
	}
	properties, err := thread.Polyester.Properties()
	require.NoError(t, err)
	density, err := thread.StitchDensityFor(thread.Canvas)
	require.NoError(t, err)
	needles, err := thread.NeedlesFor(thread.Size69, thread.Leather)
	require.NoError(t, err)
	kind, err := thread.Lockstitch301.Type()
	require.NoError(t, err)
	row := thread.Table()[3]
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		seam, seam.Unpicked, usage, sewing, total, total.Seams[0], total.Changes[0], request, advice, advice.Best(), loaded, strength,
		found, match, properties, density, needles, kind, row, row.Thread, row.Letter, row.Plies, row.Diameter,
		thread.StitchDensities()[0], thread.BackTacks()[2], thread.RowSpacings()[0], thread.Influences()[0], thread.ModelFits()[0],
		thread.WeatherLosses()[0], thread.LoopFactors()[0], thread.PublishedNeedles()[0], thread.NeedleViews()[0],
		thread.SeamNeed{Members: []thread.Member{{Goods: thread.Leather, Layers: 1}}}, thread.Member{Layers: 1, Padding: true}, advice.Best().SetUp(), thread.SetUpCount{SetUps: 2},
		thread.UsageRatios()[0], thread.Specifications()[0], thread.WoundDensities()[0], thread.Bobbin{Width: unit.Inch},
	})
	require.NoError(t, err)
	require.Empty(t, faults)
}

// What is no cell and no list of meanings is refused, and changes nothing.
func TestBrokenJSON(t *testing.T) {
	letter := thread.Table()[3].Letter
	require.Error(t, letter.UnmarshalJSON([]byte(`{"value": 5}`)))
	require.Equal(t, thread.Table()[3].Letter, letter)
	found, err := thread.FindSizes("30")
	require.NoError(t, err)
	was := found
	require.Error(t, found.UnmarshalJSON([]byte(`"30"`)))
	require.Equal(t, was, found)
}

func TestEnumsAreListed(t *testing.T) { exported.EnumsListed(t, ".") }
