package layout

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// readingRoom is the leather of the demo job: a window-seat cushion with its
// boxing, and six drop-in seats.
func readingRoom(t testing.TB) []Piece {
	seat, err := shape.Trapezoid(23*in, 20*in, 21*in, 3*in/2)
	require.NoError(t, err)
	return []Piece{
		{Name: "cushion top", Outline: boxAt(t, 0, 0, 49, 21), Count: 2, Grain: FreeGrain()},
		{Name: "boxing", Outline: boxAt(t, 0, 0, 5, 48), Count: 3, Grain: FreeGrain(), Least: material.FairGrade},
		{Name: "seat", Outline: seat, Count: 6, Grain: FreeGrain()},
	}
}

func TestNestReadingRoom(t *testing.T) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 3)
	require.NoError(t, err)
	plan := onHides(t, skins, readingRoom(t), light)
	assert.True(t, plan.Complete())
	assert.LessOrEqual(t, len(plan.Used), 2)
	assert.Equal(t, unit.Area(len(plan.Used))*50*unit.SquareFoot, plan.Areas.Sold)
	assert.InEpsilon(t, float64(plan.Areas.Sold), float64(plan.Areas.Gross), 1e-6)
	assert.Len(t, plan.Places, 11)
	n := 0
	for _, i := range plan.Used {
		n += len(plan.On(i))
	}
	assert.Equal(t, 11, n)
}

// The smaller of two skins that would do is taken, the cheaper when a price is
// stated.
func TestNestTakesTheSmallerOrCheaperSkin(t *testing.T) {
	skins := []material.Skin{{Outline: boxAt(t, 0, 0, 60, 60)}, {Outline: boxAt(t, 0, 0, 40, 40)}, {Outline: boxAt(t, 0, 0, 50, 50)}}
	pieces := []Piece{{Outline: boxAt(t, 0, 0, 20, 20), Count: 1}}
	assert.Equal(t, []int{1}, onHides(t, skins, pieces, light).Used)
	skins[0].PriceFactor = 0.2
	assert.Equal(t, []int{0}, onHides(t, skins, pieces, light).Used)
}

// Four squares fill a square skin but for the knife: one square more needs a
// second skin, and the bounds know it.
func TestNestAgainstKnownCounts(t *testing.T) {
	skins := []material.Skin{{Outline: boxAt(t, 0, 0, 21, 21)}, {Outline: boxAt(t, 0, 0, 21, 21)}, {Outline: boxAt(t, 0, 0, 21, 21)}}
	for _, n := range []int{1, 4, 5, 8, 9, 12} {
		plan := onHides(t, skins, []Piece{{Outline: boxAt(t, 0, 0, 10, 10), Count: n}}, light)
		assert.True(t, plan.Complete(), n)
		assert.Len(t, plan.Used, (n+3)/4, n)
		assert.Equal(t, (n+3)/4, plan.Bound().Hides, n)
	}
	plan := onHides(t, skins, []Piece{{Outline: boxAt(t, 0, 0, 10, 10), Count: 13}}, light)
	assert.False(t, plan.Complete())
	assert.Len(t, plan.Unplaced, 1)
	assert.Len(t, plan.Used, 3)
}

// More marks on the skins never make do with fewer skins. The cases are so
// small that the least number is known: squares of 9 in on squares of 20 in,
// four on each, less one for every quarter with a hole in its middle.
func TestMoreDefectsNeverTakeFewerSkins(t *testing.T) { few.Check(t, 4, moreDefectsLaw()) }

func moreDefectsLaw() func(*rapid.T) {
	laid := map[string]Plan{} // each case is laid once
	lay := func(t *rapid.T, skins []material.Skin, pieces []Piece) Plan {
		key := fmt.Sprint(pieces[0].Count, skins[0].Defects, skins[1].Defects)
		if _, ok := laid[key]; !ok {
			laid[key] = onHides(t, skins, pieces, Options{Effort: 0.02, OffcutLong: unit.Metre})
		}
		return laid[key]
	}
	return func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "pieces")
		pieces := []Piece{{Outline: rectOutline(t, 9*in, 9*in), Count: n}}
		skins, free := make([]material.Skin, 2), []int{4, 4}
		for i := range skins {
			skins[i].Outline = rectOutline(t, 20*in, 20*in)
		}
		least := func() int {
			sum, sorted := 0, slices.Sorted(slices.Values(free))
			for k := range 2 {
				if sum += sorted[1-k]; sum >= n {
					return k + 1
				}
			}
			return 3
		}
		clean := lay(t, skins, pieces)
		require.True(t, clean.Complete())
		require.Len(t, clean.Used, least())
		for q := range 5 { // quarters of the first skin, and one of the second
			if !rapid.Bool().Draw(t, "marked") {
				continue
			}
			at := shape.Point{X: unit.Length(5+10*(q%2)) * in, Y: unit.Length(5+10*(q/2%2)) * in}
			skins[q/4].Defects = append(skins[q/4].Defects, material.Defect{Kind: material.OpenHole, At: at, Across: 8 * in})
			free[q/4]--
		}
		marked := lay(t, skins, pieces)
		if least() > 2 {
			assert.False(t, marked.Complete(), "more pieces than there is room")
			return
		}
		assert.True(t, marked.Complete())
		assert.GreaterOrEqual(t, len(marked.Used), len(clean.Used))
		assert.Len(t, marked.Used, least())
	}
}

// The second of a pair is the mirror image of the first.
func TestPairsAreMirrored(t *testing.T) {
	ell := polygon(t, inches(0, 0), inches(12, 0), inches(12, 4), inches(4, 4), inches(4, 15), inches(0, 15))
	for _, n := range []int{1, 2, 5} {
		plan := onHides(t, []material.Skin{{Outline: boxAt(t, 0, 0, 60, 60)}}, []Piece{{Outline: ell, Count: n, Hand: Paired, Grain: Grain{Angles: []unit.Angle{0, 90, 180, 270}}}}, light)
		require.True(t, plan.Complete())
		for _, p := range plan.Places {
			assert.Equal(t, p.Copy%2 == 1, p.Mirrored)
			// The foot of the L lies to the right of the stem as drawn, to the
			// left when mirrored, whatever the turn: sense of the corner round.
			o := p.Outline
			area := 0.0
			for i := range o {
				a, b := o[i], o[(i+1)%len(o)]
				area += float64(a.X)*float64(b.Y) - float64(a.Y)*float64(b.X)
			}
			assert.Positive(t, area)
			assert.Len(t, o, 6)
			// Turned back, the placed outline is the drawn one, or its mirror image.
			want := ell
			if p.Mirrored {
				want = ell.Mirrored()
			}
			back, err := shape.Polygon(o...)
			require.NoError(t, err)
			back = back.Turned(4 - int(p.Turned)/90)
			low, _ := back.Bounds()
			wantLow, _ := want.Bounds()
			back, err = back.Moved(shape.Point{X: wantLow.X - low.X, Y: wantLow.Y - low.Y})
			require.NoError(t, err)
			assert.Equal(t, cornerSet(t, want), cornerSet(t, back))
		}
	}
}

func cornerSet(t testing.TB, o shape.Outline) map[shape.Point]bool {
	pts, err := o.Flatten(0)
	require.NoError(t, err)
	out := map[shape.Point]bool{}
	for _, p := range pts {
		out[p] = true
	}
	return out
}

// The left half of the skin is fair, a faint mark lies in the right one. Panels
// go where they may.
func TestDemandsAreKept(t *testing.T) {
	skin := material.Skin{Outline: boxAt(t, 0, 0, 40, 20), Zones: []material.QualityZone{{Grade: material.FairGrade, Outline: boxAt(t, 0, 0, 20, 20)}},
		Defects: []material.Defect{{Kind: material.Vein, At: inches(30, 10), Across: in}}}
	half := boxAt(t, 0, 0, 19, 19)
	for name, c := range map[string]struct {
		piece  Piece
		placed bool
		left   bool
	}{
		"fair, clean":  {Piece{Least: material.FairGrade}, true, true},
		"prime, clean": {Piece{}, false, false},
		"prime, faint": {Piece{Worst: material.FaintMark}, true, false},
		"good, faint":  {Piece{Least: material.GoodGrade, Worst: material.FaintMark}, true, false},
	} {
		c.piece.Outline, c.piece.Count = half, 1
		plan := onHides(t, []material.Skin{skin}, []Piece{c.piece}, light)
		require.Equal(t, c.placed, plan.Complete(), name)
		if c.placed {
			assert.Equal(t, c.left, plan.Places[0].X < 15*in, name)
		}
	}
	// One takes the grade but no mark, the other the mark but not the grade:
	// no common order, and each lies on the half that it takes, the other being
	// forbidden to it.
	plan := onHides(t, []material.Skin{skin}, []Piece{{Name: "a", Outline: half, Count: 1, Least: material.FairGrade}, {Name: "b", Outline: half, Count: 1, Worst: material.FaintMark}}, light)
	require.True(t, plan.Complete())
	for _, q := range plan.Places {
		assert.Equal(t, plan.Job.Pieces[q.Piece].Name == "a", q.X < 15*in)
	}
}

// A fair skin with a prime core: prime pieces lie in the core alone.
func TestGradeOfTheWholeSkin(t *testing.T) {
	skin := material.Skin{Outline: boxAt(t, 0, 0, 60, 60), Grade: material.FairGrade, Zones: []material.QualityZone{
		{Grade: material.PrimeGrade, Outline: boxAt(t, 10, 10, 22, 22)}, {Grade: material.GoodGrade, Outline: boxAt(t, 34, 34, 21, 21)}}}
	plan := onHides(t, []material.Skin{skin}, []Piece{{Outline: boxAt(t, 0, 0, 20, 20), Count: 1}}, light)
	require.True(t, plan.Complete())
	assert.Less(t, plan.Places[0].X, 13*in)
	plan = onHides(t, []material.Skin{skin}, []Piece{{Outline: boxAt(t, 0, 0, 20, 20), Count: 2}}, light)
	assert.Len(t, plan.Unplaced, 1)
	assert.Equal(t, 2, plan.Bound().Hides) // one more than there are
	plan = onHides(t, []material.Skin{skin}, []Piece{{Outline: boxAt(t, 0, 0, 20, 20), Count: 2, Least: material.GoodGrade}}, light)
	assert.True(t, plan.Complete())
}

func TestStretchIsKept(t *testing.T) {
	skin := material.Skin{Outline: boxAt(t, 0, 0, 60, 30), Stretch: []material.StretchRegion{{Outline: boxAt(t, 0, 0, 20, 30), Direction: 90}, {Direction: 0}}}
	long := boxAt(t, 0, 0, 14, 25)
	across := &StretchWish{Axis: 0, Tolerance: 10}
	// Free to turn: it takes the direction of the larger region.
	plan := onHides(t, []material.Skin{skin}, []Piece{{Outline: long, Count: 1, Grain: FreeGrain(), Stretch: across}}, light)
	require.True(t, plan.Complete())
	assert.LessOrEqual(t, halfTurnOff(float64(plan.Places[0].Turned), 0), 10.0)
	// Kept on its grain, it lies in the region that suits: the left one.
	plan = onHides(t, []material.Skin{skin}, []Piece{{Outline: long, Count: 1, Stretch: &StretchWish{Axis: 90, Tolerance: 10}}}, light)
	require.True(t, plan.Complete())
	assert.Less(t, plan.Places[0].X, 8*in)
	// Where no region suits it is not placed.
	plan = onHides(t, []material.Skin{skin}, []Piece{{Outline: long, Count: 1, Stretch: &StretchWish{Axis: 45, Tolerance: 10}}}, light)
	assert.False(t, plan.Complete())
	// A placement turned against the wish is found.
	plan = onHides(t, []material.Skin{skin}, []Piece{{Outline: long, Count: 1, Grain: Grain{Angles: []unit.Angle{0, 90}}, Stretch: across}}, light)
	require.True(t, plan.Complete())
	plan.Job.Pieces[0].Stretch = &StretchWish{Axis: plan.Places[0].Turned + 90, Tolerance: 5}
	require.ErrorIs(t, plan.Verify(), ErrBadLayout)
}

// The axis of a mirrored piece is mirrored too.
func TestStretchOfPairs(t *testing.T) {
	skin := material.Skin{Outline: boxAt(t, 0, 0, 60, 60), Stretch: []material.StretchRegion{{Direction: 0}}}
	plan := onHides(t, []material.Skin{skin}, []Piece{{Outline: boxAt(t, 0, 0, 14, 25), Count: 2, Hand: Paired, Grain: FreeGrain(), Stretch: &StretchWish{Axis: 30, Tolerance: 2}}}, light)
	require.True(t, plan.Complete())
	assert.LessOrEqual(t, halfTurnOff(float64(plan.Places[0].Turned)+30, 0), 2.0001)
	assert.LessOrEqual(t, halfTurnOff(float64(plan.Places[1].Turned)+150, 0), 2.0001)
	plan = onHides(t, []material.Skin{skin}, []Piece{{Outline: boxAt(t, 0, 0, 14, 25), Count: 2, Hand: EitherHand, Grain: FreeGrain(), Stretch: &StretchWish{Axis: 30, Tolerance: 2}}}, light)
	assert.True(t, plan.Complete())
}

// True curves never meet: circles on a skin keep their distance, and their
// boxes may lie edge to edge.
func TestCurvesKeepApart(t *testing.T) {
	circle, err := shape.Circle(12 * in)
	require.NoError(t, err)
	plan := solved(t, Job{Hides: &Hides{OnOffer: []material.Skin{{Outline: boxAt(t, 0, 0, 40, 40)}}}, Pieces: []Piece{{Outline: circle, Count: 7}}, Gap: 5 * unit.Millimetre}, Options{Effort: 0.1, Tolerance: unit.Millimetre})
	require.True(t, plan.Complete())
	c := circle.Centroid()
	for i, a := range plan.Places {
		for _, b := range plan.Places[:i] {
			d := math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
			assert.GreaterOrEqual(t, d, float64(12*in+5*unit.Millimetre))
		}
		x, y := a.X+c.X, a.Y+c.Y
		assert.GreaterOrEqual(t, min(x, y), 6*in-unit.Micrometre)
		assert.LessOrEqual(t, max(x, y), 34*in+unit.Micrometre)
	}
}

// The polygon of a piece holds the true outline and is larger by the tolerance
// at most; that of a skin lies within.
func TestPolygonsAreOnTheSafeSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := unit.Length(rapid.Int64Range(int64(50*unit.Millimetre), int64(unit.Metre)).Draw(t, "w"))
		h := unit.Length(rapid.Int64Range(int64(50*unit.Millimetre), int64(unit.Metre)).Draw(t, "h"))
		tol := unit.Length(rapid.Int64Range(int64(unit.Millimetre/10), int64(5*unit.Millimetre)).Draw(t, "tol"))
		o, err := shape.Ellipse(w, h)
		require.NoError(t, err)
		steady := rapid.Bool().Draw(t, "steady")
		out, err := ringOf(o, 1, 0, tol, nestStep, steady)
		require.NoError(t, err)
		inner, err := ringOf(o, -1, 0, tol, nestStep, true)
		require.NoError(t, err)
		area := float64(o.Area())
		rim := float64(o.Perimeter()) * float64(tol) / 1e6
		grown, shrunk := out.Area()*nestStep*nestStep/1e6, inner.Area()*nestStep*nestStep/1e6
		assert.GreaterOrEqual(t, grown, area-1)
		assert.LessOrEqual(t, grown, area+1.1*rim)
		assert.LessOrEqual(t, shrunk, area+1)
		assert.GreaterOrEqual(t, shrunk, area-1.1*rim)
		fine, err := o.Flatten(10 * unit.Micrometre)
		require.NoError(t, err)
		ring := out
		for _, p := range fine {
			// A corner of the step that the point lies in is inside.
			x, y := floorTo(int64(p.X), nestStep)/nestStep, floorTo(int64(p.Y), nestStep)/nestStep
			inside := 0
			for k := range int64(4) {
				if ring.Locate(geom.Point{X: x + k%2, Y: y + k/2}) != geom.Outside {
					inside++
				}
			}
			assert.Positive(t, inside, "a point of the curve outside its polygon")
		}
	})
}

// Every place of the true outline, brought to where the piece lies by hand,
// is within the outline of the placement: mirrored, turned, moved.
func TestPlacementsHoldTheTrueOutlines(t *testing.T) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 2)
	require.NoError(t, err)
	var pieces []Piece
	for i, w := range wingChair(t) {
		p := Piece{Name: w.Name, Outline: w.Outline, Count: 2, Grain: FreeGrain(), Hand: Hand(i % 3)}
		p.Outline, err = p.Outline.Moved(inches(unit.Length(7*i), -20))
		require.NoError(t, err)
		pieces = append(pieces, p)
	}
	plan := onHides(t, skins, pieces, Options{Effort: 0.05})
	require.NotEmpty(t, plan.Places)
	shape, err := skins[0].Shape()
	require.NoError(t, err)
	ground, err := shape.Flatten(0)
	require.NoError(t, err)
	for _, q := range plan.Places {
		fine, err := pieces[q.Piece].Outline.Flatten(0)
		require.NoError(t, err)
		sin, cos := math.Sincos(q.Turned.Radians())
		lies := gridRing(q.Outline)
		for _, p := range fine {
			x, y := float64(p.X), float64(p.Y)
			if q.Mirrored {
				x = -x
			}
			at := geom.Point{X: int64(math.Round(x*cos-y*sin)) + int64(q.X), Y: int64(math.Round(x*sin+y*cos)) + int64(q.Y)}
			require.NotEqual(t, geom.Outside, lies.Locate(at), "%v", q)
			require.NotEqual(t, geom.Outside, gridRing(ground).Locate(at), "%v", q)
		}
	}
}

func TestZeroPlans(t *testing.T) {
	var p Plan
	require.ErrorIs(t, p.Verify(), unit.ErrRequired)
	_, err := p.Draw(Picture{})
	require.ErrorIs(t, err, unit.ErrRequired)
	d, err := p.Density()
	require.NoError(t, err)
	assert.Zero(t, d)
	y, err := p.Yield()
	require.NoError(t, err)
	assert.Zero(t, y)
	for _, k := range []int{-1, 0} {
		_, err = Plan{Places: []Place{{Piece: k}}}.Net()
		require.ErrorIs(t, err, ErrBadLayout)
	}
	assert.Zero(t, p.Gap())
	assert.True(t, p.Complete())
	assert.Equal(t, BySomethingToCut, p.Bound().Method)
	assert.Zero(t, material.SkinSupply{}.MeanArea())
	a, err := NetArea(nil)
	require.NoError(t, err)
	assert.Zero(t, a)
	_, err = NetArea([]Piece{{}})
	require.ErrorIs(t, err, unit.ErrRequired)
}

func TestNestIsDeterministic(t *testing.T) {
	skins, err := UsualHides(material.Calf, 28*unit.SquareFoot, 2)
	require.NoError(t, err)
	o := Options{Effort: 0.03, Seed: 7}
	a, err := json.Marshal(onHides(t, skins, readingRoom(t), o))
	require.NoError(t, err)
	b, err := json.Marshal(onHides(t, skins, readingRoom(t), o))
	require.NoError(t, err)
	assert.Equal(t, string(a), string(b))
	// A plan read back from JSON verifies.
	var plan Plan
	require.NoError(t, json.Unmarshal(a, &plan))
	require.NoError(t, plan.Verify())
}

func TestNestStops(t *testing.T) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 3)
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	plan, err := Solve(ctx, Job{Hides: &Hides{OnOffer: skins}, Pieces: readingRoom(t)}, Options{Effort: 4, Progress: func(p Progress) {
		assert.LessOrEqual(t, p.Done, unit.Ratio(1))
		cancel()
	}})
	require.NoError(t, err)
	assert.True(t, plan.Stopped)
	require.NoError(t, plan.Verify())
	plan, err = Solve(ctx, Job{Hides: &Hides{OnOffer: skins}, Pieces: readingRoom(t)}, light) // from the start
	require.NoError(t, err)
	assert.True(t, plan.Stopped)
	require.NoError(t, plan.Verify())
}

func TestNestRefuses(t *testing.T) {
	skin := []material.Skin{{Outline: boxAt(t, 0, 0, 60, 60)}}
	piece := []Piece{{Outline: boxAt(t, 0, 0, 10, 10), Count: 1}}
	with := func(do func(*Piece)) []Piece {
		p := piece[0]
		do(&p)
		return []Piece{p}
	}
	for name, c := range map[string]struct {
		skins  []material.Skin
		pieces []Piece
		o      Options
		gap    unit.Length
		field  string
		err    error
	}{
		"no skins":      {nil, piece, light, 0, "hides.at_hand", unit.ErrRequired},
		"no pieces":     {skin, nil, light, 0, "pieces", unit.ErrRequired},
		"shade":         {skin, with(func(p *Piece) { p.Shade = 1 }), light, 0, "pieces[0].shade", unit.ErrRange},
		"join":          {skin, with(func(p *Piece) { p.Join = &Piecing{} }), light, 0, "pieces[0].join", ErrNotLaid},
		"many skins":    {make([]material.Skin, MostHides+1), piece, light, 0, "hides", ErrTooMany},
		"bad skin":      {[]material.Skin{{}}, piece, light, 0, "hides.on_offer[0].outline", unit.ErrRequired},
		"all border":    {[]material.Skin{{Outline: boxAt(t, 0, 0, 10, 20), Border: 6 * in}}, piece, light, 0, "hides.on_offer[0].border", unit.ErrRange},
		"no outline":    {skin, with(func(p *Piece) { p.Outline = shape.Outline{} }), light, 0, "pieces[0].outline", unit.ErrRequired},
		"no count":      {skin, with(func(p *Piece) { p.Count = 0 }), light, 0, "pieces[0].count", unit.ErrRange},
		"too many":      {skin, append(with(func(p *Piece) { p.Count = MostOnHides }), piece...), light, 0, "pieces[1].count", ErrTooMany},
		"free and set":  {skin, with(func(p *Piece) { p.Grain = Grain{Free: true, Tolerance: 5} }), light, 0, "pieces[0].grain.free", unit.ErrRange},
		"angle":         {skin, with(func(p *Piece) { p.Grain = Grain{Angles: []unit.Angle{unit.Angle(math.NaN())}} }), light, 0, "pieces[0].grain.angles[0]", unit.ErrNotFinite},
		"angles":        {skin, with(func(p *Piece) { p.Grain = Grain{Angles: make([]unit.Angle, 73)} }), light, 0, "pieces[0].grain.angles", unit.ErrRange},
		"tolerance":     {skin, with(func(p *Piece) { p.Grain = Grain{Tolerance: 91} }), light, 0, "pieces[0].grain.tolerance", unit.ErrRange},
		"hand":          {skin, with(func(p *Piece) { p.Hand = 9 }), light, 0, "pieces[0].hand", unit.ErrUnknown},
		"grade":         {skin, with(func(p *Piece) { p.Least = 9 }), light, 0, "pieces[0].least", unit.ErrUnknown},
		"on a hole":     {skin, with(func(p *Piece) { p.Worst = material.ThroughMark }), light, 0, "pieces[0].worst", unit.ErrRange},
		"wish":          {skin, with(func(p *Piece) { p.Stretch = &StretchWish{Tolerance: -1} }), light, 0, "pieces[0].stretch.tolerance", unit.ErrRange},
		"effort":        {skin, piece, Options{Effort: 1e9}, 0, "effort", unit.ErrRange},
		"gap":           {skin, piece, light, 3, "gap", unit.ErrForgottenUnit},
		"coarse":        {skin, piece, Options{Tolerance: in}, 0, "tolerance", unit.ErrRange},
		"small offcuts": {skin, piece, Options{OffcutShort: unit.Millimetre}, 0, "offcut_short", unit.ErrRange},
	} {
		_, err := Solve(context.Background(), Job{Hides: &Hides{OnOffer: c.skins}, Pieces: c.pieces, Gap: c.gap}, c.o)
		require.ErrorIs(t, err, c.err, name)
		var input *unit.InputError
		require.ErrorAs(t, err, &input, name)
		assert.Equal(t, c.field, string(input.Field), name)
	}
}

// Every change for the worse to a good plan is found.
func TestVerifyFindsFaults(t *testing.T) {
	skin := material.Skin{Outline: boxAt(t, 0, 0, 60, 40), Holes: []shape.Outline{boxAt(t, 50, 30, 5, 5)}, Zones: []material.QualityZone{{Grade: material.FairGrade, Outline: boxAt(t, 40, 0, 20, 10)}}}
	pieces := []Piece{{Name: "a", Outline: boxAt(t, 0, 0, 10, 20), Count: 2, Grain: EitherWay(0)}, {Name: "b", Outline: boxAt(t, 0, 0, 12, 12), Count: 2, Hand: Paired}}
	good := solved(t, Job{Hides: &Hides{OnOffer: []material.Skin{skin}}, Pieces: pieces, Gap: in / 4}, light)
	require.True(t, good.Complete())
	move := func(p *Plan, i int, x, y unit.Length) {
		q := &p.Places[i]
		dx, dy := x-q.Outline[0].X, y-q.Outline[0].Y
		q.X, q.Y = q.X+dx, q.Y+dy
		q.Outline = append([]shape.Point(nil), q.Outline...)
		for k := range q.Outline {
			q.Outline[k].X += dx
			q.Outline[k].Y += dy
		}
	}
	for name, do := range map[string]func(*Plan){
		"overlap":      func(p *Plan) { move(p, 0, p.Places[1].Outline[0].X, p.Places[1].Outline[0].Y) },
		"outside":      func(p *Plan) { move(p, 0, -in, 0) },
		"on the hole":  func(p *Plan) { move(p, 2, 45*in, 25*in) },
		"on the zone":  func(p *Plan) { move(p, 2, 41*in, 0) },
		"wrong angle":  func(p *Plan) { p.Places[0].Turned += 90 },
		"wrong hand":   func(p *Plan) { p.Places[2].Mirrored = true },
		"wrong shape":  func(p *Plan) { p.Places[0].Outline = p.Places[2].Outline },
		"off grid":     func(p *Plan) { p.Places[0].X++ },
		"no such skin": func(p *Plan) { p.Places[0].Hide = 4 },
		"below skin":   func(p *Plan) { p.Places[0].Hide = -1 },
		"no such copy": func(p *Plan) { p.Places[0].Copy = 9 },
		"twice":        func(p *Plan) { p.Places[1].Copy = 0 },
		"left out":     func(p *Plan) { p.Places = p.Places[1:] },
		"both":         func(p *Plan) { p.Unplaced = []Copy{{0, 0}} },
		"unused":       func(p *Plan) { p.Used = nil },
		"not bought":   func(p *Plan) { p.Bought = nil },
		"other hides": func(p *Plan) {
			p.Hides = append([]material.Skin{{ID: "z", Outline: p.Hides[0].Outline}}, p.Hides[1:]...)
		},
		"no angle":      func(p *Plan) { p.Places[0].Turned = unit.Angle(math.NaN()) },
		"over the area": func(p *Plan) { p.Areas.Placed = p.Areas.Usable + 1 },
		"wrong price":   func(p *Plan) { p.Areas.Bought /= 2 },
		"under a bound": func(p *Plan) { p.Claims = append([]Claim{{Kind: cite.Bound, Method: ByPairs, Hides: 3}}, p.Claims...) },
	} {
		bad := good
		bad.Places = append([]Place(nil), good.Places...)
		do(&bad)
		require.ErrorIs(t, bad.Verify(), ErrBadLayout, name)
	}
	bad := good
	bad.Hides = nil
	require.ErrorIs(t, bad.Verify(), unit.ErrRequired)
	_, err := bad.Draw(Picture{})
	require.ErrorIs(t, err, unit.ErrRequired)
	require.NoError(t, good.Verify())
}

// Offcuts lie on the skin, off pieces, holes and marks and off each other.
func TestSkinOffcutsAreClear(t *testing.T) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 1)
	require.NoError(t, err)
	skins[0].Defects = []material.Defect{{Kind: material.Brand, At: inches(50, 50), Across: 6 * in}}
	pieces := []Piece{{Outline: boxAt(t, 0, 0, 23, 21), Count: 3, Grain: FreeGrain()}}
	plan := onHides(t, skins, pieces, light)
	require.NotEmpty(t, plan.Offcuts)
	// Cut as pieces they would still fit: the plan with them verifies.
	with := plan
	for i, o := range plan.Offcuts {
		assert.GreaterOrEqual(t, min(o.Width, o.Length), 6*in)
		if i > 0 {
			assert.LessOrEqual(t, float64(o.Width)*float64(o.Length), float64(plan.Offcuts[i-1].Width)*float64(plan.Offcuts[i-1].Length))
		}
		w, l := o.Width/nestStep*nestStep, o.Length/nestStep*nestStep
		with.Job.Pieces = append(append([]Piece(nil), with.Job.Pieces...), Piece{Name: fmt.Sprint("offcut ", i), Outline: rectOutline(t, w, l), Count: 1})
		with.Places = append(append([]Place(nil), with.Places...), Place{Segments: 1, Piece: i + 1, X: o.X, Y: o.Y,
			Outline: []shape.Point{{X: o.X, Y: o.Y}, {X: o.X + w, Y: o.Y}, {X: o.X + w, Y: o.Y + l}, {X: o.X, Y: o.Y + l}}})
	}
	for _, q := range plan.Offcuts {
		a, err := (q.Width / nestStep * nestStep).By(q.Length / nestStep * nestStep)
		require.NoError(t, err)
		with.Areas.Placed += a
	}
	require.NoError(t, with.Verify())
	none := onHides(t, skins, pieces, Options{Effort: 0.02, OffcutShort: 60 * in, OffcutLong: 60 * in})
	assert.Empty(t, none.Offcuts)
}

func TestPanelOf(t *testing.T) {
	cut, err := allowance.Panel{Name: "seat", Outline: boxAt(t, 0, 0, 20, 18), AllEdges: allowance.Edge{Allowance: allowance.Exactly(in / 2)}}.Cut()
	require.NoError(t, err)
	p, err := PieceOf(cut, 6)
	require.NoError(t, err)
	assert.Equal(t, cut.Area, p.Outline.Area())
	assert.Equal(t, "seat", p.Name)
	assert.Equal(t, 6, p.Count)
	r, err := PieceOf(cut, 2)
	require.NoError(t, err)
	assert.Equal(t, cut.Area, r.Outline.Area())
	_, err = PieceOf(allowance.PanelCut{}, 1)
	require.Error(t, err)
}

func BenchmarkNestReadingRoom(b *testing.B) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 3)
	require.NoError(b, err)
	pieces := readingRoom(b)
	for b.Loop() {
		plan, err := Solve(context.Background(), Job{Hides: &Hides{OnOffer: skins}, Pieces: pieces}, Options{})
		require.NoError(b, err)
		require.True(b, plan.Complete())
	}
}
