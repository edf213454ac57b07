package allowance_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// anatomies are covers of our own sizes, one for each kind of furniture, with the
// number of their edges, seams, fastenings, trims and meets.
var anatomies = []struct {
	name                                       string
	cover                                      func() allowance.Cover
	edges, seams, fastenings, trims, meets     int // edges of single pieces, undivided
	sewnSeams, fastened, welts, zips, fitSteps int
}{
	{"wing chair", wingChair, 82, 9, 29, 2, 4, 11, 43, 7, 1, 45},
	{"sofa", sofa, 96, 11, 28, 0, 1, 13, 37, 5, 3, 32},
	{"drop-in seat", dropIn, 8, 0, 5, 0, 0, 0, 5, 0, 0, 5},
	{"barrel chair", barrelChair, 28, 6, 12, 0, 0, 6, 14, 3, 0, 14},
	{"channel-back booth", channelBooth, 40, 5, 26, 0, 1, 5, 30, 0, 0, 30},
	{"ottoman", ottoman, 24, 5, 3, 0, 0, 5, 5, 1, 0, 5},
	{"boxed cushion", boxedCushion, 20, 6, 0, 0, 0, 6, 0, 2, 1, 0},
	{"knife edge", knifeEdge, 8, 4, 0, 0, 0, 4, 0, 0, 1, 0},
	{"bolster", bolster, 6, 3, 0, 0, 0, 3, 0, 2, 1, 0},
	{"marine cushions", marine, 48, 6, 0, 0, 0, 12, 0, 0, 2, 0},
	{"motor seat", motorSeat, 32, 8, 8, 0, 0, 9, 12, 0, 0, 12},
	{"slip cover", slipCover, 28, 12, 6, 0, 0, 12, 6, 7, 1, 0},
}

// faultOf says how a cover differs from the anatomy i.
func faultOf(i int, c allowance.Cover) error {
	a := anatomies[i]
	w, err := c.Work(sewnGoods())
	if err != nil {
		return err
	}
	edges := 0
	for _, p := range c.Panels {
		n := len(p.Outline.Edges()) * p.Copies()
		if p.Pair {
			n *= 2
		}
		edges += n
	}
	want := []int{a.edges, a.seams, a.fastenings, a.trims, a.meets, a.sewnSeams, a.fastened, a.welts, a.zips, a.fitSteps}
	got := []int{edges, len(c.Seams), len(c.Fastenings), len(c.Trims), len(c.Meets), len(w.Seams), len(w.Fastenings), len(w.Welts), len(w.Zips), len(w.Fitting)}
	if !slices.Equal(want, got) {
		return fmt.Errorf("got %v, want %v", got, want)
	}
	for _, p := range w.Pieces {
		if _, err := p.Panel.Cut(); err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
	}
	return nil
}

func TestAnatomies(t *testing.T) {
	for i, a := range anatomies {
		t.Run(a.name, func(t *testing.T) {
			require.NoError(t, faultOf(i, a.cover()))
			for k := range a.cover().Seams {
				c := a.cover()
				c.Seams = slices.Delete(c.Seams, k, k+1)
				assert.Error(t, faultOf(i, c), "without seam %d", k)
			}
			for k := range a.cover().Fastenings {
				c := a.cover()
				c.Fastenings = slices.Delete(c.Fastenings, k, k+1)
				assert.Error(t, faultOf(i, c), "without fastening %d", k)
			}
			for k := range a.cover().Trims {
				c := a.cover()
				c.Trims = slices.Delete(c.Trims, k, k+1)
				assert.Error(t, faultOf(i, c), "without trim %d", k)
			}
			for k := range a.cover().Meets {
				c := a.cover()
				c.Meets = slices.Delete(c.Meets, k, k+1)
				assert.Error(t, faultOf(i, c), "without meet %d", k)
			}
		})
	}
}

// X1: a boxed cushion of 22 x 22 x 4 in with its zip round the back.
func TestBoxedCushionRows(t *testing.T) {
	w, err := boxedCushion().Work(sewnGoods())
	require.NoError(t, err)
	sums := map[allowance.RowKind]unit.Length{}
	for _, r := range w.Rows {
		sums[r.Kind] += r.Length
	}
	assert.Equal(t, map[allowance.RowKind]unit.Length{
		allowance.ZipRow: 72 * unit.Inch, allowance.SeamRow: (10 + 176) * unit.Inch,
		allowance.MakingRow: 180 * unit.Inch, allowance.PuttingRow: 176 * unit.Inch}, sums)
	assert.Equal(t, 614*unit.Inch, w.Stitched())
	assert.Equal(t, []allowance.ZipRun{{Of: "zip", On: "zip upper", Opening: 35 * unit.Inch, Tape: 36 * unit.Inch}}, w.Zips)
	assert.Equal(t, allowance.WeltRun{Of: "E", Goods: "cloth", Cord: 5 * unit.Inch / 32, Run: 88 * unit.Inch, Strip: 90 * unit.Inch, CordLength: 88 * unit.Inch, Ring: true}, w.Welts[0])
	cut, err := w.Pieces[0].Panel.Cut()
	require.NoError(t, err)
	assert.Equal(t, 23*unit.Inch, cut.Width)
	assert.Equal(t, 23*unit.Inch, cut.Height)
}

// X4: a seat of two panels, double top-stitched, in vehicle vinyl.
func vehicleSeat() allowance.Cover {
	var b builder
	b.panel("seat", 22, 18).Goods = "vinyl"
	b.panel("front", 22, 6).Goods = "vinyl"
	b.sew(allowance.DoubleTopStitchedJoin, "seat.bottom", "front.top").Backing = "backing"
	for _, e := range []string{"seat.top", "seat.left", "seat.right", "front.bottom", "front.left", "front.right"} {
		b.fasten(allowance.PulledOver, e)
	}
	return b.c
}

func TestDoubleTopStitchedSeat(t *testing.T) {
	w, err := vehicleSeat().Work(sewnGoods())
	require.NoError(t, err)
	for i, height := range []float64{21.5, 9.5} {
		cut, err := w.Pieces[i].Panel.Cut()
		require.NoError(t, err)
		assert.Equal(t, tapeInches(28), cut.Width)
		assert.Equal(t, tapeInches(height), cut.Height)
	}
	require.Len(t, w.Rows, 3)
	for i, r := range w.Rows {
		assert.Equal(t, tapeInches(28), r.Length)
		assert.Equal(t, "vinyl", r.Heaviest)
		assert.Equal(t, []allowance.RowKind{allowance.SeamRow, allowance.TopRow, allowance.TopRow}[i], r.Kind)
		assert.Equal(t, []int{2, 3, 3}[i], r.Layers)
		assert.Equal(t, []unit.Length{unit.Inch * 90 / 1000, unit.Inch * 105 / 1000, unit.Inch * 105 / 1000}[i], r.Thickness)
	}
	assert.Equal(t, tapeInches(84), w.Stitched())
	assert.Equal(t, []allowance.Backing{{Of: "A", Goods: "backing", Length: tapeInches(28), Width: tapeInches(1.25)}}, w.Backings)
	var at []unit.Length
	for _, n := range w.Seams[0].Notches {
		at = append(at, n.At[0]-11*unit.Inch)
	}
	assert.Equal(t, []unit.Length{tapeInches(-11), tapeInches(-5.5), 0, tapeInches(5.5), tapeInches(11)}, at)
	assert.Equal(t, []allowance.SewStep{{Do: allowance.SewSeam, Seam: "A"}, {Do: allowance.TopStitch, Seam: "A"}}, w.Sewing)

	c := vehicleSeat()
	c.Seams[0].Row = 7 * unit.Inch / 16
	paths(t, c, "seams[0].row")
	c.Seams[0].Row = 3 * unit.Inch / 8
	assert.NoError(t, c.Check(sewnGoods()))
}

// X6: one seam of leather, welt and lining has one row, and its thread follows
// the leather.
func TestMixedSeam(t *testing.T) {
	var b builder
	b.panel("face", 30, 20).Goods = "leather"
	b.panel("back", 30, 20).Goods = "lining"
	b.welted("face.top", "back.bottom")
	b.c.Seams[0].Welt = "leather"
	for _, e := range []string{"face.left", "face.right", "face.bottom", "back.left", "back.right", "back.top"} {
		f := b.fasten(allowance.StapledFlat, e)
		f.Hold = allowance.Exactly(0)
	}
	w, err := b.c.Work(sewnGoods())
	require.NoError(t, err)
	var closing []allowance.CoverRow
	for _, r := range w.Rows {
		if r.Kind == allowance.SeamRow {
			closing = append(closing, r)
		}
	}
	assert.Equal(t, []allowance.CoverRow{{Of: "A", Length: 30 * unit.Inch, Layers: 4, Heaviest: "leather", Thickness: 3 * unit.Inch / 20,
		Members: []allowance.Member{{Goods: "leather", Layers: 1}, {Goods: "leather", Layers: 2}, {Goods: "lining", Layers: 1}}}}, closing)
}

// X7: an insert with a round side of radius 6 in and 12 in long, sewn to a bolster
// that is hollow there.
func TestClips(t *testing.T) {
	chord, rise := tapeInches(12*math.Sin(1)), tapeInches(6*(1-math.Cos(1)))
	side := func(hollow bool) shape.Outline {
		tr := shape.TraceFrom(shape.Point{}).Edge("low").Line(shape.Point{X: 10 * unit.Inch}).Edge("curve")
		if hollow {
			tr = tr.Arc(shape.Point{X: 10 * unit.Inch, Y: chord}, -rise)
		} else {
			tr = tr.Arc(shape.Point{X: 10 * unit.Inch, Y: chord}, rise)
		}
		return sure(tr.Edge("high").Line(shape.Point{Y: chord}).Edge("far").Close())
	}
	var b builder
	b.outline("insert", side(false))
	b.outline("bolster", side(true))
	b.plain("insert.curve", "bolster.curve")
	for _, e := range []string{"insert.low", "insert.high", "insert.far", "bolster.low", "bolster.high", "bolster.far"} {
		b.fasten(allowance.StapledFlat, e)
	}
	w, err := b.c.Work(sewnGoods())
	require.NoError(t, err)
	for i, want := range []allowance.EdgeClips{
		{Edge: "curve", Seam: tapeInches(12), Cut: tapeInches(13), Spacing: tapeInches(1.5), Count: 7},
		{Edge: "curve", Seam: tapeInches(12), Cut: tapeInches(11), Spacing: tapeInches(1.5), Count: 7, Inward: true},
	} {
		require.Len(t, w.Pieces[i].Clips, 1)
		got := w.Pieces[i].Clips[0]
		assert.Equal(t, want.Count, got.Count)
		assert.Equal(t, want.Inward, got.Inward)
		assert.InDelta(t, float64(want.Seam), float64(got.Seam), 2)
		assert.InDelta(t, float64(want.Cut), float64(got.Cut), 2)
		assert.InDelta(t, float64(want.Spacing), float64(got.Spacing), 2)
	}
}

// paths checks at which paths a cover is at fault.
func paths(t *testing.T, c allowance.Cover, want ...string) {
	t.Helper()
	assert.Equal(t, want, faultPaths(c.Check(sewnGoods())))
}

func faultPaths(err error) []string {
	var out []string
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range many.Unwrap() {
			var in *unit.InputError
			if !errors.As(e, &in) {
				out = append(out, "no path: "+e.Error())
				continue
			}
			out = append(out, string(in.Field))
		}
	}
	return out
}

// A row runs through the margin across its end where the border turns by 30
// degrees or more; where it turns by less the edge runs on.
func TestRowRunsThroughMargins(t *testing.T) {
	for turn, through := range map[float64]unit.Length{29: 0, 31: 1, 60: 1, 90: 1} {
		sin, cos := math.Sincos(turn * math.Pi / 180)
		var b builder
		b.outline("flap", sure(sure(shape.Polygon(corner(0, 0), corner(20, 0), corner(20+10*cos, 10*sin), corner(0, 10*sin))).Renamed("bottom", "right", "top", "left")))
		for _, e := range []string{"flap.top", "flap.left", "flap.right"} {
			b.fasten(allowance.PulledOver, e)
		}
		b.fasten(allowance.HookAndLoop, "flap.bottom")
		w, err := b.c.Work(sewnGoods())
		require.NoError(t, err)
		require.Len(t, w.Rows, 2) // along both edges of the tape
		edge, err := allowance.Fastening{Kind: allowance.PulledOver}.Edge()
		require.NoError(t, err)
		margin, err := edge.Resolve()
		require.NoError(t, err)
		assert.Equal(t, 20*unit.Inch+(1+through)*margin.Total(), w.Rows[0].Length, turn)
	}
}
