package layout

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// triangles are sixteen right triangles of 26 x 36 in and four straps: two make a
// rectangle, and two rectangles lie abreast.
func triangles(t require.TestingT, strap cloth) []Piece {
	strap.width, strap.length, strap.count = 2*in, 30*in, 4
	return []Piece{{Name: "panel", Outline: polygon(t, inches(0, 0), inches(26, 0), inches(0, 36)), Count: 16, Turn: HalfTurn}, strap.piece()}
}

// A strap with a shade or a join takes nothing from the triangles: they are
// nested, and no optimum of their boxes is called a proof.
func TestNoProofOfBoxesForOutlines(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Increment: unit.Yard / 8}
	var plain Plan
	for _, c := range []struct {
		name  string
		strap cloth
	}{{"plain", cloth{}}, {"shade", cloth{shade: 1}}, {"join", cloth{join: &Piecing{Allowance: in / 2, Least: 6 * in, Most: 2}}}} {
		job := Job{Roll: &roll, Pieces: triangles(t, c.strap)}
		if c.name == "shade" {
			job.Shades = []Shade{{Window: 40 * in}}
		}
		p, err := Solve(context.Background(), job, Options{Effort: 0.005})
		require.NoError(t, err)
		boxes, ok := p.Found(BoxesSearched)
		require.True(t, ok)
		assert.Equal(t, OutlinesNested, p.Method, c.name)
		assert.Less(t, p.Need, boxes.Length*3/4, c.name)
		assert.False(t, p.Proved, c.name)
		assert.LessOrEqual(t, p.Bound().Length, p.Need)
		for _, k := range p.Claims {
			assert.NotEqual(t, ByBoxes, k.Method, "the search of boxes proves nothing of triangles")
		}
		if c.name == "plain" {
			plain = p
		}
		assert.LessOrEqual(t, float64(p.Need), float64(plain.Need)*1.1, c.name)
	}
}

// Where the boxes are kept the plan says so, and where the outlines were not
// nested nothing says that they were.
func TestClaimsNameWhatMadeThem(t *testing.T) {
	roll := material.Roll{Width: 54 * in}
	for i := range 101 { // more than the nesting engine takes
		roll.Flaws = append(roll.Flaws, material.Flaw{X: 20 * in, Y: unit.Length(i) * in, Width: in, Length: in})
	}
	p, err := onRoll(roll, wingChair(t), Options{Effort: 0.005})
	require.NoError(t, err)
	assert.Equal(t, BoxesSearched, p.Method)
	_, nested := p.Found(OutlinesNested)
	assert.False(t, nested)
	// Slender arches that the pattern keeps a repeat apart: boxes are as short.
	arch, err := shape.Crowned(20*in, 18*in, 2*in)
	require.NoError(t, err)
	p, err = onRoll(material.Roll{Width: 54 * in, Repeat: 25 * in}, []Piece{{Outline: arch, Count: 4}}, light)
	require.NoError(t, err)
	assert.Equal(t, BoxesSearched, p.Method)
	assert.LessOrEqual(t, p.Gap(), unit.Ratio(1e-5))
}

// scalloped is a panel with n hollows in its lower edge, each of 8 corners.
func scalloped(t require.TestingT, n int) shape.Outline {
	pts := []shape.Point{inches(40, 14), inches(0, 14)}
	for i := range 8*n + 1 {
		a := math.Pi * float64(i) / 8
		pts = append(pts, shape.Point{X: unit.Length(40*64*i/(8*n)) * in / 64, Y: unit.Length(64*3*math.Abs(math.Sin(a))) * in / 64})
	}
	return polygon(t, pts...)
}

// valance is a panel with n half rounds along its lower edge.
func valance(t require.TestingT, n int) shape.Outline {
	pts := []shape.Point{inches(40, 14), inches(0, 14)}
	for i := range 8*n + 1 {
		a := math.Pi * float64(i) / 8
		pts = append(pts, shape.Point{X: unit.Length(40*64*i/(8*n)) * in / 64, Y: unit.Length(64*3*(1-math.Abs(math.Sin(a)))) * in / 64})
	}
	return polygon(t, pts...)
}

// A panel that is too intricate for the engine is filled out alone: the gussets
// beside it are nested, on goods with a repeat and with flaws too.
func TestIntricatePanelStopsNoOther(t *testing.T) {
	gusset := polygon(t, inches(0, 0), inches(40, 0), inches(10, 20), inches(0, 20))
	for name, roll := range map[string]material.Roll{
		"repeat": {Width: 54 * in, Repeat: 3 * in}, "flaw": {Width: 54 * in, Flaws: []material.Flaw{{X: 5 * in, Y: 5 * in, Width: in, Length: in}}},
	} {
		ps := []Piece{{Name: "valance", Outline: scalloped(t, 12), Count: 2}, {Name: "gusset", Outline: gusset, Count: 8, Turn: HalfTurn}}
		p, err := onRoll(roll, ps, light)
		require.NoError(t, err, name)
		nested, ok := p.Found(OutlinesNested)
		require.True(t, ok, name)
		boxes, ok := p.Found(BoxesSearched)
		require.True(t, ok, name)
		assert.Less(t, nested.Length, boxes.Length, name)
		for _, q := range p.Places {
			if q.Piece == 0 {
				assert.Greater(t, len(q.Outline), 50, "it lies as it is cut, not as it was filled out")
			}
		}
	}
}

// What is filled out holds what it was.
func TestFilledHoldsTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		star := star(t)
		r := gridRing(star)
		if len(r) < 3 {
			return
		}
		most := rapid.IntRange(0, 6).Draw(t, "most")
		f := filled(r, most)
		assert.LessOrEqual(t, dents(f), most)
		_, crossing, err := f.FindSelfIntersection()
		require.NoError(t, err)
		assert.False(t, crossing)
		for _, p := range r {
			assert.NotEqual(t, geom.Outside, f.Locate(p))
		}
	})
}

// anyJob draws a small job of rectangles and other outlines on a roll.
func anyJob(t *rapid.T) Job {
	pick := func(name string, from, to int) unit.Length {
		return unit.Length(rapid.IntRange(from, to).Draw(t, name))
	}
	roll := material.Roll{Width: pick("width", 40, 60) * in, Nap: rapid.Bool().Draw(t, "nap"), Repeat: unit.Length(rapid.SampledFrom([]int{0, 0, 7, 13, 25}).Draw(t, "repeat")) * in}
	if roll.Repeat > 0 && rapid.Bool().Draw(t, "columns") {
		roll.Across = pick("across", 4, 12) * in
		if den := rapid.IntRange(1, 3).Draw(t, "parts"); den > 1 {
			roll.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
		}
	}
	roll.First = shape.Point{X: pick("ox", 0, 9) * in, Y: pick("oy", 0, 9) * in}
	if rapid.IntRange(0, 3).Draw(t, "start") == 0 {
		roll.First.Y, roll.UnknownStart = 0, true
	}
	if rapid.IntRange(0, 3).Draw(t, "flaw") == 0 {
		roll.Flaws = []material.Flaw{{X: 5 * in, Y: pick("flaw", 0, 60) * in, Width: 2 * in, Length: in}}
	}
	j := Job{Roll: &roll, Gap: pick("gap", 0, 1) * in / 8}
	if rapid.IntRange(0, 2).Draw(t, "shades") == 0 {
		j.Shades = []Shade{{Window: pick("window", 60, 90) * in}}
	}
	for range rapid.IntRange(1, 4).Draw(t, "kinds") {
		w, h := pick("w", 3, 24)*in, pick("h", 3, 30)*in
		p := Piece{Count: rapid.IntRange(1, 4).Draw(t, "count"), Turn: Turn(rapid.IntRange(0, 2).Draw(t, "turn")), Hand: rapid.SampledFrom([]Hand{AsDrawn, AsDrawn, Paired}).Draw(t, "hand")}
		var err error
		switch rapid.IntRange(0, 4).Draw(t, "form") {
		case 0:
			p.Outline, err = shape.Ellipse(w, h)
		case 1:
			p.Outline = polygon(t, shape.Point{}, shape.Point{X: w}, shape.Point{X: w, Y: h / 3}, shape.Point{X: w / 4, Y: h})
		case 2:
			p.Outline = polygon(t, shape.Point{}, shape.Point{X: w}, shape.Point{X: w, Y: h}, shape.Point{X: w * 2 / 3, Y: h}, shape.Point{X: w * 2 / 3, Y: h / 3}, shape.Point{Y: h / 3})
		default:
			p.Outline = rectOutline(t, w, h)
			if rapid.IntRange(0, 3).Draw(t, "join") == 0 {
				p.Outline = rectOutline(t, 3*w, h/2)
				p.Hand, p.Join = AsDrawn, &Piecing{AlongWidth: true, Allowance: in / 2, Least: in, Most: 3}
			}
		}
		require.NoError(t, err)
		switch {
		case p.Join != nil && rapid.Bool().Draw(t, "unmatched"):
			p.Phase.Axes = Unbound
		case rapid.IntRange(0, 3).Draw(t, "free") == 0:
			p.Phase.Axes = Unbound
		default:
			p.Phase = OnMotif(shape.Point{X: pick("mx", 0, 3) * in, Y: pick("my", 0, 3) * in})
			p.Phase.Axes = Axes(rapid.IntRange(0, 2).Draw(t, "axes"))
			p.Phase.Common = max(0, rapid.IntRange(-4, 2).Draw(t, "common"))
			if rapid.IntRange(0, 2).Draw(t, "spots") == 0 {
				p.Phase.Spots = append(p.Phase.Spots, Spot{Point: shape.Point{X: pick("mx", -9, 9) * in, Y: pick("my", -9, 9) * in}})
			}
			if p.Join == nil && len(j.Shades) > 0 && rapid.Bool().Draw(t, "shade") {
				p.Shade = 1
			}
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// On any job Solve is no worse than either engine alone at the same effort; no
// plan is below a bound; every claim is that of the method that made it; and the
// same job gives the same bytes.
func TestSolveLaws(t *testing.T) {
	jobs := rapid.Custom(anyJob)
	for seed := range 8 {
		solveLaws(t, jobs.Example(seed), seed%4 == 0)
	}
}

func solveLaws(t require.TestingT, j Job, twice bool) {
	o := Options{Effort: 0.005, Seed: 3}
	p, err := Solve(context.Background(), j, o)
	if err != nil {
		var in *unit.InputError
		joins := errors.As(err, &in) && strings.Contains(string(in.Field), "join")
		require.True(t, joins || errors.Is(err, ErrNoLayout), "%v", err)
		return
	}
	require.NoError(t, p.Verify())
	if twice {
		text, err := json.Marshal(p)
		require.NoError(t, err)
		again, err := Solve(context.Background(), j, o)
		require.NoError(t, err)
		same, err := json.Marshal(again)
		require.NoError(t, err)
		require.Equal(t, string(text), string(same))
		var back Plan
		require.NoError(t, json.Unmarshal(text, &back))
		require.NoError(t, back.Verify())
		return
	}

	checked, err := o.checked()
	require.NoError(t, err)
	apart, err := j.parted()
	require.NoError(t, err)
	j = apart.job
	boxes, err := newBoxTable(j, checked.Tolerance)
	require.NoError(t, err)
	proof := unit.Length(-1)
	boxed, motifs := Plan{Job: j}, boxes.resting()
	if l, err := boxes.lay(context.Background(), checked); err == nil {
		c, ok := p.Found(l.method)
		require.True(t, ok)
		assert.Equal(t, l.need, c.Length)
		assert.LessOrEqual(t, p.Need, l.need)
		proof = l.bound
		boxed.Places, _ = boxes.places(l)
		if motifs = l.motifs; l.moved {
			boxed.Motifs = motifs
		}
	}
	bounds, err := rollBounds(context.Background(), apart.loose)
	require.NoError(t, err)
	for _, b := range bounds {
		for k, piece := range b.Pieces {
			if len(apart.of) > 0 {
				b.Pieces[k] = apart.of[piece].piece
			}
		}
	}
	if !boxes.shaped && apart.exact && proof >= 0 {
		bounds = append(bounds, Claim{Kind: cite.Bound, Method: ByBoxes, Length: proof})
	}
	for _, c := range p.Claims {
		switch {
		case c.Kind == cite.Bound:
			assert.Contains(t, bounds, c, "a bound of the true outlines")
			assert.LessOrEqual(t, c.Length, p.Need)
		case c.Method == OutlinesNested && len(j.Shades) == 0:
			cuts := map[int][]unit.Length{}
			for i, q := range j.Pieces {
				if q.Join != nil {
					cuts[i], _ = evenCuts(q, *j.Roll)
				}
			}
			start := boxed
			switch {
			case j.stacks():
				start.Need = boxesNeed(p)
				start = start.stacked(context.Background(), checked, boxes)
				if start.Motifs != nil {
					motifs = start.Motifs
				}
			case !slices.ContainsFunc(j.Pieces, func(q Piece) bool { return q.matched(*j.Roll) }):
				start.Places = nil
			}
			table, err := newRollTable(j, cuts, checked.Tolerance, motifs, start.spots())
			require.NoError(t, err)
			lay, err := table.lay(context.Background(), table.singles(), checked, boxesNeed(p), start.Places)
			require.NoError(t, err)
			assert.Equal(t, unit.Length(lay.Length*table.step), c.Length)
		}
	}
}

// A piece that lies on the pattern along the goods alone may take any column of a drop:
// its point is told to the grid of plans, which a third of the repeat is not on.
func TestAlongAloneOnAThirdOfTheRepeat(t *testing.T) {
	roll := material.Roll{Width: 40 * in, Repeat: 13 * in, Across: 4 * in, Drop: material.Drop{Num: 1, Den: 3}, First: shape.Point{Y: 2 * in}}
	oval, err := shape.Ellipse(4*in, 4*in)
	require.NoError(t, err)
	along := func(points ...shape.Point) Phase {
		phase := Phase{Axes: AlongOnly}
		for _, q := range points {
			phase.Spots = append(phase.Spots, Spot{Point: q})
		}
		return phase
	}
	free := Phase{Axes: Unbound}
	p, err := Solve(context.Background(), Job{Roll: &roll, Shades: []Shade{{Window: 60 * in}}, Pieces: []Piece{
		{Outline: oval, Count: 2, Phase: along(inches(2, 3), inches(7, 7))},
		{Outline: rectOutline(t, 6*in, 11*in), Count: 1, Turn: Turn(2), Hand: Paired, Shade: 1, Phase: along(inches(0, 3))},
		{Outline: polygon(t, shape.Point{}, inches(7, 0), shape.Point{X: 7 * in, Y: 20 * in / 3}, shape.Point{X: 7 * in / 4, Y: 20 * in}), Count: 4, Turn: Turn(2), Hand: Paired, Phase: free},
		{Outline: polygon(t, shape.Point{}, inches(8, 0), inches(8, 12), shape.Point{X: 16 * in / 3, Y: 12 * in}, shape.Point{X: 16 * in / 3, Y: 4 * in}, inches(0, 4)), Count: 3, Phase: free},
	}}, Options{Effort: 0.005, Seed: 3})
	require.NoError(t, err)
	assert.NoError(t, p.Verify())
}

// boxesNeed is the length of the boxes of a plan, zero where they were not laid.
func boxesNeed(p Plan) unit.Length {
	for _, m := range []Method{BoxesSearched, BoxesInRows} {
		if c, ok := p.Found(m); ok {
			return c.Length
		}
	}
	return 0
}

// Stripes bind across alone: a piece lies on a stripe at any height.
func TestOneAxis(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 30 * in, Across: 6 * in}
	o, err := shape.Ellipse(20*in, 16*in)
	require.NoError(t, err)
	for _, c := range []struct {
		axes Axes
		need unit.Length
	}{{AcrossOnly, 16 * in}, {AlongOnly, 16 * in}, {BothAxes, 16 * in}} {
		for _, out := range []shape.Outline{o, rectOutline(t, 20*in, 16*in)} {
			p, err := onRoll(roll, []Piece{{Outline: out, Count: 3, Phase: Phase{Axes: c.axes, Spots: []Spot{{Point: inches(3, 0)}}}}}, light)
			require.NoError(t, err)
			for _, q := range p.Places {
				if c.axes != AlongOnly {
					assert.Zero(t, (q.X+3*in)%(6*in), c.axes)
				}
				if c.axes != AcrossOnly {
					assert.Zero(t, q.Y%(30*in), c.axes)
				}
			}
			assert.True(t, p.Need >= c.need)
		}
	}
}

// The bounds of the outlines against those of area and longest piece alone, which
// is all that was known of them before.
func TestBoundsSayMore(t *testing.T) {
	back, err := shape.Crowned(30*in, 24*in, 3*in)
	require.NoError(t, err)
	centred := func(o shape.Outline, n int) Piece {
		_, high := o.Bounds()
		return Piece{Outline: o, Count: n, Phase: OnMotif(shape.Point{X: high.X / 2, Y: 12 * in})}
	}
	for _, c := range []struct {
		name         string
		roll         material.Roll
		pieces       []Piece
		before, most unit.Ratio
	}{
		{"crowned backs, plain", material.Roll{Width: 54 * in}, []Piece{centred(back, 6)}, 0.7, 0.08},
		{"crowned backs, 25 in repeat", material.Roll{Width: 54 * in, Repeat: 25 * in}, []Piece{centred(back, 6)}, 1, 0.01},
		{"scallops, plain", material.Roll{Width: 54 * in}, []Piece{centred(valance(t, 5), 8)}, 0.4, 0.35},
		{"scallops, 13 in repeat", material.Roll{Width: 54 * in, Repeat: 13 * in}, []Piece{centred(valance(t, 5), 8)}, 1, 0.01},
		// Hollows: a chord through them says little, and no more is proved.
		{"hollows, 13 in repeat", material.Roll{Width: 54 * in, Repeat: 13 * in}, []Piece{centred(scalloped(t, 5), 8)}, 1, 1},
	} {
		p, err := onRoll(c.roll, c.pieces, light)
		require.NoError(t, err)
		area, longest, err := plainBounds(p.Job)
		require.NoError(t, err)
		before, err := (p.Need - max(area.Length, longest.Length)).Per(max(area.Length, longest.Length))
		require.NoError(t, err)
		t.Logf("%s: need %v by %v, gap %v before, %v now by %v, proved %v", c.name, p.Need, p.Method, before, p.Gap(), p.Bound().Method, p.Proved)
		assert.Greater(t, before, c.before, c.name)
		assert.LessOrEqual(t, p.Gap(), c.most, c.name)
	}
}

// Hides at hand are used and not bought; of those on offer as few as do beside
// them.
func TestHidesAtHandComeFirst(t *testing.T) {
	square := func(s unit.Length) material.Skin { return material.Skin{Outline: boxAt(t, 0, 0, s, s)} }
	small, large := square(21), square(43)
	ps := func(n int) []Piece { return []Piece{{Outline: boxAt(t, 0, 0, 10, 10), Count: n}} }
	for _, c := range []struct {
		name    string
		hides   Hides
		n       int
		bought  int
		atHand  int
		missing int
	}{
		{"enough at hand", Hides{AtHand: []material.Skin{small, small}, OnOffer: []material.Skin{large}}, 8, 0, 2, 0},
		{"one at hand is enough", Hides{AtHand: []material.Skin{small, small}, OnOffer: []material.Skin{large}}, 4, 0, 1, 0},
		{"one to buy", Hides{AtHand: []material.Skin{small}, OnOffer: []material.Skin{small, small}}, 8, 1, 1, 0},
		{"one large to buy, none beside", Hides{AtHand: []material.Skin{small}, OnOffer: []material.Skin{large}}, 16, 1, 0, 0},
		{"one large beside those at hand", Hides{AtHand: []material.Skin{small}, OnOffer: []material.Skin{small, small, small, large}}, 20, 1, 1, 0},
		{"usual ones are added", Hides{AtHand: []material.Skin{small}, Usual: material.Skin{Kind: material.WholeHide, Area: 7 * unit.SquareFoot}}, 8, 1, 1, 0},
		{"usual ones alone", Hides{Usual: material.Skin{Kind: material.WholeHide, Area: 7 * unit.SquareFoot}}, 3, 1, 0, 0},
		{"too few", Hides{AtHand: []material.Skin{small}, OnOffer: []material.Skin{small}}, 9, 1, 1, 1},
	} {
		p := solved(t, Job{Hides: &c.hides, Pieces: ps(c.n)}, light)
		assert.Len(t, p.Bought, c.bought, c.name)
		assert.Len(t, p.Unplaced, c.missing, c.name)
		if c.name != "usual ones alone" {
			assert.Equal(t, c.atHand, len(p.Used)-len(p.Bought), c.name)
		}
		var bought unit.Area
		for _, i := range p.Bought {
			bought += p.Hides[i].SoldArea()
		}
		assert.Equal(t, bought, p.Areas.Bought, c.name)
	}
}
