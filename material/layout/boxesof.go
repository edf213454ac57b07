package layout

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// BoxOf makes a piece of a rectangle that is cut.
func BoxOf(cut allowance.RectCut, count int) Box {
	return Box{Name: cut.Name, Width: cut.Width, Length: cut.Height, Count: count}
}

// BoxAround makes a piece of the rectangle around a panel of any shape that is
// cut; [RollPanelOf] takes its outline.
func BoxAround(cut allowance.PanelCut, count int) Box {
	return Box{Name: cut.Name, Width: cut.Width, Length: cut.Height, Count: count}
}

// BoxesOfStrips makes pieces of strips. They lie across the roll, or along it
// where the goods allow it, and not on the repeat.
func BoxesOfStrips(strips ...made.Strip) []Box {
	out := make([]Box, len(strips))
	for i, s := range strips {
		out[i] = Box{Name: s.Use, Width: s.Length, Length: s.Width, Count: s.Count, Turn: Railroad, Unmatched: true}
	}
	return out
}

// MadeUp are the results of package made whose pieces are rectangles, or have
// rectangles around them.
type MadeUp interface {
	made.KnifeEdgeCut | made.BoxedCut | made.RoundCut | made.TCut | made.WaterfallCut | made.BolsterCut |
		made.BoxingCut | made.WeltCut | made.SkirtCut | made.ChannelsCut | made.TuftPlan
}

// BoxesOf makes the pieces of count made-up parts that are alike: plates,
// bodies, skirts and channels as they are drawn, up the roll and on the repeat;
// boxing, zip and welt strips as BoxesOfStrips has them. Round plates and ends
// and T plates are the boxes around them. The welt of a cushion is a length, no
// piece; take that of [made.WeltRun].
func BoxesOf[M MadeUp](cut M, count int) []Box {
	out := boxesOf(cut)
	for i := range out {
		out[i].Count *= count
	}
	return out
}

func boxesOf(cut any) []Box {
	upright := func(name string, width, length unit.Length, count int) []Box {
		return []Box{{Name: name, Width: width, Length: length, Count: count}}
	}
	with := func(plate []Box, boxing made.BoxingCut) []Box {
		return append(plate, BoxesOfStrips(boxing.Pieces...)...)
	}
	switch c := cut.(type) {
	case made.KnifeEdgeCut:
		return upright("panel", c.Panel.Width, c.Panel.Height, c.Panels)
	case made.BoxedCut:
		return with(upright("plate", c.Plate.Width, c.Plate.Height, c.Plates), c.Boxing)
	case made.RoundCut:
		return with(upright("plate", c.Plate, c.Plate, c.Plates), c.Boxing)
	case made.TCut:
		return with(upright("plate", c.Width, c.Depth, c.Plates), c.Boxing)
	case made.WaterfallCut:
		return append(upright("main", c.MainWidth, c.MainLength, 1), BoxesOfStrips(
			made.Strip{Use: "side", Count: 2, Width: c.SideWidth, Length: c.SideLength},
			made.Strip{Use: "zip", Count: 2, Width: c.ZipWidth, Length: c.ZipLength})...)
	case made.BolsterCut:
		return append(upright("body", c.BodyLength, c.BodyGirth, 1), upright("end", c.End, c.End, 2)...)
	case made.BoxingCut:
		return BoxesOfStrips(c.Pieces...)
	case made.WeltCut:
		return BoxesOfStrips(c.Strips...)
	case made.SkirtCut:
		out := BoxesOfStrips(c.Pieces...)
		for i := range out {
			out[i].Turn, out[i].Unmatched = KeepGrain, false
		}
		return out
	case made.ChannelsCut:
		var out []Box
		for _, s := range c.Pieces {
			out = append(out, upright(s.Use, s.Width, s.Length, s.Count)...)
		}
		return out
	case made.TuftPlan:
		return upright("tufted panel", c.CutWidth, c.CutHeight, 1)
	}
	return nil
}
