package build_test

import (
	"encoding/json"
	"errors"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
)

const in = unit.Inch

func needs(t testing.TB, s build.Spec) map[string][]build.Need {
	t.Helper()
	all, _, err := s.Needs()
	require.NoError(t, err)
	out := map[string][]build.Need{}
	for _, n := range all {
		out[n.ID] = append(out[n.ID], n)
	}
	return out
}

func net[Q cost.Quantity](t testing.TB, ns []build.Need) Q {
	t.Helper()
	var sum Q
	for _, n := range ns {
		q, _ := cost.QuantityAs[Q](n.Net)
		sum += q
	}
	return sum
}

func staples(t testing.TB, ns []build.Need) int {
	t.Helper()
	sum := int(net[cost.Pieces](t, ns))
	for _, n := range ns {
		for _, s := range n.Staples {
			p, err := s.Plan()
			require.NoError(t, err)
			sum += p.Count
		}
	}
	return sum
}

// The seats of a club chair and of a sofa, as worked out by hand (derived from
// common practice).
func TestSupportsByHand(t *testing.T) {
	coils := needs(t, build.Spec{Seat: &build.Support{On: build.Coils, Width: 24 * in, Depth: 22 * in, Rise: 2 * in}})
	assert.Equal(t, 318*in, net[unit.Length](t, coils["webbing"]), "6 of 28 and 5 of 30")
	assert.Equal(t, cost.Pieces(9), net[cost.Pieces](t, coils["coil spring"]))
	assert.Equal(t, cost.Pieces(64), net[cost.Pieces](t, coils["tack"]))
	assert.Equal(t, 216*in, net[unit.Length](t, coils["stitching twine"]))
	assert.Equal(t, findings.ClothPiece{Width: 32 * in, Length: 30 * in, Count: 1}, coils["burlap"][0].Cloth[0])
	assert.Equal(t, 198+72, staples(t, coils["staple"]), "22 ends of 9; 26, 26, 24, 24 at 1 1/2: 19, 19, 17, 17")

	kept := needs(t, build.Spec{Seat: &build.Support{On: build.Coils, Width: 24 * in, Depth: 22 * in, Kept: true, Bare: true}})
	assert.Empty(t, kept["coil spring"])
	assert.Equal(t, coils["spring twine"], kept["spring twine"], "springs that are kept are tied anew")
	assert.Empty(t, kept["burlap"])

	zigzag := needs(t, build.Spec{Seat: &build.Support{On: build.Zigzag, Width: 72 * in, Depth: 22 * in, Felt: 1}, Back: &build.Support{On: build.Zigzag, Width: 72 * in, Depth: 20 * in}})
	springs := net[unit.Length](t, zigzag["zigzag spring"])
	assert.Equal(t, "46.663 ft", springs.Decimal(unit.Foot, 3, unit.Nearest))
	assert.Equal(t, []cost.Pieces{52, 156}, []cost.Pieces{net[cost.Pieces](t, zigzag["zigzag clip"]), net[cost.Pieces](t, zigzag["clip nail"])})
	assert.Equal(t, 240*in, net[unit.Length](t, zigzag["tie wire"]))
	felt := net[unit.Mass](t, zigzag["felt"])
	assert.Equal(t, "2.033 lb", felt.Decimal(unit.Pound, 3, unit.Nearest), "76 x 26 / 144 / 6.75")

	arms := needs(t, build.Spec{Arms: &build.Support{On: build.Burlap, Width: 12 * in, Depth: 20 * in}})
	assert.Len(t, arms["burlap"], 2, "left and right")

	elastic := needs(t, build.Spec{Seat: &build.Support{On: build.ElasticWebbing, Width: 22 * in, Depth: 20 * in, Clips: true}})
	assert.Equal(t, cost.Pieces(2), net[cost.Pieces](t, elastic["webbing clip"])/cost.Pieces(len(elastic["elastic webbing"])*5), "5 strips, a clip at each end")
	assert.Empty(t, elastic["burlap"])
}

// What a board or what is as found carries needs nothing, and asks for nothing.
func TestNothingNeeded(t *testing.T) {
	for _, on := range []build.On{build.Board, build.AsFound} {
		none := 0
		needs, asks, err := build.Spec{Seat: &build.Support{On: on}, Feet: &none}.Needs()
		require.NoError(t, err)
		assert.Empty(t, needs, on)
		assert.Empty(t, asks, on)
	}
	needs, asks, err := build.Spec{Seat: &build.Support{On: build.Board}}.Needs()
	require.NoError(t, err)
	assert.Empty(t, needs)
	assert.Empty(t, asks)
}

// An opening that nobody gave is asked for and never counted as nothing.
func TestAsked(t *testing.T) {
	needs, asks, err := build.Spec{Seat: &build.Support{On: build.Coils, Width: 24 * in, Depth: 22 * in}}.Needs()
	require.NoError(t, err)
	var fields []unit.Path
	for _, q := range asks {
		fields = append(fields, q.Field)
	}
	assert.Equal(t, []unit.Path{"build.seat.rise", "build.feet"}, fields)
	for _, n := range needs {
		assert.NotEqual(t, "burlap", n.ID)
	}
}

func TestRefused(t *testing.T) {
	for field, s := range map[unit.Path]build.Spec{
		"seat.on":                {Seat: &build.Support{Width: in}},
		"seat.width":             {Seat: &build.Support{On: build.Webbing, Width: 1, Depth: 20 * in}},
		"seat.rise":              {Seat: &build.Support{On: build.Zigzag, Width: 20 * in, Depth: 20 * in, Rise: 19 * in}},
		"seat.depth":             {Seat: &build.Support{On: build.ElasticWebbing, Width: 20 * in, Depth: -20 * in}},
		"edge_roll[0]":           {EdgeRoll: []unit.Length{-in}},
		"felt[0].width":          {Felt: []build.Felt{{Face: build.Face{Depth: in}}}},
		"felt[0].count":          {Felt: []build.Felt{{Face: build.Face{Width: 20 * in, Depth: 20 * in}, Count: 5000}}},
		"cloths[0].id":           {Cloths: []build.Cloth{{ID: "cord", Face: build.Face{Width: 20 * in, Depth: 20 * in}}}},
		"cloths[0].depth":        {Cloths: []build.Cloth{{ID: "burlap", Face: build.Face{Width: 20 * in}}}},
		"underside.width":        {Underside: &build.Face{}},
		"feet":                   {Feet: new(int), Glides: minus()},
		"loose.snaps":            {Loose: &build.Loose{Snaps: -1}},
		"loose.hook_and_loop[0]": {Loose: &build.Loose{HookAndLoop: []unit.Length{0}}},
		"more[0].id":             {More: []build.More{{ID: "ribbon", Count: 2}}},
		"more[0].count":          {More: []build.More{{ID: "snap", Runs: []unit.Length{in}}}},
		"more[0].runs":           {More: []build.More{{ID: "cord, 5/32 in", Count: 2}}},
	} {
		if field == "feet" {
			field = "glides"
		}
		_, _, err := s.Needs()
		var bad *unit.InputError
		require.True(t, errors.As(err, &bad), field)
		assert.Equal(t, field, bad.Field)
	}
}

func minus() *int { n := -1; return &n }

// In a file the way of a kind stands alone, or all is said.
func TestWayAlone(t *testing.T) {
	var s build.Spec
	require.NoError(t, json.Unmarshal([]byte(`"webbed"`), &s))
	assert.Equal(t, build.Spec{Way: "webbed"}, s)
	text, err := json.Marshal(s)
	require.NoError(t, err)
	assert.JSONEq(t, `"webbed"`, string(text))
	require.NoError(t, json.Unmarshal([]byte(`{"way": "webbed", "feet": 0}`), &s))
	text, err = json.Marshal(s)
	require.NoError(t, err)
	assert.JSONEq(t, `{"way": "webbed", "feet": 0}`, string(text))
}

// Every finding that package findings has a waste for, and that an order may have, is
// listed with it; ids are different.
func TestCatalogue(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range build.Findings() {
		assert.False(t, seen[f.ID], f.ID)
		seen[f.ID] = true
		assert.False(t, f.Step.IsZero(), f.ID)
		assert.NotContains(t, f.ID, ",")
		if w, err := findings.WasteOf(f.ID); err == nil {
			assert.Equal(t, w, f.Waste, f.ID)
		}
	}
}

func TestEveryTypeIsJSON(t *testing.T) {
	four := 4
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		build.Spec{Way: "webbed", Feet: &four}, build.Support{On: build.Coils, Width: in}, build.Face{Width: in, Depth: in}, build.Felt{Count: 2, Layers: 1},
		build.Cloth{ID: "burlap", Stapled: []unit.Length{in}}, build.Nails{Head: in, Pitch: in}, build.Buttons{Line: 36, Through: in}, build.Loose{Snaps: 2},
		build.More{ID: "cord", Runs: []unit.Length{in}}, build.Finding{ID: "cord", Step: cost.AnyOf(in)}, build.Need{ID: "cord", Net: cost.AnyOf(in)}, build.Question{Text: "what", Field: "build"},
		build.Use{Width: in, Step: cost.AnyOf(in), Sizes: []unit.Length{in}}, build.Sundries{Share: 0.02, Covers: []string{"thread"}}, build.Line{ID: "cord", Paid: build.Unpriced},
		build.Share{Piece: "chair", Net: cost.AnyOf(in)},
	})
	require.NoError(t, err)
	assert.Empty(t, faults)
}

// Nothing that is asked of a build ends in a panic, and what needs nothing is left
// out.
func TestNeedsOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) unit.Length {
			return unit.Length(rapid.Int64Range(-2, 200).Draw(t, name)) * in / 2
		}
		s := build.Spec{
			Seat: &build.Support{On: build.On(rapid.IntRange(0, 8).Draw(t, "on")), Width: length("width"), Depth: length("depth"), Gap: length("gap"), Rise: length("rise"),
				Margin: length("margin"), Coil: length("coil"), Strip: length("strip"), Felt: rapid.IntRange(0, 3).Draw(t, "felt"), Clips: rapid.Bool().Draw(t, "clips")},
			Underside: &build.Face{Width: length("across"), Depth: length("deep")},
			More:      []build.More{{ID: rapid.SampledFrom(build.Findings()).Draw(t, "id").ID, Runs: []unit.Length{length("run")}}},
		}
		needs, _, err := s.Needs()
		if err != nil {
			var bad *unit.InputError
			if !errors.As(err, &bad) || bad.Field == "" {
				t.Fatalf("no field: %v", err)
			}
			return
		}
		for _, n := range needs {
			if len(n.Cloth)+len(n.Staples) == 0 && strings.HasPrefix(n.Net.String(), "0 ") {
				t.Fatalf("%s of nothing", n.ID)
			}
		}
	})
}

// What is under the crown of a staple, how deep it goes and along what: webbing folded
// on itself 3 mm, burlap turned 2 mm, both a quarter of an inch into the rail, a dust
// cover of 1 mm three sixteenths. Burlap lies an inch on the rail all round.
func TestWhatStaplesHold(t *testing.T) {
	all := needs(t, build.Spec{Rail: 2 * in, Seat: &build.Support{On: build.Webbing, Width: 24 * in, Depth: 22 * in}, Underside: &build.Face{Width: 30 * in, Depth: 28 * in}})
	got := map[string]findings.Staples{}
	for _, n := range all["staple"] {
		for _, s := range n.Staples {
			got[strings.TrimSuffix(n.How, " at 1 1/2 in")] = s
		}
	}
	mm := unit.Millimetre
	assert.Equal(t, map[string]findings.Staples{
		"seat burlap": {Edges: []unit.Length{26 * in, 26 * in, 24 * in, 24 * in}, Pitch: 3 * in / 2, Layers: 2 * mm, Bite: in / 4, Rail: 2 * in},
		"dust cover":  {Edges: []unit.Length{30 * in, 30 * in, 28 * in, 28 * in}, Pitch: 3 * in / 2, Layers: mm, Bite: 3 * in / 16, Rail: 2 * in},
	}, got)
	for _, n := range all["staple"] {
		if len(n.Staples) == 0 {
			assert.Equal(t, 3*mm+in/4, n.Leg, n.How)
		}
	}
}
