package allowance_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// sewn writes an order of sewing in a line, without its reasons.
func sewn(w allowance.CoverWork) string {
	var out []string
	for _, s := range w.Sewing {
		out = append(out, s.Do.String()+" "+s.Seam)
	}
	return strings.Join(out, ", ")
}

func fitted(w allowance.CoverWork) []string {
	var out []string
	for _, s := range w.Fitting {
		out = append(out, strings.Join(s.What, "+"))
	}
	return out
}

func TestWingChairOrders(t *testing.T) {
	w := worked(t, wingChair())
	assert.Equal(t, "make welt welt round wings and arms, make welt welt round the back, set zip A, set zip B, "+
		"make welt C, make welt D-L, make welt D-R, make welt H, make welt J, welt on C, welt on D-L, welt on D-R, welt on H, welt on J, "+
		"sew C, sew D-L, sew D-R, sew E-L, sew E-R, sew F, sew G, sew H, sew J", sewn(w))
	first := func(panel string) int {
		return slices.IndexFunc(fitted(w), func(s string) bool { return strings.HasPrefix(s, panel) })
	}
	last := func(panel string) int {
		at := fitted(w)
		for i := len(at) - 1; i >= 0; i-- {
			if strings.Contains(at[i], panel) {
				return i
			}
		}
		return -1
	}
	// outside wings before outside arms before outside back, insides and welt before them
	for _, r := range [][2]string{
		{"deck.right", "outside arm left"}, {"inside arm left", "outside arm left"}, {"inside wing right.front", "outside wing right"},
		{"outside wing left.bottom", "outside arm left"}, {"outside arm right.back", "outside back"}, {"inside back", "outside back"},
		{"front border.left", "arm front right"}, {"welt round the back", "outside back"}, {"welt round wings and arms", "outside wing left"},
	} {
		require.NotEqual(t, -1, last(r[0]), r[0])
		assert.Less(t, last(r[0]), first(r[1]), "%s before %s", r[0], r[1])
	}
	assert.Equal(t, "deck.right", fitted(w)[0])
	assert.Equal(t, []string{"outside back.top", "outside back.bottom", "outside back.left", "outside back.right"}, fitted(w)[40:44], "the blind edge first")
	back := slices.DeleteFunc(fitted(w), func(s string) bool { return !strings.HasPrefix(s, "inside back.") })
	assert.Equal(t, []string{"inside back.top", "inside back.bottom", "inside back.left", "inside back.right"}, back, "what is pulled, then the edge across from it, then the sides")
}

// Rows of a top-stitched seam come before the seam across their ends, whatever
// stands first in the list.
func TestRowsBeforeWhatCrossesThem(t *testing.T) {
	var b builder
	b.panel("left", 10, 10)
	b.panel("right", 10, 10)
	b.panel("foot", 20, 5)
	b.plain("left.bottom + right.bottom", "foot.top")
	b.sew(allowance.DoubleTopStitchedJoin, "left.right", "right.left")
	for _, e := range []string{"left.left", "left.top", "right.top", "right.right", "foot.left", "foot.bottom", "foot.right"} {
		b.fasten(allowance.StapledFlat, e)
	}
	w := worked(t, b.c)
	assert.Equal(t, "sew A, top-stitch A, sew B", sewn(w))
	assert.Equal(t, [2]string{"A", "its rows run off the edge"}, [2]string{w.Sewing[2].After, w.Sewing[2].Why})
	assert.Equal(t, []int{1, 0}, []int{w.Seams[1].Seam, w.Seams[0].Seam}, "seams keep their place in the list")
	assert.Equal(t, []string{"B", "A"}, []string{w.Seams[0].Letter, w.Seams[1].Letter})
}

// Of several seams that a run waits for the one that is sewn last is told, in
// whichever order they stand along the run.
func TestAfterTheLastOfSeveral(t *testing.T) {
	for _, seams := range [][2]string{{"a.right b.left", "b.right c.left"}, {"b.right c.left", "a.right b.left"}} {
		var b builder
		for _, name := range []string{"a", "b", "c"} {
			b.panel(name, 10, 10)
		}
		b.panel("foot", 30, 5)
		for _, s := range seams {
			b.plain(strings.Fields(s)...)
		}
		b.plain("a.bottom + b.bottom + c.bottom", "foot.top")
		w := worked(t, b.raw())
		assert.Equal(t, "sew A, sew B, sew C", sewn(w))
		assert.Equal(t, [2]string{"B", "it ends inside the run"}, [2]string{w.Sewing[2].After, w.Sewing[2].Why}, seams)
	}
}

// Edges of one panel that are held by finishes of their own are one step for each
// way of holding.
func TestOwnFinishesOfSeveralKinds(t *testing.T) {
	var b builder
	for _, name := range []string{"a", "b"} {
		p := b.panel(name, 20, 10)
		p.Edges = map[string]allowance.Edge{"top": {Finish: allowance.PullOver}, "bottom": {Finish: allowance.PullOver}, "left": {Finish: allowance.Raw, Allowance: allowance.Exactly(unit.Inch)},
			"right": {Finish: allowance.Raw, Allowance: allowance.Exactly(unit.Inch)}}
	}
	b.panel("c", 20, 10)
	b.fasten(allowance.Hemmed, "c.bottom + c.right + c.top + c.left")
	assert.Equal(t, []string{"a.bottom+a.top", "a.right+a.left", "b.bottom+b.top", "b.right+b.left"}, fitted(worked(t, b.c)))
}

// Of two top-stitched seams that end at one corner of a panel the first comes first;
// one that ends at the other, within the run of it, comes before it with its rows.
func TestRowsThatMeetAtACorner(t *testing.T) {
	for _, edges := range [][2]string{{"right", "top"}, {"top", "right"}, {"bottom", "left"}, {"left", "bottom"}} {
		var b builder
		b.panel("seat", 20, 20)
		facing := map[string]string{"right": "left", "left": "right", "top": "bottom", "bottom": "top"}
		for i, e := range edges {
			name := []string{"first", "second"}[i]
			b.panel(name, 20, 20)
			b.sew(allowance.DoubleTopStitchedJoin, "seat."+e, name+"."+facing[e])
		}
		assert.Equal(t, "sew A, top-stitch A, sew B, top-stitch B", sewn(worked(t, b.raw())), edges)
		assert.Equal(t, []int{0, 1}, []int{worked(t, b.c).Seams[0].Seam, worked(t, b.c).Seams[1].Seam})
		assert.Equal(t, "A", worked(t, b.c).Seams[0].Letter)
	}
	for _, stitched := range []int{0, 1} { // a plain seam across the end waits, whatever stands first
		var b builder
		b.panel("seat", 20, 20)
		b.panel("first", 20, 20)
		b.panel("second", 20, 20)
		kinds := [2]allowance.SeamKind{}
		kinds[stitched] = allowance.DoubleTopStitchedJoin
		b.sew(kinds[0], "seat.right", "first.left")
		b.sew(kinds[1], "seat.top", "second.bottom")
		w := worked(t, b.raw())
		assert.Equal(t, "sew A, top-stitch A, sew B", sewn(w), stitched)
		assert.Equal(t, [2]string{"A", "its rows run off the edge"}, [2]string{w.Sewing[2].After, w.Sewing[2].Why}, stitched)
		assert.Equal(t, "A", w.Seams[stitched].Letter, stitched)
	}
	var b builder
	b.panel("left", 10, 10)
	b.panel("right", 10, 10)
	b.panel("foot", 20, 5)
	b.sew(allowance.DoubleTopStitchedJoin, "left.bottom + right.bottom", "foot.top")
	b.sew(allowance.DoubleTopStitchedJoin, "left.right", "right.left")
	w := worked(t, b.raw())
	assert.Equal(t, "sew A, top-stitch A, sew B, top-stitch B", sewn(w))
	assert.Equal(t, []string{"B", "A"}, []string{w.Seams[0].Letter, w.Seams[1].Letter})
}

// The thread stays in the machine as long as it can: a welt is made and closed before
// rows that are seen, which take a heavier one.
func TestThreadStaysInTheMachine(t *testing.T) {
	var b builder
	b.panel("insert", 14, 20)
	b.panel("bolster", 5, 20)
	b.panel("facing", 4, 20)
	b.sew(allowance.DoubleTopStitchedJoin, "insert.right", "bolster.left")
	b.welted("bolster.right", "facing.left")
	for _, side := range []string{"insert.top + insert.left + insert.bottom", "bolster.top", "bolster.bottom", "facing.bottom + facing.right + facing.top"} {
		b.fasten(allowance.PulledOver, side)
	}
	assert.Equal(t, "sew A, make welt B, welt on B, sew B, top-stitch A", sewn(worked(t, b.c)))
}

// What is taken as usual of an allowance is told, what is given is not.
func TestGivenAllowancesAreNotTold(t *testing.T) {
	for note, f := range map[string]allowance.Fastening{
		"2 in over the rail and 1 in to staple or turn": {},
		"1 in to staple or turn":                        {Over: allowance.Exactly(3 * unit.Inch)},
		"2 in over the rail":                            {Hold: allowance.Exactly(3 * unit.Inch)},
		"":                                              {Over: allowance.Exactly(0), Hold: allowance.Exactly(unit.Inch)},
	} {
		c := two()
		f.Side = c.Fastenings[0].Side
		c.Fastenings[0] = f
		for _, u := range worked(t, c).Pieces[0].Uses {
			if u.Edge == "top" {
				assert.Equal(t, note, u.Basis.Note)
			}
		}
	}
}

// Lines of a panel are sewn before its edges, zips before the seams of their
// panels, gathers before their seam.
func TestFlatWorkFirst(t *testing.T) {
	var b builder
	b.panel("a", 10, 10)
	b.panel("b", 10, 10)
	lining := b.panel("lining", 20, 10)
	lining.Lines = []allowance.InnerLine{{Name: "middle", From: corner(10, 0), To: corner(10, 10)}}
	b.panel("frill", 40, 4)
	b.sew(allowance.GatheredJoin, "frill.top", "lining.bottom").Fullness = 2
	b.plain("a.right", "b.left", "lining.middle")
	for _, e := range []string{"a.left", "a.top", "a.bottom", "b.right", "b.top", "b.bottom", "lining.top", "lining.left", "lining.right", "frill.left", "frill.bottom", "frill.right"} {
		b.fasten(allowance.StapledFlat, e)
	}
	w := worked(t, b.c)
	assert.Equal(t, "gather B, sew A, sew B", sewn(w))
	assert.Equal(t, [2]string{"A", "a panel is whole before its edges are sewn"}, [2]string{w.Sewing[2].After, w.Sewing[2].Why})
	assert.Equal(t, []string{"a", "b", "lining"}, panels(slices.Concat(w.Seams[1].Sides...)))
	assert.Equal(t, 3, w.Rows[2].Layers, "both channels and the lining")
	assert.Equal(t, 40*unit.Inch, w.Rows[0].Length)
}

// A zip is set while the work is flat, wherever it stands in the list.
func TestZipsFirst(t *testing.T) {
	c := knifeEdge()
	slices.Reverse(c.Seams)
	assert.Equal(t, "set zip A, sew B, top-stitch B, sew C, sew D", sewn(worked(t, c)))
	// A zip over two panels waits for the seam between them.
	var b builder
	b.plain("a.right", "b.left")
	b.panel("a", 10, 10)
	b.panel("b", 10, 10)
	b.panel("c", 20, 10)
	b.sew(allowance.ZipJoin, "b.top + a.top", "c.bottom")
	for _, side := range []string{"a.left + a.bottom", "b.bottom + b.right", "c.right + c.top + c.left"} {
		b.fasten(allowance.StapledFlat, side)
	}
	assert.Equal(t, "sew A, set zip B", sewn(worked(t, b.c)))
}

// What is closed by hand is closed last: of a cushion when all else is sewn, of
// panels on the frame when they are fastened.
func TestClosedByHand(t *testing.T) {
	var b builder
	b.panel("face", 18, 18)
	b.panel("back", 18, 18)
	b.sew(allowance.HandJoin, "face.bottom", "back.bottom")
	b.plain("face.right + face.top + face.left", "back.right + back.top + back.left")
	w := worked(t, b.c)
	assert.Equal(t, "sew A, close by hand B", sewn(w))
	assert.Empty(t, w.Fitting)

	b = builder{}
	b.panel("inside", 20, 20)
	b.panel("outside", 20, 20)
	b.sew(allowance.HandJoin, "inside.right", "outside.left")
	for _, e := range []string{"outside.bottom", "outside.right"} {
		b.fasten(allowance.ToothedStrip, e)
	}
	b.fasten(allowance.BlindTacked, "outside.top")
	for _, e := range []string{"inside.left", "inside.top", "inside.bottom"} {
		b.fasten(allowance.PulledOver, e, "outside")
	}
	w = worked(t, b.c)
	assert.Empty(t, w.Sewing)
	assert.Equal(t, []string{"inside.left", "inside.top", "inside.bottom", "outside.top", "outside.bottom", "outside.right", "inside.right+outside.left"}, fitted(w))
	assert.Equal(t, "A", w.Rows[0].Of)
}

// What is closed by hand between panels that are hemmed, or beside others that are on
// a frame, is closed off it.
func TestClosedByHandOffTheFrame(t *testing.T) {
	var b builder
	b.panel("face", 18, 18)
	b.panel("back", 18, 18)
	b.panel("deck", 18, 18)
	b.sew(allowance.HandJoin, "face.bottom", "back.bottom")
	b.fasten(allowance.Hemmed, "face.left")
	b.fasten(allowance.StapledFlat, "deck.left")
	w := worked(t, b.raw())
	assert.Equal(t, "hem face.left, close by hand A", sewn(w))
	assert.Equal(t, []string{"deck.left"}, fitted(w))
}

// The seam that closes a cushion waits for all other rows in it, those that are
// seen too: nothing is sewn in a body that is closed but the rows of that seam.
func TestBodiesAreClosedLast(t *testing.T) {
	for name, c := range map[string]allowance.Cover{"boxed": boxedCushion(), "knife edge": knifeEdge(), "bolster": bolster(), "marine": marine(), "eared": earedCushion()} {
		for _, hand := range []string{"-L", "-R", ""} {
			var steps []allowance.SewStep
			closing := -1
			for _, s := range worked(t, c).Sewing {
				if base := strings.TrimRight(s.Seam, "LR"); strings.HasSuffix(base, "-") != (hand != "") || !strings.HasSuffix(s.Seam, hand) {
					continue
				}
				if s.Do == allowance.SewSeam {
					closing = len(steps)
				}
				steps = append(steps, s)
			}
			if closing < 0 {
				continue
			}
			for _, s := range steps[closing:] {
				assert.Equal(t, steps[closing].Seam, s.Seam, "%s: %s after the body is closed", name, s.Do)
			}
			assert.Equal(t, "the body is closed last, with its zip open", steps[closing].Why, name)
		}
	}
}

// Made-up parts hold edges by a finish of their own: these are fitted too, a lining
// before the channels on it, both before the panel that hides others, and what is turned
// in, in sight, at the end.
func TestOwnFinishesAreFitted(t *testing.T) {
	own := func(f allowance.Finish) allowance.Edge {
		return allowance.Edge{Finish: f, Allowance: allowance.Exactly(unit.Inch)}
	}
	var b builder
	b.panel("frill", 20, 5)
	b.c.Panels[0].Edges = map[string]allowance.Edge{"top": own(allowance.TurnedUnder), "bottom": own(allowance.SingleHem), "left": {Finish: allowance.Raw}, "right": {Finish: allowance.Raw}}
	b.panel("end", 20, 20)
	for _, e := range []string{"top", "left", "bottom", "right"} {
		b.fasten(allowance.FoldedIn, "end."+e)
	}
	b.panel("seat", 20, 20)
	b.fasten(allowance.StapledFlat, "seat.top + seat.left + seat.bottom + seat.right", "end")
	for _, name := range []string{"a", "b"} {
		b.panel(name, 10, 10)
		b.c.Panels[len(b.c.Panels)-1].Edges = map[string]allowance.Edge{"top": own(allowance.PullOver), "bottom": own(allowance.PullOver), map[string]string{"a": "left", "b": "right"}[name]: own(allowance.PullOver)}
	}
	lining := b.panel("lining", 20, 10)
	lining.AllEdges = own(allowance.Raw)
	lining.Lines = []allowance.InnerLine{{Name: "middle", From: corner(10, 0), To: corner(10, 10)}}
	b.plain("a.right", "b.left", "lining.middle")
	assert.Equal(t, []string{"seat.top+seat.left+seat.bottom+seat.right", "lining.bottom+lining.right+lining.top+lining.left",
		"a.bottom+a.top+a.left", "b.bottom+b.right+b.top", "end.top", "end.bottom", "end.left", "end.right", "frill.top"}, fitted(worked(t, b.c)))
}

// A hem passes two layers, a double one three.
func TestLayersOfHems(t *testing.T) {
	for finish, layers := range map[allowance.Finish]int{allowance.SingleHem: 2, allowance.DoubleHem: 3} {
		var b builder
		b.panel("a", 20, 10).AllEdges = allowance.Edge{Finish: finish}
		rows := worked(t, b.c).Rows
		require.Len(t, rows, 4)
		for _, r := range rows {
			assert.Equal(t, layers, r.Layers, finish)
		}
	}
}

// A trim that neither hides nor covers comes when all panels are on, before what is
// turned in, in sight, which comes at the end.
func TestTrimOfNoPanel(t *testing.T) {
	var b builder
	b.panel("a", 20, 10).AllEdges = allowance.Edge{Finish: allowance.TurnedUnder}
	b.panel("b", 20, 10)
	b.fasten(allowance.StapledFlat, "b.bottom + b.right + b.top + b.left")
	b.c.Trims = []allowance.Trim{{Name: "nails", Kind: allowance.Nails, Length: unit.Foot}}
	assert.Equal(t, []string{"b.bottom+b.right+b.top+b.left", "nails", "a.bottom+a.right+a.top+a.left"}, fitted(worked(t, b.c)))
}

// An edge is hemmed while its panel is flat, after what is sewn within the panel, or
// where the hem runs on over a seam when all seams are sewn.
func TestHemsAreInTheOrder(t *testing.T) {
	hemmed := func(edges ...string) builder {
		var b builder
		b.panel("front", 20, 10)
		b.panel("side", 20, 10)
		b.panel("band", 40, 4)
		b.panel("pocket", 8, 8)
		b.c.Panels[0].Lines = []allowance.InnerLine{{Name: "seat of pocket", From: corner(4, 5), To: corner(12, 5)}}
		b.plain("front.right", "side.left")
		b.plain("side.top + front.top", "band.bottom")
		b.plain("pocket.bottom", "front.seat of pocket")
		for _, e := range edges {
			b.fasten(allowance.Hemmed, e)
		}
		used := strings.Join(edges, " ") + " front.right side.left side.top front.top band.bottom pocket.bottom"
		for i, p := range b.c.Panels {
			b.c.Panels[i].Edges = map[string]allowance.Edge{}
			for _, e := range []string{"top", "left", "bottom", "right"} {
				if !strings.Contains(used, p.Name+"."+e) {
					b.c.Panels[i].Edges[e] = allowance.Edge{Finish: allowance.Raw}
				}
			}
		}
		return b
	}
	for edges, want := range map[string]string{
		"":                           "sew A, sew B, sew C",
		"front.left":                 "sew A, hem front.left, sew B, sew C",
		"front.left, front.bottom":   "sew A, hem front.left, hem front.bottom, sew B, sew C",
		"front.left + front.bottom":  "sew A, hem front.left + front.bottom, sew B, sew C",
		"band.right":                 "sew A, sew B, hem band.right, sew C",
		"front.bottom, side.bottom":  "sew A, sew B, sew C, hem front.bottom, hem side.bottom",
		"front.bottom + side.bottom": "sew A, sew B, sew C, hem front.bottom + side.bottom",
		"front.left, band.left":      "sew A, sew B, sew C, hem front.left, hem band.left",
	} {
		var list []string
		if edges != "" {
			list = strings.Split(edges, ", ")
		}
		assert.Equal(t, want, sewn(worked(t, hemmed(list...).c)))
	}

	var b builder
	b.panel("skirt", 20, 6)
	b.panel("seat", 20, 20)
	b.welted("skirt.top", "seat.bottom")
	for _, e := range []string{"seat.left", "seat.top", "seat.right"} {
		b.fasten(allowance.PulledOver, e)
	}
	for _, e := range []string{"left", "bottom", "right"} {
		b.fasten(allowance.Hemmed, "skirt."+e)
	}
	assert.Equal(t, "make welt A, hem skirt.left, hem skirt.bottom, hem skirt.right, welt on A, sew A", sewn(worked(t, b.c)))
}

// Letters leave out I and O and go on with two.
func TestSeamLetters(t *testing.T) {
	var got []string
	for _, s := range worked(t, bigCover()).Seams {
		got = append(got, s.Letter)
	}
	slices.SortFunc(got, func(a, b string) int {
		if len(a) != len(b) {
			return len(a) - len(b)
		}
		return strings.Compare(a, b)
	})
	assert.Equal(t, "A B C D E F G H J K L M N P Q R S T U V W X Y Z AA AB", strings.Join(got[:26], " "))
	assert.Len(t, slices.Compact(got), 90)
}
