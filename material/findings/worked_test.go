package findings_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
)

// Four pieces of furniture worked out by hand, line by line (derived from common
// practice), from the sizes to what is used.

const (
	in = unit.Inch
	yd = unit.Yard
	ft = unit.Foot
)

var (
	byYard  = findings.Buying[unit.Length]{Waste: 0.05, Step: yd / 4}
	byFoot  = findings.Buying[unit.Length]{Waste: 0.05, Step: ft}
	cloth   = findings.Buying[unit.Length]{Step: yd / 4}
	tacked  = findings.Buying[int]{Waste: 0.05}
	byPound = findings.Buying[unit.Mass]{Waste: 0.10, Step: unit.Pound / 2}
)

func inches(ls ...unit.Length) []unit.Length {
	out := make([]unit.Length, len(ls))
	for i, l := range ls {
		out[i] = l * in
	}
	return out
}

// alike is n lengths of l inches.
func alike(n int, l unit.Length) []unit.Length { return slices.Repeat(inches(l), n) }

// must gives the result of a call that cannot fail.
func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		require.NoError(t, err)
		return v
	}
}

func lengths(t testing.TB) func(findings.Steps[unit.Length], error) findings.Steps[unit.Length] {
	return must[findings.Steps[unit.Length]](t)
}

// used holds steps to a gross in a unit, to the digits given, and to a use.
func used[Q unit.Length | unit.Mass | unit.Volume](t *testing.T, what string, s findings.Steps[Q], one Q, gross float64, digits int, use Q) {
	t.Helper()
	assert.Equal(t, fmt.Sprintf("%.*f", digits, gross), fmt.Sprintf("%.*f", digits, float64(s.Gross)/float64(one)), "%s: gross", what)
	assert.Equal(t, use, s.Use, "%s: use", what)
}

// rows gives the length of pieces, each width and length in inches, off a roll.
func rows(t *testing.T, roll unit.Length, sizes ...[2]unit.Length) findings.Steps[unit.Length] {
	c := findings.Cloth{Roll: roll * in}
	for _, s := range sizes {
		c.Pieces = append(c.Pieces, findings.ClothPiece{Width: s[0] * in, Length: s[1] * in})
	}
	return lengths(t)(cloth.Steps(must[findings.ClothPlan](t)(c.Plan()).Length, 0))
}

func staples(t *testing.T, pitch unit.Length, edges ...[]unit.Length) int {
	return must[findings.StaplePlan](t)(findings.Staples{Edges: slices.Concat(edges...), Pitch: pitch, Rail: in}.Plan()).Count
}

func counted(t *testing.T, b findings.Buying[int], net int) int {
	return must[findings.Steps[int]](t)(b.Steps(net, 0)).Use
}

// A dining chair: webbed seat, nails and gimp.
func TestDiningChair(t *testing.T) {
	w := must[findings.WebbingPlan](t)(findings.Webbing{Width: 16 * in, Depth: 15 * in, Gap: 2 * in}.Plan())
	assert.Equal(t, []any{3, 3, 11 * in / 8, 9 * in / 8, 129 * in, 108}, []any{w.FrontToBack, w.SideToSide, w.GapAcross, w.GapAlong, w.Total, w.Fasteners})
	used(t, "webbing", lengths(t)(byYard.Steps(w.Total, 0)), yd, 3.7625, 4, 4*yd)

	burlap := must[findings.SheetCut](t)(findings.Sheet{Width: 16 * in, Depth: 15 * in, Rail: in}.Cut())
	assert.Equal(t, []unit.Length{20 * in, 19 * in}, []unit.Length{burlap.Width, burlap.Depth})
	used(t, "burlap", rows(t, 40, [2]unit.Length{20, 19}), in, 19, 0, 3*yd/4)
	used(t, "wrap", rows(t, 48, [2]unit.Length{23, 22}), in, 22, 0, 3*yd/4)
	dust := must[findings.SheetCut](t)(findings.Sheet{Width: 18 * in, Depth: 17 * in}.Cut())
	used(t, "dust cover", rows(t, 36, [2]unit.Length{dust.Width / in, dust.Depth / in}), in, 19, 0, 3*yd/4)

	under, cover := staples(t, 3*in/2, inches(18, 18, 17, 17)), staples(t, in, inches(19, 18, 18, 16))
	assert.Equal(t, []int{52, 75}, []int{under, cover})
	assert.Equal(t, 287, w.Fasteners+under+cover+under)
	assert.Equal(t, 302, counted(t, tacked, 287))

	nails := must[findings.NailPlan](t)(findings.Nails{Sides: inches(55), Head: 7 * in / 16, Pitch: 2 * in}.Plan())
	assert.Equal(t, 29, nails.Nails)
	assert.Equal(t, 32, counted(t, findings.Buying[int]{Waste: 0.10}, nails.Nails))
	assert.Equal(t, 125, must[findings.NailPlan](t)(findings.Nails{Sides: inches(55), Head: 7 * in / 16}.Plan()).Nails, "head to head")

	gimp := lengths(t)(findings.Gimp(inches(55 + 16)).Order(byYard))
	used(t, "gimp", gimp, in, 75.6, 1, 9*yd/4)
	assert.Equal(t, 72*in, gimp.Net+gimp.Ends)
	assert.Equal(t, 4, must[int](t)(findings.Feet(19*in)))
}

// A club chair: coil seat, one cushion 24 x 22 x 5 in.
func TestClubChair(t *testing.T) {
	c := must[findings.CoilPlan](t)(findings.Coils{Width: 24 * in, Depth: 22 * in, Margin: 2 * in}.Plan())
	assert.Equal(t, []any{3, 3, 9, 5 * in / 2, 3 * in / 2, 16, 64, 216 * in, false},
		[]any{c.Across, c.Deep, c.Springs, c.GapAcross, c.GapDeep, c.Strands, c.Tacks, c.Stitching, c.OddGap})
	twine := lengths(t)(byYard.Steps(c.Twine, 0))
	assert.Equal(t, "693.15 in", c.Twine.Decimal(in, 2, unit.Nearest))
	used(t, "spring twine", twine, yd, 20.217, 3, 81*yd/4)
	used(t, "stitching twine", lengths(t)(byYard.Steps(c.Stitching, 0)), yd, 6.3, 1, 13*yd/2)

	seat := must[findings.WebbingPlan](t)(findings.Webbing{Width: 24 * in, Depth: 22 * in}.Plan())
	back := must[findings.WebbingPlan](t)(findings.Webbing{Width: 22 * in, Depth: 20 * in, Gap: 3 * in}.Plan())
	assert.Equal(t, []any{6, 5, 318 * in, 3, 3, 162 * in}, []any{seat.FrontToBack, seat.SideToSide, seat.Total, back.FrontToBack, back.SideToSide, back.Total})
	used(t, "webbing", lengths(t)(byYard.Steps(seat.Total+back.Total, 0)), in, 504, 0, 14*yd)

	sheet := must[findings.SheetCut](t)(findings.Sheet{Width: 24 * in, Depth: 22 * in, Rail: in, Rise: 2 * in}.Cut())
	assert.Equal(t, []unit.Length{32 * in, 30 * in}, []unit.Length{sheet.Width, sheet.Depth})
	used(t, "burlap", rows(t, 40, [2]unit.Length{32, 30}, [2]unit.Length{26, 24}, [2]unit.Length{16, 24}, [2]unit.Length{16, 24}), in, 78, 0, 9*yd/4)
	used(t, "edge roll", lengths(t)(findings.Running{Runs: inches(26, 30, 30)}.Order(byFoot)), in, 90.3, 1, 8*ft)
	felt := must[findings.Steps[unit.Mass]](t)(findings.Felt{Area: 2392 * unit.SquareInch}.Order(byPound))
	used(t, "felt", felt, unit.Pound, 2.707, 3, 3*unit.Pound)
	used(t, "wrap", rows(t, 48, [2]unit.Length{49, 29}), in, 49, 0, 3*yd/2)
	used(t, "decking", rows(t, 54, [2]unit.Length{26, 24}), in, 24, 0, 3*yd/4)
	used(t, "dust cover", rows(t, 36, [2]unit.Length{27, 27}), in, 27, 0, 3*yd/4)
	used(t, "card strip", lengths(t)(findings.Running{Runs: inches(24, 26, 26)}.Order(byFoot)), in, 79.8, 1, 7*ft)
	used(t, "curve strip", lengths(t)(findings.Running{Runs: inches(24, 24)}.Order(byFoot)), in, 50.4, 1, 5*ft)
	cord := lengths(t)(findings.Cord(inches(92, 92, 40, 40, 70), false).Order(byYard))
	assert.Equal(t, []unit.Length{334 * in, 10 * in}, []unit.Length{cord.Net, cord.Ends})
	used(t, "cord", cord, in, 361.2, 1, 41*yd/4)
	zip := must[findings.ZipOrder](t)(findings.Zips{Openings: inches(24 + 6)}.Order(cloth))
	used(t, "zip", zip.Chain, in, 32, 0, yd)
	assert.Equal(t, []int{1, 2}, []int{zip.Sliders, zip.Stops})

	webbing, burlap := seat.Fasteners+back.Fasteners, staples(t, 3*in/2, inches(28, 28, 26, 26))
	arms, cover, dust := staples(t, 3*in/2, alike(12, 20)), staples(t, in, alike(12, 24), alike(8, 20)), staples(t, 3*in/2, alike(4, 25))
	assert.Equal(t, []int{306, 78, 180, 468, 72}, []int{webbing, burlap, arms, cover, dust})
	assert.Equal(t, 1160, counted(t, tacked, webbing+burlap+arms+cover+dust))
}

// A sofa 72 in wide: zigzag seat and back, three cushions.
func TestSofa(t *testing.T) {
	seat := must[findings.ZigzagPlan](t)(findings.Zigzag{Width: 72 * in, Depth: 22 * in}.Plan())
	back := must[findings.ZigzagPlan](t)(findings.Zigzag{Width: 72 * in, Depth: 20 * in, Back: true}.Plan())
	assert.Equal(t, []any{15, "22.2727 in", 11, "20.5333 in"}, []any{seat.Springs, seat.Arc.Decimal(in, 4, unit.Nearest), back.Springs, back.Arc.Decimal(in, 4, unit.Nearest)})
	assert.Equal(t, []any{52, 156, 3, 240 * in}, []any{seat.Clips + back.Clips, seat.Nails + back.Nails, seat.TieRows + back.TieRows, seat.TieWire + back.TieWire})
	used(t, "zigzag", lengths(t)(byFoot.Steps(seat.Total+back.Total, 0)), ft, 48.996, 3, 49*ft)
	more := findings.Buying[unit.Length]{Waste: 0.06, Step: ft}
	used(t, "zigzag with 6 %", lengths(t)(more.Steps(seat.Total+back.Total, 0)), ft, 49.463, 3, 50*ft)
	used(t, "tie wire", lengths(t)(byFoot.Steps(240*in, 0)), ft, 21, 0, 21*ft)

	used(t, "burlap", rows(t, 40, [2]unit.Length{26, 76}, [2]unit.Length{76, 24}), in, 152, 0, 17*yd/4)
	used(t, "edge roll", lengths(t)(findings.Running{Runs: inches(76)}.Order(byFoot)), in, 79.8, 1, 7*ft)
	felt := must[findings.Steps[unit.Mass]](t)(findings.Felt{Area: 4840 * unit.SquareInch}.Order(byPound))
	used(t, "felt", felt, unit.Pound, 5.477, 3, 11*unit.Pound/2)
	used(t, "wrap", rows(t, 48, [2]unit.Length{49, 29}, [2]unit.Length{49, 29}, [2]unit.Length{49, 29}), in, 147, 0, 17*yd/4)
	used(t, "decking", rows(t, 54, [2]unit.Length{76, 24}), in, 76, 0, 9*yd/4)
	used(t, "dust cover", rows(t, 36, [2]unit.Length{82, 32}), in, 82, 0, 5*yd/2)
	used(t, "card strip", lengths(t)(findings.Running{Runs: inches(76, 56)}.Order(byFoot)), in, 138.6, 1, 12*ft)
	used(t, "curve strip", lengths(t)(findings.Running{Runs: inches(60)}.Order(byFoot)), in, 63, 0, 6*ft)
	used(t, "cord", lengths(t)(findings.Cord(slices.Concat(alike(6, 92), alike(2, 44), inches(116)), false).Order(byYard)), yd, 22.575, 3, 91*yd/4)
	zip := must[findings.ZipOrder](t)(findings.Zips{Openings: alike(3, 30)}.Order(cloth))
	used(t, "zip", zip.Chain, in, 96, 0, 11*yd/4)
	assert.Equal(t, 3, zip.Sliders)

	cover, burlap := staples(t, in, alike(8, 76), alike(12, 26)), staples(t, 3*in/2, alike(4, 76), alike(4, 25))
	dust := staples(t, 3*in/2, inches(80, 80, 30, 30))
	assert.Equal(t, []int{940, 280, 152}, []int{cover, burlap, dust})
	assert.Equal(t, 1441, counted(t, tacked, cover+burlap+dust))

	glue := must[findings.GlueOrder](t)(findings.Glue{Area: 3 * (2*24*22 + 24*5) * unit.SquareInch}.Order(
		findings.Buying[unit.Volume]{Waste: 0.15, Step: unit.USGallon / 20}))
	assert.Equal(t, 49*unit.SquareFoot, glue.Coated)
	used(t, "glue", glue.Volume, unit.USGallon, 0.2254, 4, 5*(unit.USGallon/20))
	assert.Equal(t, 5, must[int](t)(findings.Feet(80*in)))
}

// Boat cushions: two of 40 x 20 x 4 in and two of 30 x 20 x 4 in.
func TestBoatSet(t *testing.T) {
	cord := lengths(t)(findings.Cord(slices.Concat(alike(4, 120), alike(4, 100)), false).Order(byYard))
	used(t, "cord", cord, yd, 26.133, 3, 105*yd/4)
	zip := must[findings.ZipOrder](t)(findings.Zips{Openings: inches(46, 46, 36, 36)}.Order(cloth))
	used(t, "zip", zip.Chain, yd, 4.778, 3, 5*yd)
	assert.Equal(t, 4, zip.Sliders)
	used(t, "hook-and-loop", lengths(t)(findings.HookAndLoop(alike(8, 6)).Order(cloth)), in, 56, 0, 7*yd/4)
	used(t, "wrap", rows(t, 48, [2]unit.Length{44, 44}, [2]unit.Length{44, 44}, [2]unit.Length{44, 34}, [2]unit.Length{44, 34}), in, 156, 0, 9*yd/2)
	assert.Equal(t, 8, must[int](t)(findings.DrainEyelets(4)))
}

// Club chair and sofa as one job are rounded once.
func TestOneJob(t *testing.T) {
	chair, sofa := inches(92, 92, 40, 40, 70), slices.Concat(alike(6, 92), alike(2, 44), inches(116))
	used(t, "cord", lengths(t)(findings.Cord(slices.Concat(chair, sofa), false).Order(byYard)), yd, 32.608, 3, 131*yd/4)
	used(t, "dust cover", lengths(t)(cloth.Steps(27*in+82*in, 0)), yd, 3.028, 3, 13*yd/4)
}

// The seats and figures that a text works out.
func TestWorkedByTexts(t *testing.T) {
	stool := must[findings.CoilPlan](t)(findings.Coils{Width: 24 * in, Depth: 18 * in}.Plan())
	assert.Equal(t, []int{3, 2, 6}, []int{stool.Across, stool.Deep, stool.Springs}, "six springs, Furniture Upholstery for Schools; the size is ours")
	at := must[unit.Length](t)(findings.Coils{Width: 24 * in, Depth: 18 * in}.StripAt(7 * in / 2))
	assert.Equal(t, 15*in/4, at, "Furniture Upholstery for Schools")
	// Upholstering Old Chairs and Couches has 2 and 2 or 3: the gap is a figure of the job.
	one := must[findings.WebbingPlan](t)(findings.Webbing{Width: 16 * in, Depth: 15 * in}.Plan())
	assert.Equal(t, []int{4, 4}, []int{one.FrontToBack, one.SideToSide})
	for width, n := range map[unit.Length]int{24: 5, 48: 10, 72: 15} {
		assert.Equal(t, n, must[findings.ZigzagPlan](t)(findings.Zigzag{Width: width * in, Depth: 22 * in}.Plan()).Springs, "as the trade builds them")
	}
	elastic := must[findings.ElasticPlan](t)(findings.Elastic{Across: 20 * in, Span: 22 * in, Strip: 2 * in}.Plan())
	assert.Equal(t, []unit.Length{20 * in, 23 * in}, []unit.Length{elastic.Relaxed, elastic.Cut})
	buttons := must[findings.ButtonOrder](t)(findings.Buttons{Count: 21, Diameter: must[unit.Length](t)(findings.ButtonLine(36)), Through: 4 * in}.Order())
	assert.Equal(t, []any{23, 9 * in / 5, 20 * in}, []any{buttons.Buttons, buttons.Disc, buttons.Each})
}

// The edges of every calculator.
func TestEdges(t *testing.T) {
	narrow := findings.Webbing{Width: 3 * in, Depth: 15 * in}
	_, err := narrow.Plan()
	require.ErrorIs(t, err, unit.ErrRange, "an opening narrower than one strip")
	_, err = findings.Running{Runs: inches(0)}.Order(byYard)
	require.ErrorIs(t, err, unit.ErrRange, "a run of nothing")
	_, err = findings.Nails{Sides: inches(1), Head: in / 2, Closed: true}.Plan()
	require.ErrorIs(t, err, unit.ErrRange, "two nails all round")
	lone := must[findings.CoilPlan](t)(findings.Coils{Width: 12 * in, Depth: 24 * in}.Plan())
	assert.Equal(t, []any{1, unit.Length(0), false}, []any{lone.Across, lone.GapAcross, lone.OddGap}, "one spring in a row")
	_, err = findings.Buying[unit.Length]{Step: yd, Pack: ft}.Steps(in, 0)
	require.ErrorIs(t, err, unit.ErrRange, "a pack smaller than the step")
	none := lengths(t)(findings.Buying[unit.Length]{Step: yd, Pack: 72 * yd}.Steps(0, 0))
	assert.Zero(t, none.Use+unit.Length(none.Packs))
	one := must[findings.ZigzagPlan](t)(findings.Zigzag{Width: 4 * in, Depth: 22 * in}.Plan())
	assert.Equal(t, []any{1, unit.Length(0)}, []any{one.Springs, one.Spacing})
	assert.Equal(t, 3, must[findings.ZigzagPlan](t)(findings.Zigzag{Width: 48 * in, Depth: 25 * in}.Plan()).TieRows)
	_, err = findings.Zigzag{Width: 48 * in, Depth: 5 * in}.Plan()
	require.ErrorIs(t, err, unit.ErrRange, "an arc too high for its depth")
	_, err = findings.Cloth{Roll: 36 * in, Pieces: []findings.ClothPiece{{Width: 40 * in, Length: 37 * in}}}.Plan()
	require.ErrorIs(t, err, unit.ErrRange, "too large both ways")
	_, err = findings.Elastic{Across: 20 * in, Span: 22 * in, Strip: 2 * in, Clips: true, Hold: in}.Plan()
	require.ErrorIs(t, err, unit.ErrRange)
	clipped := must[findings.ElasticPlan](t)(findings.Elastic{Across: 20 * in, Span: 22 * in, Strip: 2 * in, Clips: true}.Plan())
	assert.Equal(t, []any{20 * in, 2 * clipped.Strips}, []any{clipped.Cut, clipped.Fasteners})
	_, err = findings.Glue{Area: unit.SquareFoot, Covers: unit.SquareFoot}.Order(findings.Buying[unit.Volume]{})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = findings.WasteOf("ribbon")
	require.ErrorIs(t, err, unit.ErrUnknown)
	strip := must[findings.NailPlan](t)(findings.Nails{Sides: inches(11), Head: in / 2, Strip: true}.Plan())
	assert.Equal(t, []int{22, 5}, []int{strip.Heads, strip.Nails})
	long := must[findings.ZipOrder](t)(findings.Zips{Openings: inches(48, 49)}.Order(cloth))
	assert.Equal(t, 3, long.Sliders)
	assert.Equal(t, 4, must[int](t)(findings.Feet(72*in)))
}

// What is not given is refused, never taken for nothing.
func TestZeroFindingsAreRefused(t *testing.T) {
	for name, err := range map[string]error{
		"running": second(findings.Running{}.Order(byYard)), "tack strip": second(findings.TackStrip{}.Sticks()), "zips": second(findings.Zips{}.Order(cloth)),
		"sheet": second(findings.Sheet{}.Cut()), "cloth": second(findings.Cloth{}.Plan()), "webbing": second(findings.Webbing{}.Plan()),
		"elastic": second(findings.Elastic{}.Plan()), "zigzag": second(findings.Zigzag{}.Plan()), "coils": second(findings.Coils{}.Plan()),
		"nails": second(findings.Nails{}.Plan()), "staples": second(findings.Staples{}.Plan()), "buttons": second(findings.Buttons{}.Order()),
		"felt": second(findings.Felt{}.Order(byPound)), "hair": second(findings.Hair{}.Order(byPound)), "tow": second(findings.Tow(0, byPound)),
		"glue": second(findings.Glue{}.Order(findings.Buying[unit.Volume]{})), "snaps": second(findings.Snaps{}.Order()),
		"feet": second(findings.Feet(0)), "burlap": second(findings.BurlapWeight(0, 0)), "line": second(findings.ButtonLine(0)),
	} {
		var input *unit.InputError
		if assert.ErrorAs(t, err, &input, name) {
			assert.NotEmpty(t, input.Field, name)
		}
	}
}

func second[T any](_ T, err error) error { return err }
