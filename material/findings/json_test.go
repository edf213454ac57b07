package findings_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/exported"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make.
func TestEveryTypeIsJSON(t *testing.T) {
	var typical []any
	add := func(vs ...any) { typical = append(typical, vs...) }
	buy := findings.Buying[unit.Length]{Waste: 0.05, Step: yd / 4, Pack: 72 * yd}
	cord := findings.Cord(inches(80), true)
	add(buy, cord, lengths(t)(cord.Order(buy)), findings.TackStrip{Runs: inches(30), Stick: 24 * in})
	webbing := findings.Webbing{Width: 22 * in, Depth: 20 * in, OneWay: true}
	add(webbing, must[findings.WebbingPlan](t)(webbing.Plan()))
	elastic := findings.Elastic{Across: 22 * in, Span: 20 * in, Strip: 2 * in, Back: true}
	add(elastic, must[findings.ElasticPlan](t)(elastic.Plan()))
	zigzag := findings.Zigzag{Width: 22 * in, Depth: 20 * in, Back: true}
	add(zigzag, must[findings.ZigzagPlan](t)(zigzag.Plan()))
	coils := findings.Coils{Width: 22 * in, Depth: 20 * in, Rail: 2 * in}
	add(coils, must[findings.CoilPlan](t)(coils.Plan()))
	sheet := findings.Sheet{Width: 20 * in, Depth: 18 * in, Rail: in, Rise: in}
	add(sheet, must[findings.SheetCut](t)(sheet.Cut()))
	cloth := findings.Cloth{Roll: 40 * in, Pieces: []findings.ClothPiece{{Width: 50 * in, Length: 20 * in, Count: 2}}}
	add(cloth, cloth.Pieces[0], must[findings.ClothPlan](t)(cloth.Plan()))
	zips := findings.Zips{Openings: inches(20)}
	add(zips, must[findings.ZipOrder](t)(zips.Order(buy)))
	staples := findings.Staples{Edges: inches(20), Layers: in / 8, Rail: in}
	add(staples, must[findings.StaplePlan](t)(staples.Plan()))
	nails := findings.Nails{Sides: inches(20, 18), Head: in / 2, Closed: true}
	nailed := must[findings.NailPlan](t)(nails.Plan())
	add(nails, nailed, nailed.Rows[0])
	buttons := findings.Buttons{Count: 9, Diameter: in, Through: 4 * in}
	add(buttons, must[findings.ButtonOrder](t)(buttons.Order()))
	glue := findings.Glue{Area: unit.SquareMetre}
	add(glue, must[findings.GlueOrder](t)(glue.Order(findings.Buying[unit.Volume]{Pack: unit.Litre})))
	snaps := findings.Snaps{Edges: inches(20)}
	add(snaps, must[findings.SnapOrder](t)(snaps.Order()))
	add(findings.Felt{Area: unit.SquareMetre, Layers: 2}, findings.Hair{Area: unit.SquareMetre, Old: true}, findings.Burlaps()[0], findings.TackSizes()[3],
		findings.Builds()[0], findings.Lengths()[0], findings.Masses()[0])

	faults, err := roundtrip.Faults(os.DirFS("."), typical)
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestEnumsAreListed(t *testing.T) { exported.EnumsListed(t, ".") }

func TestNamesAsText(t *testing.T) {
	for b := findings.BoardSeat; b <= findings.Boat; b++ {
		text, err := b.MarshalText()
		require.NoError(t, err)
		var back findings.Build
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, b, back)
	}
	_, err := findings.Build(99).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.ErrorIs(t, new(findings.Place).UnmarshalText([]byte("often")), unit.ErrUnknown)
}
