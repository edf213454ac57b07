package made_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// sound holds a cover that is given to have no fault, and errors to be typed.
func sound(t *rapid.T, c allowance.Cover, err error) (allowance.CoverWork, bool) {
	if err != nil {
		var in *unit.InputError
		require.True(t, errors.As(err, &in), "%v", err)
		return allowance.CoverWork{}, false
	}
	w, err := c.Work(sewnGoods())
	require.NoError(t, err)
	return w, true
}

// Every ottoman that is accepted is a sound cover, its boxing as long as its top is
// round and fastened all round.
func TestEveryOttomanIsASoundCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := made.Ottoman{Height: sixteenths(t, "height", 2, 20), Top: anyGoods(t)}
		if flag(t, "shaped") {
			if o.Outline = anyOutline(t); o.Outline.Edges()[0] == "side 1" {
				o.Back = "side 3"
			}
		} else {
			o.Width, o.Depth = sixteenths(t, "width", 6, 90), sixteenths(t, "depth", 6, 60)
		}
		if flag(t, "welted") {
			o.Cord = unit.Inch / 8
		}
		if flag(t, "closed below") {
			o.Under = made.Goods{ID: "lining"}
		}
		p, err := o.Make()
		w, ok := sound(t, p.Cover, err)
		if !ok {
			return
		}
		require.Equal(t, p.Boxing.Main, w.Fastenings[0].Length, "below, all round")
		require.Equal(t, 5*unit.Inch/4+unit.Inch, w.Fastenings[0].Allowance)
		require.Equal(t, "dust cover", append(w.Fastenings[0].HiddenBy, "dust cover")[0])
	})
}

// A drop-in seat has its pull on every edge.
func TestEveryDropInSeatIsASoundCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := made.DropInSeat{Front: sixteenths(t, "front", 8, 30), Back: sixteenths(t, "back", 8, 30), Depth: sixteenths(t, "depth", 8, 30),
			Foam: sixteenths(t, "foam", 0, 4), Frame: sixteenths(t, "frame", 0.25, 2), Top: anyGoods(t), Webbed: flag(t, "webbed")}
		if s.Webbed {
			s.Under = made.Goods{ID: "lining"}
		}
		p, err := s.Make()
		w, ok := sound(t, p.Cover, err)
		require.True(t, ok, "%v", err)
		for _, f := range w.Fastenings[:4] {
			require.Equal(t, s.Foam+s.Frame+unit.Inch, f.Allowance)
		}
	})
	p, err := made.DropInSeat{Front: tapeInches(20), Depth: tapeInches(18), Foam: tapeInches(2), Frame: tapeInches(0.75), Top: roll(54)}.Make()
	w := worked(t, p, err)
	require.Equal(t, tapeInches(27.5), cutOf(t, w, "seat").Width, "3 3/4 in at each edge")
}

// Every skirt that is accepted is a sound cover, its pieces within the goods, and
// hangs from as much as it was made for.
func TestEverySkirtIsASoundCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := made.Skirt{Kind: made.SkirtKind(rapid.IntRange(1, 3).Draw(t, "kind")), Drop: sixteenths(t, "drop", 3, 20)}
		var base unit.Length
		for range rapid.IntRange(1, 5).Draw(t, "sides") {
			l := sixteenths(t, "side", 4, 100)
			s.Sides, base = append(s.Sides, l), base+l
		}
		if s.Kind == made.Gathered {
			s.Fullness = unit.Ratio(rapid.Float64Range(1.1, 4).Draw(t, "fullness"))
		}
		if s.Kind == made.PleatedAllRound {
			s.Pleats, s.Underfold = rapid.IntRange(1, 40).Draw(t, "pleats"), sixteenths(t, "underfold", 0.5, 4)
		}
		s.Bottom.Finish = rapid.SampledFrom([]allowance.Finish{allowance.DoubleHem, allowance.SingleHem, allowance.PlainSeam}).Draw(t, "bottom")
		s.Top.Finish = rapid.SampledFrom([]allowance.Finish{allowance.PlainSeam, allowance.WeltedSeam, allowance.TurnedUnder}).Draw(t, "top")
		s.Lined = s.Kind == made.KickPleats && flag(t, "lined")
		g := anyGoods(t)
		c, err := s.Cover(g)
		w, ok := sound(t, c, err)
		if !ok {
			return
		}
		for _, p := range w.Pieces {
			cut, err := p.Panel.Cut()
			require.NoError(t, err)
			if g.Across != 0 && p.Of != "underlay" {
				require.LessOrEqual(t, cut.Width, g.Across)
			}
		}
		if !s.Top.Finish.Seam() {
			return
		}
		var hangs float64
		for _, seam := range c.Seams {
			if seam.Open == "" {
				continue
			}
			for _, r := range w.Seams {
				if c.Seams[r.Seam].Open == seam.Open {
					hangs += float64(r.Sewn) / float64(seam.Fullness)
				}
			}
		}
		require.InEpsilon(t, float64(base), hangs, 0.2)
	})
}

// Every panel of channels that is accepted is a sound cover: as many lines as there
// are channels, less one, sewn or stitched through once each.
func TestEveryChannelPanelIsASoundCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := made.Channels{Width: sixteenths(t, "width", 8, 120), Height: sixteenths(t, "height", 6, 40), Count: rapid.IntRange(1, 12).Draw(t, "count"),
			Rise: sixteenths(t, "rise", 0.25, 2), OnePiece: flag(t, "one piece")}
		if !c.OnePiece && flag(t, "tapered") {
			c.TopWidth = sixteenths(t, "top", 8, 120)
		}
		if flag(t, "lined") {
			c.Lining = "lining"
		}
		g := anyGoods(t)
		cover, err := c.Cover(g)
		w, ok := sound(t, cover, err)
		if !ok {
			return
		}
		rows := 0
		for _, r := range w.Rows {
			if r.Kind == allowance.SeamRow || r.Kind == allowance.HemRow {
				rows++
			}
		}
		require.Equal(t, c.Count-1, rows)
		for _, p := range w.Pieces {
			cut, err := p.Panel.Cut()
			require.NoError(t, err)
			if c.OnePiece && g.Across != 0 && p.Goods == "cloth" {
				require.LessOrEqual(t, cut.Width, g.Across)
			}
		}
	})
}

// Neighbours of channels that taper are equally long, and each is narrower at its
// narrow end by its share.
func TestTaperedChannels(t *testing.T) {
	c := made.Channels{Width: tapeInches(40), TopWidth: tapeInches(30), Height: tapeInches(24), Count: 5, Rise: tapeInches(1)}
	cut, err := c.Cut()
	require.NoError(t, err)
	cover, err := c.Cover(roll(54))
	require.NoError(t, err)
	w, err := cover.Work(sewnGoods())
	require.NoError(t, err)
	for _, s := range w.Seams {
		require.Zero(t, s.Match.Difference)
	}
	o := w.Pieces[1].Panel.Outline
	for edge, want := range map[string]unit.Length{"bottom": cut.Cover, "top": cut.Top} {
		l, err := o.EdgeLength(edge)
		require.NoError(t, err)
		require.InDelta(t, float64(want), float64(l), 2, edge)
	}
	require.Less(t, cut.Top, cut.Cover)
}

// A tufted panel is one piece, or pieces within the goods, joined along the sides
// of diamonds: sewn up they are the whole.
func TestEveryTuftedPanelIsASoundCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := made.Tufting{Width: sixteenths(t, "width", 12, 120), Height: sixteenths(t, "height", 12, 40), Border: sixteenths(t, "border", 0, 3),
			Across: rapid.IntRange(1, 12).Draw(t, "across"), Down: rapid.IntRange(1, 6).Draw(t, "down"), Depth: sixteenths(t, "depth", 0, 2), Rule: made.TwiceDepth}
		g := anyGoods(t)
		cover, err := m.Cover(g)
		w, ok := sound(t, cover, err)
		if !ok {
			return
		}
		plan, err := m.Plan()
		require.NoError(t, err)
		net, err := plan.NetWidth.By(plan.NetHeight)
		require.NoError(t, err)
		var sum unit.Area
		for _, p := range w.Pieces {
			sum += p.Panel.Outline.Area()
			cut, err := p.Panel.Cut()
			require.NoError(t, err)
			if g.Across != 0 {
				require.LessOrEqual(t, cut.Width, g.Across)
			}
		}
		require.InDelta(t, float64(net), float64(sum), 1e5)
		require.Len(t, w.Seams, len(w.Pieces)-1)
		require.Equal(t, 2*(m.Across+m.Down), plan.EdgePleats)
	})
}
