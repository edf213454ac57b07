package job

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// cover gives the boxing strip.
func (x BoxingSpec) cover(at unit.Path, c catalog) (covered, faults) {
	g, ok, f := checked(at, x.Name, x.Count, x.Goods, c)
	f.add(at.Dot("perimeter"), check.Length("", x.Perimeter, minSide, check.Longest))
	f.add(at.Dot("depth"), checkSide(x.Depth))
	if x.ZipBack != 0 {
		f.add(at.Dot("zip_back"), checkSide(x.ZipBack))
	}
	if !ok || len(f) > 0 {
		return covered{}, f
	}
	cover, err := made.Boxing{Perimeter: x.Perimeter, Depth: x.Depth, Zip: x.ZipBack != 0, ZipLength: x.ZipBack}.Cover(g.forParts())
	f.add(at, check.Renamed(err, map[string]string{"zip_length": "zip_back"}))
	return madeUp(x.Name, cover), f
}

// cover gives the welt.
func (w WeltSpec) cover(at unit.Path, c catalog) (covered, faults) {
	g, ok, f := checked(at, w.Name, w.Count, w.Goods, c)
	f.add(at.Dot("runs"), check.Count("", len(w.Runs), 1, maxCount))
	for i, r := range w.Runs {
		f.add(at.Dot("runs").At(i), check.Length("", r, minSide, check.Longest))
	}
	if !ok || len(f) > 0 {
		return covered{}, f
	}
	m := made.Welt{Cord: w.Cord, Runs: w.Runs, Double: w.Double, Bias: w.Bias}
	cover, err := m.Cover(g.forParts())
	f.add(at, check.Renamed(err, map[string]string{"width": "cord", "longest": "goods", "length": "runs", "strip": "cord"}))
	out := madeUp(w.Name, cover)
	if err == nil {
		out.bench.bias, err = biasStrip(m, cover, g.forParts())
		f.add(at, err)
	}
	return out, f
}

// biasStrip is what the bench cuts the square of a welt into.
func biasStrip(w made.Welt, cover allowance.Cover, g made.Goods) (*BiasStrip, error) {
	width, err := w.Width(g)
	if err != nil || !w.Bias {
		return nil, err
	}
	long := cover.Panels[len(cover.Panels)-1].Welt
	if w.Double {
		long /= 2 // of the two cords
	}
	sq, err := made.WeltSquare(long, width)
	return &BiasStrip{Width: width, Length: sq.Length, Turns: sq.Turns}, err
}

// cover gives the skirt.
func (s SkirtSpec) cover(at unit.Path, c catalog) (covered, faults) {
	g, ok, f := checked(at, s.Name, s.Count, s.Goods, c)
	f.add(at.Dot("sides"), check.Count("", len(s.Sides), 1, 100))
	for i, l := range s.Sides {
		f.add(at.Dot("sides").At(i), checkSide(l))
	}
	f.add(at.Dot("drop"), checkSide(s.Drop))
	for _, x := range []struct {
		name  unit.Path
		given bool
		kind  made.SkirtKind
	}{
		{"fullness", s.Fullness != 0, made.Gathered}, {"pleat", s.Pleat != 0, made.PleatedAllRound}, {"pleats", s.Pleats != 0, made.PleatedAllRound},
		{"underfold", s.Underfold != 0, made.PleatedAllRound}, {"lined", s.Lined, made.KickPleats}, {"pattern", s.Pattern != 0, made.KickPleats},
	} {
		if x.given && x.kind != s.Kind {
			f.misplaced(at.Dot(x.name), "only fields of this kind of skirt ("+s.Kind.String()+")")
		}
	}
	if !ok || len(f) > 0 {
		return covered{}, f
	}
	m := made.Skirt{Kind: s.Kind, Sides: s.Sides, Drop: s.Drop, Top: s.Top, Bottom: allowance.Edge{Finish: allowance.DoubleHem}, Fullness: s.Fullness,
		Pleat: s.Pleat, Pleats: s.Pleats, Underfold: s.Underfold, Lined: s.Lined, Pattern: s.Pattern}
	if s.Bottom != nil {
		m.Bottom = *s.Bottom
	}
	cover, err := m.Cover(g.forParts())
	f.add(at, err)
	return madeUp(s.Name, cover), f
}

// cover gives the tufted panel.
func (t TuftedSpec) cover(at unit.Path, c catalog) (covered, faults) {
	g, ok, f := checked(at, t.Name, t.Count, t.Goods, c)
	f.add(at.Dot("width"), checkSide(t.Width))
	f.add(at.Dot("length"), checkSide(t.Length))
	if !ok || len(f) > 0 {
		return covered{}, f
	}
	m := t.tufting()
	words := map[string]string{"height": "length"}
	plan, err := m.Plan()
	if err != nil {
		f.add(at, check.Renamed(err, words))
		return covered{}, f
	}
	cover, err := m.Cover(g.forParts())
	f.add(at, check.Renamed(err, words))
	out := madeUp(t.Name, cover)
	if len(cover.Panels) == 1 { // the part itself
		cover.Panels[0].Name, out.part = t.Name, ""
	}
	out.bench.finished, out.bench.tufting = Size{t.Width, t.Length}, &plan
	return out, f
}

func (t TuftedSpec) tufting() made.Tufting {
	m := made.Tufting{Width: t.Width, Height: t.Length, Border: t.Border, Across: t.Across, Down: t.Down, Depth: t.Depth, Rule: t.Rule}
	if t.Tack != nil {
		m.Tack = allowance.Exactly(*t.Tack)
	}
	return m
}

// cover gives the channels.
func (x ChannelsSpec) cover(at unit.Path, c catalog) (covered, faults) {
	g, ok, f := checked(at, x.Name, x.Count, x.Goods, c)
	f.add(at.Dot("width"), checkSide(x.Width))
	f.add(at.Dot("length"), checkSide(x.Length))
	if x.TopWidth != 0 {
		f.add(at.Dot("top_width"), checkSide(x.TopWidth))
	}
	if x.Lining != "" {
		_, found, err := c.find(x.Lining)
		f.add(at.Dot("lining"), err)
		ok = ok && found
	}
	if !ok || len(f) > 0 {
		return covered{}, f
	}
	m := made.Channels{Width: x.Width, Height: x.Length, Count: x.Number, Rise: x.Rise, Profile: x.Profile, TopWidth: x.TopWidth, OnePiece: x.OnePiece, Lining: x.Lining}
	if x.Pull != nil {
		m.Pull = allowance.Exactly(*x.Pull)
	}
	words := map[string]string{"height": "length", "count": "number"}
	cut, err := m.Cut()
	if err != nil {
		f.add(at, check.Renamed(err, words))
		return covered{}, f
	}
	cover, err := m.Cover(g.forParts())
	f.add(at, check.Renamed(err, words))
	out := madeUp(x.Name, cover)
	out.bench.channels = &cut
	return out, f
}
